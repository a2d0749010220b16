// drawings/timeline_ends.hpp: what do the ends of a row say for sure, and how is it told?
//
// Private to this room.
#pragma once

#include "drawings/timeline.hpp"

namespace coeval {

// The ends of a row in which no bound contradicts another: ranges run forwards, and the end does not come before the
// start. What was turned round in the input is turned back.
struct Extent {
  EndRange start;
  EndRange end;

  [[nodiscard]] bool known() const { return start.earliest || start.latest || end.earliest || end.latest; }
  // Lasted through here for sure.
  [[nodiscard]] bool certain() const { return start.latest && end.earliest && *start.latest <= *end.earliest; }
};
[[nodiscard]] Extent extent_of(const TimelineRow& row);

// "Ring top: from some day in 1976-06 to some day between 1981-01-31 and 1981-07-30"
[[nodiscard]] std::string tell(const TimelineRow& row);
// Title, periods, rows: the picture in sentences.
[[nodiscard]] std::string describe(const Timeline& timeline);

} // namespace coeval
