// swap/swap.hpp: which of the owned parts should go into which slot of the owned pieces, and in which order are they
// moved by hand?
// Integers in, integers out. Best is, in this order: most weight of slots with a right part; most complete pieces; most
// strength; fewest parts moved. A part goes only into slots that its kind is listed for, and otherwise stays where it
// is: a wrong part is left in its slot unless something better goes in.
//
// Parts that fit alike are of one kind, and so are slots that take alike (parts of one run, slots of one issue and
// accessory); what is like nothing else is a kind of its own. A fit is stated once for two kinds: a thousand parts and
// a thousand slots that all fit each other are one row, not a million.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace coeval {

constexpr std::uint32_t most_swapped = 1U << 17U;   // slots, and parts, in one problem
constexpr std::uint32_t most_swap_fits = 1U << 24U; // rows of fits

struct SwapPiece {
  std::int32_t weight = 1; // 1..1000, the owner's priority: how much each rightly filled slot of it counts
};

struct SwapSlot {
  std::uint32_t piece = 0;
  std::uint32_t kind = 0; // of slot
  bool fixed = false;     // what is in it stays, and nothing goes in
};

struct SwapPart {
  std::uint32_t kind = 0;          // of part
  std::optional<std::uint32_t> in; // the slot that it is in now, no two in one; nothing: it lies loose
};

// Parts of a kind may go into slots of a kind. Of several rows for the same two kinds the best counts.
struct SwapFit {
  std::uint32_t part_kind = 0;
  std::uint32_t slot_kind = 0;
  std::int32_t strength = 1; // 1..16, more is better
  bool right = false;        // whether the slot is then rightly filled; otherwise it is not known to be wrong
};

struct SwapProblem {
  std::uint32_t part_kinds = 0; // kinds of part are 0 .. part_kinds - 1
  std::uint32_t slot_kinds = 0;
  std::vector<SwapPiece> pieces;
  std::vector<SwapSlot> slots;
  std::vector<SwapPart> parts;
  std::vector<SwapFit> fits;
};

struct SwapScore {
  std::int64_t right = 0;    // sum of the weights of slots with a right part
  std::int64_t complete = 0; // pieces that have slots, and a right part in each
  std::int64_t strength = 0; // summed over all slots whose part is listed for them
  std::int64_t moved = 0;    // parts that are not where they were

  bool operator==(const SwapScore&) const = default;
};

struct SwapPlan {
  std::vector<std::optional<std::uint32_t>> holds; // by slot: the part that is in it afterwards
  SwapScore before;
  SwapScore after;
  std::int64_t most_complete = 0; // no plan with as much right has more complete pieces than this: proven
  bool complete_is_best = true;   // after.complete is most_complete
  bool is_best = true;            // no plan is better at all: proven. `right` is the most possible in any case
};

// The time that it takes is bounded: where pieces of several slots compete for parts in too many ways (finding the most
// complete is as hard as set packing), it gives the best found and says what is proven. The answer depends on the
// problem alone. An index out of range, a weight or strength out of its range, two parts in one slot, or more than is
// allowed above is a bug of the caller and stops the program.
SwapPlan best_swap(const SwapProblem& problem);

// With more or less search than that: one unit takes about a quarter of a microsecond. With none, the plan has the most
// right all the same.
SwapPlan best_swap(const SwapProblem& problem, std::int64_t work);

struct SwapMove {
  std::uint32_t part = 0;
  std::optional<std::uint32_t> from; // a slot; nothing: from where loose parts lie
  std::optional<std::uint32_t> to;   // a slot, empty by now; nothing: put aside

  bool operator==(const SwapMove&) const = default;
};

// The plan as moves of one hand, in an order in which each slot is empty before something goes in. No part is moved
// twice but the one that is put aside to open a ring of parts that change places. What completes a piece comes first.
std::vector<SwapMove> moves_of(const SwapProblem& problem, const SwapPlan& plan);

} // namespace coeval
