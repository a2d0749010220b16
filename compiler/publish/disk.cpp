#include "publish/disk.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdio>
#include <memory>
#include <utility>
#include <vector>

#include <dirent.h>
#include <fcntl.h>
#include <unistd.h>

namespace coeval {
namespace {

constexpr int folder_flags = O_RDONLY | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC;

int make_folders(int root, const std::string& path) {
  for (std::size_t slash = path.find('/'); slash != std::string::npos; slash = path.find('/', slash + 1))
    if (::mkdirat(root, path.substr(0, slash).c_str(), 0777) != 0 && errno != EEXIST) return errno;
  return 0;
}

int remove_below(int folder, const std::string& name, int depth) {
  constexpr int deepest = 100; // somebody else's work: ours goes nowhere near this deep
  if (::unlinkat(folder, name.c_str(), 0) == 0 || errno == ENOENT) return 0;
  if (errno != EISDIR && errno != EPERM) return errno;
  if (depth > deepest) return ENAMETOOLONG;
  const Handle inside{::openat(folder, name.c_str(), folder_flags)};
  if (!inside.is_open()) return errno;
  const Listing list = list_folder(inside.number(), ".");
  if (list.error != 0) return list.error;
  for (const std::string& below : list.names)
    if (const int error = remove_below(inside.number(), below, depth + 1)) return error;
  return ::unlinkat(folder, name.c_str(), AT_REMOVEDIR) == 0 ? 0 : errno;
}

} // namespace

Handle::Handle(Handle&& other) noexcept : number_(std::exchange(other.number_, -1)) {}

Handle& Handle::operator=(Handle&& other) noexcept {
  std::swap(number_, other.number_);
  return *this;
}

Handle::~Handle() {
  if (number_ >= 0) ::close(number_);
}

int Handle::close() {
  const int number = std::exchange(number_, -1);
  return number < 0 || ::close(number) == 0 || errno == EINTR ? 0 : errno;
}

int FolderWalk::go(std::string_view folder) {
  if (folder == folder_) return 0;
  // From the folder where it stands, where that lies on the way; else from the root.
  const bool below = !folder_.empty() && folder.size() > folder_.size() && folder.starts_with(folder_) &&
                     folder[folder_.size()] == '/';
  if (!below) forget();
  std::size_t start = below ? folder_.size() + 1 : 0;
  while (start < folder.size()) {
    const std::size_t end = std::min(folder.find('/', start), folder.size());
    const std::string part{folder.substr(start, end - start)};
    Handle next{::openat(here(), part.c_str(), folder_flags)};
    if (!next.is_open()) {
      const int error = errno;
      stopped_at_ = folder.substr(0, end);
      return error;
    }
    handle_ = std::move(next);
    folder_ = folder.substr(0, end);
    start = end + 1;
  }
  return 0;
}

void FolderWalk::forget() {
  handle_ = Handle{};
  folder_.clear();
}

std::int64_t modified_ns(const struct stat& status) {
  return std::int64_t{status.st_mtim.tv_sec} * 1'000'000'000 + status.st_mtim.tv_nsec;
}

ReadResult read_file(int folder, const std::string& name, std::size_t most) {
  ReadResult result;
  const Handle file{::openat(folder, name.c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC)};
  struct stat status {};
  if (!file.is_open() || ::fstat(file.number(), &status) != 0) {
    result.error = errno;
    return result;
  }
  if (!S_ISREG(status.st_mode)) {
    result.error = EINVAL;
    return result;
  }
  result.bytes.reserve(std::min(most, static_cast<std::size_t>(status.st_size))); // it may grow meanwhile
  std::array<char, 1 << 16> part{};
  for (;;) {
    const ssize_t count = ::read(file.number(), part.data(), part.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) result.error = errno;
    if (count <= 0) return result;
    result.bytes.append(part.data(), static_cast<std::size_t>(count));
    if (result.bytes.size() > most) {
      result.error = EFBIG;
      return result;
    }
  }
}

int write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t count = ::write(file, bytes.data(), bytes.size());
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(count));
  }
  return 0;
}

WriteResult write_new_file(int root, const std::string& path, std::string_view bytes) {
  WriteResult result;
  constexpr int flags = O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC;
  int number = ::openat(root, path.c_str(), flags, 0666);
  if (number < 0 && errno == ENOENT) {
    result.error = make_folders(root, path);
    if (result.error != 0) return result;
    number = ::openat(root, path.c_str(), flags, 0666);
  }
  Handle file{number};
  struct stat status {};
  if (!file.is_open()) {
    result.error = errno;
    return result;
  }
  result.error = write_all(number, bytes);
  if (result.error == 0 && ::fstat(number, &status) != 0) result.error = errno;
  if (const int error = file.close(); result.error == 0) result.error = error;
  result.modified = modified_ns(status);
  return result;
}

int flush_file(int folder, const std::string& name) {
  const Handle file{::openat(folder, name.c_str(), O_RDONLY | O_NOFOLLOW | O_CLOEXEC)};
  if (file.is_open() && ::fdatasync(file.number()) == 0) return 0;
  return errno == EINVAL || errno == ENOSYS ? 0 : errno; // some file systems cannot be asked
}

int rename_to_free(int from_folder, const std::string& from, int to_folder, const std::string& to) {
  if (::renameat2(from_folder, from.c_str(), to_folder, to.c_str(), RENAME_NOREPLACE) == 0) return 0;
  if (errno != EINVAL && errno != ENOSYS) return errno;
  // A file system that cannot promise it: the next best is to look first.
  struct stat status {};
  if (::fstatat(to_folder, to.c_str(), &status, AT_SYMLINK_NOFOLLOW) == 0) return EEXIST;
  return ::renameat(from_folder, from.c_str(), to_folder, to.c_str()) == 0 ? 0 : errno;
}

Listing list_folder(int folder, const std::string& name) {
  struct Closer {
    void operator()(DIR* open) const { ::closedir(open); }
  };
  Listing listing;
  const int inside = ::openat(folder, name.c_str(), folder_flags);
  const std::unique_ptr<DIR, Closer> list{inside < 0 ? nullptr : ::fdopendir(inside)}; // closes `inside` with it
  if (!list) {
    listing.error = errno;
    if (inside >= 0) ::close(inside);
    return listing;
  }
  errno = 0;
  while (const dirent* entry = ::readdir(list.get()))
    if (const std::string_view found = entry->d_name; found != "." && found != "..") listing.names.emplace_back(found);
  listing.error = errno;
  return listing;
}

int remove_tree(int folder, const std::string& name) { return remove_below(folder, name, 0); }

} // namespace coeval
