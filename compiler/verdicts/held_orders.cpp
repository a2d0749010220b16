#include "verdicts/held_orders.hpp"

#include <algorithm>

namespace coeval {
namespace {

// What start_of and end_of were given. Of a point that is neither, a span that does not exist.
TimeSpanIndex span_of(Point point) { return TimeSpanIndex{(static_cast<std::uint32_t>(point) - 1) / 2}; }

std::uint64_t bit_of(TimeSpanIndex span) {
  return std::uint64_t{1} << ((static_cast<std::uint32_t>(span) * 0x9e3779b1U) >> 26U); // Fibonacci hashing
}

// What a stronger basis proves, a weaker one does: most are undecided on all, which one question tells.
template <class Differences>
OrderAnswer strongest_order(const Differences& differences, const StockDays& stock_days, Basis weakest) {
  const OrderAnswer on_weakest = order_on(differences, stock_days, weakest);
  if (on_weakest.answer == Answer::undecided) return on_weakest;
  for (const Basis basis : all_bases) {
    if (basis == weakest) break;
    const OrderAnswer stronger = order_on(differences, stock_days, basis);
    if (stronger.answer != Answer::undecided) return stronger;
  }
  return on_weakest;
}

} // namespace

SpanDays days_of(const Chronology& chronology, TimeSpanIndex span) {
  const Entailment& weakest = chronology.on(all_bases.back());
  std::array<PointBounds, all_bases.size()> start;
  std::array<PointBounds, all_bases.size()> end;
  weakest.bounds_on_levels(start_of(span), start);
  weakest.bounds_on_levels(end_of(span), end);
  SpanDays days;
  for (std::size_t basis = 0; basis < all_bases.size(); ++basis)
    days.on[basis] = {start[basis].earliest.value_or(-SpanDays::never), start[basis].latest.value_or(SpanDays::never),
                      end[basis].earliest.value_or(-SpanDays::never), end[basis].latest.value_or(SpanDays::never)};
  return days;
}

void HeldSpan::hold(const Chronology& chronology, TimeSpanIndex span) {
  span_ = span;
  days_ = days_of(chronology, span);
  looked_ = false;
  some_ = 0;
  nearer_.clear();
}

void HeldSpan::look_for_nearer(NearSearch& search) {
  looked_ = true;
  const auto keep = [&](OrderQuestion question, Point (*asked)(TimeSpanIndex),
                        std::span<const NearSearch::Found> near) {
    for (const NearSearch::Found& found : near) {
      const TimeSpanIndex from = span_of(found.point);
      if (found.point != asked(from)) continue; // the other end is not what is asked about
      some_ |= bit_of(from);
      nearer_.push_back({from, question, static_cast<Basis>(found.level), found.most});
    }
  };
  keep(OrderQuestion::too_late, start_of, search.to(end_of(span_)));
  keep(OrderQuestion::kept_too_long, end_of, search.from(start_of(span_)));
  keep(OrderQuestion::in_time, start_of, search.from(end_of(span_)));
  keep(OrderQuestion::fresh, end_of, search.to(start_of(span_)));
  std::ranges::sort(nearer_, {}, &Nearer::place);
}

struct HeldSpan::ByCalendar {
  const SpanDays& days_of_from;
  const SpanDays& days_of_into;

  [[nodiscard]] Day most(OrderQuestion question, Basis basis) const {
    const SpanDays::Known& from = days_of_from.on[static_cast<std::size_t>(basis)];
    const SpanDays::Known& into = days_of_into.on[static_cast<std::size_t>(basis)];
    switch (question) {
    case OrderQuestion::too_late:
      return into.latest_end - from.earliest_start;
    case OrderQuestion::kept_too_long:
      return from.latest_end - into.earliest_start;
    case OrderQuestion::in_time:
      return from.latest_start - into.earliest_end;
    case OrderQuestion::fresh:
      return into.latest_start - from.earliest_end;
    }
    return SpanDays::never;
  }
  [[nodiscard]] bool proves(OrderQuestion question, Day limit, Basis basis) const {
    return most(question, basis) <= limit;
  }
};

struct HeldSpan::ByCalendarOrNearer {
  ByCalendar calendar;
  std::span<const Nearer> nearer;
  TimeSpanIndex from;

  [[nodiscard]] Day most(OrderQuestion question, Basis basis) const {
    const std::tuple place{from, question, basis};
    const auto found = std::ranges::lower_bound(nearer, place, {}, &Nearer::place);
    return found != nearer.end() && found->place() == place ? found->most : calendar.most(question, basis);
  }
  [[nodiscard]] bool proves(OrderQuestion question, Day limit, Basis basis) const {
    return most(question, basis) <= limit;
  }
};

OrderAnswer HeldSpan::order(NearSearch& search, TimeSpanIndex from, const SpanDays& days_of_from,
                            const StockDays& stock_days, Basis weakest) {
  if (!looked_) look_for_nearer(search);
  const ByCalendar calendar{days_of_from, days_};
  if ((some_ & bit_of(from)) == 0) return strongest_order(calendar, stock_days, weakest);
  return strongest_order(ByCalendarOrNearer{calendar, nearer_, from}, stock_days, weakest);
}

HeldOrders::HeldOrders(const LinkedKb& kb, const Chronology& chronology, Basis weakest)
    : chronology_(chronology), search_(chronology.on(weakest)), weakest_(weakest), into_issue_(kb.routes.size()) {
  routes_.reserve(kb.routes.size());
  for (const Route& route : kb.routes) routes_.emplace_back(chronology, route.span);
}

void HeldOrders::choose(TimeSpanIndex issue, const Leftover* leftover) {
  issue_.hold(chronology_, issue);
  ++round_;
  if (leftover == leftover_) return;
  leftover_ = leftover;
  stock_days_ = stock_days(leftover);
  into_route_.clear();
}

OrderAnswer HeldOrders::choose_run(TimeSpanIndex run, const SpanDays& days) {
  run_ = run;
  days_of_run_ = &days;
  return order(run, days, issue_);
}

OrderAnswer HeldOrders::from_run(RouteIndex into) { return order(run_, *days_of_run_, routes_[at(into)]); }

OrderAnswer HeldOrders::from_route(RouteIndex from, RouteIndex into) {
  const auto [known, fresh] = into_route_.try_emplace((std::uint64_t{static_cast<std::uint32_t>(from)} << 32U) |
                                                      static_cast<std::uint32_t>(into));
  if (fresh) {
    const OrderAnswer found = order(routes_[at(from)].span(), routes_[at(from)].days(), routes_[at(into)]);
    known->second = {found.answer, found.basis};
  }
  return {.answer = known->second.answer, .basis = known->second.basis};
}

OrderAnswer HeldOrders::into_issue(RouteIndex from) {
  Settled& known = into_issue_[at(from)];
  if (known.round != round_) {
    const OrderAnswer found = order(routes_[at(from)].span(), routes_[at(from)].days(), issue_);
    known = {found.answer, found.basis, round_};
  }
  return {.answer = known.answer, .basis = known.basis};
}

} // namespace coeval
