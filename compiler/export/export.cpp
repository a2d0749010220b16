#include "export/export.hpp"

#include <array>
#include <functional>
#include <stdexcept>
#include <utility>

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

// The entries of each kind, in their order.
using EntriesOfKinds = std::array<std::vector<EntryIndex>, kind_count>;

EntriesOfKinds by_kind(const LinkedKb& kb) {
  EntriesOfKinds entries;
  for (std::size_t i = 0; i < kb.entries.entries.size(); ++i)
    entries[static_cast<std::size_t>(kb.entries.entries[i].kind)].push_back(EntryIndex{static_cast<std::uint32_t>(i)});
  return entries;
}

std::vector<Kind> kinds_held(const EntriesOfKinds& entries) {
  std::vector<Kind> kinds;
  for (const KindSpec& spec : schema())
    if (!entries[static_cast<std::size_t>(spec.kind)].empty()) kinds.push_back(spec.kind);
  return kinds;
}

// A table on its way, cell by cell.
class TableText {
public:
  void cell(std::string_view value) {
    if (!first_) text_ += ',';
    first_ = false;
    add_csv_cell(text_, value);
  }
  void number(std::int64_t value) { cell(fmt::format_int{value}.c_str()); }
  void day(const std::optional<Day>& day) { cell(day ? iso(*day) : std::string{}); }
  void end_row() {
    text_ += "\r\n";
    first_ = true;
  }
  [[nodiscard]] std::string finished() && { return std::move(text_); }

private:
  std::string text_;
  bool first_ = true; // in its row
};

// Everything entered about a kind, then the days that follow for what lasts, then where it stands.
void write_head(const KindSpec& spec, TableText& table) {
  table.cell("address");
  table.cell("parent");
  for (const KeySpec& key : spec.keys) table.cell(key.name);
  if (!dates_key(spec.kind).empty())
    for (const std::string_view end : {"start", "end"})
      for (const std::string_view side : {"earliest", "latest"}) table.cell(fmt::format("{}-{}", end, side));
  table.cell("file");
  table.cell("line");
  table.end_row();
}

// A table for each kind of entry that there is.
class KindTables {
public:
  explicit KindTables(const ExportInput& input)
      : input_(input), kb_(input.kb), entries_(by_kind(kb_)), span_of_(kb_.entries.entries.size()) {
    for (std::size_t i = 0; i < kb_.spans.size(); ++i)
      span_of_[at(kb_.spans[i].entry)] = TimeSpanIndex{static_cast<std::uint32_t>(i)};
  }

  [[nodiscard]] std::vector<Kind> kinds() const { return kinds_held(entries_); }
  [[nodiscard]] std::string table(Kind kind) const {
    const KindSpec& spec = spec_of(kind);
    TableText table;
    write_head(spec, table);
    for (const EntryIndex index : entries_[static_cast<std::size_t>(kind)]) {
      write_row(spec, index, table);
      table.end_row();
    }
    return std::move(table).finished();
  }

private:
  void write_row(const KindSpec& spec, EntryIndex index, TableText& table) const {
    const Entry& entry = kb_.entries[index];
    table.cell(kb_.address(index));
    table.cell(entry.parent == no_entry ? std::string_view{} : kb_.address(entry.parent));
    std::string room;
    for (const KeySpec& key : spec.keys) {
      const Field* field = field_of(entry, key);
      table.cell(field == nullptr ? std::string_view{} : value_text(input_.sources, *field, room));
    }
    if (!dates_key(spec.kind).empty())
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end}) {
        DayBounds known;
        if (const auto span = span_of_[at(index)])
          known = input_.chronology.bounds(point_of({*span, end}), Basis::conjectured);
        table.day(known.earliest);
        table.day(known.latest);
      }
    if (entry.place.known()) {
      const SourceFile& file = input_.sources[entry.place.file];
      table.cell(file.path());
      table.number(file.position(entry.place.begin).line);
    } else {
      table.cell({});
      table.cell({});
    }
  }

  const ExportInput& input_;
  const LinkedKb& kb_;
  EntriesOfKinds entries_;
  std::vector<std::optional<TimeSpanIndex>> span_of_;
};

