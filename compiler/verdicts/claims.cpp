#include "verdicts/claims.hpp"

#include <algorithm>
#include <deque>

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
std::optional<ClaimFinding> proven_by(const Chronology& chronology, std::span<const Constraint> constraints,
                                      StatementIndex statement) {
  ClaimFinding finding{ClaimFinding::Answer::proven, Basis::documented, {}};
  for (const Constraint& constraint : constraints) {
    if (constraint.statement != statement) continue;
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

Pairing as_pairing(const ClaimedPairing& claimed) {
  return {claimed.entry, claimed.run, claimed.issue, claimed.card, false, {}};
}

// What the verdict alone says.
ClaimFinding judged(Judge& judge, const ClaimedPairing& claimed) {
  const Judgement judgement = judge.judge(claimed.run, claimed.issue, true);
  ClaimFinding finding;
  if (judgement.verdict > Verdict::open || judgement.verdict == Verdict::attested) {
    finding.answer =
        judgement.verdict == Verdict::attested ? ClaimFinding::Answer::proven : ClaimFinding::Answer::ruled_out;
    finding.basis = judgement.basis;
    for (const Ground ground : deciding_grounds(judgement)) add_proof(finding.proof, judgement.ground(ground).proof);
  }
  return finding;
}

bool depends_on_card(const ClaimedPairing& claimed, const ClaimFinding& finding) {
  return claimed.card && finding.answer != ClaimFinding::Answer::ruled_out;
}

ClaimFinding with_card(const LinkedKb& kb, const ClaimedPairing& claimed, ClaimFinding finding,
                       std::optional<Refutation> refutation) {
  if (refutation) return refuted_by(std::move(*refutation));
  // That the two were found together says nothing of the card.
  const auto on_card = [&](PairingIndex index) {
    const Pairing& other = kb.pairings[at(index)];
    return other.issue == claimed.issue && other.card == claimed.card && !other.refuted && !other.evidence.disputed;
  };
  if (std::ranges::none_of(kb.runs[at(claimed.run)].pairings, on_card)) return {};
  return finding;
}

// What the statements make of the whole.
void sum_up(ClaimReport& report) {
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
}

} // namespace

std::string_view name(ClaimFinding::Answer answer) {
  return answer == ClaimFinding::Answer::proven      ? "proven"
         : answer == ClaimFinding::Answer::ruled_out ? "ruled out"
                                                     : "allowed";
}

ClaimFinding find_claimed(const LinkedKb& kb, Judge& judge, const ClaimedPairing& claimed) {
  ClaimFinding finding = judged(judge, claimed);
  if (!depends_on_card(claimed, finding)) return finding;
  const Pairing pairing = as_pairing(claimed);
  return with_card(kb, claimed, std::move(finding), refute(kb, state_supposing(kb, pairing), {}, Basis::conjectured));
}

ClaimFinding find_claimed(const LinkedKb& kb, const Chronology& chronology, const Timing& timing) {
  const SupposedStatements supposed = state_supposing(kb, timing);
  if (auto refutation = refute(kb, supposed, {}, Basis::conjectured)) return refuted_by(std::move(*refutation));
  return proven_by(chronology, supposed.all.constraints, *supposed.index).value_or(ClaimFinding{});
}

ClaimReport report_claim(const LinkedKb& kb, const Chronology& chronology, Judge& judge, ClaimIndex index) {
  const Claim& claim = kb.claims[at(index)];
  ClaimReport report{.claim = index};
  for (const ClaimedPairing& pairing : claim.pairings)
    report.stated.push_back({pairing.entry, in_words(kb, as_pairing(pairing)), find_claimed(kb, judge, pairing)});
  for (const Timing& timing : claim.timings)
    report.stated.push_back({timing.entry, in_words(kb, timing), find_claimed(kb, chronology, timing)});
  sum_up(report);
  return report;
}

std::vector<ClaimReport> report_claims(const LinkedKb& kb, const Chronology& chronology, Judge& judge) {
  std::vector<ClaimReport> reports;
  // What has to be held against everything else is collected first, and held against it in one go.
  std::deque<Pairing> pairings; // does not move what is pointed at
  std::vector<Supposable> supposed;
  struct Waiting {
    std::size_t report = 0;
    std::size_t stated = 0;
    const ClaimedPairing* pairing = nullptr; // nothing for a timing
  };
  std::vector<Waiting> waiting; // for each that is supposed
  for (std::size_t i = 0; i < kb.claims.size(); ++i) {
    ClaimReport& report = reports.emplace_back();
    report.claim = ClaimIndex{static_cast<std::uint32_t>(i)};
    for (const ClaimedPairing& pairing : kb.claims[i].pairings) {
      report.stated.push_back({pairing.entry, in_words(kb, as_pairing(pairing)), judged(judge, pairing)});
      if (!depends_on_card(pairing, report.stated.back().finding)) continue;
      supposed.emplace_back(&pairings.emplace_back(as_pairing(pairing)));
      waiting.push_back({i, report.stated.size() - 1, &pairing});
    }
    for (const Timing& timing : kb.claims[i].timings) {
      report.stated.push_back({timing.entry, in_words(kb, timing), {}});
      supposed.emplace_back(&timing);
      waiting.push_back({i, report.stated.size() - 1});
    }
  }
  if (!supposed.empty()) {
    const ManySupposed many = state_supposing_each(kb, supposed);
    std::vector<std::optional<Refutation>> refutations = refute_each(kb, many, Basis::conjectured);
    for (std::size_t i = 0; i < waiting.size(); ++i) {
      ClaimFinding& finding = reports[waiting[i].report].stated[waiting[i].stated].finding;
      const auto [first, last] = many.constraints[i];
      if (waiting[i].pairing != nullptr)
        finding = with_card(kb, *waiting[i].pairing, std::move(finding), std::move(refutations[i]));
      else if (refutations[i])
        finding = refuted_by(std::move(*refutations[i]));
      else
        finding = proven_by(chronology, std::span{many.all.constraints}.subspan(first, last - first), many.indices[i])
                      .value_or(ClaimFinding{});
    }
  }
  for (ClaimReport& report : reports) sum_up(report);
  return reports;
}

std::string finding_words(const ClaimReport& report) {
  if (report.stated.empty()) return "in words only";
  if (report.answer == ClaimFinding::Answer::allowed) return "neither proven nor ruled out";
  return fmt::format("{} on {} evidence", name(report.answer), name(report.basis.value()));
}

} // namespace coeval
