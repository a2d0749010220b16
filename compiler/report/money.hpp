// report/money.hpp: how is told what things have cost, how high to bid, and what others paid?
//
// The values are those of the rooms shelf and money; nothing is computed here. Amounts are written exactly, in JSON as
// in text: "41.50 GBP".
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "diagnose/render.hpp"
#include "shelf/comparables.hpp"
#include "shelf/ledger.hpp"

namespace coeval {

// What it has cost.
struct LedgerReport {
  const LinkedShelf& shelf;
  const Ledger& ledger;
  bool every_amount = false; // in the text; the JSON always has them
};
[[nodiscard]] std::string ledger_text(const LedgerReport& report, TextStyle style);
[[nodiscard]] std::string ledger_json(const LedgerReport& report);

// How high to bid.
struct CeilingReport {
  const FeeTable& fees;
  Money budget;
  std::optional<Landed> bill; // of the highest bid; nothing: not even the lowest bid is within the budget
  std::optional<Landed> next; // of the next higher bid, where it fits
  std::int64_t next_bid = 0;  // in minor units
};
[[nodiscard]] std::string ceiling_text(const CeilingReport& report, TextStyle style);
[[nodiscard]] std::string ceiling_json(const CeilingReport& report);

// What others paid.
struct ComparablesReport {
  const LinkedShelf& shelf;
  std::string_view subject; // its address
  const Comparables& comparables;
};
[[nodiscard]] std::string comparables_text(const ComparablesReport& report, TextStyle style);
[[nodiscard]] std::string comparables_json(const ComparablesReport& report);

// What whoever relies on a highest bid has to know.
inline constexpr std::string_view ceiling_caution =
    "Rates, duties and taxes are those of the shelf's file; what is owed is decided by the customs authority and the "
    "seller's conditions. This is no advice on customs or tax law.";
// The same of what others paid.
inline constexpr std::string_view comparables_caution = "These are sales that were entered, not all that were made. "
                                                        "What others paid is no appraisal; those are for licensed "
                                                        "appraisers.";

} // namespace coeval
