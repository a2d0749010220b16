// constraints/components.hpp: where could a negative cycle be at all?
//
// A cycle never leaves a strongly connected component, so an edge between two components is on none.
#pragma once

#include <cstdint>
#include <vector>

#include "constraints/graph.hpp"

namespace coeval {

// Per point, the number of its strongly connected component, counting all constraints of every level.
std::vector<std::uint32_t> components_of(const ConstraintGraph& graph);

} // namespace coeval
