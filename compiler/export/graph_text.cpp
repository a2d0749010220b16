#include "export/graph_text.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "export/room.hpp"

namespace coeval {
namespace {

constexpr std::string_view replacement = "\xef\xbf\xbd"; // U+FFFD

bool is_control(char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t' && c != '\n' && c != '\r'); }

// U+FFFE and U+FFFF, which XML 1.0 leaves out (https://www.w3.org/TR/xml/#charsets).
bool is_no_character(std::string_view text) {
  return text.starts_with("\xef\xbf\xbe") || text.starts_with("\xef\xbf\xbf");
}

bool is_plain_xml(char c) { return (c >= ' ' && c <= '~' && c != '&' && c != '<' && c != '>' && c != '"'); }

void add_xml_text(std::string& to, std::string_view text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::size_t plain = i;
    while (i < text.size() && is_plain_xml(text[i])) ++i;
    to += text.substr(plain, i - plain);
    if (i == text.size()) return;
    const char c = text[i];
    if (c == '&')
      to += "&amp;";
    else if (c == '<')
      to += "&lt;";
    else if (c == '>')
      to += "&gt;";
    else if (c == '"')
      to += "&quot;";
    else if (c == '\r')
      to += "&#13;"; // as it stands it would be read as a line feed
    else if (is_control(c))
      to += replacement;
    else if (is_no_character(text.substr(i))) {
      to += replacement;
      i += 2;
    } else
      to += c;
  }
}

// In quotes. Labels and tooltips are escStrings (https://graphviz.org/docs/attr-types/escString/), in which a backslash
// begins an escape, and in which entities of HTML are read.
std::string dot_text(std::string_view text) {
  std::string safe = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\')
      safe += fmt::format("\\{}", c);
    else if (c == '\n')
      safe += "\\n";
    else if (c == '&')
      safe += "&amp;";
    else if (is_control(c) || c == '\r' || c == '\x7f')
      safe += replacement;
    else
      safe += c;
  }
  return safe + "\"";
}

void add_keys(std::string& text, const std::vector<GraphAttribute>& attributes, std::string_view of) {
  for (const GraphAttribute& attribute : attributes)
    text += fmt::format("<key id=\"{0}-{1}\" for=\"{0}\" attr.name=\"{1}\" attr.type=\"{2}\"/>\n", of, attribute.name,
                        attribute.integer ? "long" : "string");
}

// The elements of one kind of thing in a graph: what stands around the value of each attribute is the same every time.
class DataElements {
public:
  DataElements(const std::vector<GraphAttribute>& attributes, std::string_view of) {
    for (const GraphAttribute& attribute : attributes)
      starts_.push_back(fmt::format("<data key=\"{}-{}\">", of, attribute.name));
  }
  void add(std::string& text, const std::array<std::string_view, most_graph_attributes>& values) const {
    for (std::size_t i = 0; i < starts_.size(); ++i) {
      if (values[i].empty()) continue;
      text += starts_[i];
      add_xml_text(text, values[i]);
      text += "</data>";
    }
  }

private:
  std::vector<std::string> starts_;
};

} // namespace

void write_graphml(const ExportGraph& graph, std::string& text) {
  text += graphml_head;
  text += "<graphml xmlns=\"http://graphml.graphdrawing.org/xmlns\" "
          "xmlns:xsi=\"http://www.w3.org/2001/XMLSchema-instance\" "
          "xsi:schemaLocation=\"http://graphml.graphdrawing.org/xmlns "
          "http://graphml.graphdrawing.org/xmlns/1.0/graphml.xsd\">\n";
  add_keys(text, graph.node_attributes, "node");
  add_keys(text, graph.edge_attributes, "edge");
  text += fmt::format("<graph id=\"{}\" edgedefault=\"directed\">\n", graph.name);
  const DataElements node_data{graph.node_attributes, "node"};
  RoomForPieces nodes{text, graph.nodes.size()};
  for (const ExportNode& node : graph.nodes) {
    ((text += "<node id=\"") += node.id) += "\">";
    node_data.add(text, node.values);
    text += "</node>\n";
    nodes.one_is_done();
  }
  const DataElements edge_data{graph.edge_attributes, "edge"};
  RoomForPieces edges{text, graph.edges.size()};
  for (std::size_t i = 0; i < graph.edges.size(); ++i) {
    const ExportEdge& edge = graph.edges[i];
    (text += "<edge id=\"e") += fmt::format_int{i}.c_str();
    ((text += "\" source=\"") += graph.nodes[edge.from].id) += "\" target=\"";
    (text += graph.nodes[edge.to].id) += "\">";
    edge_data.add(text, edge.values);
    text += "</edge>\n";
    edges.one_is_done();
  }
  text += "</graph>\n</graphml>\n";
}

std::string dot(const ExportGraph& graph) {
  std::string text{dot_head};
  text += fmt::format("digraph {} {{\n  rankdir=LR;\n  node [shape=box];\n", dot_text(graph.name));
  for (const ExportNode& node : graph.nodes)
    text += fmt::format("  {} [label={}];\n", dot_text(node.id), dot_text(node.label));
  const auto told = std::ranges::find(graph.edge_attributes, "statement", &GraphAttribute::name);
  for (const ExportEdge& edge : graph.edges) {
    std::string tooltip;
    if (told != graph.edge_attributes.end())
      tooltip = fmt::format(", tooltip={}",
                            dot_text(edge.values[static_cast<std::size_t>(told - graph.edge_attributes.begin())]));
    text += fmt::format("  {} -> {} [label={}{}];\n", dot_text(graph.nodes[edge.from].id),
                        dot_text(graph.nodes[edge.to].id), dot_text(edge.label), tooltip);
  }
  return text + "}\n";
}

} // namespace coeval
