// The search lists real folders first and follows links only when all of those are known, in the order of their paths:
// what a link adds then depends on the tree alone and not on the order in which the disk tells it.
#include "files/find.hpp"

#include <cerrno>
#include <utility>
#include <vector>

#include <fmt/format.h>

#include "files/gather.hpp"

namespace coeval {
namespace {

namespace fs = std::filesystem;

bool is_entry_file(std::string_view name) { return name.ends_with(".toml"); }

// What a name in a folder is itself. Most are files, and of those the listing tells it: the disk is not asked again.
fs::file_type type_of(const fs::directory_entry& entry, std::error_code& error) {
  if (!entry.is_symlink(error) && !error && entry.is_regular_file(error)) return fs::file_type::regular;
  return entry.symlink_status(error).type();
}

class Search {
public:
  Search(fs::path root, std::string root_as_written, std::size_t most, Diagnostics& out)
      : root_(std::move(root)), root_as_written_(std::move(root_as_written)), most_(most), out_(out) {}

  FoundFiles search() {
    enter(root_, {});
    list_folders();
    while (!links_.empty() && !over_) {
      const auto [relative, path] = std::move(*links_.begin());
      links_.erase(links_.begin());
      follow(relative, path);
      list_folders();
    }
    if (over_) {
      found_.entries.clear();
      found_.assets.clear();
    }
    return std::move(found_);
  }

private:
  struct Folder {
    fs::path path; // without links
    std::string relative;
  };

  void report(Code code, std::string path, std::string message, std::string help) {
    found_.complete = false;
    out_.report(about(code, std::move(path), std::move(message), std::move(help)));
  }

  void enter(const fs::path& path, std::string relative) {
    if (listed_.insert(path.native()).second) waiting_.push_back({path, std::move(relative)});
  }

  void list_folders() {
    while (!waiting_.empty() && !over_) {
      const Folder folder = std::move(waiting_.back());
      waiting_.pop_back();
      list(folder);
    }
  }

  void list(const Folder& folder) {
    std::error_code error;
    fs::directory_iterator entry{folder.path, error};
    for (; !error && entry != fs::directory_iterator{}; entry.increment(error)) {
      const std::string& whole = entry->path().native();
      const std::string name = whole.substr(whole.rfind('/') + 1);
      if (name.starts_with('.')) continue;
      if (++seen_ > most_) {
        over_ = true;
        found_.complete = false;
        out_.report(too_many_to_read(root_as_written_, most_));
        return;
      }
      const std::string relative = folder.relative.empty() ? name : folder.relative + "/" + name;
      std::error_code unknown;
      const fs::file_type type = type_of(*entry, unknown);
      if (type == fs::file_type::none)
        report(Code::unreadable_file, relative,
               fmt::format("this could not be looked at: {}", failure_words(unknown.value())),
               "move it to where it can be read, or out of the knowledge base");
      else
        take(type, entry->path(), relative);
    }
    if (error)
      report(Code::unreadable_folder, folder.relative.empty() ? root_as_written_ : folder.relative,
             fmt::format("this folder could not be listed: {}", failure_words(error.value())),
             "allow reading it, or move it out of the knowledge base");
  }

  void take(fs::file_type type, const fs::path& path, const std::string& relative) {
    switch (type) {
    case fs::file_type::directory:
      enter(path, relative);
      break;
    case fs::file_type::symlink:
      links_.emplace(relative, path);
      break;
    case fs::file_type::regular:
      take_file(path, relative);
      break;
    default: // a pipe, a socket, a device, or gone again: never opened
      if (is_entry_file(relative))
        report(Code::unreadable_file, relative, "this is a pipe, a socket or a device, so it was not opened",
               "put a file with text in its place, or take it out");
      break;
    }
  }

  void take_file(const fs::path& path, const std::string& relative) {
    if (!is_entry_file(relative))
      found_.assets.insert(relative);
    else if (read_.insert(path.native()).second)
      found_.entries.emplace(relative, path.native());
  }

  void follow(const std::string& relative, const fs::path& path) {
    std::error_code error;
    const fs::path target = fs::canonical(path, error);
    if (error) {
      report(Code::unreadable_file, relative,
             error.value() == ELOOP ? std::string{"this link leads in a circle"}
             : error.value() == ENOENT
                 ? std::string{"this link leads nowhere"}
                 : fmt::format("this link could not be followed: {}", failure_words(error.value())),
             "mend the link, or take it out");
      return;
    }
    if (!below_root(target)) {
      report(Code::link_leaves_kb, relative, "this link leads out of the knowledge base, so it was not followed",
             "put the file itself in its place");
      return;
    }
    take(fs::symlink_status(target, error).type(), target, relative);
  }

  [[nodiscard]] bool below_root(const fs::path& target) const {
    const std::string& root = root_.native();
    const std::string& path = target.native();
    if (root == "/" || path == root) return true;
    return path.size() > root.size() && path.starts_with(root) && path[root.size()] == '/';
  }

  fs::path root_; // without links
  std::string root_as_written_;
  std::size_t most_;
  Diagnostics& out_;
  FoundFiles found_;
  std::vector<Folder> waiting_;
  std::map<std::string, fs::path> links_; // by relative path
  std::set<std::string> listed_;          // folders, without links: each is listed once
  std::set<std::string> read_;            // .toml files, likewise
  std::size_t seen_ = 0;
  bool over_ = false;
};

} // namespace

std::string failure_words(int error) {
  switch (error) {
  case EACCES:
  case EPERM:
    return "reading is not allowed";
  case ENOENT:
    return "it is not there";
  case ENOTDIR:
    return "it is not a folder";
  case ENAMETOOLONG:
    return "its path is too long";
  case ELOOP:
    return "it is a link that leads in a circle";
  case EINVAL:
    return "it is no regular file";
  case EMFILE:
  case ENFILE:
    return "too many files are open";
  case EIO:
    return "the disk failed";
  default:
    return fmt::format("error {} of the operating system", error);
  }
}

Diagnostic about(Code code, std::string path, std::string message, std::string help) {
  Diagnostic diagnostic;
  diagnostic.code = code;
  diagnostic.path = std::move(path);
  diagnostic.message = std::move(message);
  diagnostic.help = std::move(help);
  return diagnostic;
}

FoundFiles find_files(const fs::path& root, std::size_t most, Diagnostics& out) {
  std::error_code error;
  const fs::path real = fs::canonical(root, error);
  const bool folder = !error && fs::is_directory(real, error);
  if (folder) return Search{real, root.native(), most, out}.search();
  FoundFiles none;
  none.complete = false;
  const std::string what = !error || error.value() == ENOTDIR ? "this is not a folder"
                           : error.value() == ENOENT
                               ? "there is no such folder"
                               : "this folder could not be opened: " + failure_words(error.value());
  out.report(about(Code::unreadable_folder, root.native(), what, "give the folder of a knowledge base"));
  return none;
}

} // namespace coeval
