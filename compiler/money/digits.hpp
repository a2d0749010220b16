// money/digits.hpp: which digits stand before and behind the point?
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

#include "money/decimal.hpp"

namespace coeval {

struct Digits {
  std::string_view whole;    // one or more
  std::string_view fraction; // none where there is no point
};

inline constexpr std::size_t most_digits = 18; // as many as surely fit 64 bits

// Refuses everything but digits with one point between them at most, and more than most_digits.
[[nodiscard]] std::variant<Digits, MisreadAmount> read_digits(std::string_view text);

// Of read_digits, both parts in a row; no more than most_digits.
[[nodiscard]] std::int64_t value_of(const Digits& digits);

// "`x`" of printable text, "byte 0xE2" of what is not, cut off where it is long.
[[nodiscard]] std::string quoted(std::string_view text);

} // namespace coeval
