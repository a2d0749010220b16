// report/money_words.hpp: which words do the text and the JSON about money share? Private to this room.
#pragma once

#include <string>

#include "money/landed.hpp"
#include "money/sales.hpp"

namespace coeval {

// "2.5 % of 178.00 and 1 % of 20.00", of what a line of a bill is charged on.
[[nodiscard]] std::string charge_words(const LandedLine& line, Currency currency);
// "hammer, premium and shipping".
[[nodiscard]] std::string cost_words(const CostSet& costs);
// "no", "at-least", "at-most", "below-threshold".
[[nodiscard]] std::string_view name(LandedLine::Held held);
// "2026-Q1".
[[nodiscard]] std::string quarter_words(const Quarter& quarter);

} // namespace coeval
