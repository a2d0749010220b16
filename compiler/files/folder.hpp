// files/folder.hpp: what is in all the files of a folder, a template say?
#pragma once

#include <filesystem>
#include <map>
#include <string>

#include "diagnose/diagnostic.hpp"

namespace coeval {

// Path below `root`, with '/' between its parts → bytes. Names that start with a dot are passed over, links are
// followed as in a knowledge base, and what cannot be read or is too large is reported.
[[nodiscard]] std::map<std::string, std::string> read_folder(const std::filesystem::path& root, Diagnostics& out);

} // namespace coeval
