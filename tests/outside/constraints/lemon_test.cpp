// Does LEMON's Bellman-Ford agree on satisfiability and on every distance?
#include <catch2/catch.hpp>

#include <random>

#include "bellman_ford.hpp"
#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"

using namespace coeval;

namespace {

std::vector<lemon_bellman_ford::Arc> arcs_of(const ConstraintGraph& graph) {
  std::vector<lemon_bellman_ford::Arc> arcs;
  for (const Constraint& c : graph.constraints())
    arcs.push_back({static_cast<int>(c.y), static_cast<int>(c.x), c.most});
  return arcs;
}

// Points with a hidden time each; a constraint has some slack, or, rarely, misses by a day or more.
ConstraintGraph random_graph(std::uint64_t seed) {
  std::mt19937_64 engine{seed};
  const auto below = [&](std::uint64_t limit) { return engine() % limit; };
  const auto points = static_cast<std::uint32_t>(2 + below(60));
  const std::uint64_t count = below(4 * points);
  const std::uint64_t misses = below(3) == 0 ? 40 : 0; // in a thousand
  std::vector<std::int64_t> hidden;
  for (std::uint32_t p = 0; p < points; ++p) hidden.push_back(static_cast<std::int64_t>(below(20'000)));
  std::vector<Constraint> constraints;
  for (std::uint64_t i = 0; i < count; ++i) {
    const auto x = static_cast<std::uint32_t>(below(points));
    const auto y = static_cast<std::uint32_t>(below(points));
    const auto slack = static_cast<std::int64_t>(below(500)) - (below(1000) < misses ? 800 : 0);
    constraints.push_back(
        {Point{x}, Point{y}, hidden[x] - hidden[y] + slack, StatementIndex{static_cast<std::uint32_t>(i)}});
  }
  return ConstraintGraph{points, std::move(constraints)};
}

} // namespace

TEST_CASE("LEMON agrees on satisfiability and all distances") {
  int satisfiable = 0;
  int unsatisfiable = 0;
  for (std::uint64_t seed = 1; seed <= 400; ++seed) {
    INFO("seed " << seed);
    const ConstraintGraph graph = random_graph(seed);
    const int points = static_cast<int>(graph.points());
    const lemon_bellman_ford::Digraph digraph{points, arcs_of(graph)};
    const auto entailment = Entailment::build(graph, 0);
    REQUIRE(entailment.has_value() != digraph.has_negative_cycle());
    REQUIRE(find_contradictions(graph, 1, [](auto, auto) { return false; }).empty() == entailment.has_value());
    if (!entailment) {
      ++unsatisfiable;
      continue;
    }
    ++satisfiable;
    for (int from = 0; from < points; ++from) {
      const auto row = digraph.distances_from(from);
      REQUIRE(row);
      const Point start{static_cast<std::uint32_t>(from)};
      REQUIRE(entailment->upper_from(start) == *row);
      for (int to = 0; to < points; to += 7)
        REQUIRE(entailment->upper(Point{static_cast<std::uint32_t>(to)}, start) ==
                (*row)[static_cast<std::size_t>(to)]);
    }
    for (int to = 0; to < points; to += 5) {
      const BoundRow column = entailment->upper_to(Point{static_cast<std::uint32_t>(to)});
      for (int from = 0; from < points; ++from)
        REQUIRE(column[static_cast<std::size_t>(from)] ==
                entailment->upper(Point{static_cast<std::uint32_t>(to)}, Point{static_cast<std::uint32_t>(from)}));
    }
  }
  CHECK(satisfiable > 200);
  CHECK(unsatisfiable > 60);
}
