#include "calendar/edtf_pattern.hpp"

#include <algorithm>

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

int with_unspecified_as(int digit, std::string_view digits) {
  int number = 0;
  for (const char c : digits) number = number * 10 + (c == 'X' ? digit : c - '0');
  return number;
}

// Where a day fits at all, one is found within a few of the years that fit; where none does, this ends with the last.
std::optional<Date> day_in_any_year(const DatePattern& pattern, int step) {
  const int smallest = with_unspecified_as(0, pattern.year);
  const int greatest = with_unspecified_as(9, pattern.year);
  const int lowest = pattern.negative ? -greatest : smallest;
  const int highest = pattern.negative ? -std::max(smallest, 1) : greatest;
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
