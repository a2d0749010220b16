#include "html/parts.hpp"

namespace coeval {
namespace {

struct Copier {
  const std::string& root;
  const FillSlot& fill;

  // Whether a slot was filled.
  bool copy(const std::vector<PartNode>& nodes, Node into) const {
    bool filled = false;
    for (const PartNode& node : nodes) filled = copy(node, into) || filled;
    return filled;
  }

  bool copy(const PartNode& node, Node into) const {
    if (!node.slot.empty()) {
      const Node before = into.last_child();
      fill(node.slot, into);
      if (into.last_child() != before) return true;
      copy(node.inside, into);
      return false;
    }
    if (node.element.empty()) {
      into.append_child(pugi::node_pcdata).set_value(node.text.data(), node.text.size());
      return false;
    }
    Node element = into.append_child(node.element.c_str());
    for (const PartNode::Attribute& attribute : node.attributes) {
      pugi::xml_attribute copied = element.append_attribute(attribute.name.c_str());
      if (attribute.site_path)
        copied.set_value((root + attribute.value).c_str());
      else
        copied.set_value(attribute.value.data(), attribute.value.size());
    }
    const bool filled = copy(node.inside, element);
    if (node.if_filled && !filled) into.remove_child(element);
    return filled;
  }
};

void take_up(pugi::xml_node tree, std::vector<PartNode>& nodes) {
  for (const pugi::xml_node child : tree.children()) {
    PartNode node;
    if (child.type() == pugi::node_pcdata || child.type() == pugi::node_cdata) {
      node.text = squeezed(child.value());
      if (node.text == "\n") continue; // between elements
    } else if (child.type() != pugi::node_element) {
      continue;
    } else if (std::string_view{child.name()} == "slot") {
      node.slot = child.attribute("name").value();
      take_up(child, node.inside);
    } else {
      node.element = child.name();
      for (const pugi::xml_attribute attribute : child.attributes()) {
        const std::string_view name = attribute.name();
        if (name == "data-if-filled")
          node.if_filled = true;
        else
          node.attributes.push_back({attribute.name(), attribute.value(), holds_site_path(name, attribute.value())});
      }
      take_up(child, node.inside);
    }
    nodes.push_back(std::move(node));
  }
}

} // namespace

std::vector<PartNode> part_of(pugi::xml_node tree) {
  std::vector<PartNode> nodes;
  take_up(tree, nodes);
  return nodes;
}

Node append_part(const Templates& templates, Part part, Node into, const std::string& root, const FillSlot& fill) {
  const Node before = into.last_child();
  Copier{root, fill}.copy(templates.parts[static_cast<std::size_t>(part)], into);
  Node first = before ? before.next_sibling() : into.first_child();
  while (first && first.type() != pugi::node_element) first = first.next_sibling();
  return first;
}

} // namespace coeval
