// Is a duration never shorter than its fewest and never longer than its most days, whatever the day it starts on?
#include <catch2/catch.hpp>

#include <algorithm>
#include <chrono>
#include <limits>
#include <vector>

#include "calendar/duration.hpp"

using namespace coeval;

namespace {

using std::chrono::sys_days;
using std::chrono::year_month_day;

// A month later is the same day of the next month, or that month's last day.
year_month_day months_later(year_month_day date, int months) {
  const auto target = std::chrono::year_month(date.year(), date.month()) + std::chrono::months(months);
  const auto last = year_month_day(target / std::chrono::last);
  return date.day() > last.day() ? last : target / date.day();
}

struct Extremes {
  Day fewest = std::numeric_limits<Day>::max();
  Day most = std::numeric_limits<Day>::min();
  void take(sys_days from, sys_days to) {
    fewest = std::min<Day>(fewest, (to - from).count());
    most = std::max<Day>(most, (to - from).count());
  }
};

// Every start day of a whole 400-year cycle.
template <typename Later> Extremes over_a_cycle(Later later) {
  using namespace std::chrono;
  Extremes extremes;
  const sys_days end = sys_days(2000y / January / 1);
  for (sys_days start = sys_days(1600y / January / 1); start < end; start += days(1))
    extremes.take(start, sys_days(later(year_month_day(start))));
  return extremes;
}

Duration months(std::int64_t count) { return {.months = count}; }

Duration parsed(const std::string& text) {
  const DurationResult result = parse_duration(text);
  INFO(text << ": " << result.refusal);
  REQUIRE(result.value);
  CHECK(result.refusal.empty());
  return *result.value;
}

std::string refusal(const std::string& text) {
  const DurationResult result = parse_duration(text);
  INFO(text);
  CHECK_FALSE(result.value);
  CHECK_FALSE(result.refusal.empty());
  return result.refusal;
}

// The months or days that a phrase of at_least_words claims.
struct Claim {
  std::int64_t months = 0;
  std::int64_t days = 0;
};

Claim claim_of(const std::string& words) {
  Claim claim;
  std::size_t at = 0;
  while (at < words.size()) {
    std::size_t read = 0;
    const std::int64_t count = std::stoll(words.substr(at), &read);
    const std::string unit = words.substr(at + read);
    if (unit.starts_with(" year"))
      claim.months += 12 * count;
    else if (unit.starts_with(" month"))
      claim.months += count;
    else if (unit.starts_with(" day"))
      claim.days += count;
    else
      FAIL("no unit in " << words);
    const std::size_t next = words.find(" and ", at);
    at = next == std::string::npos ? words.size() : next + 5;
  }
  return claim;
}

} // namespace

TEST_CASE("months have the days that some start day gives them, over the calendar's whole cycle") {
  std::vector<int> counts = {119, 120, 121, 1199, 1200, 1201, 4799, 4800, 4801};
  for (int count = 0; count <= 60; ++count) counts.push_back(count);
  for (const int count : counts) {
    const Extremes extremes = over_a_cycle([&](year_month_day start) { return months_later(start, count); });
    INFO(count << " months");
    CHECK(months(count).fewest_days() == extremes.fewest);
    CHECK(months(count).most_days() == extremes.most);
  }
}

TEST_CASE("years and months hold in whichever order they are added") {
  for (const auto& [years, more] : {std::pair{1, 1}, {3, 11}, {4, 1}, {8, 6}}) {
    const Duration duration{.years = years, .months = more};
    const auto years_first = [&](year_month_day start) { return months_later(months_later(start, 12 * years), more); };
    const auto months_first = [&](year_month_day start) { return months_later(months_later(start, more), 12 * years); };
    for (const Extremes& extremes : {over_a_cycle(years_first), over_a_cycle(months_first)}) {
      INFO(years << " years and " << more << " months");
      CHECK(duration.fewest_days() <= extremes.fewest);
      CHECK(duration.most_days() >= extremes.most);
    }
  }
}

TEST_CASE("days and weeks are exact") {
  CHECK(parsed("P10D").fewest_days() == 10);
  CHECK(parsed("P10D").most_days() == 10);
  CHECK(parsed("P2W") == Duration{.days = 14});
  CHECK(parsed("P1M5D").fewest_days() == 33);
  CHECK(parsed("P1M5D").most_days() == 36);
}

