#include "drawings/graph_words.hpp"

#include <fmt/format.h>

#include "drawings/text.hpp"

namespace coeval {

std::string describe(const Graph& graph, const std::vector<std::size_t>& shown) {
  if (graph.nodes.empty()) return "Nothing to show.";
  std::string words;
  for (const GraphNode& node : graph.nodes) {
    words += (words.empty() ? "" : "; ") + one_line(node.label);
    if (!node.note.empty()) words += fmt::format(" ({})", one_line(node.note));
  }
  words += ".";
  std::string told;
  for (const std::size_t index : shown) {
    const GraphEdge& edge = graph.edges[index];
    told +=
        fmt::format("{}{} {} {}", told.empty() ? " " : "; ", one_line(graph.nodes[edge.from].label),
                    one_line(graph.relation), edge.to == edge.from ? "itself" : one_line(graph.nodes[edge.to].label));
    if (!edge.label.empty()) told += fmt::format(" ({})", one_line(edge.label));
    if (!edge.certain) told += ", perhaps";
  }
  if (!told.empty()) words += told + ".";
  return words;
}

} // namespace coeval
