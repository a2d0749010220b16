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

Finding find(const LinkedKb& kb, Judge& judge, const ClaimedPairing& pairing) {
  const Judgement judgement = judge.judge(pairing.run, pairing.issue, false);
  Finding finding;
  finding.possible = judgement.verdict <= Verdict::open;
  finding.proven = judgement.verdict == Verdict::attested;
  if (pairing.card && finding.possible) { // it must have been sealed while both the issue and the card were packed
    const TimeSpanIndex card = kb.cards[at(*pairing.card)].span;
    const Leftover* leftover = kb.leftover_of(pairing.issue);
    const auto ruled_out = [&](TimeSpanIndex from, TimeSpanIndex into, const Leftover* policy) {
      return order_of(judge.distances(), from, into, policy, Basis::conjectured, false).answer == Answer::no;
    };
    const TimeSpanIndex issue = kb.issues[at(pairing.issue)].span;
    if (ruled_out(kb.runs[at(pairing.run)].span, card, leftover) || ruled_out(card, issue, nullptr) ||
        ruled_out(issue, card, nullptr))
      finding.possible = false;
  }
  return finding;
}

// A timing is impossible if one of its constraints is excluded, proven if all are entailed.
Finding find(const LinkedKb& kb, Judge& judge, const Timing& timing) {
  Finding finding;
  finding.proven = true;
  for (const Constraint& constraint : constraints_of(kb, timing)) {
    if (constraint.statement != by_definition) continue;
    const auto upper = judge.distances().upper(constraint.x, constraint.y, Basis::conjectured);
    const auto lower = judge.distances().upper(constraint.y, constraint.x, Basis::conjectured);
    if (lower && -*lower > constraint.most) finding.possible = false;
    if (!upper || *upper > constraint.most) finding.proven = false;
  }
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
      report(kb, claim, pairing.entry, find(kb, judge, pairing), out);
    for (const Timing& timing : claim.timings) report(kb, claim, claim.entry, find(kb, judge, timing), out);
  }
}

} // namespace coeval
