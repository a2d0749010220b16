#include "entries/csv_tables.hpp"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "csv/read.hpp"
#include "diagnose/near.hpp"
#include "entries/rows.hpp"
#include "entries/toml_tables.hpp"

namespace coeval {
namespace {

// One column of the table: the keys that it can hold, by the kind of the row.
struct Column {
  std::string name;
  Span place;
  bool known = false; // else its cells are not read
};

// Rows of a table to rows of entries, whose places are cells.
class RowReader {
public:
  RowReader(FileIndex file, Diagnostics& out) : file_(file), out_(out) {}

  void take(const CsvRow& row) {
    if (columns_.empty())
      read_head(row);
    else if (std::ranges::any_of(row.cells, &CsvCell::given))
      read_row(row);
  }

  // After the last row.
  std::vector<EntryRow> finish() {
    find_owners();
    return std::move(kept_);
  }

private:
  struct Pending {
    EntryRow row;
    std::string owner; // what `of` says
    Span owner_place;
  };

  void refuse(Code code, Span place, std::string message, std::string help) {
    Diagnostic wrong;
    wrong.code = code;
    wrong.place = place;
    wrong.message = std::move(message);
    wrong.help = std::move(help);
    out_.report(std::move(wrong));
  }
  Span place(const CsvCell& cell) const { return {file_, cell.begin, cell.end}; }

  void read_head(const CsvRow& row) {
    std::vector<std::string_view> names{table_column, of_column};
    for (const KindSpec& kind : schema(Language::shelf))
      for (const KeySpec& key : kind.keys)
        if (std::ranges::find(names, key.name) == names.end()) names.push_back(key.name);
    for (const CsvCell& cell : row.cells) {
      const bool twice = std::ranges::any_of(columns_, [&](const Column& one) { return one.name == cell.text; });
      const bool known = std::ranges::find(names, cell.text) != names.end();
      if (known && twice)
        refuse(Code::broken_csv, place(cell), fmt::format("the head names the column `{}` twice", cell.text),
               "keep one of the two");
      else if (!known && cell.given) {
        const auto near = near_names(cell.text, names);
        refuse(Code::unknown_key, place(cell), fmt::format("there is no column `{}`", cell.text),
               near.empty() ? "columns are named as the keys of the tables; `coeval schema shelf` shows them"
                            : did_you_mean(near));
      }
      columns_.push_back({cell.text, place(cell), known && !twice});
    }
    if (std::ranges::find(columns_, table_column, &Column::name) == columns_.end())
      refuse(Code::broken_csv, place(row.cells.front()), "the head has no column `table`",
             "add a column `table` that says of each row what it is: piece, part, purchase …");
  }

  void read_row(const CsvRow& row) {
    Pending pending;
    const KindSpec* kind = kind_of(row);
    if (kind == nullptr) return;
    pending.row.kind = kind;
    pending.row.place = place(cell_of(row, table_column));
    pending.owner_place = pending.row.place;
    for (std::size_t i = 0; i < row.cells.size(); ++i) {
      const CsvCell& cell = row.cells[i];
      const Column& column = columns_[i];
      if (!cell.given || column.name == table_column) continue;
      const KeySpec* key = kind->find(column.name);
      if (column.name == of_column && kind->standing == Standing::inside) {
        pending.owner = cell.text;
        pending.owner_place = place(cell);
      } else if (column.name.empty()) {
        refuse(Code::broken_csv, place(cell), "the head does not name the column of this cell",
               "name it in the head, or empty the cell");
      } else if (column.known && key == nullptr) {
        refuse_key(*kind, column.name, place(cell));
      } else if (column.known) {
        pending.row.cells.push_back({key, cell.text, place(cell)});
        if (key->type == ValueType::id) pending.row.place = place(cell);
      }
    }
    rows_.push_back(std::move(pending));
  }

  const CsvCell& cell_of(const CsvRow& row, std::string_view name) const {
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      if (columns_[i].name == name) return row.cells[i];
    return row.cells.front();
  }

