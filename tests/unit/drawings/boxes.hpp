// tests/unit/drawings/boxes.hpp: how much room does a shape take?
#pragma once

#include <algorithm>
#include <limits>

#include "drawings/text.hpp"

namespace coeval::drawn {

struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
};

inline Box box_of(const Lettering& label) {
  const double width = text_width(label.text, label.style);
  const double left = label.anchor == Anchor::start    ? label.x
                      : label.anchor == Anchor::middle ? label.x - width / 2
                                                       : label.x - width;
  return {left, label.y - ascent(label.style), left + width, label.y + descent(label.style)};
}

inline Box box_of(const Rectangle& rectangle) {
  return {rectangle.x, rectangle.y, rectangle.x + rectangle.width, rectangle.y + rectangle.height};
}

inline Box hull(std::initializer_list<std::pair<double, double>> points) {
  constexpr double far = std::numeric_limits<double>::infinity();
  Box box{far, far, -far, -far};
  for (const auto& [x, y] : points)
    box = {std::min(box.left, x), std::min(box.top, y), std::max(box.right, x), std::max(box.bottom, y)};
  return box;
}

inline Box box_of(const Polyline& line) {
  Box box = hull({line.points.front()});
  for (const auto& point : line.points) {
    const Box other = hull({point});
    box = {std::min(box.left, other.left), std::min(box.top, other.top), std::max(box.right, other.right),
           std::max(box.bottom, other.bottom)};
  }
  return box;
}

// A curve lies within the hull of its four points.
inline Box box_of(const Curve& curve) { return hull({curve.from, curve.by, curve.towards, curve.to}); }

inline Box box_of(const Shape& shape) {
  return std::visit([](const auto& inner) { return box_of(inner); }, shape);
}

inline bool overlap(const Box& one, const Box& other) {
  constexpr double touch = 0.01;
  return one.left < other.right - touch && other.left < one.right - touch && one.top < other.bottom - touch &&
         other.top < one.bottom - touch;
}

template <class Kind> std::vector<Kind> all_of(const Drawing& drawing) {
  std::vector<Kind> found;
  for (const Shape& shape : drawing.shapes)
    if (const auto* inner = std::get_if<Kind>(&shape)) found.push_back(*inner);
  return found;
}

// The first shape that reaches out of the drawing, as its position; -1 for none. What is not a number lies nowhere.
inline int outside(const Drawing& drawing) {
  constexpr double slack = 0.51; // half a line's width
  for (std::size_t i = 0; i < drawing.shapes.size(); ++i) {
    const Box box = box_of(drawing.shapes[i]);
    const bool inside = box.left >= -slack && box.top >= -slack && box.right <= drawing.width + slack &&
                        box.bottom <= drawing.height + slack && box.left <= box.right && box.top <= box.bottom;
    if (!inside) return static_cast<int>(i);
  }
  return -1;
}

// The first two labels that overlap, in words; empty for none.
inline std::string overlapping_labels(const Drawing& drawing) {
  std::vector<Lettering> labels = all_of<Lettering>(drawing);
  std::ranges::stable_sort(labels, {}, [](const Lettering& label) { return box_of(label).top; });
  for (std::size_t i = 0; i < labels.size(); ++i)
    for (std::size_t j = i + 1; j < labels.size() && box_of(labels[j]).top < box_of(labels[i]).bottom; ++j)
      if (overlap(box_of(labels[i]), box_of(labels[j]))) return labels[i].text + " | " + labels[j].text;
  return {};
}

// Everything that is drawn, so that two drawings can be compared.
inline std::string written(const Drawing& drawing) {
  std::string text = drawing.title + "\n" + drawing.description + "\n" + std::to_string(drawing.width) + " " +
                     std::to_string(drawing.height) + "\n";
  for (const Shape& shape : drawing.shapes) {
    const Box box = box_of(shape);
    text += std::to_string(shape.index()) + " ";
    for (const double side : {box.left, box.top, box.right, box.bottom}) text += std::to_string(side) + " ";
    if (const auto* label = std::get_if<Lettering>(&shape)) text += label->text + " " + label->to;
    text += "\n";
  }
  return text;
}

} // namespace coeval::drawn
