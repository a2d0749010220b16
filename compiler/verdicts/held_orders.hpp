// verdicts/held_orders.hpp: could something from any span have gone into one of a few, asked millions of times?
//
// Private to this room. Gives what order_of gives, without a search for each question. What lies near the ends of a
// span that is held is searched for once; everything else is as far away as the calendar says (see
// Entailment::nearer_from), and what the calendar says of a span lies in two lines of the processor's cache.
#pragma once

#include <array>
#include <optional>
#include <vector>

#include <boost/unordered/unordered_flat_map.hpp>

#include "verdicts/route.hpp"

namespace coeval {

// How early and how late a span can have started and ended. Where there is no bound it is `never`, or minus that.
struct SpanDays {
  static constexpr Day never = Day{1} << 59; // beyond every day that can be written, and safe to add
  struct Known {
    Day earliest_start = -never;
    Day latest_start = never;
    Day earliest_end = -never;
    Day latest_end = never;
  };
  std::array<Known, all_bases.size()> on;
};

[[nodiscard]] SpanDays days_of(const Chronology& chronology, TimeSpanIndex span);

// Points with the tightest bound of a difference, by the question that it decides.
struct NearEnds {
  std::array<std::vector<NearPoint>, 4> by_question; // each by point
  std::uint64_t some = 0; // a bit for every point in them: most that are asked about have none
};

// A span with what lies nearer to its ends than by the calendar, found for each basis when that is first asked about.
class HeldSpan {
public:
  HeldSpan(const Chronology& chronology, TimeSpanIndex span) : span_(span), days_(days_of(chronology, span)) {}

  [[nodiscard]] TimeSpanIndex span() const { return span_; }
  [[nodiscard]] const SpanDays& days() const { return days_; }
  [[nodiscard]] OrderAnswer order(const Chronology& chronology, TimeSpanIndex from, const SpanDays& days_of_from,
                                  const StockDays& stock_days, Basis weakest);

private:
  const NearEnds& near(const Chronology& chronology, Basis basis);

  TimeSpanIndex span_;
  SpanDays days_;
  std::array<std::optional<NearEnds>, all_bases.size()> near_;
};

// Orders into the issue that is chosen, and into routes.
class HeldOrders : public Orders {
public:
  // Both must outlive it.
  HeldOrders(const LinkedKb& kb, const Chronology& chronology, Basis weakest);

  // The issue that is asked about from now on, and the policy on stock that holds for it.
  void choose(TimeSpanIndex issue, const Leftover* leftover);
  // The run that is asked about from now on, and whether it can have gone into the issue. Its days must stay.
  [[nodiscard]] OrderAnswer choose_run(TimeSpanIndex run, const SpanDays& days);

  [[nodiscard]] OrderAnswer from_run(RouteIndex into) override;
  [[nodiscard]] OrderAnswer from_route(RouteIndex from, RouteIndex into) override;
  [[nodiscard]] OrderAnswer into_issue(RouteIndex from) override;

private:
  // Orders of routes come up again for every run, and most for every issue.
  struct Settled {
    Answer answer{};
    std::optional<Basis> basis;
    std::uint32_t round = 0; // of the issue that it is for
  };
  OrderAnswer order(TimeSpanIndex from, const SpanDays& days, HeldSpan& into) {
    return into.order(chronology_, from, days, stock_days_, weakest_);
  }

  const Chronology& chronology_;
  Basis weakest_;
  const Leftover* leftover_ = nullptr;
  StockDays stock_days_;
  TimeSpanIndex run_{};
  const SpanDays* days_of_run_ = nullptr;
  std::optional<HeldSpan> issue_;
  std::uint32_t round_ = 0;
  std::vector<HeldSpan> routes_;    // by RouteIndex
  std::vector<Settled> into_issue_; // by RouteIndex
  boost::unordered_flat_map<std::uint64_t, Settled> into_route_;
};

} // namespace coeval
