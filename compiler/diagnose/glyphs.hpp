// diagnose/glyphs.hpp: what may a terminal show of a text, and how wide is it there?
//
// Texts come from files of other people. A control character could move the cursor and overwrite what was printed, a
// direction mark could turn a line around, an invisible letter could make two ids look the same: none of them gets
// through. Letters of scripts written from right to left do; they are letters like others.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

struct Glyph {
  std::string shown;     // what is printed; " " for a space, a tab or a line break
  std::size_t width = 0; // columns
  std::size_t begin = 0; // the bytes of the text that it stands for
  std::size_t end = 0;
};

// Tabs reach to the next multiple of `tab_stop` columns; with 0 they are one space.
[[nodiscard]] std::vector<Glyph> read_glyphs(std::string_view text, std::size_t tab_stop = 0);

} // namespace coeval
