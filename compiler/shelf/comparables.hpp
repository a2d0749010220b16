// shelf/comparables.hpp: what was paid for the same thing elsewhere, and how few sales say so?
//
// Dated sales of one issue, figure, run, mould or accessory. They are compared in the home currency, each at the rate
// of its day; without a home currency those of each currency stay among themselves. Nothing is smoothed, weighted or
// left out as unusual: the answer is the sales, their quartiles, and their number.
#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "money/sales.hpp"
#include "shelf/shelf.hpp"

namespace coeval {

// Fewer say so little that the sales themselves are the better answer (our own choice).
inline constexpr std::size_t few_sales = 5;

struct ComparableSale {
  std::size_t sale = 0; // of the shelf's sales
  Money price;          // as compared
};

struct ComparableGroup {
  std::string of; // "C8.5", "80 to 89", "complete", "fair"; empty: not said
  PriceSpread spread;
};

// The sales that are compared in one currency.
struct ComparedSales {
  std::vector<ComparableSale> sales; // by day
  PriceSpread all;
  std::vector<ComparableGroup> conditions;   // the best first, those of each scale together; not said: last
  std::vector<ComparableGroup> completeness; // sealed, complete, incomplete, bare, not said
  std::vector<ComparableGroup> places;       // by name
  std::vector<QuarterSpread> quarters;       // those that have sales, in order
};

struct Comparables {
  std::vector<ComparedSales> currencies;   // by code
  std::vector<std::size_t> without_rate;   // of the shelf's sales: comparable, but not in the home currency
  std::size_t of_unknown_issue_or_run = 0; // sales of the same figure or accessory that may be of this one or not
};

// `subject`: an issue, figure, run, mould or accessory of the knowledge base. A figure's sales are those of its issues
// too, an accessory's those of its runs.
[[nodiscard]] Comparables compare_sales(const LinkedShelf& shelf, const LinkedKb& kb, EntryIndex subject);

} // namespace coeval
