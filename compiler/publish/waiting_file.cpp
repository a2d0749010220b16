#include "publish/waiting_file.hpp"

#include <cerrno>
#include <cstdio>
#include <utility>

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr int looking = O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_NOCTTY | O_CLOEXEC;
constexpr int making = O_RDWR | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC;

bool leads_to(int folder, const std::string& name, int file) {
  struct stat named {};
  struct stat open {};
  return ::fstatat(folder, name.c_str(), &named, AT_SYMLINK_NOFOLLOW) == 0 && ::fstat(file, &open) == 0 &&
         named.st_dev == open.st_dev && named.st_ino == open.st_ino;
}

// What nobody holds was left behind. Where a file system knows no locks nobody can tell, and it stays.
int clear_left_behind(int folder, const std::string& name) {
  const Handle file{::openat(folder, name.c_str(), looking)};
  if (!file.is_open()) return errno == ENOENT ? 0 : errno;
  if (::flock(file.number(), LOCK_EX | LOCK_NB) != 0 || !leads_to(folder, name, file.number())) return EWOULDBLOCK;
  return ::unlinkat(folder, name.c_str(), 0) == 0 ? 0 : errno;
}

// Some file systems cannot be asked.
int flush(int file) { return ::fsync(file) == 0 || errno == EINVAL || errno == ENOSYS ? 0 : errno; }

int make_like(int file, const struct stat& like) {
  constexpr mode_t group = 070;
  mode_t mode = like.st_mode & 0777U;
  if (::fchown(file, like.st_uid, like.st_gid) != 0) {
    if (errno != EPERM) return errno;
    // Another owner can be given by root alone. What its group might do, ours may only where everybody may.
    if (::fchown(file, static_cast<uid_t>(-1), like.st_gid) != 0) mode = (mode & ~group) | ((mode << 3U) & group);
  }
  return ::fchmod(file, mode) == 0 ? 0 : errno; // last, for a new owner takes bits from it
}

} // namespace

WaitingFile::WaitingFile(int folder, const std::string& name)
    : folder_(folder), name_(name), waiting_name_(fmt::format(".{}.coeval-new", name)) {}

WaitingFile::WaitingFile(WaitingFile&& other) noexcept
    : folder_(other.folder_), name_(std::move(other.name_)), waiting_name_(std::exchange(other.waiting_name_, {})),
      has_name_(other.has_name_), file_(std::move(other.file_)) {}

WaitingFile::~WaitingFile() {
  if (!waiting_name_.empty()) (void)::unlinkat(folder_, waiting_name_.c_str(), 0);
}

std::optional<WaitingFile> WaitingFile::open(int folder, const std::string& name, mode_t mode, int& error) {
  WaitingFile waiting{folder, name};
  const std::string hidden = std::exchange(waiting.waiting_name_, {}); // until it is ours
  error = clear_left_behind(folder, hidden);
  if (error != 0) return {};
  waiting.file_ = Handle{::openat(folder, hidden.c_str(), making, mode)};
  if (!waiting.file_.is_open()) {
    error = errno == EEXIST ? EWOULDBLOCK : errno;
    return {};
  }
  // Before it was locked another program may have taken it for left behind.
  const bool held = ::flock(waiting.file_.number(), LOCK_EX | LOCK_NB) == 0 || errno != EWOULDBLOCK;
  if (!held || !leads_to(folder, hidden, waiting.file_.number())) {
    error = EWOULDBLOCK;
    return {};
  }
  waiting.waiting_name_ = hidden;
  return waiting;
}

int WaitingFile::fill(std::string_view bytes, const struct stat* like) {
  if (const int error = write_all(file_.number(), bytes)) return error;
  if (like != nullptr)
    if (const int error = make_like(file_.number(), *like)) return error;
  return flush(file_.number());
}

int WaitingFile::take_free_name() {
  if (const int error = rename_to_free(folder_, waiting_name_, folder_, name_)) return error;
  return taken();
}

int WaitingFile::take_name() {
  if (::renameat(folder_, waiting_name_.c_str(), folder_, name_.c_str()) != 0) return errno;
  return taken();
}

int WaitingFile::taken() {
  waiting_name_.clear();
  has_name_ = true;
  return flush(folder_);
}

} // namespace coeval
