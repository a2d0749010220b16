#include "drift/causes.hpp"

#include <algorithm>
#include <functional>
#include <list>
#include <numeric>
#include <set>

namespace coeval {
namespace {

using EditSetOf = std::vector<EditIndex>; // ascending

// Which entry stands at a place.
class PlaceIndex {
public:
  explicit PlaceIndex(const LinkedKb& kb) {
    for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
      const EntryIndex index{static_cast<std::uint32_t>(i)};
      const Entry& entry = kb.entries.entries[i];
      begins_.push_back({entry.place.file, entry.place.begin, index});
      for (const Field& field : entry.fields) begins_.push_back({field.place.file, field.place.begin, index});
    }
    std::ranges::sort(begins_);
  }
  [[nodiscard]] std::optional<EntryIndex> entry_at(const Span& place) const {
    auto after = std::ranges::upper_bound(begins_, std::tuple{place.file, place.begin, no_entry});
    if (after == begins_.begin() || std::get<0>(*--after) != place.file) return {};
    return std::get<2>(*after);
  }

private:
  std::vector<std::tuple<FileIndex, std::uint32_t, EntryIndex>> begins_;
};

// The edits of each entry of one version, with those of the parent whose basis and sources it takes over.
class EditsOfEntries {
public:
  EditsOfEntries(const LinkedKb& kb, const std::vector<Edit>& edits, EntryIndex Edit::*side) : kb_(kb), places_(kb) {
    for (std::size_t i = 0; i < edits.size(); ++i)
      if (edits[i].bears && edits[i].*side != no_entry)
        of_entry_[edits[i].*side].push_back(EditIndex{static_cast<std::uint32_t>(i)});
  }
  void add(const std::vector<Span>& places, std::set<EditIndex>& into) const {
    for (const Span& place : places)
      for (auto entry = places_.entry_at(place); entry && *entry != no_entry; entry = kb_.entries[*entry].parent)
        if (const auto found = of_entry_.find(*entry); found != of_entry_.end())
          into.insert(found->second.begin(), found->second.end());
  }

private:
  const LinkedKb& kb_;
  PlaceIndex places_;
  std::map<EntryIndex, std::vector<EditIndex>> of_entry_;
};

// One change whose cause is looked for.
struct Target {
  std::variant<const ChangedVerdict*, const BoundChange*, const ClaimChange*> change;
  EditSetOf candidates; // the edits that the proofs of both answers rest on
  std::optional<Cause> cause;
};

// Mixtures as they are needed; the last few stay, so that several changes can be asked of each.
class Trials {
public:
  Trials(const Version& before, const Version& after, const std::vector<Edit>& edits, Basis weakest, std::size_t most)
      : mixer_(before.kb, after.kb, edits), weakest_(weakest), left_(most) {}

  // Whether this set alone gives the new answer; nothing where no more mixtures may be made.
  std::optional<bool> gives(const EditSetOf& set, const Target& target) {
    Trial* trial = find(set);
    if (trial == nullptr) return {};
    if (!trial->answers) return false;
    return std::visit(
        [&](const auto* change) {
          const auto given = trial->answers->answer(change->question);
          return given && same_outcome(change->before, change->after, *given);
        },
        target.change);
  }
  [[nodiscard]] std::size_t left() const { return left_; }

private:
  struct Trial {
    EditSetOf set;
    Mixture mixture;
    std::unique_ptr<Answerer> answers; // nothing where the mixture contradicts itself
  };

  Trial* find(const EditSetOf& set) {
    constexpr std::size_t most_kept = 12;
    const auto found = std::ranges::find(kept_, set, &Trial::set);
    if (found != kept_.end()) {
      kept_.splice(kept_.begin(), kept_, found);
      return &kept_.front();
    }
    if (left_ == 0) return nullptr;
    --left_;
    if (kept_.size() == most_kept) kept_.pop_back();
    Trial& trial = kept_.emplace_front();
    trial.set = set;
    trial.mixture = mixer_.mix(set);
    if (trial.mixture.dates)
      trial.answers = std::make_unique<Answerer>(*trial.mixture.kb, *trial.mixture.dates, weakest_);
    return &trial;
  }

