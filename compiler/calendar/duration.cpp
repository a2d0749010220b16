#include "calendar/duration.hpp"

#include <algorithm>
#include <array>
#include <atomic>

#include <fmt/format.h>

#include "calendar/ascii.hpp"

// A month later is the same day of the next month, or that month's last day where it is shorter. From day d of month s
// to n months later takes the lengths of months s .. s+n-1 where nothing is cut off, and the lengths of months
// s+1 .. s+n from one last day to another; every other start lies between the two. So the fewest and the most days of n
// months are the least and the greatest sum of n neighbouring month lengths in the 4800 months of the calendar's cycle.

namespace coeval {

namespace {

constexpr std::int64_t months_in_cycle = 4800;
constexpr Day days_in_cycle = 146'097;
constexpr std::int64_t greatest_count = 1'000'000;
constexpr Day farthest_gap = 4 * farthest_year * 366; // longer than any gap between two readable dates

// starts[m]: days from the first day of a 400-year cycle to the first day of its month m; two cycles long.
constexpr auto month_starts() {
  std::array<std::int32_t, 2 * months_in_cycle + 1> starts{};
  constexpr std::array<std::int32_t, 12> lengths = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
  for (std::size_t month = 0; month + 1 < starts.size(); ++month) {
    const std::size_t year = month / 12;
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    starts[month + 1] = starts[month] + lengths[month % 12] + (month % 12 == 1 && leap ? 1 : 0);
  }
  return starts;
}

constexpr auto starts_of_months = month_starts();

struct Span {
  Day fewest;
  Day most;
};

// Of fewer months than a cycle has: every start is tried.
Span tried_days(std::size_t months) {
  std::int32_t fewest = starts_of_months[months];
  std::int32_t most = fewest;
  for (std::size_t start = 1; start < months_in_cycle; ++start) {
    const std::int32_t days = starts_of_months[start + months] - starts_of_months[start];
    fewest = std::min(fewest, days);
    most = std::max(most, days);
  }
  return {.fewest = fewest, .most = most};
}

// The same durations are asked about again and again, for every pair that is judged: what was once found out is kept (a
// tenth of the time to publish). An answer is one number, so that threads need not wait for each other; 0 is none yet.
Span days_of_months(std::int64_t months) {
  static std::array<std::atomic<std::uint64_t>, months_in_cycle> known{};
  if (months == 0) return {.fewest = 0, .most = 0};
  const auto rest = static_cast<std::size_t>(months % months_in_cycle);
  std::uint64_t days = known[rest].load(std::memory_order_relaxed);
  if (days == 0 && rest != 0) {
    const Span found = tried_days(rest);
    days = static_cast<std::uint64_t>(found.fewest) << 32U | static_cast<std::uint64_t>(found.most);
    known[rest].store(days, std::memory_order_relaxed);
  }
  const Day cycles = months / months_in_cycle * days_in_cycle;
  return {.fewest = cycles + static_cast<Day>(days >> 32U), .most = cycles + static_cast<Day>(days & 0xffffffffU)};
}

// What stands at the head of `rest`, fit for a message: bytes outside printable ASCII by their number.
std::string found(std::string_view rest) {
  if (rest.empty()) return "the end";
  const auto byte = static_cast<unsigned char>(rest.front());
  return byte > ' ' && byte < 0x7F ? fmt::format("`{}`", rest.front()) : fmt::format("byte 0x{:02X}", byte);
}

DurationResult refused(std::string reason) { return {.value = std::nullopt, .refusal = std::move(reason)}; }

// "6 months", "2 years": a count and an English unit.
std::optional<std::string> from_words(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size() && digit(text[at])) ++at;
  if (at == 0 || at > 6) return std::nullopt;
  const std::string_view count = text.substr(0, at);
  while (at < text.size() && text[at] == ' ') ++at;
  const std::string_view unit = text.substr(at);
  for (const std::string_view word : {"year", "month", "week", "day"}) {
    if (unit == word || (unit.size() == word.size() + 1 && unit.starts_with(word) && unit.back() == 's'))
      return fmt::format("P{}{}", count, capital(word.front()));
  }
  return std::nullopt;
}

} // namespace

