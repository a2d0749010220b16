// Do dates become day numbers and come back, however far away they are?
#include <catch2/catch.hpp>

#include <limits>

#include "calendar/day.hpp"

using namespace coeval;

TEST_CASE("day 0 is 1 January 1970") {
  CHECK(day_number({1970, 1, 1}) == 0);
  CHECK(day_number({1969, 12, 31}) == -1);
  CHECK(day_number({2000, 3, 1}) - day_number({2000, 2, 28}) == 2);
  CHECK(day_number({1900, 3, 1}) - day_number({1900, 2, 28}) == 1);
}

TEST_CASE("the farthest years keep their days") {
  for (const std::int64_t year : {farthest_year, -farthest_year, std::int64_t{0}, std::int64_t{-1}})
    for (int month = 1; month <= 12; ++month) {
      const Date date{year, month, days_in_month(year, month)};
      CHECK(date_of(day_number(date)) == date);
    }
  CHECK(day_number({farthest_year, 1, 1}) - day_number({farthest_year - 400, 1, 1}) == 146'097);
}

TEST_CASE("any day number has a date") {
  using Limits = std::numeric_limits<Day>;
  for (const Day day : {Limits::min(), Limits::min() + 1, Limits::max() - 1, Limits::max()}) {
    const Date date = date_of(day);
    CHECK(date.month >= 1);
    CHECK(date.month <= 12);
    CHECK(date.day >= 1);
    CHECK(date.day <= days_in_month(date.year, date.month));
    CHECK_FALSE(iso(day).empty());
  }
}

TEST_CASE("days are written in ISO 8601 extended form") {
  CHECK(iso(day_number({1979, 6, 30})) == "1979-06-30");
  CHECK(iso(day_number({7, 1, 2})) == "0007-01-02");
  CHECK(iso(day_number({0, 1, 1})) == "0000-01-01");
  CHECK(iso(day_number({9999, 12, 31})) == "9999-12-31");
  CHECK(iso(day_number({17000, 1, 1})) == "+17000-01-01");
  CHECK(iso(day_number({-44, 3, 15})) == "-0044-03-15");
  CHECK(iso(day_number({-17000, 1, 1})) == "-17000-01-01");
}

TEST_CASE("a day is read as ISO 8601 writes it, and nothing else is") {
  for (const Day day : {Day{0}, day_number({1976, 8, 1}), day_number({2000, 2, 29}), day_number({0, 1, 1})})
    CHECK(read_day(iso(day)) == day);
  for (const char* text :
       {"", "2026", "2026-05", "2026-5-02", "2026-05-2x", "2026/05/02", "2026-13-01", "2026-00-10", "2026-02-29",
        "2026-04-31", "2026-05-00", "2026-05-02~", "2026-05-02 ", "+2026-05-2", "-026-05-02", "2o26-05-02", "20260502"})
    CHECK_FALSE(read_day(text));
}
