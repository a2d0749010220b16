#include "shelf/edit.hpp"

#include <algorithm>
#include <stdexcept>

#include "entries/csv_tables.hpp"
#include "entries/read.hpp"
#include "shelf/edited_text.hpp"

namespace coeval {
namespace {

const KeySpec& key_of(const EntryRow& row, std::string_view name) {
  const KeySpec* key = row.kind->find(name);
  if (key == nullptr) throw std::logic_error("a key that this table cannot have");
  return *key;
}

} // namespace

ShelfEdit::ShelfEdit(const SourceSet& sources, const EntrySet& entries)
    : sources_(sources), entries_(entries), rows_(rows_of(entries)) {}

void ShelfEdit::set(EntryIndex entry, std::string_view key, std::string value) { change(entry, key, std::move(value)); }
void ShelfEdit::remove(EntryIndex entry, std::string_view key) { change(entry, key, std::nullopt); }

const std::string* ShelfEdit::value(EntryIndex entry, std::string_view key) const {
  const EntryRow& row = rows_.at(static_cast<std::size_t>(entry));
  const RowCell* cell = row.find(key_of(row, key).name);
  return cell == nullptr ? nullptr : &cell->text;
}

void ShelfEdit::change(EntryIndex entry, std::string_view key, std::optional<std::string> value) {
  const std::string* now = this->value(entry, key);
  const auto row = static_cast<std::size_t>(entry);
  const std::pair place{row, &key_of(rows_[row], key)};
  if (now != nullptr ? value == *now : !value)
    values_.erase(place);
  else
    values_.insert_or_assign(place, std::move(value));
}

std::optional<std::string> ShelfEdit::text(Diagnostics& out) const {
  const SourceFile& file = sources_.files.front();
  Diagnostic refusal;
  refusal.code = Code::fixed_table;
  if (is_csv_path(file.path())) {
    std::string text = edited_csv(file.text(), entries_, values_);
    if (says_as_asked(text)) return text;
  } else {
    auto text = edited_toml(file.text(), entries_, values_, refusal.place);
    if (text && says_as_asked(*text)) return text;
  }
  refusal.message = refusal.place.known()
                        ? "this table has no line of its own for each key, so it cannot be changed in its place"
                        : "the changed file would not be read back as it is meant";
  refusal.help = "write its table as a head in brackets and one key a line below, or make the change by hand";
  if (!refusal.place.known()) refusal.path = file.path();
  out.report(std::move(refusal));
  return {};
}

bool ShelfEdit::says_as_asked(const std::string& text) const {
  if (first_bad_byte(text)) return false;
  SourceSet again;
  again.files.emplace_back(sources_.files.front().path(), text);
  Diagnostics wrong;
  const EntrySet entries = read_entries(again, {}, wrong, Language::shelf);
  if (wrong.has_errors()) return false;
  std::vector<EntryRow> wanted = rows_;
  for (const auto& [place, value] : values_) {
    const KeySpec* key = place.second;
    std::vector<RowCell>& cells = wanted[place.first].cells;
    std::erase_if(cells, [&](const RowCell& cell) { return cell.key == key; });
    if (!value) continue;
    // In the order of the schema, as rows are.
    const auto behind = std::ranges::find_if(cells, [&](const RowCell& cell) { return cell.key > key; });
    cells.insert(behind, {key, *value, {}});
  }
  return rows_of(entries) == wanted;
}

} // namespace coeval
