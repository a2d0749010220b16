// shelf/edit.hpp: how is a shelf changed in place, with all else as its owner wrote it?
//
//   ShelfEdit edit{sources, entries};
//   edit.set(part, "in", "maren-1");
//   const std::optional<std::string> text = edit.text(out);
//
// Works on the bytes: comments, order, alignment and line breaks stay. In TOML a key that is new goes below the last
// one of its table, and one that is taken out goes with the line, or lines, that it stands on; in a table of cells a
// column that is missing is added to the head. Pure: text in, text out.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "diagnose/diagnostic.hpp"
#include "entries/rows.hpp"

namespace coeval {

// The new values of a shelf's keys, by table and key; nothing for a key that is taken out.
using NewValues = std::map<std::pair<std::size_t, const KeySpec*>, std::optional<std::string>>;

class ShelfEdit {
public:
  // Of one file, and its entries as they were read without errors; both must outlive this.
  ShelfEdit(const SourceSet& sources, const EntrySet& entries);

  // Gives the key this value, whether it had one or not: as the cell of a table, one item of a list a line, written as
  // `rows_of` writes it. The last value of a key counts. Throws std::logic_error for a key that the table cannot have.
  void set(EntryIndex entry, std::string_view key, std::string value);
  // Takes the key out; nothing where it is not there.
  void remove(EntryIndex entry, std::string_view key);

  // What the key holds now, as the cell of a table; nullptr where it is not there. Throws as `set` does.
  [[nodiscard]] const std::string* value(EntryIndex entry, std::string_view key) const;
  // Whether anything is to be changed.
  [[nodiscard]] bool changes() const { return !values_.empty(); }

  // The file as edited: read again, it says what it said before and what was asked for, and nothing else. Nothing where
  // it cannot be changed in place, and then `out` says why.
  [[nodiscard]] std::optional<std::string> text(Diagnostics& out) const;

private:
  void change(EntryIndex entry, std::string_view key, std::optional<std::string> value);
  [[nodiscard]] bool says_as_asked(const std::string& text) const;

  const SourceSet& sources_;
  const EntrySet& entries_;
  std::vector<EntryRow> rows_; // as they are now
  NewValues values_;
};

} // namespace coeval
