#include "pages/site.hpp"

#include <algorithm>
#include <mutex>

#include "examine/candidates.hpp"
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

// The kinds that have a list of all their entries, in the order of the site's contents.
constexpr std::array kinds_with_lists{Kind::figure,  Kind::accessory, Kind::repro, Kind::period,
                                      Kind::card,    Kind::plant,     Kind::route, Kind::mark,
                                      Kind::feature, Kind::claim,     Kind::source};

std::optional<PageKind> page_kind_of(Kind kind) {
  switch (kind) {
  case Kind::line:
    return PageKind::line;
  case Kind::figure:
    return PageKind::figure;
  case Kind::issue:
    return PageKind::issue;
  case Kind::accessory:
    return PageKind::accessory;
  case Kind::run:
    return PageKind::run;
  case Kind::repro:
    return PageKind::repro;
  case Kind::period:
    return PageKind::period;
  case Kind::card:
    return PageKind::card;
  case Kind::plant:
    return PageKind::plant;
  case Kind::route:
    return PageKind::route;
  case Kind::mark:
    return PageKind::mark;
  case Kind::feature:
    return PageKind::feature;
  case Kind::claim:
    return PageKind::claim;
  case Kind::source:
    return PageKind::source;
  default:
    return {};
  }
}

// For items that come in order, equal ones one after the other.
template <class Item> void add_once(std::vector<Item>& list, Item item) {
  if (list.empty() || list.back() != item) list.push_back(item);
}

// The periods of each line that follow each other: those that replace another or are replaced. Where none does, all.
std::vector<std::vector<TimeSpanIndex>> bands_of(const LinkedKb& kb) {
  std::vector<std::vector<TimeSpanIndex>> bands(kb.lines.size());
  std::vector<std::vector<TimeSpanIndex>> all(kb.lines.size());
  std::set<TimeSpanIndex> replaced;
  for (const TimeSpan& span : kb.spans)
    if (span.kind == Kind::period && span.replaces) replaced.insert(*span.replaces);
  for (std::size_t i = 0; i < kb.spans.size(); ++i) {
    const TimeSpan& span = kb.spans[i];
    const TimeSpanIndex index{static_cast<std::uint32_t>(i)};
    if (span.kind != Kind::period || !span.line) continue;
    all[at(*span.line)].push_back(index);
    if (span.replaces || replaced.contains(index)) bands[at(*span.line)].push_back(index);
  }
  for (std::size_t i = 0; i < bands.size(); ++i)
    if (bands[i].empty()) bands[i] = std::move(all[i]);
  return bands;
}

std::vector<OfLine> by_line(const LinkedKb& kb) {
  std::vector<OfLine> lines(kb.lines.size() + 1);
  const auto line_of = [&](TimeSpanIndex span) -> OfLine& {
    const std::optional<LineIndex>& line = kb.spans[at(span)].line;
    return line ? lines[at(*line)] : lines.back();
  };
  for (std::uint32_t i = 0; i < kb.spans.size(); ++i)
    if (kb.spans[i].kind == Kind::period) line_of(TimeSpanIndex{i}).periods.push_back(TimeSpanIndex{i});
  for (std::uint32_t i = 0; i < kb.cards.size(); ++i) line_of(kb.cards[i].span).cards.push_back(CardIndex{i});
  for (std::uint32_t i = 0; i < kb.figures.size(); ++i)
    (kb.figures[i].line ? lines[at(*kb.figures[i].line)] : lines.back()).figures.push_back(FigureIndex{i});
  for (std::uint32_t i = 0; i < kb.issues.size(); ++i) line_of(kb.issues[i].span).issues.push_back(IssueIndex{i});
  return lines;
}

// What was sealed on which card, moulded and packed at which plant, and carried along which route.
void add_places(const LinkedKb& kb, Backlinks& links) {
  links.sealed.resize(kb.cards.size());
  links.found_on.resize(kb.cards.size());
  links.moulded.resize(kb.plants.size());
  links.packed.resize(kb.plants.size());
  links.routes.resize(kb.plants.size());
  links.carried.resize(kb.accessories.size());
  for (std::size_t i = 0; i < kb.issues.size(); ++i) {
    const IssueIndex index{static_cast<std::uint32_t>(i)};
    for (const CardIndex card : kb.issues[i].cards) add_once(links.sealed[at(card)], index);
    if (const auto packer = kb.issues[i].packer) links.packed[at(*packer)].push_back(index);
  }
  for (const Pairing& pairing : kb.pairings) {
    links.pairing[pairing.entry] = &pairing;
    links.paired[kb.runs[at(pairing.run)].entry].push_back(pairing.entry);
    links.paired[kb.issues[at(pairing.issue)].entry].push_back(pairing.entry);
    if (pairing.card) links.found_on[at(*pairing.card)].push_back(pairing.entry);
  }
  for (std::size_t i = 0; i < kb.runs.size(); ++i)
    if (const auto plant = kb.runs[i].plant)
      links.moulded[at(*plant)].push_back(RunIndex{static_cast<std::uint32_t>(i)});
  for (std::size_t i = 0; i < kb.routes.size(); ++i) {
    const RouteIndex index{static_cast<std::uint32_t>(i)};
    for (const PlantIndex plant : {kb.routes[i].from, kb.routes[i].to})
      if (at(plant) < kb.plants.size()) add_once(links.routes[at(plant)], index);
    for (const AccessoryIndex accessory : kb.routes[i].carries) links.carried[at(accessory)].push_back(index);
  }
}

