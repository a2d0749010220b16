// Do all answers about random graphs hold against all-pairs tables?
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "constraints/near.hpp"
#include "oracle.hpp"
#include "random_graph.hpp"

using namespace coeval;
using random_graph::Dice;

namespace {

random_graph::Shape some_shape(Dice& dice) {
  random_graph::Shape shape;
  shape.points = 1 + static_cast<std::uint32_t>(dice.below(9));
  shape.constraints = static_cast<std::uint32_t>(dice.below(4 * shape.points + 1));
  shape.statements = 1 + static_cast<std::uint32_t>(dice.below(20));
  shape.shortest = -dice.between(1, 4);
  shape.longest = dice.between(0, 6);
  shape.levels = 1 + static_cast<int>(dice.below(4));
  shape.definitions_in_ten = static_cast<std::uint32_t>(dice.below(8));
  return shape;
}

} // namespace

TEST_CASE("bounds and proofs agree with all-pairs tables") {
  int satisfiable = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    Dice dice{seed};
    const random_graph::Shape shape = some_shape(dice);
    const ConstraintGraph graph = random_graph::make(dice, shape);
    const int level = static_cast<int>(dice.below(static_cast<std::uint64_t>(shape.levels)));
    std::vector<StatementIndex> left_out;
    for (std::uint32_t s = 0; s < shape.statements; ++s)
      if (dice.below(4) == 0) left_out.push_back(StatementIndex{shape.statements - 1 - s});
    INFO("seed " << seed << ", level " << level << ", " << left_out.size() << " left out: " << oracle::describe(graph));
    REQUIRE(oracle::fault_in_entailment(graph, level, left_out) == "");
    if (Entailment::build(graph, level, left_out)) ++satisfiable;
  }
  // Neither kind may be rare, or the test says little.
  CHECK(satisfiable > 300);
  CHECK(satisfiable < 1400);
}

namespace {

// By the bounds of all pairs: the points nearer to this one than by way of the origin, itself among them.
std::map<Point, std::int64_t> nearer(const Entailment& entailment, std::uint32_t points, Point point, bool from) {
  std::map<Point, std::int64_t> expected{{point, 0}};
  for (std::uint32_t q = 1; q < points && point != origin; ++q) {
    const Point x = from ? Point{q} : point;
    const Point y = from ? point : Point{q};
    const auto direct = entailment.upper(x, y);
    const auto out = entailment.upper(x, origin);
    const auto back = entailment.upper(origin, y);
    if (Point{q} != point && direct && (!out || !back || *direct < *out + *back)) expected[Point{q}] = *direct;
  }
  return expected;
}

} // namespace

TEST_CASE("the points nearer than by way of the origin are those whose bounds say so, with their distances") {
  std::size_t near = 0;
  std::size_t on_stronger_only = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    Dice dice{seed};
    const random_graph::Shape shape = some_shape(dice);
    const ConstraintGraph graph = random_graph::make(dice, shape);
    const std::vector<Entailment> each = Entailment::build_each(graph, shape.levels);
    if (each.empty()) continue;
    INFO("seed " << seed << ": " << oracle::describe(graph));
    NearSearch search{each.back()};
    for (std::uint32_t p = 0; p < graph.points(); ++p)
      for (const bool from : {true, false}) {
        const Point point{p};
        std::vector<std::map<Point, std::int64_t>> on_levels(each.size(), {{point, 0}});
        for (const NearSearch::Found& found : from ? search.from(point) : search.to(point))
          REQUIRE(on_levels[static_cast<std::size_t>(found.level)].emplace(found.point, found.most).second);
        for (std::size_t level = 0; level < each.size(); ++level) {
          const auto expected = nearer(each[level], graph.points(), point, from);
          REQUIRE(on_levels[level] == expected);
          const std::vector<NearPoint> found = from ? each[level].nearer_from(point) : each[level].nearer_to(point);
          REQUIRE(found.front().point == point);
          std::map<Point, std::int64_t> said;
          for (const NearPoint& other : found) said[other.point] = other.most;
          REQUIRE(said.size() == found.size());
          REQUIRE(said == expected);
          near += found.size() - 1;
          if (level > 0 && on_levels[level].size() < on_levels[level - 1].size()) ++on_stronger_only;
        }
      }
  }
  CHECK(near > 1000);
  CHECK(on_stronger_only > 30); // a way through the origin became shorter than them
}

