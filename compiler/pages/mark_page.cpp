// The page of a mark: when it was in use, how far it dates what carries it, and what does.
#include <fmt/format.h>

#include "links/readings.hpp"
#include "pages/builders.hpp"
#include "pages/spans.hpp"
#include "verdicts/marks.hpp"

namespace coeval {
namespace {

// Whether anything is known of when it was in use.
bool is_dated(const Site& site, TimeSpanIndex span) {
  const auto [start, end] = ends_of(site, span);
  return start.earliest || start.latest || end.earliest || end.latest;
}

// What a carrier's mark reads there: "reads 1977; ".
std::string read_on(const Site& site, EntryIndex carrier, MarkIndex mark) {
  const LinkedKb& kb = site.kb();
  std::string words;
  for (const CarriedMark& carried : kb.spans[at(*site.backlinks().span[at(carrier)])].marks)
    if (carried.mark == mark && carried.reading)
      words += (words.empty() ? "reads " : " and ") + reading_text(*kb.marks[at(mark)].reading, *carried.reading);
  return words.empty() ? words : words + "; ";
}

// When the numbers were given out that a mark reads.
void add_numbers(const Site& site, const Mark& mark, Page& page) {
  if (mark.numbers.empty()) return;
  Table table;
  table.caption = "First numbers";
  table.columns = {
      {.text = {plain("From number")}}, {.text = {plain("Given out in or on")}}, {.text = {plain("Known from")}}};
  for (const NumberRow& row : mark.numbers) {
    Text sources{plain(std::string{name(row.evidence.basis)})};
    for (const Word& source : row.evidence.citations()) {
      sources.push_back(plain("; "));
      append(sources, citation(site.kb(), source.text));
    }
    table.rows.push_back({{.text = {plain(reading_text(ReadingKind::number, row.from))}},
                          {.text = {plain(row.on->text)}},
                          {.text = std::move(sources)}});
  }
  add_section(
      page, "more", "When its numbers were given out",
      {paragraphs("A number falls in the row that starts at it or below; it was given out no earlier than that row "
                  "says, and no later than the next. Of a number below the first row nothing is known."),
       std::move(table)},
      "numbers");
}

List carriers(const Site& site, MarkIndex mark) {
  const LinkedKb& kb = site.kb();
  List list;
  for (const Kind kind : {Kind::mould, Kind::run, Kind::issue, Kind::card}) {
    List::Group group{plural_of(kind), {}, {}};
    for (const EntryIndex carrier : site.backlinks().carrying[at(mark)])
      if (kb.entries[carrier].kind == kind)
        group.items.push_back(
            {{full_link_to(kb, carrier)},
             {plain(read_on(site, carrier, mark) + short_span(site, *site.backlinks().span[at(carrier)]))}});
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
  page.summary = fmt::format("{}, a dating mark: {}.", page.title, reach_of(site, mark));

  Facts facts;
  const auto add_words = [&](std::string label, std::string_view key) {
    if (!entry.text(key).empty()) add_fact(facts, std::move(label), {plain(std::string{entry.text(key)})});
  };
  add_words("Kind", "kind");
  add_words("Reads", "text");
  add_words("Found on", "where");
  add_fact(facts, "Country", {plain(country_of(entry))});
  add_words("Whose", "jurisdiction");
  add_fact(facts, "Dates its carrier",
           {plain(dating_sentences(kb, site.dates(), index, Basis::conjectured) +
                  " Every date is a bound, and not the day on which a part was made.")});
  add_succession(site, planned.entry, facts);
  std::vector<Block> about{std::move(facts)};
  if (!entry.text("caution").empty()) about.emplace_back(Caution{std::string{entry.text("caution")}});
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));
  if (auto pictures = pictures_of(site, planned.entry); !pictures.empty())
    add_section(page, "plate", {}, {Plate{std::move(pictures)}});
  std::vector<TimelineRow> others;
  for (const EntryIndex carrier : site.backlinks().carrying[at(index)])
    others.push_back(timeline_row(site, *site.backlinks().span[at(carrier)], false));
  if (!others.empty()) others.insert(others.begin(), TimelineRow{});
  if (!others.empty() || is_dated(site, mark.span)) add_when(site, planned.entry, std::move(others), page);
  if (List list = carriers(site, index); !list.groups.empty())
    add_section(page, "carried", "What carries it", {std::move(list)}, "carried");
  add_numbers(site, mark, page);
  add_dated_by_it(site, planned.entry, page);
}

} // namespace coeval
