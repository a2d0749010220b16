// A claim's standing must follow from the evidence: what is called refuted must be impossible, what is called supported
// possible, and what is called open neither proven nor impossible.
#include <algorithm>

#include <fmt/format.h>

#include "rules/rule_list.hpp"

namespace coeval {
namespace {

struct Finding {
  bool possible = true;
  bool proven = false;
};

Finding find(const LinkedKb& kb, const Chronology& chronology, Judge& judge, const ClaimedPairing& pairing) {
  const Judgement judgement = judge.judge(pairing.run, pairing.issue, false);
  Finding finding;
  finding.possible = judgement.verdict <= Verdict::open;
  finding.proven = judgement.verdict == Verdict::attested;
  if (pairing.card && finding.possible) { // it must have been sealed while both the issue and the card were packed
    const TimeSpanIndex run = kb.runs[at(pairing.run)].span;
    const TimeSpanIndex issue = kb.issues[at(pairing.issue)].span;
    const TimeSpanIndex card = kb.cards[at(*pairing.card)].span;
    std::vector<Constraint> sealed{{start_of(issue), end_of(card), 0}, {start_of(card), end_of(issue), 0}};
    for (const TimeSpanIndex packed : {issue, card}) {
      sealed.push_back({start_of(run), end_of(packed), 0});
      if (const Leftover* leftover = kb.leftover_of(pairing.issue))
        sealed.push_back({start_of(packed), end_of(run), most_days(*leftover)});
    }
    finding.possible = chronology.allows(sealed);
  }
  return finding;
}

// A timing is possible if all of its constraints can hold together, proven if all are entailed.
Finding find(const LinkedKb& kb, const Chronology& chronology, const Timing& timing) {
  const std::vector<Constraint> constraints = constraints_of(kb, timing);
  Finding finding;
  finding.possible = chronology.allows(constraints);
  finding.proven = std::ranges::all_of(constraints, [&](const Constraint& constraint) {
    const auto upper = chronology.on(Basis::conjectured).upper(constraint.x, constraint.y);
    return upper && *upper <= constraint.most;
  });
  return finding;
}

void report(const LinkedKb& kb, const Claim& claim, EntryIndex stated, const Finding& finding, Diagnostics& out) {
  Diagnostic wrong;
  wrong.place = kb.entries[claim.entry].place;
  if (claim.standing == ClaimStanding::refuted && finding.possible) {
    wrong.code = Code::refuted_claim_possible;
    wrong.message = fmt::format("the claim `{}` is called refuted, but nothing here rules it out", claim.id);
    wrong.help = "add the statement that refutes it, or call it open";
  } else if (claim.standing == ClaimStanding::supported && !finding.possible) {
    wrong.code = Code::supported_claim_impossible;
    wrong.message = fmt::format("the claim `{}` is called supported, but the statements here rule it out", claim.id);
    wrong.help = "call it refuted, or mend the statement that rules it out";
  } else if (claim.standing == ClaimStanding::open && (finding.proven || !finding.possible)) {
    wrong.code = Code::open_claim_decided;
    wrong.message = fmt::format("the claim `{}` is called open, but the statements here {}", claim.id,
                                finding.proven ? "prove it" : "rule it out");
    wrong.help = finding.proven ? "call it supported" : "call it refuted";
  } else {
    return;
  }
  wrong.labels.push_back({kb.entries[stated].place, "what it states"});
  out.report(std::move(wrong));
}

} // namespace

void check_claims(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  if (!input.complete || !chronology.contradictions().empty()) return; // nothing can be concluded yet
  const LinkedKb& kb = input.kb;
  Judge judge{kb, chronology, Basis::conjectured};
  for (const Claim& claim : kb.claims) {
    for (const ClaimedPairing& pairing : claim.pairings)
      report(kb, claim, pairing.entry, find(kb, chronology, judge, pairing), out);
    for (const Timing& timing : claim.timings) report(kb, claim, claim.entry, find(kb, chronology, timing), out);
  }
}

} // namespace coeval
