#include "html/skeleton.hpp"

#include <algorithm>

#include "html/serialise.hpp"

namespace coeval {
namespace {

using Role = Skeleton::Piece::Role;

class Cutter {
public:
  explicit Cutter(std::span<const std::string_view> names) : names_(names) {}

  void children(pugi::xml_node node) {
    for (const pugi::xml_node child : node.children()) {
      if (child.type() == pugi::node_element)
        element(child);
      else if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata)
        serialise_text(squeezed(child.value()), text());
    }
  }

  Skeleton take() { return std::move(skeleton_); }

private:
  void element(pugi::xml_node node) {
    if (std::string_view{node.name()} == "slot") {
      const std::string_view name = node.attribute("name").value();
      const auto found = std::ranges::find(names_, name);
      const auto slot = static_cast<std::size_t>(found - names_.begin());
      for (const std::size_t around : open_) skeleton_.pieces[around].slots.push_back(slot);
      const std::size_t piece = add({.role = Role::slot, .slot = slot});
      children(node);
      skeleton_.pieces[piece].end = skeleton_.pieces.size();
      return;
    }
    const bool conditional = !node.attribute("data-if-filled").empty();
    const std::size_t condition = conditional ? add({.role = Role::if_filled}) : 0;
    if (conditional) open_.push_back(condition);
    start_tag(node);
    children(node);
    serialise_end_tag(node, text());
    if (conditional) {
      open_.pop_back();
      skeleton_.pieces[condition].end = skeleton_.pieces.size();
    }
  }

  void start_tag(pugi::xml_node node) {
    text().append(1, '<').append(node.name());
    std::string_view leads_to;
    for (const pugi::xml_attribute attribute : node.attributes()) {
      const std::string_view name = attribute.name();
      const std::string_view value = attribute.value();
      if (name == "data-if-filled") continue;
      if (!holds_site_path(name, value)) {
        serialise_attribute(name, value, text());
        continue;
      }
      text().append(1, ' ').append(name).append("=\"");
      add({.role = Role::root});
      std::string escaped;
      serialise_attribute("", value, escaped); // ` ="value"`
      text().append(escaped, 3);
      if (name == "href" && std::string_view{node.name()} == "a") leads_to = value;
    }
    if (!leads_to.empty()) add({.role = Role::current, .text = std::string{leads_to}});
    text() += '>';
  }

  std::size_t add(Skeleton::Piece piece) {
    skeleton_.pieces.push_back(std::move(piece));
    return skeleton_.pieces.size() - 1;
  }

  // Where text is appended. A piece that something jumps to must begin as a piece of its own.
  std::string& text() {
    const bool jumped_to = std::ranges::any_of(
        skeleton_.pieces, [&](const Skeleton::Piece& piece) { return piece.end == skeleton_.pieces.size(); });
    if (skeleton_.pieces.empty() || skeleton_.pieces.back().role != Role::text || jumped_to) add({});
    return skeleton_.pieces.back().text;
  }

  std::span<const std::string_view> names_;
  Skeleton skeleton_;
  std::vector<std::size_t> open_; // conditions that the walk is inside of
};

} // namespace

Skeleton cut_at_slots(pugi::xml_node tree, std::span<const std::string_view> names) {
  Cutter cutter{names};
  cutter.children(tree);
  return cutter.take();
}

bool holds_site_path(std::string_view attribute, std::string_view value) {
  if (attribute == "data-root") return true;
  if (attribute != "href" && attribute != "src") return false;
  return !value.empty() && value.front() != '#' && value.find(':') == std::string_view::npos;
}

std::string squeezed(std::string_view text) {
  std::string result;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] != '\n') {
      result += text[i];
      continue;
    }
    while (!result.empty() && result.back() == ' ') result.pop_back();
    if (result.empty() || result.back() != '\n') result += '\n';
    while (i + 1 < text.size() && (text[i + 1] == ' ' || text[i + 1] == '\n' || text[i + 1] == '\t')) ++i;
  }
  return result;
}

} // namespace coeval
