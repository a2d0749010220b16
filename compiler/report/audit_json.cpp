#include "report/audit.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

template <class Name> Json name_or_null(const std::optional<Name>& value) {
  return value ? Json(name(*value)) : Json(nullptr);
}

Json addresses_json(const LinkedKb& kb, const std::vector<PartIdentity>& could_be) {
  Json list = Json::array();
  for (const PartIdentity& identity : could_be) list.push_back(address_of(kb, identity));
  return list;
}

Json slots_json(const ReportInput& input, const AuditReport& report, const PieceAudit& audit) {
  Json list = Json::array();
  if (audit.slots.empty()) return list;
  const std::vector<IssueSlot> slots = slots_of(input.kb.issues[at(*report.shelf[audit.piece].issue)]);
  for (std::size_t i = 0; i < audit.slots.size(); ++i) {
    const SlotAudit& slot = audit.slots[i];
    Json json{{"slot", slots[i].name}, {"state", name(slot.state)}};
    json["accessories"] = Json::array();
    for (const AccessoryIndex accessory : slots[i].accessories)
      json["accessories"].push_back(input.kb.accessories[at(accessory)].id);
    json["part"] = slot.part ? Json(report.shelf[*slot.part].id) : Json(nullptr);
    const bool judged = slot.fit != nullptr && !slot.fit->judgements.empty();
    json["fit"] = slot.fit == nullptr ? Json(nullptr) : Json(name(slot.fit->state));
    json["verdict"] = judged ? Json(name(slot.fit->verdict)) : Json(nullptr);
    json["basis"] = judged ? name_or_null(slot.fit->basis) : Json(nullptr);
    json["could-be"] =
        slot.part ? addresses_json(input.kb, report.judge.could_be(report.judge.kind(*slot.part))) : Json::array();
    json["judgements"] = Json::array();
    if (slot.fit != nullptr)
      for (const Judgement* judgement : slot.fit->judgements)
        json["judgements"].push_back(short_judgement(input, *judgement));
    list.push_back(std::move(json));
  }
  return list;
}

Json findings_json(const ReportInput& input, const AuditReport& report, const PieceAudit& piece,
                   const std::vector<Finding>& findings) {
  Json list = Json::array();
  const auto slot_name = [&](const Finding& finding) {
    if (!finding.slot) return Json(nullptr);
    return Json(slots_of(input.kb.issues[at(*report.shelf[piece.piece].issue)])[*finding.slot].name);
  };
  for (const Finding& finding : findings)
    list.push_back({{"trouble", name(finding.trouble)},
                    {"wrong", is_wrong(finding.trouble)},
                    {"part", finding.part ? Json(report.shelf[*finding.part].id) : Json(nullptr)},
                    {"slot", slot_name(finding)},
                    {"words", finding_reason(input, report, piece, finding)}});
  return list;
}

Json piece_json(const ReportInput& input, const AuditReport& report, const PieceAudit& audit) {
  const OwnedPiece& piece = report.shelf[audit.piece];
  Json json{{"piece", piece.id}};
  json["issue"] = piece.issue ? Json(input.kb.issues[at(*piece.issue)].address) : Json(nullptr);
  json["figure"] = piece.figure ? Json(input.kb.figures[at(*piece.figure)].id) : Json(nullptr);
  json["priority"] = piece.priority;
  json["complete"] = audit.complete();
  json["findings"] = findings_json(input, report, audit, audit.findings);
  json["slots"] = slots_json(input, report, audit);
  json["possible-issues"] = Json::array();
  for (const PossibleIssue& possible : audit.possible)
    json["possible-issues"].push_back({{"issue", input.kb.issues[at(possible.issue)].address},
                                       {"right", possible.right},
                                       {"open", possible.open},
                                       {"wrong", possible.wrong}});
  return json;
}

Json loose_json(const ReportInput& input, const AuditReport& report, const LooseAudit& loose) {
  Json json{{"part", report.shelf[loose.part].id}, {"can-be", name(loose.can_be)}};
  json["could-be"] = addresses_json(input.kb, report.judge.could_be(report.judge.kind(loose.part)));
  json["findings"] = findings_json(input, report, {}, loose.findings);
  json["takers"] = loose.takers;
  json["helped"] = loose.helped;
  json["best"] = nullptr;
  if (loose.best) {
    const OwnedPiece& piece = report.shelf[loose.best->piece];
    json["best"] = {{"piece", piece.id},
                    {"slot", slots_of(input.kb.issues[at(*piece.issue)])[loose.best->slot].name},
                    {"verdict", name(loose.best->fit->verdict)},
                    {"basis", name_or_null(loose.best->fit->basis)}};
  }
  return json;
}

} // namespace

std::string audit_json(const ReportInput& input, const AuditReport& report) {
  const Audit& audit = report.audit;
  Json json = document("audit", input);
  json["shelf"] = report.shelf.name;
  json["slots"] = Json::object();
  for (std::size_t i = 0; i < slot_state_count; ++i) {
    const SlotState state{static_cast<std::uint8_t>(i)};
    json["slots"][std::string{name(state)}] = audit.count(state);
  }
  json["pieces"] = Json::array();
  for (const PieceAudit& piece : audit.pieces) json["pieces"].push_back(piece_json(input, report, piece));
  json["offered"] = Json::array();
  for (const PieceAudit& piece : audit.offered) json["offered"].push_back(piece_json(input, report, piece));
  json["loose"] = Json::array();
  for (const LooseAudit& loose : audit.loose) json["loose"].push_back(loose_json(input, report, loose));
  json["parcels"] = Json::array();
  for (const ParcelAudit& parcel : audit.parcels) {
    Json told{{"purchase", report.shelf[parcel.purchase].id},
              {"state", name(parcel.state)},
              {"since", iso(parcel.since)},
              {"unexamined", parcel.unexamined}};
    told["days"] = report.today ? Json(*report.today - parcel.since) : Json(nullptr);
    json["parcels"].push_back(std::move(told));
  }
  return written(json);
}

} // namespace coeval
