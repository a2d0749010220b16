#include <random>

#include <catch2/catch.hpp>

#include "boxes.hpp"
#include "drawings/timeline.hpp"

using namespace coeval;
using namespace coeval::drawn;

namespace {

Day day(int year, int month = 1, int of_month = 1) { return day_number({year, month, of_month}); }
EndRange on(Day day) { return {day, day}; }
EndRange within(Day earliest, Day latest) { return {earliest, latest}; }

TimelineRow row(std::string label, EndRange start, EndRange end, bool subject = false) {
  return {.label = std::move(label), .to = {}, .start = start, .end = end, .subject = subject};
}

std::size_t count(const Drawing& drawing, Style style) {
  std::size_t found = 0;
  for (const Shape& shape : drawing.shapes)
    found += std::visit([&](const auto& inner) { return inner.style == style; }, shape) ? 1U : 0U;
  return found;
}

// Bars of a style above the legend, which begins under the last line of the axis.
std::vector<Box> bars(const Drawing& drawing, Style style) {
  double bottom = 0;
  for (const Polyline& line : all_of<Polyline>(drawing))
    if (line.style == Style::axis) bottom = std::max(bottom, box_of(line).bottom);
  std::vector<Box> found;
  for (const Rectangle& rectangle : all_of<Rectangle>(drawing))
    if (rectangle.style == style && rectangle.y < bottom) found.push_back(box_of(rectangle));
  return found;
}

std::vector<std::string> years(const Drawing& drawing) {
  std::vector<std::string> found;
  for (const Lettering& label : all_of<Lettering>(drawing))
    if (label.style == Style::label_small && label.text.find_first_not_of("+-0123456789") == std::string::npos)
      found.push_back(label.text);
  return found;
}

void check_sound(const Drawing& drawing) {
  CHECK(outside(drawing) == -1);
  CHECK(overlapping_labels(drawing).empty());
  for (const auto& [sure, maybe] :
       {std::pair{Style::certain, Style::possible}, std::pair{Style::certain_other, Style::possible_other}})
    for (const Box& certain : bars(drawing, sure))
      for (const Box& possible : bars(drawing, maybe)) {
        if (possible.bottom != certain.bottom) continue; // of another row
        CHECK(possible.left <= certain.left);
        CHECK(possible.right >= certain.right);
      }
}

Timeline random_timeline(std::mt19937& random) {
  const auto below = [&](unsigned most) { return static_cast<unsigned>(random() % most); };
  const Day reach = below(5) == 0 ? Day{365} * 2'000'000'000 : below(3) == 0 ? 400 : 6000;
  const auto some_day = [&]() -> std::optional<Day> {
    if (below(4) == 0) return {};
    return static_cast<Day>(random()) % reach + day(1976);
  };
  const auto some_row = [&] {
    const std::string words = "ring top signal red harbour WWWWWWWWWWWWWWWWWWWW 漢字漢字 é̩ ";
    TimelineRow made = row(std::string{}, {some_day(), some_day()}, {some_day(), some_day()}, below(4) == 0);
    for (unsigned i = below(12); i > 0; --i) {
      const std::size_t space = words.find(' ', below(static_cast<unsigned>(words.size()) - 1));
      const std::size_t end = words.find(' ', space + 1);
      made.label += words.substr(space, end == std::string::npos ? end : end - space);
    }
    return made;
  };
  Timeline timeline;
  timeline.title = "random";
  for (unsigned i = below(7); i > 0; --i) timeline.bands.push_back(some_row());
  for (unsigned i = below(15); i > 0; --i) timeline.rows.push_back(some_row());
  return timeline;
}

} // namespace

TEST_CASE("what surely lasted is solid, what may have is hatched, around it") {
  const Timeline timeline{"t", {}, {row("Ring top", within(day(1976), day(1977)), within(day(1980), day(1981)))}};
  for (const double width : {360.0, 760.0}) {
    const Drawing drawing = draw_timeline(timeline, width);
    const auto sure = bars(drawing, Style::certain_other);
    const auto maybe = bars(drawing, Style::possible_other);
    REQUIRE(sure.size() == 1);
    REQUIRE(maybe.size() == 1);
    CHECK(sure[0].left > maybe[0].left);
    CHECK(sure[0].right < maybe[0].right);
    // 3 of 5 years, and a day
    CHECK((sure[0].right - sure[0].left) / (maybe[0].right - maybe[0].left) == Approx(0.6).margin(0.01));
    CHECK(count(drawing, Style::uncertain_end) == 3); // both ends, and the legend
    CHECK(count(drawing, Style::open_end) == 0);
    CHECK(drawing.width == width);
  }
}