namespace {

struct Counts {
  std::size_t contradictions = 0;
  std::size_t with_three_or_more = 0;
  std::size_t at_weaker_levels = 0;
};

// Checks what is found in the graph of one seed and counts it.
void check_contradictions(std::uint64_t seed, Dice& dice, const random_graph::Shape& shape, Counts& counts) {
  const ConstraintGraph graph = random_graph::make(dice, shape);
  std::vector<std::uint64_t> weakness;
  for (std::uint32_t s = 0; s < shape.statements; ++s) weakness.push_back(dice.below(3));
  const WeakerThan weaker = [&](StatementIndex one, StatementIndex other) {
    return weakness[static_cast<std::size_t>(one)] > weakness[static_cast<std::size_t>(other)];
  };
  const int levels = static_cast<int>(dice.below(static_cast<std::uint64_t>(shape.levels) + 1));
  INFO("seed " << seed << ", " << levels << " levels: " << oracle::describe(graph));
  REQUIRE(oracle::fault_in_contradictions(graph, levels, weaker) == "");
  for (const Contradiction& contradiction : find_contradictions(graph, levels, weaker)) {
    ++counts.contradictions;
    if (contradiction.statements.size() > 2) ++counts.with_three_or_more;
    if (contradiction.level > 0) ++counts.at_weaker_levels;
  }
}

} // namespace

TEST_CASE("contradictions are irreducible, complete, in order and the same each time") {
  Counts counts;
  for (std::uint64_t seed = 1; seed <= 4000; ++seed) {
    Dice dice{seed};
    const random_graph::Shape shape = some_shape(dice);
    check_contradictions(seed, dice, shape, counts);
  }
  CHECK(counts.contradictions > 2000);
  CHECK(counts.with_three_or_more > 60);
  CHECK(counts.at_weaker_levels > 300);
}

// Most dates exclude each other here, and by very different numbers of days, so that nearly every cycle runs through
// points that others run through.
TEST_CASE("contradictions are found where few points have very many of them") {
  Counts counts;
  for (std::uint64_t seed = 1; seed <= 20'000; ++seed) {
    Dice dice{seed};
    random_graph::Shape shape;
    shape.points = 3;
    shape.constraints = 9;
    shape.statements = 4U << dice.below(3);
    shape.shortest = -120;
    shape.longest = 70;
    shape.levels = 2;
    shape.definitions_in_ten = seed % 3 == 0 ? 2 : 0;
    check_contradictions(seed, dice, shape, counts);
  }
  CHECK(counts.contradictions > 8000);
  CHECK(counts.with_three_or_more > 100);
  CHECK(counts.at_weaker_levels > 1000);
}

TEST_CASE("what each of many statements contradicts, supposed for itself, agrees with all-pairs tables") {
  std::size_t contradicting = 0;
  std::size_t fitting = 0;
  for (std::uint64_t seed = 1; seed <= 1500; ++seed) {
    Dice dice{seed};
    const random_graph::Shape shape = some_shape(dice);
    const ConstraintGraph graph = random_graph::make(dice, shape);
    // Whatever must be given up for the rest to hold, and some more.
    std::set<StatementIndex> apart;
    const auto equals = [](StatementIndex, StatementIndex) { return false; };
    for (const Contradiction& contradiction : find_contradictions(graph, shape.levels, equals))
      apart.insert(contradiction.weakest);
    for (std::uint32_t s = 0; s < shape.statements; ++s)
      if (dice.below(5) == 0) apart.insert(StatementIndex{s});
    const std::vector<StatementIndex> supposed(apart.begin(), apart.end());
    const WeakerThan weaker = [&](StatementIndex one, StatementIndex other) {
      return apart.count(one) != 0 && apart.count(other) == 0;
    };
    INFO("seed " << seed << ", " << supposed.size() << " supposed: " << oracle::describe(graph));
    const auto found = find_contradictions_of(graph, shape.levels, supposed, weaker);
    REQUIRE(found.size() == supposed.size());
    for (std::size_t i = 0; i < supposed.size(); ++i) {
      std::set<StatementIndex> others = apart;
      others.erase(supposed[i]);
      const auto counts = [&](StatementIndex s) { return others.count(s) == 0; };
      int level = 0;
      while (level < shape.levels && oracle::all_pairs(graph.points(), oracle::part_of(graph, level, counts))) ++level;
      REQUIRE(found[i].has_value() == (level < shape.levels));
      ++(found[i] ? contradicting : fitting);
      if (!found[i]) continue;
      REQUIRE(found[i]->level == level);
      REQUIRE(found[i]->weakest == supposed[i]);
      REQUIRE(oracle::fault_in_contradiction(graph, *found[i], others) == "");
    }
  }
  CHECK(contradicting > 500);
  CHECK(fitting > 500);
}
