#include "verdicts/agenda.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "verdicts/held_orders.hpp"
#include "verdicts/pinned.hpp"

namespace coeval {
namespace {

// An open verdict with what is not proven of its time and its routes.
struct OpenPair {
  RunIndex run{};
  IssueIndex issue{};
  Answer place{};
  Answer time{};
  Answer route{};
  std::vector<PinnedDistances::Question> questions;
  std::size_t tried = 0; // the number of the end for which it was last looked at
};

AgendaDays days_of(const PinnedDays& range) {
  AgendaDays days;
  if (range.from > -never) days.from = range.from;
  if (range.to < never) days.to = range.to;
  return days;
}

bool holds(const AgendaDays& days, const AgendaDays& part) {
  return (!days.from || (part.from && *days.from <= *part.from)) && (!days.to || (part.to && *part.to <= *days.to));
}

// The steps of an item: a new one on every day on which some verdict becomes something else.
std::vector<AgendaStep> steps_of(const std::vector<AgendaPair>& pairs, const PinnedDays& range) {
  struct Change {
    Day day = 0;
    const AgendaPair::Settled* settled = nullptr;
    bool begins = false;
  };
  std::vector<Change> changes;
  for (const AgendaPair& pair : pairs)
    for (const AgendaPair::Settled& settled : pair.settled) {
      changes.push_back({settled.days.from.value_or(-never), &settled, true});
      if (settled.days.to && *settled.days.to < range.to) changes.push_back({*settled.days.to + 1, &settled, false});
    }
  std::ranges::stable_sort(changes, {}, &Change::day);
  std::vector<AgendaStep> steps;
  AgendaStep step;
  std::size_t by_last = 0; // of those settled now: how many by the end being no later than their last day
  std::size_t by_first = 0;
  std::size_t next = 0;
  for (Day day = range.from;;) {
    for (; next < changes.size() && changes[next].day <= day; ++next) {
      const AgendaPair::Settled* settled = changes[next].settled;
      const bool begins = changes[next].begins;
      const auto count = [begins](std::size_t& number) { begins ? ++number : --number; };
      count(step.become[static_cast<std::size_t>(settled->verdict)]);
      count(step.settled);
      if (settled->by_bound && settled->days.from.value_or(-never) == range.from) count(by_last);
      if (settled->by_bound && settled->days.to.value_or(never) == range.to) count(by_first);
    }
    const Day after = next < changes.size() ? changes[next].day : range.to + 1;
    step.days = days_of({day, after - 1});
    step.no_later = step.settled > 0 && by_last == step.settled && after <= range.to;
    step.no_earlier = step.settled > 0 && by_first == step.settled && day > range.from;
    steps.push_back(step);
    if (after > range.to) return steps;
    day = after;
  }
}

class AgendaBuilder {
public:
  AgendaBuilder(const LinkedKb& kb, const Chronology& chronology, Basis weakest)
      : kb_(kb), chronology_(chronology), weakest_(weakest), orders_(kb, chronology, weakest),
        distances_(chronology, weakest), asking_(chronology.graph().points()) {}

  Agenda build() {
    for (std::size_t i = 0; i < kb_.issues.size(); ++i) look_at(IssueIndex{static_cast<std::uint32_t>(i)});
    for (std::size_t i = 0; i < kb_.spans.size(); ++i)
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end})
        try_days_of({TimeSpanIndex{static_cast<std::uint32_t>(i)}, end});
    std::ranges::stable_sort(agenda_.items, [&](const AgendaItem& one, const AgendaItem& other) {
      if (one.least != other.least) return one.least > other.least;
      if (one.most != other.most) return one.most > other.most;
      return std::tie(kb_.spans[at(one.end.span)].address, one.end.end) <
             std::tie(kb_.spans[at(other.end.span)].address, other.end.end);
    });
    for (const auto& [entry, waiting] : plants_) agenda_.plants.push_back({entry, waiting});
    std::ranges::sort(agenda_.plants, [&](const UnknownPlant& one, const UnknownPlant& other) {
      if (one.waiting != other.waiting) return one.waiting > other.waiting;
      return kb_.address(one.entry) < kb_.address(other.entry);
    });
    return std::move(agenda_);
  }

private:
  // Judged as in verdicts/matrix.cpp, on one basis.
  void look_at(IssueIndex index) {
    const Issue& issue = kb_.issues[at(index)];
    orders_.choose(issue.span, kb_.leftover_of(index));
    std::vector<AccessoryIndex> seen;
    for (const Takes& takes : issue.takes) {
      if (std::ranges::find(seen, takes.accessory) != seen.end()) continue;
      seen.push_back(takes.accessory);
      std::vector<OpenPair> open;
      for (const MouldIndex mould : kb_.accessories[at(takes.accessory)].moulds)
        for (const RunIndex run : kb_.moulds[at(mould)].runs)
          if (auto pair = open_pair(run, index)) open.push_back(std::move(*pair));
      std::ranges::sort(
          open, {}, [&](const OpenPair& pair) -> const auto& { return kb_.runs[at(pair.run)].address; });
      for (OpenPair& pair : open) take(std::move(pair));
    }
  }

