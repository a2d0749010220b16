#include "verdicts/held_orders.hpp"

#include <algorithm>

namespace coeval {
namespace {

std::uint64_t bit_of(Point point) {
  return std::uint64_t{1} << ((static_cast<std::uint32_t>(point) * 0x9e3779b1U) >> 26U); // Fibonacci hashing
}

} // namespace

SpanDays days_of(const Chronology& chronology, TimeSpanIndex span) {
  SpanDays days;
  for (const Basis basis : all_bases) {
    const Entailment& known = chronology.on(basis);
    days.on[static_cast<std::size_t>(basis)] = {known.earliest(start_of(span)).value_or(-SpanDays::never),
                                                known.latest(start_of(span)).value_or(SpanDays::never),
                                                known.earliest(end_of(span)).value_or(-SpanDays::never),
                                                known.latest(end_of(span)).value_or(SpanDays::never)};
  }
  return days;
}

const NearEnds& HeldSpan::near(const Chronology& chronology, Basis basis) {
  auto& near = near_[static_cast<std::size_t>(basis)];
  if (near) return *near;
  near.emplace();
  const Entailment& known = chronology.on(basis);
  const auto keep = [&](OrderQuestion question, std::vector<NearPoint> found) {
    std::ranges::sort(found, {}, &NearPoint::point);
    for (const NearPoint& point : found) near->some |= bit_of(point.point);
    near->by_question[static_cast<std::size_t>(question)] = std::move(found);
  };
  keep(OrderQuestion::too_late, known.nearer_to(end_of(span_)));
  keep(OrderQuestion::kept_too_long, known.nearer_from(start_of(span_)));
  keep(OrderQuestion::in_time, known.nearer_from(end_of(span_)));
  keep(OrderQuestion::fresh, known.nearer_to(start_of(span_)));
  return *near;
}

OrderAnswer HeldSpan::order(const Chronology& chronology, TimeSpanIndex from, const SpanDays& days_of_from,
                            const StockDays& stock_days, Basis weakest) {
  struct Asked {
    HeldSpan& held;
    const Chronology& chronology;
    TimeSpanIndex from;
    const SpanDays& days_of_from;
    std::uint64_t bit_of_start;
    std::uint64_t bit_of_end;

    [[nodiscard]] Day most(OrderQuestion question, Basis basis) const {
      const bool about_start = question == OrderQuestion::too_late || question == OrderQuestion::in_time;
      const NearEnds& near = held.near(chronology, basis);
      if ((near.some & (about_start ? bit_of_start : bit_of_end)) != 0) {
        const Point point = about_start ? start_of(from) : end_of(from);
        const auto& list = near.by_question[static_cast<std::size_t>(question)];
        const auto found = std::ranges::lower_bound(list, point, {}, &NearPoint::point);
        if (found != list.end() && found->point == point) return found->most;
      }
      const SpanDays::Known& into = held.days_.on[static_cast<std::size_t>(basis)];
      const SpanDays::Known& out_of = days_of_from.on[static_cast<std::size_t>(basis)];
      switch (question) {
      case OrderQuestion::too_late:
        return into.latest_end - out_of.earliest_start;
      case OrderQuestion::kept_too_long:
        return out_of.latest_end - into.earliest_start;
      case OrderQuestion::in_time:
        return out_of.latest_start - into.earliest_end;
      case OrderQuestion::fresh:
        return into.latest_start - out_of.earliest_end;
      }
      return SpanDays::never;
    }
    [[nodiscard]] bool proves(OrderQuestion question, Day limit, Basis basis) const {
      return most(question, basis) <= limit;
    }
  };
  Asked asked{*this, chronology, from, days_of_from, bit_of(start_of(from)), bit_of(end_of(from))};
  // What a stronger basis proves, a weaker one does: most are undecided on all, which one question tells.
  const OrderAnswer on_weakest = order_on(asked, stock_days, weakest);
  if (on_weakest.answer == Answer::undecided) return on_weakest;
  for (const Basis basis : all_bases) {
    if (basis == weakest) break;
    const OrderAnswer stronger = order_on(asked, stock_days, basis);
    if (stronger.answer != Answer::undecided) return stronger;
  }
  return on_weakest;
}

HeldOrders::HeldOrders(const LinkedKb& kb, const Chronology& chronology, Basis weakest)
    : chronology_(chronology), weakest_(weakest), into_issue_(kb.routes.size()) {
  routes_.reserve(kb.routes.size());
  for (const Route& route : kb.routes) routes_.emplace_back(chronology, route.span);
}

void HeldOrders::choose(TimeSpanIndex issue, const Leftover* leftover) {
  issue_.emplace(chronology_, issue);
  ++round_;
  if (leftover == leftover_) return;
  leftover_ = leftover;
  stock_days_ = stock_days(leftover);
  into_route_.clear();
}

OrderAnswer HeldOrders::choose_run(TimeSpanIndex run, const SpanDays& days) {
  run_ = run;
  days_of_run_ = &days;
  return order(run, days, *issue_);
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
    const OrderAnswer found = order(routes_[at(from)].span(), routes_[at(from)].days(), *issue_);
    known = {found.answer, found.basis, round_};
  }
  return {.answer = known.answer, .basis = known.basis};
}

} // namespace coeval
