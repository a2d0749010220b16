// drawings/drawing.hpp: which shapes make up a drawing, and where do they lie?
//
// A drawing is a list of shapes in its own units (1 unit is 1 CSS pixel at full size), x to the right, y downwards.
// What a shape looks like is told by its style alone, never by colour: the site's style sheet gives each style its ink,
// hatch and width, so that a drawing reads in black and white, in the dark and in print. Shapes are drawn in order.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace coeval {

enum class Style : std::uint8_t {
  background,    // behind everything
  band,          // a period, every first
  band_other,    // and every second
  axis,          // of time
  tick,          // of the axis, and the rules that go up from it
  certain,       // surely lasted through here
  possible,      // may have: hatched
  certain_other, // the same for what is only shown for comparison
  possible_other,
  uncertain_end, // an end that is not known to the day
  open_end,      // an end that nothing bounds: fades or points out of the picture
  highlight,     // what the page is about
  node,
  node_other,
  edge,          // is known to hold
  edge_possible, // may hold
  arrow_head,
  label,
  label_small,
  label_strong,
};
inline constexpr int style_count = static_cast<int>(Style::label_strong) + 1;
// The class that a style sheet names it by: "certain-other".
[[nodiscard]] std::string_view name(Style style);
// How large the letters of a label are: the style sheet must give them this size, for the room they were given.
[[nodiscard]] double text_size(Style style);

enum class Anchor : std::uint8_t { start, middle, end };

struct Rectangle {
  Style style{};
  double x = 0, y = 0, width = 0, height = 0;
  double radius = 0;
};
struct Polyline { // also closed shapes: a triangle, an arrow head
  Style style{};
  std::vector<std::pair<double, double>> points;
  bool closed = false;
};
struct Curve { // cubic: from, two controls, to
  Style style{};
  std::pair<double, double> from, by, towards, to;
};
struct Lettering {
  Style style = Style::label;
  double x = 0, y = 0; // of the base line
  Anchor anchor = Anchor::start;
  std::string text;
  std::string to; // a path of the site that a click leads to; empty for none
};
using Shape = std::variant<Rectangle, Polyline, Curve, Lettering>;

struct Drawing {
  double width = 0, height = 0;
  std::string title;       // what it shows, in one line
  std::string description; // the same that the picture says, for somebody who cannot see it
  std::vector<Shape> shapes;
};

} // namespace coeval
