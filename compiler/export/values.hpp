// export/values.hpp: how is a value of an entry written in a table and in JSON?
//
// Private to this room.
#pragma once

#include "export/json_text.hpp"
#include "links/kb.hpp"

namespace coeval {

// Dates and durations as they were written: "1976-08/1978", "P9M"; lists parted by "; ". Where the value is not a text
// already, it is made in `room`, which must last as long as the view.
[[nodiscard]] std::string_view value_text(const SourceSet& sources, const Field& field, std::string& room);
// Lists as lists, numbers as numbers; dates as they were written, with the days that they allow.
void write_value(const SourceSet& sources, const Field& field, JsonText& json);
void write_atom(const FeatureAtom& atom, JsonText& json);
// ISO 8601, or null.
void write_day(const std::optional<Day>& day, JsonText& json);

// The value of a key of the entry's own kind. Keys are told apart by where they stand in the schema, not by their
// names.
[[nodiscard]] inline const Field* field_of(const Entry& entry, const KeySpec& key) {
  for (const Field& field : entry.fields)
    if (field.spec == &key) return &field;
  return nullptr;
}

} // namespace coeval
