// shelf/swap_plan.hpp: who should wear what, of all that is owned, and which hand moves lead there?
//
// Turns a shelf into the optimiser's integers (swap/swap.hpp) and its answer back into pieces and parts. What is not in
// the hand cannot be moved: parcels that have not arrived are left out, unless asked for. A piece whose issue is not
// known, and one that its owner keeps, stays as it is.
#pragma once

#include <set>

#include "shelf/part_fit.hpp"
#include "swap/swap.hpp"

namespace coeval {

struct SwapWishes {
  std::set<PieceIndex> keep;            // beside those that say so themselves
  std::optional<std::string> only_slot; // only slots of this name change
  bool with_parcels = false;            // as if every parcel had arrived
};

struct WornPlace {
  PieceIndex piece{};
  std::string slot;
};

struct PlannedMove {
  PartIndex part{};
  std::optional<WornPlace> from; // nothing: it lies loose
  std::optional<WornPlace> to;   // nothing: it is put aside
  const PartFit* fit = nullptr;  // on the piece that it goes to
  bool completes = false;        // every slot of that piece has a right part from then on
};

struct SwapCounts {
  std::size_t right = 0;    // slots with a right part
  std::int64_t weight = 0;  // the priorities of their pieces, added up: what a swap makes the most of
  std::size_t complete = 0; // pieces with a right part in each of their slots, one or more
};

struct ShelfSwap {
  std::size_t slots = 0;  // of pieces that the swap looks at, kept ones included
  std::size_t pieces = 0; // that have slots
  SwapCounts before;
  SwapCounts after;
  std::vector<PlannedMove> moves; // in an order in which nothing is needed before it is free
  // By piece of the shelf: what its slots hold afterwards, in the order of PartJudge::slots; empty for pieces that the
  // swap does not look at.
  std::vector<std::vector<std::optional<PartIndex>>> worn;
  std::int64_t most_complete = 0; // proven: no plan with as much right has more complete pieces
  bool is_best = true;            // proven: no plan is better at all
};

// Whether it is in its owner's hands: its purchase has arrived, or has no day at all.
[[nodiscard]] bool in_hand(const LinkedShelf& shelf, const Received& received);
// Whether it is owned, in the hand or on its way: not merely offered or bid for.
[[nodiscard]] bool owned(const LinkedShelf& shelf, const Received& received);

[[nodiscard]] ShelfSwap plan_swap(const LinkedKb& kb, const LinkedShelf& shelf, PartJudge& judge,
                                  const SwapWishes& wishes);

} // namespace coeval
