#include <random>
#include <set>

#include <catch2/catch.hpp>

#include "boxes.hpp"
#include "drawings/graph.hpp"

using namespace coeval;
using namespace coeval::drawn;

namespace {

GraphNode node(std::string label, std::string note = {}) {
  return {.label = std::move(label), .note = std::move(note), .to = {}};
}
GraphEdge edge(std::size_t from, std::size_t to, std::string label = {}, bool certain = true) {
  return {.from = from, .to = to, .label = std::move(label), .certain = certain};
}

Graph of(std::size_t nodes, std::vector<GraphEdge> edges) {
  Graph graph{.title = "graph", .nodes = {}, .edges = std::move(edges)};
  for (std::size_t i = 0; i < nodes; ++i) graph.nodes.push_back(node("mould " + std::to_string(i)));
  return graph;
}

std::vector<Box> boxes(const Drawing& drawing) {
  std::vector<Box> found;
  for (const Rectangle& rectangle : all_of<Rectangle>(drawing))
    if (rectangle.style == Style::node || rectangle.style == Style::node_other) found.push_back(box_of(rectangle));
  return found;
}

std::size_t arrow_heads(const Drawing& drawing) {
  std::size_t found = 0;
  for (const Polyline& line : all_of<Polyline>(drawing)) found += line.style == Style::arrow_head ? 1U : 0U;
  return found;
}

void check_sound(const Drawing& drawing) {
  CHECK(outside(drawing) == -1);
  CHECK(overlapping_labels(drawing).empty());
  const auto nodes = boxes(drawing);
  bool apart = true;
  for (std::size_t i = 0; i < nodes.size(); ++i)
    for (std::size_t j = i + 1; j < nodes.size(); ++j) apart = apart && !overlap(nodes[i], nodes[j]);
  CHECK(apart);
}

Graph random_graph(std::mt19937& random, bool circles) {
  const auto below = [&](std::size_t most) { return static_cast<std::size_t>(random() % most); };
  Graph graph{.title = "random", .nodes = {}, .edges = {}};
  const std::vector<std::string> words{"ring",     "plain",  "WWWWWWWWWWWWWWWWWWWWW", "notched top", "é̩",
                                       "漢字漢字", "of 1976"};
  for (std::size_t i = 1 + below(25); i > 0; --i) {
    graph.nodes.push_back({.label = words[below(words.size())], .note = {}, .to = "a.html", .subject = below(5) == 0});
    for (std::size_t more = below(5); more > 0; --more) graph.nodes.back().label += " " + words[below(words.size())];
    if (below(2) == 0) graph.nodes.back().note = "1976-06 to " + words[below(words.size())];
  }
  for (std::size_t i = below(2 * graph.nodes.size() + 1); i > 0; --i) {
    const GraphEdge made = edge(below(graph.nodes.size()), below(graph.nodes.size()),
                                below(2) == 0 ? "" : words[below(words.size())], below(3) != 0);
    if (circles || made.from < made.to) graph.edges.push_back(made);
  }
  return graph;
}

} // namespace

TEST_CASE("any graph is drawn inside its size, without nodes or labels over each other, always the same") {
  std::mt19937 random{20'260'712};
  for (int i = 0; i < 600; ++i) {
    const Graph graph = random_graph(random, i % 2 == 0);
    for (const double width : {360.0, 760.0}) {
      INFO("graph " << i << " at " << width);
      const Drawing drawing = draw_graph(graph, i % 3 == 0, width);
      check_sound(drawing);
      CHECK(boxes(drawing).size() == graph.nodes.size());
      if (i % 3 != 0) CHECK(arrow_heads(drawing) == graph.edges.size());
      CHECK(drawing.width >= width);
      CHECK(drawing.width <= 2 * width);
      CHECK(written(drawing) == written(draw_graph(graph, i % 3 == 0, width)));
    }
  }
}

TEST_CASE("without circles every edge leads forwards: down on a phone, to the right on a desk") {
  std::mt19937 random{83};
  for (int i = 0; i < 200; ++i) {
    const Graph graph = random_graph(random, false);
    for (const double width : {360.0, 4000.0}) {
      const auto nodes = boxes(draw_graph(graph, false, width));
      for (const GraphEdge& arc : graph.edges) {
        if (width < 560) REQUIRE(nodes[arc.from].bottom < nodes[arc.to].top);
        if (width > 560) REQUIRE(nodes[arc.from].right < nodes[arc.to].left);
      }
    }
  }
}

TEST_CASE("a short chain goes to the right on a desk, and down where it does not fit") {
  const Graph three = of(3, {edge(0, 1), edge(1, 2)});
  CHECK(draw_graph(three, true, 760).height < 80);
  CHECK(draw_graph(three, true, 360).height > 150);
  std::vector<GraphEdge> edges;
  for (std::size_t i = 1; i < 12; ++i) edges.push_back(edge(i - 1, i));
  CHECK(draw_graph(of(12, edges), true, 760).height > 600);
}

