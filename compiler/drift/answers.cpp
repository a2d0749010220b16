#include "drift/answers.hpp"

#include <algorithm>
#include <set>

#include "verdicts/claims.hpp"

namespace coeval {
namespace {

// The entry of that kind at an address, as its index in the list of the kind.
template <class Index> std::optional<Index> find_at(const LinkedKb& kb, std::string_view address, Kind kind) {
  const auto found = kb.addresses.find(address);
  if (!found || kb.entries[*found].kind != kind) return {};
  return Index{kb.position[at(*found)]};
}

std::vector<Span> places_of(const std::vector<Reason>& reasons) {
  std::vector<Span> places;
  for (const Reason& reason : reasons)
    if (reason.place.known()) places.push_back(reason.place);
  return places;
}

// The runs of the accessories that an issue takes, as addresses.
std::set<std::string> runs_taken(const LinkedKb& kb, const Issue& issue) {
  std::set<std::string> runs;
  for (const Takes& takes : issue.takes)
    for (const MouldIndex mould : kb.accessories[at(takes.accessory)].moulds)
      for (const RunIndex run : kb.moulds[at(mould)].runs) runs.emplace(kb.runs[at(run)].address);
  return runs;
}

VerdictAnswer answer_of(const Judgement& judgement) { return {judgement.verdict, judgement.basis, judgement.gap}; }

// Keeps what is known of an issue's days while all of its pairs are judged.
class IssueJudge {
public:
  IssueJudge(const LinkedKb& kb, const Chronology& dates, Basis weakest, IssueIndex issue)
      : kb_(kb), judge_(kb, dates, weakest), issue_(issue) {
    const TimeSpanIndex span = kb.issues[at(issue)].span;
    judge_.distances().keep(start_of(span));
    judge_.distances().keep(end_of(span));
  }
  std::optional<VerdictAnswer> answer(const std::string& run) {
    const auto index = find_at<RunIndex>(kb_, run, Kind::run);
    if (!index) return {};
    return answer_of(judge_.judge(*index, issue_, false));
  }

private:
  const LinkedKb& kb_;
  Judge judge_;
  IssueIndex issue_;
};

void compare_verdicts(const Version& before, const Version& after, Basis weakest, AnswerChanges& changes) {
  for (std::size_t i = 0; i < before.kb.issues.size(); ++i) {
    const IssueIndex old_issue{static_cast<std::uint32_t>(i)};
    const std::string address{before.kb.issues[i].address};
    const auto new_issue = find_at<IssueIndex>(after.kb, address, Kind::issue);
    if (!new_issue) continue;
    std::set<std::string> runs = runs_taken(before.kb, before.kb.issues[i]);
    runs.merge(runs_taken(after.kb, after.kb.issues[at(*new_issue)]));
    IssueJudge old_judge{before.kb, before.dates, weakest, old_issue};
    IssueJudge new_judge{after.kb, after.dates, weakest, *new_issue};
    for (const std::string& run : runs) {
      const auto was = old_judge.answer(run);
      const auto is = new_judge.answer(run);
      if (!was || !is) continue;
      ++changes.compared;
      if (*was != *is) changes.verdicts.push_back({{run, address}, *was, *is});
    }
  }
  std::ranges::sort(changes.verdicts, {}, &ChangedVerdict::question);
}

void compare_bounds(const Version& before, const Version& after, Basis weakest, AnswerChanges& changes) {
  const Answerer old_answers{before.kb, before.dates, weakest};
  const Answerer new_answers{after.kb, after.dates, weakest};
  for (const TimeSpan& span : before.kb.spans)
    for (const SpanEnd end : {SpanEnd::start, SpanEnd::end})
      for (const Side side : {Side::earliest, Side::latest}) {
        const BoundQuestion question{std::string{span.address}, end, side};
        const auto was = old_answers.answer(question);
        const auto is = new_answers.answer(question);
        if (was && is && *was != *is) changes.bounds.push_back({question, *was, *is});
      }
  std::ranges::sort(changes.bounds, {}, &BoundChange::question);
}

void compare_claims(const Version& before, const Version& after, Basis weakest, AnswerChanges& changes) {
  Answerer old_answers{before.kb, before.dates, weakest};
  Answerer new_answers{after.kb, after.dates, weakest};
  for (const Claim& claim : before.kb.claims) {
    const ClaimQuestion question{std::string{before.kb.address(claim.entry)}};
    const auto was = old_answers.answer(question);
    const auto is = new_answers.answer(question);
    if (was && is && *was != *is) changes.claims.push_back({question, *was, *is});
  }
  std::ranges::sort(changes.claims, {}, &ClaimChange::question);
}

} // namespace

std::optional<TimeSpanIndex> find_span(const LinkedKb& kb, const std::string& address) {
  const auto found = kb.addresses.find(address);
  if (!found) return {};
  const auto span = std::ranges::lower_bound(kb.spans, *found, {}, &TimeSpan::entry); // in the order of entries
  if (span == kb.spans.end() || span->entry != *found) return {};
  return TimeSpanIndex{static_cast<std::uint32_t>(span - kb.spans.begin())};
}

std::string_view name(ClaimEvidence evidence) {
  static constexpr std::array<std::string_view, 4> names{"unstated", "ruled-out", "possible", "proven"};
  return names[static_cast<std::size_t>(evidence)];
}

std::string_view name(ClaimStanding standing) {
  return spec_of(Kind::claim).find("standing")->choices[static_cast<std::size_t>(standing)];
}

bool same_outcome(const VerdictAnswer& before, const VerdictAnswer& after, const VerdictAnswer& given) {
  return before.verdict != after.verdict ? given.verdict == after.verdict : given == after;
}
bool same_outcome(const BoundAnswer& before, const BoundAnswer& after, const BoundAnswer& given) {
  return before.day != after.day ? given.day == after.day : given == after;
}
bool same_outcome(const ClaimState&, const ClaimState& after, const ClaimState& given) { return given == after; }

std::optional<VerdictAnswer> Answerer::answer(const VerdictQuestion& question) {
  const auto run = find_at<RunIndex>(kb_, question.run, Kind::run);
  const auto issue = find_at<IssueIndex>(kb_, question.issue, Kind::issue);
  if (!run || !issue) return {};
  return answer_of(judge_.judge(*run, *issue, false));
}

std::optional<BoundAnswer> Answerer::answer(const BoundQuestion& question) const {
  const auto span = find_span(kb_, question.span);
  if (!span) return {};
  const Point point = point_of({*span, question.end});
  const auto day_on = [&](Basis basis) {
    const DayBounds bounds = dates_.bounds(point, basis);
    return question.side == Side::earliest ? bounds.earliest : bounds.latest;
  };
  BoundAnswer result{day_on(weakest_), {}};
  if (!result.day) return result;
  for (const Basis basis : all_bases) {
    if (day_on(basis) != result.day) continue;
    result.basis = basis;
    break;
  }
  return result;
}

std::optional<ClaimState> Answerer::answer(const ClaimQuestion& question) {
  const auto index = find_at<ClaimIndex>(kb_, question.claim, Kind::claim);
  if (!index) return {};
  const Claim& claim = kb_.claims[at(*index)];
  ClaimState result{claim.standing, ClaimEvidence::unstated};
  if (claim.pairings.empty() && claim.timings.empty()) return result;
  result.evidence = ClaimEvidence::proven;
  const auto take = [&](const ClaimFinding& finding) {
    using enum ClaimFinding::Answer;
    const ClaimEvidence found = finding.answer == ruled_out ? ClaimEvidence::ruled_out
                                : finding.answer == proven  ? ClaimEvidence::proven
                                                            : ClaimEvidence::possible;
    result.evidence = std::min(result.evidence, found);
  };
  for (const ClaimedPairing& pairing : claim.pairings) take(find_claimed(kb_, on_all_, pairing));
  for (const Timing& timing : claim.timings) take(find_claimed(kb_, dates_, timing));
  return result;
}

std::vector<Span> Answerer::places(const VerdictQuestion& question) {
  const auto run = find_at<RunIndex>(kb_, question.run, Kind::run);
  const auto issue = find_at<IssueIndex>(kb_, question.issue, Kind::issue);
  std::vector<Span> places;
  if (!run || !issue) return places;
  const Judgement judgement = judge_.judge(*run, *issue, true);
  for (const Ground ground : deciding_grounds(judgement))
    for (const Span& place : places_of(judgement.ground(ground).proof)) places.push_back(place);
  return places;
}

std::vector<Span> Answerer::places(const BoundQuestion& question) const {
  const auto span = find_span(kb_, question.span);
  if (!span) return {};
  return places_of(dates_.proven_bound(point_of({*span, question.end}), question.side, weakest_).proof);
}

std::vector<Span> Answerer::places(const ClaimQuestion& question) {
  const auto index = find_at<ClaimIndex>(kb_, question.claim, Kind::claim);
  if (!index) return {};
  const Claim& claim = kb_.claims[at(*index)];
  std::vector<Span> places{kb_.entries[claim.entry].place};
  for (const ClaimedPairing& pairing : claim.pairings) {
    places.push_back(kb_.entries[pairing.entry].place);
    const Judgement judgement = on_all_.judge(pairing.run, pairing.issue, true);
    for (const Ground ground : deciding_grounds(judgement))
      for (const Span& place : places_of(judgement.ground(ground).proof)) places.push_back(place);
  }
  for (const Timing& timing : claim.timings) {
    places.push_back(kb_.entries[timing.entry].place);
    for (const Span& place : places_of(find_claimed(kb_, dates_, timing).proof)) places.push_back(place);
  }
  return places;
}

AnswerChanges compare_answers(const Version& before, const Version& after, Basis weakest) {
  AnswerChanges changes;
  compare_verdicts(before, after, weakest, changes);
  compare_bounds(before, after, weakest, changes);
  compare_claims(before, after, weakest, changes);
  return changes;
}

std::vector<LonePiece> only_in(const Version& here, const LinkedKb& there, Basis weakest) {
  std::map<std::pair<Kind, std::string>, LonePiece> lone;
  const auto add = [&](Kind kind, std::string_view written) {
    const std::string address{written};
    const auto found = there.addresses.find(address);
    if (!found || there.entries[*found].kind != kind) lone[{kind, address}] = {kind, address, {}};
  };
  for (const Run& run : here.kb.runs) add(Kind::run, run.address);
  for (const Issue& issue : here.kb.issues) add(Kind::issue, issue.address);
  if (lone.empty()) return {};
  for (std::size_t i = 0; i < here.kb.issues.size(); ++i) {
    const Issue& issue = here.kb.issues[i];
    IssueJudge judge{here.kb, here.dates, weakest, IssueIndex{static_cast<std::uint32_t>(i)}};
    const auto of_issue = lone.find({Kind::issue, std::string{issue.address}});
    for (const std::string& run : runs_taken(here.kb, issue)) {
      const auto of_run = lone.find({Kind::run, run});
      if (of_issue == lone.end() && of_run == lone.end()) continue;
      const auto verdict = static_cast<std::size_t>(judge.answer(run)->verdict);
      if (of_issue != lone.end()) ++of_issue->second.verdicts[verdict];
      if (of_run != lone.end()) ++of_run->second.verdicts[verdict];
    }
  }
  std::vector<LonePiece> list;
  for (auto& [key, piece] : lone) list.push_back(std::move(piece));
  return list;
}

} // namespace coeval
