#include "chronology/chronology.hpp"

#include <algorithm>
#include <utility>

namespace coeval {

Chronology solve_chronology(const LinkedKb& kb) { return Chronology{kb, state(kb)}; }

Chronology::Chronology(const LinkedKb& kb, Statements statements)
    : kb_(&kb), tellings_(std::move(statements.tellings)), evidence_(std::move(statements.evidence)),
      graph_(std::make_shared<const ConstraintGraph>(statements.points, std::move(statements.constraints))) {
  const auto weaker = [this](StatementIndex one, StatementIndex other) {
    return is_weaker(*evidence_[static_cast<std::size_t>(one)], *evidence_[static_cast<std::size_t>(other)]);
  };
  constexpr auto levels = static_cast<int>(all_bases.size());
  levels_ = Entailment::build_each(*graph_, levels);
  if (!levels_.empty()) return; // nothing contradicts anything
  contradictions_ = find_contradictions(*graph_, levels, weaker);
  std::vector<StatementIndex> set_aside;
  for (const Contradiction& contradiction : contradictions_) set_aside.push_back(contradiction.weakest);
  levels_ = Entailment::build_each(*graph_, levels, set_aside);
}

DayBounds Chronology::bounds(Point point, Basis basis) const {
  return {on(basis).earliest(point), on(basis).latest(point)};
}

ProvenBound Chronology::proven_bound(Point point, Side side, Basis weakest) const {
  const auto day_on = [&](Basis basis) {
    const DayBounds known = bounds(point, basis);
    return side == Side::earliest ? known.earliest : known.latest;
  };
  ProvenBound result;
  result.day = day_on(weakest);
  if (!result.day) return result;
  for (const Basis basis : all_bases) {
    if (day_on(basis) != result.day) continue;
    result.basis = basis;
    const auto chain = side == Side::earliest ? on(basis).proof(origin, point) : on(basis).proof(point, origin);
    result.proof = tell_all(chain);
    break;
  }
  return result;
}

Reason Chronology::tell_one(ConstraintIndex index) const {
  const Constraint& constraint = (*graph_)[index];
  const bool defined = constraint.statement == by_definition;
  Reason reason = tell(*kb_, tellings_[static_cast<std::size_t>(index)], constraint.most,
                       defined ? nullptr : evidence_[static_cast<std::size_t>(constraint.statement)]);
  if (!defined) reason.basis = static_cast<Basis>(constraint.level); // an uncertain date is weaker than its entry
  return reason;
}

std::vector<Reason> Chronology::tell_all(std::span<const ConstraintIndex> chain) const {
  std::vector<Reason> reasons;
  std::vector<Reason> definitions;
  for (const ConstraintIndex index : chain) {
    Reason reason = tell_one(index);
    tell_once(reason.definition ? definitions : reasons, std::move(reason));
  }
  return std::move(reasons.empty() ? definitions : reasons);
}

std::vector<Reason> Chronology::tell_contradiction(const Contradiction& contradiction) const {
  std::vector<Reason> reasons;
  for (const ConstraintIndex index : contradiction.cycle) {
    const StatementIndex statement = (*graph_)[index].statement;
    if (statement == by_definition) continue;
    Reason reason = tell_one(index);
    reason.weakest = statement == contradiction.weakest;
    tell_once(reasons, std::move(reason));
  }
  return reasons;
}

} // namespace coeval
