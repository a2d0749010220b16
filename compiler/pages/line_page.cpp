// The page of a line: who made it, the policies that its dates follow, its periods and its figures.
#include <algorithm>

#include <fmt/format.h>

#include "chronology/statements.hpp"
#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

void add_about(const Site& site, const Line& line, Page& page) {
  const LinkedKb& kb = site.kb();
  Facts facts;
  if (const auto maker = named_by(kb, line.entry, "maker", Kind::maker)) {
    const std::string country = country_of(kb.entries[*maker]);
    add_fact(facts, "Maker", {plain(name_of(kb, *maker) + (country.empty() ? "" : " (" + country + ")"))});
  }
  std::string slots;
  for (const std::string& slot : line.slots) slots += (slots.empty() ? "" : ", ") + slot;
  add_fact(facts, "Slots", {plain(std::move(slots))});
  std::vector<Block> about;
  add_text(site, line.entry, "sold", about);
  if (!facts.facts.empty()) about.emplace_back(std::move(facts));
  add_notes_and_evidence(site, line.entry, about);
  add_section(page, "about", {}, std::move(about));
}

// How long stock was kept, and how far "about" reaches: what every derived day of the line leans on.
void add_policies(const Site& site, const Line& line, Page& page) {
  std::vector<Block> stock;
  std::vector<Block> about;
  for (const EntryIndex child : site.backlinks().children[at(line.entry)]) {
    const Entry& entry = site.kb().entries[child];
    if (entry.kind == Kind::leftover && line.leftover) {
      Facts facts;
      add_fact(facts, "From moulding to packing, at most", {plain(in_words(line.leftover->at_most))});
      stock.emplace_back(std::move(facts));
      add_notes_and_evidence(site, child, stock);
    }
    if (entry.kind == Kind::allowance) add_text(site, child, "notes", about);
  }
  Facts reach;
  const std::array<std::pair<std::string_view, const Duration*>, 5> allowed{{{"a day", &line.allowance.day},
                                                                             {"a month", &line.allowance.month},
                                                                             {"a season", &line.allowance.season},
                                                                             {"a year", &line.allowance.year},
                                                                             {"a decade", &line.allowance.decade}}};
  for (const auto& [what, duration] : allowed)
    add_fact(reach, fmt::format("About {}", what), {plain(in_words(*duration) + " either way")});
  about.insert(about.begin(), std::move(reach));
  add_section(page, "about", "How long stock was kept", std::move(stock), "leftover");
  add_section(page, "about", "What “about” means", std::move(about), "allowance");
}

void add_periods(const Site& site, LineIndex line, Page& page) {
  const LinkedKb& kb = site.kb();
  std::vector<TimelineRow> rows;
  List periods{{{}}};
  for (const TimeSpanIndex index : site.backlinks().of_line[at(line)].periods) {
    rows.push_back(timeline_row(site, index, true));
    periods.groups.front().items.push_back(
        {{link_to(kb, kb.spans[at(index)].entry)}, {plain(short_span(site, index))}});
  }
  if (rows.empty()) return;
  std::vector<Block> when;
  add_timeline(site, "Its periods", line, std::move(rows), when);
  when.emplace_back(std::move(periods));
  add_section(page, "when", "Periods", std::move(when), "periods");
}

} // namespace

void build_line(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const LineIndex index{kb.position[at(planned.entry)]};
  const Line& line = kb.lines[at(index)];
  List figures{{{}}};
  std::size_t issues = 0;
  for (const FigureIndex each : site.backlinks().of_line[at(index)].figures) {
    const Figure& figure = kb.figures[at(each)];
    issues += figure.issues.size();
    figures.groups.front().items.push_back(
        {{link_to(kb, figure.entry)}, {plain(counted(figure.issues.size(), Kind::issue))}});
  }
  const std::size_t count = figures.groups.front().items.size();
  page.eyebrow = singular_of(Kind::line);
  page.summary = fmt::format("{}: {} in {}, with periods, policies and sources.", page.title,
                             counted(count, Kind::figure), counted(issues, Kind::issue));
  add_about(site, line, page);
  add_policies(site, line, page);
  if (auto pictures = pictures_of(site, planned.entry); !pictures.empty())
    add_section(page, "about", {}, {Plate{std::move(pictures)}});
  add_periods(site, index, page);
  if (count > 0) add_section(page, "list", "Figures", {std::move(figures)}, "figures");
  add_section(page, "more", "To take along",
              {List{{{{},
                      {},
                      {{{{"Checklist", path_of_checklist(kb, planned.entry), false}},
                        {plain("every figure, issue and slot, to tick on paper or on the screen")}}}}}}},
              "checklist");
}

} // namespace coeval
