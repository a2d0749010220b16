// Is each kind of file known by its name and by its beginning, and does hostile text stay text in a graph?
#include <set>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "export/export.hpp"
#include "export/graph_text.hpp"
#include "in_memory_kb.hpp"

namespace {

using namespace coeval;

constexpr std::array documents{ExportAs::sqlite, ExportAs::json, ExportAs::graphml, ExportAs::dot, ExportAs::json_ld};

constexpr std::string_view text = R"(
[[mark]]
id = "seal"
name = "Seal"
reading = "number"
[[mark.number]]
from = 3858241
on = "1975"
[[card]]
id = "six"
name = "Six \"back\" <&>"
marks = ["seal=3,900,000"]
used = "1976/1979"
[[card.timing]]
this = "end"
before = "period/late.start"
at-least = "P6M"
[[period]]
id = "late"
name = "Late"
)";

bool holds(std::string_view whole, std::string_view part) { return whole.find(part) != std::string_view::npos; }

ExportGraph one_edge(std::string_view text_of_all) {
  return {.name = "links",
          .node_attributes = {{"name"}, {"line", true}},
          .edge_attributes = {{"statement"}},
          .nodes = {{"a", text_of_all, {text_of_all, "7"}}, {"b:c.1", "b", {"", ""}}},
          .edges = {{0, 1, text_of_all, {text_of_all}}}};
}

TEST_CASE("the ending of a name says what it will hold") {
  CHECK(export_kind_of("kb.sqlite") == ExportAs::sqlite);
  CHECK(export_kind_of("a.b/kb.db") == ExportAs::sqlite);
  CHECK(export_kind_of("kb.json") == ExportAs::json);
  CHECK(export_kind_of("kb.jsonld") == ExportAs::json_ld);
  CHECK(export_kind_of("kb.graphml") == ExportAs::graphml);
  CHECK(export_kind_of("kb.gv") == ExportAs::dot);
  CHECK(export_kind_of("a.b/tables") == ExportAs::csv);
  CHECK(export_kind_of("tables.d/") == ExportAs::csv);
  CHECK_FALSE(export_kind_of("kb.csv"));
  CHECK_FALSE(export_kind_of("kb.txt"));
}

TEST_CASE("a file is known again by its beginning, as of its kind and no other") {
  const in_memory::Kb kb{std::string{text}};
  REQUIRE(kb.troubles().empty());
  for (const ExportAs as : documents) {
    const std::string whole = export_document({kb.kb, kb.dates, kb.sources, {}}, as, GraphOf::links);
    INFO(name(as));
    CHECK(whole == export_document({kb.kb, kb.dates, kb.sources, {}}, as, GraphOf::links));
    for (const ExportAs other : documents)
      CHECK(begins_as_export(other, std::string_view{whole}.substr(0, export_beginning)) == (other == as));
    CHECK_FALSE(begins_as_export(as, ""));
    CHECK_FALSE(begins_as_export(as, std::string_view{whole}.substr(0, 15)));
  }
  CHECK_FALSE(begins_as_export(ExportAs::sqlite, std::string{"SQLite format 3\0", 16} + std::string(84, '\0')));
}

TEST_CASE("what a mark reads, and which end is meant, stand beside what is referred to") {
  const in_memory::Kb kb{std::string{text}};
  const std::string json = export_document({kb.kb, kb.dates, kb.sources, {}}, ExportAs::json, GraphOf::links);
  CHECK(holds(json, "\"from\": 3858241")); // a whole number stays one
  const ExportGraph graph = graph_of_links(kb.kb, kb.sources, ReferenceTable{kb.kb});
  std::vector<std::string> edges;
  for (const ExportEdge& edge : graph.edges)
    edges.push_back(fmt::format("{} {} {}", graph.nodes[edge.from].id, edge.label, graph.nodes[edge.to].id));
  CHECK(edges == std::vector<std::string>{"mark:seal:mark-number.1 parent mark:seal",
                                          "card:six marks: 3,900,000 mark:seal", "card:six:timing.1 parent card:six",
                                          "card:six:timing.1 before: start period:late"});
}

TEST_CASE("the chronology's edges are its constraints, from y to x") {
  const in_memory::Kb kb{std::string{text}};
  const ExportGraph graph = graph_of_chronology(kb.kb, kb.dates, kb.sources);
  CHECK(graph.nodes.size() == kb.dates.graph().points());
  CHECK(graph.edges.size() == kb.dates.graph().constraints().size());
  const auto timed = std::ranges::find_if(
      graph.edges, [](const ExportEdge& edge) { return holds(edge.values[2], "at least 6 months"); });
  REQUIRE(timed != graph.edges.end());
  // The card's end is before the period's start by the fewest days that six months have: end - start <= -181.
  CHECK(graph.nodes[timed->from].id == "period:late.start");
  CHECK(graph.nodes[timed->to].id == "card:six.end");
  CHECK(timed->values[0] == "-181");
  CHECK(timed->values[1] == "conjectured");
}

TEST_CASE("text stays text in XML") {
  std::string xml;
  write_graphml(one_edge("a<b>&\"'\r\n\t\x01\x1b]]>\xef\xbf\xbe\xef\xbf\xbd\xf0\x9f\x91\xa9"), xml);
  CHECK(holds(
      xml,
      "<data key=\"node-name\">a&lt;b&gt;&amp;&quot;'&#13;\n\t\xef\xbf\xbd\xef\xbf\xbd]]&gt;\xef\xbf\xbd\xef\xbf\xbd"
      "\xf0\x9f\x91\xa9</data>"));
  CHECK(holds(xml, "<node id=\"b:c.1\"></node>"));
}

TEST_CASE("text stays text in DOT") {
  const std::string graph = dot(one_edge("a\"b\\N\\\n&lt;\x01"));
  CHECK(holds(graph, "  \"a\" [label=\"a\\\"b\\\\N\\\\\\n&amp;lt;\xef\xbf\xbd\"];\n"));
  CHECK(holds(graph, "  \"a\" -> \"b:c.1\" [label="));
}

} // namespace
