#include "export/graph.hpp"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "export/table_names.hpp"
#include "links/references.hpp"

namespace coeval {
namespace {

struct Place {
  std::string file;
  std::string line;
};

Place place_of(const SourceSet& sources, Span place) {
  if (!place.known()) return {};
  const SourceFile& file = sources[place.file];
  return {file.path(), std::to_string(file.position(place.begin).line)};
}

std::string token_of(std::string address) {
  std::ranges::replace(address, '/', ':');
  return address;
}

// The id of every entry's node.
std::vector<std::string> node_ids(const LinkedKb& kb) {
  std::vector<std::string> ids;
  std::map<std::pair<EntryIndex, Kind>, int> counts;
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    if (!kb.addresses[i].empty()) {
      ids.push_back(token_of(kb.addresses[i]));
      continue;
    }
    const std::string parent = entry.parent == no_entry ? std::string{} : ids[at(entry.parent)] + ":";
    ids.push_back(fmt::format("{}{}.{}", parent, kind_word(entry.kind), ++counts[{entry.parent, entry.kind}]));
  }
  return ids;
}

// The name of every point of a chronology that is an end of a span or the origin; the others are found below.
class PointNodes {
public:
  PointNodes(const LinkedKb& kb, const Chronology& chronology) : kb_(kb), chronology_(chronology) {
    nodes_.resize(chronology.graph().points());
    nodes_[at(origin)] = {"origin", "origin", {"", "", "", "1970-01-01", "1970-01-01"}};
    for (std::size_t i = 0; i < kb.spans.size(); ++i) {
      const TimeSpanIndex span{static_cast<std::uint32_t>(i)};
      add(start_of(span), kb.spans[i], "start");
      add(end_of(span), kb.spans[i], "end");
    }
    name_stock_days();
  }

  std::vector<ExportNode> take() { return std::move(nodes_); }

private:
  void add(Point point, const TimeSpan& span, std::string_view end) {
    const DayBounds known = chronology_.bounds(point, Basis::conjectured);
    nodes_[at(point)] = {fmt::format("{}.{}", token_of(span.address), end),
                         fmt::format("{}.{}", span.address, end),
                         {span.address, std::string{spec_of(span.kind).name}, std::string{end},
                          known.earliest ? iso(*known.earliest) : std::string{},
                          known.latest ? iso(*known.latest) : std::string{}}};
  }

  // The day from which stock could still be packed when a span began: the only constraint from that day says which.
  void name_stock_days() {
    const std::size_t ends = 1 + 2 * kb_.spans.size();
    std::map<std::size_t, int> policies; // of each span that is packed
    for (const Constraint& constraint : chronology_.graph().constraints()) {
      const std::size_t stock = at(constraint.y);
      const std::size_t packed = at(constraint.x);
      if (stock < ends || packed >= ends || packed == 0 || !nodes_[stock].id.empty()) continue;
      const std::string& address = kb_.spans[(packed - 1) / 2].address;
      const int number = ++policies[packed];
      const std::string name = number == 1 ? "stock" : fmt::format("stock-{}", number);
      const DayBounds known = chronology_.bounds(constraint.y, Basis::conjectured);
      nodes_[stock] = {fmt::format("{}.{}", token_of(address), name),
                       fmt::format("{}.{}", address, name),
                       {address, std::string{spec_of(kb_.spans[(packed - 1) / 2].kind).name}, name,
                        known.earliest ? iso(*known.earliest) : std::string{},
                        known.latest ? iso(*known.latest) : std::string{}}};
    }
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  std::vector<ExportNode> nodes_;
};

} // namespace

ExportGraph graph_of_links(const LinkedKb& kb, const SourceSet& sources) {
  ExportGraph graph{.name = "links",
                    .node_attributes = {{"kind"}, {"name"}, {"address"}, {"file"}, {"line", true}},
                    .edge_attributes = {{"key"}, {"position", true}, {"detail"}},
                    .nodes = {},
                    .edges = {}};
  const std::vector<std::string> ids = node_ids(kb);
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    const std::string_view name = entry_name(entry);
    const std::string kind{kind_word(entry.kind)};
    auto [file, line] = place_of(sources, entry.place);
    graph.nodes.push_back({ids[i],
                           fmt::format("{}\n{}", name.empty() ? std::string_view{ids[i]} : name, kind),
                           {kind, std::string{name}, kb.addresses[i], std::move(file), std::move(line)}});
    if (entry.parent != no_entry) graph.edges.push_back({i, at(entry.parent), "parent", {"parent", "", ""}});
  }
  for (const Reference& reference : references_of(kb)) {
    const std::string key{reference.key->name};
    const std::string label = reference.detail.empty() ? key : fmt::format("{}: {}", key, reference.detail);
    graph.edges.push_back(
        {at(reference.from), at(reference.to), label, {key, std::to_string(reference.position), reference.detail}});
  }
  std::ranges::stable_sort(graph.edges, {}, &ExportEdge::from);
  return graph;
}

ExportGraph graph_of_chronology(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources) {
  ExportGraph graph{.name = "chronology",
                    .node_attributes = {{"address"}, {"kind"}, {"end"}, {"earliest"}, {"latest"}},
                    .edge_attributes = {{"days", true}, {"basis"}, {"statement"}, {"source"}, {"file"}, {"line", true}},
                    .nodes = PointNodes{kb, chronology}.take(),
                    .edges = {}};
  const std::span<const Constraint> constraints = chronology.graph().constraints();
  for (std::size_t i = 0; i < constraints.size(); ++i) {
    const std::array chain{ConstraintIndex{static_cast<std::uint32_t>(i)}};
    const Reason reason = chronology.tell_all(chain).front();
    const std::string basis = std::string{reason.definition ? by_meaning : name(reason.basis)};
    std::string cited;
    for (const std::string& source : reason.sources) cited += (cited.empty() ? "" : "; ") + source;
    auto [file, line] = place_of(sources, reason.place);
    const std::string days = std::to_string(constraints[i].most);
    graph.edges.push_back({at(constraints[i].y),
                           at(constraints[i].x),
                           fmt::format("{}, {}", days, basis),
                           {days, basis, reason.statement, std::move(cited), std::move(file), std::move(line)}});
  }
  return graph;
}

} // namespace coeval
