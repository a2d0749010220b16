#include "verdicts/claims.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "chronology/suppose.hpp"

namespace coeval {
namespace {

void add_proof(std::vector<Reason>& proof, std::vector<Reason> more) {
  for (Reason& reason : more) tell_once(proof, std::move(reason));
}

ClaimFinding refuted_by(Refutation refutation) {
  for (Reason& reason : refutation.statements) reason.weakest = false; // none of them is in doubt
  return {ClaimFinding::Answer::ruled_out, refutation.basis, std::move(refutation.statements)};
}

// Entailed one by one, each on the strongest basis that does it.
std::optional<ClaimFinding> proven_by(const Chronology& chronology, const SupposedStatements& supposed) {
  ClaimFinding finding{ClaimFinding::Answer::proven, Basis::documented, {}};
  for (const Constraint& constraint : supposed.all.constraints) {
    if (constraint.statement != supposed.index) continue;
    const auto basis = std::ranges::find_if(all_bases, [&](Basis level) {
      const auto upper = chronology.on(level).upper(constraint.x, constraint.y);
      return upper && *upper <= constraint.most;
    });
    if (basis == all_bases.end()) return {};
    finding.basis = std::max(*finding.basis, *basis);
    add_proof(finding.proof, chronology.tell_all(chronology.on(*basis).proof(constraint.x, constraint.y)));
  }
  return finding;
}

} // namespace

std::string_view name(ClaimFinding::Answer answer) {
  return answer == ClaimFinding::Answer::proven      ? "proven"
         : answer == ClaimFinding::Answer::ruled_out ? "ruled out"
                                                     : "allowed";
}

ClaimFinding find_claimed(const LinkedKb& kb, Judge& judge, const ClaimedPairing& claimed) {
  const Judgement judgement = judge.judge(claimed.run, claimed.issue, true);
  ClaimFinding finding;
  if (judgement.verdict > Verdict::open || judgement.verdict == Verdict::attested) {
    finding.answer =
        judgement.verdict == Verdict::attested ? ClaimFinding::Answer::proven : ClaimFinding::Answer::ruled_out;
    finding.basis = judgement.basis;
    for (const Ground ground : deciding_grounds(judgement)) add_proof(finding.proof, judgement.ground(ground).proof);
  }
  if (!claimed.card || finding.answer == ClaimFinding::Answer::ruled_out) return finding;
  const Pairing pairing{claimed.entry, claimed.run, claimed.issue, claimed.card, false, {}};
  if (auto refutation = refute(kb, state_supposing(kb, pairing), {}, Basis::conjectured))
    return refuted_by(std::move(*refutation));
  // That the two were found together says nothing of the card.
  const auto on_card = [&](const Pairing& other) {
    return other.run == claimed.run && other.issue == claimed.issue && other.card == claimed.card && !other.refuted &&
           !other.evidence.disputed;
  };
  if (std::ranges::none_of(kb.pairings, on_card)) return {};
  return finding;
}

ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, const Timing& timing) {
  const SupposedStatements supposed = state_supposing(kb, timing);
  if (auto refutation = refute(kb, supposed, {}, Basis::conjectured)) return refuted_by(std::move(*refutation));
  return proven_by(chronology, supposed).value_or(ClaimFinding{});
}

ClaimReport report_claim(const LinkedKb& kb, const Chronology& chronology, Judge& judge, ClaimIndex index) {
  const Claim& claim = kb.claims[at(index)];
  ClaimReport report{.claim = index};
  for (const ClaimedPairing& pairing : claim.pairings) {
    const Pairing stated{pairing.entry, pairing.run, pairing.issue, pairing.card, false, {}};
    report.stated.push_back({pairing.entry, in_words(kb, stated), find_claimed(kb, judge, pairing)});
  }
  for (const Timing& timing : claim.timings)
    report.stated.push_back({timing.entry, in_words(kb, timing), find_claimed(kb, chronology, timing)});
  const auto is = [](ClaimFinding::Answer answer) {
    return [answer](const ClaimReport::Stated& stated) { return stated.finding.answer == answer; };
  };
  using enum ClaimFinding::Answer;
  const bool some_ruled_out = std::ranges::any_of(report.stated, is(ruled_out));
  if (some_ruled_out)
    report.answer = ruled_out;
  else if (!report.stated.empty() && std::ranges::all_of(report.stated, is(proven)))
    report.answer = proven;
  for (const ClaimReport::Stated& stated : report.stated) {
    if (report.answer == allowed || stated.finding.answer != report.answer) continue;
    const Basis basis = stated.finding.basis.value();
    report.basis = !report.basis    ? basis
                   : some_ruled_out ? std::min(*report.basis, basis)
                                    : std::max(*report.basis, basis);
  }
  return report;
}

std::string finding_words(const ClaimReport& report) {
  if (report.stated.empty()) return "in words only";
  if (report.answer == ClaimFinding::Answer::allowed) return "neither proven nor ruled out";
  return fmt::format("{} on {} evidence", name(report.answer), name(report.basis.value()));
}

} // namespace coeval
