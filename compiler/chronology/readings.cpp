#include "chronology/readings.hpp"

#include "chronology/statements.hpp"
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

} // namespace coeval
