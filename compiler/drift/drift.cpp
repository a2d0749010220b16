#include "drift/drift.hpp"

#include <algorithm>
#include <set>

namespace coeval {
namespace {

// A contradiction by what its statements say: the same text, the same contradiction.
struct ToldContradiction {
  std::string said;
  std::vector<Reason> reasons;
};

std::vector<ToldContradiction> contradictions_of(const Version& version) {
  std::vector<ToldContradiction> list;
  for (const Contradiction& contradiction : version.dates.contradictions()) {
    ToldContradiction told{{}, version.dates.tell_contradiction(contradiction)};
    std::vector<std::string> statements;
    for (const Reason& reason : told.reasons) statements.push_back(reason.statement);
    std::ranges::sort(statements); // a cycle has no first statement
    for (const std::string& statement : statements) told.said += statement + "\n";
    list.push_back(std::move(told));
  }
  return list;
}

void compare_contradictions(const Version& before, const Version& after, Drift& drift) {
  const std::vector<ToldContradiction> were = contradictions_of(before);
  const std::vector<ToldContradiction> are = contradictions_of(after);
  const auto add_missing = [&](const auto& here, const auto& there, bool came) {
    for (const ToldContradiction& told : here)
      if (std::ranges::find(there, told.said, &ToldContradiction::said) == there.end())
        drift.contradictions.push_back({came, told.reasons});
  };
  add_missing(are, were, true);
  add_missing(were, are, false);
}

} // namespace

std::size_t Drift::changed_verdicts() const {
  std::size_t count = 0;
  for (const CausedChanges& group : causes) count += group.changes.verdicts.size();
  return count;
}

Drift drift_between(const Version& before, const Version& after, Basis weakest) {
  Drift drift;
  drift.edits = edits_between(before, after);
  drift.renames = guess_renames(before, after, drift.edits);
  compare_contradictions(before, after, drift);
  drift.answers_compared = before.dates.contradictions().empty() && after.dates.contradictions().empty();
  if (!drift.answers_compared) return drift;
  const AnswerChanges changes = compare_answers(before, after, weakest);
  drift.verdicts_compared = changes.compared;
  drift.causes = find_causes(before, after, drift.edits, changes, weakest, most_mixtures(before.kb));
  drift.arrived = only_in(after, before.kb, weakest);
  drift.gone = only_in(before, after.kb, weakest);
  return drift;
}

} // namespace coeval
