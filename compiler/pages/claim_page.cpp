// The page of a claim: what collectors repeat, how it stands, and what the evidence says of it.
#include <fmt/format.h>

#include "pages/builders.hpp"
#include "pages/tell.hpp"
#include "verdicts/claims.hpp"

namespace coeval {
namespace {

// A proof as a list: each statement with its basis, sources and place.
Details proof_details(const Site& site, std::string summary, const std::vector<Reason>& reasons) {
  List list{{{}}};
  for (const Step& step : tell_proof(site, reasons)) {
    Text note;
    if (step.basis) note.push_back(plain(std::string{name(*step.basis)}));
    for (const Text& source : step.sources) {
      if (!note.empty()) note.push_back(plain("; "));
      append(note, source);
    }
    if (!step.place.text.empty()) {
      if (!note.empty()) note.push_back(plain("; "));
      note.push_back(step.place);
    }
    list.groups.front().items.push_back({{plain(step.statement)}, std::move(note)});
  }
  return {{plain(std::move(summary))}, {std::move(list)}};
}

std::string finding_words(const ClaimFinding& finding) {
  if (!finding.possible) return "The statements of this reference rule it out.";
  if (finding.proven) return "It follows from the other statements of this reference.";
  return "The statements of this reference allow it and do not prove it.";
}

void add_pairing(const Site& site, Judge& judge, const ClaimedPairing& pairing, std::vector<Block>& blocks) {
  const LinkedKb& kb = site.kb();
  const ClaimFinding finding = find_claimed(kb, site.dates(), judge, pairing);
  Text what = statement_of(site, pairing.entry);
  if (pairing.card) {
    what.push_back(plain(" on "));
    what.push_back(link_to(kb, kb.cards[at(*pairing.card)].entry));
  }
  std::string words = finding_words(finding);
  const Judgement judgement = judge.judge(pairing.run, pairing.issue, true);
  if (judgement.verdict <= Verdict::open && !finding.possible)
    words = "The two could belong together, but not sealed on that card: the days rule it out.";
  else if (judgement.verdict == Verdict::fits)
    words = "The two fit each other; that they were found together is not on record.";
  blocks.emplace_back(Paragraphs{{{plain("Stated as a pairing, it is checked as one. " + words)}}});
  VerdictView view = tell_verdict(site, judgement, false, true);
  view.subject = std::move(what);
  view.anchor.clear();
  blocks.emplace_back(Verdicts{{}, {std::move(view)}});
  add_text(site, pairing.entry, "notes", blocks);
}

void add_timing(const Site& site, const Timing& timing, std::vector<Block>& blocks) {
  const ClaimFinding finding = find_claimed(site.kb(), site.dates(), timing, true);
  Text what{plain("Stated as an order in time: ")};
  append(what, statement_of(site, timing.entry));
  what.push_back(plain(". " + finding_words(finding)));
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
  if (!finding.proof.empty())
    blocks.emplace_back(proof_details(
        site, finding.proven ? "The statements that prove it" : "The statements that rule it out", finding.proof));
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
  add_fact(facts, "Standing", {plain(std::string{entry.text("standing")})});
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
  for (const ClaimedPairing& pairing : claim.pairings) add_pairing(site, judge, pairing, check);
  for (const Timing& timing : claim.timings) add_timing(site, timing, check);
  if (check.empty())
    check.emplace_back(Paragraphs{{{plain(
        "It is not stated as a pairing or as an order in time, so nothing here can check it; its standing rests "
        "on what is said above.")}}});
  add_section(page, "check", "What the evidence says", std::move(check), "check");
}

} // namespace coeval