  const KindSpec* kind_of(const CsvRow& row) {
    if (std::ranges::find(columns_, table_column, &Column::name) == columns_.end()) return nullptr; // reported once
    const CsvCell& cell = cell_of(row, table_column);
    std::vector<std::string_view> names;
    for (const KindSpec& kind : schema(Language::shelf)) {
      if (kind.name == cell.text) return &kind;
      names.push_back(kind.name);
    }
    const auto near = near_names(cell.text, names);
    const std::string help = near.empty() ? fmt::format("tables are {}", list_names(names, "and")) : did_you_mean(near);
    if (cell.given)
      refuse(Code::unknown_table, place(cell), fmt::format("there is no table `{}`", cell.text), help);
    else
      refuse(Code::broken_csv, place(cell), "this row does not say what it is", help);
    return nullptr;
  }

  void refuse_key(const KindSpec& kind, const std::string& name, Span cell) {
    std::vector<std::string_view> names;
    for (const KeySpec& key : kind.keys) names.push_back(key.name);
    if (kind.standing == Standing::top && name == of_column)
      return refuse(Code::unknown_key, cell, fmt::format("{} does not stand in another table", with_article(kind.name)),
                    "empty the cell `of`");
    const auto near = near_names(name, names);
    refuse(Code::unknown_key, cell, fmt::format("{} has no `{}`", with_article(kind.name), name),
           near.empty() ? fmt::format("empty the cell; what it can have is {}", list_names(names, "and"))
                        : did_you_mean(near));
  }

  // The row that a table inside another stands in: the nearest above of that id, else the first below.
  void find_owners() {
    std::map<std::pair<Kind, std::string>, std::vector<std::size_t>> by_name;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const EntryRow& row = rows_[i].row;
      const RowCell* id = row.find("id");
      if (row.kind->has_id() || row.kind->standing == Standing::inside)
        by_name[{row.kind->kind, id != nullptr ? id->text : rows_[i].owner}].push_back(i);
    }
    std::vector<std::size_t> owner(rows_.size(), no_row);
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const KindSpec& kind = *rows_[i].row.kind;
      if (kind.standing != Standing::inside) continue;
      for (const Kind parent : kind.parents) {
        const auto found = by_name.find({parent, rows_[i].owner});
        if (found == by_name.end()) continue;
        const auto below = std::ranges::upper_bound(found->second, i);
        const std::size_t nearest = below == found->second.begin() ? found->second.front() : *std::prev(below);
        const bool nearer = owner[i] == no_row || (owner[i] > i && nearest < owner[i]) ||
                            (owner[i] < i && nearest < i && nearest > owner[i]);
        if (nearer) owner[i] = nearest;
      }
      if (owner[i] == no_row) refuse_owner(rows_[i], by_name);
    }
    keep(owner);
  }

  void refuse_owner(const Pending& pending,
                    const std::map<std::pair<Kind, std::string>, std::vector<std::size_t>>& by_name) {
    const KindSpec& kind = *pending.row.kind;
    std::vector<std::string_view> parents;
    std::vector<std::string_view> ids;
    for (const Kind parent : kind.parents) {
      parents.push_back(spec_of(parent).name);
      for (auto it = by_name.lower_bound({parent, ""}); it != by_name.end() && it->first.first == parent; ++it)
        ids.push_back(it->first.second);
    }
    const auto near = near_names(pending.owner, ids);
    refuse(Code::broken_csv, pending.owner_place,
           pending.owner.empty()
               ? fmt::format("{} stands in a {}, and this one does not say in which", with_article(kind.name),
                             fmt::join(parents, " or a "))
               : fmt::format("there is no {} `{}` for this {}", fmt::join(parents, " or "), pending.owner, kind.name),
           near.empty() || pending.owner.empty() ? "give the id of the row that it belongs to in the column `of`"
                                                 : did_you_mean(near));
  }

  // Rows with an owner, owners first, and of tables that there can be only one of the first.
  void keep(const std::vector<std::size_t>& owner) {
    std::vector<std::size_t> position(rows_.size(), no_row);
    std::map<std::pair<Kind, std::size_t>, Span> only;
    std::vector<bool> dropped(rows_.size(), false);
    std::vector<std::vector<std::size_t>> inside(rows_.size());
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const KindSpec& kind = *rows_[i].row.kind;
      if (kind.standing == Standing::inside && owner[i] == no_row) continue; // reported
      if (!kind.repeated) {
        const auto [first, fresh] = only.try_emplace({kind.kind, owner[i]}, rows_[i].row.place);
        if (!fresh) {
          Diagnostic twice;
          twice.code = Code::broken_csv;
          twice.place = rows_[i].row.place;
          twice.message = fmt::format("there is a second `{}`, and there can be only one", kind.name);
          twice.help = "put what both say into one row";
          twice.labels.push_back({first->second, "the first is here"});
          out_.report(std::move(twice));
          continue;
        }
      }
      (owner[i] == no_row ? order : inside[owner[i]]).push_back(i);
    }
    for (const std::size_t top : order) add(top, no_row, inside);
  }

  void add(std::size_t row, std::size_t parent, const std::vector<std::vector<std::size_t>>& inside) {
    const std::size_t at = kept_.size();
    kept_.push_back(std::move(rows_[row].row));
    kept_.back().parent = parent;
    for (const std::size_t child : inside[row]) add(child, at, inside);
  }

  FileIndex file_;
  Diagnostics& out_;
  std::vector<Column> columns_;
  std::vector<Pending> rows_;
  std::vector<EntryRow> kept_;
};

