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

constexpr std::size_t most_rows = 80; // the rest is told by its number: nobody works through more
constexpr std::size_t most_pairs = 3; // shown with each

std::string range_of(const DayBounds& known) {
  if (known.earliest && known.latest) return fmt::format("between {} and {}", iso(*known.earliest), iso(*known.latest));
  if (known.earliest) return fmt::format("on {} or later", iso(*known.earliest));
  if (known.latest) return fmt::format("on {} or earlier", iso(*known.latest));
  return "nothing";
}

std::string settles_words(const AgendaItem& item) {
  const std::size_t count = item.pairs.size();
  if (item.always == count) return count == 1 ? "1, whatever the day" : fmt::format("{}, whatever the day", count);
  if (item.always == 0) return fmt::format("up to {}, depending on the day", count);
  return fmt::format("up to {}; {} of them whatever the day", count, item.always);
}

// The first few verdicts, those that are surely settled first, each leading to where it opens.
Text first_pairs(const LinkedKb& kb, const AgendaItem& item) {
  std::vector<AgendaPair> pairs = item.pairs;
  std::ranges::stable_sort(pairs,
                           [](const AgendaPair& one, const AgendaPair& other) { return one.always && !other.always; });
  const bool of_run = kb.spans[at(item.end.span)].kind == Kind::run;
  Text text;
  for (std::size_t i = 0; i < std::min(pairs.size(), most_pairs); ++i) {
    const Issue& issue = kb.issues[at(pairs[i].issue)];
    const Run& run = kb.runs[at(pairs[i].run)];
    text.push_back(plain(i == 0 ? (of_run ? ": with " : ": ") : "; "));
    text.push_back({full_name_of(kb, of_run ? issue.entry : run.entry),
                    path_of(kb, issue.entry) + "#" + verdict_anchor(kb, pairs[i].run), false});
  }
  if (pairs.size() > most_pairs) text.push_back(plain(fmt::format("; and {} more", pairs.size() - most_pairs)));
  return text;
}

Table days_table(const Site& site, const Agenda& agenda) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.caption = "Days to find out, those that can settle most first";
  for (const std::string_view head : {"What to find out", "Known so far", "Open verdicts that it can settle"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (std::size_t i = 0; i < std::min(agenda.items.size(), most_rows); ++i) {
    const AgendaItem& item = agenda.items[i];
    const TimeSpan& span = kb.spans[at(item.end.span)];
    Text settles{plain(settles_words(item))};
    append(settles, first_pairs(kb, item));
    table.rows.push_back({{.text = {plain("when "), full_link_to(kb, span.entry),
                                    plain(happened(kb, item.end).substr(span.address.size()))}},
                          {.text = {plain(range_of(item.known))}},
                          {.text = std::move(settles)}});
  }
  return table;
}

List plants_list(const Site& site, const Agenda& agenda) {
  const LinkedKb& kb = site.kb();
  List list{{{}}};
  for (std::size_t i = 0; i < std::min(agenda.plants.size(), most_rows); ++i) {
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
  if (all > most_rows)
    blocks.emplace_back(Paragraphs{{{plain(fmt::format("And {} more {}.", all - most_rows, what))}}});
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
           {plain("Each row is one unknown day. Every day that it can have been was tried on all open verdicts that "
                  "hang on it: “whatever the day” counts those that each of these days would settle, one way or the "
                  "other; “up to” counts those that some of them would. What would do it: a dated packing sheet, press "
                  "log or catalogue, or a sealed example on a card with known dates.")}}}});
  std::vector<Block> days;
  if (!agenda.items.empty()) days.emplace_back(days_table(site, agenda));
  add_rest(agenda.items.size(), "days that can settle a verdict", days);
  if (days.empty()) days.emplace_back(Paragraphs{{{plain("No single day, found out, would settle an open verdict.")}}});
  add_section(page, "list", "Days", std::move(days), "days");
  std::vector<Block> plants;
  if (!agenda.plants.empty()) plants.emplace_back(plants_list(site, agenda));
  add_rest(agenda.plants.size(), "plants to find out", plants);
  add_section(page, "list", "Plants", std::move(plants), "plants");
}

} // namespace coeval
