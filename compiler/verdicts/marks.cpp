#include "verdicts/marks.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "calendar/duration.hpp"
#include "chronology/readings.hpp"
#include "links/readings.hpp"

namespace coeval {
namespace {

std::size_t level(Basis basis) { return static_cast<std::size_t>(basis); }

// What a mark reads, where that counts on a basis.
struct CountedReading {
  ReadingDays days;
  Basis basis = Basis::conjectured;
  [[nodiscard]] std::optional<Day> first(Basis on) const { return basis <= on ? days.first : std::nullopt; }
};

CountedReading reading_of(const LinkedKb& kb, const CarriedMark& carried) {
  if (!carried.reading) return {};
  CountedReading reading{days_of_reading(kb, carried.mark, *carried.reading)};
  reading.basis = basis_of(kb, carried.mark, reading.days);
  return reading;
}

TimeSpanIndex span_of(const LinkedKb& kb, const CarriedMark& carried) { return kb.marks[at(carried.mark)].span; }

// Whether nothing carries the mark from after its last day, as far as the basis goes.
bool end_binds(const LinkedKb& kb, const CarriedMark& carried, Basis on) {
  return kb.marks[at(carried.mark)].end_binds && kb.spans[at(span_of(kb, carried))].evidence.basis <= on;
}

Reason binding(const LinkedKb& kb, const CarriedMark& carried) {
  const TimeSpan& span = kb.spans[at(span_of(kb, carried))];
  return reason_for(fmt::format("nothing carries {} from after its last day", span.address), span.evidence);
}

std::optional<Day> later(std::optional<Day> one, std::optional<Day> other) {
  if (!one || !other) return one ? one : other;
  return std::max(*one, *other);
}
std::optional<Day> sooner(std::optional<Day> one, std::optional<Day> other) {
  if (!one || !other) return one ? one : other;
  return std::min(*one, *other);
}

// The bounds that one mark sets on a basis.
DayBounds bounds_on(const LinkedKb& kb, const Chronology& chronology, const CarriedMark& carried,
                    const CountedReading& reading, Basis on) {
  const TimeSpanIndex span = span_of(kb, carried);
  DayBounds bounds;
  bounds.earliest = later(chronology.bounds(start_of(span), on).earliest, reading.first(on));
  if (end_binds(kb, carried, on)) bounds.latest = chronology.bounds(end_of(span), on).latest;
  return bounds;
}

MarkDating date_by(const LinkedKb& kb, const Chronology& chronology, const CarriedMark& carried, Basis weakest) {
  const TimeSpanIndex span = span_of(kb, carried);
  const CountedReading reading = reading_of(kb, carried);
  MarkDating dating;
  dating.mark = carried;
  dating.earliest = chronology.proven_bound(start_of(span), Side::earliest, weakest);
  if (const auto first = reading.first(weakest); first && (!dating.earliest.day || *first > *dating.earliest.day))
    dating.earliest = {first, reading.basis, {reason_of(kb, carried.mark, *carried.reading, reading.days)}};
  dating.last_use = chronology.bounds(end_of(span), weakest).latest;
  if (end_binds(kb, carried, weakest)) {
    dating.latest = chronology.proven_bound(end_of(span), Side::latest, weakest);
    if (dating.latest.day) {
      dating.latest.basis = std::max(*dating.latest.basis, kb.spans[at(span)].evidence.basis);
      tell_once(dating.latest.proof, binding(kb, carried));
    }
  }
  dating.read_first = reading.days.first;
  dating.read_last = reading.days.last;
  dating.below_first_number = carried.reading && !reading.days.first;
  return dating;
}

// By basis, end of the mark - point <= …; empty where the end does not bind.
using EndRows = std::array<BoundRow, all_bases.size()>;

EndRows rows_to_end(const LinkedKb& kb, const Chronology& chronology, const CarriedMark& carried, Basis weakest) {
  EndRows rows;
  for (const Basis basis : all_bases)
    if (basis <= weakest && end_binds(kb, carried, basis))
      rows[level(basis)] = chronology.on(basis).upper_to(end_of(span_of(kb, carried)));
  return rows;
}

// That `early` was gone before `late`, or what it reads, came up; on the strongest basis that proves it.
std::optional<MarkClash> clash_of(const LinkedKb& kb, const Chronology& chronology, const CarriedMark& early,
                                  const EndRows& to_end, const CarriedMark& late) {
  const Point end = end_of(span_of(kb, early));
  const Point start = start_of(span_of(kb, late));
  const CountedReading reading = reading_of(kb, late);
  for (const Basis basis : all_bases) {
    if (to_end[level(basis)].empty()) continue;
    MarkClash clash{.basis = basis};
    const auto ahead = to_end[level(basis)][static_cast<std::size_t>(start)];
    const auto last = chronology.bounds(end, basis).latest;
    const auto first = reading.first(basis);
    if (ahead && *ahead < 0) {
      clash.gap = -*ahead;
      clash.proof = chronology.tell_all(chronology.on(basis).proof(end, start));
    } else if (last && first && *last < *first) {
      clash.gap = *first - *last;
      clash.proof = chronology.tell_all(chronology.on(basis).proof(end, origin));
      tell_once(clash.proof, reason_of(kb, late.mark, *late.reading, reading.days));
    } else {
      continue;
    }
    tell_once(clash.proof, binding(kb, early));
    return clash;
  }
  return {};
}

} // namespace

std::string carried_words(const LinkedKb& kb, const CarriedMark& carried) {
  const Mark& mark = kb.marks[at(carried.mark)];
  const std::string_view address = kb.address(mark.entry);
  return carried.reading ? fmt::format("{}={}", address, reading_text(*mark.reading, *carried.reading))
                         : std::string{address};
}

std::string dating_sentences(const LinkedKb& kb, const Chronology& chronology, MarkIndex index, Basis weakest) {
  const Mark& mark = kb.marks[at(index)];
  const auto first = chronology.bounds(start_of(mark.span), weakest).earliest;
  const auto last = chronology.bounds(end_of(mark.span), weakest).latest;
  std::string words;
  if (mark.reading == ReadingKind::year) words = "Nothing that carries it was made before the year that it reads. ";
  if (mark.reading == ReadingKind::number)
    words = "Nothing that carries it was made before the number that it reads was given out. ";
  if (first)
    words += fmt::format("Nothing that carries it was made before {}. ", iso(*first));
  else if (!mark.reading)
    words += "Its first day is not known, so it does not date what carries it from below. ";
  if (end_binds(kb, {.mark = index}, weakest))
    words += last ? fmt::format("Its end binds: nothing that carries it was made after {}.", iso(*last))
                  : "Its end binds, but its last day is not known.";
  else if (last)
    words += fmt::format("Its last day was {} at the latest, which binds nothing: a tool or a plate could keep it.",
                         iso(*last));
  else
    words += "No last day of it is known.";
  return words;
}

Dating date_by_marks(const LinkedKb& kb, const Chronology& chronology, std::span<const CarriedMark> marks,
                     Basis weakest) {
  Dating dating;
  for (const CarriedMark& mark : marks) {
    dating.marks.push_back(date_by(kb, chronology, mark, weakest));
    const CountedReading reading = reading_of(kb, mark);
    for (const Basis basis : all_bases) {
      const DayBounds own = bounds_on(kb, chronology, mark, reading, basis);
      DayBounds& all = dating.by_basis[level(basis)];
      all.earliest = later(all.earliest, own.earliest);
      all.latest = sooner(all.latest, own.latest);
    }
  }
  for (std::size_t i = 0; i < dating.marks.size(); ++i) {
    const MarkDating& own = dating.marks[i];
    if (own.earliest.day && (!dating.earliest || *own.earliest.day > *dating.marks[*dating.earliest].earliest.day))
      dating.earliest = i;
    if (own.latest.day && (!dating.latest || *own.latest.day < *dating.marks[*dating.latest].latest.day))
      dating.latest = i;
  }
  for (std::size_t early = 0; early < marks.size(); ++early) {
    const EndRows to_end = rows_to_end(kb, chronology, marks[early], weakest);
    for (std::size_t late = 0; late < marks.size(); ++late)
      if (auto clash = clash_of(kb, chronology, marks[early], to_end, marks[late])) {
        clash->early = early;
        clash->late = late;
        dating.clashes.push_back(std::move(*clash));
      }
  }
  return dating;
}

std::string ruling_words(const LinkedKb& kb, const MarkRuling& ruling) {
  const std::string mark = carried_words(kb, ruling.mark);
  return ruling.too_early ? fmt::format("made at least {} before {}", at_least_words(ruling.gap), mark)
                          : fmt::format("made at least {} after {} had ended", at_least_words(ruling.gap), mark);
}

RunsByMarks::RunsByMarks(const LinkedKb& kb, const Chronology& chronology, std::span<const CarriedMark> marks,
                         Basis weakest)
    : kb_(kb), chronology_(chronology), marks_(marks.begin(), marks.end()), weakest_(weakest) {
  for (const CarriedMark& mark : marks_) {
    Rows& rows = rows_.emplace_back();
    rows.to_end = rows_to_end(kb, chronology, mark, weakest);
    for (const Basis basis : all_bases)
      if (basis <= weakest)
        rows.from_start[level(basis)] = chronology.on(basis).upper_from(start_of(span_of(kb, mark)));
  }
}

std::optional<MarkRuling> RunsByMarks::rule_out(RunIndex index, bool with_proof) const {
  const TimeSpanIndex run = kb_.runs[at(index)].span;
  const auto row = [](const BoundRow& bounds, Point point) {
    return bounds.empty() ? std::nullopt : bounds[static_cast<std::size_t>(point)];
  };
  for (const Basis basis : all_bases) {
    if (basis > weakest_) break;
    const Entailment& entailment = chronology_.on(basis);
    for (std::size_t i = 0; i < marks_.size(); ++i) {
      MarkRuling ruling{.mark = marks_[i], .basis = basis};
      const TimeSpanIndex mark = span_of(kb_, marks_[i]);
      const CountedReading reading = reading_of(kb_, marks_[i]);
      const auto first = reading.first(basis);
      const auto last = chronology_.bounds(end_of(run), basis).latest;
      if (const auto before = row(rows_[i].from_start[level(basis)], end_of(run)); before && *before < 0) {
        ruling.gap = -*before;
        if (with_proof) ruling.proof = chronology_.tell_all(entailment.proof(end_of(run), start_of(mark)));
      } else if (first && last && *last < *first) {
        ruling.gap = *first - *last;
        if (with_proof) {
          ruling.proof = chronology_.tell_all(entailment.proof(end_of(run), origin));
          tell_once(ruling.proof, reason_of(kb_, marks_[i].mark, *marks_[i].reading, reading.days));
        }
      } else if (const auto after = row(rows_[i].to_end[level(basis)], start_of(run)); after && *after < 0) {
        ruling.too_early = false;
        ruling.gap = -*after;
        if (with_proof) {
          ruling.proof = chronology_.tell_all(entailment.proof(end_of(mark), start_of(run)));
          tell_once(ruling.proof, binding(kb_, marks_[i]));
        }
      } else {
        continue;
      }
      return ruling;
    }
  }
  return {};
}

} // namespace coeval
