// swap/climb.hpp: which more pieces can be complete, when parts are moved along for them?
// One piece after the other is made complete by augmenting paths that leave complete what is so; a group that gives no
// more never will, because what is complete stays so. That finds no plan that nothing can be added to better than
// another: it is for where a search takes too long.
#pragma once

#include <cstdint>
#include <vector>

#include "swap/network.hpp"

namespace coeval {

// What all flows with the most right have in common, by arc.
enum class FixedArc : std::uint8_t { no, empty, full };

// Changes the flow, which must keep what is fixed. Looks at about so many arcs at most; returns at how many it looked.
std::int64_t climb(const SwapComponent& component, const SwapNetwork& network, const std::vector<FixedArc>& fixed,
                   std::int64_t most_arcs, std::vector<std::int32_t>& flow);

} // namespace coeval
