#include "diagnose/snippet.hpp"

#include <algorithm>
#include <vector>

#include <fmt/format.h>

#include "diagnose/glyphs.hpp"

namespace coeval {
namespace {

constexpr std::size_t tab_stop = 4;
constexpr std::string_view ellipsis = "\xE2\x80\xA6";
constexpr std::string_view gutter_colour = "2";

std::string without_trailing_spaces(std::string text) {
  text.erase(text.find_last_not_of(' ') + 1);
  return text;
}

std::string gutter(std::string_view number, const SnippetLook& look) {
  return painted(fmt::format("  {:>{}} |", number, look.digits), gutter_colour, look.style);
}

std::string row_of(std::string_view number, std::string text, const SnippetLook& look) {
  text = without_trailing_spaces(std::move(text));
  return gutter(number, look) + (text.empty() ? "" : " " + text) + "\n";
}

// A line too wide for the terminal is cut to a window around the marked bytes [from, to).
struct Window {
  std::vector<Glyph> glyphs;
  bool cut_left = false;
  bool cut_right = false;
};

Window window(std::string_view line, std::size_t from, std::size_t to, std::size_t room) {
  Window shown;
  // However long the line, only what could fit is looked at: a column takes at most a handful of bytes.
  const std::size_t reach = 8 * room;
  std::size_t begin = from > reach ? from - reach : 0;
  while (begin > 0 && begin < from && (static_cast<unsigned char>(line[begin]) & 0xC0U) == 0x80U) ++begin;
  const std::string_view part = line.substr(begin, from - begin + reach);
  shown.cut_left = begin > 0;
  shown.cut_right = begin + part.size() < line.size();
  std::vector<Glyph> glyphs = read_glyphs(part, tab_stop);
  for (Glyph& glyph : glyphs) {
    glyph.begin += begin;
    glyph.end += begin;
  }

  std::size_t before = 0; // columns left of the mark
  std::size_t marked = 0;
  std::size_t all = 0;
  for (const Glyph& glyph : glyphs) {
    if (glyph.end <= from)
      before += glyph.width;
    else if (glyph.begin < to)
      marked += glyph.width;
    all += glyph.width;
  }
  marked = std::max<std::size_t>(marked, 1);
  if (!shown.cut_left && !shown.cut_right && all <= room) {
    shown.glyphs = std::move(glyphs);
    return shown;
  }
  // Two columns are kept for ellipses. The mark stays in sight, with as much to its left as to its right.
  const std::size_t inner = room - 2;
  const std::size_t spare = marked < inner ? (inner - marked) / 2 : 0;
  std::size_t skip = before + marked <= inner && !shown.cut_left ? 0 : before - std::min(before, spare);
  if (!shown.cut_right && all <= skip + inner) skip = all - std::min(all, inner); // nothing more on the right: fill up
  std::size_t column = 0;
  for (Glyph& glyph : glyphs) {
    const std::size_t start = column;
    column += glyph.width;
    if (start < skip) {
      shown.cut_left = true;
    } else if (column > skip + inner) {
      shown.cut_right = true;
      break;
    } else {
      shown.glyphs.push_back(std::move(glyph));
    }
  }
  return shown;
}

// A line with the bytes [from, to) marked; an empty range is marked with one column.
std::string marked_line(std::string_view line, std::uint32_t number, std::size_t from, std::size_t to,
                        const SnippetLook& look) {
  from = std::min(from, line.size());
  to = std::clamp(to, from, line.size());
  const Window shown = window(line, from, to, columns(look.style) - look.digits - 5);
  std::string text{shown.cut_left ? ellipsis : ""};
  std::size_t pad = shown.cut_left ? 1 : 0;
  std::size_t marks = 0;
  for (const Glyph& glyph : shown.glyphs) {
    text += glyph.shown;
    if (glyph.end <= from)
      pad += glyph.width;
    else if (glyph.begin < to)
      marks += glyph.width;
  }
  if (shown.cut_right) text += ellipsis;
  const std::string under(std::max<std::size_t>(marks, 1), look.mark);
  return row_of(std::to_string(number), std::move(text), look) +
         row_of("", std::string(pad, ' ') + painted(under, look.colour, look.style), look);
}

} // namespace

bool in_sources(const SourceSet& sources, Span place) {
  return place.known() && static_cast<std::size_t>(place.file) < sources.files.size();
}

std::string painted(std::string_view text, std::string_view colour, TextStyle style) {
  if (!style.colour || colour.empty()) return std::string{text};
  return fmt::format("\x1b[{}m{}\x1b[0m", colour, text);
}

std::string snippet(const SourceSet& sources, Span place, const SnippetLook& look) {
  if (!in_sources(sources, place)) return {};
  const SourceFile& file = sources[place.file];
  const std::uint32_t first = file.position(place.begin).line;
  const std::uint32_t start = file.byte({first, 1});
  const std::uint32_t from = std::max(place.begin, start) - start;
  // The end is exclusive: a span that ends with a line break does not reach into the next line.
  const std::uint32_t last = place.end > place.begin ? file.position(place.end - 1).line : first;
  const std::string_view line = file.line(first);
  std::string text =
      marked_line(line, first, from, last > first ? line.size() : std::max(place.end, start) - start, look);
  if (last > first) text += row_of("", fmt::format("{} to line {}", ellipsis, last), look);
  return text;
}

std::string replaced_snippet(const SourceSet& sources, Span place, std::string_view replacement,
                             const SnippetLook& look) {
  if (!in_sources(sources, place)) return {};
  const SourceFile& file = sources[place.file];
  const std::uint32_t first = file.position(place.begin).line;
  const LineColumn end = file.position(std::max(place.begin, place.end));
  const std::string_view line = file.line(first);
  const std::string_view before = line.substr(0, std::max(place.begin, file.byte({first, 1})) - file.byte({first, 1}));
  const std::string_view last_line = file.line(end.line);
  const std::string_view after =
      last_line.substr(std::min<std::size_t>(last_line.size(), file.byte(end) - file.byte({end.line, 1})));
  constexpr std::uint32_t most = 8; // lines
  std::string text;
  for (std::uint32_t i = 0;; ++i) {
    const std::size_t line_break = replacement.find('\n');
    const bool is_last = line_break == std::string_view::npos;
    if (i == most) return text + row_of("", std::string{ellipsis}, look);
    const std::string head{i == 0 ? before : std::string_view{}};
    const std::string_view part = replacement.substr(0, line_break);
    const std::string whole = head + std::string{part} + std::string{is_last ? after : std::string_view{}};
    text += marked_line(whole, first + i, head.size(), head.size() + part.size(), look);
    if (is_last) return text;
    replacement.remove_prefix(line_break + 1);
  }
}

} // namespace coeval
