// report/text_parts.hpp: which small things do several texts for a terminal share?
//
// Private to this room.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "diagnose/render.hpp"

namespace coeval {

// A yes is green, what is open yellow, a no red; where the style has colour.
enum class Tone : std::uint8_t { yes, open, no };
[[nodiscard]] std::string toned(std::string_view text, Tone tone, TextStyle style);

// A line without spaces at its end, and with its line break.
[[nodiscard]] std::string trimmed(std::string line);
// Of ASCII letters.
[[nodiscard]] std::string upper_case(std::string_view text);

} // namespace coeval