TEST_CASE("what follows from other edges is left out where asked") {
  const Graph graph = of(3, {edge(0, 1), edge(1, 2), edge(0, 2)});
  CHECK(arrow_heads(draw_graph(graph, true, 360)) == 2);
  CHECK(arrow_heads(draw_graph(graph, false, 360)) == 3);
}

TEST_CASE("parallel edges and edges to the node itself are seen") {
  for (const double width : {360.0, 760.0}) {
    const Drawing drawing =
        draw_graph(of(2, {edge(0, 1), edge(0, 1, "", false), edge(1, 1), edge(1, 1)}), false, width);
    check_sound(drawing);
    CHECK(arrow_heads(drawing) == 4);
    std::set<std::pair<double, double>> tips;
    for (const Polyline& line : all_of<Polyline>(drawing))
      if (line.style == Style::arrow_head) tips.insert(line.points.front());
    CHECK(tips.size() >= 3);
    CHECK(all_of<Curve>(drawing).size() == 2);
  }
}

TEST_CASE("a circle is drawn, each of its edges with its arrow where it leads") {
  const Drawing drawing = draw_graph(of(3, {edge(0, 1), edge(1, 2), edge(2, 0)}), true, 360);
  check_sound(drawing);
  const auto nodes = boxes(drawing);
  REQUIRE(nodes.size() == 3);
  std::size_t into_first = 0;
  for (const Polyline& line : all_of<Polyline>(drawing))
    if (line.style == Style::arrow_head && line.points.front().second == nodes[0].bottom) ++into_first;
  CHECK(into_first == 1);
}

TEST_CASE("the description of a graph says what the picture shows") {
  Graph graph = of(2, {edge(0, 1, "clean"), edge(1, 0, "", false), edge(1, 1)});
  graph.nodes[0] = node("ring\ntop", "1976-06 to 1981");
  graph.relation = "was replaced by";
  CHECK(draw_graph(graph, false, 360).description == "ring top (1976-06 to 1981); mould 1. ring top was replaced by "
                                                     "mould 1 (clean); mould 1 was replaced by ring top, "
                                                     "perhaps; mould 1 was replaced by itself.");
  CHECK(draw_graph(graph, false, 360).description == draw_graph(graph, false, 760).description);
  CHECK(draw_graph({}, false, 360).description == "Nothing to show.");
}

TEST_CASE("a label that is too long for its edge is told in the description only") {
  const Drawing drawing =
      draw_graph(of(2, {edge(0, 1, "as the press log of the plant has it, with a note")}), false, 360);
  CHECK(all_of<Lettering>(drawing).size() == 2);
  CHECK(drawing.description.find("(as the press log of the plant has it, with a note)") != std::string::npos);
}

TEST_CASE("hostile graphs are drawn") {
  const std::string endless(10'000, 'W');
  Graph graph = of(3, {edge(0, 1, endless), edge(7, 1), edge(1, 99), edge(1, 1, endless)});
  graph.nodes[0] = node(endless, endless + " " + endless);
  for (const double width : {360.0, 760.0, 0.0, -1.0, std::numeric_limits<double>::quiet_NaN()}) {
    const Drawing drawing = draw_graph(graph, true, width);
    check_sound(drawing);
    CHECK(arrow_heads(drawing) == 2);
    for (const Lettering& label : all_of<Lettering>(drawing)) CHECK(label.text.size() < 100);
    check_sound(draw_graph({}, true, width));
    check_sound(draw_graph(of(1, {}), true, width));
  }
}

TEST_CASE("everybody leads to everybody") {
  std::vector<GraphEdge> edges;
  for (std::size_t i = 0; i < 40; ++i)
    for (std::size_t j = 0; j < 40; ++j)
      if (i != j) edges.push_back(edge(i, j, "x"));
  for (const double width : {360.0, 760.0}) {
    const Drawing drawing = draw_graph(of(40, edges), false, width);
    check_sound(drawing);
    CHECK(arrow_heads(drawing) == edges.size());
  }
}

TEST_CASE("shapes grow with the graph, not faster") {
  const auto shapes = [](std::size_t nodes) {
    std::vector<GraphEdge> edges;
    for (std::size_t i = 1; i < nodes; ++i) {
      edges.push_back(edge(i / 2, i, "clean"));
      edges.push_back(edge(i * 2 / 3, i));
    }
    const Drawing drawing = draw_graph(of(nodes, edges), false, 760);
    CHECK(outside(drawing) == -1);
    return static_cast<double>(drawing.shapes.size());
  };
  const double few = shapes(1000);
  CHECK(shapes(4000) < 6 * few);
}

TEST_CASE("thousands of nodes in a chain that all lead to the last are drawn") {
  std::vector<GraphEdge> edges;
  for (std::size_t i = 1; i < 3000; ++i) edges.push_back(edge(i - 1, i));
  for (std::size_t i = 0; i < 2998; ++i) edges.push_back(edge(i, 2999, "", false));
  const Drawing drawing = draw_graph(of(3000, edges), false, 360);
  CHECK(outside(drawing) == -1);
  CHECK(arrow_heads(drawing) == edges.size());
  CHECK(arrow_heads(draw_graph(of(3000, edges), true, 360)) == 2999);
}
