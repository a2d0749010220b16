#include "entries/toml_tables.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "entries/toml_text.hpp"
#include "entries/toml_values.hpp"

namespace coeval {
namespace {

std::string heading(const KindSpec& spec) {
  std::string name{spec.name};
  if (spec.standing == Standing::inside && !spec.parents.empty())
    name = spec.parents.size() == 1 ? fmt::format("{}.{}", spec_of(spec.parents.front()).name, spec.name)
                                    : fmt::format("….{}", spec.name);
  return spec.repeated ? fmt::format("[[{}]]", name) : fmt::format("[{}]", name);
}

// Walks the tables of one file. toml++ keeps tables sorted by key; entries follow the text instead.
class TableReader {
public:
  TableReader(const SourceSet& sources, FileIndex file, Language language, ValueStore& store, Diagnostics& out)
      : values_(sources, file, store, out), language_(language), store_(store) {}

  std::vector<Entry> read(const toml::table& root) {
    // Parents first: a file's [figure] or [accessory] may stand below what belongs to it.
    for (const auto& [key, node] : in_text_order(root)) {
      const KindSpec* spec = find_top(key->str(), language_);
      if (spec == nullptr)
        unknown_top(*key, *node);
      else if (spec->standing == Standing::top)
        read_tables(*spec, *key, *node, no_entry);
    }
    for (const auto& [key, node] : in_text_order(root)) {
      const KindSpec* spec = find_top(key->str(), language_);
      if (spec == nullptr || spec->standing != Standing::beside) continue;
      const EntryIndex parent = beside_parent(*spec, *key);
      if (parent != no_entry) read_tables(*spec, *key, *node, parent);
    }
    return std::move(entries_);
  }

private:
  using Item = std::pair<const toml::key*, const toml::node*>;

  static std::vector<Item> in_text_order(const toml::table& table) {
    std::vector<Item> items;
    for (const auto& [key, node] : table) items.emplace_back(&key, &node);
    std::ranges::sort(items, [](const Item& a, const Item& b) {
      const auto& left = a.first->source().begin;
      const auto& right = b.first->source().begin;
      return std::pair{left.line, left.column} < std::pair{right.line, right.column};
    });
    return items;
  }

  void unknown_top(const toml::key& key, const toml::node& node) {
    std::vector<std::string_view> names;
    for (const KindSpec& spec : schema(language_))
      if (spec.standing != Standing::inside) names.push_back(spec.name);
    const auto near = near_names(key.str(), names);
    const Span place = values_.span(key.source());
    std::optional<Fix> fix;
    if (near.size() == 1) fix = Fix{place, std::string{near.front()}, false};
    std::string message = fmt::format("there is no table `{}`", key.str());
    std::string help =
        near.empty() ? fmt::format("the tables of a file are {}", list_names(names, "and")) : did_you_mean(near);
    if (!node.is_table() && !node.is_array_of_tables()) {
      message = fmt::format("`{}` stands outside every table", key.str());
      help = fmt::format("put it below the table that it belongs to, such as {}",
                         language_ == Language::shelf ? "[[piece]] or [[part]]" : "[figure] or [[mould]]");
      fix.reset();
    }
    values_.refuse(Code::unknown_table, place, std::move(message), std::move(help), std::move(fix));
  }

  EntryIndex beside_parent(const KindSpec& spec, const toml::key& key) {
    const KindSpec& parent = spec_of(spec.parents.front());
    for (std::size_t i = 0; i < entries_.size(); ++i)
      if (entries_[i].kind == parent.kind) return EntryIndex{static_cast<std::uint32_t>(i)};
    values_.refuse(Code::misplaced_table, values_.span(key.source()),
                   fmt::format("{} belongs to the {} of its file, and this file has no [{}]", heading(spec),
                               parent.name, parent.name),
                   fmt::format("put it into the file of its {0}, or start the file with [{0}]", parent.name));
    return no_entry;
  }

