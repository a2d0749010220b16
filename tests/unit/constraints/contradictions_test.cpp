#include <catch2/catch.hpp>

#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"
#include "stops.hpp"

using namespace coeval;

namespace {

constexpr Point a{1};
constexpr Point b{2};
constexpr Point c{3};
constexpr Point d{4};

constexpr StatementIndex s(std::uint32_t index) { return StatementIndex{index}; }

std::vector<StatementIndex> statements(std::initializer_list<std::uint32_t> indexes) {
  std::vector<StatementIndex> list;
  for (const std::uint32_t index : indexes) list.push_back(s(index));
  return list;
}

std::vector<ConstraintIndex> cycle(std::initializer_list<std::uint32_t> indexes) {
  std::vector<ConstraintIndex> list;
  for (const std::uint32_t index : indexes) list.push_back(ConstraintIndex{index});
  return list;
}

bool equals(StatementIndex, StatementIndex) { return false; }

Constraint no_later(Point x, std::int64_t day, std::uint32_t statement, std::uint8_t level = 0) {
  return {x, origin, day, s(statement), level};
}
Constraint no_earlier(Point x, std::int64_t day, std::uint32_t statement, std::uint8_t level = 0) {
  return {origin, x, -day, s(statement), level};
}

} // namespace

TEST_CASE("a satisfiable graph has no contradictions") {
  CHECK(find_contradictions(ConstraintGraph{1, {}}, 1, equals).empty());
  CHECK(find_contradictions(ConstraintGraph{2, {no_later(a, 5, 0), no_earlier(a, 5, 1)}}, 1, equals).empty());
}

TEST_CASE("two dates that exclude each other") {
  const ConstraintGraph graph{2, {no_later(a, 5, 1), no_earlier(a, 9, 0)}};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 1}));
  CHECK(found[0].cycle == cycle({1, 0}));
  CHECK(found[0].excess == 4);
  CHECK(found[0].level == 0);
  CHECK(found[0].weakest == s(1));
}

TEST_CASE("a statement that contradicts itself stands alone") {
  const ConstraintGraph within_itself{2, {no_earlier(a, 9, 3), no_later(a, 5, 3), no_later(a, 20, 0)}};
  const auto found = find_contradictions(within_itself, 1, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({3}));
  CHECK(found[0].cycle == cycle({0, 1}));
  const auto loop = find_contradictions(ConstraintGraph{2, {{a, a, -2, s(0)}}}, 1, equals);
  REQUIRE(loop.size() == 1);
  CHECK(loop[0].cycle == cycle({0}));
  CHECK(loop[0].excess == 2);
}

TEST_CASE("definitions carry a contradiction but are not listed") {
  // a <= b by definition; b by day 3, a from day 8.
  const ConstraintGraph graph{3, {{a, b, 0}, no_later(b, 3, 0), no_earlier(a, 8, 1)}};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 1}));
  CHECK(found[0].cycle == cycle({1, 0, 2}));
  CHECK(found[0].excess == 5);
}

TEST_CASE("a definition off the cycle still shows that a statement is not needed") {
  // a is on day 10 or later; b is 4 days after a by statement 1, and 1 day after a by definition; b by day 3. The
  // statement gives the longer cycle, but statements 0 and 2 contradict each other without it.
  const ConstraintGraph graph{3, {no_earlier(a, 10, 0), {a, b, -4, s(1)}, {a, b, -1}, no_later(b, 3, 2)}};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 2}));
  CHECK(found[0].excess == 8);
}

TEST_CASE("statements are given in the order of the cycle, the lowest first") {
  // 2, 0 and 1 follow each other round: origin -> a -> b -> origin.
  const ConstraintGraph graph{3, {{a, origin, -1, s(2)}, {b, a, -1, s(0)}, {origin, b, 1, s(1)}}};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 1, 2}));
  CHECK(found[0].cycle == cycle({1, 2, 0}));
}

TEST_CASE("the weakest is told by the caller, ties by the higher index") {
  const ConstraintGraph graph{2, {no_later(a, 5, 0), no_earlier(a, 9, 1)}};
  const auto lower_is_weaker = [](StatementIndex one, StatementIndex other) { return one < other; };
  CHECK(find_contradictions(graph, 1, lower_is_weaker).at(0).weakest == s(0));
  CHECK(find_contradictions(graph, 1, equals).at(0).weakest == s(1));
}

TEST_CASE("a contradiction is shown at the strongest level that has it") {
  const ConstraintGraph graph{3,
                              {no_later(a, 5, 0, 2), no_earlier(a, 9, 1, 1), no_later(b, 5, 2, 0),
                               no_earlier(b, 9, 3, 1), no_later(b, 0, 4, 3)}};
  const auto found = find_contradictions(graph, 4, equals);
  REQUIRE(found.size() == 2);
  CHECK(found[0].level == 1);
  CHECK(found[0].statements == statements({2, 3}));
  CHECK(found[1].level == 2);
  CHECK(found[1].statements == statements({0, 1}));
  CHECK(find_contradictions(graph, 2, equals).size() == 1);
  CHECK(find_contradictions(graph, 1, equals).empty());
}

