#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/claims.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

Json bounds(const DayBounds& bounds) {
  return {{"earliest", day_or_null(bounds.earliest)}, {"latest", day_or_null(bounds.latest)}};
}

} // namespace

std::string claims_json(const ReportInput& input, const ClaimsReport& report) {
  const LinkedKb& kb = input.kb;
  Json json = document("claims", input);
  json["claims"] = Json::array();
  for (const ClaimReport& one : report.claims) {
    const Claim& claim = kb.claims[at(one.claim)];
    const Entry& entry = kb.entries[claim.entry];
    Json stated = Json::array();
    for (const ClaimReport::Stated& statement : one.stated)
      stated.push_back({{"states", statement.words},
                        {"evidence", name(statement.finding.answer)},
                        {"basis", basis_or_null(statement.finding.basis)},
                        {"proof", reasons_json(input, statement.finding.proof)}});
    json["claims"].push_back({{"claim", kb.address(claim.entry)},
                              {"name", entry.text("name")},
                              {"says", entry.text("says")},
                              {"standing", entry.text("standing")},
                              {"evidence", one.stated.empty() ? "not stated" : name(one.answer)},
                              {"basis", basis_or_null(one.basis)},
                              {"stated", std::move(stated)}});
  }
  return written(json);
}

std::string disputes_json(const ReportInput& input, const DisputesReport& report) {
  const LinkedKb& kb = input.kb;
  Json json = document("disputes", input);
  json["disputes"] = Json::array();
  for (const Dispute& dispute : report.disputes) {
    Json conflicts = Json::array();
    for (const DisputeConflict& conflict : dispute.conflicts) {
      Json set_aside = nullptr;
      for (std::size_t i = 0; i < conflict.statements.size(); ++i)
        if (conflict.statements[i].weakest && set_aside.is_null()) set_aside = i;
      conflicts.push_back(
          {{"statements", reasons_json(input, conflict.statements)}, {"set-aside", std::move(set_aside)}});
    }
    Json verdicts = Json::array();
    for (const VerdictChange& change : dispute.verdicts)
      verdicts.push_back({{"run", kb.runs[at(change.run)].address},
                          {"issue", kb.issues[at(change.issue)].address},
                          {"before", name(change.before)},
                          {"after", name(change.after)}});
    Json changed = Json::array();
    for (const BoundsChange& change : dispute.bounds)
      changed.push_back({{"point", fmt::format("{}.{}", kb.spans[at(change.end.span)].address,
                                               change.end.end == SpanEnd::start ? "start" : "end")},
                         {"before", bounds(change.before)},
                         {"after", bounds(change.after)}});
    json["disputes"].push_back({{"statement", reasons_json(input, {dispute.says}).front()},
                                {"cannot-be-right", dispute.hopeless},
                                {"contradicts", std::move(conflicts)},
                                {"verdicts", std::move(verdicts)},
                                {"bounds", std::move(changed)}});
  }
  return written(json);
}

} // namespace coeval
