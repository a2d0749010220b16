// calendar/duration.hpp: how many days is "six months" at least, and at most?
//
// ISO 8601 durations of whole days: PnYnMnD or PnW. Months and years differ in length, so a duration is a range of
// days: the fewest and the most that it can cover whatever the day it starts on. A lower bound on a gap takes the
// fewest, an upper bound the most, so that every derived statement stays true.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "calendar/day.hpp"

namespace coeval {

struct Duration {
  std::int64_t years = 0;
  std::int64_t months = 0;
  std::int64_t days = 0; // weeks count as seven

  [[nodiscard]] Day fewest_days() const;
  [[nodiscard]] Day most_days() const;
  friend bool operator==(const Duration&, const Duration&) = default;
};

struct DurationResult {
  std::optional<Duration> value;
  std::string refusal; // why not, and what would do; empty where there is a value
};

// Refuses time of day, fractions, signs, empty durations and counts over a million.
[[nodiscard]] DurationResult parse_duration(std::string_view text);

// A gap in words that never claims more than is proven: the largest whole count of years and months (or days below two
// months) that surely fits into `days`: "13 months", "2 years and 1 month", "9 days". `days` is positive.
[[nodiscard]] std::string at_least_words(Day days);

} // namespace coeval
