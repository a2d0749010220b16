// A folder of its own for each test, and a way to publish into it in one line.
#pragma once

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include <sys/stat.h>
#include <unistd.h>

#include "publish/folder.hpp"

namespace coeval::publishing {

namespace fs = std::filesystem;
using Files = std::map<std::string, std::string>; // path → bytes
using Strings = std::vector<std::string>;

class Scratch {
public:
  explicit Scratch(const fs::path& where = fs::temp_directory_path()) {
    std::string pattern = (where / "coeval-publish-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("no scratch folder");
    base_ = fs::canonical(pattern);
  }
  Scratch(const Scratch&) = delete;
  Scratch& operator=(const Scratch&) = delete;
  ~Scratch() {
    std::error_code error;
    fs::remove_all(base_, error);
  }
  [[nodiscard]] fs::path base() const { return base_; }
  [[nodiscard]] fs::path site() const { return base_ / "site"; }
  void write(const fs::path& path, std::string_view text) const {
    fs::create_directories((base_ / path).parent_path());
    std::ofstream{base_ / path, std::ios::binary} << text;
  }

private:
  fs::path base_;
};

// Where a thousand publishes do not wait for a disk.
inline fs::path in_memory() { return ::access("/dev/shm", W_OK) == 0 ? "/dev/shm" : fs::temp_directory_path(); }

inline std::string content(const fs::path& file) {
  std::ifstream in{file, std::ios::binary};
  return {std::istreambuf_iterator<char>{in}, {}};
}

// Every file below a folder; without our own at its top, which start with ".coeval-", unless they are wanted.
inline Files files_in(const fs::path& folder, bool with_ours = false) {
  Files files;
  for (const auto& entry : fs::recursive_directory_iterator{folder}) {
    const std::string path = fs::relative(entry.path(), folder).string();
    if (entry.is_directory() && !entry.is_symlink()) continue;
    if (!with_ours && path.starts_with(".coeval-")) continue;
    files[path] = entry.is_symlink() ? "-> " + fs::read_symlink(entry.path()).string() : content(entry.path());
  }
  return files;
}

struct Published {
  std::optional<PublishCounts> counts;
  std::vector<Diagnostic> reports;
  // "code path" of each report, the path without that of the scratch folder.
  [[nodiscard]] Strings told() const {
    Strings list;
    for (const Diagnostic& report : reports) {
      const std::size_t site = report.path.find("/site");
      list.push_back(std::string{row(report.code).name} + " " +
                     (site == std::string::npos ? report.path : report.path.substr(site + 1)));
    }
    return list;
  }
};

inline Published publish(const fs::path& folder, const Files& files) {
  Published published;
  Diagnostics out;
  if (auto open = OutputFolder::open(folder, out)) {
    for (const auto& [path, bytes] : files) open->write(path, bytes, out);
    published.counts = open->finish(out);
  }
  published.reports = out.sorted();
  return published;
}

// "written unchanged removed", or "nothing".
inline std::string counted(const Published& published) {
  if (!published.counts) return "nothing";
  const PublishCounts& counts = *published.counts;
  return std::to_string(counts.written) + " " + std::to_string(counts.unchanged) + " " + std::to_string(counts.removed);
}

struct Identity {
  ino_t inode;
  std::int64_t modified;
  friend bool operator==(const Identity&, const Identity&) = default;
};

inline Identity identity(const fs::path& file) {
  struct stat status {};
  if (::lstat(file.c_str(), &status) != 0) throw std::runtime_error(file.string() + " is not there");
  return {status.st_ino, std::int64_t{status.st_mtim.tv_sec} * 1'000'000'000 + status.st_mtim.tv_nsec};
}

} // namespace coeval::publishing
