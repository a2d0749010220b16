#include "verdicts/agenda.hpp"

#include <algorithm>
#include <map>
#include <tuple>

namespace coeval {
namespace {

constexpr Day never = Day{1} << 59; // beyond every day that can be written, and safe to add

// Days from `from` to `to`; empty where they cross.
struct Days {
  Day from = -never;
  Day to = never;

  [[nodiscard]] Day count() const { return to < from ? 0 : to - from + 1; }
};

Days common(Days one, Days other) { return {std::max(one.from, other.from), std::min(one.to, other.to)}; }

constexpr std::size_t origin_place = 0;
constexpr std::size_t run_start = 1;
constexpr std::size_t run_end = 2;
constexpr std::size_t issue_start = 3;
constexpr std::size_t issue_end = 4;

// How far apart the origin and the four ends of a run and an issue are: `most[x][y]` bounds x - y.
struct FiveDistances {
  std::array<std::array<std::optional<Day>, 5>, 5> most;

  // The days of `pinned` on which x - y <= limit is not proven.
  [[nodiscard]] Days unproven(std::size_t pinned, std::size_t x, std::size_t y, Day limit) const {
    Days days;
    if (most[x][y] && *most[x][y] <= limit) return {1, 0};
    // A proof through the pinned day runs y, origin, pinned, x or y, pinned, origin, x.
    if (most[x][pinned] && most[origin_place][y]) days.from = limit - *most[x][pinned] - *most[origin_place][y] + 1;
    if (most[pinned][y] && most[x][origin_place]) days.to = *most[pinned][y] + *most[x][origin_place] - limit - 1;
    return days;
  }
};

struct Trial {
  Day all = 0;       // days that the end can have been
  Day undecided = 0; // days of them that leave the verdict open
};

// `yes_settles`: nothing but the time is undecided.
Trial try_days(const FiveDistances& distances, std::size_t pinned, std::optional<Day> stock, bool yes_settles) {
  Days range;
  if (const auto most = distances.most[pinned][origin_place]) range.to = *most;
  if (const auto least = distances.most[origin_place][pinned]) range.from = -*least;
  Days open = common(range, distances.unproven(pinned, issue_end, run_start, -1));
  if (stock) open = common(open, distances.unproven(pinned, run_end, issue_start, -*stock - 1));
  Trial trial{range.count(), open.count()};
  if (!yes_settles) return trial;
  const Days late = common(open, distances.unproven(pinned, run_start, issue_end, 0));
  const Days kept = common(open, distances.unproven(pinned, issue_start, run_end, stock.value_or(0)));
  trial.undecided =
      late.count() + kept.count() - (late.count() > 0 && kept.count() > 0 ? common(late, kept).count() : 0);
  return trial;
}

class AgendaBuilder {
public:
  AgendaBuilder(const LinkedKb& kb, const Chronology& chronology, Basis weakest)
      : kb_(kb), chronology_(chronology), weakest_(weakest) {}

  Agenda build() {
    for (std::size_t i = 0; i < kb_.issues.size(); ++i) look_at(IssueIndex{static_cast<std::uint32_t>(i)});
    for (auto& [point, item] : items_) agenda_.items.push_back(std::move(item));
    std::ranges::sort(agenda_.items, [&](const AgendaItem& one, const AgendaItem& other) {
      if (one.pairs.size() != other.pairs.size()) return one.pairs.size() > other.pairs.size();
      if (one.always != other.always) return one.always > other.always;
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
  void look_at(IssueIndex index) {
    const Issue& issue = kb_.issues[at(index)];
    Judge judge{kb_, chronology_, weakest_}; // for one issue, so that no more than its rows are kept
    std::vector<AccessoryIndex> seen;
    for (const Takes& takes : issue.takes) {
      if (std::ranges::find(seen, takes.accessory) != seen.end()) continue;
      seen.push_back(takes.accessory);
      for (const Judgement& judgement : judge.outfit(index, takes))
        if (judgement.verdict == Verdict::open) take(judge.distances(), judgement);
    }
  }

  void take(Distances& distances, const Judgement& judgement) {
    ++agenda_.open;
    const Run& run = kb_.runs[at(judgement.run)];
    const Issue& issue = kb_.issues[at(judgement.issue)];
    const bool routed = judgement.ground(Ground::route).answer == Answer::yes;
    if (!routed && !run.plant) ++plants_[run.entry];
    if (!routed && !issue.packer) ++plants_[issue.entry];
    if (judgement.ground(Ground::time).answer != Answer::undecided) return;
    ++agenda_.undecided_in_time;

    const FiveDistances five = measure(distances, run.span, issue.span);
    const Leftover* leftover = kb_.leftover_of(judgement.issue);
    std::optional<Day> stock;
    if (leftover != nullptr && leftover->evidence.basis <= weakest_) stock = most_days(*leftover);
    const bool yes_settles = routed && judgement.ground(Ground::place).answer == Answer::yes;
    const std::array<SpanPoint, 5> ends{SpanPoint{},
                                        SpanPoint{run.span, SpanEnd::start},
                                        {run.span, SpanEnd::end},
                                        {issue.span, SpanEnd::start},
                                        {issue.span, SpanEnd::end}};
    for (const std::size_t pinned : {run_start, run_end, issue_start, issue_end}) {
      const Trial trial = try_days(five, pinned, stock, yes_settles);
      if (trial.all <= 1 || trial.undecided == trial.all) continue;
      AgendaItem& item = items_[point_of(ends[pinned])];
      item.end = ends[pinned];
      item.known = chronology_.bounds(point_of(ends[pinned]), weakest_);
      item.pairs.push_back({judgement.run, judgement.issue, trial.undecided == 0});
      if (trial.undecided == 0) ++item.always;
    }
  }

  FiveDistances measure(Distances& distances, TimeSpanIndex run, TimeSpanIndex issue) {
    const std::array<Point, 5> points{origin, start_of(run), end_of(run), start_of(issue), end_of(issue)};
    const auto lasted = lasted_.find(run);
    FiveDistances five;
    for (std::size_t x = 0; x < points.size(); ++x)
      for (std::size_t y = 0; y < points.size(); ++y) {
        if (x == y) {
          five.most[x][y] = 0;
        } else if (y == origin_place) {
          five.most[x][y] = chronology_.bounds(points[x], weakest_).latest;
        } else if (x == origin_place) {
          if (const auto earliest = chronology_.bounds(points[y], weakest_).earliest) five.most[x][y] = -*earliest;
        } else if (x <= run_end && y <= run_end && lasted != lasted_.end()) {
          five.most[x][y] = lasted->second[x - run_start];
        } else {
          five.most[x][y] = distances.upper(points[x], points[y], weakest_);
        }
      }
    if (lasted == lasted_.end()) lasted_[run] = {five.most[run_start][run_end], five.most[run_end][run_start]};
    return five;
  }

  const LinkedKb& kb_;
  const Chronology& chronology_;
  Basis weakest_;
  Agenda agenda_;
  std::map<Point, AgendaItem> items_;
  std::map<EntryIndex, std::size_t> plants_;
  std::map<TimeSpanIndex, std::array<std::optional<Day>, 2>> lasted_; // of runs: start - end, and end - start
};

} // namespace

Agenda agenda_of(const LinkedKb& kb, const Chronology& chronology, Basis weakest) {
  return AgendaBuilder{kb, chronology, weakest}.build();
}

} // namespace coeval
