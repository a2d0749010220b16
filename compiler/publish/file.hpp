// publish/file.hpp: how does one file, or one new folder, get to its place, whole or not at all?
//
// Whoever opens the place, whenever, finds what was there or what is new, each whole (waiting_file.hpp). What stands
// there is replaced only where that was asked for, or where it is an earlier file of ours.
#pragma once

#include <cstddef>
#include <filesystem>
#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include <sys/types.h>

#include "diagnose/diagnostic.hpp"

namespace coeval {

struct Replacing {
  bool anything = false;                      // whatever regular file is there
  std::function<bool(std::string_view)> ours; // told from its beginning
  std::size_t beginning = 0;                  // that many bytes of it, or all where it has fewer
};

// A link, a folder or a device is never replaced; a file that is keeps its permissions. `mode` is that of a new one, of
// which the umask takes its share. False where `out` says why it was not written, or that only the flushing failed.
[[nodiscard]] bool write_whole_file(const std::filesystem::path& path, std::string_view bytes,
                                    const Replacing& replacing, Diagnostics& out, mode_t mode = 0666);

// Gives a file that is there another content, where it still says `before`; through a link, the file that it leads to.
// Permissions stay, and the owner where that is allowed; other names of the file (hard links), access lists and
// extended attributes do not move along. False as above, or where the file was changed or is being written meanwhile.
[[nodiscard]] bool change_file(const std::filesystem::path& path, std::string_view before, std::string_view after,
                               Diagnostics& out);

// A folder of files that must not be there yet, or be empty. Paths are as in `is_output_path`.
struct NewFile {
  std::string path;
  std::string bytes;
};
[[nodiscard]] bool write_new_folder(const std::filesystem::path& folder, const std::vector<NewFile>& files,
                                    Diagnostics& out);

} // namespace coeval
