#include "money/digits.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace coeval {

namespace {

constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }

MisreadAmount not_a_digit(char c, std::string_view rest) {
  const std::string found = fmt::format("{} in a number", quoted(rest.substr(0, 1)));
  switch (c) {
  case ',':
    return {found, "decimals stand behind a point and thousands have no marks: `1234.50`"};
  case '\'':
  case '_':
  case ' ':
    return {found, "thousands have no marks: `1234.50`"};
  case 'e':
  case 'E':
    return {found, "write all digits, without an exponent"};
  case '.':
    return {"a second point in a number", "decimals stand behind one point and thousands have no marks"};
  case '-':
  case '+':
    return {found, "leave the sign away: the number has none here"};
  default:
    return {found, "write digits, with a point before decimals: `41.50`"};
  }
}

} // namespace

std::string quoted(std::string_view text) {
  constexpr std::size_t longest = 24;
  for (const char c : text.substr(0, longest)) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < ' ' || byte >= 0x7F || c == '`') return fmt::format("byte 0x{:02X}", byte);
  }
  return text.size() <= longest ? fmt::format("`{}`", text) : fmt::format("`{}…`", text.substr(0, longest));
}

std::variant<Digits, MisreadAmount> read_digits(std::string_view text) {
  if (text.empty()) return MisreadAmount{"a number is missing", "write digits, with a point before decimals: `41.50`"};
  const std::size_t point = std::min(text.find('.'), text.size());
  const Digits digits{.whole = text.substr(0, point),
                      .fraction = point == text.size() ? std::string_view() : text.substr(point + 1)};
  for (const std::string_view part : {digits.whole, digits.fraction}) {
    const auto odd = std::ranges::find_if_not(part, is_digit);
    if (odd != part.end()) return not_a_digit(*odd, part.substr(static_cast<std::size_t>(odd - part.begin())));
  }
  if (digits.whole.empty()) return MisreadAmount{"no digit before the point", "write a nought before it: `0.50`"};
  if (point != text.size() && digits.fraction.empty())
    return MisreadAmount{"no digit behind the point", "write the decimals, or leave the point away"};
  if (digits.whole.size() + digits.fraction.size() > most_digits)
    return MisreadAmount{fmt::format("{} digits in a number", digits.whole.size() + digits.fraction.size()),
                         fmt::format("no more than {} are read", most_digits)};
  return digits;
}

std::int64_t value_of(const Digits& digits) {
  std::int64_t value = 0;
  for (const std::string_view part : {digits.whole, digits.fraction})
    for (const char c : part) value = value * 10 + (c - '0');
  return value;
}

} // namespace coeval