std::string verdicts_table(const LinkedKb& kb, const std::vector<VerdictRow>& verdicts) {
  TableText table;
  for (const std::string_view column : {"issue", "slot", "run", "verdict", "basis", "gap-days", "gap"})
    table.cell(column);
  table.end_row();
  for (const VerdictRow& row : verdicts) {
    const Issue& issue = kb.issues[at(row.issue)];
    table.cell(issue.address);
    table.cell(issue.takes[row.taken].slot);
    table.cell(kb.runs[at(row.run)].address);
    table.cell(name(row.verdict));
    table.cell(row.basis ? name(*row.basis) : std::string_view{});
    row.gap != 0 ? table.number(row.gap) : table.cell({});
    table.cell(gap_words(row));
    table.end_row();
  }
  return std::move(table).finished();
}

ExportGraph graph_of(const ExportInput& input, GraphOf graph) {
  return graph == GraphOf::links ? graph_of_links(input.kb, input.sources, ReferenceTable{input.kb})
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
  std::string text;
  switch (as) {
  case ExportAs::sqlite:
    return sqlite_file(input.kb, input.chronology, input.sources, graph_of(input, GraphOf::chronology),
                       verdict_rows(input.kb, input.chronology))
        .file;
  case ExportAs::json:
    write_kb_json(input.kb, input.chronology, input.sources, text);
    return text;
  case ExportAs::graphml:
    write_graphml(graph_of(input, graph), text);
    return text;
  case ExportAs::dot:
    return dot(graph_of(input, graph));
  case ExportAs::json_ld:
    write_kb_json_ld(input.kb, input.chronology, ReferenceTable{input.kb}, input.base_url, text);
    return text;
  case ExportAs::csv:
    break;
  }
  throw std::logic_error{"CSV is a folder of tables, no document"};
}

std::vector<std::pair<std::string, std::string>> export_tables(const ExportInput& input) {
  std::vector<std::pair<std::string, std::string>> tables;
  tables.emplace_back("verdicts.csv", verdicts_table(input.kb, verdict_rows(input.kb, input.chronology)));
  const KindTables of_kinds{input};
  for (const Kind kind : of_kinds.kinds()) tables.emplace_back(table_name(kind) + ".csv", of_kinds.table(kind));
  return tables;
}

std::vector<ExportFile> exported_files(const LinkedKb& kb) {
  std::vector<ExportFile> files{
      {"data/kb.json", "application/json", "everything: each entry with its fields, place, evidence and days"},
      {std::string{database_path}, "application/vnd.sqlite3",
       "everything as tables with keys, the verdicts, and full-text search"},
      {std::string{kb_json_ld_path}, "application/ld+json", "linked data, in the terms of schema.org and CIDOC CRM"},
      {"data/links.graphml", "application/xml", "the entries and what each refers to, as GraphML"},
      {"data/chronology.graphml", "application/xml", "first and last days, and what holds them apart, as GraphML"},
      {"data/verdicts.csv", "text/csv", "each run of each accessory that an issue takes, with the verdict"}};
  for (const Kind kind : kinds_held(by_kind(kb)))
    files.push_back({"data/" + table_name(kind) + ".csv", "text/csv", std::string{spec_of(kind).doc}});
  return files;
}

void export_answers(const ExportInput& input, const ExportSink& sink, KeptDatabase& kept) {
  const std::vector<VerdictRow> verdicts = verdict_rows(input.kb, input.chronology);
  const ExportGraph days = graph_of(input, GraphOf::chronology);
  kept = sqlite_file(input.kb, input.chronology, input.sources, days, verdicts, std::move(kept));
  sink(std::string{database_path}, kept.file);
  std::string text = std::move(kept.file); // one room after the other for all
  kept.file = {};
  text.clear();
  write_graphml(days, text);
  sink("data/chronology.graphml", text);
  sink("data/verdicts.csv", verdicts_table(input.kb, verdicts));
}

void export_entries(const ExportInput& input, const ExportSink& sink) {
  std::string text; // one room after the other for all
  write_kb_json(input.kb, input.chronology, input.sources, text);
  sink("data/kb.json", text);
  {
    const ReferenceTable references{input.kb};
    text.clear();
    write_kb_json_ld(input.kb, input.chronology, references, input.base_url, text);
    sink(std::string{kb_json_ld_path}, text);
    text.clear();
    write_graphml(graph_of_links(input.kb, input.sources, references), text);
    sink("data/links.graphml", text);
  }
  const KindTables of_kinds{input};
  for (const Kind kind : of_kinds.kinds()) sink("data/" + table_name(kind) + ".csv", of_kinds.table(kind));
}

} // namespace coeval
