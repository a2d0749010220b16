#include "chronology/statements.hpp"

#include <algorithm>
#include <map>

#include "chronology/readings.hpp"

namespace coeval {
namespace {

std::uint8_t level(Basis basis) { return static_cast<std::uint8_t>(basis); }
Basis weaker(Basis one, Basis other) { return std::max(one, other); }

// x <= y + slack as a pair of points; used for relations, where every constraint compares an end of one span with one
// of another.
struct EndOrder {
  SpanEnd left;  // of the span that the relation is stated of
  SpanEnd right; // of the other span
  int sign;      // -1: left < right, 0: left = right, +1: left > right
};

// OWL-Time's definitions (W3C, https://www.w3.org/TR/owl-time/), read with the first and last day as the two instants:
// "meets" means that one's last day is the other's first.
std::vector<EndOrder> ends_of(Relation relation) {
  constexpr SpanEnd s = SpanEnd::start;
  constexpr SpanEnd e = SpanEnd::end;
  switch (relation) {
  case Relation::before:
    return {{e, s, -1}};
  case Relation::meets:
    return {{e, s, 0}};
  case Relation::overlaps:
    return {{s, s, -1}, {e, s, +1}, {e, e, -1}};
  case Relation::finished_by:
    return {{s, s, -1}, {e, e, 0}};
  case Relation::contains:
    return {{s, s, -1}, {e, e, +1}};
  case Relation::starts:
    return {{s, s, 0}, {e, e, -1}};
  case Relation::equals:
    return {{s, s, 0}, {e, e, 0}};
  case Relation::started_by:
    return {{s, s, 0}, {e, e, +1}};
  case Relation::during:
    return {{s, s, +1}, {e, e, -1}};
  case Relation::finishes:
    return {{s, s, +1}, {e, e, 0}};
  case Relation::overlapped_by:
    return {{s, s, +1}, {s, e, -1}, {e, e, +1}};
  case Relation::met_by:
    return {{s, e, 0}};
  case Relation::after:
    return {{s, e, +1}};
  }
  return {};
}

class Stater {
public:
  explicit Stater(const LinkedKb& kb) : kb_(kb) {
    out_.points = 1 + 2 * static_cast<std::uint32_t>(kb.spans.size());
    // More than there will be, mostly; room that is not used costs no memory. Grown step by step, the list and its copy
    // would at times both be there.
    const std::size_t enough = 8 * (kb.spans.size() + kb.pairings.size()) + 4 * kb.timings.size();
    out_.constraints.reserve(enough);
    out_.tellings.reserve(enough);
  }

  Statements state() {
    state_all();
    return std::move(out_);
  }

  SupposedStatements state_supposing(const Timing& timing) {
    state_all();
    const StatementIndex index = statement(timing.evidence);
    add_timing(timing, index, Basis::documented);
    return supposing(index);
  }

  SupposedStatements state_supposing(const Pairing& pairing) {
    state_all();
    return supposing(state_pairing(pairing));
  }

  ManySupposed state_supposing_each(std::span<const Supposable> each) {
    state_all();
    ManySupposed many;
    for (const Supposable& one : each) {
      const std::size_t first = out_.constraints.size();
      if (const auto* timing = std::get_if<const Timing*>(&one)) {
        many.indices.push_back(statement((*timing)->evidence));
        add_timing(**timing, many.indices.back(), Basis::documented);
      } else {
        many.indices.push_back(state_pairing(*std::get<const Pairing*>(one)));
      }
      many.constraints.emplace_back(first, out_.constraints.size());
      for (std::size_t i = first; i < out_.constraints.size(); ++i)
        if (out_.constraints[i].statement == many.indices.back()) out_.constraints[i].level = level(Basis::documented);
    }
    many.all = std::move(out_);
    return many;
  }

private:
  void state_all() {
    for (std::size_t i = 0; i < kb_.spans.size(); ++i) state_span(TimeSpanIndex{static_cast<std::uint32_t>(i)});
    for (const Run& run : kb_.runs) state_run(run);
    for (const Issue& issue : kb_.issues) state_reissue(issue);
    for (const Timing& timing : kb_.timings)
      if (!timing.evidence.disputed) add_timing(timing, statement(timing.evidence), timing.evidence.basis);
    for (const Pairing& pairing : kb_.pairings)
      if (!pairing.evidence.disputed && !pairing.refuted) state_pairing(pairing);
  }

