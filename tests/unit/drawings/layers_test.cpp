#include <cmath>
#include <random>

#include <catch2/catch.hpp>

#include "drawings/layers.hpp"

using namespace coeval;

namespace {

std::vector<Arc> random_forward_arcs(std::mt19937& random, std::size_t nodes) {
  std::vector<Arc> arcs;
  for (std::size_t count = random() % (2 * nodes + 1); count > 0; --count) {
    const std::size_t from = random() % nodes;
    const std::size_t to = random() % nodes;
    if (from < to) arcs.push_back({from, to});
  }
  return arcs;
}

std::size_t crossings_by_pairs(const Layers& layers) {
  std::vector<std::size_t> order(layers.knots.size());
  for (const auto& layer : layers.layers)
    for (std::size_t i = 0; i < layer.size(); ++i) order[layer[i]] = i;
  std::size_t crossings = 0;
  for (const auto& layer : layers.layers) {
    std::vector<std::pair<std::size_t, std::size_t>> links;
    for (const std::size_t knot : layer)
      for (const std::size_t end : layers.knots[knot].after) links.emplace_back(order[knot], order[end]);
    for (const auto& one : links)
      for (const auto& other : links) crossings += one.first < other.first && one.second > other.second ? 1U : 0U;
  }
  return crossings;
}

} // namespace

TEST_CASE("every arc leads to a later layer, and no layer is fuller than asked") {
  std::mt19937 random{81};
  for (int round = 0; round < 300; ++round) {
    const std::size_t nodes = 1 + random() % 60;
    const std::size_t most = 1 + random() % 7;
    const auto arcs = random_forward_arcs(random, nodes);
    const Layers layers = arrange_in_layers(nodes, arcs, most);
    std::size_t knots = 0;
    for (std::size_t layer = 0; layer < layers.layers.size(); ++layer) {
      std::size_t here = 0;
      for (const std::size_t knot : layers.layers[layer]) {
        REQUIRE(layers.knots[knot].layer == layer);
        here += layers.knots[knot].node == no_node ? 0U : 1U;
      }
      REQUIRE(here <= most);
      REQUIRE(here > 0); // no layer for passing only
      knots += layers.layers[layer].size();
    }
    REQUIRE(knots == layers.knots.size());
    for (std::size_t arc = 0; arc < arcs.size(); ++arc) {
      const auto& way = layers.ways[arc];
      REQUIRE(way.front() == arcs[arc].from);
      REQUIRE(way.back() == arcs[arc].to);
      for (std::size_t i = 1; i < way.size(); ++i)
        REQUIRE(layers.knots[way[i]].layer == layers.knots[way[i - 1]].layer + 1);
    }
    REQUIRE(count_crossings(layers) == crossings_by_pairs(layers));
  }
}

TEST_CASE("a tree is drawn without crossings") {
  std::vector<Arc> arcs;
  for (std::size_t node = 1; node < 63; ++node) arcs.push_back({(node - 1) / 2, node});
  CHECK(count_crossings(arrange_in_layers(63, arcs, 100)) == 0);
}

TEST_CASE("two crossed pairs are uncrossed") {
  CHECK(count_crossings(arrange_in_layers(4, {{0, 3}, {1, 2}}, 10)) == 0);
}

TEST_CASE("knots of a layer keep their distance, in whole numbers, within the room") {
  std::mt19937 random{82};
  for (int round = 0; round < 200; ++round) {
    const std::size_t nodes = 1 + random() % 40;
    const Layers layers = arrange_in_layers(nodes, random_forward_arcs(random, nodes), 4);
    std::vector<double> sizes;
    for (const Knot& knot : layers.knots)
      sizes.push_back(knot.node == no_node ? 2 : 2 * static_cast<double>(10 + random() % 40));
    const double gap = 6;
    double fullest = 500;
    for (const auto& layer : layers.layers) {
      double length = -gap;
      for (const std::size_t knot : layer) length += sizes[knot] + gap;
      fullest = std::max(fullest, length);
    }
    const auto across = place_across(layers, sizes, gap, 500);
    for (const auto& layer : layers.layers) {
      for (std::size_t i = 1; i < layer.size(); ++i)
        REQUIRE(across[layer[i]] - across[layer[i - 1]] >= (sizes[layer[i]] + sizes[layer[i - 1]]) / 2 + gap);
      REQUIRE(across[layer.front()] - sizes[layer.front()] / 2 >= 0);
      REQUIRE(across[layer.back()] + sizes[layer.back()] / 2 <= fullest);
      for (const std::size_t knot : layer) REQUIRE(across[knot] == std::floor(across[knot]));
    }
  }
}

TEST_CASE("a chain runs straight") {
  const Layers layers = arrange_in_layers(4, {{0, 1}, {1, 2}, {2, 3}}, 3);
  const auto across = place_across(layers, {100, 100, 100, 100}, 10, 344);
  CHECK(across == std::vector<double>(4, 172));
}

TEST_CASE("arcs that pass many layers cost no more than can be afforded") {
  // Every node of a long chain also leads to the last: passing knots would be half the square of the nodes.
  constexpr std::size_t nodes = 3000;
  std::vector<Arc> arcs;
  for (std::size_t i = 1; i < nodes; ++i) arcs.push_back({i - 1, i});
  for (std::size_t i = 0; i + 2 < nodes; ++i) arcs.push_back({i, nodes - 1});
  const Layers layers = arrange_in_layers(nodes, arcs, 3);
  CHECK(layers.knots.size() < 10 * (nodes + arcs.size()));
  for (const auto& way : layers.ways) REQUIRE(way.size() >= 2);
}
