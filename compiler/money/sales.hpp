// money/sales.hpp: what do sales say about a price, and how few are they?
//
// The median and the quartiles of exact amounts. A quartile between two amounts is their exact mean, weighted by where
// it lies, rounded once to the minor unit, half to even.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

#include "money/money.hpp"

namespace coeval {

// Quartiles are definition 7 of R. J. Hyndman and Y. Fan, "Sample quantiles in statistical packages", The American
// Statistician 50(4), 1996, pp. 361-365: with the amounts sorted and counted from nought, the p-quantile of n lies at
// (n - 1)p. One amount is its own median and quartiles.
struct PriceSpread {
  std::size_t count = 0; // one or more
  Money low;
  Money lower_quartile;
  Money median;
  Money upper_quartile;
  Money high;
};

// Nothing of nothing. Throws std::logic_error for several currencies.
[[nodiscard]] std::optional<PriceSpread> spread_of(std::span<const Money> amounts);

// Of the calendar: January to March is the first.
struct Quarter {
  std::int64_t year = 0;
  int quarter = 1; // 1..4
  friend auto operator<=>(const Quarter&, const Quarter&) = default;
};

[[nodiscard]] Quarter quarter_of(std::int64_t year, int month);

struct DatedAmount {
  Money amount;
  Quarter quarter;
};

struct QuarterSpread {
  Quarter quarter;
  PriceSpread spread;
};

// The quarters that have amounts, in their order.
[[nodiscard]] std::vector<QuarterSpread> by_quarter(std::span<const DatedAmount> amounts);

} // namespace coeval
