#include "calendar/edtf_pattern.hpp"

namespace coeval {

namespace {

bool fits(int number, std::string_view digits) {
  for (auto digit = digits.rbegin(); digit != digits.rend(); ++digit, number /= 10)
    if (*digit != 'X' && *digit - '0' != number % 10) return false;
  return number == 0 || digits.empty();
}

// The first (step 1) or last (step -1) day of `year` that fits.
std::optional<Date> day_in_year(const DatePattern& pattern, int year, int step) {
  for (int month = step > 0 ? 1 : 12; month >= 1 && month <= 12; month += step) {
    if (!fits(month, pattern.month)) continue;
    const int length = days_in_month(year, month);
    for (int day = step > 0 ? 1 : length; day >= 1 && day <= length; day += step)
      if (fits(day, pattern.day)) return Date{year, month, day};
  }
  return std::nullopt;
}

// Where a day fits at all, one is found within the first few years that fit; where none does, this ends with year 9999.
std::optional<Date> day_in_any_year(const DatePattern& pattern, int step) {
  const int lowest = pattern.negative ? -9999 : 0;
  const int highest = pattern.negative ? -1 : 9999;
  for (int year = step > 0 ? lowest : highest; year >= lowest && year <= highest; year += step) {
    if (!fits(year < 0 ? -year : year, pattern.year)) continue;
    if (const auto date = day_in_year(pattern, year, step)) return date;
  }
  return std::nullopt;
}

} // namespace

std::optional<DayRange> days_that_fit(const DatePattern& pattern) {
  const auto first = day_in_any_year(pattern, 1);
  if (!first) return std::nullopt;
  const auto last = day_in_any_year(pattern, -1);
  return DayRange{.first = day_number(*first), .last = day_number(*last)};
}

} // namespace coeval
