// drawings/axis.hpp: where does a day lie across a timeline, and which days are written on its axis?
//
// Private to this room.
#pragma once

#include <string>
#include <vector>

#include "calendar/day.hpp"

namespace coeval {

struct Tick {
  Day day = 0;
  std::string label; // "1979", "1979-04"
};

// From `first` to `last` on `left` to `right`. Needs first < last and left < right.
class Axis {
public:
  Axis(Day first, Day last, double left, double right) : first_(first), last_(last), left_(left), right_(right) {}

  // Days that lie outside are drawn at the edge.
  [[nodiscard]] double x(Day day) const;
  [[nodiscard]] double left() const { return left_; }
  [[nodiscard]] double right() const { return right_; }
  [[nodiscard]] bool shows(Day day) const { return day >= first_ && day <= last_; }

  // Round years or months, as close together as their labels allow, in order. A label begins at its tick, since the
  // year does: no two overlap, and none runs out at the right.
  [[nodiscard]] std::vector<Tick> ticks() const;

private:
  Day first_;
  Day last_;
  double left_;
  double right_;
};

// Days outside all use, brought back to where counting them is safe.
[[nodiscard]] Day within_reach(Day day);

} // namespace coeval
