// The page of a mark: when it was in use, how far it dates what carries it, and what does.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

// What the mark says about the age of its carrier.
std::string dating_words(const Site& site, const Mark& mark) {
  const auto [start, end] = ends_of(site, mark.span);
  std::string words = start.earliest ? fmt::format("Nothing that carries it was made before {}.", iso(*start.earliest))
                                     : std::string{"Its first day is not known, so it does not date what carries it "
                                                   "from below."};
  if (!mark.end_binds)
    words += " Its last day binds nothing: a tool or a plate could keep the mark after that.";
  else if (end.latest)
    words += fmt::format(" Its end binds too: nothing that carries it was made after {}.", iso(*end.latest));
  else
    words += " Its end binds too, but its last day is not known.";
  return words;
}

List carriers(const Site& site, MarkIndex mark) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const Kind kind : {Kind::mould, Kind::run, Kind::issue, Kind::card}) {
    List::Group group{plural_of(kind), {}, {}};
    for (const EntryIndex carrier : site.backlinks().carrying[at(mark)])
      if (kb.entries[carrier].kind == kind)
        group.items.push_back(
            {{full_link_to(kb, carrier)}, {plain(short_span(site, *site.backlinks().span[at(carrier)]))}});
    if (!group.items.empty()) list.groups.push_back(std::move(group));
  }
  return list;
}

} // namespace

void build_mark(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const MarkIndex index{kb.position[at(planned.entry)]};
  const Mark& mark = kb.marks[at(index)];
  const Entry& entry = kb.entries[planned.entry];
  page.eyebrow = singular_of(Kind::mark);
  page.summary = fmt::format("{}: a mark in use {}, and what carries it.", page.title, short_span(site, mark.span));

  Facts facts;
  if (!entry.text("text").empty()) add_fact(facts, "Reads", {plain(std::string{entry.text("text")})});
  add_fact(facts, "Country", {plain(country_of(entry))});
  add_fact(facts, "Dates its carrier", {plain(dating_words(site, mark))});
  add_succession(site, planned.entry, facts);
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));
  if (auto pictures = pictures_of(site, planned.entry); !pictures.empty())
    add_section(page, "plate", {}, {Plate{std::move(pictures)}});
  std::vector<TimelineRow> others;
  for (const EntryIndex carrier : site.backlinks().carrying[at(index)])
    others.push_back(timeline_row(site, *site.backlinks().span[at(carrier)], false));
  if (!others.empty()) others.insert(others.begin(), TimelineRow{});
  add_when(site, planned.entry, std::move(others), page);
  if (List list = carriers(site, index); !list.groups.empty())
    add_section(page, "carried", "What carries it", {std::move(list)}, "carried");
  add_dated_by_it(site, planned.entry, page);
}

} // namespace coeval
