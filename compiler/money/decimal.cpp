#include "money/decimal.hpp"

#include <fmt/format.h>

#include "money/digits.hpp"
#include "money/exact.hpp"

namespace coeval {

std::strong_ordering operator<=>(const Decimal& one, const Decimal& other) {
  const int order = Whole(one.digits * power_of_ten(other.scale)).compare(other.digits * power_of_ten(one.scale));
  return order <=> 0;
}

std::variant<Decimal, MisreadAmount> read_decimal(std::string_view text) {
  const auto read = read_digits(text);
  if (const auto* misread = std::get_if<MisreadAmount>(&read)) return *misread;
  const auto& digits = std::get<Digits>(read);
  return Decimal{.digits = value_of(digits), .scale = static_cast<std::int32_t>(digits.fraction.size())};
}

std::variant<Decimal, MisreadAmount> read_percent(std::string_view text) {
  if (text.ends_with('%')) {
    text.remove_suffix(1);
    if (text.ends_with(' ')) text.remove_suffix(1);
  }
  return read_decimal(text);
}

std::string text(const Decimal& number) {
  const std::string sign = number.digits < 0 ? "-" : "";
  // The least 64-bit number has no opposite: the digits are those of the text.
  std::string digits = fmt::format("{}", number.digits).substr(sign.size());
  const auto scale = static_cast<std::size_t>(number.scale);
  if (scale == 0) return sign + digits;
  if (digits.size() <= scale) digits.insert(0, scale + 1 - digits.size(), '0');
  return sign + digits.insert(digits.size() - scale, 1, '.');
}

std::string_view text(Rounding rounding) {
  switch (rounding) {
  case Rounding::half_up:
    return "half-up";
  case Rounding::half_even:
    return "half-even";
  case Rounding::up:
    return "up";
  case Rounding::down:
    return "down";
  }
  return {};
}

Whole rounded(const Exact& fraction, Rounding rounding) {
  Whole towards_zero;
  Whole rest;
  divide_qr(fraction.over, fraction.under, towards_zero, rest);
  if (rest == 0) return towards_zero;
  const int half = Whole(abs(rest) * 2).compare(fraction.under); // where the fraction lies between the two
  bool away = false;
  switch (rounding) {
  case Rounding::half_up:
    away = half >= 0;
    break;
  case Rounding::half_even:
    away = half > 0 || (half == 0 && towards_zero % 2 != 0);
    break;
  case Rounding::up:
    away = true;
    break;
  case Rounding::down:
    break;
  }
  if (away) towards_zero += fraction.over < 0 ? -1 : 1;
  return towards_zero;
}

Whole rounded(const Exact& fraction, Rounding rounding, std::int64_t unit) {
  return rounded(Exact{fraction.over, fraction.under * unit}, rounding) * unit;
}

std::optional<std::int64_t> fitting(const Whole& number) {
  if (number > std::numeric_limits<std::int64_t>::max() || number < std::numeric_limits<std::int64_t>::min())
    return std::nullopt;
  return static_cast<std::int64_t>(number);
}

} // namespace coeval
