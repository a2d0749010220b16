// swap/search.hpp: which flow through a component is the best, counting complete pieces?
//
// Most weight of rightly filled slots alone is a min-cost flow. Its potentials say which arcs every flow with as much
// weight must fill or leave empty, and everything after that happens among such flows only. Complete pieces make the
// problem hard: a piece counts only if all its slots are right. They are searched by branch and bound on the number of
// complete pieces of each group. The bound is Lagrangian: a piece's worth is shared out among its slots, in any shares
// that add up to one, which can only be too much; shares move to the slots that are short.
#pragma once

#include <cstdint>
#include <vector>

#include "swap/network.hpp"

namespace coeval {

struct SwapSearch {
  std::vector<std::int32_t> flow; // by arc of the network: the best found
  std::int64_t most_complete = 0; // proven, without pieces that have no slot to fill
  bool is_best = true;            // no flow is better: proven
  std::int64_t solved = 0;        // flows that were solved on the way
};

// Solves at most `effort` flows, and two whatever the effort is.
SwapSearch search_flows(const SwapComponent& component, const SwapNetwork& network, std::int64_t effort);

} // namespace coeval
