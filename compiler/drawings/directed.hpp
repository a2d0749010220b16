// drawings/directed.hpp: which edges of a directed graph close circles, and which say nothing that others do not?
//
// Private to this room. Nothing here recurses, so that long chains do not overflow the stack, and nothing depends on
// anything but the order of the input.
#pragma once

#include <cstddef>
#include <vector>

namespace coeval {

struct Arc {
  std::size_t from = 0; // below the number of nodes
  std::size_t to = 0;
  bool certain = true;
};

// The strong component of each node: two nodes have the same number where each can be reached from the other. An arc
// between two components goes from the higher number to the lower. After Tarjan, "Depth-first search and linear graph
// algorithms", 1972.
[[nodiscard]] std::vector<std::size_t> strong_components(std::size_t nodes, const std::vector<Arc>& arcs);

// For each arc: would leaving it and its like out still leave a way from its start to its end? Arcs within a strong
// component stay, as do parallel arcs. What is certain only follows from what is certain. Without circles this is the
// transitive reduction of Aho, Garey and Ullman, 1972. Time: nodes * arcs / 64; memory: linear.
[[nodiscard]] std::vector<bool> implied_arcs(std::size_t nodes, const std::vector<Arc>& arcs);

// For each arc: is it to be turned round, so that none is left that closes a circle? None is where the graph has none;
// arcs from a node to itself count as no circle.
[[nodiscard]] std::vector<bool> backward_arcs(std::size_t nodes, const std::vector<Arc>& arcs);

// The arcs that leave each node, as positions in `arcs`, in their order.
class Outgoing {
public:
  Outgoing(std::size_t nodes, const std::vector<Arc>& arcs);

  [[nodiscard]] const std::size_t* begin(std::size_t node) const { return order_.data() + starts_[node]; }
  [[nodiscard]] const std::size_t* end(std::size_t node) const { return order_.data() + starts_[node + 1]; }
  [[nodiscard]] std::size_t count(std::size_t node) const { return starts_[node + 1] - starts_[node]; }

private:
  std::vector<std::size_t> starts_;
  std::vector<std::size_t> order_;
};

} // namespace coeval
