#include "examine/examine.hpp"

#include <algorithm>
#include <array>
#include <bit>
#include <functional>
#include <stdexcept>

#include "examine/alike.hpp"

namespace coeval {
namespace {

Remaining remaining_of(const FeatureTable& table, const std::vector<std::size_t>& left) {
  if (left.empty()) return Remaining::nothing;
  const auto originals =
      std::ranges::count_if(left, [&](std::size_t candidate) { return table.candidates[candidate].original(); });
  if (originals == 0) return Remaining::reproductions;
  return static_cast<std::size_t>(originals) == left.size() ? Remaining::originals : Remaining::mixed;
}

// Takes one observation into the stands of all candidates.
void compare(const Column& column, const Observation& observation, std::uint64_t bit, std::vector<Stand>& stands) {
  std::vector<Fit> fits(column.distinct());
  for (std::size_t code = 0; code < fits.size(); ++code) fits[code] = fit_of(column, code, observation);
  for (std::size_t candidate = 0; candidate < stands.size(); ++candidate) {
    const auto codes = column.of(candidate);
    if (codes.empty()) continue;
    bool inside = false;
    bool undecided = false;
    for (const std::uint32_t code : codes) {
      inside = inside || fits[code] == Fit::inside;
      undecided = undecided || fits[code] == Fit::undecided;
    }
    Stand& stand = stands[candidate];
    (inside ? stand.agrees : undecided ? stand.undecided : stand.excludes) |= bit;
  }
}

// Whether looking at the feature again would show nothing new: it was seen for sure, not as one of several things nor
// too roughly for a candidate that is left.
bool is_settled(FeatureIndex feature, const std::vector<Observation>& observations, const Outcome& outcome) {
  for (std::size_t i = 0; i < observations.size(); ++i) {
    const Observation& seen = observations[i];
    if (seen.feature != feature || seen.negated || seen.atoms.size() > 1) continue;
    const std::uint64_t bit = std::uint64_t{1} << i;
    if (std::ranges::none_of(outcome.left, [&](std::size_t c) { return (outcome.stands[c].undecided & bit) != 0; }))
      return true;
  }
  return false;
}

void find_nearest(Outcome& outcome) {
  const auto against = [](const Stand& stand) { return std::popcount(stand.excludes) + (stand.ruled_out ? 1 : 0); };
  int fewest = 66;
  for (const Stand& stand : outcome.stands) fewest = std::min(fewest, against(stand));
  std::array<std::size_t, most_observations> frees{};
  std::uint64_t any = 0;
  for (std::size_t candidate = 0; candidate < outcome.stands.size(); ++candidate) {
    const std::uint64_t excludes = outcome.stands[candidate].excludes;
    if (against(outcome.stands[candidate]) != fewest) continue;
    outcome.nearest.push_back(candidate);
    any |= excludes;
    for (const std::size_t observation : members(excludes)) ++frees[observation];
  }
  outcome.recheck = members(any);
  std::ranges::stable_sort(outcome.recheck, std::greater{},
                           [&](std::size_t observation) { return frees[observation]; });
}

} // namespace

std::string_view name(Remaining remaining) {
  static constexpr std::array<std::string_view, 4> names{"originals", "reproductions", "mixed", "nothing"};
  return names[static_cast<std::size_t>(remaining)];
}

std::vector<std::size_t> members(std::uint64_t observations) {
  std::vector<std::size_t> list;
  for (; observations != 0; observations &= observations - 1)
    list.push_back(static_cast<std::size_t>(std::countr_zero(observations)));
  return list;
}

Outcome examine(const FeatureTable& table, const std::vector<Observation>& observations, const Question& question) {
  if (observations.size() > most_observations) throw std::length_error("examine: more than 64 observations");
  Outcome outcome;
  outcome.stands.resize(table.size());
  for (std::size_t i = 0; i < observations.size(); ++i)
    compare(table.columns[at(observations[i].feature)], observations[i], std::uint64_t{1} << i, outcome.stands);
  for (std::size_t candidate = 0; candidate < table.size(); ++candidate) {
    outcome.stands[candidate].ruled_out = !question.ruled_out.empty() && question.ruled_out[candidate];
    if (!outcome.stands[candidate].out()) outcome.left.push_back(candidate);
  }
  outcome.remaining = remaining_of(table, outcome.left);
  if (outcome.left.empty()) {
    find_nearest(outcome);
    return outcome;
  }
  const bool still_claimed = question.claimed && !outcome.stands[*question.claimed].out();
  const Classes classes =
      still_claimed ? Classes::claimed_or_not(table.size(), *question.claimed, outcome.left.size()) : Classes{};
  for (const Look& look : rank_looks(table, outcome.left, classes, question.seller_first)) {
    if (outcome.next.size() == question.most_next) break;
    if (!is_settled(look.feature, observations, outcome)) outcome.next.push_back(look);
  }
  return outcome;
}

std::string_view name(ClaimAnswer answer) {
  static constexpr std::array<std::string_view, 3> names{"consistent", "excluded", "undecided"};
  return names[static_cast<std::size_t>(answer)];
}

Conclusion conclude(const FeatureTable& table, const Outcome& outcome, std::size_t claimed) {
  Conclusion conclusion;
  bool reproduction = false; // that nothing tells from the claimed one
  for (const std::size_t other : outcome.left) {
    if (other == claimed) continue;
    const bool apart = told_apart(table, claimed, other);
    (apart ? conclusion.others : conclusion.alike).push_back(other);
    reproduction = reproduction || (!apart && !table.candidates[other].original());
  }
  const Stand& stand = outcome.stands[claimed];
  if (stand.out())
    conclusion.answer = ClaimAnswer::excluded;
  else if (conclusion.others.empty() && !reproduction && stand.agrees != 0)
    conclusion.answer = ClaimAnswer::consistent;
  else
    conclusion.answer = ClaimAnswer::undecided;
  return conclusion;
}

} // namespace coeval
