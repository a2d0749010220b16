// The page of disputes: every statement that is kept out of all conclusions, with its evidence and what stands against
// it.
#include <algorithm>

#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/paths.hpp"
#include "pages/tell.hpp"
#include "verdicts/claims.hpp"

namespace coeval {
namespace {

// What the statements that do count say of a disputed order in time.
void weigh(const Site& site, const Timing& timing, std::vector<Block>& blocks) {
  const ClaimFinding finding = find_claimed(site.kb(), site.dates(), timing, true);
  std::string words = !finding.possible ? "The statements that count rule it out."
                      : finding.proven  ? "The statements that count prove it as it is."
                                        : "The statements that count leave it possible.";
  blocks.emplace_back(Paragraphs{{{plain(std::move(words))}}});
  if (finding.proof.empty()) return;
  List list{{{}}};
  for (const Step& step : tell_proof(site, finding.proof)) {
    Text note;
    if (step.basis) note.push_back(plain(std::string{name(*step.basis)} + "; "));
    note.push_back(step.place);
    list.groups.front().items.push_back({{plain(step.statement)}, std::move(note)});
  }
  blocks.emplace_back(Details{{plain(finding.proven ? "The statements that prove it" : "The statements against it")},
                              {std::move(list)}});
}

void weigh(const Site& site, Judge& judge, RunIndex run, IssueIndex issue, std::vector<Block>& blocks) {
  blocks.emplace_back(Paragraphs{{{plain("Without it, the verdict on the two is:")}}});
  VerdictView view = tell_verdict(site, judge.judge(run, issue, false), false, false);
  view.anchor.clear();
  const LinkedKb& kb = site.kb();
  view.subject = {full_link_to(kb, kb.runs[at(run)].entry), plain(" with "),
                  full_link_to(kb, kb.issues[at(issue)].entry)};
  if (view.verdict == Verdict::no_place) view.to.clear(); // not shown on the page of the issue
  blocks.emplace_back(Verdicts{{}, {std::move(view)}});
}

// The pairings on record that a reservation would make wrong.
void weigh(const Site& site, const Exclusive& exclusive, RunIndex run, std::vector<Block>& blocks) {
  List list{{{"Found with others all the same", {}, {}}}};
  for (const auto& [entry, pairing] : site.backlinks().pairing)
    if (pairing->run == run && !pairing->refuted &&
        std::ranges::find(exclusive.to, pairing->issue) == exclusive.to.end())
      list.groups.front().items.push_back({statement_of(site, entry), {}});
  if (!list.groups.front().items.empty()) blocks.emplace_back(std::move(list));
}

} // namespace

void build_disputes(const Site& site, const PlannedPage&, Page& page) {
  const LinkedKb& kb = site.kb();
  const std::vector<EntryIndex>& disputed = site.backlinks().disputed;
  page.title = "Disputes";
  page.eyebrow = "What is argued over";
  page.summary = fmt::format("{} that {} kept out of every conclusion, with evidence, notes and what stands "
                             "against them.",
                             disputed.size() == 1 ? "1 statement" : fmt::format("{} statements", disputed.size()),
                             disputed.size() == 1 ? "is" : "are");
  add_section(page, "intro", {},
              {Paragraphs{{{plain("A disputed statement has a source, and something better speaks against it. It is "
                                  "shown with both, and no date and no verdict rests on it.")}}}});
  Judge judge{kb, site.dates(), Basis::conjectured};
  for (std::size_t i = 0; i < disputed.size(); ++i) {
    const EntryIndex index = disputed[i];
    const Entry& entry = kb.entries[index];
    std::vector<Block> blocks;
    if (const auto timing = site.backlinks().timing.find(index); timing != site.backlinks().timing.end())
      weigh(site, *timing->second, blocks);
    if (const auto pairing = site.backlinks().pairing.find(index); pairing != site.backlinks().pairing.end())
      weigh(site, judge, pairing->second->run, pairing->second->issue, blocks);
    if (entry.kind == Kind::exclusive && !kb.address(entry.parent).empty()) {
      const RunIndex run{kb.position[at(entry.parent)]};
      for (const Exclusive& exclusive : kb.runs[at(run)].exclusives)
        if (exclusive.entry == index) weigh(site, exclusive, run, blocks);
    }
    add_notes_and_evidence(site, index, blocks);
    page.sections.push_back({"list", fmt::format("dispute-{}", i + 1), statement_of(site, index), std::move(blocks)});
  }
  if (disputed.empty()) add_section(page, "list", {}, {Paragraphs{{{plain("No statement is disputed.")}}}});
  add_section(page, "more", "Related",
              {List{{{{},
                      {},
                      {{{{"Claims", path_of_index(Kind::claim), false}},
                        {plain("what collectors repeat, and how it stands")}}}}}}});
}

} // namespace coeval
