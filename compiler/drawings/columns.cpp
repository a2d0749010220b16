#include "drawings/columns.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "calendar/day.hpp"
#include "drawings/axis.hpp"
#include "drawings/text.hpp"

namespace coeval {
namespace {

constexpr double margin = 8;
constexpr double plot_height = 160;
constexpr double axis_height = 18;
constexpr double thinnest = 1; // a column is seen however many there are
constexpr Day shortest = 365;  // the axis: a single month is not as wide as the picture
constexpr std::size_t most_told = 120;

Day first_day(const MonthColumn& column) { return day_number({column.year, column.month, 1}); }
Day last_day(const MonthColumn& column) {
  return day_number({column.year, column.month, days_in_month(column.year, column.month)});
}

std::string month_words(const MonthColumn& column) {
  const std::string day = iso(first_day(column));
  return day.substr(0, day.size() - 3);
}

std::string describe(const ColumnChart& chart) {
  if (chart.columns.empty()) return "nothing";
  std::string text;
  for (std::size_t i = 0; i < std::min(chart.columns.size(), most_told); ++i)
    text +=
        fmt::format("{}{}: {}", i == 0 ? "" : "; ", month_words(chart.columns[i]), one_line(chart.columns[i].words));
  if (chart.columns.size() > most_told) text += fmt::format("; and {} months more", chart.columns.size() - most_told);
  return text;
}

// The marks of the scale from nought to no more than `most`: multiples of the smallest of 1, 2, 5, 10, 20 … of which
// four or fewer reach that far. 2 × 10^18 is the greatest that 64 bits need.
std::vector<std::int64_t> marks_up_to(std::int64_t most) {
  constexpr std::int64_t most_steps = 4;
  std::int64_t step = 0;
  for (std::int64_t power = 1; step == 0; power = step == 0 ? power * 10 : power)
    for (const std::int64_t digit : {1, 2, 5})
      if (step == 0 && most / (digit * power) <= most_steps) step = digit * power;
  std::vector<std::int64_t> marks;
  for (std::int64_t count = 0; count <= most / step; ++count) marks.push_back(count * step);
  return marks;
}

std::string scale_words(std::int64_t minor, int decimals) {
  std::int64_t unit = 1;
  for (int i = 0; i < decimals; ++i) unit *= 10;
  if (minor % unit == 0) return fmt::format("{}", minor / unit);
  return fmt::format("{}.{:0{}}", minor / unit, minor % unit, decimals);
}

double tenths(double x) { return std::round(x * 10) / 10; } // short in a file

} // namespace

Drawing draw_columns(const ColumnChart& chart, double width) {
  constexpr double narrowest = 200;
  constexpr double widest = 4000;
  const double wide = width >= narrowest ? std::min(std::floor(width), widest) : narrowest;
  Drawing drawing{.width = wide, .title = one_line(chart.title), .description = describe(chart)};
  const auto add = [&](Shape shape) { drawing.shapes.push_back(std::move(shape)); };

  std::int64_t most = 1;
  for (const MonthColumn& column : chart.columns) most = std::max(most, column.sum);
  const std::vector<std::int64_t> marks = marks_up_to(most);
  double scale_width = 0;
  for (const std::int64_t mark : marks)
    scale_width = std::max(scale_width, text_width(scale_words(mark, chart.decimals), Style::label_small));
  const std::string unit = shorten(chart.unit, Style::label_small, wide - 2 * margin);
  const double top = margin + line_height(Style::label_small) + 8;
  const double bottom = top + plot_height;
  const double left = margin + std::ceil(scale_width) + 6;
  drawing.height = bottom + axis_height + margin;
  add(Rectangle{Style::background, 0, 0, wide, drawing.height, 0});
  add(Lettering{Style::label_small, margin, margin + ascent(Style::label_small), Anchor::start, unit, {}});

  const auto y = [&](std::int64_t sum) {
    return tenths(bottom -
                  plot_height * static_cast<double>(std::max<std::int64_t>(sum, 0)) / static_cast<double>(most));
  };
  for (const std::int64_t mark : marks) {
    add(Polyline{mark == 0 ? Style::axis : Style::tick, {{left, y(mark)}, {wide - margin, y(mark)}}, false});
    add(Lettering{Style::label_small,
                  left - 4,
                  y(mark) + ascent(Style::label_small) / 2,
                  Anchor::end,
                  scale_words(mark, chart.decimals),
                  {}});
  }
  if (chart.columns.empty()) return drawing;

  const Day first = first_day(chart.columns.front());
  const Day last = std::max(last_day(chart.columns.back()) + 1, first + shortest);
  const Axis axis(first, last, left, wide - margin);
  for (const Tick& tick : axis.ticks()) {
    const double x = axis.x(tick.day);
    add(Polyline{Style::axis, {{x, bottom}, {x, bottom + 4}}, false});
    if (!tick.label.empty())
      add(Lettering{Style::label_small, x + 3, bottom + 5 + ascent(Style::label_small), Anchor::start, tick.label, {}});
  }
  for (const MonthColumn& column : chart.columns) {
    const double from = axis.x(first_day(column));
    const double to = axis.x(last_day(column) + 1);
    const double gap = std::min(2.0, (to - from) / 5);
    const double across = std::max(thinnest, to - from - gap);
    const double x = std::min(from, axis.right() - across);
    if (column.sum > 0)
      add(Rectangle{Style::certain, tenths(x), y(column.sum), tenths(across), tenths(bottom - y(column.sum)), 0});
  }
  return drawing;
}

} // namespace coeval
