// The page of a route: which plant supplied which, when, and what could go along it.
#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

Piece plant_link(const LinkedKb& kb, PlantIndex plant) {
  return at(plant) < kb.plants.size() ? link_to(kb, kb.plants[at(plant)].entry) : plain("an unknown plant");
}

// The runs that its first plant moulded of what it carried; other plants may have sent theirs through.
std::vector<RunIndex> cargo(const Site& site, const Route& route) {
  const LinkedKb& kb = site.kb();
  std::vector<RunIndex> runs;
  if (at(route.from) >= kb.plants.size()) return runs;
  for (const RunIndex run : site.backlinks().moulded[at(route.from)])
    if (route.carries.empty() || std::ranges::find(route.carries, kb.runs[at(run)].accessory) != route.carries.end())
      runs.push_back(run);
  return runs;
}

} // namespace

void build_route(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const Route& route = kb.routes[kb.position[at(planned.entry)]];
  const Piece from = plant_link(kb, route.from);
  const Piece to = plant_link(kb, route.to);
  page.eyebrow = singular_of(Kind::route);
  page.summary =
      fmt::format("The route by which {} supplied {}, active {}.", from.text, to.text, short_span(site, route.span));

  Facts facts;
  add_fact(facts, "From", {from});
  add_fact(facts, "To", {to});
  std::vector<Piece> carries;
  for (const AccessoryIndex accessory : route.carries)
    carries.push_back(link_to(kb, kb.accessories[at(accessory)].entry));
  add_fact(facts, "Carried", carries.empty() ? Text{plain("any accessory")} : enumerated(carries));
  add_succession(site, planned.entry, facts);
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));

  std::vector<TimelineRow> others;
  if (at(route.to) < kb.plants.size())
    for (const RouteIndex other : site.backlinks().routes[at(route.to)])
      if (kb.routes[at(other)].entry != planned.entry)
        others.push_back(timeline_row(site, kb.routes[at(other)].span, false));
  add_when(site, planned.entry, std::move(others), page);
  const std::vector<RunIndex> runs = cargo(site, route);
  std::vector<Block> carried;
  if (!runs.empty()) {
    carried.emplace_back(Paragraphs{{{plain(fmt::format(
        "What {} moulded of it. Whether a run could go this way in time for an issue is part of every verdict.",
        from.text))}}});
    carried.emplace_back(list_of_runs(site, runs));
  }
  add_section(page, "carries", "What could go along it", std::move(carried), "carries");
  add_dated_by_it(site, planned.entry, page);
}

} // namespace coeval
