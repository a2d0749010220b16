#include "entries/toml_tables.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diagnose/near.hpp"
#include "entries/plain_toml.hpp"
#include "entries/toml_library.hpp"
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

// Walks the tables of one file, in the order of the text.
class TableReader {
public:
  TableReader(const SourceSet& sources, FileIndex file, Language language, ValueStore& store, Diagnostics& out)
      : values_(sources, file, store, out), language_(language), store_(store) {}

  std::vector<Entry> read(const TomlNode& root) {
    // Parents first: a file's [figure] or [accessory] may stand below what belongs to it.
    for (const TomlNode& node : HeldBy{root}) {
      const KindSpec* spec = find_top(node.key, language_);
      if (spec == nullptr)
        unknown_top(node);
      else if (spec->standing == Standing::top)
        read_tables(*spec, node, no_entry);
    }
    for (const TomlNode& node : HeldBy{root}) {
      const KindSpec* spec = find_top(node.key, language_);
      if (spec == nullptr || spec->standing != Standing::beside) continue;
      const EntryIndex parent = beside_parent(*spec, node);
      if (parent != no_entry) read_tables(*spec, node, parent);
    }
    return std::move(entries_);
  }

private:
  void unknown_top(const TomlNode& node) {
    std::vector<std::string_view> names;
    for (const KindSpec& spec : schema(language_))
      if (spec.standing != Standing::inside) names.push_back(spec.name);
    const auto near = near_names(node.key, names);
    const Span place = values_.key_place_of(node);
    std::optional<Fix> fix;
    if (near.size() == 1) fix = Fix{place, std::string{near.front()}, false};
    std::string message = fmt::format("there is no table `{}`", node.key);
    std::string help =
        near.empty() ? fmt::format("the tables of a file are {}", list_names(names, "and")) : did_you_mean(near);
    if (!node.is_table() && !node.is_list_of_tables()) {
      message = fmt::format("`{}` stands outside every table", node.key);
      help = fmt::format("put it below the table that it belongs to, such as {}",
                         language_ == Language::shelf ? "[[piece]] or [[part]]" : "[figure] or [[mould]]");
      fix.reset();
    }
    values_.refuse(Code::unknown_table, place, std::move(message), std::move(help), std::move(fix));
  }

  EntryIndex beside_parent(const KindSpec& spec, const TomlNode& node) {
    const KindSpec& parent = spec_of(spec.parents.front());
    for (std::size_t i = 0; i < entries_.size(); ++i)
      if (entries_[i].kind == parent.kind) return EntryIndex{static_cast<std::uint32_t>(i)};
    values_.refuse(Code::misplaced_table, values_.key_place_of(node),
                   fmt::format("{} belongs to the {} of its file, and this file has no [{}]", heading(spec),
                               parent.name, parent.name),
                   fmt::format("put it into the file of its {0}, or start the file with [{0}]", parent.name));
    return no_entry;
  }

  void read_tables(const KindSpec& spec, const TomlNode& node, EntryIndex parent) {
    const bool tables = node.is_table() || (node.is_list() && node.held == 0) || node.is_list_of_tables();
    if (!tables || node.is_table() == spec.repeated) {
      values_.refuse(Code::wrong_type, values_.key_place_of(node),
                     !tables         ? fmt::format("`{}` is a table, and this is none", spec.name)
                     : spec.repeated ? fmt::format("there can be several, so the table is written {}", heading(spec))
                                     : fmt::format("there is only one, so the table is written {}", heading(spec)),
                     fmt::format("write {} above its keys", heading(spec)));
      if (!tables) return;
    }
    if (node.is_table()) {
      read_table(spec, node, values_.key_place_of(node), parent);
    } else {
      for (const TomlNode& item : HeldBy{node}) read_table(spec, item, values_.place_of(item), parent);
    }
  }

  void read_table(const KindSpec& spec, const TomlNode& table, Span head, EntryIndex parent) {
    const EntryIndex index{static_cast<std::uint32_t>(entries_.size())};
    entries_.emplace_back();
    Entry entry;
    entry.kind = spec.kind;
    entry.parent = parent;
    entry.place = head;
    fields_.clear();
    std::vector<std::pair<const KindSpec*, const TomlNode*>> inner;
    for (const TomlNode& node : HeldBy{table}) {
      if (const KeySpec* key = spec.find(node.key)) {
        const std::size_t refusals = values_.refusals();
        auto value = values_.read(*key, node);
        if (values_.refusals() > refusals) entry.broken = true;
        if (value) {
          const Span place = values_.place_of(node);
          if (key->type == ValueType::id) {
            entry.id = std::get<KeptText>(*value);
            entry.place = place;
          }
          fields_.push_back({key, place, node.key_begin, *value});
        }
      } else if (const KindSpec* child = find_child(spec.kind, node.key)) {
        inner.emplace_back(child, &node);
      } else {
        unknown_key(spec, node);
      }
    }
    for (const KeySpec& key : spec.keys) {
      if (!key.required || table.find(key.name) != nullptr) continue;
      entry.broken = true;
      values_.refuse(Code::missing_key, entry.place, fmt::format("{} needs `{}`: {}", heading(spec), key.name, key.doc),
                     fmt::format("add {} = …", key.name));
    }
    entry.fields = store_.keep(fields_);
    entries_[static_cast<std::size_t>(index)] = entry;
    for (const auto& [child, node] : inner) read_tables(*child, *node, index);
  }

  void unknown_key(const KindSpec& spec, const TomlNode& node) {
    std::vector<std::string_view> names;
    for (const KeySpec& known : spec.keys) names.push_back(known.name);
    for (const KindSpec* child : children_of(spec.kind))
      if (child->standing == Standing::inside) names.push_back(child->name);
    const auto near = near_names(node.key, names);
    const Span place = values_.key_place_of(node);
    std::optional<Fix> fix;
    if (near.size() == 1) fix = Fix{place, std::string{near.front()}, false};
    values_.refuse(Code::unknown_key, place, fmt::format("{} has no key `{}`", heading(spec), node.key),
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

std::vector<Entry> read_file(const SourceSet& sources, FileIndex file, Language language, TomlTree& tree,
                             ValueStore& store, Diagnostics& out) {
  const SourceFile& source = sources[file];
  store.keep_file(source.shared_text());
  if (!read_plain_toml(source.text(), tree, store))
    if (const auto fault = read_toml(source, tree, store)) {
      ValueReader{sources, file, store, out}.refuse(Code::broken_toml, {file, fault->begin, fault->end}, fault->message,
                                                    "mend this place first: the rest of the file was not read");
      return {};
    }
  return TableReader{sources, file, language, store, out}.read(tree.root());
}

} // namespace coeval