  SupposedStatements supposing(StatementIndex index) {
    for (Constraint& constraint : out_.constraints)
      if (constraint.statement == index) constraint.level = level(Basis::documented);
    return {std::move(out_), index};
  }

  void add_timing(const Timing& timing, StatementIndex index, Basis basis) {
    const SpanPoint self{timing.of, timing.end};
    Telling telling{
        .wording = Wording::timing_gap, .end = timing.end, .subject = timing.of, .origin = {.timing = &timing}};
    switch (timing.order) {
    case Order::relation:
      telling.wording = Wording::timing_relation;
      for (const EndOrder& order : ends_of(timing.relation)) {
        const Point left = point_of({timing.of, order.left});
        const Point right = point_of({timing.span, order.right});
        if (order.sign <= 0) add(left, right, order.sign, index, basis, telling);
        if (order.sign >= 0) add(right, left, -order.sign, index, basis, telling);
      }
      break;
    case Order::on:
      add_date(self, some_day_in(*timing.on), &timing, index, basis);
      break;
    case Order::same_day:
      add(point_of(self), point_of(timing.other), 0, index, basis, telling);
      add(point_of(timing.other), point_of(self), 0, index, basis, telling);
      break;
    case Order::after:
    case Order::before: {
      const Point later = timing.order == Order::after ? point_of(self) : point_of(timing.other);
      const Point earlier = timing.order == Order::after ? point_of(timing.other) : point_of(self);
      // A plain order means one day or more; a stated gap is taken at its fewest and at its most days.
      add(earlier, later, -(timing.at_least ? timing.at_least->fewest_days() : 1), index, basis, telling);
      if (timing.at_most) add(later, earlier, timing.at_most->most_days(), index, basis, telling);
      break;
    }
    }
  }

  StatementIndex statement(const Evidence& evidence) {
    out_.evidence.push_back(&evidence);
    return StatementIndex{static_cast<std::uint32_t>(out_.evidence.size() - 1)};
  }

  void add(Point x, Point y, Day most, StatementIndex index, Basis basis, const Telling& telling) {
    out_.constraints.push_back({x, y, most, index, level(basis)});
    out_.tellings.push_back(telling);
  }

  // `timing`: what dates the point, where it is not the span's own entry.
  void add_date(SpanPoint point, const DateBounds& written, const Timing* timing, StatementIndex index, Basis basis) {
    const DateBounds bounds = widened(written, kb_.allowance_of(kb_.spans[at(point.span)]));
    if (bounds.uncertain) basis = weaker(basis, Basis::reported);
    Telling telling{.wording = Wording::no_earlier,
                    .end = point.end,
                    .approximate = bounds.approximate,
                    .subject = point.span,
                    .origin = {.timing = timing}};
    if (bounds.first) {
      add(origin, point_of(point), -*bounds.first, index, basis, telling);
    }
    if (bounds.last) {
      telling.wording = Wording::no_later;
      add(point_of(point), origin, *bounds.last, index, basis, telling);
    }
  }

