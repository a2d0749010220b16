// publish/disk.hpp: what may happen to files below a folder, without ever leaving it?
//
// Everything here goes part by part below an open folder and refuses symbolic links. A failure is an errno, 0 for none.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include <sys/stat.h>

#include "publish/manifest.hpp"

namespace coeval {

// An open file or folder; closes itself.
class Handle {
public:
  Handle() = default;
  explicit Handle(int number) : number_(number) {}
  Handle(Handle&& other) noexcept;
  Handle& operator=(Handle&& other) noexcept;
  ~Handle();
  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] bool is_open() const { return number_ >= 0; }
  int close(); // some file systems say only now that a disk was full

private:
  int number_ = -1;
};

// Goes to folders below one, and remembers the last: paths in order cost one step each. For one thread.
class FolderWalk {
public:
  explicit FolderWalk(int root) : root_(root) {}

  // Goes to `folder` ("" is the root). Where that fails, `reached()` is still a folder, and `stopped_at` tells which
  // part is missing (ENOENT), no folder or a link (ENOTDIR, ELOOP), or shut.
  [[nodiscard]] int go(std::string_view folder);
  [[nodiscard]] int root() const { return root_; }
  [[nodiscard]] int here() const { return handle_.is_open() ? handle_.number() : root_; }
  [[nodiscard]] const std::string& stopped_at() const { return stopped_at_; } // path below the root
  // To be called after something was put in the place of a folder, or a folder was removed.
  void forget();

private:
  int root_;
  Handle handle_; // of `folder_`, unless that is the root
  std::string folder_;
  std::string stopped_at_;
};

[[nodiscard]] std::int64_t modified_ns(const struct stat& status);

// The content of a regular file of at most `most` bytes. EFBIG for a larger one, EINVAL for what is no regular file.
struct ReadResult {
  std::string bytes;
  int error = 0;
};
[[nodiscard]] ReadResult read_file(int folder, const std::string& name, std::size_t most);

// All of it, to an open file.
[[nodiscard]] int write_all(int file, std::string_view bytes);

// Writes a file that must not exist yet, below `root`, with the folders above it.
struct WriteResult {
  std::int64_t modified = 0; // nanoseconds since 1970
  int error = 0;
};
[[nodiscard]] WriteResult write_new_file(int root, const std::string& path, std::string_view bytes);

// Waits until the content of a file is on the disk.
[[nodiscard]] int flush_file(int folder, const std::string& name);

// Renames to where nothing may stand: EEXIST where something does.
[[nodiscard]] int rename_to_free(int from_folder, const std::string& from, int to_folder, const std::string& to);

// The names in a folder, in no order.
struct Listing {
  std::vector<std::string> names;
  int error = 0;
};
[[nodiscard]] Listing list_folder(int folder, const std::string& name);

// Removes a file, a link itself or a folder with everything in it.
[[nodiscard]] int remove_tree(int folder, const std::string& name);

} // namespace coeval
