// drawings/timeline.hpp: how do spans with uncertain ends look beside each other?
#pragma once

#include <optional>

#include "calendar/day.hpp"
#include "drawings/drawing.hpp"

namespace coeval {

// How early and how late one end was; nothing where nothing bounds it.
struct EndRange {
  std::optional<Day> earliest;
  std::optional<Day> latest;
};

struct TimelineRow {
  std::string label;
  std::string to; // a path of the site; empty for none
  EndRange start;
  EndRange end;
  bool subject = false; // what the page is about; the others are shown for comparison
};

struct Timeline {
  std::string title;
  std::vector<TimelineRow> bands; // periods, drawn behind
  std::vector<TimelineRow> rows;  // from the top; an empty label starts a group under a thin rule
};

// Certain extent (latest start to earliest end) is solid, possible extent (earliest start to latest end) hatched, ends
// that are not known to the day are drawn as such, and unbounded ends run out of the picture. `width`: units across,
// 360 for a phone, 760 for a desk. The description tells each row in words. Rows without any bound are still shown, as
// unknown.
[[nodiscard]] Drawing draw_timeline(const Timeline& timeline, double width);

} // namespace coeval
