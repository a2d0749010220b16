#include "publish/reports.hpp"

#include <cerrno>

#include <fmt/format.h>

namespace coeval {
namespace {

constexpr std::size_t most_foreign = 20; // told one by one

bool is_want_of_room(int error) { return error == ENOSPC || error == EDQUOT || error == EFBIG; }

} // namespace

std::string write_failure_words(int error) {
  switch (error) {
  case ENOSPC:
    return "the disk is full";
  case EDQUOT:
    return "what this user may store is used up";
  case EFBIG:
    return "files may not grow that large here (`ulimit -f`)";
  case EACCES:
  case EPERM:
    return "writing is not allowed";
  case EROFS:
    return "it lies on a file system that can only be read";
  case ENOENT:
    return "it is not there, or no longer";
  case ENOTDIR:
    return "a part of its path is no folder";
  case EEXIST:
  case ENOTEMPTY:
    return "something has appeared there meanwhile";
  case EISDIR:
    return "a folder stands there";
  case EXDEV:
  case EBUSY:
    return "another file system is mounted there";
  case ENAMETOOLONG:
    return "its path is too long";
  case ELOOP:
    return "it is a link";
  case EMFILE:
  case ENFILE:
    return "too many files are open";
  case EIO:
    return "the disk failed";
  default:
    return fmt::format("error {} of the operating system", error);
  }
}

void PublishReports::report(Code code, std::string_view path, std::string message, std::string help, Diagnostics& out) {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.path = path.empty() ? folder_ : folder_.ends_with('/') ? folder_ : folder_ + "/";
  if (!path.empty()) diagnostic.path += path;
  diagnostic.message = std::move(message);
  diagnostic.help = std::move(help);
  out.report(std::move(diagnostic));
}

void PublishReports::failed(std::string_view path, int error, Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  if (failed_) return;
  failed_ = true;
  if (is_want_of_room(error))
    // Which file it was that did not fit says nothing.
    report(Code::disk_full, {}, fmt::format("there was no room for the files: {}", write_failure_words(error)),
           "make room and try again; every file there is still whole", out);
  else
    report(Code::unwritable_folder, path, fmt::format("this could not be written: {}", write_failure_words(error)),
           "allow writing to the folder, or choose another", out);
}

void PublishReports::not_a_folder(Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  report(Code::unwritable_folder, {}, "this is not a folder", "give a folder to write to; it need not exist yet", out);
}

void PublishReports::locked(Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  report(Code::folder_locked, {}, "another program is writing to this folder",
         "wait until it has ended, then try again", out);
}

void PublishReports::broken_manifest(std::string_view path, Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  report(Code::broken_manifest, path, "this list of files written before is damaged, so no file here counts as ours",
         "where that leaves files in the way, empty the folder and try again", out);
}

void PublishReports::foreign(std::string_view path, Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  if (foreign_.emplace(path).second && foreign_.size() <= most_foreign)
    report(Code::foreign_file, path, "this was not written from here, and stands where a file of ours must go",
           "move it elsewhere, or choose another folder", out);
}

void PublishReports::more_foreign(Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  if (foreign_.size() > most_foreign)
    report(Code::foreign_file, {},
           fmt::format("{} more files here stand where files of ours must go", foreign_.size() - most_foreign),
           "choose a folder that is new or empty", out);
}

void PublishReports::edit_replaced(std::string_view path, Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  report(Code::edited_file, path,
         "this file had been edited since it was written; now it says what the knowledge base says",
         "make the change in the knowledge base or in the template, where it lasts", out);
}

void PublishReports::edit_kept(std::string_view path, Diagnostics& out) {
  const std::lock_guard lock{mutex_};
  report(Code::edited_file, path,
         "this file no longer belongs here, but was edited since it was written, so it was left",
         "take what you need from it, then delete it", out);
}

} // namespace coeval
