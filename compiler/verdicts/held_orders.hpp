// verdicts/held_orders.hpp: could something from any span have gone into one of a few, asked millions of times?
//
// Private to this room. Gives what order_of gives, without a search for each question. What lies near the ends of a
// span that is held is searched for once; everything else is as far away as the calendar says (see
// NearSearch), and what the calendar says of a span lies in two lines of the processor's cache.
#pragma once

#include <array>
#include <optional>
#include <tuple>
#include <vector>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/near.hpp"
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

// A span with what lies nearer to its ends than by the calendar, which is looked for when that is first asked about.
class HeldSpan {
public:
  HeldSpan() = default;
  HeldSpan(const Chronology& chronology, TimeSpanIndex span) { hold(chronology, span); }

  // From now on it is this span.
  void hold(const Chronology& chronology, TimeSpanIndex span);
  [[nodiscard]] TimeSpanIndex span() const { return span_; }
  [[nodiscard]] const SpanDays& days() const { return days_; }
  [[nodiscard]] OrderAnswer order(NearSearch& search, TimeSpanIndex from, const SpanDays& days_of_from,
                                  const StockDays& stock_days, Basis weakest);

private:
  struct ByCalendar;
  struct ByCalendarOrNearer;
  // The tightest bound of a difference that decides a question, where that is nearer than by the calendar.
  struct Nearer {
    TimeSpanIndex from{};
    OrderQuestion question{};
    Basis basis{};
    Day most = 0;
    [[nodiscard]] auto place() const { return std::tuple{from, question, basis}; }
  };
  void look_for_nearer(NearSearch& search);

  TimeSpanIndex span_{};
  SpanDays days_;
  bool looked_ = false;
  std::uint64_t some_ = 0;     // a bit for every span that is in nearer_: most that are asked about are not
  std::vector<Nearer> nearer_; // by place
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
    return into.order(search_, from, days, stock_days_, weakest_);
  }

  const Chronology& chronology_;
  NearSearch search_;
  Basis weakest_;
  const Leftover* leftover_ = nullptr;
  StockDays stock_days_;
  TimeSpanIndex run_{};
  const SpanDays* days_of_run_ = nullptr;
  HeldSpan issue_;
  std::uint32_t round_ = 0;
  std::vector<HeldSpan> routes_;    // by RouteIndex
  std::vector<Settled> into_issue_; // by RouteIndex
  boost::unordered_flat_map<std::uint64_t, Settled> into_route_;
};

} // namespace coeval
