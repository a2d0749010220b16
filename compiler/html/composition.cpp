#include "html/composition.hpp"

#include <fmt/format.h>

#include "html/target.hpp"
#include "html/text.hpp"

namespace coeval {

Node add(Node into, const char* element) { return into.append_child(element); }

Node add(Node into, const char* element, const char* style) {
  Node node = into.append_child(element);
  node.append_attribute("class") = style;
  return node;
}

void set(Node element, const char* attribute, std::string_view value) {
  pugi::xml_attribute set = element.attribute(attribute);
  if (!set) set = element.append_attribute(attribute);
  std::string scratch;
  const std::string_view safe = safe_text(value, scratch);
  set.set_value(safe.data(), safe.size());
}

void add_plain(Node into, std::string_view text) {
  if (text.empty()) return;
  std::string scratch;
  const std::string_view safe = safe_text(text, scratch);
  const bool ascii = safe.data() == text.data();
  Node place = !ascii && runs_right_to_left(safe) ? into.append_child("bdi") : into;
  place.append_child(pugi::node_pcdata).set_value(safe.data(), safe.size());
}

void add_characters(Node into, std::string_view text) {
  std::string scratch;
  const std::string_view safe = safe_text(text, scratch);
  into.append_child(pugi::node_pcdata).set_value(safe.data(), safe.size());
}

std::string site_path(const Composition& page, std::string_view path) {
  const LinkTarget target = target_of(path, page.page.path, page.root);
  return target.kind == LinkTarget::Kind::site ? target.href : std::string{};
}

void add_text(Composition& page, Node into, const Text& text) {
  for (const Piece& piece : text) {
    Node place = into;
    if (!piece.to.empty()) {
      const LinkTarget target = target_of(piece.to, page.page.path, page.root);
      if (target.kind != LinkTarget::Kind::none) {
        place = add(place, "a");
        place.append_attribute("href").set_value(target.href.data(), target.href.size());
        if (target.kind == LinkTarget::Kind::outside)
          place.append_attribute("rel") = "external noopener noreferrer nofollow";
      }
    }
    if (piece.code) place = add(place, "code");
    add_plain(place, piece.text);
  }
}

std::string plain_text(const Text& text) {
  std::string plain;
  for (const Piece& piece : text) plain += piece.text;
  return plain;
}

bool set_id(Composition& page, Node element, std::string_view id) {
  if (id.empty() || page.ids.contains(id)) return false;
  for (const char c : id) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '.' || c == '_';
    if (!plain) return false;
  }
  page.ids.emplace(id);
  set(element, "id", id);
  return true;
}

Node add_heading(Composition& page, Node into, const Text& text) {
  static constexpr std::array<const char*, 5> names{"h2", "h3", "h4", "h5", "h6"};
  Node heading = add(into, names[static_cast<std::size_t>(std::min(page.level, 6) - 2)]);
  add_text(page, heading, text);
  return heading;
}

Node add_part(Composition& page, Part part, Node into, const FillSlot& fill) {
  return append_part(page.templates, part, into, page.root, fill);
}

void add_sign(Composition& page, Node into, Verdict verdict) {
  const std::string word{name(verdict)};
  page.signs.set(static_cast<std::size_t>(verdict));
  Node svg = add(into, "svg", ("sign sign-" + word).c_str());
  svg.append_attribute("aria-hidden") = "true";
  add(svg, "use").append_attribute("href") = ("#sign-" + word).c_str();
}

void add_named_sign(Composition& page, Node into, Verdict verdict) {
  add_sign(page, into, verdict);
  Node svg = into.last_child();
  svg.remove_attribute("aria-hidden");
  svg.append_attribute("role") = "img";
  set(svg, "aria-label", name(verdict));
}

void add_swatch(Node into, const std::array<double, 3>& lab) {
  Node svg = add(into, "svg", "swatch");
  svg.append_attribute("aria-hidden") = "true";
  Node rect = add(svg, "rect"); // larger than any swatch, which cuts it off
  for (const auto& [attribute, value] : {std::pair{"width", "99"}, std::pair{"height", "99"}})
    rect.append_attribute(attribute) = value;
  set(rect, "fill", srgb_of(lab));
}

void add_basis(Node into, Basis basis) {
  const std::string word{name(basis)};
  add_plain(add(into, "i", ("basis-" + word).c_str()), word);
}

void add_plate_number(Composition& page, Node into) {
  ++page.plates;
  add_plain(into, fmt::format("Plate {}", page.plates));
}

void add_blocks(Composition& page, Node into, const std::vector<Block>& blocks) {
  for (const Block& block : blocks) std::visit([&](const auto& held) { add_block(page, into, held); }, block);
}

void add_shapes(Composition& page, Node into) {
  if (page.signs.none() && !page.hatched) return;
  Node svg = add(into, "svg", "shapes");
  for (const auto& [attribute, value] :
       {std::pair{"width", "0"}, std::pair{"height", "0"}, std::pair{"aria-hidden", "true"}})
    svg.append_attribute(attribute) = value;
  for (std::size_t i = 0; i < verdict_count; ++i) {
    if (!page.signs[i]) continue;
    const auto verdict = static_cast<Verdict>(i);
    const PartNode& drawn = page.templates.parts[static_cast<std::size_t>(sign_of(verdict))].front();
    append_part(page.templates, sign_of(verdict), svg, page.root, [](std::string_view, Node) {});
    Node symbol = svg.last_child();
    symbol.set_name("symbol");
    while (symbol.first_attribute()) symbol.remove_attribute(symbol.first_attribute());
    symbol.append_attribute("id") = fmt::format("sign-{}", name(verdict)).c_str();
    for (const PartNode::Attribute& attribute : drawn.attributes)
      if (attribute.name == "viewBox") symbol.append_attribute("viewBox") = attribute.value.c_str();
  }
  if (!page.hatched) return;
  // Slanted one way for what a page is about and the other way for what it is compared with.
  for (const auto& [id, slant] : {std::pair{"hatch", "rotate(45)"}, std::pair{"hatch-other", "rotate(-45)"}}) {
    Node pattern = add(svg, "pattern");
    for (const auto& [attribute, value] :
         {std::pair{"id", id}, std::pair{"width", "5"}, std::pair{"height", "5"},
          std::pair{"patternUnits", "userSpaceOnUse"}, std::pair{"patternTransform", slant}})
      pattern.append_attribute(attribute) = value;
    Node line = add(pattern, "path", id);
    line.append_attribute("d") = "M1.5 0V5";
  }
}

} // namespace coeval
