// shelf/wants.hpp: what is still missing once every owned part is where it does most good, and which runs would do?
//
// Beside the slots that no swap fills, what the owner says to look for. A slot whose part may be right is not missing.
#pragma once

#include "examine/ask.hpp"
#include "shelf/swap_plan.hpp"

namespace coeval {

struct WantedRun {
  RunIndex run{};
  const Judgement* judgement = nullptr; // on the issue; nothing where no issue is asked about; kept by the judge
  std::size_t pairings = 0;             // attested, on record: with the issue, or with any where none is asked about
};

// A slot that pieces of one issue lack, or something that the owner looks for.
struct Wanted {
  std::optional<std::size_t> want; // of the shelf's wants; nothing: a slot is missing
  IssueIndex issue{};              // of the missing slot
  std::size_t slot = 0;            // of the judge's slots of the issue
  std::vector<PieceIndex> pieces;  // that lack it, the greatest priority first, then as in the file
  std::int64_t priority = 1;       // the greatest of the pieces, or of the want
  std::vector<WantedRun> runs;     // that would do: attested, fits, then open; else by mould and run
  std::vector<FeatureIndex> ask;   // to tell the first of the runs from what else is offered as such: of a seller
};

// The greatest priority first, then what the owner names, then missing slots in the order of the knowledge base.
// `after` is the best swap. Each accessory is tabulated once, each run's questions are found once.
[[nodiscard]] std::vector<Wanted> find_wanted(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge,
                                              const ShelfSwap& after, Basis weakest);

} // namespace coeval
