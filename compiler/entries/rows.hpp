// entries/rows.hpp: how do the tables of a shelf look as the rows of a spreadsheet, and as TOML again?
//
// Every table is one row: its name, the id of the table that it stands in, and its keys, each in the column of its
// name; keys of the same name share one. A list has one item a line within its cell. Comments are no part of it.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "entries/entry.hpp"

namespace coeval {

inline constexpr std::string_view table_column = "table"; // the first: the name of the kind
// The second: for a table inside another, the id of that one, or of the nearest one around it that has an id. A table
// at the top has a key in this column where it has one of this name.
inline constexpr std::string_view of_column = "of";

struct RowCell {
  const KeySpec* key = nullptr;
  std::string text; // as it stands in the cell, without CSV's quotes and guards
  Span place;       // of the cell, where it was read from a table
  friend bool operator==(const RowCell& one, const RowCell& other) {
    return one.key == other.key && one.text == other.text;
  }
};

inline constexpr std::size_t no_row = static_cast<std::size_t>(-1);

struct EntryRow {
  const KindSpec* kind = nullptr;
  std::size_t parent = no_row; // position of the row that it stands in, before this one
  std::vector<RowCell> cells;
  Span place; // of what names the table
  friend bool operator==(const EntryRow& one, const EntryRow& other) {
    return one.kind == other.kind && one.parent == other.parent && one.cells == other.cells;
  }

  [[nodiscard]] const RowCell* find(std::string_view key) const;
};

// Of a shelf without errors; cells in the order of the schema.
[[nodiscard]] std::vector<EntryRow> rows_of(const EntrySet& entries);

// What the table has in its column `of` for that row; empty for a table at the top.
[[nodiscard]] std::string_view owner_of(const std::vector<EntryRow>& rows, std::size_t row);

// The value of a key as TOML, from its cell: a number or a flag where the key takes one and the cell holds one, else
// text in quotes, so that one reader tells what is wrong with it.
[[nodiscard]] std::string toml_value(const KeySpec& key, std::string_view cell);
// "[[piece.certificate]]".
[[nodiscard]] std::string toml_head(const std::vector<EntryRow>& rows, std::size_t row);

// The rows as a TOML file, each table behind the one that it stands in, with the place of the cell that each stretch of
// it comes from.
struct WrittenToml {
  struct Stretch {
    std::uint32_t begin = 0; // up to the next one's
    Span cell;
  };
  std::string text;
  std::vector<Stretch> stretches;
};
[[nodiscard]] WrittenToml toml_of(const std::vector<EntryRow>& rows);

// The rows as CSV, with the columns that are used.
[[nodiscard]] std::string csv_of(const std::vector<EntryRow>& rows);
// One cell of it: what a spreadsheet would take for a number, a date or a formula is kept from that by an apostrophe.
[[nodiscard]] std::string csv_cell_of(const KeySpec& key, std::string_view text, char separator = ',');

} // namespace coeval