  std::optional<OpenPair> open_pair(RunIndex run_index, IssueIndex issue_index) {
    const Run& run = kb_.runs[at(run_index)];
    const Issue& issue = kb_.issues[at(issue_index)];
    const SpanDays days = days_of(chronology_, run.span);
    OpenPair pair{.run = run_index, .issue = issue_index};
    pair.time = orders_.choose_run(run.span, days).answer;
    if (pair.time == Answer::no) return {};
    pair.place = find_place(kb_, run.accessory, issue, weakest_).answer;
    const Verdict recorded = find_record(kb_, run_index, issue_index, run.pairings, weakest_).verdict;
    const Journey journey = journey_of(kb_, run_index, issue_index, weakest_);
    pair.route = find_route(orders_, journey, find_ways(kb_, orders_, journey, weakest_), weakest_).answer;
    if (verdict_of(pair.place, {.answer = pair.time}, recorded, pair.route) != Verdict::open) return {};
    return pair;
  }

  void take(OpenPair pair) {
    ++agenda_.open;
    const Run& run = kb_.runs[at(pair.run)];
    const Issue& issue = kb_.issues[at(pair.issue)];
    if (pair.route != Answer::yes && !run.plant) ++plants_[run.entry];
    if (pair.route != Answer::yes && !issue.packer) ++plants_[issue.entry];
    if (pair.time == Answer::undecided) ++agenda_.undecided_in_time;

    for (const TimeSpanIndex span : {run.span, issue.span}) {
      distances_.keep(start_of(span));
      distances_.keep(end_of(span));
    }
    distances_.unpin();
    distances_.forget_refused();
    (void)judge(pair);
    pair.questions = distances_.refused();
    const std::size_t number = open_.size();
    for (const PinnedDistances::Question& question : pair.questions)
      for (const Point point : {question.x, question.y}) {
        std::vector<std::size_t>& list = asking_[static_cast<std::size_t>(point)];
        if (list.empty() || list.back() != number) list.push_back(number);
      }
    open_.push_back(std::move(pair));
  }

  // The verdict by the distances as they stand. Nothing but the order of days can have changed since it was open.
  Verdict judge(const OpenPair& pair) {
    const OrderAnswer time = order_of(distances_, kb_.runs[at(pair.run)].span, kb_.issues[at(pair.issue)].span,
                                      kb_.leftover_of(pair.issue), weakest_);
    if (time.answer == Answer::no || pair.route == Answer::yes)
      return verdict_of(pair.place, time, Verdict::open, pair.route);
    const RouteAnswer route =
        route_of(kb_, distances_, pair.run, pair.issue, kb_.leftover_of(pair.issue), weakest_, RouteTelling::answer);
    return verdict_of(pair.place, time, Verdict::open, route.answer);
  }