  Mixer mixer_;
  Basis weakest_;
  std::size_t left_;
  std::list<Trial> kept_; // the latest first
};

class CauseFinder {
public:
  CauseFinder(const Version& before, const Version& after, const std::vector<Edit>& edits, Basis weakest,
              std::size_t most)
      : before_(before), after_(after), edits_(edits), weakest_(weakest), trials_(before, after, edits, weakest, most) {
    for (std::size_t i = 0; i < edits.size(); ++i)
      if (edits[i].bears) all_.push_back(EditIndex{static_cast<std::uint32_t>(i)});
  }

  std::vector<CausedChanges> find(const AnswerChanges& changes) {
    for (const ChangedVerdict& change : changes.verdicts) targets_.push_back({&change, {}, {}});
    for (const BoundChange& change : changes.bounds) targets_.push_back({&change, {}, {}});
    for (const ClaimChange& change : changes.claims) targets_.push_back({&change, {}, {}});
    find_candidates();
    try_alone([](const Target& target, EditIndex edit) { return std::ranges::binary_search(target.candidates, edit); });
    alone_tried_ = try_alone(
        [](const Target& target, EditIndex edit) { return !std::ranges::binary_search(target.candidates, edit); });
    for (Target& target : targets_)
      if (!target.cause) target.cause = search(target);
    return grouped();
  }

private:
  void find_candidates() {
    Answerer old_answers{before_.kb, before_.dates, weakest_};
    Answerer new_answers{after_.kb, after_.dates, weakest_};
    const EditsOfEntries old_edits{before_.kb, edits_, &Edit::before};
    const EditsOfEntries new_edits{after_.kb, edits_, &Edit::after};
    for (Target& target : targets_) {
      std::set<EditIndex> found;
      std::visit(
          [&](const auto* change) {
            old_edits.add(old_answers.places(change->question), found);
            new_edits.add(new_answers.places(change->question), found);
          },
          target.change);
      target.candidates.assign(found.begin(), found.end());
    }
  }

  // False where some edit could not be tried for a change that is still without a cause.
  bool try_alone(const std::function<bool(const Target&, EditIndex)>& is_to_be_tried) {
    for (const EditIndex edit : all_)
      for (Target& target : targets_) {
        if (target.cause || !is_to_be_tried(target, edit)) continue;
        const auto gives = trials_.gives({edit}, target);
        if (!gives) return false;
        if (*gives) target.cause = Cause{{edit}, Certainty::smallest};
      }
    return true;
  }

  Cause search(const Target& target) {
    for (const EditSetOf& known : known_)
      if (known.size() == 2 && alone_tried_ && trials_.gives(known, target).value_or(false))
        return {known, Certainty::smallest};
    EditSetOf set = target.candidates;
    if (set.size() < 2 || !trials_.gives(set, target).value_or(false)) {
      set = all_;
      if (!trials_.gives(set, target).value_or(false)) return {all_, Certainty::untried};
    }
    if (!reduce(set, target)) return {all_, Certainty::untried};
    Cause cause{std::move(set), Certainty::irreducible};
    if (cause.edits.size() == 1) cause.certainty = Certainty::smallest;
    if (alone_tried_) find_smaller(cause, target);
    known_.insert(cause.edits);
    return cause;
  }

