#include "export/export.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "csv/write.hpp"
#include "export/kb_json.hpp"
#include "export/values.hpp"
#include "verdicts/judge.hpp"

namespace coeval {
namespace {

// The name of the table of a kind.
std::string table_name(Kind kind) {
  switch (kind) {
  case Kind::takes:
    return "takes";
  case Kind::accessory:
    return "accessories";
  case Kind::feature_value:
    return "feature-values";
  case Kind::claimed_pairing:
    return "claimed-pairings";
  case Kind::claimed_timing:
    return "claimed-timings";
  default:
    return std::string{spec_of(kind).name} + "s";
  }
}

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
    std::vector<std::string> row{kb.addresses[i], entry.parent == no_entry ? std::string{} : kb.address(entry.parent)};
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

std::string verdicts_table(const LinkedKb& kb, const Chronology& chronology) {
  std::string table = csv_row({"issue", "slot", "run", "verdict", "basis", "gap-days", "gap"});
  for (std::size_t i = 0; i < kb.issues.size(); ++i) {
    const Issue& issue = kb.issues[i];
    Judge judge{kb, chronology, Basis::conjectured}; // for one issue, so that no more than its rows are kept
    for (const Takes& takes : issue.takes)
      for (const Judgement& judgement : judge.outfit(IssueIndex{static_cast<std::uint32_t>(i)}, takes))
        table += csv_row({issue.address, takes.slot, kb.runs[at(judgement.run)].address,
                          std::string{name(judgement.verdict)},
                          judgement.basis ? std::string{name(*judgement.basis)} : std::string{},
                          judgement.gap ? std::to_string(*judgement.gap) : std::string{}, gap_words(judgement)});
  }
  return table;
}

} // namespace

std::vector<ExportFile> exported_files(const LinkedKb& kb) {
  std::vector<ExportFile> files{
      {"data/kb.json", "application/json", "everything: each entry with its fields, place, evidence and days"},
      {"data/verdicts.csv", "text/csv", "each run of each accessory that an issue takes, with the verdict"}};
  for (const Kind kind : kinds_held(kb))
    files.push_back({"data/" + table_name(kind) + ".csv", "text/csv", std::string{spec_of(kind).doc}});
  return files;
}

std::vector<std::pair<std::string, std::string>> export_files(const LinkedKb& kb, const Chronology& chronology,
                                                              const SourceSet& sources) {
  std::vector<std::pair<std::string, std::string>> files;
  files.emplace_back("data/kb.json", kb_json(kb, chronology, sources));
  files.emplace_back("data/verdicts.csv", verdicts_table(kb, chronology));
  for (const Kind kind : kinds_held(kb))
    files.emplace_back("data/" + table_name(kind) + ".csv", table_of(kb, chronology, sources, kind));
  return files;
}

} // namespace coeval
