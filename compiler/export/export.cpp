#include "export/export.hpp"

#include <algorithm>
#include <functional>
#include <stdexcept>

#include <fmt/format.h>

#include "csv/write.hpp"
#include "export/graph_text.hpp"
#include "export/kb_json.hpp"
#include "export/kb_json_ld.hpp"
#include "export/sqlite.hpp"
#include "export/table_names.hpp"
#include "export/values.hpp"

namespace coeval {
namespace {

std::vector<Kind> kinds_held(const LinkedKb& kb) {
  std::vector<Kind> kinds;
  for (const KindSpec& spec : schema())
    if (std::ranges::any_of(kb.entries.entries, [&](const Entry& entry) { return entry.kind == spec.kind; }))
      kinds.push_back(spec.kind);
  return kinds;
}

// Everything entered about a kind, then the days that follow for what lasts, then where it stands.
std::vector<std::string> head_of(const KindSpec& spec) {
  std::vector<std::string> head{"address", "parent"};
  for (const KeySpec& key : spec.keys) head.emplace_back(key.name);
  if (!dates_key(spec.kind).empty())
    for (const std::string_view end : {"start", "end"})
      for (const std::string_view side : {"earliest", "latest"}) head.push_back(fmt::format("{}-{}", end, side));
  head.insert(head.end(), {"file", "line"});
  return head;
}

std::string table_of(const LinkedKb& kb, const Chronology& chronology, const SourceSet& sources, Kind kind) {
  const KindSpec& spec = spec_of(kind);
  std::vector<std::optional<TimeSpanIndex>> span_of(kb.entries.entries.size());
  for (std::size_t i = 0; i < kb.spans.size(); ++i)
    span_of[at(kb.spans[i].entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};
  std::string table = csv_row(head_of(spec));
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i) {
    const Entry& entry = kb.entries.entries[i];
    if (entry.kind != kind) continue;
    std::vector<std::string> row;
    row.emplace_back(kb.address(EntryIndex{static_cast<std::uint32_t>(i)}));
    row.emplace_back(entry.parent == no_entry ? std::string_view{} : kb.address(entry.parent));
    for (const KeySpec& key : spec.keys) {
      const Field* field = entry.find(key.name);
      row.push_back(field == nullptr ? std::string{} : value_text(sources, *field));
    }
    if (!dates_key(kind).empty())
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end}) {
        DayBounds known;
        if (span_of[i]) known = chronology.bounds(point_of({*span_of[i], end}), Basis::conjectured);
        row.push_back(known.earliest ? iso(*known.earliest) : std::string{});
        row.push_back(known.latest ? iso(*known.latest) : std::string{});
      }
    if (entry.place.known()) {
      const SourceFile& file = sources[entry.place.file];
      row.insert(row.end(), {file.path(), std::to_string(file.position(entry.place.begin).line)});
    } else {
      row.insert(row.end(), {"", ""});
    }
    table += csv_row(row);
  }
  return table;
}

std::string verdicts_table(const LinkedKb& kb, const std::vector<VerdictRow>& verdicts) {
  std::string table = csv_row({"issue", "slot", "run", "verdict", "basis", "gap-days", "gap"});
  for (const VerdictRow& row : verdicts) {
    const Issue& issue = kb.issues[at(row.issue)];
    table +=
        csv_row({std::string{issue.address}, issue.takes[row.taken].slot, std::string{kb.runs[at(row.run)].address},
                 std::string{name(row.verdict)}, row.basis ? std::string{name(*row.basis)} : std::string{},
                 row.gap ? std::to_string(*row.gap) : std::string{}, gap_words(row)});
  }
  return table;
}

ExportGraph graph_of(const ExportInput& input, GraphOf graph) {
  return graph == GraphOf::links ? graph_of_links(input.kb, input.sources)
                                 : graph_of_chronology(input.kb, input.chronology, input.sources);
}

// SQLite's header (https://www.sqlite.org/fileformat2.html#the_database_header): its name, and at byte 68 whose it is.
bool begins_as_our_database(std::string_view beginning) {
  constexpr std::string_view magic{"SQLite format 3\0", 16};
  constexpr std::size_t id_at = 68;
  if (!beginning.starts_with(magic) || beginning.size() < id_at + 4) return false;
  std::uint32_t id = 0;
  for (const char c : beginning.substr(id_at, 4)) id = id << 8U | static_cast<unsigned char>(c);
  return id == sqlite_application_id;
}

} // namespace

std::string_view name(ExportAs as) {
  switch (as) {
  case ExportAs::sqlite:
    return "sqlite";
  case ExportAs::json:
    return "json";
  case ExportAs::csv:
    return "csv";
  case ExportAs::graphml:
    return "graphml";
  case ExportAs::dot:
    return "dot";
  case ExportAs::json_ld:
    return "json-ld";
  }
  return {};
}

