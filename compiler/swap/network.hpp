// swap/network.hpp: how does a component look as a flow of parts?
// Parts flow from outside through their kind, and through the kind of slot or straight to the slot that they are in
// now, into the slots of a group, and outside again. A unit that passes the entry of a group's place fills a slot of it
// rightly; what passes only its room fills it otherwise. Moves: a part that stays in its slot gives one back, what is
// taken beyond the parts that are in slots costs one.
#pragma once

#include <cstdint>
#include <vector>

#include "swap/groups.hpp"
#include "swap/min_cost_flow.hpp"

namespace coeval {

// What one unit on an arc is worth.
struct SwapWorth {
  std::int32_t right = 0;
  std::int32_t strength = 0;
  std::int32_t moved = 0;
};

// The place of a group, and the arcs that are asked about later.
struct PlaceArcs {
  std::uint32_t group = 0;
  std::uint32_t place = 0;      // of the group
  std::uint32_t right = 0;      // arc of right fills
  std::uint32_t stay = no_kind; // arc of parts that stay where they are, or none
  bool stay_is_right = false;
  std::uint32_t open_in = no_kind; // arc of open parts from the kind of slot; none: all that come for the kind
};

// Where parts of a kind come into the places of a kind of slot.
struct FitArc {
  std::uint32_t arc = 0;
  std::uint32_t part_kind = 0; // as numbered in the problem
  std::uint32_t slot_kind = 0;
  bool right = false;
};

struct SwapNetwork {
  std::uint32_t nodes = 0;
  std::vector<FlowArc> arcs;
  std::vector<std::int32_t> capacity;
  std::vector<SwapWorth> worth;
  std::vector<PlaceArcs> places;          // group by group
  std::vector<std::uint32_t> first_place; // by group, and the end
  std::vector<FitArc> fits;
  std::int64_t held = 0; // parts in slots
  std::int64_t slots = 0;
};

// By part kind of the problem: the parts that may move.
struct PartSupply {
  std::int32_t held = 0;
  std::int32_t loose = 0;
};

// Arcs: the component's fits, and up to five for each place of a group.
SwapNetwork build_network(const SwapComponent& component, const FitTable& fits, const std::vector<PartSupply>& supply);

} // namespace coeval
