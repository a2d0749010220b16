#include "money/rates.hpp"

#include <algorithm>
#include <limits>
#include <stdexcept>
#include <tuple>

namespace coeval {

namespace {

bool is_euro_and_replaced(Currency one, Currency other) {
  return (one.code() == "EUR" && other.per_euro()) || (other.code() == "EUR" && one.per_euro());
}

std::variant<Converted, NotConverted> fitted(const std::optional<Money>& money, ConvertedBy by, std::size_t rate = 0) {
  if (!money) return NotConverted::too_large;
  return Converted{.money = *money, .by = by, .rate = rate};
}

} // namespace

Rates::Rates(const std::vector<DatedRate>& rates) {
  rows_.reserve(rates.size());
  for (std::size_t place = 0; place < rates.size(); ++place) {
    const ExchangeRate& rate = rates[place].rate;
    if (rate.is.digits <= 0 || rate.one == rate.other) throw std::logic_error("money: no exchange rate");
    const auto [lower, higher] = std::minmax(rate.one, rate.other);
    rows_.push_back({.lower = lower,
                     .higher = higher,
                     .day = rates[place].day,
                     .place = place,
                     .rate = rate,
                     .rounding = rates[place].rounding});
  }
  std::ranges::sort(rows_, {}, [](const Row& row) { return std::tuple(row.lower, row.higher, row.day, row.place); });
}

std::variant<Converted, NotConverted> Rates::convert(const Money& money, Currency to, std::int64_t day) const {
  if (money.currency == to) return Converted{.money = money};
  const auto [lower, higher] = std::minmax(money.currency, to);
  const std::tuple beyond(lower, higher, day, std::numeric_limits<std::size_t>::max());
  const auto after = std::ranges::upper_bound(
      rows_, beyond, {}, [](const Row& row) { return std::tuple(row.lower, row.higher, row.day, row.place); });
  if (after != rows_.begin()) {
    const Row& row = *std::prev(after);
    if (row.lower == lower && row.higher == higher)
      return fitted(coeval::convert(money, row.rate, row.rounding), ConvertedBy::stated_rate, row.place);
  }
  if (is_euro_and_replaced(money.currency, to))
    return fitted(convert_at_fixed_rates(money, to), ConvertedBy::fixed_rate);
  return NotConverted::no_rate;
}

} // namespace coeval
