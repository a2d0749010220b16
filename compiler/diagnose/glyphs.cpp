#include "diagnose/glyphs.hpp"

#include <algorithm>
#include <array>
#include <utility>

#include <fmt/format.h>
#include <utf8proc.h>

#include "source/text.hpp"

namespace coeval {
namespace {

constexpr std::string_view replacement = "\xEF\xBF\xBD"; // U+FFFD
// Accents on one letter beyond this many would pile up over other lines.
constexpr std::size_t most_accents = 4;

// Letters and marks that are drawn as nothing or as a space, by Unicode's Default_Ignorable_Code_Point and by common
// fonts, though their category does not say so.
constexpr std::array<std::pair<utf8proc_int32_t, utf8proc_int32_t>, 10> unseen{{{0x034F, 0x034F},
                                                                                {0x115F, 0x1160},
                                                                                {0x17B4, 0x17B5},
                                                                                {0x180B, 0x180F},
                                                                                {0x2800, 0x2800},
                                                                                {0x3164, 0x3164},
                                                                                {0xFE00, 0xFE0F},
                                                                                {0xFFA0, 0xFFA0},
                                                                                {0x1D159, 0x1D159},
                                                                                {0xE0100, 0xE01EF}}};

bool spelt_out(utf8proc_int32_t point) {
  switch (utf8proc_category(point)) {
  case UTF8PROC_CATEGORY_CF: // formats: direction marks, joiners, tags
  case UTF8PROC_CATEGORY_CN: // not assigned: nobody knows how wide
  case UTF8PROC_CATEGORY_CO: // private use
  case UTF8PROC_CATEGORY_ZL:
  case UTF8PROC_CATEGORY_ZP:
    return true;
  default:
    return std::ranges::any_of(unseen,
                               [&](const auto& range) { return range.first <= point && point <= range.second; });
  }
}

} // namespace

std::vector<Glyph> read_glyphs(std::string_view text, std::size_t tab_stop) {
  std::vector<Glyph> glyphs;
  std::size_t column = 0;
  std::size_t accents = 0;
  for (std::size_t byte = 0; byte < text.size();) {
    Glyph glyph;
    glyph.begin = byte;
    byte += code_point_size(text.substr(byte, 4));
    glyph.end = byte;
    utf8proc_int32_t point = -1;
    const auto size = static_cast<utf8proc_ssize_t>(glyph.end - glyph.begin);
    if (utf8proc_iterate(reinterpret_cast<const utf8proc_uint8_t*>(text.data() + glyph.begin), size, &point) < 0)
      point = -1;
    const auto show = [&](std::string shown, std::size_t width) {
      glyph.shown = std::move(shown);
      glyph.width = width;
    };
    const int width = point < 0 ? 0 : utf8proc_charwidth(point);
    if (point == '\t' && tab_stop > 0) {
      const std::size_t gap = tab_stop - column % tab_stop;
      show(std::string(gap, ' '), gap);
    } else if (point == '\r' && text.substr(byte, 1) == "\n") {
      show("", 0); // the LF stands for both
    } else if (point == '\t' || point == '\n') {
      show(" ", 1);
    } else if (point < 0x20 || (point >= 0x7F && point < 0xA0)) { // also what is no code point at all
      show(std::string{replacement}, 1);
    } else if (spelt_out(point) || (width == 0 && accents == most_accents)) {
      show(fmt::format("<U+{:04X}>", static_cast<unsigned>(point)), 0);
      glyph.width = glyph.shown.size();
    } else {
      show(std::string{text.substr(glyph.begin, glyph.end - glyph.begin)},
           static_cast<std::size_t>(std::max(width, 0)));
    }
    accents = glyph.width == 0 ? accents + 1 : 0;
    column += glyph.width;
    glyphs.push_back(std::move(glyph));
  }
  return glyphs;
}

} // namespace coeval
