// shelf/ledger.hpp: what has the shelf cost, to the smallest unit?
//
// A line is one amount of a purchase. Lines are turned into the home currency one by one, each rounded as its rate
// says, and every total is the sum of its lines; nothing is converted twice. A purchase of several things is shared out
// among them by weight without losing a unit. What has no rate is named, and no total at home is given that lacks it.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "money/rates.hpp"
#include "shelf/shelf.hpp"

namespace coeval {

struct LedgerLine {
  PurchaseIndex purchase{};
  Outlay outlay{};
  Money paid;
  std::optional<Money> at_home; // nothing: there is no home currency, or no rate
  ConvertedBy by = ConvertedBy::nothing;
  std::size_t rate = 0; // of the shelf's rates, where `by` is a stated rate
  bool without_rate = false;
};

// What the purchases of one group come to.
struct LedgerSum {
  std::string of;               // an id, a seller, "2026", "2026-05"; empty: not said
  std::optional<Day> first_day; // of a month or year
  std::size_t purchases = 0;
  std::vector<Money> paid;      // in the order of the currencies' codes
  std::optional<Money> at_home; // nothing: there is no home currency, or a rate is missing
};

struct LedgerThing {
  Kind kind{}; // a piece with what it wears, a loose part, or a purchase with which nothing on the shelf came
  LedgerSum sum;
};

struct LedgerCurrency {
  std::size_t lines = 0;
  Money paid;
  std::optional<Money> at_home;
};

struct UsedRate {
  std::size_t rate = 0; // of the shelf's rates
  std::size_t lines = 0;
  Day oldest = 0; // how many days after the day of the rate it was still used
};

struct Ledger {
  std::optional<Currency> home;
  std::vector<LedgerLine> lines;          // by day, those without one last
  std::vector<LedgerThing> things;        // pieces, parts, purchases, as in the file
  std::vector<LedgerSum> sellers;         // by name
  std::vector<LedgerSum> years;           // in order; purchases without a day last
  std::vector<LedgerSum> months;          // the same
  std::vector<LedgerCurrency> currencies; // by code
  LedgerSum total;
  std::vector<UsedRate> rates;      // that were used, in the order of the shelf's
  std::size_t fixed_rate_lines = 0; // lines at a rate fixed by Council Regulation (EC) 2866/98
  std::size_t not_counted = 0;      // purchases that have not come further than a bid
  std::size_t lines_without_rate = 0;
  bool too_large = false; // a sum does not fit; no total means anything then
};

// Takes time in proportion to the number of purchases, things and rates, and their logarithm.
[[nodiscard]] Ledger keep_ledger(const LinkedShelf& shelf);

// One diagnostic for each currency without a rate, and one where a sum does not fit.
void report_missing(const LinkedShelf& shelf, const Ledger& ledger, Diagnostics& out);

} // namespace coeval
