// drawings/columns.hpp: how do the sums of months look beside each other?
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "drawings/drawing.hpp"

namespace coeval {

struct MonthColumn {
  std::int64_t year = 0; // within farthest_year
  int month = 1;         // 1..12
  std::int64_t sum = 0;  // in minor units, not below nought
  std::string words;     // "41.50 GBP"
};

struct ColumnChart {
  std::string title;
  std::string unit;                 // of the scale: "GBP"
  int decimals = 2;                 // of the unit: 100 minor units are one
  std::vector<MonthColumn> columns; // rising; months without a sum are left out
};

// A column for each month over an axis of time, with a scale of round amounts. `width`: units across, 360 for a phone,
// 760 for a desk. The description tells the months in words, the first 120. Work and shapes grow with the number of
// columns only.
[[nodiscard]] Drawing draw_columns(const ColumnChart& chart, double width);

} // namespace coeval
