#include "money/money.hpp"

#include <stdexcept>

#include <fmt/format.h>

#include "money/digits.hpp"
#include "money/exact.hpp"

namespace coeval {

namespace {

// In minor units of the currency.
std::optional<Money> rounded_minor(const Exact& minor, Currency currency, Rounding rounding, std::int64_t unit = 1) {
  const auto fits = fitting(rounded(minor, rounding, unit));
  if (!fits) return std::nullopt;
  return Money{.currency = currency, .minor = *fits};
}

Exact in_units(const Money& money) { return {money.minor, power_of_ten(money.currency.decimals())}; }

Exact times(const Exact& one, const Exact& other) { return {one.over * other.over, one.under * other.under}; }

// `other` is above nought.
Exact divided(const Exact& one, const Exact& other) { return {one.over * other.under, one.under * other.over}; }

std::optional<Money> paid_in(const Exact& units, Currency currency, Rounding rounding) {
  return rounded_minor(times(units, {power_of_ten(currency.decimals()), 1}), currency, rounding);
}

MisreadAmount too_many_decimals(std::size_t written, Currency currency) {
  const int decimals = currency.decimals();
  if (decimals == 0)
    return {fmt::format("decimals in an amount of {}", currency.code()),
            fmt::format("{} has no minor unit: write whole units", currency.code())};
  return {fmt::format("{} decimals in an amount of {}", written, currency.code()),
          fmt::format("{} has {}: round it as the bill does", currency.code(), decimals)};
}

bool is_euro(Currency currency) { return currency.code() == "EUR"; }

Exact fixed_rate(Currency currency) {
  const auto rate = currency.per_euro();
  if (!rate) throw std::logic_error(fmt::format("money: no rate to the euro is fixed for {}", currency.code()));
  return exact(*rate);
}

} // namespace

std::variant<Money, MisreadAmount> read_amount(std::string_view text, Currency currency, Sign sign) {
  const bool below_nought = sign == Sign::minus && text.starts_with('-');
  if (below_nought) text.remove_prefix(1);
  const auto read = read_digits(text);
  if (const auto* misread = std::get_if<MisreadAmount>(&read)) return *misread;
  const auto& digits = std::get<Digits>(read);
  const auto decimals = static_cast<std::size_t>(currency.decimals());
  if (digits.fraction.size() > decimals) return too_many_decimals(digits.fraction.size(), currency);
  const Whole minor = Whole(value_of(digits)) * power_of_ten(static_cast<int>(decimals - digits.fraction.size()));
  if (minor > greatest_minor)
    return MisreadAmount{"an amount that is too large",
                         fmt::format("no more than {} are read", coeval::text(Money{currency, greatest_minor}))};
  const auto magnitude = static_cast<std::int64_t>(minor);
  return Money{.currency = currency, .minor = below_nought ? -magnitude : magnitude};
}

std::variant<Money, MisreadAmount> read_money(std::string_view text, Sign sign) {
  if (text.empty()) return MisreadAmount{"an amount is missing", "write it like `41.50 GBP`"};
  const std::size_t space = text.rfind(' ');
  if (space == std::string_view::npos || text.front() == ' ')
    return MisreadAmount{fmt::format("no amount with its currency: {}", quoted(text)), "write it like `41.50 GBP`"};
  const char first = text.front();
  if ((first >= 'A' && first <= 'Z') || (first >= 'a' && first <= 'z'))
    return MisreadAmount{fmt::format("the currency stands first: {}", quoted(text)),
                         "write the amount, then its currency: `41.50 GBP`"};
  const auto currency = read_currency(text.substr(space + 1));
  if (const auto* misread = std::get_if<MisreadAmount>(&currency)) return *misread;
  return read_amount(text.substr(0, space), std::get<Currency>(currency), sign);
}

std::string amount_text(const Money& money) {
  return text(Decimal{.digits = money.minor, .scale = money.currency.decimals()});
}

std::string text(const Money& money) { return fmt::format("{} {}", amount_text(money), money.currency.code()); }

std::optional<Money> add(const Money& one, const Money& other) {
  if (one.currency != other.currency)
    throw std::logic_error(fmt::format("money: {} added to {}", other.currency.code(), one.currency.code()));
  const auto sum = fitting(Whole(one.minor) + other.minor);
  if (!sum) return std::nullopt;
  return Money{.currency = one.currency, .minor = *sum};
}

std::optional<Money> rounded(const Decimal& units, Currency currency, Rounding rounding, std::int64_t unit) {
  if (unit < 1) throw std::logic_error("money: a unit to round to is below one");
  return rounded_minor(times(exact(units), {power_of_ten(currency.decimals()), 1}), currency, rounding, unit);
}

std::optional<Money> convert(const Money& money, const ExchangeRate& rate, Rounding rounding) {
  if (rate.is.digits <= 0) throw std::logic_error("money: an exchange rate of nought or less");
  if (money.currency == rate.one) return paid_in(times(in_units(money), exact(rate.is)), rate.other, rounding);
  if (money.currency == rate.other) return paid_in(divided(in_units(money), exact(rate.is)), rate.one, rounding);
  throw std::logic_error(
      fmt::format("money: {} at a rate of {} to {}", money.currency.code(), rate.one.code(), rate.other.code()));
}

std::optional<Money> convert_at_fixed_rates(const Money& money, Currency to, int euro_decimals) {
  constexpr int fewest_decimals = 3;
  if (euro_decimals < fewest_decimals)
    throw std::logic_error("money: fewer than three decimals between two currencies");
  if (money.currency == to) return money;
  const Exact units = in_units(money);
  if (is_euro(money.currency)) return paid_in(times(units, fixed_rate(to)), to, Rounding::half_up);
  const Exact in_euro = divided(units, fixed_rate(money.currency));
  if (is_euro(to)) return paid_in(in_euro, to, Rounding::half_up);
  const Whole scale = power_of_ten(euro_decimals);
  const Exact between{rounded(times(in_euro, {scale, 1}), Rounding::half_up), scale};
  return paid_in(times(between, fixed_rate(to)), to, Rounding::half_up);
}

} // namespace coeval
