#include "entries/rows.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "csv/write.hpp"
#include "entries/toml_write.hpp"

namespace coeval {
namespace {

struct CellWords {
  std::string operator()(const KeptText& text) const { return text; }
  std::string operator()(bool flag) const { return flag ? "true" : "false"; }
  std::string operator()(double number) const { return fmt::format("{}", number); }
  std::string operator()(const Numbers& numbers) const { return fmt::format("{}", fmt::join(numbers, "\n")); }
  std::string operator()(const Words& words) const {
    std::string lines;
    for (const Word& word : words) (lines += lines.empty() ? "" : "\n") += word.text;
    return lines;
  }
  std::string operator()(std::int64_t number) const { return std::to_string(number); }
  std::string operator()(const CalendarDay& day) const { return iso(day.day); }
  std::string operator()(const Condition& condition) const { return coeval::text(condition); }
  std::string operator()(const Currency& currency) const { return std::string{currency.code()}; }
  std::string operator()(const Money& money) const { return coeval::text(money); }
  std::string operator()(const Decimal& decimal) const { return coeval::text(decimal); }
  template <class Other> std::string operator()(const Other&) const {
    throw std::logic_error("a shelf has no such value");
  }
};

bool digits_only(std::string_view text) {
  return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

// Whether TOML reads it as an integer or a float that is one.
bool is_toml_number(std::string_view text) {
  if (text.starts_with('-')) text.remove_prefix(1);
  const std::size_t dot = text.find('.');
  const std::string_view whole = text.substr(0, dot);
  constexpr std::size_t most_digits = 18; // of an integer of 64 bits
  if (!digits_only(whole) || whole.size() > most_digits || (whole.size() > 1 && whole[0] == '0')) return false;
  return dot == std::string_view::npos || (digits_only(text.substr(dot + 1)) && text.size() <= 2 * most_digits);
}

std::string one_value(ValueType type, std::string_view text) {
  switch (type) {
  case ValueType::flag:
    if (text == "true" || text == "TRUE" || text == "True") return "true";
    if (text == "false" || text == "FALSE" || text == "False") return "false";
    break;
  case ValueType::number:
  case ValueType::numbers:
  case ValueType::count:
  case ValueType::weight:
    if (is_toml_number(text)) return std::string{text};
    break;
  default:
    break;
  }
  return toml_string(text);
}

std::string list_value(ValueType type, std::string_view cell) {
  std::string items;
  while (!cell.empty()) {
    const std::size_t end = std::min(cell.find('\n'), cell.size());
    std::string_view item = cell.substr(0, end);
    cell.remove_prefix(std::min(end + 1, cell.size()));
    if (item.ends_with('\r')) item.remove_suffix(1);
    if (!item.empty()) items += (items.empty() ? "" : ", ") + one_value(type, item);
  }
  return "[" + items + "]";
}

// A text that a spreadsheet would take for something else and write differently: "007", "3/4", "TRUE".
bool looks_computed(std::string_view text) {
  const bool numeric = text.find_first_of("0123456789") != std::string_view::npos &&
                       text.find_first_not_of("0123456789.,:/-+eE% ") == std::string_view::npos;
  std::string upper{text};
  for (char& c : upper)
    if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
  return numeric || upper == "TRUE" || upper == "FALSE";
}

bool is_free_text(ValueType type) {
  return type == ValueType::text || type == ValueType::id || type == ValueType::url || type == ValueType::address ||
         type == ValueType::text_list || type == ValueType::mark_list;
}

} // namespace

const RowCell* EntryRow::find(std::string_view key) const {
  const auto cell = std::ranges::find(cells, key, [](const RowCell& one) { return one.key->name; });
  return cell == cells.end() ? nullptr : &*cell;
}

std::vector<EntryRow> rows_of(const EntrySet& entries) {
  std::vector<EntryRow> rows;
  for (const Entry& entry : entries.entries) {
    EntryRow row{.kind = &spec_of(entry.kind), .place = entry.place};
    if (entry.parent != no_entry) row.parent = static_cast<std::size_t>(entry.parent);
    for (const KeySpec& key : row.kind->keys)
      if (const Field* field = entry.find(key.name))
        row.cells.push_back({&key, std::visit(CellWords{}, field->value), field->place});
    rows.push_back(std::move(row));
  }
  return rows;
}

std::string_view owner_of(const std::vector<EntryRow>& rows, std::size_t row) {
  for (row = rows[row].parent; row != no_row; row = rows[row].parent)
    if (const RowCell* id = rows[row].find("id")) return id->text;
  return {};
}

std::string toml_value(const KeySpec& key, std::string_view cell) {
  return is_word_list(key.type) || key.type == ValueType::numbers ? list_value(key.type, cell)
                                                                  : one_value(key.type, cell);
}

std::string toml_head(const std::vector<EntryRow>& rows, std::size_t row) {
  std::string path{rows[row].kind->name};
  for (std::size_t up = rows[row].parent; up != no_row; up = rows[up].parent)
    path = std::string{rows[up].kind->name} + "." + path;
  return rows[row].kind->repeated ? "[[" + path + "]]" : "[" + path + "]";
}

WrittenToml toml_of(const std::vector<EntryRow>& rows) {
  // Children by parent, in their order; the last list holds those at the top.
  std::vector<std::vector<std::size_t>> inside(rows.size() + 1);
  for (std::size_t row = 0; row < rows.size(); ++row)
    inside[rows[row].parent == no_row ? rows.size() : rows[row].parent].push_back(row);
  WrittenToml toml;
  const auto stretch = [&](Span cell) {
    toml.stretches.push_back({static_cast<std::uint32_t>(toml.text.size()), cell});
  };
  const auto write = [&](const auto& self, std::size_t row) -> void {
    if (!toml.text.empty()) toml.text += '\n';
    stretch(rows[row].place);
    toml.text += toml_head(rows, row) + "\n";
    std::size_t width = 0;
    for (const RowCell& cell : rows[row].cells) width = std::max(width, cell.key->name.size());
    for (const RowCell& cell : rows[row].cells) {
      stretch(cell.place);
      toml.text += fmt::format("{:<{}} = {}\n", cell.key->name, width, toml_value(*cell.key, cell.text));
    }
    for (const std::size_t child : inside[row]) self(self, child);
  };
  for (const std::size_t row : inside.back()) write(write, row);
  return toml;
}

std::string csv_cell_of(const KeySpec& key, std::string_view text, char separator) {
  const bool guarded = text.empty() || (is_free_text(key.type) && looks_computed(text));
  return csv_cell(text, separator, guarded ? CsvGuard::always : CsvGuard::formulas);
}

std::string csv_of(const std::vector<EntryRow>& rows) {
  static const KeySpec owner_key{.name = of_column, .type = ValueType::address, .doc = {}};
  std::vector<std::string_view> columns{table_column, of_column, "id"};
  for (const KindSpec& kind : schema(Language::shelf))
    for (const KeySpec& key : kind.keys)
      if (std::ranges::find(columns, key.name) == columns.end()) columns.push_back(key.name);
  std::set<std::string_view> used{table_column, "id"};
  for (std::size_t row = 0; row < rows.size(); ++row) {
    if (!owner_of(rows, row).empty()) used.insert(of_column);
    for (const RowCell& cell : rows[row].cells) used.insert(cell.key->name);
  }
  std::erase_if(columns, [&](std::string_view column) { return !used.contains(column); });
  std::map<std::string_view, std::size_t> position;
  for (const std::string_view column : columns) position.emplace(column, position.size());
  std::string table = csv_row({columns.begin(), columns.end()});
  for (std::size_t row = 0; row < rows.size(); ++row) {
    std::vector<std::string> cells(columns.size());
    cells[0] = rows[row].kind->name;
    if (const std::string_view owner = owner_of(rows, row); !owner.empty())
      cells[position.at(of_column)] = csv_cell_of(owner_key, owner);
    for (const RowCell& cell : rows[row].cells) cells[position.at(cell.key->name)] = csv_cell_of(*cell.key, cell.text);
    table += fmt::format("{}\r\n", fmt::join(cells, ","));
  }
  return table;
}

} // namespace coeval
