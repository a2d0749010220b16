// money/exact.hpp: what is computed with where 64 bits do not reach? For the .cpp files of this room only.
#pragma once

#include <cstdint>
#include <optional>

#include <boost/multiprecision/cpp_int.hpp>

#include "money/decimal.hpp"

namespace coeval {

using Whole = boost::multiprecision::cpp_int;

// A fraction; `under` is above nought.
struct Exact {
  Whole over = 0;
  Whole under = 1;
};

[[nodiscard]] inline Whole power_of_ten(int exponent) {
  return boost::multiprecision::pow(Whole(10), static_cast<unsigned>(exponent));
}

[[nodiscard]] inline Exact exact(const Decimal& number) { return {number.digits, power_of_ten(number.scale)}; }

// The whole number that the fraction is rounded to.
[[nodiscard]] Whole rounded(const Exact& fraction, Rounding rounding);
// The multiple of `unit` that it is rounded to.
[[nodiscard]] Whole rounded(const Exact& fraction, Rounding rounding, std::int64_t unit);

[[nodiscard]] std::optional<std::int64_t> fitting(const Whole& number);

} // namespace coeval
