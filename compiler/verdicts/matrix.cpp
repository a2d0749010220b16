// Every pair is judged as Judge does it, without a word being said. What makes it quick is that pairs lie sorted by
// issue: what is near an issue's two days, and near a route's, is searched for once; everything else is as far away as
// the calendar says, which takes no search (see Entailment::nearer_from). Orders between runs and routes come up again
// for every issue of a packer and are remembered.
#include "verdicts/matrix.hpp"

#include <algorithm>
#include <atomic>
#include <thread>
#include <tuple>

#include <boost/unordered/unordered_flat_map.hpp>

#include "verdicts/route.hpp"

namespace coeval {
namespace {

constexpr Basis weakest = Basis::conjectured;

// The distances of one point from all others, for each basis once that is asked about.
class DistanceRow {
public:
  explicit DistanceRow(Point point) : point_(point) {}

  [[nodiscard]] Point point() const { return point_; }
  // The tightest w with other - point <= w, or with point - other <= w.
  [[nodiscard]] std::optional<Day> to_other(const Entailment& entailment, Point other, Basis basis) {
    if (const auto most = find(near(entailment, basis).after, other)) return most;
    return by_calendar(entailment, other, point_);
  }
  [[nodiscard]] std::optional<Day> from_other(const Entailment& entailment, Point other, Basis basis) {
    if (const auto most = find(near(entailment, basis).before, other)) return most;
    return by_calendar(entailment, point_, other);
  }

private:
  struct Near { // by point
    std::vector<NearPoint> after;
    std::vector<NearPoint> before;
  };

  const Near& near(const Entailment& entailment, Basis basis) {
    auto& found = near_[static_cast<std::size_t>(basis)];
    if (!found) {
      found.emplace(Near{entailment.nearer_from(point_), entailment.nearer_to(point_)});
      std::ranges::sort(found->after, {}, &NearPoint::point);
      std::ranges::sort(found->before, {}, &NearPoint::point);
    }
    return *found;
  }
  static std::optional<Day> find(const std::vector<NearPoint>& list, Point point) {
    const auto found = std::ranges::lower_bound(list, point, {}, &NearPoint::point);
    if (found == list.end() || found->point != point) return {};
    return found->most;
  }
  static std::optional<Day> by_calendar(const Entailment& entailment, Point x, Point y) {
    const auto latest = entailment.latest(x);
    const auto earliest = entailment.earliest(y);
    if (!latest || !earliest) return {};
    return *latest - *earliest;
  }

  Point point_;
  std::array<std::optional<Near>, all_bases.size()> near_;
};

// Distances from or to the days of the issue that is looked at, and of routes.
class RowDistances : public Distances {
public:
  using Distances::Distances;

  void choose(TimeSpanIndex issue) { issue_ = {DistanceRow{start_of(issue)}, DistanceRow{end_of(issue)}}; }
  void hold(Point point) { routes_.try_emplace(static_cast<std::uint32_t>(point), point); }

  [[nodiscard]] std::optional<Day> upper(Point x, Point y, Basis basis) override {
    const Entailment& entailment = chronology().on(basis);
    if (DistanceRow* row = row_of(y)) return row->to_other(entailment, x, basis);
    if (DistanceRow* row = row_of(x)) return row->from_other(entailment, y, basis);
    return entailment.upper(x, y);
  }

private:
  DistanceRow* row_of(Point point) {
    for (DistanceRow& row : issue_)
      if (row.point() == point) return &row;
    const auto found = routes_.find(static_cast<std::uint32_t>(point));
    return found == routes_.end() ? nullptr : &found->second;
  }

  std::array<DistanceRow, 2> issue_{DistanceRow{origin}, DistanceRow{origin}};
  boost::unordered_flat_map<std::uint32_t, DistanceRow> routes_;
};

// Answers about two spans, each found once.
class SettledOrders : public Orders {
public:
  explicit SettledOrders(RowDistances& distances) : distances_(distances) {}

