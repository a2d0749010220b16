#include "report/json_parts.hpp"
#include "report/wants.hpp"

namespace coeval {
namespace {

Json runs_json(const LinkedKb& kb, const std::vector<WantedRun>& runs) {
  Json list = Json::array();
  for (const WantedRun& run : runs) {
    Json json{{"run", kb.runs[at(run.run)].address}};
    json["verdict"] = run.judgement == nullptr ? Json(nullptr) : Json(name(run.judgement->verdict));
    json["basis"] =
        run.judgement == nullptr || !run.judgement->basis ? Json(nullptr) : Json(name(*run.judgement->basis));
    json["pairings"] = run.pairings;
    list.push_back(std::move(json));
  }
  return list;
}

Json wanted_json(const LinkedKb& kb, const LinkedShelf& shelf, const Wanted& wanted) {
  const Want* want = wanted.want ? &shelf.wants[*wanted.want] : nullptr;
  const auto issue = want == nullptr ? std::optional{wanted.issue} : want->issue;
  const auto address = [](const auto& list, const auto& index, auto member) {
    return index ? Json(list[at(*index)].*member) : Json(nullptr);
  };
  Json json{{"priority", wanted.priority}};
  json["want"] = want == nullptr ? Json(nullptr) : Json(want->id);
  json["issue"] = address(kb.issues, issue, &Issue::address);
  json["slot"] = want == nullptr ? Json(slots_of(kb.issues[at(wanted.issue)])[wanted.slot].name) : Json(nullptr);
  json["pieces"] = Json::array();
  for (const PieceIndex piece : wanted.pieces) json["pieces"].push_back(shelf[piece].id);
  json["figure"] = want == nullptr ? Json(nullptr) : address(kb.figures, want->figure, &Figure::id);
  json["run"] = want == nullptr ? Json(nullptr) : address(kb.runs, want->run, &Run::address);
  json["accessory"] = want == nullptr ? Json(nullptr) : address(kb.accessories, want->accessory, &Accessory::id);
  json["limit"] = want != nullptr && want->limit ? Json(text(*want->limit)) : Json(nullptr);
  json["runs"] = runs_json(kb, wanted.runs);
  json["ask-the-seller"] = Json::array();
  for (const FeatureIndex index : wanted.ask) {
    const Feature& feature = kb.features[at(index)];
    json["ask-the-seller"].push_back({{"feature", feature.id}, {"name", feature.name}, {"by", name(feature.by)}});
  }
  return json;
}

} // namespace

std::string wants_json(const ReportInput& input, const WantsReport& report) {
  Json json = document("wants", input);
  json["shelf"] = report.shelf.name;
  json["wanted"] = Json::array();
  for (const Wanted& wanted : report.wanted) json["wanted"].push_back(wanted_json(input.kb, report.shelf, wanted));
  return written(json);
}

} // namespace coeval