std::optional<ExportAs> export_kind_of(std::string_view path) {
  const std::string_view file = path.substr(path.rfind('/') + 1);
  const std::size_t dot = file.rfind('.');
  if (dot == std::string_view::npos || dot == 0) return ExportAs::csv; // a folder, as far as its name tells
  const std::string_view ending = file.substr(dot + 1);
  if (ending == "sqlite" || ending == "sqlite3" || ending == "db") return ExportAs::sqlite;
  if (ending == "json") return ExportAs::json;
  if (ending == "graphml") return ExportAs::graphml;
  if (ending == "dot" || ending == "gv") return ExportAs::dot;
  if (ending == "jsonld") return ExportAs::json_ld;
  return {};
}

bool begins_as_export(ExportAs as, std::string_view beginning) {
  switch (as) {
  case ExportAs::sqlite:
    return begins_as_our_database(beginning);
  case ExportAs::json:
    return beginning.starts_with(kb_json_head);
  case ExportAs::graphml:
    return beginning.starts_with(graphml_head);
  case ExportAs::dot:
    return beginning.starts_with(dot_head);
  case ExportAs::json_ld:
    return beginning.starts_with(kb_json_ld_head);
  case ExportAs::csv:
    return false;
  }
  return false;
}

std::string export_document(const ExportInput& input, ExportAs as, GraphOf graph) {
  switch (as) {
  case ExportAs::sqlite:
    return sqlite_file(input.kb, input.chronology, input.sources, graph_of(input, GraphOf::chronology),
                       verdict_rows(input.kb, input.chronology));
  case ExportAs::json:
    return kb_json(input.kb, input.chronology, input.sources);
  case ExportAs::graphml:
    return graphml(graph_of(input, graph));
  case ExportAs::dot:
    return dot(graph_of(input, graph));
  case ExportAs::json_ld:
    return kb_json_ld(input.kb, input.chronology, input.base_url);
  case ExportAs::csv:
    break;
  }
  throw std::logic_error{"CSV is a folder of tables, no document"};
}

std::vector<std::pair<std::string, std::string>> export_tables(const ExportInput& input) {
  std::vector<std::pair<std::string, std::string>> tables;
  tables.emplace_back("verdicts.csv", verdicts_table(input.kb, verdict_rows(input.kb, input.chronology)));
  for (const Kind kind : kinds_held(input.kb))
    tables.emplace_back(table_name(kind) + ".csv", table_of(input.kb, input.chronology, input.sources, kind));
  return tables;
}

std::vector<ExportFile> exported_files(const LinkedKb& kb) {
  std::vector<ExportFile> files{
      {"data/kb.json", "application/json", "everything: each entry with its fields, place, evidence and days"},
      {"data/kb.sqlite", "application/vnd.sqlite3",
       "everything as tables with keys, the verdicts, and full-text search"},
      {std::string{kb_json_ld_path}, "application/ld+json", "linked data, in the terms of schema.org and CIDOC CRM"},
      {"data/links.graphml", "application/xml", "the entries and what each refers to, as GraphML"},
      {"data/chronology.graphml", "application/xml", "first and last days, and what holds them apart, as GraphML"},
      {"data/verdicts.csv", "text/csv", "each run of each accessory that an issue takes, with the verdict"}};
  for (const Kind kind : kinds_held(kb))
    files.push_back({"data/" + table_name(kind) + ".csv", "text/csv", std::string{spec_of(kind).doc}});
  return files;
}

void export_answers(const ExportInput& input, const ExportSink& sink) {
  const std::vector<VerdictRow> verdicts = verdict_rows(input.kb, input.chronology);
  const ExportGraph days = graph_of(input, GraphOf::chronology);
  sink("data/kb.sqlite", sqlite_file(input.kb, input.chronology, input.sources, days, verdicts));
  sink("data/chronology.graphml", graphml(days));
  sink("data/verdicts.csv", verdicts_table(input.kb, verdicts));
}

void export_entries(const ExportInput& input, const ExportSink& sink) {
  sink("data/kb.json", kb_json(input.kb, input.chronology, input.sources));
  sink(std::string{kb_json_ld_path}, kb_json_ld(input.kb, input.chronology, input.base_url));
  sink("data/links.graphml", graphml(graph_of(input, GraphOf::links)));
  for (const Kind kind : kinds_held(input.kb))
    sink("data/" + table_name(kind) + ".csv", table_of(input.kb, input.chronology, input.sources, kind));
}

} // namespace coeval
