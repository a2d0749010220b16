#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/issue_facts.hpp"
#include "pages/looks.hpp"
#include "pages/matrices.hpp"
#include "pages/part_facts.hpp"
#include "pages/paths.hpp"
#include "pages/records.hpp"

namespace coeval {
namespace {

// Every issue that takes the part, grouped by verdict, best first.
std::vector<Block> homes_of(const Site& site, const std::vector<Judgement>& homes) {
  std::vector<Block> blocks;
  Verdicts group;
  const auto finish = [&] {
    if (!group.verdicts.empty()) blocks.emplace_back(std::move(group));
    group = {};
  };
  for (const Judgement& judgement : homes) {
    if (!group.verdicts.empty() && group.verdicts.front().verdict != judgement.verdict) finish();
    group.verdicts.push_back(tell_verdict(site, judgement, true, false));
  }
  finish();
  for (Block& block : blocks) {
    auto& verdicts = std::get<Verdicts>(block);
    verdicts.title = {plain(fmt::format("{}: {}", name(verdicts.verdicts.front().verdict),
                                        counted(verdicts.verdicts.size(), Kind::issue)))};
  }
  return blocks;
}

void add_about(const Site& site, const Run& run, Page& page) {
  const LinkedKb& kb = site.kb();
  const Entry& entry = kb.entries[run.entry];
  const TimeSpan& span = kb.spans[at(run.span)];
  Facts facts;
  add_fact(facts, "Accessory", {link_to(kb, kb.accessories[at(run.accessory)].entry)});
  add_fact(facts, "Mould", {link_to(kb, kb.moulds[at(run.mould)].entry)});
  add_colour(site, run.entry, facts);
  add_fact(facts, "Material", {plain(std::string{entry.text("material")})});
  if (run.plant) add_fact(facts, "Made at", {link_to(kb, kb.plants[at(*run.plant)].entry)});
  add_fact(facts, "Marks", marks_of(kb, run.span));
  add_fact(facts, "Marks of its mould", marks_of(kb, kb.moulds[at(run.mould)].span));
  if (span.replaces) {
    Text text{full_link_to(kb, kb.spans[at(*span.replaces)].entry)};
    if (span.clean) text.push_back(plain(", which had ended before"));
    add_fact(facts, "Followed", std::move(text));
  }
  for (const Exclusive& exclusive : run.exclusives) {
    std::vector<Piece> to;
    for (const IssueIndex issue : exclusive.to) to.push_back(full_link_to(kb, kb.issues[at(issue)].entry));
    Text text = enumerated(to);
    text.push_back(plain(" ("));
    append(text, backing(site, exclusive.entry));
    text.push_back(plain(")"));
    add_fact(facts, "Reserved for", std::move(text));
  }
  add_fact(facts, "Address", {address_piece(kb, run.entry)});
  std::vector<Block> about{std::move(facts)};
  add_notes_and_evidence(site, run.entry, about);
  add_section(page, "about", {}, std::move(about));
}

void add_when(const Site& site, const Run& run, const std::vector<Judgement>& homes, Page& page) {
  const LinkedKb& kb = site.kb();
  SpanView of_mould = tell_span(site, kb.moulds[at(run.mould)].span);
  of_mould.label = "its mould in the press";
  std::vector<Block> when{Bounds{{tell_span(site, run.span), std::move(of_mould)}}};
  std::vector<TimelineRow> rows{timeline_row(site, run.span, true),
                                timeline_row(site, kb.moulds[at(run.mould)].span, false)};
  const auto last = std::ranges::find_if(homes, [](const Judgement& one) { return one.verdict > Verdict::open; });
  if (last != homes.begin()) rows.emplace_back(); // a rule before the issues
  for (auto home = homes.begin(); home != last; ++home)
    rows.push_back(timeline_row(site, kb.issues[at(home->issue)].span, false));
  add_timeline(site, "When it was made, and when the issues were packed that it belongs with or may belong with",
               kb.accessories[at(run.accessory)].line, std::move(rows), when);
  add_section(page, "when", "When it was made", std::move(when));
}

} // namespace

void build_run(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const RunIndex index{kb.position[at(planned.entry)]};
  const Run& run = kb.runs[at(index)];
  Judge judge{kb, site.dates(), Basis::conjectured};
  const std::vector<Judgement> homes = judge.homes(index, site.backlinks().taking[at(run.accessory)]);
  const auto belongs = static_cast<std::size_t>(
      std::ranges::count_if(homes, [](const Judgement& one) { return one.verdict <= Verdict::fits; }));
  page.eyebrow = singular_of(Kind::run);
  page.summary = fmt::format("{}: made {}; belongs with {} of the {} that take it.", page.title,
                             short_span(site, run.span), belongs, counted(homes.size(), Kind::issue));
  add_about(site, run, page);
  add_plate(site, {run.entry, kb.moulds[at(run.mould)].entry}, page);
  if (const auto looks = looks_of(site, planned.entry); !looks.empty())
    add_section(page, "looks", "What can be seen and measured",
                {looks_table(site, "What is stated of this run", looks)});
  add_when(site, run, homes, page);

  std::vector<Block> blocks = homes_of(site, homes);
  if (blocks.empty())
    blocks.emplace_back(paragraphs("No issue on record takes this accessory."));
  else
    blocks.insert(blocks.begin(),
                  paragraphs("Every issue that takes this accessory. Each verdict leads to its proof on "
                             "the page of the issue. Issues whose outfit is not entered are not listed: "
                             "of them nothing can be said."));
  add_section(page, "homes", "Where it belongs", std::move(blocks));

  if (const auto& copies = site.backlinks().copies[at(index)]; !copies.empty())
    add_section(page, "repros", "Reproductions of it", {repros_table(site, copies), not_every_repro()});
  add_pairings(site, planned.entry, page);
  add_claims(site, {planned.entry}, page);
  add_disputed(site, {planned.entry}, page);
}

} // namespace coeval
