#include <algorithm>

#include <fmt/format.h>

#include "drawings/graph.hpp"
#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/matrices.hpp"
#include "pages/part_facts.hpp"
#include "pages/paths.hpp"
#include "pages/records.hpp"

namespace coeval {
namespace {

class AccessoryPage {
public:
  AccessoryPage(const Site& site, AccessoryIndex index, Page& page)
      : site_(site), kb_(site.kb()), index_(index), accessory_(kb_.accessories[at(index)]), page_(page) {}

  void build() {
    const std::size_t runs = runs_of(kb_, index_).size();
    page_.eyebrow = singular_of(Kind::accessory);
    page_.summary = fmt::format("{}, for the slot {}: {}, {}, {} on record.", accessory_.name, accessory_.slot,
                                counted(accessory_.moulds.size(), Kind::mould), counted(runs, Kind::run),
                                counted(accessory_.repros.size(), Kind::repro));
    add_about();
    add_mould_plate();
    add_comparison();
    add_succession();
    add_when();
    for (const MouldIndex mould : accessory_.moulds) add_mould(kb_.moulds[at(mould)]);
    add_homes();
    add_repros();
    add_section(page_, "key", "Which run is it?",
                {List{{{{},
                        {},
                        {{{{"Identification key", path_of_key(kb_, index_), false}},
                          {plain("look by look, the most telling first")}}}}}}});
    std::vector<EntryIndex> about{accessory_.entry};
    for (const MouldIndex mould : accessory_.moulds) about.push_back(kb_.moulds[at(mould)].entry);
    add_claims(site_, about, page_);
    add_disputed(site_, about, page_);
  }

private:
  void add_about() {
    Facts facts;
    add_fact(facts, "Slot", {plain(accessory_.slot)});
    if (accessory_.line) add_fact(facts, "Line", {link_to(kb_, kb_.lines[at(*accessory_.line)].entry)});
    add_fact(facts, "Address", {address_piece(kb_, accessory_.entry)});
    std::vector<Block> about{std::move(facts)};
    add_notes_and_evidence(site_, accessory_.entry, about);
    add_section(page_, "about", {}, std::move(about));
  }

  [[nodiscard]] std::vector<EntryIndex> mould_entries() const {
    std::vector<EntryIndex> entries;
    for (const MouldIndex mould : accessory_.moulds) entries.push_back(kb_.moulds[at(mould)].entry);
    return entries;
  }

  void add_mould_plate() {
    Plate plate;
    plate.pictures = pictures_of(site_, accessory_.entry);
    for (const MouldIndex mould : accessory_.moulds)
      for (Picture& picture : pictures_of(site_, kb_.moulds[at(mould)].entry)) {
        picture.caption = {link_to(kb_, kb_.moulds[at(mould)].entry),
                           plain(", " + short_span(site_, kb_.moulds[at(mould)].span))};
        plate.pictures.push_back(std::move(picture));
      }
    if (!plate.pictures.empty()) add_section(page_, "plate", {}, {std::move(plate)});
  }

  void add_comparison() {
    std::vector<Compared> columns;
    for (const EntryIndex mould : mould_entries()) {
      Compared column{{.text = {link_to(kb_, mould)}}, mould};
      if (auto pictures = pictures_of(site_, mould); !pictures.empty())
        column.head.picture = std::move(pictures.front());
      columns.push_back(std::move(column));
    }
    if (columns.empty()) return;
    Table table = comparison(site_, "Moulds of " + accessory_.name + "; values that tell them apart are marked",
                             std::move(columns));
    if (!table.rows.empty()) add_section(page_, "comparison", "Its moulds side by side", {std::move(table)});
  }

  // Which of two moulds a timing puts first; nothing where it orders neither.
  struct Ordered {
    TimeSpanIndex first{}, second{};
  };
  [[nodiscard]] static std::optional<Ordered> ordered_by(const Timing& timing) {
    switch (timing.order) {
    case Order::relation:
      switch (timing.relation) {
      case Relation::before:
      case Relation::meets:
      case Relation::overlaps:
        return Ordered{timing.of, timing.span};
      case Relation::after:
      case Relation::met_by:
      case Relation::overlapped_by:
        return Ordered{timing.span, timing.of};
      default:
        return {};
      }
    case Order::after: // an end after a start says nothing of which came first
      if (timing.end == SpanEnd::end && timing.other.end == SpanEnd::start) return {};
      return Ordered{timing.other.span, timing.of};
    case Order::before:
      if (timing.end == SpanEnd::start && timing.other.end == SpanEnd::end) return {};
      return Ordered{timing.of, timing.other.span};
    default:
      return {};
    }
  }

