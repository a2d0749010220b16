// SVG 2 (W3C Candidate Recommendation, 2018): chapter 7 "Coordinate systems" for the size, chapter 16 "Linking" for
// what refers to other files. Only what draws is let through: elements by a list, so that one that is not known to be
// harmless is not taken for such; attributes that run something or lead out of the file are refused wherever they
// stand.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include <fmt/format.h>

#include "pictures/formats.hpp"
#include "pictures/svg_uses.hpp"
#include "pictures/xml.hpp"

namespace coeval {
namespace {

constexpr std::string_view svg_namespace = "http://www.w3.org/2000/svg";

constexpr std::array<std::string_view, 33> drawing_elements{
    "circle",  "clipPath",      "defs",           "desc",           "ellipse", "filter", "g",
    "image",   "line",          "linearGradient", "marker",         "mask",    "path",   "pattern",
    "polygon", "polyline",      "radialGradient", "rect",           "stop",    "style",  "svg",
    "switch",  "symbol",        "text",           "textPath",       "title",   "tspan",  "use",
    "feBlend", "feColorMatrix", "feFlood",        "feGaussianBlur", "feOffset"};

std::string lower(std::string_view text) {
  std::string result{text};
  for (char& c : result)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return result;
}

std::string_view local_name(std::string_view name) {
  const std::size_t colon = name.find(':');
  return colon == std::string_view::npos ? name : name.substr(colon + 1);
}

std::string_view trimmed(std::string_view text) {
  const std::size_t begin = std::min(text.find_first_not_of(" \t\r\n\f"), text.size());
  text.remove_prefix(begin);
  return text.substr(0, text.find_last_not_of(" \t\r\n\f") + 1);
}

// Within the file, or a picture of dots that the file holds itself.
bool stays_inside(std::string_view reference) {
  const std::string target = lower(trimmed(reference));
  if (target.starts_with('#')) return true;
  return std::ranges::any_of(std::array{"data:image/png;base64,", "data:image/jpeg;base64,", "data:image/webp;base64,"},
                             [&](std::string_view start) { return target.starts_with(start); });
}

// What in a piece of CSS could load or run something; empty for nothing. A backslash could spell any of it otherwise.
std::string_view harm_in_css(std::string_view css) {
  const std::string text = lower(css);
  constexpr std::array<std::string_view, 10> loading{"@import",     "image-set",  "image(",   "src(",
                                                     "cross-fade",  "expression", "behavior", "-moz-binding",
                                                     "javascript:", "@font-face"};
  if (text.find('\\') != std::string::npos) return "a backslash";
  for (const std::string_view word : loading)
    if (text.find(word) != std::string::npos) return word;
  for (std::size_t at = text.find("url("); at != std::string::npos; at = text.find("url(", at + 4)) {
    std::string_view target = trimmed(std::string_view{text}.substr(at + 4));
    if (target.starts_with('"') || target.starts_with('\'')) target.remove_prefix(1);
    constexpr std::size_t telling = 40; // bytes of a target
    if (!stays_inside(target.substr(0, telling))) return "url() of another file";
  }
  return {};
}

// Of words for people, which no browser takes for CSS.
bool words_only(std::string_view name) {
  return name == "id" || name == "class" || name == "lang" || name.starts_with("aria-") || name.starts_with("data-");
}

// 7.2: a length in CSS pixels; nothing for a share of the page, and for what is no length.
std::optional<double> pixels(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('+')) text.remove_prefix(1);
  double number = 0;
  const auto [stop, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc{} || !std::isfinite(number)) return {};
  const std::string unit = lower(text.substr(static_cast<std::size_t>(stop - text.data())));
  constexpr double inch = 96; // CSS Values and Units 3, 6.2
  const std::map<std::string_view, double> units{
      {"", 1},           {"px", 1},       {"in", inch}, {"cm", inch / 2.54}, {"mm", inch / 25.4}, {"q", inch / 101.6},
      {"pt", inch / 72}, {"pc", inch / 6}};
  const auto found = units.find(unit);
  if (found == units.end()) return {};
  return number * found->second;
}

struct Size {
  double width = 0;
  double height = 0;
};

// 8.6: four numbers, the last two the size.
std::optional<Size> view_box(std::string_view text) {
  std::array<double, 4> numbers{};
  const char* at = text.data();
  const char* const end = at + text.size();
  for (double& number : numbers) {
    while (at != end && (*at == ' ' || *at == ',' || *at == '\t' || *at == '\n' || *at == '\r')) ++at;
    const auto [stop, error] = std::from_chars(at, end, number);
    if (error != std::errc{} || !std::isfinite(number)) return {};
    at = stop;
  }
  if (numbers[2] <= 0 || numbers[3] <= 0) return {};
  return Size{numbers[2], numbers[3]};
}

class SvgInspection {
public:
  explicit SvgInspection(std::string_view text) : reader_(text) {}

