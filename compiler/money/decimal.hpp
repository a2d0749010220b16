// money/decimal.hpp: which exact number is written as "1.1745" or "2.5 %", and how is one rounded?
//
// Rates and percents are decimal fractions: no binary fraction stands for one anywhere.
#pragma once

#include <compare>
#include <cstdint>
#include <string>
#include <string_view>
#include <variant>

namespace coeval {

// What could not be read, why, and what would do. Fit for a message: bytes outside printable ASCII are told by number.
struct MisreadAmount {
  std::string message;
  std::string help;
};

inline constexpr std::int32_t greatest_scale = 18;

// digits × 10^-scale. Keeps the zeros that were written: "7.50" has scale 2. Compared by value: 7.50 is 7.5.
struct Decimal {
  std::int64_t digits = 0;
  std::int32_t scale = 0; // 0..greatest_scale
  friend std::strong_ordering operator<=>(const Decimal& one, const Decimal& other);
  friend bool operator==(const Decimal& one, const Decimal& other) { return (one <=> other) == 0; }
};

// Digits, with or without a point and digits behind it: no sign, no exponent, no marks between thousands. At most 18
// digits.
[[nodiscard]] std::variant<Decimal, MisreadAmount> read_decimal(std::string_view text);
// The same with or without " %" behind it: "2.5", "2.5%", "2.5 %".
[[nodiscard]] std::variant<Decimal, MisreadAmount> read_percent(std::string_view text);
// "1.1745": as it was written.
[[nodiscard]] std::string text(const Decimal& number);

// Where an exact number lies between two that can be paid.
enum class Rounding : std::uint8_t {
  half_up,   // to the nearest, from half-way away from zero: the euro's rule (Regulation (EC) 1103/97 Art. 5)
  half_even, // to the nearest, from half-way to the even one: rule A of ISO 80000-1 annex B
  up,        // away from zero
  down,      // towards zero
};

[[nodiscard]] std::string_view text(Rounding rounding); // "half-up", "half-even", "up", "down"

} // namespace coeval