TEST_CASE("where both ends are known to the day, nothing is hatched") {
  const Drawing drawing = draw_timeline({"t", {}, {row("Ring top", on(day(1976)), on(day(1980)), true)}}, 360);
  CHECK(bars(drawing, Style::certain).size() == 1);
  CHECK(count(drawing, Style::possible) == 0);
  CHECK(count(drawing, Style::uncertain_end) == 0);
}

TEST_CASE("an end that nothing bounds runs out of the picture") {
  const Drawing drawing = draw_timeline(
      {"t", {}, {row("to now", on(day(1976)), {day(1980), {}}), row("since ever", {{}, day(1977)}, on(day(1979)))}},
      760);
  double left = 1e9;
  double right = 0;
  for (const Box& box : bars(drawing, Style::possible_other)) {
    left = std::min(left, box.left);
    right = std::max(right, box.right);
  }
  for (const Polyline& line : all_of<Polyline>(drawing))
    if (line.style == Style::axis && line.points.front().second == line.points.back().second) {
      CHECK(left - box_of(line).left <= 12);
      CHECK(box_of(line).right - right <= 12);
    }
  CHECK(count(drawing, Style::open_end) == 2 * 3); // two strokes each, and the legend
}

TEST_CASE("a row without any bound is told as such") {
  const Drawing drawing = draw_timeline({"t", {}, {row("Later copies", {}, {})}}, 360);
  bool told = false;
  for (const Lettering& label : all_of<Lettering>(drawing)) told = told || label.text == "no date known";
  CHECK(told);
  CHECK(drawing.description == "Later copies: no date known.");
  CHECK(count(drawing, Style::tick) == 0);
}

TEST_CASE("subjects are strong, others lighter") {
  const Drawing drawing = draw_timeline(
      {"t", {}, {row("Issue", on(day(1976)), on(day(1979)), true), row("Run", on(day(1977)), on(day(1978)))}}, 760);
  CHECK(bars(drawing, Style::certain).size() == 1);
  CHECK(bars(drawing, Style::certain_other).size() == 1);
  CHECK(count(drawing, Style::label_strong) == 1);
  CHECK(count(drawing, Style::highlight) == 2); // its ends go through the others
  const Drawing two = draw_timeline(
      {"t", {}, {row("Issue", on(day(1976)), on(day(1979)), true), row("Run", on(day(1977)), on(day(1978)), true)}},
      760);
  CHECK(count(two, Style::highlight) == 0);
}

TEST_CASE("the description says what the picture shows") {
  const Timeline timeline{
      "t",
      {row("First voyage", on(day(1976)), on(day(1978, 12, 31)))},
      {row("Ring top", within(day(1976, 6), day(1976, 6, 30)), within(day(1981, 1, 31), day(1981, 7, 30))),
       row("", {}, {}), row("Plain\ntop", {day(1979), {}}, {}),
       row("Notched top", {{}, day(1979)}, within(day(1980), day(1980, 12, 31))), row("Old top", {}, {{}, day(1979)})}};
  const Drawing drawing = draw_timeline(timeline, 360);
  CHECK(drawing.description ==
        "Ring top: from some day in 1976-06 to some day between 1981-01-31 and 1981-07-30, for sure from 1976-06-30 to "
        "1981-01-31. "
        "Plain top: from 1979-01-01 at the earliest to an unknown later day. "
        "Notched top: from 1979-01-01 at the latest to some day in 1980, for sure from 1979-01-01 to 1980-01-01. "
        "Old top: from an unknown earlier day to 1979-01-01 at the latest. "
        "Periods behind: First voyage: from 1976-01-01 to 1978-12-31.");
  CHECK(drawing.description == draw_timeline(timeline, 760).description);
}