  Inspection inspect() {
    while (true) {
      switch (reader_.next()) {
      case XmlReader::Event::open:
        if (auto fault = open()) return *fault;
        break;
      case XmlReader::Event::text:
        if (styles_ > 0) css_ += reader_.text();
        break;
      case XmlReader::Event::close:
        if (auto fault = close()) return *fault;
        break;
      case XmlReader::Event::fault:
        return reader_.fault();
      case XmlReader::Event::end:
        return finish();
      }
    }
  }

private:
  PictureFault refuse(const std::string& words) const {
    return unsafe(fmt::format("line {}: {}", reader_.line(), words));
  }

  std::optional<PictureFault> open() {
    const std::string_view element = reader_.element();
    if (depth_++ == 0) {
      if (element != "svg") return broken(fmt::format("the root element is `{}`, not `svg`", element));
      if (auto fault = read_size()) return fault;
    }
    if (element == "script" || element == "foreignObject" || element == "handler")
      return refuse(fmt::format("`{}` runs in the reader's browser", element));
    if (std::ranges::find(drawing_elements, element) == drawing_elements.end())
      return refuse(fmt::format("`{}` is no element of a still drawing; save the picture as plain SVG", element));
    if (element == "style") ++styles_;
    std::string_view id;
    std::string_view target;
    for (const XmlAttribute& attribute : reader_.attributes()) {
      if (auto fault = look_at(attribute)) return fault;
      if (attribute.name == "id") id = attribute.value;
      if (element == "use" && local_name(attribute.name) == "href") target = trimmed(attribute.value);
    }
    uses_.open(id, target.starts_with('#') ? target.substr(1) : std::string_view{});
    return {};
  }

  std::optional<PictureFault> look_at(const XmlAttribute& attribute) const {
    const std::string_view name = local_name(attribute.name);
    if (attribute.name == "xmlns" && attribute.value != svg_namespace) return refuse("`xmlns` leads out of SVG");
    if (attribute.name == "xmlns" || attribute.name.starts_with("xmlns:")) return {};
    if (lower(name).starts_with("on")) return refuse(fmt::format("`{}` runs in the reader's browser", attribute.name));
    if (attribute.name == "xml:base") return refuse("`xml:base` leads out of the file");
    if ((lower(name) == "href" || lower(name) == "src") && !stays_inside(attribute.value))
      return refuse(fmt::format("`{}` leads out of the file", attribute.name));
    // What is left with a prefix belongs to the program that drew it.
    if (words_only(attribute.name) || lower(name) == "href" || name != attribute.name) return {};
    if (const std::string_view harm = harm_in_css(attribute.value); !harm.empty())
      return refuse(fmt::format("`{}` holds {}, which could load another file", attribute.name, harm));
    return {};
  }

  std::optional<PictureFault> close() {
    --depth_;
    uses_.close();
    if (reader_.element() != "style") return {};
    if (--styles_ > 0) return {};
    const std::string css = std::exchange(css_, {});
    const std::string_view harm = harm_in_css(css);
    if (!harm.empty()) return refuse(fmt::format("the style sheet holds {}, which could load another file", harm));
    return {};
  }

  std::optional<PictureFault> read_size() {
    std::optional<double> width;
    std::optional<double> height;
    std::optional<Size> box;
    bool in_namespace = false;
    for (const XmlAttribute& attribute : reader_.attributes()) {
      if (attribute.name == "width") width = pixels(attribute.value);
      if (attribute.name == "height") height = pixels(attribute.value);
      if (attribute.name == "viewBox") box = view_box(attribute.value);
      if (attribute.name == "xmlns") in_namespace = attribute.value == svg_namespace;
    }
    if (!in_namespace) return broken(fmt::format("the root element lacks xmlns=\"{}\"", svg_namespace));
    if (box && width && !height) height = *width * box->height / box->width;
    if (box && height && !width) width = *height * box->width / box->height;
    if (box && !width) width = box->width;
    if (box && !height) height = box->height;
    if (!width || !height) return broken("it states no size: give `svg` a `viewBox`, or `width` and `height`");
    const auto whole = [](double side) {
      constexpr double most = 1e9;
      return static_cast<unsigned>(std::ceil(std::clamp(side, 0.0, most)));
    };
    facts_.width = whole(*width);
    facts_.height = whole(*height);
    return {};
  }

  Inspection finish() {
    constexpr std::size_t most = 200'000;
    if (!uses_.drawn_at_most(most))
      return unsafe(fmt::format("its `use` elements draw more than {} elements, or each other in a circle", most));
    return facts_;
  }

  XmlReader reader_;
  PictureFacts facts_{.format = PictureFacts::Format::svg};
  std::size_t depth_ = 0;
  std::size_t styles_ = 0; // that are open
  std::string css_;        // of the style sheet that is open
  SvgUses uses_;
};

} // namespace

Inspection inspect_svg(std::string_view bytes) { return SvgInspection{bytes}.inspect(); }

} // namespace coeval