TEST_CASE("durations of years, months and days are read") {
  CHECK(parsed("P1Y6M") == Duration{.years = 1, .months = 6});
  CHECK(parsed("P1Y2M3D") == Duration{.years = 1, .months = 2, .days = 3});
  CHECK(parsed("P06M") == Duration{.months = 6});
  CHECK(parsed("P0D") == Duration{});
  CHECK(parsed("P1000000Y") == Duration{.years = 1'000'000});
  CHECK(parsed("P1000000Y1000000M1000000D").most_days() > 396'000'000);
}

TEST_CASE("what is no duration of whole days is refused with a reason") {
  CHECK(refusal("") == "empty: a duration is written like P6M, P1Y6M, P10D or P2W");
  CHECK(refusal("P") == "`P` alone is empty: write a count and a unit, such as P6M");
  CHECK(refusal("PT5H") == "a time of day is not read here: durations are whole days, such as P1D");
  CHECK(refusal("P1DT2H") == "a time of day is not read here: durations are whole days, such as P1D");
  CHECK(refusal("P1.5M") == "fractions are refused, months differ in length: half a year is P6M");
  CHECK(refusal("P0,5Y") == "fractions are refused, months differ in length: half a year is P6M");
  CHECK(refusal("-P1M") == "a duration has no sign: `P6M` is six months");
  CHECK(refusal("P-1M") == "a count in a duration has no sign");
  CHECK(refusal("P6") == "6 has no unit: P6Y, P6M, P6W or P6D");
  CHECK(refusal("P6m") == "`m` is written as a capital: M");
  CHECK(refusal("p6M") == "`p` is written as a capital: P");
  CHECK(refusal("PM") == "`M` where a count is due, such as the 6 of P6M");
  CHECK(refusal("P2W3D") == "weeks stand alone: P2W, or P14D beside years and months");
  CHECK(refusal("P3D2W") == "weeks stand alone: P2W, or P14D beside years and months");
  CHECK(refusal("P1M1Y") == "`Y` comes too late: each unit stands once, in the order Y, M, D");
  CHECK(refusal("P1Y1Y") == "`Y` comes too late: each unit stands once, in the order Y, M, D");
  CHECK(refusal("P1000001D") == "a count over 1000000 is refused");
  CHECK(refusal("P99999999999999999999999999D") == "a count over 1000000 is refused");
  CHECK(refusal("6 months") == "a duration starts with P: P6M");
  CHECK(refusal("2 years") == "a duration starts with P: P2Y");
  CHECK(refusal("6M") == "`6` where a duration starts with P, such as P6M, P1Y6M, P10D or P2W");
  CHECK(refusal("P6\xFF") == "byte 0xFF is not a unit; units are Y, M, W and D");
}

TEST_CASE("a gap in words is the largest count of months that surely fits") {
  CHECK(at_least_words(1) == "1 day");
  CHECK(at_least_words(9) == "9 days");
  CHECK(at_least_words(61) == "61 days");
  CHECK(at_least_words(62) == "2 months");
  CHECK(at_least_words(398) == "13 months");
  CHECK(at_least_words(730) == "23 months");
  CHECK(at_least_words(731) == "2 years");
  CHECK(at_least_words(762) == "2 years and 1 month");
  CHECK(at_least_words(366 + 365 + 365 + 30) == "3 years");
  for (Day days = 1; days <= 8000; ++days) {
    const Claim claim = claim_of(at_least_words(days));
    INFO(days << " days: " << at_least_words(days));
    if (claim.months == 0) {
      CHECK(claim.days == days);
      CHECK(months(2).most_days() > days);
    } else {
      CHECK(claim.days == 0);
      CHECK(months(claim.months).most_days() <= days);
      CHECK(months(claim.months + 1).most_days() > days);
    }
  }
}

TEST_CASE("the longest gaps have words too") {
  for (const Day days : {Day{146'097}, Day{146'096}, Day{10'000'000}, Day{800'000'000'000}}) {
    const Claim claim = claim_of(at_least_words(days));
    INFO(days << " days: " << at_least_words(days));
    CHECK(months(claim.months).most_days() <= days);
    CHECK(months(claim.months + 1).most_days() > days);
  }
  CHECK(claim_of(at_least_words(std::numeric_limits<Day>::max())).months > 12 * farthest_year);
}
