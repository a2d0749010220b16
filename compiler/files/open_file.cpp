#include "files/open_file.hpp"

#include <algorithm>
#include <cerrno>

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr int to_read = O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY | O_NOFOLLOW;

} // namespace

OpenFile::OpenFile(const std::string& path) : handle_(::open(path.c_str(), to_read)) {
  if (handle_ < 0) error_ = errno;
}

OpenFile::OpenFile(const std::filesystem::path& root, const std::filesystem::path& below)
    : handle_(::open(root.c_str(), O_RDONLY | O_CLOEXEC | O_DIRECTORY)) {
  for (auto part = below.begin(); handle_ >= 0 && part != below.end(); ++part) {
    const bool last = std::next(part) == below.end();
    const int next = ::openat(handle_, part->c_str(), last ? to_read : to_read | O_DIRECTORY);
    if (next < 0) error_ = errno;
    ::close(handle_);
    handle_ = next;
  }
  if (handle_ < 0 && error_ == 0) error_ = errno;
}

OpenFile::~OpenFile() {
  if (handle_ >= 0) ::close(handle_);
}

OpenFile::Content OpenFile::read(std::size_t most) const {
  Content content;
  struct stat status {};
  if (handle_ < 0) {
    content.error = error_;
    return content;
  }
  if (::fstat(handle_, &status) != 0) {
    content.error = errno;
    return content;
  }
  if (!S_ISREG(status.st_mode)) {
    content.error = EINVAL;
    return content;
  }
  // Room for one byte more than the file says to have, to see that it ends there; one that has more is read on.
  const std::size_t expected = status.st_size > 0 ? static_cast<std::size_t>(status.st_size) : 4095;
  std::string& text = content.text;
  text.resize(std::min(most, expected) + 1);
  std::size_t filled = 0;
  while (filled <= most) {
    if (filled == text.size()) text.resize(std::min(most + 1, 2 * filled));
    const ssize_t count = ::read(handle_, text.data() + filled, text.size() - filled);
    if (count < 0 && errno == EINTR) continue;
    if (count < 0) content.error = errno;
    if (count <= 0) break;
    filled += static_cast<std::size_t>(count);
  }
  text.resize(filled);
  return content;
}

std::string size_words(std::size_t bytes) {
  return bytes % (1U << 20) == 0 ? fmt::format("{} MiB", bytes >> 20) : fmt::format("{} bytes", bytes);
}

} // namespace coeval
