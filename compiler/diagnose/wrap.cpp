// How is a text made safe, and broken into lines?
#include <algorithm>

#include "diagnose/glyphs.hpp"
#include "diagnose/render.hpp"

namespace coeval {
namespace {

// Columns of a word, more than which are not read by anybody: its middle is left out. Three ids of the greatest length
// with what joins and quotes them are shorter.
constexpr std::size_t longest_word = 300;
constexpr std::size_t kept_at_each_end = 60;

// Leaves the middle of over-long words out.
std::vector<Glyph> without_middles(std::vector<Glyph> glyphs) {
  std::vector<Glyph> kept;
  for (std::size_t at = 0; at < glyphs.size();) {
    std::size_t end = at;
    std::size_t width = 0;
    for (; end < glyphs.size() && glyphs[end].shown != " "; ++end) width += glyphs[end].width;
    const bool cut = width > longest_word && end - at > 2 * kept_at_each_end;
    for (std::size_t i = at; i < end; ++i) {
      if (cut && i == at + kept_at_each_end) {
        kept.push_back({.shown = "\xE2\x80\xA6", .width = 1});
        i = end - kept_at_each_end;
      }
      kept.push_back(std::move(glyphs[i]));
    }
    if (end < glyphs.size()) kept.push_back(std::move(glyphs[end++]));
    at = end;
  }
  return kept;
}

} // namespace

std::string printable(std::string_view text) {
  std::string shown;
  for (const Glyph& glyph : read_glyphs(text)) shown += glyph.shown;
  return shown;
}

std::string wrap(std::string_view text, std::size_t indent, TextStyle style) {
  const std::size_t limit = columns(style);
  indent = std::min(indent, limit / 2);
  const std::vector<Glyph> glyphs = without_middles(read_glyphs(text));
  std::string lines;
  std::size_t column = indent;
  bool line_is_empty = true;
  const auto new_line = [&] {
    lines += "\n" + std::string(indent, ' ');
    column = indent;
    line_is_empty = true;
  };
  for (std::size_t at = 0; at < glyphs.size();) {
    if (glyphs[at].shown == " ") {
      ++at;
      continue;
    }
    std::size_t end = at;
    std::size_t width = 0;
    for (; end < glyphs.size() && glyphs[end].shown != " "; ++end) width += glyphs[end].width;
    if (!line_is_empty) {
      if (column + 1 + width <= limit) {
        lines += ' ';
        ++column;
      } else {
        new_line();
      }
    }
    for (; at < end; ++at) {
      if (column + glyphs[at].width > limit) new_line(); // a word wider than a line
      lines += glyphs[at].shown;
      column += glyphs[at].width;
    }
    line_is_empty = false;
  }
  return lines;
}

} // namespace coeval
