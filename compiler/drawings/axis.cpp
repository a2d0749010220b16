#include "drawings/axis.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "drawings/text.hpp"

namespace coeval {
namespace {

constexpr double gap_between_labels = 8;
constexpr double gap_after_tick = 3;
constexpr double closest_ticks = 22; // units

// A month counted from year 0.
constexpr std::int64_t month_count(const Date& date) { return date.year * 12 + date.month - 1; }

Day first_day_of(std::int64_t month) {
  const std::int64_t year = (month >= 0 ? month : month - 11) / 12;
  return day_number({year, static_cast<int>(month - year * 12) + 1, 1});
}

std::string label_of(Day day, bool months) {
  const std::string text = iso(day);
  return text.substr(0, text.size() - (months ? 3 : 6));
}

} // namespace

Day within_reach(Day day) {
  static const Day most = day_number({farthest_year + 2, 12, 31});
  static const Day least = day_number({-farthest_year - 2, 1, 1});
  return std::clamp(day, least, most);
}

double Axis::x(Day day) const {
  const double share = static_cast<double>(day - first_) / static_cast<double>(last_ - first_);
  return std::round((left_ + std::clamp(share, 0.0, 1.0) * (right_ - left_)) * 10) / 10; // short in a file
}

std::vector<Tick> Axis::ticks() const {
  constexpr std::array<std::int64_t, 3> short_steps{1, 3, 6}; // months
  constexpr std::array<std::int64_t, 3> round{1, 2, 5};       // times powers of ten: years
  std::vector<std::int64_t> steps{short_steps.begin(), short_steps.end()};
  for (std::int64_t power = 1; power <= farthest_year; power *= 10)
    for (const std::int64_t digit : round) steps.push_back(12 * digit * power);

  const double units_per_month = (right_ - left_) / (static_cast<double>(last_ - first_) / 30.44);
  std::vector<Tick> ticks;
  for (const std::int64_t step : steps) {
    const bool months = step < 12;
    const double widest = std::max(text_width(label_of(first_, months), Style::label_small),
                                   text_width(label_of(last_, months), Style::label_small));
    const double room = std::max(widest + gap_after_tick + gap_between_labels, closest_ticks);
    // Months differ by a day or two in length.
    if (units_per_month * static_cast<double>(step) * (months ? 0.92 : 0.99) < room) continue;
    const std::int64_t begin = month_count(date_of(first_));
    const std::int64_t remainder = ((begin % step) + step) % step;
    for (std::int64_t month = begin - remainder; first_day_of(month) <= last_; month += step) {
      const Day day = first_day_of(month);
      if (day < first_) continue;
      std::string label = label_of(day, months);
      const bool runs_out = x(day) + gap_after_tick + text_width(label, Style::label_small) > right_;
      ticks.push_back({day, runs_out ? "" : std::move(label)});
    }
    break;
  }
  return ticks;
}

} // namespace coeval
