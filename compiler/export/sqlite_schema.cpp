#include <fmt/format.h>

#include "export/columns.hpp"
#include "export/sqlite.hpp"
#include "export/table_names.hpp"

namespace coeval {
namespace {

// The tables that follow from no kind of entry.
constexpr std::string_view before_kinds = R"(
CREATE TABLE meta ( -- what this file is
  key TEXT NOT NULL PRIMARY KEY,
  value TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE bases ( -- how strong a statement is
  basis TEXT NOT NULL PRIMARY KEY,
  rank INTEGER NOT NULL UNIQUE -- 0 is the strongest
) STRICT, WITHOUT ROWID;
CREATE TABLE verdict_words ( -- the answers to "does this run belong with this issue?"
  verdict TEXT NOT NULL PRIMARY KEY,
  rank INTEGER NOT NULL UNIQUE, -- 0 is the best
  belongs INTEGER CHECK (belongs IN (0, 1)) -- null: open
) STRICT, WITHOUT ROWID;
CREATE TABLE kinds ( -- the kinds of entries
  kind TEXT NOT NULL PRIMARY KEY,
  held_in TEXT NOT NULL UNIQUE, -- its table in this file
  written TEXT NOT NULL, -- its table in TOML
  means TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE TABLE entries ( -- everything that was entered, one row for each table of TOML
  entry INTEGER PRIMARY KEY, -- in the order of files and lines
  kind TEXT NOT NULL REFERENCES kinds (kind),
  address TEXT UNIQUE, -- null where entries of the kind have none
  parent TEXT REFERENCES entries (address),
  name TEXT, -- the name, title or text that it gives itself
  file TEXT,
  line INTEGER
) STRICT;
)";

constexpr std::string_view after_kinds = R"(
CREATE TABLE stated_features ( -- what features an entry is said to have; several values: it is found with any of them
  entry INTEGER NOT NULL REFERENCES entries (entry),
  feature TEXT NOT NULL REFERENCES features (address),
  position INTEGER NOT NULL,
  word TEXT, -- one of word, number, flag and lab_l, lab_a, lab_b is given
  number REAL,
  flag INTEGER CHECK (flag IN (0, 1)),
  lab_l REAL, -- CIELAB, D65, 2 degrees
  lab_a REAL,
  lab_b REAL,
  tolerance REAL, -- of a number: plus or minus, in the feature's unit; of lab: CIEDE2000
  PRIMARY KEY (entry, feature, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE evidence ( -- how strong the statements of an entry are
  entry INTEGER PRIMARY KEY REFERENCES entries (entry),
  basis TEXT NOT NULL REFERENCES bases (basis),
  disputed INTEGER NOT NULL CHECK (disputed IN (0, 1)) -- 1: left out of every conclusion
) STRICT;
CREATE TABLE citations ( -- the sources that the statements of an entry rest on
  entry INTEGER NOT NULL REFERENCES entries (entry),
  position INTEGER NOT NULL,
  source TEXT NOT NULL REFERENCES sources (address),
  place TEXT, -- in the source
  inherited INTEGER NOT NULL CHECK (inherited IN (0, 1)), -- 1: given by the parent
  PRIMARY KEY (entry, position)
) STRICT, WITHOUT ROWID;
CREATE TABLE spans ( -- whatever lasts from a start to an end
  address TEXT NOT NULL PRIMARY KEY REFERENCES entries (address),
  kind TEXT NOT NULL REFERENCES kinds (kind)
) STRICT, WITHOUT ROWID;
CREATE TABLE bounds ( -- the days that follow from all statements of a basis or stronger; null: nothing follows
  span TEXT NOT NULL REFERENCES spans (address),
  "end" TEXT NOT NULL CHECK ("end" IN ('start', 'end')),
  basis TEXT NOT NULL REFERENCES bases (basis),
  earliest TEXT, -- ISO 8601
  latest TEXT,
  PRIMARY KEY (span, "end", basis)
) STRICT, WITHOUT ROWID;
CREATE TABLE points ( -- the days that constraints hold apart
  point TEXT NOT NULL PRIMARY KEY, -- ADDRESS.start, .end; .stock: from when stock could still be packed; .read: what a mark reads
  span TEXT REFERENCES spans (address) -- null for the origin, 1970-01-01
) STRICT, WITHOUT ROWID;
CREATE TABLE constraints ( -- x - y <= days
  number INTEGER PRIMARY KEY,
  x TEXT NOT NULL REFERENCES points (point),
  y TEXT NOT NULL REFERENCES points (point),
  days INTEGER NOT NULL,
  basis TEXT REFERENCES bases (basis), -- null: holds by the meaning of the words
  statement TEXT NOT NULL,
  source TEXT, -- parted by "; "
  file TEXT,
  line INTEGER
) STRICT;
CREATE TABLE verdicts ( -- does this run belong with this issue? A pair that is not here: no, the issue takes no such part
  issue TEXT NOT NULL REFERENCES issues (address),
  slot TEXT NOT NULL,
  run TEXT NOT NULL REFERENCES runs (address),
  verdict TEXT NOT NULL REFERENCES verdict_words (verdict),
  basis TEXT REFERENCES bases (basis), -- the strongest on which it stands; null: open
  gap_days INTEGER, -- how much too late, or how much longer than stock was kept, at least
  gap TEXT, -- the same in words
  PRIMARY KEY (issue, slot, run)
) STRICT, WITHOUT ROWID;
CREATE INDEX verdicts_by_run ON verdicts (run, issue);
CREATE VIEW outfit AS -- of an issue: the runs for each slot, the best first
  SELECT issue, slot, run, verdict, v.basis AS basis, gap
  FROM verdicts AS v JOIN verdict_words AS w USING (verdict) LEFT JOIN bases AS b USING (basis)
  ORDER BY issue, slot, w.rank, b.rank, run;
CREATE VIEW homes AS -- of a run: the issues that it could belong with, the best first
  SELECT run, issue, slot, verdict, v.basis AS basis, gap
  FROM verdicts AS v JOIN verdict_words AS w USING (verdict) LEFT JOIN bases AS b USING (basis)
  ORDER BY run, w.rank, b.rank, issue, slot;
)";

constexpr std::string_view search_index = R"(
CREATE VIRTUAL TABLE search USING fts5 (address, kind UNINDEXED, name, words,
  tokenize = 'unicode61 remove_diacritics 2'); -- rowid: the entry; words: all of its texts
)";

std::string in_quotes(std::string_view name) { return "\"" + sql_name(name) + "\""; }

// As a comment, which ends with its line.
std::string comment(std::string_view doc) {
  std::string text{doc};
  for (char& c : text)
    if (c == '\n') c = ' ';
  return " -- " + text;
}

std::string table_of_kind(Kind kind) { return sql_name(table_name(kind)); }

std::string target(const KeySpec& key) {
  if (key.type == ValueType::span || key.type == ValueType::span_list || key.type == ValueType::point)
    return "spans (address)";
  return key.targets.size() == 1 ? table_of_kind(key.targets.front()) + " (address)" : "entries (address)";
}

std::string_view type_of(ValueType type) {
  const bool whole = type == ValueType::flag || type == ValueType::count;
  return whole ? "INTEGER" : type == ValueType::number ? "REAL" : "TEXT";
}

std::string check_of(const KeySpec& key) {
  if (key.type == ValueType::flag) return fmt::format(" CHECK ({} IN (0, 1))", in_quotes(key.name));
  if (key.type != ValueType::choice) return {};
  std::string list;
  for (const std::string_view choice : key.choices) list += fmt::format("{}'{}'", list.empty() ? "" : ", ", choice);
  return fmt::format(" CHECK ({} IN ({}))", in_quotes(key.name), list);
}

// One line each, without the comma that parts it from the next.
struct Column {
  std::string definition;
  std::string doc;
};

void add_key(std::vector<Column>& columns, const KeySpec& key) {
  const std::string name = in_quotes(key.name);
  const std::string_view needed = key.required ? " NOT NULL" : "";
  switch (column_shape(key.type)) {
  case ColumnShape::one:
    columns.push_back({fmt::format("{} {}{}{}{}", name, type_of(key.type), needed, check_of(key),
                                   holds_address(key.type) ? " REFERENCES " + target(key) : std::string{}),
                       std::string{key.doc}});
    break;
  case ColumnShape::lab:
    for (const std::string_view axis : {"l", "a", "b"})
      columns.push_back({fmt::format("{} REAL{}", in_quotes(fmt::format("{}-{}", key.name, axis)), needed),
                         axis == "l" ? std::string{key.doc} : std::string{}});
    break;
  case ColumnShape::point:
    columns.push_back({fmt::format("{} TEXT{} REFERENCES {}", name, needed, target(key)), std::string{key.doc}});
    columns.push_back(
        {fmt::format("{0} TEXT{1} CHECK ({0} IN ('start', 'end'))", in_quotes(fmt::format("{}-end", key.name)), needed),
         "which end of it"});
    break;
  case ColumnShape::list:
  case ColumnShape::features:
  case ColumnShape::cited:
    break;
  }
}

std::string table(std::string_view name, std::string_view doc, const std::vector<Column>& columns,
                  std::string_view options) {
  std::string sql = fmt::format("CREATE TABLE {} ({}\n", name, comment(doc));
  for (std::size_t i = 0; i < columns.size(); ++i)
    sql += fmt::format("  {}{}{}\n", columns[i].definition, i + 1 < columns.size() ? "," : "",
                       columns[i].doc.empty() ? std::string{} : comment(columns[i].doc));
  return sql + fmt::format(") {};\n", options);
}

std::string tables_of_kind(const KindSpec& spec) {
  const std::string name = table_of_kind(spec.kind);
  std::vector<Column> columns{{"entry INTEGER PRIMARY KEY REFERENCES entries (entry)", {}}};
  if (spec.has_id())
    columns.push_back(
        {"address TEXT NOT NULL UNIQUE REFERENCES entries (address)", "its id, with those of its parents"});
  if (!spec.parents.empty())
    columns.push_back({fmt::format("parent TEXT NOT NULL REFERENCES {} (address)",
                                   spec.parents.size() == 1 ? table_of_kind(spec.parents.front()) : "entries"),
                       "the entry that it belongs to"});
  std::string lists;
  for (const KeySpec& key : spec.keys) {
    add_key(columns, key);
    if (column_shape(key.type) != ColumnShape::list) continue;
    const std::string value =
        holds_address(key.type) ? "value TEXT NOT NULL REFERENCES " + target(key) : "value TEXT NOT NULL";
    std::vector<Column> list{{fmt::format("entry INTEGER NOT NULL REFERENCES {} (entry)", name), {}},
                             {"position INTEGER NOT NULL", "from 0"},
                             {value, {}}};
    if (key.type == ValueType::mark_list) list.push_back({"reading TEXT", "the year or number that it reads there"});
    list.push_back({"PRIMARY KEY (entry, position)", {}});
    lists += table(fmt::format("{}_{}", name, sql_name(key.name)), key.doc, list, "STRICT, WITHOUT ROWID");
  }
  return table(name, spec.doc, columns, "STRICT") + lists;
}

} // namespace

std::string sqlite_schema() {
  std::string sql{before_kinds};
  for (const KindSpec& spec : schema()) sql += tables_of_kind(spec);
  return sql.append(after_kinds).append(search_index);
}

std::string sqlite_search_schema() { return std::string{search_index}; }

} // namespace coeval
