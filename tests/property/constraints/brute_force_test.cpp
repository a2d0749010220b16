// Do satisfiability and tightest bounds hold against trying every placement of the points on small integers?
//
// With n points and lengths within +-W, a satisfiable graph has a solution on 0 .. 2(n-1)W that attains any one
// tightest bound, and a difference of more than (n-1)W is possible there iff it is not bounded at all.
#include <catch2/catch.hpp>

#include "oracle.hpp"
#include "random_graph.hpp"

using namespace coeval;
using random_graph::Dice;

namespace {

struct Tried {
  bool satisfiable = false;
  std::vector<std::vector<std::int64_t>> greatest; // [x][y]: of x - y over all solutions
};

Tried try_all(const ConstraintGraph& graph, std::int64_t last) {
  const std::size_t points = graph.points();
  Tried tried{false, std::vector<std::vector<std::int64_t>>(points, std::vector<std::int64_t>(points, -last))};
  std::vector<std::int64_t> at(points, 0);
  while (true) {
    const bool holds = std::ranges::all_of(graph.constraints(), [&](const Constraint& c) {
      return at[static_cast<std::size_t>(c.x)] - at[static_cast<std::size_t>(c.y)] <= c.most;
    });
    if (holds) {
      tried.satisfiable = true;
      for (std::size_t x = 0; x < points; ++x)
        for (std::size_t y = 0; y < points; ++y) tried.greatest[x][y] = std::max(tried.greatest[x][y], at[x] - at[y]);
    }
    std::size_t next = 0;
    while (next < points && at[next] == last) at[next++] = 0;
    if (next == points) return tried;
    ++at[next];
  }
}

// The fewest stated constraints on any chain from `from` to `to` of exactly this length that passes no point twice.
std::int64_t fewest_stated(const ConstraintGraph& graph, Point from, Point to, std::int64_t length,
                           std::vector<char>& visited) {
  constexpr std::int64_t impossible = 1000;
  if (from == to) return length == 0 ? 0 : impossible;
  std::int64_t fewest = impossible;
  visited[static_cast<std::size_t>(from)] = 1;
  for (const Constraint& c : graph.constraints()) {
    if (c.y != from || visited[static_cast<std::size_t>(c.x)] != 0) continue;
    const std::int64_t rest = fewest_stated(graph, c.x, to, length - c.most, visited);
    fewest = std::min(fewest, rest + (c.statement == by_definition ? 0 : 1));
  }
  visited[static_cast<std::size_t>(from)] = 0;
  return fewest;
}

std::int64_t stated_in(const ConstraintGraph& graph, const std::vector<ConstraintIndex>& proof) {
  return std::ranges::count_if(proof, [&](ConstraintIndex index) { return graph[index].statement != by_definition; });
}

} // namespace

TEST_CASE("satisfiability and bounds agree with trying every placement") {
  int satisfiable = 0;
  for (std::uint64_t seed = 1; seed <= 120; ++seed) {
    Dice dice{seed};
    random_graph::Shape shape;
    shape.points = 2 + static_cast<std::uint32_t>(dice.below(3));
    shape.constraints = 1 + static_cast<std::uint32_t>(dice.below(7));
    shape.definitions_in_ten = 0;
    const std::int64_t longest = shape.points == 4 ? 2 : 3;
    shape.shortest = -longest;
    shape.longest = longest;
    const ConstraintGraph graph = random_graph::make(dice, shape);
    INFO("seed " << seed << ": " << oracle::describe(graph));
    const std::int64_t reach = (shape.points - 1) * longest;
    const Tried tried = try_all(graph, 2 * reach);
    const auto entailment = Entailment::build(graph, 0);
    REQUIRE(entailment.has_value() == tried.satisfiable);
    CHECK(find_contradictions(graph, 1, [](auto, auto) { return false; }).empty() == tried.satisfiable);
    if (!entailment) continue;
    ++satisfiable;
    for (std::uint32_t x = 0; x < shape.points; ++x) {
      for (std::uint32_t y = 0; y < shape.points; ++y) {
        const std::int64_t greatest = tried.greatest[x][y];
        const auto expected = greatest > reach ? std::nullopt : std::optional{greatest};
        REQUIRE(entailment->upper(Point{x}, Point{y}) == expected);
      }
    }
  }
  CHECK(satisfiable > 30);
  CHECK(satisfiable < 110);
}

TEST_CASE("no chain of the same length has fewer stated constraints than the proof") {
  int proofs = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    Dice dice{seed};
    random_graph::Shape shape;
    shape.points = 2 + static_cast<std::uint32_t>(dice.below(5));
    shape.constraints = 4 + static_cast<std::uint32_t>(dice.below(10));
    shape.shortest = dice.between(-1, 0); // many chains of equal length, many cycles of length zero
    shape.longest = 1;
    shape.definitions_in_ten = static_cast<std::uint32_t>(dice.below(5));
    const ConstraintGraph graph = random_graph::make(dice, shape);
    const auto entailment = Entailment::build(graph, 0);
    if (!entailment) continue;
    INFO("seed " << seed << ": " << oracle::describe(graph));
    for (std::uint32_t x = 0; x < shape.points; ++x) {
      for (std::uint32_t y = 0; y < shape.points; ++y) {
        const auto bound = entailment->upper(Point{x}, Point{y});
        if (!bound || x == y) continue;
        std::vector<char> visited(shape.points, 0);
        REQUIRE(stated_in(graph, entailment->proof(Point{x}, Point{y})) ==
                fewest_stated(graph, Point{y}, Point{x}, *bound, visited));
        ++proofs;
      }
    }
  }
  CHECK(proofs > 2000);
}
