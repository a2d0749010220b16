// publish/file.hpp: how does one file get to its place, whole or not at all?
//
// It waits beside its place under a hidden name, is flushed to the disk and then renamed, so that whoever opens the
// place finds the old file or the new one. What stands there is replaced only where that was asked for, or where it is
// an earlier file of ours; a link, a folder or a device never is.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "diagnose/diagnostic.hpp"

namespace coeval {

struct Replacing {
  bool anything = false;                      // whatever regular file is there
  std::function<bool(std::string_view)> ours; // told from its beginning
  std::size_t beginning = 0;                  // that many bytes of it, or all where it has fewer
};

// False where it was not written, and then `out` says why and nothing has changed.
[[nodiscard]] bool write_whole_file(const std::filesystem::path& path, std::string_view bytes,
                                    const Replacing& replacing, Diagnostics& out);

// A folder of files that must not be there yet, or be empty. Paths are as in `is_output_path`.
struct NewFile {
  std::string path;
  std::string bytes;
};
[[nodiscard]] bool write_new_folder(const std::filesystem::path& folder, const std::vector<NewFile>& files,
                                    Diagnostics& out);

} // namespace coeval
