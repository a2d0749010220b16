#include "publish/file.hpp"

#include <cerrno>
#include <cstdio>

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include "publish/disk.hpp"
#include "publish/path.hpp"
#include "publish/reports.hpp"
#include "publish/waiting_file.hpp"

namespace coeval {
namespace {

constexpr int open_folder = O_RDONLY | O_DIRECTORY | O_CLOEXEC;

std::filesystem::path folder_above(const std::filesystem::path& path) {
  return path.has_parent_path() ? path.parent_path() : std::filesystem::path{"."};
}

// A name beside the folder for as long as this program writes; nobody else's, as no two programs have one number.
std::string waiting_folder_name() { return fmt::format(".coeval-{}", ::getpid()); }

bool report(const std::filesystem::path& path, Code code, std::string message, std::string help, Diagnostics& out) {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.path = path.string();
  diagnostic.message = std::move(message);
  diagnostic.help = std::move(help);
  out.report(std::move(diagnostic));
  return false;
}

bool failed(const std::filesystem::path& path, int error, Diagnostics& out) {
  PublishReports{path.string()}.failed({}, error, out);
  return false;
}

// A failure to write one file; `waiting` where it came that far.
bool failed(const std::filesystem::path& path, int error, const std::optional<WaitingFile>& waiting, Diagnostics& out) {
  if (error == EWOULDBLOCK)
    return report(path, Code::file_in_use, "another program is writing this file",
                  "wait until it has ended, then try again", out);
  if (waiting && waiting->has_name())
    return report(path, Code::unwritable_folder,
                  fmt::format("this was written, but may not outlast a power cut: {}", write_failure_words(error)),
                  "look after the disk, then write it again", out);
  return failed(path, error, out);
}

enum class AtPlace : std::uint8_t { nothing, replaceable, foreign, no_file, shut };

AtPlace look(int folder, const std::string& name, const Replacing& replacing, struct stat& status, int& error) {
  if (::fstatat(folder, name.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0) {
    error = errno;
    return error == ENOENT ? AtPlace::nothing : AtPlace::shut;
  }
  if (!S_ISREG(status.st_mode)) return AtPlace::no_file;
  if (replacing.anything) return AtPlace::replaceable;
  const ReadResult read = read_file(folder, name, replacing.beginning);
  const bool readable = read.error == 0 || read.error == EFBIG;
  return readable && replacing.ours && replacing.ours(std::string_view{read.bytes}.substr(0, replacing.beginning))
             ? AtPlace::replaceable
             : AtPlace::foreign;
}

} // namespace

bool write_whole_file(const std::filesystem::path& path, std::string_view bytes, const Replacing& replacing,
                      Diagnostics& out, mode_t mode) {
  const std::string name = path.filename().string();
  if (name.empty() || name == "." || name == "..")
    return report(path, Code::unwritable_folder, "this is no name of a file", "add the file's name", out);
  const Handle folder{::open(folder_above(path).c_str(), open_folder)};
  if (!folder.is_open())
    return report(path, Code::unwritable_folder, "its folder is not there, or cannot be opened",
                  "make the folder first, or choose another", out);
  int error = 0;
  struct stat status {};
  const AtPlace there = look(folder.number(), name, replacing, status, error);
  if (there == AtPlace::shut) return failed(path, error, out);
  if (there == AtPlace::no_file)
    return report(path, Code::foreign_file, "a folder, a link or a device stands there", "choose another name", out);
  if (there == AtPlace::foreign)
    return report(path, Code::foreign_file,
                  replacing.ours ? "this file is there already, and not from an earlier export of this kind"
                                 : "this file is there already",
                  "choose another name, or replace it with --replace", out);
  const bool is_new = there == AtPlace::nothing;
  auto waiting = WaitingFile::open(folder.number(), name, mode, error);
  if (waiting) error = waiting->fill(bytes, is_new ? nullptr : &status);
  if (waiting && error == 0) error = is_new ? waiting->take_free_name() : waiting->take_name();
  return error == 0 || failed(path, error, waiting, out);
}

bool change_file(const std::filesystem::path& path, std::string_view before, std::string_view after, Diagnostics& out) {
  std::error_code unresolved;
  const std::filesystem::path real = std::filesystem::canonical(path, unresolved);
  if (unresolved) return failed(path, unresolved.value(), out);
  const std::string name = real.filename().string();
  const Handle folder{::open(folder_above(real).c_str(), open_folder)};
  if (!folder.is_open()) return failed(path, errno, out);
  int error = 0;
  auto waiting = WaitingFile::open(folder.number(), name, 0600, error);
  if (!waiting) return failed(path, error, waiting, out);
  struct stat status {};
  if (::fstatat(folder.number(), name.c_str(), &status, AT_SYMLINK_NOFOLLOW) != 0) return failed(path, errno, out);
  error = waiting->fill(after, &status);
  if (error != 0) return failed(path, error, waiting, out);
  // As late as can be: an editor asks for no lock.
  const ReadResult now = read_file(folder.number(), name, before.size());
  if (now.error != 0 && now.error != EFBIG) return failed(path, now.error, out);
  if (now.bytes != before)
    return report(path, Code::file_in_use, "this file was changed since it was read", "do the same again", out);
  error = waiting->take_name();
  return error == 0 || failed(path, error, waiting, out);
}

bool write_new_folder(const std::filesystem::path& folder, const std::vector<NewFile>& files, Diagnostics& out) {
  // "DIR/" names what "DIR" does.
  const std::filesystem::path path = folder.has_filename() ? folder : folder.parent_path();
  const std::string name = path.filename().string();
  if (name.empty() || name == "." || name == "..")
    return report(folder, Code::unwritable_folder, "this is no name of a new folder", "give the folder a name", out);
  const Handle above{::open(folder_above(path).c_str(), open_folder)};
  if (!above.is_open())
    return report(folder, Code::unwritable_folder, "the folder that it must go into is not there, or cannot be opened",
                  "make that folder first, or choose another", out);
  const std::string waiting = waiting_folder_name();
  (void)remove_tree(above.number(), waiting);
  int error = ::mkdirat(above.number(), waiting.c_str(), 0777) == 0 ? 0 : errno;
  const Handle inside{::openat(above.number(), waiting.c_str(), open_folder | O_NOFOLLOW)};
  if (error == 0 && !inside.is_open()) error = errno;
  for (const NewFile& file : files) {
    if (error != 0) break;
    error = write_new_file(inside.number(), file.path, file.bytes).error;
  }
  if (error == 0 && ::syncfs(inside.number()) != 0 && errno != ENOSYS) error = errno;
  // An empty folder gives way; anything else that stands there does not.
  if (error == 0 && ::renameat(above.number(), waiting.c_str(), above.number(), name.c_str()) != 0) error = errno;
  if (error == 0) {
    (void)::fsync(above.number());
    return true;
  }
  (void)remove_tree(above.number(), waiting);
  if (error == ENOTEMPTY || error == EEXIST || error == ENOTDIR)
    return report(folder, Code::foreign_file, "something is there already, and nothing of it is written over",
                  "give a folder that is new or empty", out);
  return failed(folder, error, out);
}

} // namespace coeval
