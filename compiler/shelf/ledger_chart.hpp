// shelf/ledger_chart.hpp: how much was paid in each month, to be drawn?
#pragma once

#include <optional>

#include "drawings/columns.hpp"
#include "shelf/ledger.hpp"

namespace coeval {

// In the home currency, or in the one currency that everything was paid in. Nothing where neither is known for every
// month. Purchases without a day are in no month, and the title counts them.
[[nodiscard]] std::optional<ColumnChart> chart_by_month(const Ledger& ledger);

} // namespace coeval
