#include "shelf/part_fit.hpp"

#include <algorithm>

namespace coeval {
namespace {

std::uint64_t paired(std::size_t one, std::size_t other) {
  return std::uint64_t{one} << 32U | static_cast<std::uint32_t>(other);
}

bool is_no(Verdict verdict) { return verdict > Verdict::open; }

// Attested 13 to 16 and fits 9 to 12 by basis, open 4, doubtful 2.
std::int32_t strength_of(const PartFit& fit) {
  const auto below = static_cast<std::int32_t>(fit.basis.value_or(Basis::conjectured));
  switch (fit.state) {
  case FitState::right:
    return (fit.verdict == Verdict::attested ? 16 : 12) - below;
  case FitState::open:
    return 4;
  case FitState::doubtful:
    return 2;
  case FitState::unknown:
  case FitState::wrong:
  case FitState::reproduction:
    return 0;
  }
  return 0;
}

// The verdict that holds for every run.
void sum_up(PartFit& fit) {
  std::size_t yes = 0;
  std::size_t no = 0;
  for (const Judgement* judgement : fit.judgements) {
    yes += judgement->verdict < Verdict::open ? 1 : 0;
    no += is_no(judgement->verdict) ? 1 : 0;
  }
  const auto verdict_of = [](const Judgement* judgement) { return judgement->verdict; };
  if (yes == fit.judgements.size())
    fit.verdict = (*std::ranges::max_element(fit.judgements, {}, verdict_of))->verdict;
  else if (no == fit.judgements.size())
    fit.verdict = (*std::ranges::min_element(fit.judgements, {}, verdict_of))->verdict;
  if (fit.verdict != Verdict::open)
    for (const Judgement* judgement : fit.judgements)
      if (judgement->basis) fit.basis = std::max(fit.basis.value_or(Basis::documented), *judgement->basis);
}

// The slots for what it can be: those that take every accessory that the runs are of, else those that take any.
void find_slots(PartFit& fit, const LinkedKb& kb, const std::vector<IssueSlot>& slots) {
  std::vector<AccessoryIndex> accessories;
  for (const Judgement* judgement : fit.judgements)
    if (!is_no(judgement->verdict)) {
      const AccessoryIndex accessory = kb.runs[at(judgement->run)].accessory;
      if (std::ranges::find(accessories, accessory) == accessories.end()) accessories.push_back(accessory);
    }
  std::vector<std::size_t> any;
  for (std::size_t i = 0; i < slots.size(); ++i) {
    const auto taken = [&](AccessoryIndex accessory) {
      return std::ranges::find(slots[i].accessories, accessory) != slots[i].accessories.end();
    };
    if (std::ranges::any_of(accessories, taken)) any.push_back(i);
    if (!accessories.empty() && std::ranges::all_of(accessories, taken)) fit.slots.push_back(i);
  }
  if (!fit.slots.empty() || any.empty()) return;
  fit.slots = std::move(any);
  if (fit.state != FitState::right) return;
  fit.state = FitState::open; // it belongs, but nobody can say in which slot
  fit.verdict = Verdict::open;
  fit.basis.reset();
}

} // namespace

std::string_view name(FitState state) {
  constexpr std::array<std::string_view, fit_state_count> names{"right",   "open",  "doubtful",
                                                                "unknown", "wrong", "reproduction"};
  return names[static_cast<std::size_t>(state)];
}

std::vector<IssueSlot> slots_of(const Issue& issue) {
  std::vector<IssueSlot> slots;
  std::map<std::string_view, std::size_t> known;
  for (const Takes& takes : issue.takes) {
    const auto [place, fresh] = known.try_emplace(takes.slot, slots.size());
    if (fresh) slots.push_back({takes.slot, {}});
    slots[place->second].accessories.push_back(takes.accessory);
  }
  return slots;
}

bool PartFit::takes(std::size_t slot) const { return std::ranges::find(slots, slot) != slots.end(); }

PartJudge::PartJudge(const LinkedKb& kb, const Chronology& chronology, const LinkedShelf& shelf, Basis weakest)
    : kb_(kb), judge_(kb, chronology, weakest) {
  for (const OwnedPart& part : shelf.parts) {
    const auto [known, fresh] =
        by_identities_.try_emplace(part.could_be, PartKindIndex{static_cast<std::uint32_t>(identities_.size())});
    if (fresh) identities_.push_back(&known->first);
    kinds_.push_back(known->second);
  }
}

Remaining PartJudge::can_be(PartKindIndex kind) const {
  const std::vector<PartIdentity>& all = could_be(kind);
  const auto runs =
      std::ranges::count_if(all, [](const PartIdentity& it) { return std::holds_alternative<RunIndex>(it); });
  if (all.empty()) return Remaining::nothing;
  if (runs == 0) return Remaining::reproductions;
  return runs == std::ssize(all) ? Remaining::originals : Remaining::mixed;
}

const PartFit& PartJudge::fit(PartKindIndex kind, IssueIndex issue) {
  const auto [known, fresh] = fits_.try_emplace(paired(at(kind), at(issue)));
  if (fresh) known->second = judge_kind(kind, issue);
  return known->second;
}

const Judgement& PartJudge::judgement(RunIndex run, IssueIndex issue) {
  const auto [known, fresh] = judgements_.try_emplace(paired(at(run), at(issue)));
  if (fresh) known->second = judge_.judge(run, issue, false);
  return known->second;
}

const std::vector<IssueSlot>& PartJudge::slots(IssueIndex issue) {
  const auto [known, fresh] = slots_.try_emplace(static_cast<std::uint32_t>(at(issue)));
  if (fresh) {
    known->second = slots_of(kb_.issues[at(issue)]);
    const TimeSpanIndex span = kb_.issues[at(issue)].span;
    judge_.distances().keep(start_of(span));
    judge_.distances().keep(end_of(span));
  }
  return known->second;
}

PartFit PartJudge::judge_kind(PartKindIndex kind, IssueIndex issue) {
  PartFit fit;
  const std::vector<IssueSlot>& slots = this->slots(issue);
  for (const PartIdentity& identity : could_be(kind))
    if (const auto* run = std::get_if<RunIndex>(&identity))
      fit.judgements.push_back(&judgement(*run, issue));
    else
      ++fit.reproductions;
  if (fit.judgements.empty()) {
    fit.state = fit.reproductions == 0 ? FitState::unknown : FitState::reproduction;
    return fit;
  }
  sum_up(fit);
  fit.state = is_no(fit.verdict)            ? FitState::wrong
              : fit.reproductions > 0       ? FitState::doubtful
              : fit.verdict < Verdict::open ? FitState::right
                                            : FitState::open;
  find_slots(fit, kb_, slots);
  fit.strength = strength_of(fit);
  return fit;
}

std::vector<PossibleIssue> possible_issues(const LinkedKb& kb, const OwnedPiece& piece, PartJudge& judge) {
  std::vector<PossibleIssue> list;
  if (!piece.figure) return list;
  for (const IssueIndex issue : kb.figures[at(*piece.figure)].issues) {
    PossibleIssue possible{.issue = issue};
    for (const PartIndex part : piece.parts) {
      const FitState state = judge.fit(part, issue).state;
      if (state == FitState::right) ++possible.right;
      if (state == FitState::open || state == FitState::doubtful) ++possible.open;
      if (state == FitState::wrong) ++possible.wrong;
    }
    list.push_back(possible);
  }
  std::ranges::stable_sort(list, [](const PossibleIssue& one, const PossibleIssue& other) {
    return std::pair{one.wrong, other.right} < std::pair{other.wrong, one.right};
  });
  return list;
}

} // namespace coeval
