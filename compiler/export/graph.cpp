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
    if (const std::string_view address = kb.address(EntryIndex{static_cast<std::uint32_t>(i)}); !address.empty()) {
      ids.push_back(token_of(std::string{address}));
      continue;
    }
    const std::string parent = entry.parent == no_entry ? std::string{} : ids[at(entry.parent)] + ":";
    ids.push_back(fmt::format("{}{}.{}", parent, kind_word(entry.kind), ++counts[{entry.parent, entry.kind}]));
  }
  return ids;
}

// A node for every point of a chronology.
class PointNodes {
public:
  PointNodes(const LinkedKb& kb, const Chronology& chronology) : kb_(kb), chronology_(chronology) {
    nodes_.resize(chronology.graph().points());
    nodes_[at(origin)] = {"origin", "origin", {"", "", "", "1970-01-01", "1970-01-01"}};
    for (std::size_t i = 0; i < kb.spans.size(); ++i) {
      const TimeSpanIndex span{static_cast<std::uint32_t>(i)};
      add(start_of(span), std::string{kb.spans[i].address}, spec_of(kb.spans[i].kind).name, "start");
      add(end_of(span), std::string{kb.spans[i].address}, spec_of(kb.spans[i].kind).name, "end");
    }
    name_other_days();
  }

  std::vector<ExportNode> take() { return std::move(nodes_); }

private:
  void add(Point point, const std::string& address, std::string_view kind, std::string_view end) {
    const DayBounds known = chronology_.bounds(point, Basis::conjectured);
    const std::string dot = address.empty() ? "" : ".";
    nodes_[at(point)] = {token_of(address) + dot + std::string{end},
                         address + dot + std::string{end},
                         {address, std::string{kind}, std::string{end},
                          known.earliest ? iso(*known.earliest) : std::string{},
                          known.latest ? iso(*known.latest) : std::string{}}};
  }

  // Days that are no end of a span are named after the first span whose end a constraint ties them to. A bound on an
  // end by such a day is that of stock; a bound on the day by an end is that of what a mark reads.
  void name_other_days() {
    const std::size_t ends = 1 + 2 * kb_.spans.size();
    const auto is_end = [&](Point point) { return point != origin && at(point) < ends; };
    for (const Constraint& constraint : chronology_.graph().constraints()) {
      if (at(constraint.y) >= ends && is_end(constraint.x)) name_day(constraint.y, constraint.x, "stock");
      if (at(constraint.x) >= ends && is_end(constraint.y)) name_day(constraint.x, constraint.y, "read");
    }
    for (std::size_t i = ends; i < nodes_.size(); ++i)
      if (nodes_[i].id.empty()) add(Point{static_cast<std::uint32_t>(i)}, {}, {}, fmt::format("day-{}", i - ends + 1));
  }

  void name_day(Point day, Point end, const std::string& word) {
    if (!nodes_[at(day)].id.empty()) return;
    const TimeSpan& span = kb_.spans[(at(end) - 1) / 2];
    const std::string address{span.address};
    const int number = ++days_[{address, word}];
    add(day, address, spec_of(span.kind).name, number == 1 ? word : fmt::format("{}-{}", word, number));
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  std::map<std::pair<std::string, std::string>, int> days_; // how many have been named so
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
                           {kind, std::string{name}, std::string{kb.address(EntryIndex{static_cast<std::uint32_t>(i)})},
                            std::move(file), std::move(line)}});
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
