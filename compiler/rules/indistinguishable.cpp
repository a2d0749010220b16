// Whoever looks at everything that is entered, and still cannot tell an original from a reproduction, or one mould from
// another, has been let down by the entries: that is remarked on. Not so where runs of one mould look alike, which
// differ by plant or date as often as by colour: `coeval key` lists them together, and nobody is warned. Nor where an
// accessory states no feature yet.
#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "examine/alike.hpp"
#include "rules/rule_list.hpp"

namespace coeval {
namespace {

class Accepted {
public:
  explicit Accepted(const LinkedKb& kb) : kb_(kb) {
    for (const Alike& alike : kb.alike) pairs_.insert(std::minmax(alike.entry, alike.other));
  }

  // A run is also what is said of its mould.
  [[nodiscard]] bool between(const Candidate& one, const Candidate& other) const {
    for (const EntryIndex a : entries(one))
      for (const EntryIndex b : entries(other))
        if (pairs_.contains(std::minmax(a, b))) return true;
    return false;
  }

private:
  [[nodiscard]] std::vector<EntryIndex> entries(const Candidate& candidate) const {
    if (const auto* run = std::get_if<RunIndex>(&candidate.what))
      return {kb_.runs[at(*run)].entry, kb_.moulds[at(kb_.runs[at(*run)].mould)].entry};
    return {kb_.repros[at(std::get<ReproIndex>(candidate.what))].entry};
  }

  const LinkedKb& kb_;
  std::set<std::pair<EntryIndex, EntryIndex>> pairs_;
};

EntryIndex entry_of(const LinkedKb& kb, const Candidate& candidate) {
  if (const auto* run = std::get_if<RunIndex>(&candidate.what)) return kb.runs[at(*run)].entry;
  return kb.repros[at(std::get<ReproIndex>(candidate.what))].entry;
}

// Of an entry with a refused value it is not known what it states; that is reported already.
bool states_something(const LinkedKb& kb, const Candidate& candidate) {
  if (kb.entries[entry_of(kb, candidate)].broken) return false;
  return std::ranges::any_of(candidate.stated,
                             [&](const Stated& stated) { return harmless(kb.features[at(stated.feature)]); });
}

// Whether somebody needs to tell the one from the other.
bool matters(const LinkedKb& kb, const Candidate& one, const Candidate& other) {
  if (one.original() != other.original()) return true;
  if (!one.original()) return false; // neither is worth anything to a collector
  return kb.runs[at(std::get<RunIndex>(one.what))].mould != kb.runs[at(std::get<RunIndex>(other.what))].mould;
}

// `may_tell`: some look does, if the part at hand shows something that the others cannot.
void report(const LinkedKb& kb, const std::vector<const Candidate*>& set, bool may_tell, Diagnostics& out) {
  constexpr std::size_t most_named = 6;
  std::vector<std::string_view> names;
  for (const Candidate* candidate : set)
    if (names.size() < most_named) names.push_back(address_of(kb, *candidate));
  Diagnostic alike;
  alike.code = Code::indistinguishable;
  alike.place = kb.entries[entry_of(kb, *set.back())].place;
  alike.message = fmt::format("{}{} {} by any look", list_names(names, "and"),
                              set.size() > most_named ? fmt::format(" and {} more", set.size() - most_named) : "",
                              may_tell ? "are not sure to be told apart" : "cannot be told apart");
  alike.help = fmt::format("state a feature in which they differ, or accept it: alike = [\"{}\"]", names.front());
  for (std::size_t i = 0; i + 1 < set.size() && i < most_named; ++i)
    alike.labels.push_back({kb.entries[entry_of(kb, *set[i])].place, "can look just like it"});
  out.report(std::move(alike));
}

} // namespace

void check_indistinguishable(const RuleInput& input, const Chronology& /*chronology*/, Diagnostics& out) {
  const LinkedKb& kb = input.kb;
  if (!input.complete) return; // a feature may be declared in a file that was not read
  const Accepted accepted{kb};
  for (std::size_t i = 0; i < kb.accessories.size(); ++i) {
    const std::vector<Candidate> candidates = candidates_of(kb, AccessoryIndex{static_cast<std::uint32_t>(i)});
    const FeatureTable table = tabulate(kb, candidates);
    std::set<std::vector<const Candidate*>> told;
    for (const std::vector<std::size_t>& set : alike_sets(table)) {
      // Those of the set that somebody needs to tell from another of it, and that are not accepted.
      std::vector<const Candidate*> troubling;
      bool may_tell = false;
      for (const std::size_t one : set) {
        const bool troubles = std::ranges::any_of(set, [&](std::size_t other) {
          return matters(kb, candidates[one], candidates[other]) && states_something(kb, candidates[one]) &&
                 states_something(kb, candidates[other]) && !accepted.between(candidates[one], candidates[other]);
        });
        if (!troubles) continue;
        for (const Candidate* other : troubling)
          for (std::size_t column = 0; column < table.columns.size(); ++column)
            may_tell =
                may_tell || (harmless(kb.features[column]) &&
                             may_tell_apart(table, column, one, static_cast<std::size_t>(other - &candidates[0])));
        troubling.push_back(&candidates[one]);
      }
      if (!troubling.empty() && told.insert(troubling).second) report(kb, troubling, may_tell, out);
    }
  }
}

} // namespace coeval
