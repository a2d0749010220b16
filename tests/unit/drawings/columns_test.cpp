// Are the columns as high as their sums, in their months, under a scale of round amounts?
#include <random>

#include <catch2/catch.hpp>

#include "boxes.hpp"
#include "calendar/day.hpp"
#include "drawings/columns.hpp"

using namespace coeval;
using namespace coeval::drawn;

namespace {

MonthColumn column(std::int64_t year, int month, std::int64_t sum) {
  return {.year = year, .month = month, .sum = sum, .words = std::to_string(sum)};
}

std::vector<Box> columns_of(const Drawing& drawing) {
  std::vector<Box> found;
  for (const Rectangle& rectangle : all_of<Rectangle>(drawing))
    if (rectangle.style == Style::certain) found.push_back(box_of(rectangle));
  return found;
}

std::vector<std::string> scale(const Drawing& drawing) {
  std::vector<std::string> found;
  for (const Lettering& label : all_of<Lettering>(drawing))
    if (label.anchor == Anchor::end) found.push_back(label.text);
  return found;
}

void check_sound(const Drawing& drawing) {
  CHECK(outside(drawing) == -1);
  CHECK(overlapping_labels(drawing).empty());
}

} // namespace

TEST_CASE("a column is as high as its sum and stands in its month") {
  const Drawing drawing = draw_columns(
      {"spent", "GBP", 2, {column(1999, 1, 10'000), column(1999, 3, 5'000), column(2001, 12, 20'000)}}, 760);
  check_sound(drawing);
  const auto columns = columns_of(drawing);
  REQUIRE(columns.size() == 3);
  for (const Box& box : columns) CHECK(box.bottom == columns[0].bottom);
  const auto height = [](const Box& box) { return box.bottom - box.top; };
  CHECK(height(columns[0]) == Approx(height(columns[2]) / 2).margin(0.11));
  CHECK(height(columns[1]) == Approx(height(columns[2]) / 4).margin(0.11));
  CHECK(columns[0].right < columns[1].left);
  // From January 1999 to March 1999 are 59 days, to December 2001 1065.
  CHECK((columns[2].left - columns[0].left) / (columns[1].left - columns[0].left) == Approx(1065.0 / 59).margin(0.3));
  CHECK(scale(drawing) == std::vector<std::string>{"0", "50", "100", "150", "200"});
  CHECK(drawing.description == "1999-01: 10000; 1999-03: 5000; 2001-12: 20000");
}

TEST_CASE("the scale is in units of the currency") {
  CHECK(scale(draw_columns({"t", "GBP", 2, {column(1999, 1, 3)}}, 360)) ==
        std::vector<std::string>{"0", "0.01", "0.02", "0.03"});
  CHECK(scale(draw_columns({"t", "JPY", 0, {column(1999, 1, 5001)}}, 360)) ==
        std::vector<std::string>{"0", "2000", "4000"});
  const auto greatest = scale(draw_columns({"t", "JPY", 0, {column(1999, 1, 9'223'372'036'854'775'807)}}, 360));
  CHECK(greatest.size() == 5);
  CHECK(greatest.back() == "8000000000000000000");
}

TEST_CASE("nothing spent is an empty scale") {
  const Drawing drawing = draw_columns({"t", "GBP", 2, {}}, 360);
  check_sound(drawing);
  CHECK(columns_of(drawing).empty());
  CHECK(drawing.description == "nothing");
  CHECK(columns_of(draw_columns({"t", "GBP", 2, {column(1999, 1, 0)}}, 360)).empty());
}

TEST_CASE("many or far months stay in the picture, and the description stays short") {
  ColumnChart many{"t", "GBP", 2, {}};
  for (std::int64_t month = 0; month < 5000; ++month)
    many.columns.push_back(column(1600 + month / 12, static_cast<int>(month % 12) + 1, 100 + month));
  const Drawing drawing = draw_columns(many, 360);
  check_sound(drawing);
  CHECK(columns_of(drawing).size() == 5000);
  CHECK(drawing.description.ends_with("; and 4880 months more"));
  check_sound(draw_columns({"t", "GBP", 2, {column(-farthest_year, 1, 5), column(farthest_year, 12, 7)}}, 760));
}

TEST_CASE("random charts stay in their picture") {
  std::mt19937 random(1976);
  for (int round = 0; round < 300; ++round) {
    INFO("seed 1976, round " << round);
    ColumnChart chart{"t", "GBP", static_cast<int>(random() % 5), {}};
    std::int64_t month = 0;
    for (auto count = random() % 40; count > 0; --count) {
      month += 1 + static_cast<std::int64_t>(random() % (round % 3 == 0 ? 3 : 400));
      const std::int64_t sum = static_cast<std::int64_t>(random()) << (random() % 30);
      chart.columns.push_back(column(1900 + month / 12, static_cast<int>(month % 12) + 1, sum));
    }
    check_sound(draw_columns(chart, 200 + static_cast<double>(random() % 900)));
  }
}
