// Are days counted as the C++ standard library counts them?
#include <catch2/catch.hpp>

#include <chrono>

#include "calendar/day.hpp"

using namespace coeval;

namespace {

std::chrono::year_month_day by_chrono(Day day) {
  return std::chrono::year_month_day(std::chrono::sys_days(std::chrono::days(day)));
}

// How many of the days first, first + step, ... up to last the two implementations see differently.
int differences(Day first, Day last, Day step) {
  int count = 0;
  for (Day day = first; day <= last; day += step) {
    const auto expected = by_chrono(day);
    const Date date = date_of(day);
    const bool same = date.year == static_cast<int>(expected.year()) &&
                      date.month == static_cast<int>(static_cast<unsigned>(expected.month())) &&
                      date.day == static_cast<int>(static_cast<unsigned>(expected.day())) && day_number(date) == day;
    count += same ? 0 : 1;
  }
  return count;
}

Day day_of_year_start(int year) {
  using namespace std::chrono;
  return sys_days(std::chrono::year(year) / January / 1).time_since_epoch().count();
}

} // namespace

TEST_CASE("every day of 800 years is the standard library's") {
  CHECK(day_of_year_start(1970) == 0);
  CHECK(differences(day_of_year_start(1600), day_of_year_start(2400), 1) == 0);
}

TEST_CASE("days from year -32000 to year 32000 are the standard library's") {
  CHECK(differences(day_of_year_start(-32000), day_of_year_start(32000), 17) == 0);
}

TEST_CASE("the days around year 0 are the standard library's") {
  CHECK(differences(day_of_year_start(-401), day_of_year_start(401), 1) == 0);
}

TEST_CASE("leap years and the lengths of months are the standard library's") {
  int differing = 0;
  for (int year = -4000; year <= 4000; ++year) {
    differing += leap_year(year) == std::chrono::year(year).is_leap() ? 0 : 1;
    for (unsigned month = 1; month <= 12; ++month) {
      const auto last = std::chrono::year(year) / std::chrono::month(month) / std::chrono::last;
      differing += days_in_month(year, static_cast<int>(month)) == static_cast<int>(unsigned{last.day()}) ? 0 : 1;
    }
  }
  CHECK(differing == 0);
}
