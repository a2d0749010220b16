#include "constraints/irreducible.hpp"

#include <algorithm>
#include <utility>

namespace coeval {

std::vector<StatementIndex> statements_of(const std::vector<Edge>& edges) {
  std::vector<StatementIndex> statements;
  for (const Edge& edge : edges)
    if (edge.statement != by_definition) statements.push_back(edge.statement);
  std::ranges::sort(statements);
  statements.erase(std::unique(statements.begin(), statements.end()), statements.end());
  return statements;
}

// Every negative cycle of the statements and definitions leads through an edge of the one that was added, so all its
// points are reached from those. A statement may have very many edges elsewhere, and very many may leave a point (the
// origin): what is less is gone through.
Reduction::Part Reduction::reached_from(StatementIndex added, const std::vector<StatementIndex>& statements,
                                        int level) const {
  Part part;
  boost::unordered_flat_map<std::uint32_t, std::uint32_t> places;
  const auto place_of = [&](std::uint32_t point) {
    const auto [known, fresh] = places.try_emplace(point, static_cast<std::uint32_t>(part.points.size()));
    if (fresh) part.points.push_back(point);
    return Point{known->second};
  };
  const auto take = [&](std::size_t number, std::uint32_t from) {
    if (edges_.level(number) > level) return;
    Constraint constraint = edges_.constraint(number);
    constraint.y = place_of(from);
    constraint.x = place_of(static_cast<std::uint32_t>(constraint.x));
    part.constraints.push_back(constraint);
    part.indices.push_back(edges_.index(number));
  };
  for (const std::uint32_t number : by_statement_.of(added))
    if (edges_.level(number) <= level) (void)place_of(edges_.from(number));
  for (std::size_t next = 0; next < part.points.size(); ++next) { // grows while it is walked
    const std::uint32_t point = part.points[next];
    for (auto [e, last] = edges_.definitions_leaving(point); e < last; ++e) take(e, point);
    const EdgeRange stated = edges_.stated_leaving(point);
    if (stated.last - stated.first < statements.size()) {
      for (std::size_t e = stated.first; e < stated.last; ++e)
        if (std::ranges::binary_search(statements, edges_.statement(e))) take(e, point);
    } else {
      for (const StatementIndex statement : statements)
        for (const std::uint32_t number : by_statement_.leaving(statement, point)) take(number, point);
    }
  }
  return part;
}

Reduction::Conflict Reduction::reduce(std::vector<Edge> cycle, std::vector<StatementIndex> order, int level,
                                      StatementIndex added, const std::vector<std::int64_t>& potential) {
  if (order.size() < 2) return {std::move(order), std::move(cycle)}; // definitions alone never contradict each other

  std::vector<StatementIndex> left = order;
  std::ranges::sort(left);
  Part part = reached_from(added, left, level);
  std::vector<std::int64_t> start;
  start.reserve(part.points.size());
  for (const std::uint32_t point : part.points) start.push_back(potential[point]);
  const ConstraintGraph small{static_cast<std::uint32_t>(part.points.size()), std::move(part.constraints)};
  const SortedEdges sorted{small, [](ConstraintIndex) { return true; }};

  std::vector<StatementIndex> statements; // of each edge
  for (std::size_t e = 0; e < sorted.size(); ++e) statements.push_back(sorted.statement(e));
  // A smaller one had fewer stated edges than the cycle unless a statement had two to give. So a ring of 10,000 takes
  // no longer than a look at it, where trying to do without each took 1.1 s.
  const std::size_t definitions = static_cast<std::size_t>(std::ranges::count(statements, by_definition));
  if (sorted.size() - definitions == left.size()) return {std::move(left), std::move(cycle)};

  std::vector<char> allowed(sorted.size(), 1);
  ActiveEdges graph{&sorted, {}, {}};
  for (const StatementIndex candidate : order) {
    if (!std::ranges::binary_search(left, candidate)) continue;
    graph.potential = start;
    graph.active = allowed;
    for (std::size_t e = 0; e < graph.active.size(); ++e)
      if (statements[e] == candidate) graph.active[e] = 0;
    const auto smaller = CycleSearch{graph}.next_cycle();
    if (!smaller) continue;
    cycle.clear();
    for (const std::uint32_t edge : *smaller)
      cycle.push_back(edge_of(graph_, part.indices[static_cast<std::size_t>(sorted.index(edge))]));
    left = statements_of(cycle);
    for (std::size_t e = 0; e < allowed.size(); ++e)
      if (statements[e] != by_definition) allowed[e] = std::ranges::binary_search(left, statements[e]);
  }
  return {std::move(left), std::move(cycle)};
}

} // namespace coeval
