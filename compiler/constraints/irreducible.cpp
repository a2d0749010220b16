#include "constraints/irreducible.hpp"

#include <algorithm>

namespace coeval {

std::vector<StatementIndex> statements_of(const std::vector<Edge>& edges) {
  std::vector<StatementIndex> statements;
  for (const Edge& edge : edges)
    if (edge.statement != by_definition) statements.push_back(edge.statement);
  std::ranges::sort(statements);
  statements.erase(std::unique(statements.begin(), statements.end()), statements.end());
  return statements;
}

Reduction::Reduction(const ConstraintGraph& graph, const SortedEdges& definitions)
    : graph_(graph), definitions_(definitions), places_(graph.points(), 0) {}

std::uint32_t Reduction::place_of(std::uint32_t point) {
  if (places_[point] == 0) {
    points_.push_back(point);
    places_[point] = static_cast<std::uint32_t>(points_.size());
  }
  return places_[point] - 1;
}

Reduction::Conflict Reduction::reduce(std::vector<Edge> cycle, std::vector<StatementIndex> order, int level,
                                      const std::function<std::vector<Edge>(StatementIndex)>& constraints_of,
                                      const std::vector<std::int64_t>& potential) {
  if (order.size() < 2) return {std::move(order), std::move(cycle)}; // definitions alone never contradict each other

  // A small graph of its own, with points numbered by place. It is told apart from the whole only in here.
  std::vector<Edge> edges;
  for (const StatementIndex statement : order)
    for (const Edge& edge : constraints_of(statement)) edges.push_back(edge);
  for (Edge& edge : edges) {
    edge.from = place_of(edge.from);
    edge.to = place_of(edge.to);
  }
  for (std::size_t place = 0; place < points_.size(); ++place) { // grows while it is walked
    for (Edge edge : definitions_.at(points_[place])) {
      if (graph_[edge.constraint].level > level) continue;
      edge.from = static_cast<std::uint32_t>(place);
      edge.to = place_of(edge.to);
      edges.push_back(edge);
    }
  }
  std::vector<std::int64_t> start;
  start.reserve(points_.size());
  for (const std::uint32_t point : points_) start.push_back(potential[point]);
  const SortedEdges sorted{static_cast<std::uint32_t>(points_.size()), std::move(edges)};
  for (const std::uint32_t point : points_) places_[point] = 0;
  points_.clear();

  std::vector<char> allowed(sorted.all().size(), 1);
  std::vector<StatementIndex> left = order;
  std::ranges::sort(left);
  ActiveEdges graph{&sorted, {}, {}};
  for (const StatementIndex candidate : order) {
    if (!std::ranges::binary_search(left, candidate)) continue;
    graph.potential = start;
    graph.active = allowed;
    for (std::size_t e = 0; e < graph.active.size(); ++e)
      if (sorted[e].statement == candidate) graph.active[e] = 0;
    const auto smaller = CycleSearch{graph}.next_cycle();
    if (!smaller) continue;
    cycle.clear();
    for (const std::uint32_t edge : *smaller) cycle.push_back(edge_of(graph_, sorted[edge].constraint));
    left = statements_of(cycle);
    for (std::size_t e = 0; e < allowed.size(); ++e)
      if (sorted[e].statement != by_definition) allowed[e] = std::ranges::binary_search(left, sorted[e].statement);
  }
  return {std::move(left), std::move(cycle)};
}

} // namespace coeval