  void state_span(TimeSpanIndex index) {
    const TimeSpan& span = kb_.spans[at(index)];
    const Point start = start_of(index);
    const Point end = end_of(index);
    add(start, end, 0, by_definition, Basis::documented, {.wording = Wording::by_words, .subject = index});
    const Basis basis = span.evidence.basis;
    if (span.dates != nullptr) {
      const StatementIndex dated = statement(span.evidence);
      add_date({index, SpanEnd::start}, span.dates->start.bounds, nullptr, dated, basis);
      add_date({index, SpanEnd::end}, span.dates->end.bounds, nullptr, dated, basis);
    }
    for (std::uint32_t i = 0; i < span.within.size(); ++i) {
      const TimeSpanIndex other = span.within[i].first;
      const StatementIndex held = statement(span.evidence);
      const Telling telling{.wording = Wording::within, .subject = index, .origin = {.position = i}};
      add(start_of(other), start, 0, held, basis, telling);
      add(end, end_of(other), 0, held, basis, telling);
    }
    if (span.replaces) {
      const StatementIndex follows = statement(span.evidence);
      Telling telling{.wording = Wording::replaces, .subject = index};
      add(start_of(*span.replaces), start, -1, follows, basis, telling);
      add(end_of(*span.replaces), end, 0, follows, basis, telling);
      telling.wording = Wording::replaces_clean;
      if (span.clean) add(end_of(*span.replaces), start, -1, follows, basis, telling);
    }
    for (std::uint32_t i = 0; i < span.marks.size(); ++i) state_mark(index, i);
  }

  // `position` in the marks of the span.
  void state_mark(TimeSpanIndex index, std::uint32_t position) {
    const CarriedMark& carried = kb_.spans[at(index)].marks[position];
    const Evidence& evidence = kb_.spans[at(index)].evidence;
    const Mark& mark = kb_.marks[at(carried.mark)];
    const StatementIndex carries = statement(evidence);
    Telling telling{.wording = Wording::carries_mark, .subject = index, .origin = {.position = position}};
    add(start_of(mark.span), start_of(index), 0, carries, evidence.basis, telling);
    if (mark.end_binds) {
      telling.wording = Wording::carries_ended_mark;
      add(end_of(index), end_of(mark.span), 0, carries, weaker(evidence.basis, kb_.spans[at(mark.span)].evidence.basis),
          telling);
    }
    if (!carried.reading) return;
    if (const auto day = reading_day(carried.mark, *carried.reading)) {
      telling.wording = Wording::carries_reading;
      add(*day, start_of(index), 0, carries, evidence.basis, telling);
    }
  }

  // The day that stands for what a mark reads. One auxiliary point for each year, and for each row of numbers, so that
  // what the reading means and who carries it stay two statements that can be doubted apart. Nothing for a number below
  // the mark's first row.
  std::optional<Point> reading_day(MarkIndex index, std::int64_t reading) {
    const ReadingDays days = days_of_reading(kb_, index, reading);
    if (!days.first) return {};
    const Telling telling = telling_of(kb_, index, reading, days);
    const auto [found, fresh] = reading_days_.try_emplace({index, telling.origin.position}, Point{out_.points});
    if (fresh) {
      ++out_.points;
      add(origin, found->second, -*days.first, statement(evidence_of(kb_, index, days)), basis_of(kb_, index, days),
          telling);
    }
    return found->second;
  }

  void state_run(const Run& run) {
    const TimeSpanIndex mould = kb_.moulds[at(run.mould)].span;
    const Telling telling{.wording = Wording::run_in_mould, .subject = run.span};
    add(start_of(mould), start_of(run.span), 0, by_definition, Basis::documented, telling);
    add(end_of(run.span), end_of(mould), 0, by_definition, Basis::documented, telling);
  }

  void state_reissue(const Issue& issue) {
    if (!issue.reissue_of) return;
    const TimeSpanIndex first = kb_.issues[at(*issue.reissue_of)].span;
    const Evidence& evidence = kb_.spans[at(issue.span)].evidence;
    add(start_of(first), start_of(issue.span), -1, statement(evidence), evidence.basis,
        {.wording = Wording::reissue, .subject = issue.span});
  }

