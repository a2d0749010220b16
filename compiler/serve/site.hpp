// serve/site.hpp: what is answered to a request for a page?
//
// Pure: a site in memory, and a path, make an answer. Nothing on a disk can be asked for.
#pragma once

#include <map>
#include <string>
#include <string_view>

namespace coeval {

struct ServedFile {
  std::string bytes;
  std::string type; // of its content, as HTTP names it: "text/html; charset=utf-8"
};

// The type of a file's content, told by the end of its name.
[[nodiscard]] std::string_view content_type(std::string_view path);

// One state of the site, told apart from every other by its version.
class PreviewSite {
public:
  PreviewSite(std::map<std::string, std::string> files, std::string version)
      : files_(std::move(files)), version_(std::move(version)) {}

  struct Answer {
    int status = 200;
    ServedFile file;
    std::string moved_to; // with status 302: a folder without its last '/'
  };
  // `path` as asked for: decoded, with its first '/'.
  [[nodiscard]] Answer answer(std::string_view path) const;

  [[nodiscard]] const std::string& version() const { return version_; }
  [[nodiscard]] const std::map<std::string, std::string>& files() const { return files_; }

private:
  [[nodiscard]] ServedFile served(const std::string& path, const std::string& bytes) const;

  std::map<std::string, std::string> files_;
  std::string version_; // letters, digits and '-'
};

// The script that every page of the preview loads as /-/reload.js, and what it is told at /-/changes.
[[nodiscard]] std::string_view reload_script();
[[nodiscard]] std::string change_module(std::string_view version);

} // namespace coeval
