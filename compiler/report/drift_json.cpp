#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "drift/telling.hpp"
#include "report/drift.hpp"
#include "report/drift_parts.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

Json side_json(const DriftSide& side) {
  return {{"name", side.name}, {"commit", text_or_null(side.commit)}, {"day", text_or_null(side.day)}};
}

Json edit_json(const DriftReport& report, const Edit& edit) {
  const SourceSet& sources = sources_of(report, edit);
  const SourceFile& file = sources[edit.place.file];
  return {{"edit", name(edit.kind)},
          {"kind", spec_of(edit.table).name},
          {"address", edit.address},
          {"key", text_or_null(edit.key)},
          {"was", text_or_null(edit.was)},
          {"is", text_or_null(edit.is)},
          {"basis", basis_or_null(edit.basis)},
          {"sources", edit.citations},
          {"version", edit.after == no_entry ? "from" : "to"},
          {"file", file.path()},
          {"line", file.position(edit.place.begin).line}};
}

Json verdict_json(const VerdictAnswer& answer) {
  return {{"verdict", name(answer.verdict)},
          {"basis", basis_or_null(answer.basis)},
          {"gap-days", answer.gap ? Json(*answer.gap) : Json(nullptr)}};
}
Json bound_json(const BoundAnswer& answer) {
  return {{"day", day_or_null(answer.day)}, {"basis", basis_or_null(answer.basis)}};
}
Json claim_json(const ClaimState& answer) {
  return {{"standing", name(answer.standing)}, {"evidence", name(answer.evidence)}};
}

Json cause_json(const CausedChanges& group) {
  Json edits = Json::array();
  for (const EditIndex edit : group.cause.edits) edits.push_back(static_cast<std::uint32_t>(edit));
  Json verdicts = Json::array();
  for (const ChangedVerdict& change : group.changes.verdicts)
    verdicts.push_back({{"run", change.question.run},
                        {"issue", change.question.issue},
                        {"from", verdict_json(change.before)},
                        {"to", verdict_json(change.after)}});
  Json bounds = Json::array();
  for (const BoundChange& change : group.changes.bounds)
    bounds.push_back({{"point", change.question.span + (change.question.end == SpanEnd::start ? ".start" : ".end")},
                      {"side", change.question.side == Side::earliest ? "earliest" : "latest"},
                      {"from", bound_json(change.before)},
                      {"to", bound_json(change.after)}});
  Json claims = Json::array();
  for (const ClaimChange& change : group.changes.claims)
    claims.push_back(
        {{"claim", change.question.claim}, {"from", claim_json(change.before)}, {"to", claim_json(change.after)}});
  return {{"edits", std::move(edits)},
          {"certainty", name(group.cause.certainty)},
          {"verdicts", std::move(verdicts)},
          {"bounds", std::move(bounds)},
          {"claims", std::move(claims)}};
}

Json pieces_json(const std::vector<LonePiece>& pieces) {
  Json list = Json::array();
  for (const LonePiece& piece : pieces) {
    Json verdicts = Json::object();
    for (std::size_t i = 0; i < verdict_count; ++i)
      verdicts[std::string{name(Verdict{static_cast<std::uint8_t>(i)})}] = piece.verdicts[i];
    list.push_back({{"kind", spec_of(piece.kind).name}, {"address", piece.address}, {"verdicts", std::move(verdicts)}});
  }
  return list;
}

} // namespace

std::string drift_json(const DriftReport& report) {
  const Drift& drift = report.drift;
  const DriftSide& to = report.to;
  Json json = document("drift", {to.version.kb, to.version.sources, report.weakest});
  json["from"] = side_json(report.from);
  json["to"] = side_json(to);
  json["answers-compared"] = drift.answers_compared;
  json["verdicts-compared"] = drift.verdicts_compared;
  json["edits"] = Json::array();
  for (const Edit& edit : drift.edits) json["edits"].push_back(edit_json(report, edit));
  json["causes"] = Json::array();
  for (const CausedChanges& group : drift.causes) json["causes"].push_back(cause_json(group));
  json["new"] = pieces_json(drift.arrived);
  json["gone"] = pieces_json(drift.gone);
  json["contradictions"] = Json::array();
  for (const ContradictionChange& change : drift.contradictions) {
    const Version& version = change.came ? to.version : report.from.version;
    Json statements = Json::array();
    for (const Reason& reason : change.reasons) {
      Json statement = reasons_json({version.kb, version.sources, report.weakest}, {reason}).front();
      statement["weakest"] = reason.weakest;
      statements.push_back(std::move(statement));
    }
    json["contradictions"].push_back(
        {{"change", change.came ? "came" : "gone"}, {"statements", std::move(statements)}});
  }
  json["perhaps-renamed"] = Json::array();
  for (const Rename& rename : drift.renames)
    json["perhaps-renamed"].push_back({{"kind", spec_of(rename.kind).name}, {"from", rename.from}, {"to", rename.to}});
  return written(json);
}

} // namespace coeval
