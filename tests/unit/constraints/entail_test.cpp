#include <catch2/catch.hpp>

#include "constraints/entail.hpp"

using namespace coeval;

namespace {

constexpr Point a{1};
constexpr Point b{2};
constexpr Point c{3};
constexpr Point d{4};
constexpr StatementIndex first{0};
constexpr StatementIndex second{1};
constexpr StatementIndex third{2};

std::vector<ConstraintIndex> chain(std::initializer_list<std::uint32_t> indexes) {
  std::vector<ConstraintIndex> constraints;
  for (const std::uint32_t index : indexes) constraints.push_back(ConstraintIndex{index});
  return constraints;
}

} // namespace

TEST_CASE("bounds follow chains, and what nothing bounds stays unbounded") {
  // a is on day 10 or later, b at least 5 days after a; c has nothing to do with either.
  const ConstraintGraph graph{4, {{origin, a, -10, first}, {a, b, -5, second}}};
  const auto entailment = Entailment::build(graph, 0);
  REQUIRE(entailment);
  CHECK(entailment->upper(origin, b) == -15);
  CHECK(entailment->upper(a, b) == -5);
  CHECK_FALSE(entailment->upper(b, a));
  CHECK_FALSE(entailment->upper(c, origin));
  CHECK(entailment->upper(c, c) == 0);
  CHECK(entailment->upper_to(origin) == BoundRow{0, -10, -15, std::nullopt});
  CHECK(entailment->upper_from(b) == BoundRow{-15, -5, 0, std::nullopt});
  CHECK(entailment->proof(origin, b) == chain({1, 0}));
  CHECK(entailment->proof(b, origin).empty());
  CHECK(entailment->proof(a, a).empty());
}

TEST_CASE("a level holds what is as strong or stronger") {
  const ConstraintGraph graph{2, {{a, origin, 9, first, 0}, {a, origin, 5, second, 1}, {a, origin, 2, third, 2}}};
  CHECK(Entailment::build(graph, 0)->upper(a, origin) == 9);
  CHECK(Entailment::build(graph, 1)->upper(a, origin) == 5);
  CHECK(Entailment::build(graph, 2)->upper(a, origin) == 2);
  CHECK(Entailment::build(graph, 3)->proof(a, origin) == chain({2}));
}

TEST_CASE("statements left out have no effect, definitions always have") {
  const ConstraintGraph graph{2,
                              {{a, origin, 9}, {a, origin, 5, first}, {origin, a, -7, second}, {a, origin, 8, third}}};
  CHECK_FALSE(Entailment::build(graph, 0));
  const std::vector<StatementIndex> without_first{third, first};
  const auto entailment = Entailment::build(graph, 0, without_first);
  REQUIRE(entailment);
  CHECK(entailment->upper(a, origin) == 9);
  CHECK(entailment->upper(origin, a) == -7);
  const std::vector<StatementIndex> without_definitions{by_definition, first, second, third};
  CHECK(Entailment::build(graph, 0, without_definitions)->upper(a, origin) == 9);
}

TEST_CASE("an unsatisfiable graph has no entailment") {
  CHECK_FALSE(Entailment::build(ConstraintGraph{2, {{a, a, -1, first}}}, 0));
  CHECK_FALSE(Entailment::build(ConstraintGraph{3, {{a, b, 3, first}, {b, a, -4, second}}}, 0));
  CHECK(Entailment::build(ConstraintGraph{3, {{a, b, 4, first}, {b, a, -4, second}}}, 0));
  CHECK(Entailment::build(ConstraintGraph{2, {{a, a, 0, first}}}, 0));
}

TEST_CASE("allows says what may still be added") {
  const ConstraintGraph graph{3, {{origin, a, -10, first}, {a, origin, 20, second}}};
  const auto entailment = Entailment::build(graph, 0);
  CHECK(entailment->allows(a, origin, 10));
  CHECK_FALSE(entailment->allows(a, origin, 9));
  CHECK(entailment->allows(origin, a, -20));
  CHECK_FALSE(entailment->allows(origin, a, -21));
  CHECK(entailment->allows(b, a, -1'000'000));
  CHECK(entailment->allows(a, a, 0));
  CHECK_FALSE(entailment->allows(a, a, -1));
}

