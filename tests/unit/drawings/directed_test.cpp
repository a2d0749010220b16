#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "drawings/directed.hpp"

using namespace coeval;

namespace {

using Reach = std::vector<std::vector<bool>>; // by one arc or more

Reach reach_of(std::size_t nodes, const std::vector<Arc>& arcs, const std::vector<bool>& without) {
  Reach reach(nodes, std::vector<bool>(nodes, false));
  for (std::size_t i = 0; i < arcs.size(); ++i)
    if (!without[i]) reach[arcs[i].from][arcs[i].to] = true;
  for (std::size_t by = 0; by < nodes; ++by)
    for (std::size_t from = 0; from < nodes; ++from)
      for (std::size_t to = 0; to < nodes; ++to)
        if (reach[from][by] && reach[by][to]) reach[from][to] = true;
  return reach;
}

std::vector<bool> none(const std::vector<Arc>& arcs) { return std::vector<bool>(arcs.size(), false); }

std::vector<Arc> random_arcs(std::mt19937& random, std::size_t nodes, bool circles, bool uncertain) {
  std::vector<Arc> arcs;
  for (std::size_t count = random() % (3 * nodes); count > 0; --count) {
    Arc arc{random() % nodes, random() % nodes, !uncertain || random() % 2 == 0};
    if (!circles && arc.from >= arc.to) continue;
    arcs.push_back(arc);
  }
  return arcs;
}

} // namespace

TEST_CASE("without circles, what is left is the transitive reduction") {
  std::mt19937 random{1972};
  for (int round = 0; round < 400; ++round) {
    const std::size_t nodes = 1 + random() % 90; // more than one word of bits
    const auto arcs = random_arcs(random, nodes, false, false);
    const auto implied = implied_arcs(nodes, arcs);
    const Reach reach = reach_of(nodes, arcs, none(arcs));
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      // By its definition: an arc is left out where some third node lies between its ends.
      bool between = false;
      for (std::size_t by = 0; by < nodes; ++by)
        between = between || (reach[arcs[i].from][by] && reach[by][arcs[i].to]);
      INFO("round " << round << ", " << arcs[i].from << " to " << arcs[i].to);
      REQUIRE(implied[i] == between);
    }
    REQUIRE(reach_of(nodes, arcs, implied) == reach);
  }
}

TEST_CASE("with circles and doubts, leaving arcs out changes nothing that can be reached, nor how surely") {
  std::mt19937 random{1973};
  for (int round = 0; round < 400; ++round) {
    const std::size_t nodes = 1 + random() % 40;
    const auto arcs = random_arcs(random, nodes, true, true);
    const auto implied = implied_arcs(nodes, arcs);
    std::vector<bool> uncertain(arcs.size());
    std::vector<bool> uncertain_or_implied(arcs.size());
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      uncertain[i] = !arcs[i].certain;
      uncertain_or_implied[i] = uncertain[i] || implied[i];
    }
    INFO("round " << round);
    REQUIRE(reach_of(nodes, arcs, implied) == reach_of(nodes, arcs, none(arcs)));
    REQUIRE(reach_of(nodes, arcs, uncertain_or_implied) == reach_of(nodes, arcs, uncertain));
  }
}

TEST_CASE("what is certain does not follow from what is not") {
  const std::vector<Arc> arcs{{0, 1, true}, {1, 2, false}, {0, 2, true}, {0, 2, false}};
  CHECK(implied_arcs(3, arcs) == std::vector<bool>{false, false, false, true});
}

TEST_CASE("parallel arcs stay, and so do those of a circle") {
  CHECK(implied_arcs(2, {{0, 1}, {0, 1}}) == std::vector<bool>{false, false});
  CHECK(implied_arcs(3, {{0, 1}, {1, 2}, {2, 0}, {0, 2}}) == std::vector<bool>(4, false));
}

TEST_CASE("nodes are in one component where each reaches the other") {
  std::mt19937 random{1974};
  for (int round = 0; round < 300; ++round) {
    const std::size_t nodes = 1 + random() % 25;
    const auto arcs = random_arcs(random, nodes, true, false);
    const auto component = strong_components(nodes, arcs);
    const Reach reach = reach_of(nodes, arcs, none(arcs));
    for (std::size_t one = 0; one < nodes; ++one)
      for (std::size_t other = 0; other < nodes; ++other)
        REQUIRE((component[one] == component[other]) == (one == other || (reach[one][other] && reach[other][one])));
    for (const Arc& arc : arcs) REQUIRE(component[arc.from] >= component[arc.to]);
  }
}

TEST_CASE("with some arcs turned round no circle is left; without circles none is") {
  std::mt19937 random{1975};
  for (int round = 0; round < 400; ++round) {
    const bool circles = round % 2 == 0;
    const std::size_t nodes = 1 + random() % 30;
    const auto arcs = random_arcs(random, nodes, circles, false);
    const auto backward = backward_arcs(nodes, arcs);
    std::vector<Arc> turned;
    for (std::size_t i = 0; i < arcs.size(); ++i) {
      if (!circles) REQUIRE_FALSE(backward[i]);
      if (arcs[i].from == arcs[i].to) continue;
      turned.push_back(backward[i] ? Arc{arcs[i].to, arcs[i].from} : arcs[i]);
    }
    const auto component = strong_components(nodes, turned);
    REQUIRE(std::set<std::size_t>(component.begin(), component.end()).size() == nodes);
  }
}

TEST_CASE("long chains do not overflow the stack") {
  constexpr std::size_t nodes = 200'000;
  std::vector<Arc> arcs;
  for (std::size_t i = 1; i < nodes; ++i) arcs.push_back({i - 1, i});
  arcs.push_back({nodes - 1, 0});
  CHECK(strong_components(nodes, arcs).back() == 0);
  CHECK(backward_arcs(nodes, arcs).back());
}
