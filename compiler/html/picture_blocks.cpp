// Pictures of the knowledge base, and drawings of the compiler.
#include "html/composition.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace coeval {
namespace {

// Hundredths are finer than any screen; no number is ever written with an exponent or in a locale's way.
std::string number(double value) {
  if (!std::isfinite(value)) return "0";
  std::string text = fmt::format("{:.2f}", value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string point(std::pair<double, double> at) { return number(at.first) + " " + number(at.second); }

bool is_hatched(Style style) { return style == Style::possible || style == Style::possible_other; }

struct Draw {
  Composition& page;
  Node svg;

  Node shape(const char* element, Style style) const {
    Node node = add(svg, element, std::string{name(style)}.c_str());
    if (is_hatched(style)) {
      page.hatched = true;
      node.append_attribute("fill") = style == Style::possible ? "url(#hatch)" : "url(#hatch-other)";
    }
    return node;
  }

  void operator()(const Rectangle& rectangle) const {
    Node node = shape("rect", rectangle.style);
    set(node, "x", number(rectangle.x));
    set(node, "y", number(rectangle.y));
    set(node, "width", number(std::max(rectangle.width, 0.0)));
    set(node, "height", number(std::max(rectangle.height, 0.0)));
    if (rectangle.radius > 0) set(node, "rx", number(rectangle.radius));
  }

  void operator()(const Polyline& line) const {
    if (line.points.empty()) return;
    std::string path;
    const std::pair<double, double>* before = nullptr;
    for (const auto& corner : line.points) {
      if (before == nullptr)
        path = "M" + point(corner);
      else if (before->first == corner.first)
        path += "V" + number(corner.second);
      else if (before->second == corner.second)
        path += "H" + number(corner.first);
      else
        path += "L" + point(corner);
      before = &corner;
    }
    set(shape("path", line.style), "d", line.closed ? path + "Z" : path);
  }

  void operator()(const Curve& curve) const {
    set(shape("path", curve.style), "d",
        fmt::format("M{}C{},{},{}", point(curve.from), point(curve.by), point(curve.towards), point(curve.to)));
  }

  void operator()(const Lettering& label) const {
    static constexpr std::array<const char*, 3> anchors{nullptr, "middle", "end"};
    Draw inside = *this;
    if (!label.to.empty()) {
      add_text(page, inside.svg, {{{}, label.to, false}});
      if (Node last = svg.last_child(); std::string_view{last.name()} == "a") inside.svg = last;
    }
    Node node = inside.shape("text", label.style);
    set(node, "x", number(label.x));
    set(node, "y", number(label.y));
    if (const char* anchor = anchors[static_cast<std::size_t>(label.anchor)])
      node.append_attribute("text-anchor") = anchor;
    add_characters(node, label.text);
  }
};

bool has_links(const Drawing& drawing) {
  return std::ranges::any_of(drawing.shapes, [](const Shape& shape) {
    const auto* label = std::get_if<Lettering>(&shape);
    return label != nullptr && !label->to.empty();
  });
}

void add_drawing(Composition& page, Node into, const Drawing& drawing, const char* width, const std::string& id) {
  Node svg = add(into, "svg", fmt::format("drawing {}", width).c_str());
  set(svg, "viewBox", fmt::format("0 0 {} {}", number(drawing.width), number(drawing.height)));
  set(svg, "width", number(drawing.width));
  set(svg, "height", number(drawing.height));
  // An image has no parts for those who do not see it; where there are links, they must stay reachable.
  set(svg, "role", has_links(drawing) ? "group" : "img");
  Node title = add(svg, "title");
  add_characters(title, drawing.title);
  const std::string title_id = fmt::format("{}-{}", id, width);
  // A title names its drawing by itself, too; among many pages its id, which has to be an XML name, could not be one.
  if (!page.only_narrow && set_id(page, title, title_id)) set(svg, "aria-labelledby", title_id);
  if (!drawing.description.empty()) set(svg, "aria-describedby", id + "-words");
  for (const Shape& shape : drawing.shapes) std::visit(Draw{page, svg}, shape);
}

// Each line of a description is a paragraph: one row of a drawing.
void add_lines(Node into, std::string_view text) {
  for (std::size_t begin = 0; begin < text.size();) {
    const std::size_t end = std::min(text.find('\n', begin), text.size());
    if (end > begin) add_plain(add(into, "p"), text.substr(begin, end - begin));
    begin = end + 1;
  }
}

} // namespace

void add_image(Composition& page, Node into, const Picture& picture) {
  const PublishedPicture facts =
      page.options.picture ? page.options.picture(picture.file) : PublishedPicture{picture.file, 0, 0};
  const std::string source = site_path(page, facts.path);
  if (source.empty()) {
    add_plain(add(into, "span", "no-picture"), picture.alt);
    return;
  }
  Node image = add(into, "img");
  set(image, "src", source);
  set(image, "alt", picture.alt);
  if (facts.width > 0 && facts.height > 0) {
    set(image, "width", fmt::format("{}", facts.width));
    set(image, "height", fmt::format("{}", facts.height));
  }
  set(image, "loading", "lazy");
}

void add_block(Composition& page, Node into, const Plate& block) {
  if (block.pictures.empty()) return;
  const bool several = block.pictures.size() > 1;
  add_part(page, Part::plate, into, [&](std::string_view slot, Node place) {
    if (slot == "number") add_plate_number(page, place);
    if (slot == "pictures")
      for (std::size_t i = 0; i < block.pictures.size(); ++i) {
        const Picture& picture = block.pictures[i];
        add_part(page, Part::picture, place, [&](std::string_view inner, Node at) {
          if (inner == "image") add_image(page, at, picture);
          if (inner == "letter" && several) add_plain(at, std::string(1, static_cast<char>('a' + i % 26)));
          if (inner == "caption") add_text(page, at, picture.caption);
          if (inner == "credit") add_plain(at, picture.credit);
        });
      }
  });
}

void add_block(Composition& page, Node into, const DrawingBlock& block) {
  const std::string id = fmt::format("plate-{}", page.plates + 1);
  bool numbered = false;
  add_part(page, Part::drawing, into, [&](std::string_view slot, Node place) {
    if (slot == "number") {
      add_plate_number(page, place);
      numbered = true;
    }
    if (slot == "caption") add_plain(place, block.caption);
    if (slot == "drawing") {
      add_drawing(page, place, block.narrow, "narrow", id);
      if (!page.only_narrow) add_drawing(page, place, block.wide, "wide", id);
    }
    if (slot == "words" && !block.wide.description.empty()) {
      Node words = add(place, "div");
      set_id(page, words, id + "-words");
      add_lines(words, block.wide.description);
    }
  });
  if (!numbered) ++page.plates;
}

} // namespace coeval