TEST_CASE("a statement set aside at a strong level stays aside at the weaker ones") {
  // Statement 1 is wrong at level 0; its second constraint would contradict statement 2 at level 1.
  const ConstraintGraph graph{3,
                              {no_later(a, 5, 0), no_earlier(a, 9, 1), no_earlier(b, 9, 1, 1), no_later(b, 5, 2, 1)}};
  const auto found = find_contradictions(graph, 2, equals);
  REQUIRE(found.size() == 1);
  CHECK(found[0].weakest == s(1));
}

TEST_CASE("every contradiction that mending the earlier ones leaves is listed") {
  // Statement 0 is strong and contradicts each of 1, 2 and 3; 4 and 5 contradict each other elsewhere.
  const ConstraintGraph graph{3,
                              {no_later(a, 5, 0), no_earlier(a, 6, 1), no_earlier(a, 7, 2), no_earlier(a, 8, 3),
                               no_later(b, 1, 4), no_earlier(b, 2, 5)}};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == 4);
  CHECK(found[0].statements == statements({0, 1}));
  CHECK(found[1].statements == statements({0, 2}));
  CHECK(found[2].statements == statements({0, 3}));
  CHECK(found[3].statements == statements({4, 5}));
  // Where 0 is the weakest, giving it up mends all three.
  const auto zero_is_weaker = [](StatementIndex one, StatementIndex other) { return one == s(0) && other != s(0); };
  CHECK(find_contradictions(graph, 1, zero_is_weaker).size() == 2);
}

TEST_CASE("the contradiction with the fewest statements is preferred") {
  // 0 says that a is late. 1, 2 and 3 lead from a to an early day by way of b and c; 4 says it at once, though by less.
  const ConstraintGraph graph{
      4, {no_earlier(a, 50, 0), {a, b, 0, s(1)}, {b, c, 0, s(2)}, no_later(c, 10, 3), no_later(a, 49, 4)}};
  const auto zero_is_weaker = [](StatementIndex one, StatementIndex other) { return one == s(0) && other != s(0); };
  const auto found = find_contradictions(graph, 1, zero_is_weaker);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 4}));
  CHECK(found[0].excess == 1);
}

TEST_CASE("definitions do not count where few statements are preferred") {
  // From a to an early day by way of b and c and one statement, or by way of d and two statements, which miss by more.
  const ConstraintGraph graph{
      5, {no_earlier(a, 50, 0), {a, b, 0}, {b, c, 0}, no_later(c, 10, 1), {a, d, 0, s(2)}, no_later(d, 5, 3)}};
  const auto zero_is_weaker = [](StatementIndex one, StatementIndex other) { return one == s(0) && other != s(0); };
  const auto found = find_contradictions(graph, 1, zero_is_weaker);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 1}));
}

TEST_CASE("the second constraint of a statement counts as no statement more") {
  // Round by way of two constraints of statement 0 and one of 1, or of one of 0, 2 and 3 each, which miss by more.
  const ConstraintGraph graph{
      5, {{a, origin, -1, s(0)}, {b, a, -1, s(0)}, {origin, b, 1, s(1)}, {d, b, 0, s(2)}, {a, d, -5, s(3)}}};
  const auto zero_is_weaker = [](StatementIndex one, StatementIndex other) { return one == s(0) && other != s(0); };
  const auto found = find_contradictions(graph, 1, zero_is_weaker);
  REQUIRE(found.size() == 1);
  CHECK(found[0].statements == statements({0, 1}));
}

TEST_CASE("definitions that contradict each other stop the program") {
  const ConstraintGraph graph{2, {{a, origin, 3}, {origin, a, -4}, no_later(a, 100, 0)}};
  CHECK(stops([&] { (void)find_contradictions(graph, 1, equals); }));
  const ConstraintGraph beyond{2, {{a, origin, 3}, {origin, a, -4, by_definition, 1}, no_later(a, 100, 0)}};
  CHECK(stops([&] { (void)find_contradictions(beyond, 2, equals); }));
  CHECK_FALSE(stops([&] { (void)find_contradictions(beyond, 1, equals); }));
}