Backlinks backlinks_of(const LinkedKb& kb) {
  Backlinks links;
  links.children.resize(kb.entries.entries.size());
  links.citing.resize(kb.sources.size());
  links.stating.resize(kb.features.size());
  links.carrying.resize(kb.marks.size());
  links.taking.resize(kb.accessories.size());
  links.copies.resize(kb.runs.size());
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    if (entry.parent != no_entry) links.children[at(entry.parent)].push_back(index);
    if (const auto* citations = entry.get<Words>("source"))
      for (const Word& citation : *citations) {
        const auto found = kb.addresses.find("source/" + citation.text.substr(0, citation.text.find(' ')));
        if (!found) continue;
        std::vector<EntryIndex>& citing = links.citing[kb.position[at(*found)]];
        if (citing.empty() || citing.back() != index) citing.push_back(index);
      }
    if (const auto* features = entry.get<Features>("features"))
      for (const FeatureValue& value : *features)
        if (const auto feature = kb.find_feature(value.feature)) links.stating[at(*feature)].push_back(index);
  }
  for (const TimeSpan& span : kb.spans)
    for (const CarriedMark& carried : span.marks) links.carrying[at(carried.mark)].push_back(span.entry);
  for (std::size_t i = 0; i < kb.issues.size(); ++i) {
    const IssueIndex index{static_cast<std::uint32_t>(i)};
    for (const Takes& takes : kb.issues[i].takes) add_once(links.taking[at(takes.accessory)], index);
    if (const auto* markets = kb.entries[kb.issues[i].entry].get<Words>("market"))
      for (const Word& market : *markets) add_once(links.sold[market.text], index);
  }
  for (std::size_t i = 0; i < kb.repros.size(); ++i) {
    const ReproIndex index{static_cast<std::uint32_t>(i)};
    const Repro& repro = kb.repros[i];
    if (repro.of_run)
      links.copies[at(*repro.of_run)].push_back(index);
    else if (repro.of_mould)
      for (const RunIndex run : kb.moulds[at(*repro.of_mould)].runs) links.copies[at(run)].push_back(index);
  }
  links.span.resize(kb.entries.entries.size());
  links.dating.resize(kb.spans.size());
  links.bands = bands_of(kb);
  links.of_line = by_line(kb);
  for (std::size_t i = 0; i < kb.spans.size(); ++i) {
    const TimeSpan& span = kb.spans[i];
    links.span[at(span.entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};
    if (span.replaces) links.dating[at(*span.replaces)].push_back(span.entry);
    for (const auto& [within, where] : span.within) links.dating[at(within)].push_back(span.entry);
  }
  const auto add_timing = [&](const Timing& timing) {
    links.timing[timing.entry] = &timing;
    if (timing.order == Order::relation) links.dating[at(timing.span)].push_back(timing.entry);
    if (timing.order != Order::relation && timing.order != Order::on)
      links.dating[at(timing.other.span)].push_back(timing.entry);
  };
  for (const Timing& timing : kb.timings) add_timing(timing);
  for (const Claim& claim : kb.claims)
    for (const Timing& timing : claim.timings) {
      add_timing(timing);
      links.dating[at(timing.of)].push_back(timing.entry);
    }
  links.plastic = plastic_colour(kb);
  add_places(kb, links);
  for (std::size_t i = 0; i < kb.claims.size(); ++i)
    for (const ClaimedPairing& pairing : kb.claims[i].pairings)
      for (const EntryIndex about : {kb.runs[at(pairing.run)].entry, kb.issues[at(pairing.issue)].entry})
        links.claimed[about].emplace_back(ClaimIndex{static_cast<std::uint32_t>(i)}, pairing.entry);
  return links;
}

// Pages that stand for themselves.
constexpr std::array<std::pair<PageKind, std::string_view>, 9> single{{
    {PageKind::agenda, "agenda"},
    {PageKind::changes, "changes"},
    {PageKind::checker, "checker"},
    {PageKind::data, "data"},
    {PageKind::disputes, "disputes"},
    {PageKind::names, "names"},
    {PageKind::schema, "schema"},
    {PageKind::search, "search"},
    {PageKind::verdicts, "verdicts"},
}};

