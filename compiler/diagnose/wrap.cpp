// How is a text made safe, and broken into lines?
#include <algorithm>

#include "diagnose/glyphs.hpp"
#include "diagnose/render.hpp"

namespace coeval {

std::string printable(std::string_view text) {
  std::string shown;
  for (const Glyph& glyph : read_glyphs(text)) shown += glyph.shown;
  return shown;
}

std::string wrap(std::string_view text, std::size_t indent, TextStyle style) {
  const std::size_t limit = columns(style);
  indent = std::min(indent, limit / 2);
  const std::vector<Glyph> glyphs = read_glyphs(text);
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
