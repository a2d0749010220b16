#include "entries/toml_tree.hpp"

#include "entries/schema.hpp"

namespace coeval {

bool TomlNode::is_list_of_tables() const {
  if (!is_list() || held == 0) return false;
  for (const TomlNode& item : HeldBy{*this})
    if (!item.is_table()) return false;
  return true;
}

const TomlNode* TomlNode::find(std::string_view wanted) const {
  for (const TomlNode& value : HeldBy{*this})
    if (same_name(value.key, wanted)) return &value;
  return nullptr;
}

void TomlTree::clear() {
  nodes_.clear();
  nodes_.emplace_back();
}

TomlTree::Position TomlTree::add(Position holder, const TomlNode& node) {
  const auto position = static_cast<Position>(nodes_.size());
  nodes_.push_back(node);
  TomlNode& into = nodes_[holder];
  if (into.held == 0)
    into.first = position - holder;
  else
    nodes_[holder + into.last].next = position - holder - into.last;
  into.last = position - holder;
  ++into.held;
  return position;
}

} // namespace coeval
