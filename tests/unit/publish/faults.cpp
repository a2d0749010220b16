// The linker sends the calls here (--wrap, tests/CMakeLists.txt).
#include "faults.hpp"

#include <cerrno>
#include <csignal>
#include <cstdarg>

#include <fcntl.h>
#include <unistd.h>

namespace {

int fault_at = 0;
int fault_error = 0;
int seen = 0;

bool fails() {
  if (++seen != fault_at) return false;
  if (fault_error == 0) ::kill(::getpid(), SIGKILL);
  errno = fault_error;
  return true;
}

} // namespace

namespace coeval::publishing {

void set_fault(int at, int error) {
  fault_at = at;
  fault_error = error;
  seen = 0;
}

void clear_fault() { set_fault(0, 0); }
int calls_seen() { return seen; }

} // namespace coeval::publishing

extern "C" {

int __real_openat(int folder, const char* path, int flags, ...);
int __real_mkdirat(int folder, const char* path, mode_t mode);
ssize_t __real_write(int file, const void* bytes, size_t count);
int __real_renameat(int from_folder, const char* from, int to_folder, const char* to);
int __real_renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags);
int __real_unlinkat(int folder, const char* path, int flags);
int __real_fsync(int file);
int __real_fchown(int file, uid_t owner, gid_t group);
int __real_fchmod(int file, mode_t mode);

int __wrap_openat(int folder, const char* path, int flags, ...) {
  mode_t mode = 0;
  if ((flags & O_CREAT) != 0) {
    va_list rest;
    va_start(rest, flags);
    mode = va_arg(rest, mode_t);
    va_end(rest);
    if (fails()) return -1;
  }
  return __real_openat(folder, path, flags, mode);
}

int __wrap_mkdirat(int folder, const char* path, mode_t mode) {
  return fails() ? -1 : __real_mkdirat(folder, path, mode);
}

ssize_t __wrap_write(int file, const void* bytes, size_t count) {
  if (seen + 1 == fault_at) (void)__real_write(file, bytes, count / 2);
  return fails() ? -1 : __real_write(file, bytes, count);
}

int __wrap_renameat(int from_folder, const char* from, int to_folder, const char* to) {
  return fails() ? -1 : __real_renameat(from_folder, from, to_folder, to);
}

int __wrap_renameat2(int from_folder, const char* from, int to_folder, const char* to, unsigned flags) {
  return fails() ? -1 : __real_renameat2(from_folder, from, to_folder, to, flags);
}

int __wrap_fsync(int file) { return fails() ? -1 : __real_fsync(file); }

int __wrap_fchown(int file, uid_t owner, gid_t group) { return fails() ? -1 : __real_fchown(file, owner, group); }

int __wrap_fchmod(int file, mode_t mode) { return fails() ? -1 : __real_fchmod(file, mode); }

int __wrap_unlinkat(int folder, const char* path, int flags) {
  return fails() ? -1 : __real_unlinkat(folder, path, flags);
}

} // extern "C"
