// The page of a card: when figures were sealed on it, the issues known on it, and the pairings that it proves.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/spans.hpp"

namespace coeval {
namespace {

Table issues_table(const Site& site, const std::vector<IssueIndex>& issues) {
  const LinkedKb& kb = site.kb();
  Table table;
  table.caption = "Issues known on it";
  for (const std::string_view head : {"Issue", "Packed", "Offer", "Packer"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (const IssueIndex index : issues) {
    const Issue& issue = kb.issues[at(index)];
    Text packer;
    if (issue.packer) packer = {link_to(kb, kb.plants[at(*issue.packer)].entry)};
    table.rows.push_back({{.text = {full_link_to(kb, issue.entry)}},
                          {.text = {plain(short_span(site, issue.span))}},
                          {.text = {plain(std::string{kb.entries[issue.entry].text("offer")})}},
                          {.text = std::move(packer)}});
  }
  return table;
}

} // namespace

void build_card(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const CardIndex card{kb.position[at(planned.entry)]};
  const TimeSpanIndex span = kb.cards[at(card)].span;
  const std::vector<IssueIndex>& issues = site.backlinks().sealed[at(card)];
  page.eyebrow = singular_of(Kind::card);
  page.summary = fmt::format("{}: a generation of packaging in use {}, with {} known on it.", page.title,
                             short_span(site, span), counted(issues.size(), Kind::issue));

  Facts facts;
  if (const auto line = kb.spans[at(span)].line) add_fact(facts, "Line", {link_to(kb, kb.lines[at(*line)].entry)});
  add_succession(site, planned.entry, facts);
  add_fact(facts, "Carries the marks", marks_of(kb, span));
  std::vector<Block> about;
  if (!facts.facts.empty()) about.emplace_back(std::move(facts));
  add_notes_and_evidence(site, planned.entry, about);
  add_section(page, "about", {}, std::move(about));
  if (auto pictures = pictures_of(site, planned.entry); !pictures.empty())
    add_section(page, "plate", {}, {Plate{std::move(pictures)}});

  std::vector<TimelineRow> others;
  if (!issues.empty()) others.emplace_back(); // a rule between the card and its issues
  for (const IssueIndex issue : issues) others.push_back(timeline_row(site, kb.issues[at(issue)].span, false));
  add_when(site, planned.entry, std::move(others), page);

  if (!issues.empty()) add_section(page, "issues", "Issues known on it", {issues_table(site, issues)}, "issues");
  List found{{{}}};
  for (const EntryIndex pairing : site.backlinks().found_on[at(card)])
    found.groups.front().items.push_back({statement_of(site, pairing), {place(site, kb.entries[pairing].place)}});
  if (!found.groups.front().items.empty())
    add_section(page, "issues", "Found sealed on it", {std::move(found)}, "found");
  add_looks(site, planned.entry, page);
  add_dated_by_it(site, planned.entry, page);
}

} // namespace coeval
