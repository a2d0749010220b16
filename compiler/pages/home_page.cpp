// The home page: what this reference is, the ways into it, what it holds and what changed last.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/changes.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

List::Item way(std::string_view name, std::string_view path, std::string_view note) {
  return {{{std::string{name}, std::string{path}, false}}, {plain(std::string{note})}};
}

std::size_t count_of(const LinkedKb& kb, Kind kind) {
  switch (kind) {
  case Kind::figure:
    return kb.figures.size();
  case Kind::issue:
    return kb.issues.size();
  case Kind::accessory:
    return kb.accessories.size();
  case Kind::mould:
    return kb.moulds.size();
  case Kind::run:
    return kb.runs.size();
  case Kind::repro:
    return kb.repros.size();
  case Kind::card:
    return kb.cards.size();
  case Kind::plant:
    return kb.plants.size();
  case Kind::route:
    return kb.routes.size();
  case Kind::mark:
    return kb.marks.size();
  case Kind::feature:
    return kb.features.size();
  case Kind::claim:
    return kb.claims.size();
  case Kind::source:
    return kb.sources.size();
  default:
    return 0;
  }
}

void add_welcome(const Site& site, Page& page) {
  const LinkedKb& kb = site.kb();
  std::vector<Block> blocks{Paragraphs{
      {{plain("What was each figure sold with: which accessory, from which mould, in which colour, made where? Here is "
              "what is known, how it is known, and what is only believed. Every answer opens to the statements that "
              "prove it, each with its source.")}}}};
  for (const Line& line : kb.lines) {
    if (kb.lines.size() > 1) blocks.emplace_back(Paragraphs{{{link_to(kb, line.entry)}}});
    add_text(site, line.entry, "sold", blocks);
  }
  add_section(page, "welcome", {}, std::move(blocks));
}

List keys_list(const Site& site) {
  const LinkedKb& kb = site.kb();
  List list{{{}}};
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const AccessoryIndex accessory{static_cast<std::uint32_t>(i)};
    list.groups.front().items.push_back({{{name_of(kb, kb.accessories[i].entry), path_of_key(kb, accessory), false}},
                                         {{"matrix", path_of_matrix(kb, accessory), false}}});
  }
  return list;
}

void add_ways(const Site& site, Page& page) {
  const LinkedKb& kb = site.kb();
  List list;
  List::Group things{"By thing", {}, {}};
  for (const Line& line : kb.lines)
    things.items.push_back({{link_to(kb, line.entry)}, {plain("the line: maker, periods, policies, figures")}});
  things.items.push_back(way("Figures", path_of_index(Kind::figure), "each with its issues and outfits"));
  things.items.push_back(way("Accessories", path_of_index(Kind::accessory), "moulds side by side, runs, homes"));
  things.items.push_back(way("Cards", path_of_index(Kind::card), "packaging, which dates what was sealed in it"));
  things.items.push_back(way("Reproductions", path_of_index(Kind::repro), "and what gives them away"));
  list.groups.push_back(std::move(things));
  list.groups.push_back(
      {"By question",
       {},
       {way("Checker", "checker.html", "does this part belong with this issue?"),
        way("Features", path_of_index(Kind::feature), "how to look at a part, and with what"),
        way("Search", "search.html", "a name, an id, a mark"), way("Names", "names.html", "from A to Z")}});
  list.groups.push_back({"By time and place",
                         {},
                         {way("Periods", path_of_index(Kind::period), "the stretches of the line's history"),
                          way("Plants", path_of_index(Kind::plant), "who moulded, who packed"),
                          way("Routes", path_of_index(Kind::route), "which plant supplied which, and when"),
                          way("Marks", path_of_index(Kind::mark), "and how far they date what carries them"),
                          way("Markets", "markets.html", "what was sold where")}});
  list.groups.push_back({"How it is known",
                         {},
                         {way("Verdicts", "verdicts.html", "the signs, and how an answer comes about"),
                          way("Sources", path_of_index(Kind::source), "and everything that rests on each"),
                          way("Claims", path_of_index(Kind::claim), "what collectors repeat, and how it stands"),
                          way("Disputes", "disputes.html", "statements that nothing rests on"),
                          way("Agenda", "agenda.html", "what to find out next")}});
  list.groups.push_back({"To take along",
                         {},
                         {way("Data", "data.html", "everything as JSON and CSV"),
                          way("The language", "schema.html", "how entries are written")}});
  for (const Line& line : kb.lines)
    list.groups.back().items.push_back(
        way(kb.lines.size() == 1 ? std::string{"Checklist"} : "Checklist: " + name_of(kb, line.entry),
            path_of_checklist(kb, line.entry), "to tick on paper or on the screen"));
  std::vector<Block> blocks{std::move(list)};
  if (!kb.accessories.empty())
    blocks.emplace_back(
        Details{{plain("Identification keys and matrices, accessory by accessory")}, {keys_list(site)}});
  add_section(page, "ways", "Ways in", std::move(blocks), "ways");
}

void add_counts(const Site& site, Page& page) {
  Facts facts;
  for (const Kind kind : {Kind::figure, Kind::issue, Kind::accessory, Kind::mould, Kind::run, Kind::repro, Kind::card,
                          Kind::plant, Kind::route, Kind::mark, Kind::feature, Kind::claim, Kind::source})
    add_fact(facts, plural_of(kind), {{std::to_string(count_of(site.kb(), kind)), path_of_index(kind), false}});
  if (!site.options().date.empty()) add_fact(facts, "Edition of", {plain(site.options().date)});
  add_section(page, "counts", "What it holds", {std::move(facts)}, "counts");
}

void add_news(const Site& site, Page& page) {
  const std::vector<ChangeDay> days = parse_changes(site.options().changes);
  if (days.empty()) return;
  List list{{{days.front().title, {}, {}}}};
  for (const std::string& item : days.front().items) list.groups.front().items.push_back({{plain(item)}, {}});
  list.groups.front().items.push_back({{{"All changes", "changes.html", false}}, {}});
  add_section(page, "news", "What changed last", {std::move(list)}, "news");
}

} // namespace

void build_home(const Site& site, const PlannedPage&, Page& page) {
  const LinkedKb& kb = site.kb();
  std::string lines;
  for (const Line& line : kb.lines) lines += (lines.empty() ? "" : ", ") + name_of(kb, line.entry);
  page.title = lines.empty() ? "Reference" : lines;
  page.eyebrow = "A reference for collectors";
  page.summary = fmt::format("{}what each figure was sold with, and how that is known: {}, {}, {}.",
                             lines.empty() ? "" : lines + ": ", counted(kb.figures.size(), Kind::figure),
                             counted(kb.issues.size(), Kind::issue), counted(kb.runs.size(), Kind::run));
  add_welcome(site, page);
  add_ways(site, page);
  add_counts(site, page);
  add_news(site, page);
}

} // namespace coeval