// The cell that a byte of the written TOML comes from.
Span cell_at(const WrittenToml& toml, Span place, Span whole) {
  if (!place.known()) return place;
  auto next = std::ranges::upper_bound(toml.stretches, place.begin, {}, &WrittenToml::Stretch::begin);
  return next == toml.stretches.begin() ? whole : std::prev(next)->cell;
}

} // namespace

bool is_csv_path(std::string_view path) {
  if (path.size() < 4) return false;
  std::string ending{path.substr(path.size() - 4)};
  for (char& c : ending)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  return ending == ".csv";
}

std::vector<Entry> read_csv_file(const SourceSet& sources, FileIndex file, ValueStore& store, Diagnostics& out) {
  const SourceFile& source = sources[file];
  RowReader rows{file, out};
  if (const auto fault = read_csv(source.text(), [&](const CsvRow& row) { rows.take(row); })) {
    Diagnostic broken;
    broken.code = Code::broken_csv;
    broken.place = {file, fault->begin, fault->end};
    broken.message = fault->message;
    broken.help = fault->help + "; rows below were not read";
    out.report(std::move(broken));
    return {};
  }
  const WrittenToml toml = toml_of(rows.finish());
  SourceSet written;
  written.files.emplace_back(source.path(), toml.text);
  Diagnostics found;
  TomlTree tree;
  std::vector<Entry> entries = read_file(written, FileIndex{0}, Language::shelf, tree, store, found);
  const Span whole{file, 0, 0};
  const auto move = [&](Span& place) { place = cell_at(toml, place, whole); };
  for (Entry& entry : entries) {
    move(entry.place);
    std::vector<Field> fields{entry.fields.begin(), entry.fields.end()};
    for (Field& field : fields) {
      move(field.place);
      field.key_begin = field.place.begin;
      if (const auto* words = std::get_if<Words>(&field.value)) {
        std::vector<Word> moved{words->begin(), words->end()};
        for (Word& word : moved) move(word.place);
        field.value = store.keep(moved);
      }
    }
    entry.fields = store.keep(fields);
  }
  for (Diagnostic& diagnostic : found.sorted()) {
    move(diagnostic.place);
    for (Label& label : diagnostic.labels) move(label.place);
    diagnostic.fix.reset(); // it would mend TOML
    out.report(std::move(diagnostic));
  }
  return entries;
}

void name_cells(std::vector<Diagnostic>& list, const SourceSet& sources) {
  for (std::size_t file = 0; file < sources.files.size(); ++file) {
    if (!is_csv_path(sources.files[file].path())) continue;
    // Places in order, so that one walk through the table names them all.
    std::multimap<std::uint32_t, Diagnostic*> wanted;
    for (Diagnostic& diagnostic : list)
      if (diagnostic.place.file == FileIndex{static_cast<std::uint32_t>(file)} &&
          !diagnostic.message.starts_with("row ")) // a broken table says so itself
        wanted.emplace(diagnostic.place.begin, &diagnostic);
    if (wanted.empty()) continue;
    std::vector<std::string> head;
    (void)read_csv(sources.files[file].text(), [&](const CsvRow& row) {
      if (head.empty())
        for (const CsvCell& cell : row.cells) head.push_back(cell.text);
      for (std::size_t column = 0; column < row.cells.size(); ++column) {
        const CsvCell& cell = row.cells[column];
        for (auto it = wanted.lower_bound(cell.begin); it != wanted.end() && it->first <= cell.end;
             it = wanted.erase(it))
          it->second->message = csv_place(row.number, column, head) + ": " + it->second->message;
      }
    });
  }
}

} // namespace coeval
