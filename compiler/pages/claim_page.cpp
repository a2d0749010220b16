// The page of a claim: what collectors repeat, how it stands, and what the evidence says of it.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/tell.hpp"

namespace coeval {
namespace {

std::string answer_words(const ClaimFinding& finding) {
  switch (finding.answer) {
  case ClaimFinding::Answer::ruled_out:
    return "The statements of this reference rule it out.";
  case ClaimFinding::Answer::proven:
    return "It follows from the other statements of this reference.";
  case ClaimFinding::Answer::allowed:
    break;
  }
  return "The statements of this reference allow it and do not prove it.";
}

void add_proof(const Site& site, const ClaimFinding& finding, std::vector<Block>& blocks) {
  if (finding.proof.empty()) return;
  const bool proven = finding.answer == ClaimFinding::Answer::proven;
  blocks.emplace_back(Details{{plain(proven ? "The statements that prove it" : "The statements that rule it out")},
                              {proof_list(site, {}, finding.proof)}});
}

void add_pairing(const Site& site, Judge& judge, const ClaimedPairing& pairing, const ClaimFinding& finding,
                 std::vector<Block>& blocks) {
  const LinkedKb& kb = site.kb();
  Text what = statement_of(site, pairing.entry);
  if (pairing.card) {
    what.push_back(plain(" on "));
    what.push_back(link_to(kb, kb.cards[at(*pairing.card)].entry));
  }
  std::string words = answer_words(finding);
  const Judgement judgement = judge.judge(pairing.run, pairing.issue, true);
  const bool only_card = judgement.verdict <= Verdict::open && finding.answer == ClaimFinding::Answer::ruled_out;
  if (only_card)
    words = "The two could belong together, but not sealed on that card: the days rule it out.";
  else if (judgement.verdict == Verdict::fits)
    words = "The two fit each other; that they were found together is not on record.";
  blocks.emplace_back(Paragraphs{{{plain("Stated as a pairing, it is checked as one. " + words)}}});
  VerdictView view = tell_verdict(site, judgement, false, true);
  view.subject = std::move(what);
  view.anchor.clear();
  blocks.emplace_back(Verdicts{{}, {std::move(view)}});
  if (only_card) add_proof(site, finding, blocks); // else the verdict opens to it
  add_text(site, pairing.entry, "notes", blocks);
}

void add_timing(const Site& site, const Timing& timing, const ClaimFinding& finding, std::vector<Block>& blocks) {
  Text what{plain("Stated as an order in time: ")};
  append(what, statement_of(site, timing.entry));
  what.push_back(plain(". " + answer_words(finding)));
  if (finding.basis)
    what.push_back(plain(fmt::format(" The strongest basis that is enough for it: {}.", name(*finding.basis))));
  blocks.emplace_back(Paragraphs{{std::move(what)}});
  std::vector<SpanView> spans{tell_span(site, timing.of)};
  spans.front().label = full_name_of(site.kb(), site.kb().spans[at(timing.of)].entry);
  if (timing.order != Order::on) {
    const TimeSpanIndex other = timing.order == Order::relation ? timing.span : timing.other.span;
    spans.push_back(tell_span(site, other));
    spans.back().label = full_name_of(site.kb(), site.kb().spans[at(other)].entry);
  }
  add_proof(site, finding, blocks);
  blocks.emplace_back(Bounds{std::move(spans)});
  add_text(site, timing.entry, "notes", blocks);
}

} // namespace

void build_claim(const Site& site, const PlannedPage& planned, Page& page) {
  const LinkedKb& kb = site.kb();
  const Claim& claim = kb.claims[kb.position[at(planned.entry)]];
  const Entry& entry = kb.entries[planned.entry];
  page.eyebrow = singular_of(Kind::claim);
  page.summary = fmt::format("A claim that is {}: {}", entry.text("standing"), entry.text("says"));

  Facts facts;
  const ClaimReport& report = site.claim_report(ClaimIndex{kb.position[at(planned.entry)]});
  add_fact(facts, "Standing", {plain(std::string{entry.text("standing")})});
  add_fact(facts, "Evidence", {plain(finding_words(report))});
  Text repeated;
  if (const auto* sources = entry.get<Words>("source"))
    for (const Word& source : *sources) {
      if (!repeated.empty()) repeated.push_back(plain("; "));
      append(repeated, citation(kb, source.text));
    }
  add_fact(facts, "Repeated in", std::move(repeated));
  if (entry.place.known()) add_fact(facts, "Entered at", {place(site, entry.place)});
  std::vector<Block> about;
  add_text(site, planned.entry, "says", about);
  about.emplace_back(std::move(facts));
  add_text(site, planned.entry, "why", about);
  add_text(site, planned.entry, "notes", about);
  add_section(page, "about", {}, std::move(about));

  std::vector<Block> check;
  Judge judge{kb, site.dates(), Basis::conjectured};
  auto stated = report.stated.begin(); // pairings first, then timings
  for (const ClaimedPairing& pairing : claim.pairings) add_pairing(site, judge, pairing, stated++->finding, check);
  for (const Timing& timing : claim.timings) add_timing(site, timing, stated++->finding, check);
  if (check.empty())
    check.emplace_back(Paragraphs{{{plain(
        "It is not stated as a pairing or as an order in time, so nothing here can check it; its standing rests "
        "on what is said above.")}}});
  add_section(page, "check", "What the evidence says", std::move(check), "check");
}

} // namespace coeval
