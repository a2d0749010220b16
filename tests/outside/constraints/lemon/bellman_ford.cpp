#include "bellman_ford.hpp"

#include <lemon/bellman_ford.h>
#include <lemon/list_graph.h>

namespace lemon_bellman_ford {
namespace {

using Graph = lemon::ListDigraph;
using Lengths = Graph::ArcMap<std::int64_t>;
using Search = lemon::BellmanFord<Graph, Lengths>;

} // namespace

// LEMON's graph and maps refer to each other, so they stay where they are made.
struct Digraph::Parts {
  Graph graph;
  Lengths lengths{graph};
  std::vector<Graph::Node> nodes;
};

Digraph::Digraph(int points, const std::vector<Arc>& arcs) : parts_(std::make_unique<Parts>()) {
  std::vector<Graph::Node>& nodes = parts_->nodes;
  for (int point = 0; point < points; ++point) nodes.push_back(parts_->graph.addNode());
  for (const Arc& arc : arcs) {
    const Graph::Arc added =
        parts_->graph.addArc(nodes[static_cast<std::size_t>(arc.from)], nodes[static_cast<std::size_t>(arc.to)]);
    parts_->lengths[added] = arc.length;
  }
}

Digraph::~Digraph() = default;

std::optional<Row> Digraph::distances_from(int start) const {
  Search search{parts_->graph, parts_->lengths};
  search.init();
  search.addSource(parts_->nodes[static_cast<std::size_t>(start)]);
  if (!search.checkedStart()) return {};
  Row row;
  for (const Graph::Node node : parts_->nodes)
    row.push_back(search.reached(node) ? std::optional<std::int64_t>{search.dist(node)} : std::nullopt);
  return row;
}

bool Digraph::has_negative_cycle() const {
  Search search{parts_->graph, parts_->lengths};
  search.init();
  for (const Graph::Node node : parts_->nodes) search.addSource(node, 0);
  return !search.checkedStart();
}

} // namespace lemon_bellman_ford
