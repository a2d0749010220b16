#include "pages/spans.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "drawings/graph.hpp"

namespace coeval {

void add_when(const Site& site, EntryIndex entry, std::vector<TimelineRow> others, Page& page) {
  const TimeSpanIndex span = *site.backlinks().span[at(entry)];
  std::vector<Block> blocks{Bounds{{tell_span(site, span)}}};
  std::vector<TimelineRow> rows{timeline_row(site, span, true)};
  rows.insert(rows.end(), std::make_move_iterator(others.begin()), std::make_move_iterator(others.end()));
  add_timeline(site, "When: " + name_of(site.kb(), entry), site.kb().spans[at(span)].line, std::move(rows), blocks);
  add_section(page, "when", "When", std::move(blocks), "when");
}

void add_succession(const Site& site, EntryIndex entry, Facts& facts) {
  const LinkedKb& kb = site.kb();
  const TimeSpanIndex index = *site.backlinks().span[at(entry)];
  const TimeSpan& span = kb.spans[at(index)];
  if (span.replaces)
    add_fact(facts, "Followed",
             {full_link_to(kb, kb.spans[at(*span.replaces)].entry),
              plain(span.clean ? ", which had ended before" : ", perhaps with an overlap")});
  std::vector<Piece> followers;
  for (const EntryIndex other : site.backlinks().dating[at(index)]) {
    const auto& own = site.backlinks().span[at(other)];
    if (own && kb.spans[at(*own)].replaces == index) followers.push_back(full_link_to(kb, other));
  }
  add_fact(facts, "Followed by", enumerated(followers));
  std::vector<Piece> holders;
  for (const auto& [within, where] : span.within) holders.push_back(full_link_to(kb, kb.spans[at(within)].entry));
  add_fact(facts, "Lies within", enumerated(holders));
}

void add_dated_by_it(const Site& site, EntryIndex entry, Page& page) {
  const LinkedKb& kb = site.kb();
  const TimeSpanIndex index = *site.backlinks().span[at(entry)];
  List::Group dated{"Dated by it", {}, {}};
  List::Group claimed{"Claims about its dates", {}, {}};
  for (const EntryIndex other : site.backlinks().dating[at(index)]) {
    const Entry& statement = kb.entries[other];
    if (statement.kind == Kind::claimed_timing) {
      claimed.items.push_back({{link_to(kb, statement.parent)}, statement_of(site, other)});
      continue;
    }
    Text note;
    if (statement.flag("disputed")) note = {plain("disputed, and kept out of every conclusion")};
    const auto& own = site.backlinks().span[at(other)];
    if (!own) {
      dated.items.push_back({statement_of(site, other), std::move(note)});
    } else {
      const bool follows = kb.spans[at(*own)].replaces == index;
      dated.items.push_back({{full_link_to(kb, other)}, {plain(follows ? "followed it" : "lies within it")}});
    }
  }
  List list;
  for (List::Group& group : std::array{std::move(dated), std::move(claimed)})
    if (!group.items.empty()) list.groups.push_back(std::move(group));
  if (!list.groups.empty()) add_section(page, "more", "What refers to it", {std::move(list)}, "refers");
}

void add_looks(const Site& site, EntryIndex entry, Page& page) {
  const LinkedKb& kb = site.kb();
  const auto* features = kb.entries[entry].get<Features>("features");
  if (features == nullptr || features->empty()) return;
  Facts facts;
  for (const FeatureValue& value : *features) {
    const auto feature = kb.find_feature(value.feature);
    if (!feature) continue;
    const EntryIndex of = kb.features[at(*feature)].entry;
    Facts::Fact fact{name_of(kb, of), {{value_words(kb, value), link_to(kb, of).to, false}}, {}};
    if (value.lab.size() == 3) fact.lab = std::array{value.lab[0], value.lab[1], value.lab[2]};
    facts.facts.push_back(std::move(fact));
  }
  if (!facts.facts.empty()) add_section(page, "looks", "What can be seen and measured", {std::move(facts)}, "looks");
}

std::string reach_of(const Site& site, const Mark& mark) {
  if (mark.reading) return fmt::format("dates what carries it by the {} that it reads", name(*mark.reading));
  const auto [start, end] = ends_of(site, mark.span);
  const bool binds = mark.end_binds && end.latest;
  if (start.earliest && binds)
    return fmt::format("nothing with it is older than {} or younger than {}", iso(*start.earliest), iso(*end.latest));
  if (start.earliest) return fmt::format("nothing with it is older than {}", iso(*start.earliest));
  if (binds) return fmt::format("nothing with it is younger than {}", iso(*end.latest));
  if (end.latest)
    return fmt::format("does not date what carries it; its last day, {}, binds nothing", iso(*end.latest));
  return "does not date what carries it";
}

List list_of_issues(const Site& site, const std::vector<IssueIndex>& issues) {
  const LinkedKb& kb = site.kb();
  List list;
  FigureIndex last{0xffffffffU};
  for (const IssueIndex index : issues) {
    const Issue& issue = kb.issues[at(index)];
    if (list.groups.empty() || issue.figure != last)
      list.groups.push_back({name_of(kb, kb.figures[at(issue.figure)].entry), {}, {}});
    last = issue.figure;
    list.groups.back().items.push_back({{link_to(kb, issue.entry)}, {plain("packed " + short_span(site, issue.span))}});
  }
  return list;
}

List list_of_runs(const Site& site, const std::vector<RunIndex>& runs) {
  const LinkedKb& kb = site.kb();
  List list;
  AccessoryIndex last{0xffffffffU};
  for (const RunIndex index : runs) {
    const Run& run = kb.runs[at(index)];
    if (list.groups.empty() || run.accessory != last)
      list.groups.push_back({name_of(kb, kb.accessories[at(run.accessory)].entry), {}, {}});
    last = run.accessory;
    list.groups.back().items.push_back(
        {{{run_name_of(kb, index), link_to(kb, run.entry).to, false}}, {plain("made " + short_span(site, run.span))}});
  }
  return list;
}

DrawingBlock draw_routes(const Site& site, EntryIndex subject) {
  const LinkedKb& kb = site.kb();
  const auto about = [&](const Route& route) {
    const bool known = at(route.from) < kb.plants.size() && at(route.to) < kb.plants.size();
    return known && (subject == no_entry || kb.plants[at(route.from)].entry == subject ||
                     kb.plants[at(route.to)].entry == subject);
  };
  Graph graph{subject == no_entry ? "Plants and routes" : "Routes of " + name_of(kb, subject), {}, {}};
  graph.relation = "supplied";
  std::vector<std::optional<std::size_t>> node_of(kb.plants.size());
  const auto node = [&](PlantIndex plant) {
    if (!node_of[at(plant)]) {
      node_of[at(plant)] = graph.nodes.size();
      const EntryIndex entry = kb.plants[at(plant)].entry;
      graph.nodes.push_back(
          {name_of(kb, entry), std::string{kb.entries[entry].text("place")}, link_to(kb, entry).to, entry == subject});
    }
    return *node_of[at(plant)];
  };
  for (const Route& route : kb.routes) {
    if (!about(route)) continue;
    const std::size_t from = node(route.from);
    const std::size_t to = node(route.to);
    graph.edges.push_back({from, to, short_span(site, route.span), true});
  }
  return {draw_graph(graph, false, 360), draw_graph(graph, false, 760), graph.title};
}

} // namespace coeval