  void add_succession() {
    if (accessory_.moulds.size() < 2) return;
    Graph graph;
    graph.title = "Which mould of " + accessory_.name + " followed which";
    graph.relation = "came before";
    const auto position = [&](TimeSpanIndex span) -> std::optional<std::size_t> {
      for (std::size_t i = 0; i < accessory_.moulds.size(); ++i)
        if (kb_.moulds[at(accessory_.moulds[i])].span == span) return i;
      return {};
    };
    const auto connect = [&](TimeSpanIndex first, TimeSpanIndex second, std::string label) {
      const auto from = position(first);
      const auto to = position(second);
      if (!from || !to || from == to) return;
      const bool known =
          std::ranges::any_of(graph.edges, [&](const GraphEdge& edge) { return edge.from == *from && edge.to == *to; });
      if (!known) graph.edges.push_back({*from, *to, std::move(label), true});
    };
    for (const MouldIndex mould : accessory_.moulds) {
      const EntryIndex entry = kb_.moulds[at(mould)].entry;
      graph.nodes.push_back(
          {name_of(kb_, entry), short_span(site_, kb_.moulds[at(mould)].span), path_of(kb_, entry), true});
    }
    for (const MouldIndex mould : accessory_.moulds) {
      const TimeSpan& span = kb_.spans[at(kb_.moulds[at(mould)].span)];
      if (span.replaces) connect(*span.replaces, kb_.moulds[at(mould)].span, span.clean ? "clean" : "");
    }
    for (const EntryIndex mould : mould_entries())
      for (const EntryIndex child : site_.backlinks().children[at(mould)]) {
        const auto found = site_.backlinks().timing.find(child);
        if (found == site_.backlinks().timing.end() || found->second->evidence.disputed) continue;
        if (const auto order = ordered_by(*found->second)) connect(order->first, order->second, {});
      }
    if (graph.edges.empty()) {
      add_section(page_, "succession", "Which followed which",
                  {paragraphs("No statement says which of its moulds followed which.")});
      return;
    }
    add_section(page_, "succession", "Which followed which",
                {DrawingBlock{draw_graph(graph, true, 360), draw_graph(graph, true, 760),
                              graph.title + ". Clean: the one had ended before the other began."}});
  }

  void add_when() {
    std::vector<TimelineRow> rows;
    for (const MouldIndex index : accessory_.moulds) {
      const Mould& mould = kb_.moulds[at(index)];
      if (!rows.empty()) rows.emplace_back(); // a rule between moulds
      rows.push_back(timeline_row(site_, mould.span, true));
      rows.back().label = name_of(kb_, mould.entry);
      for (const RunIndex run : mould.runs) {
        rows.push_back(timeline_row(site_, kb_.runs[at(run)].span, false));
        rows.back().label = name_of(kb_, kb_.runs[at(run)].entry);
      }
    }
    std::vector<Block> when;
    add_timeline(site_, "When its moulds were in the press, each with its runs", accessory_.line, std::move(rows),
                 when);
    add_section(page_, "when", "When it was made", std::move(when));
  }

  void add_mould(const Mould& mould) {
    Facts facts;
    add_fact(facts, "Marks", marks_of(kb_, mould.span));
    const TimeSpan& span = kb_.spans[at(mould.span)];
    if (span.replaces) {
      Text text{link_to(kb_, kb_.spans[at(*span.replaces)].entry)};
      if (span.clean) text.push_back(plain(", which had ended before"));
      add_fact(facts, "Followed", std::move(text));
    }
    add_fact(facts, "Address", {address_piece(kb_, mould.entry)});
    std::vector<Block> blocks{std::move(facts)};
    add_notes_and_evidence(site_, mould.entry, blocks);
    blocks.emplace_back(Bounds{{tell_span(site_, mould.span)}});
    if (mould.runs.empty())
      blocks.emplace_back(paragraphs("No run of this mould is entered."));
    else
      blocks.emplace_back(runs_table(mould));
    page_.sections.push_back(
        {"runs", kb_.entries[mould.entry].id, {plain(name_of(kb_, mould.entry))}, std::move(blocks)});
  }

  [[nodiscard]] Table runs_table(const Mould& mould) const {
    Table table;
    table.caption = "Runs of " + full_name_of(kb_, mould.entry);
    for (const std::string_view head : {"Run", "Colour", "Material", "Made at", "Made"})
      table.columns.push_back({.text = {plain(std::string{head})}});
    for (const RunIndex index : mould.runs) {
      const Run& run = kb_.runs[at(index)];
      Text plant;
      if (run.plant) plant.push_back(link_to(kb_, kb_.plants[at(*run.plant)].entry));
      table.rows.push_back(
          {{.text = {link_to(kb_, run.entry)}},
           {.text = {plain(std::string{colour_name_of(site_, run.entry)})}, .lab = lab_of(site_, run.entry)},
           {.text = {plain(std::string{kb_.entries[run.entry].text("material")})}},
           {.text = std::move(plant)},
           {.text = {plain(short_span(site_, run.span))}}});
    }
    return table;
  }

  void add_homes() {
    const std::vector<IssueIndex>& taking = site_.backlinks().taking[at(index_)];
    if (taking.empty()) {
      add_section(page_, "homes", "Issues that take it", {paragraphs("No issue on record takes it.")});
      return;
    }
    List list;
    std::optional<FigureIndex> figure;
    for (const IssueIndex index : taking) {
      const Issue& issue = kb_.issues[at(index)];
      if (figure != issue.figure) list.groups.push_back({kb_.figures[at(issue.figure)].name, {}, {}});
      figure = issue.figure;
      list.groups.back().items.push_back(
          {{link_to(kb_, issue.entry)}, {plain("packed " + short_span(site_, issue.span))}});
    }
    add_section(page_, "homes", "Issues that take it",
                {Paragraphs{{{{"Every one of them against every run", path_of_matrix(kb_, index_), false},
                              plain(", with a verdict for each pair.")}}},
                 std::move(list)});
  }

  void add_repros() {
    if (accessory_.repros.empty()) {
      Paragraphs none = paragraphs("No reproduction of it is on record.");
      none.texts.push_back(not_every_repro().texts.front());
      add_section(page_, "repros", "Reproductions", {std::move(none)});
      return;
    }
    add_section(page_, "repros", "Reproductions", {repros_table(site_, accessory_.repros), not_every_repro()});
  }

  const Site& site_;
  const LinkedKb& kb_;
  AccessoryIndex index_;
  const Accessory& accessory_;
  Page& page_;
};

} // namespace

void build_accessory(const Site& site, const PlannedPage& planned, Page& page) {
  AccessoryPage{site, AccessoryIndex{site.kb().position[at(planned.entry)]}, page}.build();
}

} // namespace coeval
