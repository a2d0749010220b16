// The page of a plant: what it moulded and packed, and what came in and went out when.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

std::string completeness(const Plant& plant) {
  return plant.routes_complete
             ? "every route into it is entered, so a part that no route could bring was not packed there"
             : "routes into it may be missing, so nothing is ruled out because no route is known";
}

List routes_list(const Site& site, PlantIndex plant) {
  const LinkedKb& kb = site.kb();
  List list{{{"Out of it", {}, {}}, {"Into it", {}, {}}}};
  for (const RouteIndex index : site.backlinks().routes[at(plant)]) {
    const Route& route = kb.routes[at(index)];
    const List::Item item{{link_to(kb, route.entry)}, {plain(short_span(site, route.span))}};
    if (route.from == plant) list.groups[0].items.push_back(item);
    if (route.to == plant) list.groups[1].items.push_back(item);
  }
  std::erase_if(list.groups, [](const List::Group& group) { return group.items.empty(); });
  return list;
}

} // namespace

void build_plant(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const PlantIndex index{kb.position[at(planned.entry)]};
  const Plant& plant = kb.plants[at(index)];
  const Entry& entry = kb.entries[planned.entry];
  const std::vector<RunIndex>& moulded = site.backlinks().moulded[at(index)];
  const std::vector<IssueIndex>& packed = site.backlinks().packed[at(index)];
  page.eyebrow = singular_of(Kind::plant);
  page.summary = fmt::format("{}: a plant that moulded {} and packed {}.", page.title,
                             counted(moulded.size(), Kind::run), counted(packed.size(), Kind::issue));

  Facts facts;
  add_fact(facts, "Place", {plain(std::string{entry.text("place")})});
  add_fact(facts, "Country", {plain(country_of(entry))});
  if (const auto maker = named_by(kb, planned.entry, "maker", Kind::maker))
    add_fact(facts, "Maker", {plain(name_of(kb, *maker))});
  add_fact(facts, "Moulded", {plain(counted(moulded.size(), Kind::run))});
  add_fact(facts, "Packed", {plain(counted(packed.size(), Kind::issue))});
  add_fact(facts, "Routes", {plain(completeness(plant))});
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));

  std::vector<TimelineRow> rows;
  for (const RouteIndex route : site.backlinks().routes[at(index)])
    rows.push_back(timeline_row(site, kb.routes[at(route)].span, kb.routes[at(route)].from == index));
  std::vector<Block> when;
  const auto line = kb.lines.size() == 1 ? std::optional{LineIndex{0}} : std::nullopt;
  add_timeline(site, "Routes out of " + page.title + ", and into it", line, std::move(rows), when);
  add_section(page, "when", "When", std::move(when), "when");

  std::vector<Block> routes;
  if (List list = routes_list(site, index); !list.groups.empty()) {
    routes.emplace_back(draw_routes(site, planned.entry));
    routes.emplace_back(std::move(list));
  }
  add_section(page, "routes", "Routes", std::move(routes), "routes");
  if (!moulded.empty()) add_section(page, "made", "What it moulded", {list_of_runs(site, moulded)}, "moulded");
  if (!packed.empty()) add_section(page, "made", "What it packed", {list_of_issues(site, packed)}, "packed");
}

} // namespace coeval
