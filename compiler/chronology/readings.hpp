// chronology/readings.hpp: which days does what a mark reads stand for?
#pragma once

#include <cstdint>

#include "links/kb.hpp"

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

} // namespace coeval