TEST_CASE("of equally tight chains the proof has the fewest stated constraints") {
  // Two stated steps, or three of which two hold by definition.
  const ConstraintGraph graph{5,
                              {{b, origin, 3, first}, {a, b, 3, second}, {c, origin, 2}, {d, c, 2, third}, {a, d, 2}}};
  CHECK(Entailment::build(graph, 0)->proof(a, origin) == chain({2, 3, 4}));
}

TEST_CASE("a proof may pass points that lie no nearer than its end") {
  // All on one day; the statement is not needed.
  const ConstraintGraph graph{4, {{a, origin, 0, first}, {b, origin, 0}, {c, b, 0}, {a, c, 0}}};
  CHECK(Entailment::build(graph, 0)->proof(a, origin) == chain({1, 2, 3}));
}

TEST_CASE("a tighter chain wins however many constraints it takes") {
  const ConstraintGraph graph{4, {{a, origin, 4}, {b, origin, 1, first}, {c, b, 1, second}, {a, c, 1, third}}};
  CHECK(Entailment::build(graph, 0)->proof(a, origin) == chain({1, 2, 3}));
}

TEST_CASE("ties between proofs go to the fewer, then to the earlier constraints") {
  const ConstraintGraph longer{3, {{b, origin, 1}, {a, b, 1}, {a, origin, 2}}};
  CHECK(Entailment::build(longer, 0)->proof(a, origin) == chain({2}));
  const ConstraintGraph parallel{3, {{a, origin, 2, third}, {a, origin, 2, first}, {a, origin, 3, second}}};
  CHECK(Entailment::build(parallel, 0)->proof(a, origin) == chain({0}));
  // Through c (constraints 0 and 3) or b (1 and 2): the first step decides.
  const ConstraintGraph through{4, {{c, origin, 1, first}, {b, origin, 1, first}, {a, b, 1, first}, {a, c, 1, first}}};
  CHECK(Entailment::build(through, 0)->proof(a, origin) == chain({0, 3}));
}

TEST_CASE("cycles of length zero lead no proof astray") {
  // a and b are the same day by definition, twice over; so are origin and c. Every walk around them is tight and free.
  const ConstraintGraph graph{5,
                              {{a, b, 0},
                               {b, a, 0},
                               {a, b, 0},
                               {c, origin, 0},
                               {origin, c, 0},
                               {a, c, -4, first},
                               {d, a, 0, second},
                               {b, d, 0, third}}};
  const auto entailment = Entailment::build(graph, 0);
  CHECK(entailment->upper(b, origin) == -4);
  CHECK(entailment->proof(b, origin) == chain({3, 5, 1}));
  CHECK(entailment->proof(d, c) == chain({5, 6}));
}

TEST_CASE("a chain of many points against the order of its constraints is solved") {
  constexpr std::uint32_t points = 20'000;
  // Statements in an order in which rounds over the list would take very many passes either way.
  std::vector<Constraint> constraints;
  for (std::uint32_t i = 1; i < points; ++i) {
    const std::uint32_t link = static_cast<std::uint32_t>(std::uint64_t{i} * 7919 % (points - 1));
    constraints.push_back({Point{link}, Point{link + 1}, -1, StatementIndex{i}});
  }
  const ConstraintGraph graph{points, std::move(constraints)};
  const auto entailment = Entailment::build(graph, 0);
  REQUIRE(entailment);
  CHECK(entailment->upper(origin, Point{points - 1}) == -static_cast<std::int64_t>(points - 1));
  CHECK(entailment->proof(origin, Point{points - 1}).size() == points - 1);
}

TEST_CASE("lengths up to the limit do not overflow") {
  constexpr std::int64_t half = std::int64_t{1} << 55;
  const ConstraintGraph graph{3, {{a, origin, half, first}, {b, a, half, second}}};
  CHECK(Entailment::build(graph, 0)->upper(b, origin) == 2 * half);
  const ConstraintGraph cycle{3, {{a, origin, -half, first}, {origin, a, -half, second}}};
  CHECK_FALSE(Entailment::build(cycle, 0));
}