std::vector<PlannedPage> plan(const LinkedKb& kb, const Backlinks& links) {
  std::vector<PlannedPage> pages;
  for (const Kind kind : kinds_with_lists)
    pages.push_back({PageKind::index_of, path_of_index(kind), no_entry, std::string{spec_of(kind).name}});
  pages.push_back({PageKind::index_of, "markets.html", no_entry, "market"});
  for (const auto& [kind, name] : single) pages.push_back({kind, std::string{name} + ".html"});
  pages.push_back({PageKind::not_found, "404.html"});
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const EntryIndex index{static_cast<std::uint32_t>(i)};
    if (const auto kind = page_kind_of(kb.entries.entries[i].kind); kind && !kb.address(index).empty())
      pages.push_back({*kind, path_of(kb, index), index});
  }
  for (const auto& [country, issues] : links.sold)
    pages.push_back({PageKind::market, path_of_market(country), no_entry, country});
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const AccessoryIndex accessory{static_cast<std::uint32_t>(i)};
    pages.push_back({PageKind::matrix, path_of_matrix(kb, accessory), kb.accessories[i].entry});
    pages.push_back({PageKind::key, path_of_key(kb, accessory), kb.accessories[i].entry});
  }
  std::set<std::string> slots;
  for (const Accessory& accessory : kb.accessories)
    if (slots.insert(accessory.slot).second)
      pages.push_back({PageKind::key, path_of_slot_key(accessory.slot), no_entry, accessory.slot});
  for (const Line& line : kb.lines)
    pages.push_back({PageKind::checklist, path_of_checklist(kb, line.entry), line.entry});
  for (const Figure& figure : kb.figures)
    pages.push_back({PageKind::checklist, path_of_checklist(kb, figure.entry), figure.entry});
  std::ranges::sort(pages, {}, &PlannedPage::path);
  pages.insert(pages.begin(), PlannedPage{PageKind::home, "index.html"});
  return pages;
}

using Builder = void (*)(const Site&, const PlannedPage&, Page&);

Builder builder_of(PageKind kind) {
  static constexpr std::array builders{build_home,      build_line,   build_index,    build_figure,    build_issue,
                                       build_accessory, build_run,    build_repro,    build_period,    build_card,
                                       build_plant,     build_route,  build_market,   build_mark,      build_feature,
                                       build_claim,     build_source, build_matrix,   build_checklist, build_key,
                                       build_disputes,  build_agenda, build_changes,  build_schema,    build_checker,
                                       build_search,    build_names,  build_verdicts, build_data,      build_not_found};
  return builders[static_cast<std::size_t>(kind)];
}

std::string title_of(const LinkedKb& kb, const PlannedPage& planned) {
  switch (planned.kind) {
  case PageKind::matrix:
    return name_of(kb, planned.entry) + ": issues against runs";
  case PageKind::key:
    return planned.entry == no_entry ? std::string{} : name_of(kb, planned.entry) + ": identification key";
  case PageKind::checklist:
    return name_of(kb, planned.entry) + ": checklist";
  default:
    return planned.entry == no_entry ? std::string{} : full_name_of(kb, planned.entry);
  }
}

// From the home page down to the parent.
std::vector<Piece> crumbs_of(const LinkedKb& kb, const PlannedPage& planned) {
  std::vector<Piece> crumbs;
  if (planned.kind == PageKind::home) return crumbs;
  crumbs.push_back({kb.lines.size() == 1 ? name_of(kb, kb.lines.front().entry) : "Home", "index.html"});
  if (planned.kind == PageKind::market) crumbs.push_back({"Markets", "markets.html"});
  if (planned.entry == no_entry) return crumbs;
  const bool about_it =
      planned.kind == PageKind::matrix || planned.kind == PageKind::key || planned.kind == PageKind::checklist;
  std::vector<EntryIndex> above;
  for (EntryIndex entry = about_it ? planned.entry : kb.entries[planned.entry].parent; entry != no_entry;
       entry = kb.entries[entry].parent)
    above.insert(above.begin(), entry);
  const Kind top = kb.entries[above.empty() ? planned.entry : above.front()].kind;
  if (const std::string list = path_of_index(top); !list.empty()) crumbs.push_back({plural_of(top), list});
  for (const EntryIndex entry : above) crumbs.push_back(link_to(kb, entry));
  return crumbs;
}

} // namespace

struct Site::ClaimReports {
  std::once_flag once;
  std::vector<ClaimReport> all;
};

Site::Site(SiteInput input)
    : input_(std::move(input)), backlinks_(backlinks_of(input_.kb)), pages_(plan(input_.kb, backlinks_)),
      claims_(std::make_unique<ClaimReports>()) {}

Site::~Site() = default;

const ClaimReport& Site::claim_report(ClaimIndex claim) const {
  std::call_once(claims_->once, [&] {
    Judge judge{kb(), dates(), Basis::conjectured};
    claims_->all = report_claims(kb(), dates(), judge);
  });
  return claims_->all[at(claim)];
}

Page Site::page(const PlannedPage& planned) const {
  Page page;
  page.kind = planned.kind;
  page.path = planned.path;
  page.title = title_of(input_.kb, planned);
  page.crumbs = crumbs_of(input_.kb, planned);
  builder_of(planned.kind)(*this, planned, page);
  page.json_ld = json_ld_of(*this, planned, page);
  return page;
}

} // namespace coeval
