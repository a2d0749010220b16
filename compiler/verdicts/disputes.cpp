#include "verdicts/disputes.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include <fmt/format.h>

#include "chronology/suppose.hpp"

namespace coeval {
namespace {

// Which spans can have come nearer to others, or further away?
class Moved {
public:
  Moved(const LinkedKb& kb, const Chronology& before, const Chronology& after, Basis weakest)
      : weakest_(weakest), moved_(kb.spans.size(), 0) {
    for (std::size_t i = 0; i < kb.spans.size(); ++i) {
      const TimeSpanIndex span{static_cast<std::uint32_t>(i)};
      for (const Point point : {start_of(span), end_of(span)})
        if (before.bounds(point, weakest) != after.bounds(point, weakest)) moved_[i] = 1;
    }
  }

  // A constraint that is in the graph of one of the two chronologies only. Two points whose own bounds are the same in
  // both have another distance only if a way that is shorter than over the origin uses it.
  void differs(const Chronology& with, const Constraint& constraint) {
    const Entailment& entailment = with.on(weakest_);
    for (const NearPoint& near : entailment.nearer_to(constraint.y)) move(near.point);
    for (const NearPoint& near : entailment.nearer_from(constraint.x)) move(near.point);
  }

  [[nodiscard]] bool has(TimeSpanIndex span) const { return moved_[at(span)] != 0; }

private:
  void move(Point point) {
    const auto number = static_cast<std::size_t>(point);
    if (number > 0 && number <= 2 * moved_.size()) moved_[(number - 1) / 2] = 1; // others are auxiliary
  }

  Basis weakest_;
  std::vector<char> moved_;
};

// One statement taken as right.
class Trial {
public:
  Trial(const LinkedKb& kb, const Chronology& chronology, Basis weakest)
      : kb_(kb), before_(chronology), weakest_(weakest) {}

  Dispute try_out(const Timing& timing) {
    const SupposedStatements supposed = state_supposing(kb_, timing);
    begin(timing.entry, in_words(kb_, timing), timing.evidence);
    return finish(supposed);
  }

  Dispute try_out(const Pairing& pairing) {
    begin(pairing.entry, in_words(kb_, pairing), pairing.evidence);
    const SupposedStatements supposed = pairing.refuted ? state_supposing(kb_) : state_supposing(kb_, pairing);
    touch(pairing.run, pairing.issue);
    for (const Pairing& other : kb_.pairings)
      if (other.refuted != pairing.refuted && other.run == pairing.run && other.issue == pairing.issue)
        contradict(supposed, other.evidence, in_words(kb_, other), pairing.run, pairing.issue);
    if (!pairing.refuted)
      for (const Exclusive& exclusive : kb_.runs[at(pairing.run)].exclusives)
        if (std::ranges::find(exclusive.to, pairing.issue) == exclusive.to.end()) {
          contradict(supposed, exclusive.evidence, in_words(kb_, pairing.run, exclusive), pairing.run, pairing.issue);
          touched_runs_.insert(pairing.run);
        }
    return finish(supposed);
  }

  Dispute try_out(RunIndex run, const Exclusive& exclusive) {
    begin(exclusive.entry, in_words(kb_, run, exclusive), exclusive.evidence);
    const SupposedStatements supposed = state_supposing(kb_);
    touched_runs_.insert(run);
    for (const Pairing& pairing : kb_.pairings)
      if (pairing.run == run && !pairing.refuted &&
          std::ranges::find(exclusive.to, pairing.issue) == exclusive.to.end())
        contradict(supposed, pairing.evidence, in_words(kb_, pairing), run, pairing.issue);
    return finish(supposed);
  }

private:
  void begin(EntryIndex entry, std::string words, const Evidence& evidence) {
    dispute_.entry = entry;
    dispute_.says = reason_for(std::move(words), evidence);
    supposition_.right = &evidence;
  }

  void touch(RunIndex run, IssueIndex issue) { touched_.insert({issue, run}); }

  // A record that speaks against the disputed one.
  void contradict(const SupposedStatements& supposed, const Evidence& evidence, std::string words, RunIndex run,
                  IssueIndex issue) {
    if (evidence.disputed || evidence.basis > weakest_) return;
    touch(run, issue);
    Reason reason = reason_for(std::move(words), evidence);
    reason.weakest = true;
    dispute_.conflicts.push_back({{std::move(reason)}});
    supposition_.wrong.push_back(&evidence);
    for (std::size_t i = 0; i < supposed.all.evidence.size(); ++i)
      if (supposed.all.evidence[i] == &evidence) set_aside_.push_back(StatementIndex{static_cast<std::uint32_t>(i)});
  }

  Dispute finish(const SupposedStatements& supposed) {
    while (std::optional<Refutation> refutation = refute(kb_, supposed, set_aside_, weakest_)) {
      if (!refutation->weakest) {
        dispute_.hopeless = true;
        return std::move(dispute_);
      }
      const Evidence* wrong = supposed.all.evidence[static_cast<std::size_t>(*refutation->weakest)];
      set_aside_.push_back(*refutation->weakest);
      supposition_.wrong.push_back(wrong);
      dispute_.conflicts.push_back({std::move(refutation->statements)});
    }
    const Chronology after = solve_supposing(kb_, supposed, set_aside_, weakest_);
    compare_bounds(after);
    compare_verdicts(supposed, after);
    return std::move(dispute_);
  }

