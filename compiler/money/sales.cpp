#include "money/sales.hpp"

#include <algorithm>
#include <map>
#include <stdexcept>

#include "money/exact.hpp"

namespace coeval {

namespace {

// The amount that lies at quarters/4 of the way from the first to the last. `sorted` is not empty.
Money quartile(const std::vector<std::int64_t>& sorted, std::size_t quarters, Currency currency) {
  const std::size_t at = (sorted.size() - 1) * quarters;
  const std::size_t below = at / 4;
  const std::size_t above = std::min(below + 1, sorted.size() - 1);
  const Whole weighted = Whole(sorted[below]) * (4 - at % 4) + Whole(sorted[above]) * (at % 4);
  // Between two amounts that fit.
  return {.currency = currency, .minor = static_cast<std::int64_t>(rounded(Exact{weighted, 4}, Rounding::half_even))};
}

} // namespace

std::optional<PriceSpread> spread_of(std::span<const Money> amounts) {
  if (amounts.empty()) return std::nullopt;
  const Currency currency = amounts.front().currency;
  std::vector<std::int64_t> sorted;
  sorted.reserve(amounts.size());
  for (const Money& amount : amounts) {
    if (amount.currency != currency) throw std::logic_error("money: sales in several currencies");
    sorted.push_back(amount.minor);
  }
  std::ranges::sort(sorted);
  return PriceSpread{.count = sorted.size(),
                     .low = quartile(sorted, 0, currency),
                     .lower_quartile = quartile(sorted, 1, currency),
                     .median = quartile(sorted, 2, currency),
                     .upper_quartile = quartile(sorted, 3, currency),
                     .high = quartile(sorted, 4, currency)};
}

Quarter quarter_of(std::int64_t year, int month) { return {.year = year, .quarter = (month - 1) / 3 + 1}; }

std::vector<QuarterSpread> by_quarter(std::span<const DatedAmount> amounts) {
  std::map<Quarter, std::vector<Money>> quarters;
  for (const DatedAmount& dated : amounts) quarters[dated.quarter].push_back(dated.amount);
  std::vector<QuarterSpread> spreads;
  spreads.reserve(quarters.size());
  for (const auto& [quarter, in_it] : quarters) spreads.push_back({.quarter = quarter, .spread = *spread_of(in_it)});
  return spreads;
}

} // namespace coeval
