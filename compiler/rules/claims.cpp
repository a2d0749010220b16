// A claim's standing must follow from the evidence: what is called refuted must be ruled out, what is called supported
// must not be, and what is called open must be neither proven nor ruled out. A supported claim that is proven is good
// news; whoever says so in the entry is told where the proof is lost again.
#include <fmt/format.h>

#include "rules/rule_list.hpp"
#include "verdicts/claims.hpp"

namespace coeval {
namespace {

using enum ClaimFinding::Answer;

std::string on_evidence(const ClaimFinding& finding) {
  return fmt::format("on {} evidence", name(finding.basis.value()));
}

void check_statement(const LinkedKb& kb, const Claim& claim, const ClaimReport::Stated& stated, Diagnostics& out) {
  const ClaimFinding& finding = stated.finding;
  Diagnostic wrong;
  wrong.place = kb.entries[claim.entry].place;
  wrong.reasons = finding.proof;
  if (claim.standing == ClaimStanding::refuted && finding.answer != ruled_out) {
    wrong.code = Code::refuted_claim_possible;
    wrong.message = fmt::format("the claim `{}` is called refuted, but {}", claim.id,
                                finding.answer == proven ? "the statements here prove it " + on_evidence(finding)
                                                         : std::string{"nothing here rules it out"});
    wrong.help = finding.answer == proven ? "call it supported, or mend the statement that proves it"
                                          : "add the statement that refutes it, or call it open";
  } else if (claim.standing == ClaimStanding::supported && finding.answer == ruled_out) {
    wrong.code = Code::supported_claim_impossible;
    wrong.message = fmt::format("the claim `{}` is called supported, but the statements here rule it out {}", claim.id,
                                on_evidence(finding));
    wrong.help = "call it refuted, or mend the statement that rules it out";
  } else if (claim.standing == ClaimStanding::open && finding.answer != allowed) {
    wrong.code = Code::open_claim_decided;
    wrong.message = fmt::format("the claim `{}` is called open, but the statements here {} {}", claim.id,
                                finding.answer == proven ? "prove it" : "rule it out", on_evidence(finding));
    wrong.help = finding.answer == proven ? "call it supported, with proven = true" : "call it refuted";
  } else {
    return;
  }
  wrong.labels.push_back({kb.entries[stated.entry].place, "what it states"});
  out.report(std::move(wrong));
}

void check_proven(const LinkedKb& kb, const Claim& claim, const ClaimReport& report, Diagnostics& out) {
  const bool says_proven = kb.entries[claim.entry].flag("proven");
  Diagnostic found;
  found.place = kb.entries[claim.entry].place;
  if (says_proven && claim.standing != ClaimStanding::supported) {
    found.code = Code::claim_not_proven;
    found.message = fmt::format("the claim `{}` says that it is proven, but is not called supported", claim.id);
    found.help = "call it supported, or drop `proven`";
  } else if (says_proven && report.answer != proven) {
    found.code = Code::claim_not_proven;
    found.message = fmt::format("the claim `{}` says that it is proven, but nothing here proves it", claim.id);
    found.help = report.stated.empty() ? "state it as a [[claim.pairing]] or [[claim.timing]], or drop `proven`"
                                       : "add the statement that proves it, or drop `proven`";
  } else if (!says_proven && claim.standing == ClaimStanding::supported && report.answer == proven) {
    found.code = Code::claim_now_proven;
    found.message = fmt::format("the claim `{}` is called supported, and is now proven on {} evidence", claim.id,
                                name(report.basis.value()));
    found.help = "add proven = true, so that readers are told, and you are if the proof is lost";
    for (const ClaimReport::Stated& stated : report.stated)
      for (const Reason& reason : stated.finding.proof) tell_once(found.reasons, reason);
  } else {
    return;
  }
  out.report(std::move(found));
}

} // namespace

void check_claims(const RuleInput& input, const Chronology& chronology, Diagnostics& out) {
  if (!input.complete || !chronology.contradictions().empty()) return; // nothing can be concluded yet
  const LinkedKb& kb = input.kb;
  Judge judge{kb, chronology, Basis::conjectured};
  for (const ClaimReport& report : report_claims(kb, chronology, judge)) {
    const Claim& claim = kb.claims[at(report.claim)];
    for (const ClaimReport::Stated& stated : report.stated) check_statement(kb, claim, stated, out);
    check_proven(kb, claim, report, out);
  }
}

} // namespace coeval
