#include "chronology/suppose.hpp"

#include <algorithm>

namespace coeval {
namespace {

bool is_among(std::span<const StatementIndex> list, StatementIndex statement) {
  return std::ranges::find(list, statement) != list.end();
}

// Of what the supposed statement contradicts, everything but itself.
template <class Weaker>
Refutation told(const LinkedKb& kb, const Statements& all, const ConstraintGraph& graph,
                const Contradiction& contradiction, StatementIndex supposed, const Weaker& weaker) {
  Refutation refutation;
  refutation.basis = static_cast<Basis>(contradiction.level);
  for (const StatementIndex statement : contradiction.statements) {
    if (statement == supposed) continue;
    auto& weakest_yet = refutation.weakest;
    const bool later = weakest_yet && statement > *weakest_yet && !weaker(*weakest_yet, statement);
    if (!weakest_yet || weaker(statement, *weakest_yet) || later) weakest_yet = statement;
  }
  for (const ConstraintIndex index : contradiction.cycle) {
    const Constraint& constraint = graph[index];
    if (constraint.statement == by_definition || constraint.statement == supposed) continue;
    Reason reason = tell(kb, all.tellings[static_cast<std::size_t>(index)], constraint.most,
                         all.evidence[static_cast<std::size_t>(constraint.statement)]);
    reason.basis = static_cast<Basis>(constraint.level); // an uncertain date is weaker than its entry
    reason.weakest = constraint.statement == refutation.weakest;
    tell_once(refutation.statements, std::move(reason));
  }
  return refutation;
}

} // namespace

std::optional<Refutation> refute(const LinkedKb& kb, const SupposedStatements& supposed,
                                 std::span<const StatementIndex> set_aside, Basis weakest) {
  const Statements& all = supposed.all;
  std::vector<Constraint> constraints = all.constraints;
  constexpr auto left_out = static_cast<std::uint8_t>(all_bases.size()); // a level that is never asked about
  for (Constraint& constraint : constraints)
    if (is_among(set_aside, constraint.statement)) constraint.level = left_out;
  const ConstraintGraph graph{all.points, std::move(constraints)};
  const auto weaker = [&all](StatementIndex one, StatementIndex other) {
    return is_weaker(*all.evidence[static_cast<std::size_t>(one)], *all.evidence[static_cast<std::size_t>(other)]);
  };
  // What counts is satisfiable without the supposed statement. Where that one is doubted first, it is put back last,
  // and what it then contradicts is found from it.
  const auto doubted_first = [&](StatementIndex one, StatementIndex other) {
    if (one == supposed.index || other == supposed.index) return one != other && one == supposed.index;
    return weaker(one, other);
  };
  const std::vector<Contradiction> found = find_contradictions(graph, static_cast<int>(weakest) + 1, doubted_first);
  if (found.empty()) return {};
  return told(kb, all, graph, found.front(), *supposed.index, weaker);
}

std::vector<std::optional<Refutation>> refute_each(const LinkedKb& kb, const ManySupposed& supposed, Basis weakest) {
  const Statements& all = supposed.all;
  const ConstraintGraph graph{all.points, all.constraints};
  const auto weaker = [&all](StatementIndex one, StatementIndex other) {
    return is_weaker(*all.evidence[static_cast<std::size_t>(one)], *all.evidence[static_cast<std::size_t>(other)]);
  };
  std::vector<bool> is_supposed(all.evidence.size(), false);
  for (const StatementIndex index : supposed.indices) is_supposed[static_cast<std::size_t>(index)] = true;
  const auto doubted_first = [&](StatementIndex one, StatementIndex other) {
    const bool first = is_supposed[static_cast<std::size_t>(one)];
    if (first || is_supposed[static_cast<std::size_t>(other)])
      return first && !is_supposed[static_cast<std::size_t>(other)];
    return weaker(one, other);
  };
  const auto found = find_contradictions_of(graph, static_cast<int>(weakest) + 1, supposed.indices, doubted_first);
  std::vector<std::optional<Refutation>> refutations(supposed.indices.size());
  for (std::size_t i = 0; i < found.size(); ++i)
    if (found[i]) refutations[i] = told(kb, all, graph, *found[i], supposed.indices[i], weaker);
  return refutations;
}

Chronology solve_supposing(const LinkedKb& kb, const SupposedStatements& supposed,
                           std::span<const StatementIndex> set_aside, Basis weakest) {
  Statements right = supposed.all;
  right.constraints.clear();
  right.tellings.clear();
  for (std::size_t i = 0; i < supposed.all.constraints.size(); ++i) {
    const Constraint& constraint = supposed.all.constraints[i];
    if (constraint.level > static_cast<std::uint8_t>(weakest) || is_among(set_aside, constraint.statement)) continue;
    right.constraints.push_back(constraint);
    right.tellings.push_back(supposed.all.tellings[i]);
  }
  return Chronology{kb, std::move(right)};
}

} // namespace coeval