  void try_days_of(SpanPoint end) {
    const Point point = point_of(end);
    const DayBounds known = chronology_.bounds(point, weakest_);
    const PinnedDays range{known.earliest.value_or(-never), known.latest.value_or(never)};
    if (range.from == range.to) return;
    ++ends_tried_;
    distances_.choose(point);
    std::vector<std::size_t> touched;
    for (const Point near : distances_.reach())
      for (const std::size_t number : asking_[static_cast<std::size_t>(near)]) {
        if (open_[number].tried == ends_tried_) continue;
        open_[number].tried = ends_tried_;
        if (could_settle(open_[number], range)) touched.push_back(number);
      }
    std::ranges::sort(touched);
    AgendaItem item{.end = end, .known = known};
    for (const std::size_t number : touched) {
      AgendaPair pair = try_days_on(open_[number], range);
      if (!pair.settled.empty()) item.pairs.push_back(std::move(pair));
    }
    if (item.pairs.empty()) return;
    item.steps = steps_of(item.pairs, range);
    item.always = static_cast<std::size_t>(std::ranges::count(item.pairs, true, &AgendaPair::always));
    item.least = std::ranges::min_element(item.steps, {}, &AgendaStep::settled)->settled;
    item.most = std::ranges::max_element(item.steps, {}, &AgendaStep::settled)->settled;
    agenda_.items.push_back(std::move(item));
  }

  // Some day of the chosen end answers a question that is open.
  [[nodiscard]] bool could_settle(const OpenPair& pair, const PinnedDays& range) const {
    return std::ranges::any_of(pair.questions, [&](const PinnedDistances::Question& question) {
      const PinnedDays open = distances_.unproven(question);
      return open.from > range.from || open.to < range.to;
    });
  }

  // From one day on which a question changes its answer to the next the verdict is the same.
  AgendaPair try_days_on(const OpenPair& open, const PinnedDays& range) {
    AgendaPair pair{open.run, open.issue, {}, true};
    for (Day day = range.from; day <= range.to;) {
      distances_.pin(day);
      const Verdict verdict = judge(open);
      const Day after = std::min(distances_.next_change(), range.to + 1);
      const AgendaDays days = days_of({day, after - 1});
      if (verdict == Verdict::open)
        pair.always = false;
      else if (!pair.settled.empty() && pair.settled.back().verdict == verdict &&
               pair.settled.back().days.to.value() == day - 1)
        pair.settled.back().days.to = days.to;
      else
        pair.settled.push_back({days, verdict});
      day = after;
    }
    for (AgendaPair::Settled& settled : pair.settled) {
      if (settled.days.from.value_or(-never) == range.from)
        distances_.bound_above(settled.days.to.value_or(never));
      else if (settled.days.to.value_or(never) == range.to)
        distances_.bound_below(*settled.days.from);
      else
        continue;
      settled.by_bound = judge(open) == settled.verdict;
    }
    return pair;
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  Basis weakest_;
  Agenda agenda_;
  HeldOrders orders_;
  PinnedDistances distances_;
  std::vector<OpenPair> open_;
  std::vector<std::vector<std::size_t>> asking_; // of each point: the open verdicts that ask about it, by number
  std::size_t ends_tried_ = 0;
  std::map<EntryIndex, std::size_t> plants_;
};

} // namespace

std::optional<Verdict> verdict_in(const AgendaPair& pair, const AgendaStep& step) {
  for (const AgendaPair::Settled& settled : pair.settled)
    if (holds(settled.days, step.days)) return settled.verdict;
  return {};
}

std::vector<AgendaFind> finds_for(const LinkedKb& kb, const Chronology& chronology, const AgendaItem& item,
                                  Basis weakest) {
  std::vector<AgendaFind> finds;
  const auto add = [&](std::optional<std::size_t> step, Side side, std::optional<Day> AgendaDays::*bound) {
    if (!step) return;
    for (Find& find : finds_that_show(kb, chronology, item.end, side, (item.steps[*step].days.*bound).value(), weakest))
      finds.push_back({*step, std::move(find)});
  };
  std::optional<std::size_t> early, late;
  for (std::size_t i = 0; i < item.steps.size(); ++i) {
    const AgendaStep& step = item.steps[i];
    if (step.no_later && (!early || step.settled >= item.steps[*early].settled)) early = i;
    if (step.no_earlier && (!late || step.settled > item.steps[*late].settled)) late = i;
  }
  add(early, Side::latest, &AgendaDays::to);
  add(late, Side::earliest, &AgendaDays::from);
  return finds;
}

Agenda agenda_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest) {
  return AgendaBuilder{kb, chronology, weakest}.build();
}

} // namespace coeval
