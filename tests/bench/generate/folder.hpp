// folder.hpp: how does a generated knowledge base get onto a disk?
#pragma once

#include <filesystem>

#include "generate/written.hpp"

namespace generated {

// Into a folder that is not there yet, or is empty. Ends the program with a message where it cannot be written.
Written write_folder(const Plan& plan, const std::filesystem::path& folder);

} // namespace generated