TEST_CASE("long labels keep within their place, and are whole in the description") {
  const std::string endless(10'000, 'W');
  const Timeline timeline{"t", {}, {row(endless, on(day(1976)), on(day(1979)), true), row("x " + endless, {}, {})}};
  for (const double width : {360.0, 760.0}) {
    const Drawing drawing = draw_timeline(timeline, width);
    check_sound(drawing);
    CHECK(drawing.description.find(endless) != std::string::npos);
    for (const Lettering& label : all_of<Lettering>(drawing)) {
      CHECK(label.text.size() < 200);
      for (const Box& bar : bars(drawing, Style::certain)) CHECK_FALSE(overlap(box_of(label), bar));
    }
  }
}

TEST_CASE("bounds that are turned round are drawn forwards") {
  const Timeline wrong{"t", {}, {row("a", within(day(1980), day(1979)), within(day(1977), day(1976)))}};
  const Timeline right{"t", {}, {row("a", within(day(1976), day(1977)), within(day(1979), day(1980)))}};
  CHECK(written(draw_timeline(wrong, 360)) == written(draw_timeline(right, 360)));
}

TEST_CASE("the farthest years are drawn") {
  const Day far = day_number({farthest_year, 12, 31});
  for (const Day edge : {far, -far, std::numeric_limits<Day>::max(), std::numeric_limits<Day>::min()})
    for (const double width : {360.0, 760.0}) {
      const Drawing drawing =
          draw_timeline({"t", {}, {row("a", on(edge), on(-(edge + 1))), row("b", on(edge), on(edge))}}, width);
      check_sound(drawing);
      CHECK(years(drawing).size() >= 2);
      CHECK(years(drawing).size() <= 12);
    }
}

TEST_CASE("years are written for every length of time that a line can have") {
  for (const int length : {1, 2, 5, 10, 12, 25, 60, 150, 900})
    for (const double width : {360.0, 760.0}) {
      const Drawing drawing = draw_timeline({"t", {}, {row("a", on(day(1970)), on(day(1970 + length)))}}, width);
      check_sound(drawing);
      std::size_t labels = 0;
      for (const Polyline& line : all_of<Polyline>(drawing))
        if (line.style == Style::tick) ++labels;
      INFO(length << " years at " << width);
      CHECK(labels >= 2);
      CHECK(labels <= 30);
    }
}

TEST_CASE("nothing, and next to nothing, is drawn") {
  for (const double width : {360.0, 760.0, 0.0, -5.0, std::numeric_limits<double>::quiet_NaN(), 1e12}) {
    for (const Timeline& timeline :
         {Timeline{}, Timeline{"t", {row("", {}, {})}, {}}, Timeline{"t", {}, {row("", {}, {})}}}) {
      const Drawing drawing = draw_timeline(timeline, width);
      check_sound(drawing);
      CHECK(drawing.description.starts_with("Nothing to show."));
      CHECK(drawing.width >= 200);
      CHECK(drawing.height > 0);
    }
  }
}

TEST_CASE("any timeline is drawn inside its size, without labels over each other, always the same") {
  std::mt19937 random{20'260'711};
  for (int i = 0; i < 1500; ++i) {
    const Timeline timeline = random_timeline(random);
    for (const double width : {360.0, 760.0}) {
      INFO("timeline " << i << " at " << width);
      const Drawing drawing = draw_timeline(timeline, width);
      check_sound(drawing);
      CHECK(written(drawing) == written(draw_timeline(timeline, width)));
    }
  }
}

TEST_CASE("shapes grow with the rows, not faster") {
  const auto shapes = [](std::size_t rows) {
    Timeline timeline{"t", {row("First voyage", on(day(1976)), on(day(1978)))}, {}};
    for (std::size_t i = 0; i < rows; ++i)
      timeline.rows.push_back(
          row("Ring top " + std::to_string(i), within(day(1976), day(1977)), {day(1978), {}}, i % 9 == 0));
    const Drawing drawing = draw_timeline(timeline, 360);
    CHECK(outside(drawing) == -1);
    return drawing.shapes.size();
  };
  const std::size_t few = shapes(1000);
  const std::size_t many = shapes(10'000);
  CHECK(many < 10 * few);
  CHECK(many > 9 * few);
}
