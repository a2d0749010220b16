// calendar/edtf_pattern.hpp: which existing days fit a date whose digits are partly unspecified?
//
// "1985-0X-31" fits 31 January, March, May, July and August: only days that the calendar has count.
#pragma once

#include <optional>
#include <string_view>

#include "calendar/day.hpp"

namespace coeval {

struct DatePattern {
  bool negative = false;
  std::string_view year;  // four of 0-9 and X
  std::string_view month; // two of 0-9 and X, or empty: any month
  std::string_view day;   // two of 0-9 and X, or empty: any day
};

struct DayRange {
  Day first;
  Day last;
};

// The first and the last existing day that fit; nothing where no day fits. There is no year -0000.
[[nodiscard]] std::optional<DayRange> days_that_fit(const DatePattern& pattern);

} // namespace coeval
