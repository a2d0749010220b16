// The page of the agenda: which unknown day or plant, found out, would settle most open verdicts.
#include "verdicts/agenda.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "chronology/statements.hpp"
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_agenda_rows = 30; // the rest is told by its number: nobody works through more
constexpr std::size_t most_steps = 8;        // shown with each
constexpr std::size_t most_pairs = 8;
constexpr std::size_t most_such = 6;

std::string address_of(const LinkedKb& kb, SpanPoint end) {
  return fmt::format("{}.{}", kb.spans[at(end.span)].address, end.end == SpanEnd::start ? "start" : "end");
}

// "it was first made": what happened, without what it happened to.
std::string happened_to_it(const LinkedKb& kb, SpanPoint end) {
  return happened(kb, end).substr(kb.spans[at(end.span)].address.size());
}

Text and_more(std::size_t all, std::size_t shown, std::string_view what, const std::string& address) {
  return {plain(fmt::format("And {} more {}: ", all - shown, what)),
          {"coeval agenda " + address, {}, true},
          plain(" lists all.")};
}

Table steps_table(const LinkedKb& kb, const AgendaItem& item) {
  Table table;
  table.caption = "What the day decides";
  table.columns = {{.text = {plain("If it" + happened_to_it(kb, item.end))}}, {.text = {plain("then")}}};
  for (std::size_t i = 0; i < std::min(item.steps.size(), most_steps); ++i)
    table.rows.push_back({{.text = {plain(days_words(item, item.steps[i].days))}},
                          {.text = {plain(become_words(item, item.steps[i]))}}});
  return table;
}

// What one verdict becomes on which days, the days parted by semicolons.
std::string settled_words(const AgendaItem& item, const AgendaPair& pair) {
  std::string words;
  for (const AgendaPair::Settled& settled : pair.settled)
    words += fmt::format("{}{} {}", words.empty() ? "" : "; ", name(settled.verdict), days_words(item, settled.days));
  return words;
}

void add_pairs(const LinkedKb& kb, const AgendaItem& item, std::vector<Block>& blocks) {
  List list{{{"The verdicts", {}, {}}}};
  for (std::size_t i = 0; i < std::min(item.pairs.size(), most_pairs); ++i) {
    const AgendaPair& pair = item.pairs[i];
    const EntryIndex issue = kb.issues[at(pair.issue)].entry;
    list.groups.front().items.push_back({{{full_name_of(kb, kb.runs[at(pair.run)].entry),
                                           path_of(kb, issue) + "#" + verdict_anchor(kb, pair.run), false},
                                          plain(" with " + full_name_of(kb, issue))},
                                         {plain(settled_words(item, pair))}});
  }
  blocks.emplace_back(std::move(list));
  if (item.pairs.size() > most_pairs)
    blocks.emplace_back(Paragraphs{{and_more(item.pairs.size(), most_pairs, "verdicts", address_of(kb, item.end))}});
}

// What examples would show that the day was in the first steps, or in the last; of several such steps the one that
// settles most.
void add_finds(const Site& site, const AgendaItem& item, std::vector<Block>& blocks) {
  const LinkedKb& kb = site.kb();
  List list{{{"What would show it, beside a dated document", {}, {}}}};
  for (const AgendaFind& find : finds_for(kb, site.dates(), item, Basis::conjectured)) {
    std::vector<Piece> such;
    for (std::size_t i = 0; i < std::min(find.find.such.size(), most_such); ++i)
      such.push_back(link_to(kb, find.find.such[i]));
    if (find.find.such.size() > most_such)
      such.push_back(plain(fmt::format("{} more", find.find.such.size() - most_such)));
    list.groups.front().items.push_back(
        {{plain(fmt::format("that it{} {}: {}", happened_to_it(kb, item.end),
                            days_words(item, item.steps[find.step].days), find.find.words))},
         enumerated(such)});
  }
  if (!list.groups.front().items.empty()) blocks.emplace_back(std::move(list));
}

Details details_of(const Site& site, const AgendaItem& item) {
  const LinkedKb& kb = site.kb();
  const EntryIndex entry = kb.spans[at(item.end.span)].entry;
  Details details;
  details.summary = {
      plain(fmt::format("When {}{}: {}", full_name_of(kb, entry), happened_to_it(kb, item.end), settles_words(item)))};
  Facts facts;
  add_fact(facts, "What it dates", {full_link_to(kb, entry)});
  add_fact(facts, "Known so far", {plain(in_words(item.known))});
  details.inside.emplace_back(std::move(facts));
  details.inside.emplace_back(steps_table(kb, item));
  if (item.steps.size() > most_steps)
    details.inside.emplace_back(
        Paragraphs{{and_more(item.steps.size(), most_steps, "stretches of days", address_of(kb, item.end))}});
  add_pairs(kb, item, details.inside);
  add_finds(site, item, details.inside);
  return details;
}

List plants_list(const Site& site, const Agenda& agenda) {
  const LinkedKb& kb = site.kb();
  List list{{{}}};
  for (std::size_t i = 0; i < std::min(agenda.plants.size(), most_agenda_rows); ++i) {
    const UnknownPlant& unknown = agenda.plants[i];
    const bool moulded = kb.entries[unknown.entry].kind == Kind::run;
    list.groups.front().items.push_back(
        {{plain(moulded ? "which plant made " : "which plant packed "), full_link_to(kb, unknown.entry)},
         {plain(
             fmt::format("{} open {}", unknown.waiting, unknown.waiting == 1 ? "verdict waits" : "verdicts wait"))}});
  }
  return list;
}

void add_rest(std::size_t all, std::string_view what, std::vector<Block>& blocks) {
  if (all <= most_agenda_rows) return;
  blocks.emplace_back(Paragraphs{{{plain(fmt::format("And {} more {}: ", all - most_agenda_rows, what)),
                                   {fmt::format("coeval agenda --top {}", all), {}, true},
                                   plain(" lists all.")}}});
}

} // namespace

void build_agenda(const Site& site, const PlannedPage&, Page& page) {
  const Agenda agenda = agenda_of(site.kb(), site.dates(), Basis::conjectured);
  page.title = "Agenda";
  page.eyebrow = "What to find out next";
  page.summary =
      fmt::format("{} verdicts are open. These days and plants, found out, would settle most of them.", agenda.open);
  add_section(
      page, "intro", {},
      {Paragraphs{
          {{plain(
               fmt::format("{} verdicts are open, {} of them because the days leave it undecided whether the run was "
                           "made in time, or kept too long.",
                           agenda.open, agenda.undecided_in_time))},
           {plain(
               "Each of these is one unknown day. Every day that it can have been was tried on all open verdicts "
               "within its reach, so what it would settle, and which way, is known before it is found out. Those that "
               "settle most whatever the day come first.")}}}});
  std::vector<Block> days;
  for (std::size_t i = 0; i < std::min(agenda.items.size(), most_agenda_rows); ++i)
    days.emplace_back(details_of(site, agenda.items[i]));
  add_rest(agenda.items.size(), "days that can settle a verdict", days);
  if (days.empty()) days.emplace_back(Paragraphs{{{plain("No single day, found out, would settle an open verdict.")}}});
  add_section(page, "list", "Days", std::move(days), "days");
  std::vector<Block> plants;
  if (!agenda.plants.empty()) plants.emplace_back(plants_list(site, agenda));
  add_rest(agenda.plants.size(), "plants to find out", plants);
  add_section(page, "list", "Plants", std::move(plants), "plants");
}

} // namespace coeval
