// source/text.hpp: where in which file does something stand?
//
// A SourceSet is the bytes of a knowledge base as they were read, in a fixed order (sorted by path). Every later stage
// keeps only Spans: byte ranges into one of these files. Their lines are counted when somebody first asks for one,
// which for most files nobody does. Nothing here reads a disk or reports a mistake.
#pragma once

#include <compare>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <mutex>
#include <optional>
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

// Lines end at LF or CRLF, as in TOML; a CR alone is part of its line. The text after the last line break is a line
// too, empty where the file ends in one. A byte order mark at the start belongs to no column. Each byte that is not
// part of well-formed UTF-8 counts as one code point.
class SourceFile {
public:
  // `path` is relative to the root of the knowledge base, with '/' between its parts.
  SourceFile(std::string path, std::string text);

  [[nodiscard]] const std::string& path() const { return path_; }
  [[nodiscard]] std::string_view text() const { return content_->text; }
  // The same, for whoever keeps views of it longer than the file; it never moves.
  [[nodiscard]] std::shared_ptr<const std::string> shared_text() const { return {content_, &content_->text}; }

  // The line and column of a byte. A byte past the end counts as the end; a byte inside a code point as its first byte.
  [[nodiscard]] LineColumn position(std::uint32_t byte) const;
  // The byte of a line and column; places past a line's or the file's end give that end.
  [[nodiscard]] std::uint32_t byte(LineColumn place) const;
  // The text of a line, counted from 1, without its line break.
  [[nodiscard]] std::string_view line(std::uint32_t number) const;
  [[nodiscard]] std::uint32_t line_count() const { return static_cast<std::uint32_t>(lines().starts.size()); }

private:
  // A byte at which a code point begins, and how many code points come before it.
  struct Milestone {
    std::uint32_t byte = 0;
    std::uint32_t points = 0;
  };

  struct Lines {
    bool ascii = true;                 // a code point is a byte, so that columns need no milestones
    std::vector<std::uint32_t> starts; // byte of each line's first character
    std::vector<Milestone> milestones; // one every few hundred bytes, so that no question walks through a long line
  };

  struct Content {
    std::string text;
    mutable std::once_flag counted; // any thread may be the first to ask
    mutable Lines lines;
  };

  [[nodiscard]] static Lines lines_of(std::string_view text);
  [[nodiscard]] const Lines& lines() const;
  [[nodiscard]] std::uint32_t size() const { return static_cast<std::uint32_t>(text().size()); }
  [[nodiscard]] std::uint32_t
  line_end(std::uint32_t number) const;                       // the byte of its line break, or the end of the file
  [[nodiscard]] Milestone boundary(std::uint32_t byte) const; // of the code point that the byte is part of

  std::string path_;
  std::shared_ptr<const Content> content_;
};

struct SourceSet {
  std::string root;                          // as the user wrote it, for messages
  std::vector<SourceFile> files;             // the TOML files, sorted by path
  std::set<std::string, std::less<>> assets; // every other file below the root (pictures), as relative paths

  [[nodiscard]] const SourceFile& operator[](FileIndex index) const { return files[static_cast<std::size_t>(index)]; }
  // The bytes of a span; empty where it is unknown, cut off where it reaches past the file's end.
  [[nodiscard]] std::string_view text(Span span) const;
};

// How many bytes the code point at the start of `text` has; 1 where they are not well-formed UTF-8, 0 for empty text.
[[nodiscard]] std::size_t code_point_size(std::string_view text);
// The first byte that is not part of well-formed UTF-8; nothing where all is well.
[[nodiscard]] std::optional<std::size_t> first_bad_byte(std::string_view text);

} // namespace coeval
