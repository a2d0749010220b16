// export/graph_text.hpp: how is a graph written for other programs?
//
// Private to this room.
#pragma once

#include <string>

#include "export/graph.hpp"

namespace coeval {

// What every file of ours begins with, by which it is known again.
inline constexpr std::string_view graphml_head =
    "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!-- coeval-graph 1 -->\n";
inline constexpr std::string_view dot_head = "// coeval-graph 1\n";

// GraphML (U. Brandes, M. Eiglsperger, J. Lerner, "GraphML Primer",
// http://graphml.graphdrawing.org/primer/graphml-primer.html), without extensions. Attributes are <data>; one that is
// not given is left out. Characters that XML 1.0 cannot hold become U+FFFD. Appended to `text`.
void write_graphml(const ExportGraph& graph, std::string& text);

// The language of Graphviz (https://graphviz.org/doc/info/lang.html). Ids, labels, and of edges the sentence as their
// tooltip; the rest is for programs, and those read GraphML.
[[nodiscard]] std::string dot(const ExportGraph& graph);

} // namespace coeval
