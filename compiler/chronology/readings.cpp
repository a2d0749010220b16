#include "chronology/readings.hpp"

#include <algorithm>

#include "links/readings.hpp"

namespace coeval {

ReadingDays days_of_reading(const LinkedKb& kb, MarkIndex mark, std::int64_t reading) {
  const Mark& it = kb.marks[at(mark)];
  if (it.reading == ReadingKind::year)
    return {.first = day_number({reading, 1, 1}), .last = day_number({reading, 12, 31})};
  const Allowance& allowance = kb.allowance_of(kb.spans[at(it.span)]);
  const auto [row, next] = rows_around(it, reading);
  ReadingDays days{.row = row};
  if (row != nullptr) {
    const DateBounds bounds = widened(some_day_in(*row->on), allowance);
    days.first = bounds.first;
    days.approximate = bounds.approximate;
    days.uncertain = bounds.uncertain;
  }
  if (next != nullptr) days.last = widened(some_day_in(*next->on), allowance).last;
  return days;
}

const Evidence& evidence_of(const LinkedKb& kb, MarkIndex mark, const ReadingDays& days) {
  return days.row != nullptr ? days.row->evidence : kb.spans[at(kb.marks[at(mark)].span)].evidence;
}

Basis basis_of(const LinkedKb& kb, MarkIndex mark, const ReadingDays& days) {
  const Basis basis = evidence_of(kb, mark, days).basis;
  return days.uncertain ? std::max(basis, Basis::reported) : basis;
}

Telling telling_of(const LinkedKb& kb, MarkIndex mark, std::int64_t reading, const ReadingDays& days) {
  const Mark& it = kb.marks[at(mark)];
  const bool numbered = days.row != nullptr;
  const std::int64_t position = numbered ? days.row - it.numbers.data() : reading;
  return {.wording = numbered ? Wording::reads_number : Wording::reads_year,
          .approximate = days.approximate,
          .subject = it.span,
          .origin = {.position = static_cast<std::uint32_t>(position)}};
}

Reason reason_of(const LinkedKb& kb, MarkIndex mark, std::int64_t reading, const ReadingDays& days) {
  Reason reason = tell(kb, telling_of(kb, mark, reading, days), -*days.first, &evidence_of(kb, mark, days));
  reason.basis = basis_of(kb, mark, days);
  return reason;
}

} // namespace coeval
