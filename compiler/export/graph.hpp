// export/graph.hpp: what does the knowledge base look like as a graph?
//
// A graph here is plain data: nodes and directed edges with attributes. What writes it (graphml.hpp, dot.hpp) knows
// nothing of knowledge bases.
#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "chronology/chronology.hpp"
#include "entries/value_store.hpp"
#include "links/references.hpp"

namespace coeval {

enum class GraphOf : std::uint8_t {
  links,      // entries, and what each refers to
  chronology, // days on which things began and ended, and how far apart statements hold them
};

struct GraphAttribute {
  std::string_view name;
  bool integer = false; // else text
};
inline constexpr std::size_t most_graph_attributes = 6; // of a node, of an edge

// `values` has one text for each attribute of the graph; empty where it is not given.
struct ExportNode {
  std::string_view id; // letters, digits, '-', ':' and '.': an NMTOKEN of XML
  std::string_view label;
  std::array<std::string_view, most_graph_attributes> values{};
};
struct ExportEdge {
  std::size_t from = 0; // positions in the list of nodes
  std::size_t to = 0;
  std::string_view label;
  std::array<std::string_view, most_graph_attributes> values{};
};

// Its texts are views of the knowledge base and its sources, which must outlive it, or of `texts`.
struct ExportGraph {
  std::string_view name;
  std::vector<GraphAttribute> node_attributes;
  std::vector<GraphAttribute> edge_attributes;
  std::vector<ExportNode> nodes;
  std::vector<ExportEdge> edges;
  std::unique_ptr<ValueStore> texts = std::make_unique<ValueStore>();
};

// A node for every entry; its id is the address with ':' for '/', or for entries without one that of the parent, the
// kind and a number: "keeper-maren:painted-buttons:pairing.2". An edge from each entry to its parent and to all that it
// refers to, with the key that does.
[[nodiscard]] ExportGraph graph_of_links(const LinkedKb& kb, const SourceSet& sources,
                                         const ReferenceTable& references);

// In place of a basis, of what holds by the meaning of the words.
inline constexpr std::string_view by_meaning = "definition";

// A node for every point in time: the calendar's day 0, 1970-01-01 ("origin"), the start and the end of every span, for
// each policy of stock the day from which parts could still be packed (".stock"), and for each reading of a mark the
// day that it stands for (".read"). A constraint x - y <= days is an edge from y to x: the distance graph of R.
// Dechter, I. Meiri, J. Pearl, "Temporal constraint networks", Artificial Intelligence 49, 1991, in which a bound is a
// shortest path.
[[nodiscard]] ExportGraph graph_of_chronology(const LinkedKb& kb, const Chronology& chronology,
                                              const SourceSet& sources);

} // namespace coeval