  void read_tables(const KindSpec& spec, const toml::key& key, const toml::node& node, EntryIndex parent) {
    const toml::array* array = node.as_array();
    const bool tables =
        node.is_table() ||
        (array != nullptr && std::ranges::all_of(*array, [](const toml::node& item) { return item.is_table(); }));
    if (!tables || node.is_table() == spec.repeated) {
      values_.refuse(Code::wrong_type, values_.span(key.source()),
                     !tables         ? fmt::format("`{}` is a table, and this is none", spec.name)
                     : spec.repeated ? fmt::format("there can be several, so the table is written {}", heading(spec))
                                     : fmt::format("there is only one, so the table is written {}", heading(spec)),
                     fmt::format("write {} above its keys", heading(spec)));
      if (!tables) return;
    }
    if (const toml::table* table = node.as_table()) {
      read_table(spec, *table, values_.span(key.source()), parent);
    } else {
      for (const toml::node& item : *array) read_table(spec, *item.as_table(), values_.span(item.source()), parent);
    }
  }

  void read_table(const KindSpec& spec, const toml::table& table, Span head, EntryIndex parent) {
    const EntryIndex index{static_cast<std::uint32_t>(entries_.size())};
    entries_.emplace_back();
    Entry entry;
    entry.kind = spec.kind;
    entry.parent = parent;
    entry.place = head;
    fields_.clear();
    std::vector<std::pair<const KindSpec*, Item>> inner;
    for (const auto& [key, node] : in_text_order(table)) {
      if (const KeySpec* key_spec = spec.find(key->str())) {
        const std::size_t refusals = values_.refusals();
        auto value = values_.read(*key_spec, *node);
        if (values_.refusals() > refusals) entry.broken = true;
        if (value) {
          const Span place = values_.span(node->source());
          if (key_spec->type == ValueType::id) {
            entry.id = std::get<KeptText>(*value);
            entry.place = place;
          }
          fields_.push_back({key_spec, values_.span(key->source()), place, *value});
        }
      } else if (const KindSpec* child = find_child(spec.kind, key->str())) {
        inner.emplace_back(child, Item{key, node});
      } else {
        unknown_key(spec, *key);
      }
    }
    for (const KeySpec& key : spec.keys) {
      if (!key.required || table.contains(key.name)) continue;
      entry.broken = true;
      values_.refuse(Code::missing_key, entry.place, fmt::format("{} needs `{}`: {}", heading(spec), key.name, key.doc),
                     fmt::format("add {} = …", key.name));
    }
    entry.fields = store_.keep(fields_);
    entries_[static_cast<std::size_t>(index)] = entry;
    for (const auto& [child, item] : inner) read_tables(*child, *item.first, *item.second, index);
  }

  void unknown_key(const KindSpec& spec, const toml::key& key) {
    std::vector<std::string_view> names;
    for (const KeySpec& known : spec.keys) names.push_back(known.name);
    for (const KindSpec* child : children_of(spec.kind))
      if (child->standing == Standing::inside) names.push_back(child->name);
    const auto near = near_names(key.str(), names);
    const Span place = values_.span(key.source());
    std::optional<Fix> fix;
    if (near.size() == 1) fix = Fix{place, std::string{near.front()}, false};
    values_.refuse(Code::unknown_key, place, fmt::format("{} has no key `{}`", heading(spec), key.str()),
                   near.empty() ? fmt::format("its keys are {}", list_names(names, "and")) : did_you_mean(near),
                   std::move(fix));
  }

  ValueReader values_;
  Language language_;
  ValueStore& store_;
  std::vector<Entry> entries_;
  std::vector<Field> fields_; // of the table that is being read
};

} // namespace

std::vector<Entry> read_file(const SourceSet& sources, FileIndex file, Language language, ValueStore& store,
                             Diagnostics& out) {
  const SourceFile& source = sources[file];
  constexpr std::string_view mend_first = "mend this place first: the rest of the file was not read";
  if (const auto deep = first_deep_key(source.text())) {
    const auto byte = static_cast<std::uint32_t>(*deep);
    ValueReader{sources, file, store, out}.refuse(Code::broken_toml, {file, byte, byte + 1},
                                                  fmt::format("a key has more than {} parts here", most_key_parts),
                                                  std::string{mend_first});
    return {};
  }
  try {
    const toml::table root = toml::parse(source.text());
    store.keep_file(source.shared_text());
    return TableReader{sources, file, language, store, out}.read(root);
  } catch (const toml::parse_error& error) {
    ValueReader reader{sources, file, store, out};
    const Span place = reader.span(error.source());
    reader.refuse(Code::broken_toml, place, in_plain_words(error.description(), source.text(), place.begin),
                  std::string{mend_first});
    return {};
  }
}

} // namespace coeval
