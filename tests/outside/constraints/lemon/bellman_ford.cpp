#include "bellman_ford.hpp"

#include <lemon/bellman_ford.h>
#include <lemon/list_graph.h>

namespace lemon_bellman_ford {
namespace {

using Graph = lemon::ListDigraph;
using Lengths = Graph::ArcMap<std::int64_t>;
using Search = lemon::BellmanFord<Graph, Lengths>;

// LEMON's graph, maps and search refer to each other, so they stay where they are made.
struct Problem {
  Problem(int points, const std::vector<Arc>& arcs) : lengths(graph) {
    for (int point = 0; point < points; ++point) nodes.push_back(graph.addNode());
    for (const Arc& arc : arcs)
      lengths[graph.addArc(nodes[static_cast<std::size_t>(arc.from)], nodes[static_cast<std::size_t>(arc.to)])] =
          arc.length;
  }

  Graph graph;
  Lengths lengths;
  std::vector<Graph::Node> nodes;
};

} // namespace

std::optional<Row> distances_from(int start, int points, const std::vector<Arc>& arcs) {
  Problem problem{points, arcs};
  Search search{problem.graph, problem.lengths};
  search.init();
  search.addSource(problem.nodes[static_cast<std::size_t>(start)]);
  if (!search.checkedStart()) return {};
  Row row;
  for (const Graph::Node node : problem.nodes)
    row.push_back(search.reached(node) ? std::optional<std::int64_t>{search.dist(node)} : std::nullopt);
  return row;
}

bool has_negative_cycle(int points, const std::vector<Arc>& arcs) {
  Problem problem{points, arcs};
  Search search{problem.graph, problem.lengths};
  search.init();
  for (const Graph::Node node : problem.nodes) search.addSource(node, 0);
  return !search.checkedStart();
}

} // namespace lemon_bellman_ford