TEST_CASE("numbers that sink again and again do not overflow") {
  // b is ever so long before a by definition. Each pair of statements would close the circle, and where one of a pair
  // is doubted the other still passes the low number on, because too many points to raise depend on the one between.
  constexpr std::int64_t long_before = std::int64_t{1} << 55;
  constexpr std::uint32_t pairs = 400;
  constexpr std::uint32_t followers = 80;
  std::vector<Constraint> constraints{{b, a, -long_before}};
  for (std::uint32_t i = 0; i < pairs; ++i) {
    const Point between{3 + i * (1 + followers)};
    constraints.push_back({between, b, 0, s(2 * i + 1)});
    for (std::uint32_t follower = 1; follower <= followers; ++follower) {
      const Point follows{3 + i * (1 + followers) + follower};
      constraints.push_back({follows, between, 0});
      constraints.push_back({a, follows, 1});
    }
    constraints.push_back({a, between, 0, s(2 * i)});
  }
  const auto found =
      find_contradictions(ConstraintGraph{3 + pairs * (1 + followers), std::move(constraints)}, 1, equals);
  REQUIRE(found.size() == pairs);
  // Round by way of the statement, or by a definition that leaves a day more.
  for (const Contradiction& contradiction : found) CHECK(contradiction.excess >= long_before - 1);
}

// While the first cycle is taken apart, the origin gets a lower number than before, because q still waits for its turn.
TEST_CASE("contradictions that share points are found at the level that has them") {
  const Point p{1};
  const Point q{2};
  const ConstraintGraph graph{3,
                              {{p, origin, -35, s(0), 2},
                               {q, origin, -9, s(1), 1},
                               {q, origin, 7, s(2), 0},
                               {origin, q, -9, s(3), 1},
                               {origin, p, -9, s(1), 1},
                               {q, origin, 5, s(2), 0}}};
  const auto found = find_contradictions(
      graph, 3, [](StatementIndex one, StatementIndex other) { return one == s(1) && other != s(1); });
  REQUIRE(found.size() == 2);
  CHECK(found[0].statements == statements({2, 3}));
  CHECK(found[0].level == 1);
  CHECK(found[0].weakest == s(3));
  CHECK(found[1].statements == statements({0, 1}));
  CHECK(found[1].level == 2);
}

TEST_CASE("a thousand contradictions among very many statements are all found") {
  // Spans in a row, each dated and after the one before; every hundredth has a date that is off.
  constexpr std::uint32_t spans = 50'000;
  std::vector<Constraint> constraints;
  std::uint32_t statement = 0;
  for (std::uint32_t i = 0; i < spans; ++i) {
    const Point start{1 + 2 * i};
    const Point end{2 + 2 * i};
    const std::int64_t day = 10 * i;
    constraints.push_back({start, end, 0});
    constraints.push_back(no_earlier(start, day, statement));
    constraints.push_back(no_later(end, day + 30, statement++));
    if (i > 0) constraints.push_back({Point{2 * i - 1}, start, -1, s(statement++)});
    if (i % 50 == 25) constraints.push_back(no_later(end, day - 1 - i % 7, statement++));
  }
  const ConstraintGraph graph{1 + 2 * spans, std::move(constraints)};
  const auto found = find_contradictions(graph, 1, equals);
  REQUIRE(found.size() == spans / 50);
  std::vector<StatementIndex> set_aside;
  for (const Contradiction& contradiction : found) {
    CHECK(contradiction.statements.size() == 2);
    set_aside.push_back(contradiction.weakest);
  }
  CHECK(Entailment::build(graph, 0, set_aside));
  set_aside.pop_back();
  CHECK_FALSE(Entailment::build(graph, 0, set_aside));
}

namespace {

// Spans within one long one, each dated with one statement, the long one with statement 0: its first day is too late
// for all of them.
ConstraintGraph late_hub(std::uint32_t spans) {
  std::vector<Constraint> constraints{{a, b, 0}, no_earlier(a, 30'000, 0), no_later(b, 40'000, 0)};
  for (std::uint32_t i = 0; i < spans; ++i) {
    const Point start{3 + 2 * i};
    const Point end{4 + 2 * i};
    constraints.insert(constraints.end(), {{start, end, 0},
                                           {a, start, 0, s(1 + 2 * i)},
                                           {end, b, 0, s(1 + 2 * i)},
                                           no_earlier(start, 2'000, 2 + 2 * i),
                                           no_later(end, 2'400 + i, 2 + 2 * i)});
  }
  return ConstraintGraph{3 + 2 * spans, std::move(constraints)};
}

} // namespace

TEST_CASE("where what many refer to is wrong, it is set aside once, and where it is strong, each of them is") {
  constexpr std::uint32_t spans = 2'000;
  const ConstraintGraph graph = late_hub(spans);
  const auto hub_is_weaker = [](StatementIndex one, StatementIndex other) { return one == s(0) && other != s(0); };
  const auto wrong = find_contradictions(graph, 1, hub_is_weaker);
  REQUIRE(wrong.size() == 1);
  CHECK(wrong[0].weakest == s(0));
  CHECK(wrong[0].statements.size() == 3);
  const auto hub_is_stronger = [](StatementIndex one, StatementIndex other) { return one != s(0) && other == s(0); };
  const auto strong = find_contradictions(graph, 1, hub_is_stronger);
  CHECK(strong.size() == spans);
  CHECK(std::ranges::all_of(strong, [](const Contradiction& each) {
    return each.statements.size() == 3 && each.statements.front() == s(0) && each.weakest != s(0);
  }));
}
