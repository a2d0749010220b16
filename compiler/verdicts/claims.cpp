#include "verdicts/claims.hpp"

#include <algorithm>

namespace coeval {
namespace {

// The strongest basis on which a constraint is entailed.
std::optional<Basis> entailed_on(const Chronology& chronology, const Constraint& constraint) {
  for (const Basis basis : all_bases) {
    const auto upper = chronology.on(basis).upper(constraint.x, constraint.y);
    if (upper && *upper <= constraint.most) return basis;
  }
  return {};
}

std::vector<Reason> proof_of(const Chronology& chronology, Point x, Point y, Basis basis) {
  return chronology.tell_all(chronology.on(basis).proof(x, y));
}

void add_proof(std::vector<Reason>& proof, std::vector<Reason> more) {
  for (Reason& reason : more)
    if (std::ranges::find(proof, reason) == proof.end()) proof.push_back(std::move(reason));
}

} // namespace

ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, Judge& judge,
                          const ClaimedPairing& pairing) {
  const Judgement judgement = judge.judge(pairing.run, pairing.issue, false);
  ClaimFinding finding;
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

ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, const Timing& timing, bool with_proof) {
  const std::vector<Constraint> constraints = constraints_of(kb, timing);
  ClaimFinding finding;
  finding.possible = chronology.allows(constraints);
  finding.proven = finding.possible;
  for (const Constraint& constraint : constraints) {
    const auto basis = entailed_on(chronology, constraint);
    if (!basis) finding.proven = false;
    if (basis) finding.basis = finding.basis ? std::max(*finding.basis, *basis) : *basis;
  }
  if (!finding.proven) finding.basis.reset();
  if (!with_proof) return finding;
  for (const Constraint& constraint : constraints) {
    if (finding.proven) {
      add_proof(finding.proof, proof_of(chronology, constraint.x, constraint.y, *entailed_on(chronology, constraint)));
      continue;
    }
    // Ruled out by itself: y - x <= -most - 1 is entailed.
    const auto basis = entailed_on(chronology, {constraint.y, constraint.x, -constraint.most - 1});
    if (finding.possible || !basis) continue;
    finding.basis = basis;
    finding.proof = proof_of(chronology, constraint.y, constraint.x, *basis);
    break;
  }
  return finding;
}

} // namespace coeval
