// export/export.hpp: what does the knowledge base hold, as files for other programs?
//
// sqlite    one database of all of it: sqlite.hpp
// json      each entry with its fields, place, evidence and days: kb_json.hpp; `import` reads it
// csv       a table for each kind of entry that the knowledge base holds, and one of the verdicts
// graphml   entries and what they refer to, or the chronology, as a graph: graph.hpp
// dot       the same, to be drawn by Graphviz
// json-ld   linked data in the terms of schema.org and CIDOC CRM: kb_json_ld.hpp
//
// The site offers these as data/kb.json, data/verdicts.csv … (`exported_files`). Same knowledge base, same bytes. The
// entries as they were written lie beside these as TOML; publishing them is not this room's work.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "chronology/chronology.hpp"
#include "export/graph.hpp"

namespace coeval {

enum class ExportAs : std::uint8_t { sqlite, json, csv, graphml, dot, json_ld };
inline constexpr std::size_t export_kinds = 6;
[[nodiscard]] std::string_view name(ExportAs as);

// What a file of this name is expected to be; nothing where its ending says nothing.
[[nodiscard]] std::optional<ExportAs> export_kind_of(std::string_view path);

// Does a file that begins so come from an earlier export of this kind? 100 bytes are enough to tell.
[[nodiscard]] bool begins_as_export(ExportAs as, std::string_view beginning);
inline constexpr std::size_t export_beginning = 100;

struct ExportInput {
  const LinkedKb& kb; // without errors
  const Chronology& chronology;
  const SourceSet& sources;
  std::string base_url; // of the site, ends in a slash; empty: addresses of linked data are relative to its file
};

// All but csv, which is a folder of files.
[[nodiscard]] std::string export_document(const ExportInput& input, ExportAs as, GraphOf graph);
// JSON Schema 2020-12 of the JSON.
[[nodiscard]] std::string export_json_schema();
// The names of the files of csv and their bytes.
[[nodiscard]] std::vector<std::pair<std::string, std::string>> export_tables(const ExportInput& input);

struct ExportFile {
  std::string path; // from the root of the site
  std::string type; // media type
  std::string holds;
};

// Which files there are on a site, without making them.
[[nodiscard]] std::vector<ExportFile> exported_files(const LinkedKb& kb);

// An SQLite database and, as a text, a hash of what each of its tables holds. Kept from one export to the next, they
// spare filling tables anew: 84 MB of 10,000 runs take 1.6 s of processor time from nothing, and 0.8 s with one figure
// renamed.
inline constexpr std::string_view database_path = "data/kb.sqlite"; // from the root of the site
struct KeptDatabase {
  std::string file;
  std::string portions;
};

// Hands over their paths and bytes one after the other, so that only one is in memory. In two halves that take about as
// long, to be made side by side: what follows from days and verdicts too, and what is only entered.
using ExportSink = std::function<void(const std::string& path, std::string_view bytes)>;
// `kept` is the database of an earlier export, or empty, and then what is told of the new one; its file has gone to the
// sink.
void export_answers(const ExportInput& input, const ExportSink& sink, KeptDatabase& kept);
void export_entries(const ExportInput& input, const ExportSink& sink);

} // namespace coeval
