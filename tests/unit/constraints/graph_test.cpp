#include <catch2/catch.hpp>

#include <limits>

#include "constraints/graph.hpp"
#include "stops.hpp"

using namespace coeval;

namespace {
constexpr Point a{1};
constexpr Point b{2};
} // namespace

TEST_CASE("a graph keeps its constraints in order") {
  const ConstraintGraph graph{3, {{a, origin, 5, StatementIndex{7}, 2}, {b, a, -1}}};
  CHECK(graph.points() == 3);
  REQUIRE(graph.constraints().size() == 2);
  CHECK(graph[ConstraintIndex{0}].statement == StatementIndex{7});
  CHECK(graph[ConstraintIndex{1}].most == -1);
  CHECK(graph[ConstraintIndex{1}].statement == by_definition);
}

TEST_CASE("a graph refuses what it could not search safely") {
  constexpr std::int64_t limit = std::int64_t{1} << 56;
  CHECK(stops([] { ConstraintGraph{0, {}}; }));
  CHECK(stops([] { ConstraintGraph{2, {{b, a, 0}}}; }));
  CHECK(stops([] { ConstraintGraph{2, {{a, b, 0}}}; }));
  CHECK(stops([] { ConstraintGraph{2, {{a, origin, limit}, {origin, a, 1}}}; }));
  CHECK(stops([] { ConstraintGraph{2, {{a, origin, -limit}, {origin, a, -1}}}; }));
  CHECK(stops([] { ConstraintGraph{2, {{a, origin, std::numeric_limits<std::int64_t>::min()}}}; }));
  CHECK_FALSE(stops([] { ConstraintGraph{2, {{a, origin, -limit / 2}, {origin, a, limit / 2}}}; }));
}
