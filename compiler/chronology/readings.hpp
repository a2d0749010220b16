// chronology/readings.hpp: which days does what a mark reads stand for?
#pragma once

#include <cstdint>

#include "chronology/statements.hpp"

namespace coeval {

// The days from which on, and up to which, the year ran or the number was given out. Only the first bounds what carries
// the mark: a mould keeps its old year and number. Absent bounds are unknown; a number below the mark's first row has
// neither row nor first day.
struct ReadingDays {
  std::optional<Day> first;
  std::optional<Day> last;
  bool approximate = false; // of the first: widened by an allowance
  bool uncertain = false;   // of the first: written with `?`
  const NumberRow* row = nullptr;
};

[[nodiscard]] ReadingDays days_of_reading(const LinkedKb& kb, MarkIndex mark, std::int64_t reading);

// What backs the first day: the row of a number, the mark itself for a year.
[[nodiscard]] const Evidence& evidence_of(const LinkedKb& kb, MarkIndex mark, const ReadingDays& days);
[[nodiscard]] Basis basis_of(const LinkedKb& kb, MarkIndex mark, const ReadingDays& days);
// How the first day is told: origin - day <= -first.
[[nodiscard]] Telling telling_of(const LinkedKb& kb, MarkIndex mark, std::int64_t reading, const ReadingDays& days);
[[nodiscard]] Reason reason_of(const LinkedKb& kb, MarkIndex mark, std::int64_t reading, const ReadingDays& days);

} // namespace coeval