  // The day from which the oldest stock could still be packed when `packed` began: packed.start - stock day <=
  // leftover. One auxiliary point for each packed span and policy, so that the policy and the pairings that rest on it
  // stay separate statements.
  std::optional<Point> stock_day(TimeSpanIndex packed, const Leftover* leftover) {
    if (leftover == nullptr) return {};
    const auto [found, fresh] = stock_days_.try_emplace({packed, leftover}, Point{out_.points});
    if (fresh) {
      ++out_.points;
      auto [policy, first] = policies_.try_emplace(leftover, StatementIndex{});
      if (first) policy->second = statement(leftover->evidence);
      add(start_of(packed), found->second, most_days(*leftover), policy->second, leftover->evidence.basis,
          {.wording = Wording::stock, .subject = packed, .origin = {.leftover = leftover}});
    }
    return found->second;
  }

  StatementIndex state_pairing(const Pairing& pairing) {
    const StatementIndex index = statement(pairing.evidence);
    const Basis basis = pairing.evidence.basis;
    const TimeSpanIndex run = kb_.runs[at(pairing.run)].span;
    const TimeSpanIndex issue = kb_.issues[at(pairing.issue)].span;
    const Leftover* leftover = kb_.leftover_of(pairing.issue);
    const Telling telling{.wording = Wording::pairing, .subject = run, .origin = {.pairing = &pairing}};
    const auto sealed_in = [&](TimeSpanIndex packed) {
      add(start_of(run), end_of(packed), 0, index, basis, telling);
      if (const auto stock = stock_day(packed, leftover)) add(*stock, end_of(run), 0, index, basis, telling);
    };
    sealed_in(issue);
    if (!pairing.card) return index;
    const TimeSpanIndex card = kb_.cards[at(*pairing.card)].span;
    sealed_in(card);
    // It was packed on one day, in the issue's time and in the card's.
    add(start_of(issue), end_of(card), 0, index, basis, telling);
    add(start_of(card), end_of(issue), 0, index, basis, telling);
    return index;
  }

  const LinkedKb& kb_;
  Statements out_;
  std::map<std::pair<TimeSpanIndex, const Leftover*>, Point> stock_days_;
  std::map<const Leftover*, StatementIndex> policies_;
  std::map<std::pair<MarkIndex, std::uint32_t>, Point> reading_days_; // by year, or by row of numbers
};

Day allowed_days(Precision precision, const Allowance& allowance) {
  switch (precision) {
  case Precision::day:
    return allowance.day.most_days();
  case Precision::month:
    return allowance.month.most_days();
  case Precision::season:
    return allowance.season.most_days();
  case Precision::year:
    return allowance.year.most_days();
  case Precision::decade:
    return allowance.decade.most_days();
  default:
    return Duration{100, 0, 0}.most_days();
  }
}

} // namespace

Statements state(const LinkedKb& kb) { return Stater{kb}.state(); }

SupposedStatements state_supposing(const LinkedKb& kb) { return {state(kb), {}}; }

SupposedStatements state_supposing(const LinkedKb& kb, const Timing& timing) {
  return Stater{kb}.state_supposing(timing);
}

SupposedStatements state_supposing(const LinkedKb& kb, const Pairing& pairing) {
  return Stater{kb}.state_supposing(pairing);
}

ManySupposed state_supposing_each(const LinkedKb& kb, std::span<const Supposable> each) {
  return Stater{kb}.state_supposing_each(each);
}

bool is_weaker(const Evidence& one, const Evidence& other) {
  return std::pair{one.basis, other.citations().size()} > std::pair{other.basis, one.citations().size()};
}

DateBounds some_day_in(const WrittenDate& date) {
  DateBounds bounds = date.edtf.start;
  bounds.first = date.edtf.first();
  bounds.last = date.edtf.last();
  bounds.approximate = date.edtf.start.approximate || date.edtf.end.approximate;
  bounds.uncertain = date.edtf.start.uncertain || date.edtf.end.uncertain;
  return bounds;
}

DateBounds widened(const DateBounds& bounds, const Allowance& allowance) {
  if (!bounds.approximate) return bounds;
  const Day days = allowed_days(bounds.precision, allowance);
  DateBounds wide = bounds;
  if (wide.first) *wide.first -= days;
  if (wide.last) *wide.last += days;
  return wide;
}

} // namespace coeval
