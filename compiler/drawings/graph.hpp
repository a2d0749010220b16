// drawings/graph.hpp: how does a small directed graph look: moulds that followed each other, plants and their routes?
#pragma once

#include "drawings/drawing.hpp"

namespace coeval {

struct GraphNode {
  std::string label;
  std::string note; // a second, smaller line: "1976-06 to 1981"
  std::string to;   // a path of the site; empty for none
  bool subject = false;
};

struct GraphEdge {
  std::size_t from = 0; // positions in `nodes`
  std::size_t to = 0;
  std::string label; // short: "clean", "1979 to 1981"; empty for none
  bool certain = true;
};

struct Graph {
  std::string title;
  std::vector<GraphNode> nodes;
  std::vector<GraphEdge> edges; // may hold cycles and parallel edges
  // What an edge says, for the description: "A `relation` B".
  std::string relation = "leads to";
};

// In layers, every edge forwards where the graph has no cycle, with few crossings; edges that follow from others are
// left out where `reduce` says so (succession), kept where each is a fact of its own (routes). Same graph, same
// drawing.
[[nodiscard]] Drawing draw_graph(const Graph& graph, bool reduce, double width);

} // namespace coeval
