// money/money.hpp: how much is it, exactly?
//
// An amount is a whole number of a currency's minor units. Nothing is a floating-point number, nothing wraps: what does
// not fit is no amount. A conversion multiplies or divides exactly and rounds once.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "money/currency.hpp"
#include "money/decimal.hpp"

namespace coeval {

struct Money {
  Currency currency;
  std::int64_t minor = 0;
  friend bool operator==(const Money&, const Money&) = default;
};

// The most that is read, in minor units: fifteen digits, so that sums of thousands still fit.
inline constexpr std::int64_t greatest_minor = 999'999'999'999'999;

enum class Sign : std::uint8_t {
  none,
  minus, // a minus may stand before the amount
};

// "41.50 GBP": as many decimals as the currency has, or fewer; the currency behind one space. No exponent, no marks
// between thousands.
[[nodiscard]] std::variant<Money, MisreadAmount> read_money(std::string_view text, Sign sign = Sign::none);
// "41.50", where the currency is known.
[[nodiscard]] std::variant<Money, MisreadAmount> read_amount(std::string_view text, Currency currency,
                                                             Sign sign = Sign::none);

// "41.50 GBP", with all decimals.
[[nodiscard]] std::string text(const Money& money);
// "41.50".
[[nodiscard]] std::string amount_text(const Money& money);

// Nothing where it does not fit. Throws std::logic_error for two currencies.
[[nodiscard]] std::optional<Money> add(const Money& one, const Money& other);

// Of a number of the currency's units, such as an amount with too many decimals: the nearest multiple of `unit` minor
// units by the rounding. Nothing where it does not fit.
[[nodiscard]] std::optional<Money> rounded(const Decimal& units, Currency currency, Rounding rounding,
                                           std::int64_t unit = 1);

// One `one` is `is` of `other`: 1 GBP = 1.1745 EUR.
struct ExchangeRate {
  Currency one;
  Decimal is;
  Currency other;
};

// Multiplies where the money is in `rate.one` and divides where it is in `rate.other`; no inverse rate is made. Nothing
// where it does not fit. Throws std::logic_error for another currency or a rate of nought.
[[nodiscard]] std::optional<Money> convert(const Money& money, const ExchangeRate& rate, Rounding rounding);

// Between the euro and a currency that it replaced, or two of those, as Council Regulation (EC) 1103/97 has it: Article
// 4, fixed rates of six significant figures, neither rounded nor inverted, and from one national currency to another by
// way of an amount in euro that keeps `euro_decimals` (three or more); Article 5, half up. Nothing where it does not
// fit. Throws std::logic_error for another currency, or fewer than three decimals.
[[nodiscard]] std::optional<Money> convert_at_fixed_rates(const Money& money, Currency to, int euro_decimals = 3);

} // namespace coeval
