// report/answers.hpp: how is an answer told, to a person and to a program?
//
// The values are those of the verdicts; nothing is concluded here. Every JSON document starts with "format" and
// "version"; their schemas are in output_schema.hpp. Text follows the style's width and colour.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "chronology/chronology.hpp"
#include "diagnose/render.hpp"
#include "verdicts/verdict.hpp"

namespace coeval {

// What every report needs: the knowledge base for addresses, the sources for places, and the weakest basis that was
// allowed.
struct ReportInput {
  const LinkedKb& kb;
  const SourceSet& sources;
  Basis weakest = Basis::conjectured;
};

// One run or several (of a mould or an accessory) against one issue. With `every_ground`, the proof of each ground is
// printed and not only of those that decide.
struct BelongsReport {
  std::vector<Judgement> answers;
  std::vector<Judgement> instead; // runs of the same accessories that do belong; only for one answer that is a no
  bool every_ground = false;
};
[[nodiscard]] std::string belongs_text(const ReportInput& input, const BelongsReport& report, TextStyle style);
[[nodiscard]] std::string belongs_json(const ReportInput& input, const BelongsReport& report);

struct OutfitSlot {
  std::string slot;
  AccessoryIndex accessory{};
  std::vector<Judgement> runs; // the best first
  [[nodiscard]] bool complete() const { return !runs.empty() && runs.front().verdict <= Verdict::fits; }
};
struct OutfitReport {
  IssueIndex issue{};
  std::vector<OutfitSlot> slots;
};
[[nodiscard]] std::string outfit_text(const ReportInput& input, const OutfitReport& report, TextStyle style);
[[nodiscard]] std::string outfit_json(const ReportInput& input, const OutfitReport& report);

struct HomesReport {
  std::vector<RunIndex> runs;                // one, or all of a mould or accessory
  std::vector<std::vector<Judgement>> homes; // of each run
};
[[nodiscard]] std::string homes_text(const ReportInput& input, const HomesReport& report, TextStyle style);
[[nodiscard]] std::string homes_json(const ReportInput& input, const HomesReport& report);

struct WhyPoint {
  SpanPoint point{};
  std::array<std::pair<std::optional<Day>, std::optional<Day>>, all_bases.size()> by_basis; // earliest and latest
  ProvenBound earliest;
  ProvenBound latest;
};
[[nodiscard]] std::string why_text(const ReportInput& input, const std::vector<WhyPoint>& points, TextStyle style);
[[nodiscard]] std::string why_json(const ReportInput& input, const std::vector<WhyPoint>& points);

[[nodiscard]] std::string list_text(const ReportInput& input, const std::vector<EntryIndex>& entries);
[[nodiscard]] std::string list_json(const ReportInput& input, const std::vector<EntryIndex>& entries);

// What codes of diagnostics mean.
[[nodiscard]] std::string explain_json(std::span<const CatalogueRow> rows);

} // namespace coeval
