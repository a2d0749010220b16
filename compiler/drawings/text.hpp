// drawings/text.hpp: how much room does a text take in a drawing, without a font to measure it by?
//
// Private to this room. Which font a reader has is not known, so widths are those of a wide sans serif: a text may turn
// out narrower than was thought, hardly ever wider. Texts come from files of other people: characters that control
// rather than show something count as spaces, and nothing is ever cut inside a character.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "drawings/drawing.hpp"

namespace coeval {

// Units from one base line to the next, and from the base line up to the top of the capitals and down to the lowest
// tails.
[[nodiscard]] double line_height(Style style);
[[nodiscard]] double ascent(Style style);
[[nodiscard]] double descent(Style style);

[[nodiscard]] double text_width(std::string_view text, Style style);

// The text on lines no wider than `width`, broken at spaces, inside a word only where it is too long for a line of its
// own. What does not go on `most` lines is left out, and an ellipsis stands for it. At least one line, perhaps empty.
// The work does not grow with what is left out.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, Style style, double width, std::size_t most);

// One line of it.
[[nodiscard]] std::string shorten(std::string_view text, Style style, double width);

// As it is told in a description: on one line, without characters that control.
[[nodiscard]] std::string one_line(std::string_view text);

} // namespace coeval