  // Leaves out what can be left out, in ever smaller chunks. False where it had to stop before the end.
  bool reduce(EditSetOf& set, const Target& target) {
    for (std::size_t chunk = std::max<std::size_t>(1, set.size() / 2);;) {
      bool smaller = false;
      for (std::size_t begin = 0; begin < set.size() && set.size() > 1;) {
        EditSetOf rest(set.begin(), set.begin() + static_cast<std::ptrdiff_t>(begin));
        rest.insert(rest.end(), set.begin() + static_cast<std::ptrdiff_t>(std::min(set.size(), begin + chunk)),
                    set.end());
        const auto gives = rest.empty() ? std::optional{false} : trials_.gives(rest, target);
        if (!gives) return false;
        if (*gives) {
          set = std::move(rest);
          smaller = true;
        } else {
          begin += chunk;
        }
      }
      if (chunk > 1)
        chunk /= 2;
      else if (!smaller)
        return true;
    }
  }

  // Tries every set of two, then three … edits, as long as all of a size can still be tried.
  void find_smaller(Cause& cause, const Target& target) {
    for (std::size_t size = 2; size < cause.edits.size(); ++size) {
      std::size_t count = 1; // of the sets of this size
      for (std::size_t i = 0; i < size; ++i) {
        count = count * (all_.size() - i) / (i + 1);
        if (count > trials_.left()) return;
      }
      std::vector<std::size_t> chosen(size);
      std::iota(chosen.begin(), chosen.end(), std::size_t{0});
      do {
        EditSetOf set;
        for (const std::size_t i : chosen) set.push_back(all_[i]);
        if (!trials_.gives(set, target).value_or(false)) continue;
        cause = {std::move(set), Certainty::smallest};
        return;
      } while (next_choice(chosen, all_.size()));
    }
    cause.certainty = Certainty::smallest;
  }

  // The next ascending choice from 0 .. count - 1.
  static bool next_choice(std::vector<std::size_t>& chosen, std::size_t count) {
    for (std::size_t i = chosen.size(); i-- > 0;) {
      if (chosen[i] == count - chosen.size() + i) continue;
      ++chosen[i];
      for (std::size_t j = i + 1; j < chosen.size(); ++j) chosen[j] = chosen[j - 1] + 1;
      return true;
    }
    return false;
  }

  std::vector<CausedChanges> grouped() const {
    std::map<Cause, AnswerChanges> by_cause;
    for (const Target& target : targets_) {
      AnswerChanges& changes = by_cause[*target.cause];
      if (const auto* const* verdict = std::get_if<const ChangedVerdict*>(&target.change))
        changes.verdicts.push_back(**verdict);
      else if (const auto* const* bound = std::get_if<const BoundChange*>(&target.change))
        changes.bounds.push_back(**bound);
      else
        changes.claims.push_back(*std::get<const ClaimChange*>(target.change));
    }
    std::vector<CausedChanges> groups;
    for (auto& [cause, changes] : by_cause) groups.push_back({cause, std::move(changes)});
    const auto weight = [](const CausedChanges& group) {
      const AnswerChanges& changes = group.changes;
      return std::pair{changes.verdicts.size(), changes.bounds.size() + changes.claims.size()};
    };
    std::ranges::stable_sort(groups, std::greater{}, weight);
    return groups;
  }

  const Version& before_;
  const Version& after_;
  const std::vector<Edit>& edits_;
  Basis weakest_;
  Trials trials_;
  EditSetOf all_; // the edits that bear on anything
  std::vector<Target> targets_;
  std::set<EditSetOf> known_;
  bool alone_tried_ = false;
};

} // namespace

std::string_view name(Certainty certainty) {
  static constexpr std::array<std::string_view, 3> names{"smallest", "irreducible", "untried"};
  return names[static_cast<std::size_t>(certainty)];
}

std::size_t most_mixtures(const LinkedKb& kb) {
  constexpr std::size_t entries_in_all = 2'000'000; // of all mixtures together
  return std::clamp<std::size_t>(entries_in_all / std::max<std::size_t>(1, kb.entries.entries.size()), 24, 1000);
}

std::vector<CausedChanges> find_causes(const Version& before, const Version& after, const std::vector<Edit>& edits,
                                       const AnswerChanges& changes, Basis weakest, std::size_t most) {
  return CauseFinder{before, after, edits, weakest, most}.find(changes);
}

} // namespace coeval
