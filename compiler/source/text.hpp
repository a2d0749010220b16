// source/text.hpp: where in which file does something stand?
//
// A SourceSet is the bytes of a knowledge base as they were read, in a fixed order (sorted by path), together with the
// line table of each file. Every later stage keeps only Spans: byte ranges into one of these files. Nothing here reads
// a disk or reports a mistake.
#pragma once

#include <compare>
#include <cstdint>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

// Position of a file in its SourceSet.
enum class FileIndex : std::uint32_t {};
inline constexpr FileIndex no_file{0xffffffffU};

// A half-open byte range of one file. An empty range is a place between two bytes.
struct Span {
  FileIndex file = no_file;
  std::uint32_t begin = 0;
  std::uint32_t end = 0;

  [[nodiscard]] bool known() const { return file != no_file; }
  friend auto operator<=>(const Span&, const Span&) = default;
};

// A place as a person counts: both from 1, columns in code points.
struct LineColumn {
  std::uint32_t line = 1;
  std::uint32_t column = 1;
};

class SourceFile {
public:
  // `path` is relative to the root of the knowledge base, with '/' between its parts.
  SourceFile(std::string path, std::string text);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] std::string_view text() const { return text_; }

  // The line and column of a byte. A byte past the end counts as the end; a byte inside a code point as its first byte.
  [[nodiscard]] LineColumn position(std::uint32_t byte) const;
  // The byte of a line and column; places past a line's or the file's end give that end.
  [[nodiscard]] std::uint32_t byte(LineColumn place) const;
  // The text of a line, counted from 1, without its line break.
  [[nodiscard]] std::string_view line(std::uint32_t number) const;
  [[nodiscard]] std::uint32_t line_count() const { return static_cast<std::uint32_t>(line_starts_.size()); }

private:
  std::string path_;
  std::string text_;
  std::vector<std::uint32_t> line_starts_; // byte of each line's first character
};

struct SourceSet {
  std::string root;              // as the user wrote it, for messages
  std::vector<SourceFile> files; // the TOML files, sorted by path
  std::set<std::string, std::less<>> assets; // every other file below the root (pictures), as relative paths

  [[nodiscard]] const SourceFile& operator[](FileIndex index) const { return files[static_cast<std::size_t>(index)]; }
  [[nodiscard]] std::string_view text(Span span) const;
};

} // namespace coeval
