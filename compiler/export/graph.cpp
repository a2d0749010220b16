#include "export/graph.hpp"

#include <algorithm>
#include <array>
#include <map>

#include <fmt/format.h>

#include "export/table_names.hpp"

namespace coeval {
namespace {

// Keeps a text that is made of pieces.
template <class... Pieces> std::string_view keep_joined(ValueStore& texts, const Pieces&... pieces) {
  fmt::memory_buffer joined;
  (joined.append(std::string_view{pieces}), ...);
  return texts.keep_text({joined.data(), joined.size()});
}
std::string_view keep_number(ValueStore& texts, std::int64_t number) {
  const fmt::format_int digits{number};
  return texts.keep_text({digits.data(), digits.size()});
}
std::string_view keep_day(ValueStore& texts, const std::optional<Day>& day) {
  return day ? std::string_view{texts.keep_text(iso(*day))} : std::string_view{};
}

struct GraphPlace {
  std::string_view file;
  std::string_view line;
};

GraphPlace graph_place_of(ValueStore& texts, const SourceSet& sources, Span place) {
  if (!place.known()) return {};
  const SourceFile& file = sources[place.file];
  return {file.path(), keep_number(texts, file.position(place.begin).line)};
}

// An address, and what comes after it, as a token: "keeper-maren:painted-buttons.start".
std::string_view keep_token(ValueStore& texts, std::string_view address, std::string_view dot = {},
                            std::string_view rest = {}) {
  std::string token{address};
  std::ranges::replace(token, '/', ':');
  return texts.keep_text(token.append(dot).append(rest));
}

// The id of every entry's node.
std::vector<std::string_view> node_ids(const LinkedKb& kb, ValueStore& texts) {
  std::vector<std::string_view> ids;
  std::map<std::pair<EntryIndex, Kind>, int> counts;
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    if (const std::string_view address = kb.address(EntryIndex{static_cast<std::uint32_t>(i)}); !address.empty()) {
      ids.push_back(keep_token(texts, address));
      continue;
    }
    const bool inside = entry.parent != no_entry;
    const fmt::format_int number{++counts[{entry.parent, entry.kind}]};
    ids.push_back(keep_joined(texts, inside ? ids[at(entry.parent)] : "", inside ? ":" : "", kind_word(entry.kind), ".",
                              number.c_str()));
  }
  return ids;
}

// A node for every point of a chronology.
class PointNodes {
public:
  PointNodes(const LinkedKb& kb, const Chronology& chronology, ValueStore& texts)
      : kb_(kb), chronology_(chronology), texts_(texts) {
    nodes_.resize(chronology.graph().points());
    nodes_[at(origin)] = {"origin", "origin", {"", "", "", "1970-01-01", "1970-01-01"}};
    for (std::size_t i = 0; i < kb.spans.size(); ++i) {
      const TimeSpanIndex span{static_cast<std::uint32_t>(i)};
      add(start_of(span), kb.spans[i].address, spec_of(kb.spans[i].kind).name, "start");
      add(end_of(span), kb.spans[i].address, spec_of(kb.spans[i].kind).name, "end");
    }
    name_other_days();
  }

  std::vector<ExportNode> take() { return std::move(nodes_); }

private:
  // `end` must last as long as the texts.
  void add(Point point, std::string_view address, std::string_view kind, std::string_view end) {
    const DayBounds known = chronology_.bounds(point, Basis::conjectured);
    const std::string_view dot = address.empty() ? "" : ".";
    nodes_[at(point)] = {keep_token(texts_, address, dot, end),
                         keep_joined(texts_, address, dot, end),
                         {address, kind, end, keep_day(texts_, known.earliest), keep_day(texts_, known.latest)}};
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
      if (nodes_[i].id.empty())
        add(Point{static_cast<std::uint32_t>(i)}, {}, {}, texts_.keep_text(fmt::format("day-{}", i - ends + 1)));
  }

  void name_day(Point day, Point end, std::string_view word) {
    if (!nodes_[at(day)].id.empty()) return;
    const TimeSpan& span = kb_.spans[(at(end) - 1) / 2];
    const int number = ++days_[{span.address, word}];
    add(day, span.address, spec_of(span.kind).name,
        number == 1 ? word : std::string_view{texts_.keep_text(fmt::format("{}-{}", word, number))});
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  ValueStore& texts_;
  std::map<std::pair<std::string_view, std::string_view>, int> days_; // how many have been named so
  std::vector<ExportNode> nodes_;
};

} // namespace

ExportGraph graph_of_links(const LinkedKb& kb, const SourceSet& sources, const ReferenceTable& references) {
  ExportGraph graph{.name = "links",
                    .node_attributes = {{"kind"}, {"name"}, {"address"}, {"file"}, {"line", true}},
                    .edge_attributes = {{"key"}, {"position", true}, {"detail"}},
                    .nodes = {},
                    .edges = {}};
  ValueStore& texts = *graph.texts;
  const std::vector<std::string_view> ids = node_ids(kb, texts);
  graph.nodes.reserve(ids.size());
  graph.edges.reserve(ids.size() + references.all().size());
  for (std::size_t i = 0; i < ids.size(); ++i) {
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    const Entry& entry = kb.entries[index];
    const std::string_view name = entry_name(entry);
    const std::string_view kind = kind_word(entry.kind);
    const auto [file, line] = graph_place_of(texts, sources, entry.place);
    graph.nodes.push_back({ids[i],
                           keep_joined(texts, name.empty() ? ids[i] : name, "\n", kind),
                           {kind, name, kb.address(index), file, line}});
    if (entry.parent != no_entry) graph.edges.push_back({i, at(entry.parent), "parent", {"parent"}});
    for (const Reference& reference : references.from(index)) {
      const std::string_view key = reference.key->name;
      const std::string_view detail = texts.keep_text(reference.detail);
      graph.edges.push_back({i,
                             at(reference.to),
                             detail.empty() ? key : keep_joined(texts, key, ": ", detail),
                             {key, keep_number(texts, reference.position), detail}});
    }
  }
  return graph;
}

ExportGraph graph_of_chronology(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources) {
  ExportGraph graph{.name = "chronology",
                    .node_attributes = {{"address"}, {"kind"}, {"end"}, {"earliest"}, {"latest"}},
                    .edge_attributes = {{"days", true}, {"basis"}, {"statement"}, {"source"}, {"file"}, {"line", true}},
                    .nodes = {},
                    .edges = {}};
  ValueStore& texts = *graph.texts;
  graph.nodes = PointNodes{kb, chronology, texts}.take();
  const std::span<const Constraint> constraints = chronology.graph().constraints();
  graph.edges.reserve(constraints.size());
  for (std::size_t i = 0; i < constraints.size(); ++i) {
    const std::array chain{ConstraintIndex{static_cast<std::uint32_t>(i)}};
    const Reason reason = chronology.tell_all(chain).front();
    const std::string_view basis = reason.definition ? by_meaning : name(reason.basis);
    std::string cited;
    for (const std::string& source : reason.sources) (cited += cited.empty() ? "" : "; ") += source;
    const auto [file, line] = graph_place_of(texts, sources, reason.place);
    const std::string_view days = keep_number(texts, constraints[i].most);
    graph.edges.push_back({at(constraints[i].y),
                           at(constraints[i].x),
                           keep_joined(texts, days, ", ", basis),
                           {days, basis, texts.keep_text(reason.statement), texts.keep_text(cited), file, line}});
  }
  return graph;
}

} // namespace coeval
