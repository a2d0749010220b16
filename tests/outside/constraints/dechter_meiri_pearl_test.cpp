// Does the solver give the published example's answers?
//
// R. Dechter, I. Meiri, J. Pearl, "Temporal constraint networks", Artificial Intelligence 49 (1991) 61-95, Example 1.1:
// John goes to work by car (30-40 minutes) or by bus (at least 60), Fred by car (20-30) or in a carpool (40-50). John
// left home between 7:10 and 7:20, Fred arrived between 8:00 and 8:10, and John arrived 10-20 minutes after Fred left.
//
// The numbers below were recomputed with Floyd and Warshall's algorithm. That the distance table equals the one printed
// in the paper is from memory: the page itself was not at hand. The story was read in other programs' test data, one of
// which states the last sentence with its sign reversed; the case below on that trap says what that would give.
#include <catch2/catch.hpp>

#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"

using namespace coeval;

namespace {

constexpr std::uint32_t john_leaves = 1;
constexpr std::uint32_t john_arrives = 2;
constexpr std::uint32_t fred_leaves = 3;
constexpr std::uint32_t fred_arrives = 4;
constexpr std::uint32_t points = 5; // with 0, which is 7:00

// least <= later - earlier <= most, in minutes.
struct Gap {
  std::uint32_t earlier;
  std::uint32_t later;
  std::int64_t least;
  std::optional<std::int64_t> most;
};

constexpr Gap john_by_car{john_leaves, john_arrives, 30, 40};
constexpr Gap john_by_bus{john_leaves, john_arrives, 60, std::nullopt};
constexpr Gap fred_by_car{fred_leaves, fred_arrives, 20, 30};
constexpr Gap fred_by_carpool{fred_leaves, fred_arrives, 40, 50};

ConstraintGraph graph_of(const std::vector<Gap>& gaps) {
  std::vector<Constraint> constraints;
  std::uint32_t statement = 0;
  for (const Gap& gap : gaps) {
    const Point later{gap.later};
    const Point earlier{gap.earlier};
    if (gap.most) constraints.push_back({later, earlier, *gap.most, StatementIndex{statement}});
    constraints.push_back({earlier, later, -gap.least, StatementIndex{statement}});
    ++statement;
  }
  return ConstraintGraph{points, std::move(constraints)};
}

ConstraintGraph morning(const Gap& john, const Gap& fred) {
  return graph_of(
      {{0, john_leaves, 10, 20}, john, {fred_leaves, john_arrives, 10, 20}, fred, {0, fred_arrives, 60, 70}});
}

using Span = std::pair<std::int64_t, std::int64_t>;

// Between which minutes after 7:00 each of the four things happens.
std::optional<std::vector<Span>> times(const ConstraintGraph& graph) {
  const auto entailment = Entailment::build(graph, 0);
  if (!entailment) return {};
  std::vector<Span> spans;
  for (std::uint32_t p = 1; p < points; ++p)
    spans.emplace_back(-entailment->upper(origin, Point{p}).value(), entailment->upper(Point{p}, origin).value());
  return spans;
}

} // namespace

TEST_CASE("the example's table of distances") {
  const std::vector<std::vector<std::int64_t>> table = {{0, 20, 50, 30, 70},
                                                        {-10, 0, 40, 20, 60},
                                                        {-40, -30, 0, -10, 30},
                                                        {-20, -10, 20, 0, 50},
                                                        {-60, -50, -20, -40, 0}};
  const ConstraintGraph graph = morning(john_by_car, fred_by_carpool);
  const auto entailment = Entailment::build(graph, 0);
  REQUIRE(entailment);
  for (std::uint32_t from = 0; from < points; ++from) {
    const BoundRow row = entailment->upper_from(Point{from});
    const BoundRow column = entailment->upper_to(Point{from});
    for (std::uint32_t to = 0; to < points; ++to) {
      INFO("from " << from << " to " << to);
      CHECK(row[to] == table[from][to]);
      CHECK(entailment->upper(Point{to}, Point{from}) == table[from][to]);
      CHECK(column[to] == table[to][from]);
    }
  }
}

TEST_CASE("the example's minimal network") {
  const std::vector<Gap> network = {{0, 1, 10, 20}, {0, 2, 40, 50},   {0, 3, 20, 30}, {0, 4, 60, 70}, {1, 2, 30, 40},
                                    {1, 3, 10, 20}, {2, 3, -20, -10}, {1, 4, 50, 60}, {2, 4, 20, 30}, {3, 4, 40, 50}};
  const ConstraintGraph graph = morning(john_by_car, fred_by_carpool);
  const auto entailment = Entailment::build(graph, 0);
  REQUIRE(entailment);
  for (const Gap& gap : network) {
    INFO("between " << gap.earlier << " and " << gap.later);
    CHECK(entailment->upper(Point{gap.later}, Point{gap.earlier}) == gap.most);
    CHECK(entailment->upper(Point{gap.earlier}, Point{gap.later}) == -gap.least);
    // Minimal: each end of the interval is possible, and nothing beyond.
    CHECK(entailment->allows(Point{gap.later}, Point{gap.earlier}, gap.least));
    CHECK_FALSE(entailment->allows(Point{gap.later}, Point{gap.earlier}, gap.least - 1));
    CHECK(entailment->allows(Point{gap.earlier}, Point{gap.later}, -*gap.most));
    CHECK_FALSE(entailment->allows(Point{gap.earlier}, Point{gap.later}, -*gap.most - 1));
  }
}

TEST_CASE("the example's four ways to work") {
  CHECK(times(morning(john_by_car, fred_by_car)) == std::vector<Span>{{10, 20}, {40, 60}, {30, 50}, {60, 70}});
  CHECK(times(morning(john_by_car, fred_by_carpool)) == std::vector<Span>{{10, 20}, {40, 50}, {20, 30}, {60, 70}});
  // Forced to the minute: John leaves at 7:10 and arrives at 8:10, Fred leaves at 7:50 and arrives at 8:10.
  CHECK(times(morning(john_by_bus, fred_by_car)) == std::vector<Span>{{10, 10}, {70, 70}, {50, 50}, {70, 70}});

  const ConstraintGraph impossible = morning(john_by_bus, fred_by_carpool);
  CHECK_FALSE(times(impossible));
  const auto found = find_contradictions(impossible, 1, [](auto, auto) { return false; });
  REQUIRE(found.size() == 1);
  // All five statements are needed: the bus brings John at 8:10 or later, so Fred left at 7:50 or later, too late.
  CHECK(found[0].statements.size() == 5);
  CHECK(found[0].excess == 20);
}

TEST_CASE("the example with the sign of John's arrival reversed has other answers") {
  // "John arrived 10-20 minutes before Fred left": he arrives at 7:40 or later, but the carpool leaves by 7:30.
  const ConstraintGraph trap = graph_of({{0, john_leaves, 10, 20},
                                         john_by_car,
                                         {john_arrives, fred_leaves, 10, 20},
                                         fred_by_carpool,
                                         {0, fred_arrives, 60, 70}});
  CHECK_FALSE(times(trap));
}

TEST_CASE("three gaps that miss each other by five minutes") {
  const ConstraintGraph graph = graph_of({{0, 1, 10, 20}, {1, 2, 30, 40}, {0, 2, 0, 35}});
  const auto found = find_contradictions(graph, 1, [](auto, auto) { return false; });
  REQUIRE(found.size() == 1);
  CHECK(found[0].excess == 5);
  CHECK(found[0].statements.size() == 3);
}
