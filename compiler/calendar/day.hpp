// calendar/day.hpp: how are days counted?
//
// A Day is a count of days in the proleptic Gregorian calendar with astronomical years (year 0 exists), day 0 being
// 1970-01-01. Conversions follow the era-based method of Howard Hinnant's "chrono-Compatible Low-Level Date
// Algorithms".
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace coeval {

using Day = std::int64_t;

// Years beyond this, either way, are refused by the readers of dates: far outside any use, and safe from overflow.
inline constexpr std::int64_t farthest_year = 1'000'000'000;

struct Date {
  std::int64_t year = 1970;
  int month = 1; // 1..12
  int day = 1;   // 1..31
  friend bool operator==(const Date&, const Date&) = default;
};

[[nodiscard]] bool leap_year(std::int64_t year);
[[nodiscard]] int days_in_month(std::int64_t year, int month);
[[nodiscard]] Day day_number(Date date);
[[nodiscard]] Date date_of(Day day);
// ISO 8601 extended form: "1979-06-30"; years outside 0000..9999 with a sign: "-0044-03-15", "+17000-01-01".
[[nodiscard]] std::string iso(Day day);
// The day that is written exactly so, "1979-06-30", in a year of four digits; nothing for any other text.
[[nodiscard]] std::optional<Day> read_day(std::string_view text);

} // namespace coeval