Day Duration::fewest_days() const { return days_of_months(years * 12 + months).fewest + days; }
Day Duration::most_days() const { return days_of_months(years * 12 + months).most + days; }

DurationResult parse_duration(std::string_view text) {
  constexpr std::string_view units = "YMWD";
  if (text.empty()) return refused("empty: a duration is written like P6M, P1Y6M, P10D or P2W");
  if (text.front() == '-' || text.front() == '+') return refused("a duration has no sign: `P6M` is six months");
  if (text.front() == 'p') return refused("`p` is written as a capital: P");
  if (text.front() != 'P') {
    if (const auto repaired = from_words(text)) return refused(fmt::format("a duration starts with P: {}", *repaired));
    return refused(fmt::format("{} where a duration starts with P, such as P6M, P1Y6M, P10D or P2W", found(text)));
  }
  if (text.size() == 1) return refused("`P` alone is empty: write a count and a unit, such as P6M");

  Duration duration;
  std::size_t units_used = 0; // how many of Y, M, W, D lie behind
  bool weeks = false;
  bool others = false;
  std::string_view rest = text.substr(1);
  while (!rest.empty()) {
    if (rest.front() == 'T') return refused("a time of day is not read here: durations are whole days, such as P1D");
    std::int64_t count = 0;
    std::size_t length = 0;
    while (length < rest.size() && digit(rest[length])) {
      count = std::min(count * 10 + (rest[length] - '0'), greatest_count + 1);
      ++length;
    }
    if (length == 0) {
      if (rest.front() == '-' || rest.front() == '+') return refused("a count in a duration has no sign");
      return refused(fmt::format("{} where a count is due, such as the 6 of P6M", found(rest)));
    }
    if (count > greatest_count) return refused(fmt::format("a count over {} is refused", greatest_count));
    rest.remove_prefix(length);
    if (rest.empty()) return refused(fmt::format("{0} has no unit: P{0}Y, P{0}M, P{0}W or P{0}D", count));
    if (rest.front() == '.' || rest.front() == ',')
      return refused("fractions are refused, months differ in length: half a year is P6M");
    const std::size_t unit = units.find(rest.front());
    if (unit == std::string_view::npos) {
      if (units.find(capital(rest.front())) != std::string_view::npos)
        return refused(fmt::format("`{}` is written as a capital: {}", rest.front(), capital(rest.front())));
      if (rest.front() == 'H' || rest.front() == 'S')
        return refused("a time of day is not read here: durations are whole days, such as P1D");
      return refused(fmt::format("{} is not a unit; units are Y, M, W and D", found(rest)));
    }
    (rest.front() == 'W' ? weeks : others) = true;
    if (weeks && others) return refused("weeks stand alone: P2W, or P14D beside years and months");
    if (unit < units_used)
      return refused(fmt::format("`{}` comes too late: each unit stands once, in the order Y, M, D", rest.front()));
    units_used = unit + 1;
    if (rest.front() == 'Y') duration.years = count;
    if (rest.front() == 'M') duration.months = count;
    if (rest.front() == 'W') duration.days = count * 7;
    if (rest.front() == 'D') duration.days = count;
    rest.remove_prefix(1);
  }
  return {.value = duration, .refusal = {}};
}

std::string at_least_words(Day days) {
  const auto counted = [](std::int64_t count, std::string_view unit) {
    return fmt::format("{} {}{}", count, unit, count == 1 ? "" : "s");
  };
  if (days < days_of_months(2).most) return counted(days, "day");
  days = std::min(days, farthest_gap);
  // The longest run of n months is no shorter than the mean run, so no more than days / mean month can fit.
  std::int64_t months = days / days_in_cycle * months_in_cycle + days % days_in_cycle * months_in_cycle / days_in_cycle;
  while (days_of_months(months).most > days) --months;
  if (months < 24) return counted(months, "month");
  const std::string whole_years = counted(months / 12, "year");
  return months % 12 == 0 ? whole_years : whole_years + " and " + counted(months % 12, "month");
}

} // namespace coeval
