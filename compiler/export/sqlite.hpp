// export/sqlite.hpp: the whole knowledge base as one SQLite database.
//
// Private to this room. Opened by whatever reads SQLite 3.37 or newer. The schema tells itself: every table and column
// has its comment in sqlite_schema (`.schema` of the sqlite3 program prints it). In short:
//
//   meta, kinds, bases, verdict_words     what the file is, and the words that it uses
//   entries                               every entry: kind, address, parent, name, file, line
//   figures, issues, runs …               a table for each kind; columns are the keys of the language, '_' for '-'
//   issues_market, moulds_within …        a key that lists several: entry, position, value
//   stated_features, evidence, citations  what is said of features; how strong an entry is, and on which sources
//   spans, bounds                         what lasts; the days that follow, for each end on each basis or stronger
//   points, constraints                   the chronology as difference constraints, x - y <= days, told in sentences
//   verdicts                              each run of each accessory that an issue takes; any other pair is no-place
//   outfit, homes                         views of these, the best first
//   search                                full-text index (FTS5) of names and texts
//
// Addresses are keys, so that a table can be read by itself. PRAGMA user_version is the version of this format;
// it changes when a reader of the old one could be misled. application_id is 0x436f6576, "Coev".
#pragma once

#include <string>

#include "export/export.hpp"
#include "export/graph.hpp"
#include "verdicts/matrix.hpp"

namespace coeval {

inline constexpr std::uint32_t sqlite_application_id = 0x436f6576;
inline constexpr int sqlite_format_version = 1;

// The statements that make the empty tables, views and index, the full-text index last.
[[nodiscard]] std::string sqlite_schema();
[[nodiscard]] std::string sqlite_search_schema(); // that one alone

// `days` is the graph of the chronology, of which the points and constraints are taken. Tables whose rows are those of
// `before` are taken from there; the file is the same, byte for byte, as without. What does not fit together, or was
// made by another version of SQLite, is not believed.
[[nodiscard]] KeptDatabase sqlite_file(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources,
                                       const ExportGraph& days, const std::vector<VerdictRow>& verdicts,
                                       KeptDatabase before = {});

} // namespace coeval
