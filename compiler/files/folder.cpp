#include "files/folder.hpp"

#include <set>

#include "files/asset.hpp"
#include "files/find.hpp"
#include "files/load.hpp"

namespace coeval {

std::map<std::string, std::string> read_folder(const std::filesystem::path& root, Diagnostics& out) {
  const FoundFiles found = find_files(root, LoadLimits{}.files, out);
  std::set<std::string, std::less<>> paths = found.assets;
  for (const auto& [path, real] : found.entries) paths.insert(path);
  std::map<std::string, std::string> files;
  for (const std::string& path : paths)
    if (auto bytes = read_asset(root, path, out)) files.emplace(path, std::move(*bytes));
  return files;
}

} // namespace coeval
