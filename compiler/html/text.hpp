// html/text.hpp: which characters of a text may stand in a document?
//
// Private to this room. What a knowledge base says is shown, whatever it says; but a character that no HTML document
// may hold, that cannot be seen, or that would turn the direction of what stands around it, is not.
#pragma once

#include <string>
#include <string_view>

namespace coeval {

// `text` itself where it is harmless, which is the rule; else a cleaned copy, kept in `scratch`. Controls, line
// separators included, become spaces; bytes that are not UTF-8 and noncharacters U+FFFD; what is invisible (byte order
// marks, tags) or overrides the direction of text is left out. Combining marks keep a base to stand on, and no more
// than eight stand on one.
[[nodiscard]] std::string_view safe_text(std::string_view text, std::string& scratch);

// Holds a letter of a script that is written from right to left, and so needs to be kept apart from what surrounds it.
[[nodiscard]] bool runs_right_to_left(std::string_view text);

} // namespace coeval
