#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "calendar/duration.hpp"
#include "chronology/statements.hpp"
#include "report/answers.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

Json reason_json(const ReportInput& input, const Reason& reason) {
  Json json{{"statement", reason.statement},
            {"basis", reason.definition ? Json(nullptr) : Json(name(reason.basis))},
            {"sources", reason.sources},
            {"definition", reason.definition}};
  if (reason.place.known()) {
    const SourceFile& file = input.sources[reason.place.file];
    json["file"] = file.path();
    json["line"] = file.position(reason.place.begin).line;
  }
  return json;
}

Json short_list(const ReportInput& input, const std::vector<Judgement>& list) {
  Json json = Json::array();
  for (const Judgement& judgement : list) json.push_back(short_judgement(input, judgement));
  return json;
}

} // namespace

Json reasons_json(const ReportInput& input, const std::vector<Reason>& reasons) {
  Json list = Json::array();
  for (const Reason& reason : reasons) list.push_back(reason_json(input, reason));
  return list;
}

Json document(std::string_view format, const ReportInput& input) {
  return {
      {"format", std::string{"coeval-"} + std::string{format}}, {"version", 1}, {"weakest-basis", name(input.weakest)}};
}

// Text may hold any bytes that TOML allowed; what is not UTF-8 cannot get here, but nothing is trusted to be so.
Json day_or_null(const std::optional<Day>& day) { return day ? Json(iso(*day)) : Json(nullptr); }
Json basis_or_null(const std::optional<Basis>& basis) { return basis ? Json(name(*basis)) : Json(nullptr); }
Json text_or_null(std::string_view text) { return text.empty() ? Json(nullptr) : Json(text); }

std::string written(const Json& json) { return json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

Json short_judgement(const ReportInput& input, const Judgement& judgement) {
  Json json{{"run", input.kb.runs[at(judgement.run)].address},
            {"issue", input.kb.issues[at(judgement.issue)].address},
            {"verdict", name(judgement.verdict)},
            {"basis", basis_or_null(judgement.basis)}};
  json["gap-days"] = judgement.gap ? Json(*judgement.gap) : Json(nullptr);
  json["gap"] = judgement.gap ? Json(gap_words(judgement)) : Json(nullptr);
  return json;
}

Json full_judgement(const ReportInput& input, const Judgement& judgement) {
  Json json = short_judgement(input, judgement);
  Json grounds = Json::object();
  for (const Ground ground : {Ground::place, Ground::time, Ground::route, Ground::record}) {
    const GroundAnswer& answer = judgement.ground(ground);
    grounds[std::string{name(ground)}] = {{"answer", name(answer.answer)},
                                          {"basis", basis_or_null(answer.basis)},
                                          {"words", answer.words},
                                          {"proof", reasons_json(input, answer.proof)}};
  }
  json["grounds"] = std::move(grounds);
  json["would-settle"] = judgement.would_settle;
  return json;
}

std::string belongs_json(const ReportInput& input, const BelongsReport& report) {
  Json json = document("belongs", input);
  json["answers"] = Json::array();
  for (const Judgement& judgement : report.answers) json["answers"].push_back(full_judgement(input, judgement));
  json["instead"] = short_list(input, report.instead);
  return written(json);
}

std::string outfit_json(const ReportInput& input, const OutfitReport& report) {
  Json json = document("outfit", input);
  json["issue"] = input.kb.issues[at(report.issue)].address;
  json["slots"] = Json::array();
  bool complete = !report.slots.empty() || input.kb.issues[at(report.issue)].bare;
  for (const OutfitSlot& slot : report.slots) {
    complete = complete && slot.complete();
    json["slots"].push_back({{"slot", slot.slot},
                             {"accessory", input.kb.accessories[at(slot.accessory)].id},
                             {"complete", slot.complete()},
                             {"runs", short_list(input, slot.runs)}});
  }
  json["complete"] = complete;
  return written(json);
}

std::string homes_json(const ReportInput& input, const HomesReport& report) {
  Json json = document("homes", input);
  json["runs"] = Json::array();
  for (std::size_t i = 0; i < report.runs.size(); ++i)
    json["runs"].push_back(
        {{"run", input.kb.runs[at(report.runs[i])].address}, {"homes", short_list(input, report.homes[i])}});
  return written(json);
}

std::string why_json(const ReportInput& input, const std::vector<WhyPoint>& points) {
  Json json = document("why", input);
  json["points"] = Json::array();
  const auto side = [&](const ProvenBound& bound) {
    return Json{{"day", day_or_null(bound.day)},
                {"basis", basis_or_null(bound.basis)},
                {"proof", reasons_json(input, bound.proof)}};
  };
  for (const WhyPoint& why : points) {
    Json bounds = Json::array();
    for (const Basis basis : all_bases) {
      if (basis > input.weakest) break;
      const auto& [earliest, latest] = why.by_basis[static_cast<std::size_t>(basis)];
      bounds.push_back({{"basis", name(basis)}, {"earliest", day_or_null(earliest)}, {"latest", day_or_null(latest)}});
    }
    json["points"].push_back({{"point", fmt::format("{}.{}", input.kb.spans[at(why.point.span)].address,
                                                    why.point.end == SpanEnd::start ? "start" : "end")},
                              {"happened", happened(input.kb, why.point)},
                              {"bounds", std::move(bounds)},
                              {"earliest", side(why.earliest)},
                              {"latest", side(why.latest)}});
  }
  return written(json);
}

std::string list_json(const ReportInput& input, const std::vector<EntryIndex>& entries) {
  Json json{{"format", "coeval-list"}, {"version", 1}};
  json["entries"] = Json::array();
  for (const EntryIndex index : entries) {
    const Entry& entry = input.kb.entries[index];
    const SourceFile& file = input.sources[entry.place.file];
    json["entries"].push_back({{"kind", spec_of(entry.kind).name},
                               {"address", input.kb.address(index)},
                               {"name", entry_name(entry)},
                               {"file", file.path()},
                               {"line", file.position(entry.place.begin).line}});
  }
  return written(json);
}

std::string explain_json(std::span<const CatalogueRow> rows) {
  Json json{{"format", "coeval-explain"}, {"version", 1}};
  json["codes"] = Json::array();
  for (const CatalogueRow& row : rows)
    json["codes"].push_back({{"code", row.name},
                             {"severity", name(row.severity)},
                             {"title", row.title},
                             {"why", row.why},
                             {"example", row.example},
                             {"repair", row.repair}});
  return written(json);
}

} // namespace coeval
