#include "entries/toml_library.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>
#include <toml++/toml.h>

#include "entries/toml_text.hpp"

namespace coeval {
namespace {

// toml++ counts lines and columns, and keeps tables sorted by key; the tree has bytes, and follows the text.
class TomlCopier {
public:
  TomlCopier(const SourceFile& file, TomlTree& tree, ValueStore& store) : file_(file), tree_(tree), store_(store) {}

  void copy_held(const toml::table& table, TomlTree::Position holder) {
    std::vector<std::pair<TomlNode, const toml::node*>> values;
    for (const auto& [key, value] : table) {
      TomlNode& node = values.emplace_back(of(value), &value).first;
      const auto [begin, end] = place(key.source());
      node.key_begin = begin;
      node.key_end = end;
      node.key = keep(key.str(), begin);
    }
    std::ranges::sort(values, {}, [](const auto& value) { return value.first.key_begin; });
    for (const auto& [node, value] : values) add(holder, node, *value);
  }

  [[nodiscard]] std::pair<std::uint32_t, std::uint32_t> place(const toml::source_region& region) const {
    const std::uint32_t begin = byte(region.begin);
    return {begin, std::max(begin, byte(region.end))};
  }

private:
  [[nodiscard]] std::uint32_t byte(const toml::source_position& position) const {
    return file_.byte({static_cast<std::uint32_t>(position.line), static_cast<std::uint32_t>(position.column)});
  }

  // The text that begins at that byte: a view of the file where it stands there as it is meant, else a copy.
  [[nodiscard]] std::string_view keep(std::string_view text, std::uint32_t begin) {
    std::string_view written = file_.text().substr(begin);
    if (written.starts_with("\"\"\"") || written.starts_with("'''")) {
      written.remove_prefix(3);
      // The line break behind the opening quotes is no part of the text.
      if (written.starts_with('\r')) written.remove_prefix(1);
      if (written.starts_with('\n')) written.remove_prefix(1);
    } else if (written.starts_with('"') || written.starts_with('\'')) {
      written.remove_prefix(1);
    }
    if (written.starts_with(text)) return written.substr(0, text.size());
    return store_.keep_text(text);
  }

  [[nodiscard]] TomlNode of(const toml::node& value) {
    TomlNode node;
    std::tie(node.begin, node.end) = place(value.source());
    if (value.is_table()) {
      node.type = TomlNode::Type::table;
    } else if (value.is_array()) {
      node.type = TomlNode::Type::list;
    } else if (const auto* text = value.as_string()) {
      node.type = TomlNode::Type::text;
      node.text = keep(text->get(), node.begin);
    } else if (const auto* integer = value.as_integer()) {
      node.type = TomlNode::Type::integer;
      node.integer = integer->get();
    } else if (const auto* real = value.as_floating_point()) {
      node.type = TomlNode::Type::real;
      node.real = real->get();
    } else if (const auto* flag = value.as_boolean()) {
      node.type = TomlNode::Type::flag;
      node.flag = flag->get();
    } else {
      node.type = TomlNode::Type::date;
    }
    return node;
  }

  void add(TomlTree::Position holder, const TomlNode& node, const toml::node& value) {
    const TomlTree::Position own = tree_.add(holder, node);
    if (const toml::table* table = value.as_table()) copy_held(*table, own);
    if (const toml::array* list = value.as_array())
      for (const toml::node& item : *list) add(own, of(item), item);
  }

  const SourceFile& file_;
  TomlTree& tree_;
  ValueStore& store_;
};

} // namespace

std::optional<TomlFault> read_toml(const SourceFile& file, TomlTree& tree, ValueStore& store) {
  tree.clear();
  if (const auto deep = first_deep_key(file.text())) {
    const auto byte = static_cast<std::uint32_t>(*deep);
    return TomlFault{byte, byte + 1, fmt::format("a key has more than {} parts here", most_key_parts)};
  }
  TomlCopier copier{file, tree, store};
  try {
    const toml::table root = toml::parse(file.text());
    copier.copy_held(root, 0);
    return {};
  } catch (const toml::parse_error& error) {
    const auto [begin, end] = copier.place(error.source());
    return TomlFault{begin, end, in_plain_words(error.description(), file.text(), begin)};
  }
}

} // namespace coeval
