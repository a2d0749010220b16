// drawings/graph_words.hpp: how is a graph told?
//
// Private to this room.
#pragma once

#include "drawings/graph.hpp"

namespace coeval {

// Its nodes, then what each of `shown` says (positions in its edges).
[[nodiscard]] std::string describe(const Graph& graph, const std::vector<std::size_t>& shown);

} // namespace coeval
