// The page of disputes: every statement that is kept out of all conclusions, what stands against it, and what would
// follow if it were right.
#include "verdicts/disputes.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

constexpr std::size_t most_dispute_rows = 20; // of each table; the rest is told by its number

void add_rest_of_dispute(std::size_t all, std::string_view what, std::vector<Block>& blocks) {
  if (all <= most_dispute_rows) return;
  blocks.emplace_back(Paragraphs{{{plain(fmt::format("And {} more {}: ", all - most_dispute_rows, what)),
                                   {"coeval disputes --everything", {}, true},
                                   plain(" lists all.")}}});
}

void add_conflicts(const Site& site, const Dispute& dispute, std::vector<Block>& blocks) {
  if (dispute.conflicts.empty()) {
    blocks.emplace_back(Paragraphs{{{plain("It contradicts nothing that counts.")}}});
    return;
  }
  for (const DisputeConflict& conflict : dispute.conflicts) {
    const std::size_t count = conflict.statements.size();
    blocks.emplace_back(proof_list(site,
                                   count == 1 ? "It contradicts this statement"
                                              : fmt::format("It contradicts these {} statements together", count),
                                   conflict.statements));
  }
}

Table verdicts_table(const LinkedKb& kb, const Dispute& dispute) {
  Table table;
  table.caption = "Verdicts that would differ if it were right";
  for (const std::string_view head : {"Run and issue", "Verdict", "If it were right"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (std::size_t i = 0; i < std::min(dispute.verdicts.size(), most_dispute_rows); ++i) {
    const VerdictChange& change = dispute.verdicts[i];
    const EntryIndex issue = kb.issues[at(change.issue)].entry;
    table.rows.push_back(
        {{.text = {{full_name_of(kb, kb.runs[at(change.run)].entry) + " with " + full_name_of(kb, issue),
                    path_of(kb, issue) + "#" + verdict_anchor(kb, change.run), false}}},
         {.text = {plain(std::string{name(change.before)})}, .verdict = change.before},
         {.text = {plain(std::string{name(change.after)})}, .verdict = change.after}});
  }
  return table;
}

Table bounds_table(const LinkedKb& kb, const Dispute& dispute) {
  Table table;
  table.caption = "Days that would be known otherwise";
  for (const std::string_view head : {"What", "Known", "If it were right"})
    table.columns.push_back({.text = {plain(std::string{head})}});
  for (std::size_t i = 0; i < std::min(dispute.bounds.size(), most_dispute_rows); ++i) {
    const BoundsChange& change = dispute.bounds[i];
    const TimeSpan& span = kb.spans[at(change.end.span)];
    table.rows.push_back(
        {{.text = {full_link_to(kb, span.entry), plain(happened(kb, change.end).substr(span.address.size()))}},
         {.text = {plain(in_words(change.before))}},
         {.text = {plain(in_words(change.after))}}});
  }
  return table;
}

void add_consequences(const LinkedKb& kb, const Dispute& dispute, std::vector<Block>& blocks) {
  if (dispute.hopeless) {
    blocks.emplace_back(Paragraphs{{{plain("It cannot be right, whatever else is.")}}});
    return;
  }
  if (!dispute.conflicts.empty())
    blocks.emplace_back(Paragraphs{
        {{plain("For it to be right, of each contradiction the statement to be doubted first, as marked, would have to "
                "be wrong. What follows is worked out without those.")}}});
  if (dispute.verdicts.empty())
    blocks.emplace_back(Paragraphs{{{plain("If it were right, no verdict would differ.")}}});
  else
    blocks.emplace_back(verdicts_table(kb, dispute));
  add_rest_of_dispute(dispute.verdicts.size(), "verdicts", blocks);
  if (!dispute.bounds.empty()) blocks.emplace_back(bounds_table(kb, dispute));
  add_rest_of_dispute(dispute.bounds.size(), "days", blocks);
}

} // namespace

void build_disputes(const Site& site, const PlannedPage&, Page& page) {
  const LinkedKb& kb = site.kb();
  const std::vector<Dispute> disputes = disputes_of(kb, site.dates(), Basis::conjectured);
  page.title = "Disputes";
  page.eyebrow = "What is argued over";
  page.summary =
      fmt::format("{} that {} kept out of every conclusion, with evidence, what {}, and what would follow if "
                  "{} right.",
                  disputes.size() == 1 ? "1 statement" : fmt::format("{} statements", disputes.size()),
                  disputes.size() == 1 ? "is" : "are", disputes.size() == 1 ? "it contradicts" : "they contradict",
                  disputes.size() == 1 ? "it were" : "they were");
  add_section(
      page, "intro", {},
      {Paragraphs{{{plain("A disputed statement has a source, and something speaks against it. No date and no "
                          "verdict rests on it. Here each is shown with its evidence, with the fewest statements "
                          "that it cannot be true beside, and with what would differ if it were right.")}}}});
  for (std::size_t i = 0; i < disputes.size(); ++i) {
    const Dispute& dispute = disputes[i];
    std::vector<Block> blocks;
    add_notes_and_evidence(site, dispute.entry, blocks);
    add_conflicts(site, dispute, blocks);
    add_consequences(kb, dispute, blocks);
    page.sections.push_back(
        {"list", fmt::format("dispute-{}", i + 1), statement_of(site, dispute.entry), std::move(blocks)});
  }
  if (disputes.empty()) add_section(page, "list", {}, {Paragraphs{{{plain("No statement is disputed.")}}}});
  add_section(page, "more", "Related",
              {List{{{{},
                      {},
                      {{{{"Claims", path_of_index(Kind::claim), false}},
                        {plain("what collectors repeat, and how it stands")}}}}}}});
}

} // namespace coeval
