// shelf/dated_rates.hpp: at which rates does a shelf convert?
#pragma once

#include <vector>

#include "money/rates.hpp"
#include "shelf/shelf.hpp"

namespace coeval {

// One for each of the shelf's rates, in their order.
[[nodiscard]] inline std::vector<DatedRate> dated_rates(const LinkedShelf& shelf) {
  std::vector<DatedRate> rates;
  rates.reserve(shelf.rates.size());
  for (const Quotation& quoted : shelf.rates)
    rates.push_back({.rate = quoted.rate, .day = quoted.on, .rounding = quoted.rounding});
  return rates;
}

} // namespace coeval