  void compare_bounds(const Chronology& after) {
    for (std::size_t i = 0; i < kb_.spans.size(); ++i)
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end}) {
        const SpanPoint point{TimeSpanIndex{static_cast<std::uint32_t>(i)}, end};
        const DayBounds was = before_.bounds(point_of(point), weakest_);
        const DayBounds is = after.bounds(point_of(point), weakest_);
        if (was != is) dispute_.bounds.push_back({point, was, is});
      }
    std::ranges::stable_sort(dispute_.bounds, {}, [this](const BoundsChange& change) {
      return std::tie(kb_.spans[at(change.end.span)].address, change.end.end);
    });
  }

  // Every pair that some difference between the two ways can reach is judged both ways.
  void compare_verdicts(const SupposedStatements& supposed, const Chronology& after) {
    Moved moved{kb_, before_, after, weakest_};
    for (const Constraint& constraint : supposed.all.constraints) {
      if (constraint.level > static_cast<std::uint8_t>(weakest_) || constraint.statement == by_definition) continue;
      if (constraint.statement == supposed.index)
        moved.differs(after, constraint);
      else if (std::ranges::find(set_aside_, constraint.statement) != set_aside_.end() && was_there(constraint))
        moved.differs(before_, constraint);
    }
    const bool anywhere =
        std::ranges::any_of(kb_.routes, [&](const Route& route) { return moved.has(route.span); }) ||
        std::ranges::any_of(supposition_.wrong, [&](const Evidence* wrong) { return is_policy(wrong); });
    std::vector<std::vector<RunIndex>> runs(kb_.accessories.size()); // of each accessory: those to be judged anyhow
    for (std::size_t i = 0; i < kb_.runs.size(); ++i) {
      const RunIndex run{static_cast<std::uint32_t>(i)};
      if (moved.has(kb_.runs[i].span) || touched_runs_.contains(run)) runs[at(kb_.runs[i].accessory)].push_back(run);
    }
    for (std::size_t i = 0; i < kb_.issues.size(); ++i) {
      const IssueIndex issue{static_cast<std::uint32_t>(i)};
      const bool all = anywhere || moved.has(kb_.issues[i].span);
      std::set<RunIndex> judged;
      for (const Takes& takes : kb_.issues[i].takes) {
        if (!all)
          judged.insert(runs[at(takes.accessory)].begin(), runs[at(takes.accessory)].end());
        else
          for (const MouldIndex mould : kb_.accessories[at(takes.accessory)].moulds)
            judged.insert(kb_.moulds[at(mould)].runs.begin(), kb_.moulds[at(mould)].runs.end());
      }
      for (auto pair = touched_.lower_bound({issue, RunIndex{}}); pair != touched_.end() && pair->first == issue;
           ++pair)
        judged.insert(pair->second);
      compare(after, issue, judged);
    }
    std::ranges::stable_sort(dispute_.verdicts, {}, [this](const VerdictChange& change) {
      return std::tie(kb_.issues[at(change.issue)].address, kb_.runs[at(change.run)].address);
    });
  }

  void compare(const Chronology& after, IssueIndex issue, const std::set<RunIndex>& runs) {
    if (runs.empty()) return;
    Judge was{kb_, before_, weakest_};
    Judge is{kb_, after, weakest_, &supposition_};
    for (const RunIndex run : runs) {
      const Verdict before = was.judge(run, issue, false).verdict;
      const Verdict now = is.judge(run, issue, false).verdict;
      if (before != now) dispute_.verdicts.push_back({run, issue, before, now});
    }
  }

  // The oldest stock of a disputed pairing has a day of its own that is new.
  [[nodiscard]] bool was_there(const Constraint& constraint) const {
    return std::max(static_cast<std::uint32_t>(constraint.x), static_cast<std::uint32_t>(constraint.y)) <
           before_.graph().points();
  }

  [[nodiscard]] bool is_policy(const Evidence* evidence) const {
    const auto backs = [evidence](const auto& holder) {
      return holder.leftover && &holder.leftover->evidence == evidence;
    };
    return std::ranges::any_of(kb_.lines, backs) || std::ranges::any_of(kb_.issues, backs);
  }

  const LinkedKb& kb_;
  const Chronology& before_;
  Basis weakest_;
  Dispute dispute_;
  Supposition supposition_;
  std::vector<StatementIndex> set_aside_;
  std::set<std::pair<IssueIndex, RunIndex>> touched_; // by a record
  std::set<RunIndex> touched_runs_;                   // with every issue
};

} // namespace

std::vector<Dispute> disputes_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest) {
  std::vector<Dispute> disputes;
  for (const Timing& timing : kb.timings)
    if (timing.evidence.disputed) disputes.push_back(Trial{kb, chronology, weakest}.try_out(timing));
  for (const Pairing& pairing : kb.pairings)
    if (pairing.evidence.disputed) disputes.push_back(Trial{kb, chronology, weakest}.try_out(pairing));
  for (std::size_t i = 0; i < kb.runs.size(); ++i)
    for (const Exclusive& exclusive : kb.runs[i].exclusives)
      if (exclusive.evidence.disputed)
        disputes.push_back(Trial{kb, chronology, weakest}.try_out(RunIndex{static_cast<std::uint32_t>(i)}, exclusive));
  std::ranges::sort(disputes, {}, &Dispute::entry);
  return disputes;
}

} // namespace coeval
