// files/open_file.hpp: what is in a regular file, and nothing else?
#pragma once

#include <filesystem>
#include <string>

namespace coeval {

// An open file that closes itself. What is not a regular file when it is opened is refused, whatever it was before: a
// pipe would wait for ever, and a device may do anything.
class OpenFile {
public:
  // A link at the end of the path is not followed.
  explicit OpenFile(const std::string& path);
  // Opened folder by folder from `root`, following no link in `below`, so that nobody can put one there meanwhile.
  OpenFile(const std::filesystem::path& root, const std::filesystem::path& below);
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  ~OpenFile();

  struct Content {
    std::string text; // at most one byte more than asked for
    int error = 0;    // errno; 0 where all went well
  };
  [[nodiscard]] Content read(std::size_t most) const;

private:
  int handle_ = -1;
  int error_ = 0; // why it could not be opened
};

// "4 MiB", "100 bytes"
[[nodiscard]] std::string size_words(std::size_t bytes);

} // namespace coeval
