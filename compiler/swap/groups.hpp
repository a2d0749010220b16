// swap/groups.hpp: which pieces are alike, and which have nothing to do with each other?
// Pieces of one weight whose slots are alike and hold alike parts can stand for each other. What no part can reach from
// one side to the other is a component, and is solved for itself.
#pragma once

#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "swap/swap.hpp"

namespace coeval {

constexpr std::uint32_t no_kind = std::numeric_limits<std::uint32_t>::max();
constexpr std::uint32_t no_part = std::numeric_limits<std::uint32_t>::max();

[[noreturn]] void stop_swap(const char* bug);

// The fits sorted by slot kind, then part kind, the best of equal ones kept.
class FitTable {
public:
  explicit FitTable(const SwapProblem& problem);
  std::span<const SwapFit> of_slot_kind(std::uint32_t kind) const;
  const SwapFit* find(std::uint32_t part_kind, std::uint32_t slot_kind) const; // null: not listed

private:
  std::vector<SwapFit> fits_;
  std::vector<std::size_t> begins_;
};

// A slot of a group: the kind of slot and the kind of part that is in it.
struct SwapPlace {
  std::uint32_t slot_kind = 0;
  std::uint32_t held_kind = no_kind;

  auto operator<=>(const SwapPlace&) const = default;
};

// Alike pieces; or alike slots of pieces that cannot be complete in any plan, each slot for itself.
struct SwapGroup {
  struct Kind {
    std::int32_t weight = 1;
    bool can_complete = false;

    auto operator<=>(const Kind&) const = default;
  };

  Kind kind;
  std::vector<SwapPlace> places;    // of each piece
  std::vector<std::uint32_t> slots; // piece by piece, in the order of the places

  std::uint32_t count() const { return static_cast<std::uint32_t>(slots.size() / places.size()); }
};

struct SwapComponent {
  std::vector<SwapGroup> groups;
  std::vector<std::uint32_t> part_kinds; // ascending: those of which there are parts that can move
};

// The components that groups fall into, with the part kinds (ascending) that they have to do with.
std::vector<SwapComponent> components_of(std::vector<SwapGroup> groups, const std::vector<std::uint32_t>& part_kinds,
                                         const FitTable& fits);

// What a problem looks like from its slots and kinds. Fixed slots and what is in them are left out of the components.
struct SwapLayout {
  std::vector<std::uint32_t> held; // by slot: the part in it now, or no_part
  std::vector<SwapComponent> components;
  std::int64_t always_complete = 0; // pieces that are, and have no slot that is not fixed
};

// Stops where the problem breaks its contract.
void check_problem(const SwapProblem& problem);

// O(n log n) in slots, parts and fits.
SwapLayout lay_out(const SwapProblem& problem, const FitTable& fits);

} // namespace coeval