  // The policy that holds for the issues to come.
  void keep_stock_by(const Leftover* leftover) {
    if (leftover != leftover_ || settled_.size() > most_remembered) settled_.clear();
    leftover_ = leftover;
  }
  [[nodiscard]] OrderAnswer between(TimeSpanIndex from, TimeSpanIndex into) override {
    const auto [known, fresh] = settled_.try_emplace(std::pair{at(from), at(into)});
    if (fresh) {
      const OrderAnswer found = order_of(distances_, from, into, leftover_, weakest, false);
      known->second = {found.answer, found.basis};
    }
    return {.answer = known->second.answer, .basis = known->second.basis};
  }

private:
  struct Settled {
    Answer answer{};
    std::optional<Basis> basis;
  };
  static constexpr std::size_t most_remembered = 500'000; // some 20 MB
  RowDistances& distances_;
  const Leftover* leftover_ = nullptr;
  boost::unordered_flat_map<std::pair<std::size_t, std::size_t>, Settled> settled_;
};

// Judges the pairs of one issue after the other.
class IssueRows {
public:
  IssueRows(const LinkedKb& kb, const Chronology& chronology) : kb_(kb), distances_(chronology), orders_(distances_) {
    for (const Route& route : kb.routes) {
      distances_.hold(start_of(route.span));
      distances_.hold(end_of(route.span));
    }
  }

  void fill(IssueIndex index, VerdictRow* row) {
    const Issue& issue = kb_.issues[at(index)];
    distances_.choose(issue.span);
    orders_.keep_stock_by(kb_.leftover_of(index));
    for (std::uint32_t taken = 0; taken < issue.takes.size(); ++taken) {
      VerdictRow* const first = row;
      for (const MouldIndex mould : kb_.accessories[at(issue.takes[taken].accessory)].moulds)
        for (const RunIndex run : kb_.moulds[at(mould)].runs) *row++ = judge(run, index, taken);
      std::stable_sort(first, row, [&](const VerdictRow& one, const VerdictRow& other) {
        return std::tie(one.verdict, one.basis, kb_.runs[at(one.run)].address) <
               std::tie(other.verdict, other.basis, kb_.runs[at(other.run)].address);
      });
    }
  }

private:
  VerdictRow judge(RunIndex run_index, IssueIndex issue_index, std::uint32_t taken) {
    const Run& run = kb_.runs[at(run_index)];
    const Issue& issue = kb_.issues[at(issue_index)];
    const PlaceFinding place = find_place(kb_, run, issue, weakest);
    const OrderAnswer time = order_of(distances_, run.span, issue.span, kb_.leftover_of(issue_index), weakest, false);
    const RecordFinding record = find_record(kb_, run_index, issue_index, weakest);
    // Whatever way the parts went, a no on time comes first.
    RouteAnswer route;
    if (time.answer != Answer::no)
      route = route_of(kb_, orders_, run_index, issue_index, weakest, RouteTelling::answer);
    VerdictRow row{.issue = issue_index, .taken = taken, .run = run_index};
    row.verdict = verdict_of(place.answer, time, record.verdict, route.answer);
    GroundBases bases{.time = time.basis, .route = route.basis};
    if (place.takes != nullptr) bases.place = place.takes->evidence.basis;
    if (record.evidence != nullptr) bases.record = record.evidence->basis;
    row.basis = basis_of(row.verdict, bases);
    if (row.verdict == Verdict::anachronistic || row.verdict == Verdict::stale) row.gap = time.gap;
    return row;
  }

  const LinkedKb& kb_;
  RowDistances distances_;
  SettledOrders orders_;
};

} // namespace

std::vector<VerdictRow> verdict_rows(const LinkedKb& kb, const Chronology& chronology) {
  std::vector<std::size_t> begin{0}; // of the rows of each issue
  for (const Issue& issue : kb.issues) {
    std::size_t count = 0;
    for (const Takes& takes : issue.takes)
      for (const MouldIndex mould : kb.accessories[at(takes.accessory)].moulds)
        count += kb.moulds[at(mould)].runs.size();
    begin.push_back(begin.back() + count);
  }
  std::vector<VerdictRow> rows(begin.back());
  constexpr std::size_t block = 64; // issues, one after the other, because they share much
  const std::size_t blocks = (kb.issues.size() + block - 1) / block;
  std::atomic<std::size_t> next = 0;
  const auto work = [&] {
    IssueRows issues{kb, chronology};
    for (std::size_t b = next++; b < blocks; b = next++)
      for (std::size_t i = b * block; i < std::min(kb.issues.size(), (b + 1) * block); ++i)
        issues.fill(IssueIndex{static_cast<std::uint32_t>(i)}, rows.data() + begin[i]);
  };
  std::vector<std::jthread> helpers;
  const std::size_t threads = std::min<std::size_t>(std::thread::hardware_concurrency(), blocks / 4);
  for (std::size_t i = 1; i < threads; ++i) helpers.emplace_back(work);
  work();
  helpers.clear();
  return rows;
}

std::string gap_words(const VerdictRow& row) {
  Judgement judgement;
  judgement.verdict = row.verdict;
  judgement.gap = row.gap;
  return gap_words(judgement);
}

} // namespace coeval
