// files/find.hpp: which files lie below a folder?
#pragma once

#include <filesystem>
#include <map>
#include <set>
#include <string>

#include "diagnose/diagnostic.hpp"

namespace coeval {

struct FoundFiles {
  // Path relative to the root, with '/' between its parts → where it really lies, without links. As texts: paths keep
  // each of their parts, 0.5 kB for a file.
  std::map<std::string, std::string> entries; // names in .toml
  std::set<std::string, std::less<>> assets;  // every other file
  bool complete = true;                       // everything was listed; where not, a report says why
};

// `most`: files and folders, more than which stops the search with a report.
[[nodiscard]] FoundFiles find_files(const std::filesystem::path& root, std::size_t most, Diagnostics& out);

// What an errno of the operating system means, in the same words on every machine.
[[nodiscard]] std::string failure_words(int error);

// A report on a file or folder as a whole.
[[nodiscard]] Diagnostic about(Code code, std::string path, std::string message, std::string help);

} // namespace coeval
