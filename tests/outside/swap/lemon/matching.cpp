#include "matching.hpp"

#include <lemon/matching.h>
#include <lemon/smart_graph.h>

namespace lemon_matching {

std::vector<std::size_t> heaviest_matching(int nodes, const std::vector<Edge>& edges) {
  using Graph = lemon::SmartGraph;
  using Weights = Graph::EdgeMap<std::int64_t>;
  Graph graph;
  for (int node = 0; node < nodes; ++node) graph.addNode();
  Weights weights{graph};
  for (const Edge& edge : edges)
    weights[graph.addEdge(Graph::nodeFromId(edge.one), Graph::nodeFromId(edge.other))] = edge.weight;
  lemon::MaxWeightedMatching<Graph, Weights> matching{graph, weights};
  matching.run();
  std::vector<std::size_t> matched;
  for (std::size_t e = 0; e < edges.size(); ++e)
    if (matching.matching(Graph::edgeFromId(static_cast<int>(e)))) matched.push_back(e);
  return matched;
}

} // namespace lemon_matching
