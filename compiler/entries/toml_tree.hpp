// entries/toml_tree.hpp: what stands in a file of TOML, before anybody asks what it means?
//
// Private to this room. A tree of values and where each is written, the same whether plain_toml.hpp or toml_library.hpp
// read it. Tables hold their values in the order of the text. Texts and keys are views of the file or of a store.
#pragma once

#include <cstddef>
#include <cstdint>
#include <iterator>
#include <string_view>
#include <vector>

namespace coeval {

// Nodes of a tree lie in one list and know each other by their distance there, so that the list may grow and a node
// is no use outside of it.
struct TomlNode {
  enum class Type : std::uint8_t { table, list, text, integer, real, flag, date };

  // Goes through what a table or a list holds.
  class Iterator {
  public:
    using value_type = TomlNode;
    using difference_type = std::ptrdiff_t;

    Iterator() = default;
    explicit Iterator(const TomlNode* node) : node_(node) {}
    const TomlNode& operator*() const { return *node_; }
    const TomlNode* operator->() const { return node_; }
    Iterator& operator++() {
      node_ = node_->next == 0 ? nullptr : node_ + node_->next;
      return *this;
    }
    Iterator operator++(int) {
      const Iterator before = *this;
      ++*this;
      return before;
    }
    friend bool operator==(Iterator, Iterator) = default;

  private:
    const TomlNode* node_ = nullptr;
  };

  Type type = Type::table;
  bool flag = false;
  std::uint32_t begin = 0; // bytes of the file; of a table with a head, that of the head
  std::uint32_t end = 0;
  std::uint32_t key_begin = 0; // in a table; else nothing has a key
  std::uint32_t key_end = 0;
  std::uint32_t held = 0;  // how many values a table or a list holds
  std::uint32_t first = 0; // how far behind this node the first of them is
  std::uint32_t last = 0;  // and the last
  std::uint32_t next = 0;  // how far behind this one the next of the same table or list is; 0: this is the last
  std::string_view key;
  std::string_view text;
  std::int64_t integer = 0;
  double real = 0;

  [[nodiscard]] bool is_table() const { return type == Type::table; }
  [[nodiscard]] bool is_list() const { return type == Type::list; }
  [[nodiscard]] bool is_text() const { return type == Type::text; }
  // Tables, one or more, and nothing else.
  [[nodiscard]] bool is_list_of_tables() const;

  // What a table or a list holds, in order.
  [[nodiscard]] Iterator begin_held() const { return Iterator{held == 0 ? nullptr : this + first}; }
  // The value of a key of a table; nullptr where it has none. Looks at every key.
  [[nodiscard]] const TomlNode* find(std::string_view wanted) const;
};

// For loops over what a table or a list holds.
struct HeldBy {
  explicit HeldBy(const TomlNode& node) : holder(&node) {}
  [[nodiscard]] TomlNode::Iterator begin() const { return holder->begin_held(); }
  [[nodiscard]] static TomlNode::Iterator end() { return {}; }
  const TomlNode* holder;
};

// The values of one file after the other: the list keeps its room.
class TomlTree {
public:
  using Position = std::uint32_t;

  // Empties the tree but for the table that is the file as a whole, at position 0.
  void clear();
  // Adds a value to a table or a list.
  Position add(Position holder, const TomlNode& node);

  [[nodiscard]] TomlNode& operator[](Position position) { return nodes_[position]; }
  [[nodiscard]] const TomlNode& root() const { return nodes_.front(); }

private:
  std::vector<TomlNode> nodes_;
};

} // namespace coeval
