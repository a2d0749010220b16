// A claim's standing must follow from the evidence: what is called refuted must be impossible, what is called supported
// possible, and what is called open neither proven nor impossible.
#include <fmt/format.h>

#include "rules/rule_list.hpp"
#include "verdicts/claims.hpp"

namespace coeval {
namespace {

void report(const LinkedKb& kb, const Claim& claim, EntryIndex stated, const ClaimFinding& finding, Diagnostics& out) {
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
      report(kb, claim, pairing.entry, find_claimed(kb, chronology, judge, pairing), out);
    for (const Timing& timing : claim.timings)
      report(kb, claim, claim.entry, find_claimed(kb, chronology, timing, false), out);
  }
}

} // namespace coeval
