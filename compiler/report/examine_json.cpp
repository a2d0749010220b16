#include <cmath>

#include "examine/words.hpp"
#include "report/examine.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

// Bits and minutes, alike on every machine.
Json rounded(double number) { return std::round(number * 1e4) / 1e4; }

Json candidate_json(const FeatureTable& table, std::size_t index) {
  const LinkedKb& kb = *table.kb;
  const Candidate& candidate = table.candidates[index];
  Json json{{"address", address_of(kb, candidate)}, {"original", candidate.original()}, {"copies", nullptr}};
  if (const auto* repro = std::get_if<ReproIndex>(&candidate.what)) {
    const Repro& it = kb.repros[at(*repro)];
    if (it.of_run)
      json["copies"] = kb.runs[at(*it.of_run)].address;
    else if (it.of_mould)
      json["copies"] = kb.moulds[at(*it.of_mould)].address;
  }
  return json;
}

Json candidates_json(const FeatureTable& table, const std::vector<std::size_t>& candidates) {
  Json list = Json::array();
  for (const std::size_t candidate : candidates) list.push_back(candidate_json(table, candidate));
  return list;
}

Json texts(const std::vector<Observation>& seen, const std::vector<std::size_t>& which) {
  Json list = Json::array();
  for (const std::size_t i : which) list.push_back(seen[i].text);
  return list;
}

Json looks_json(const FeatureTable& table, const std::vector<Look>& looks) {
  Json list = Json::array();
  for (const Look& look : looks) {
    const Feature& feature = table.feature(at(look.feature));
    list.push_back({{"feature", feature.id},
                    {"name", feature.name},
                    {"bits", rounded(look.bits)},
                    {"minutes", rounded(look.effort)},
                    {"bits-per-minute", rounded(look.bits_per_minute())},
                    {"by", name(feature.by)},
                    {"tool", name(feature.tool)},
                    {"look", how_to_look(*table.kb, feature)},
                    {"caution", table.kb->entries[feature.entry].text("caution")}});
  }
  return list;
}

Json cautions_json() {
  Json list = Json::array();
  for (const std::string_view caution : cautions()) list.push_back(caution);
  return list;
}

Json ruling_json(const ReportInput& input, const MarkRuling& ruling) {
  return {{"mark", carried_words(input.kb, ruling.mark)},
          {"words", ruling_words(input.kb, ruling)},
          {"gap-days", ruling.gap},
          {"basis", name(ruling.basis)}};
}

// Each mark and, where a run is claimed, whether it excludes that.
Json marks_json(const ReportInput& input, const MarksFound& found) {
  Json list = Json::array();
  for (std::size_t i = 0; i < found.marks.size(); ++i) {
    const Entry& entry = input.kb.entries[input.kb.marks[at(found.marks[i].mark)].entry];
    Json mark{
        {"mark", carried_words(input.kb, found.marks[i])}, {"caution", entry.text("caution")}, {"excludes", nullptr}};
    if (!found.of_claimed.empty() && found.of_claimed[i]) {
      mark["excludes"] = ruling_json(input, *found.of_claimed[i]);
      mark["excludes"]["proof"] = reasons_json(input, found.of_claimed[i]->proof);
    }
    list.push_back(std::move(mark));
  }
  return list;
}

void add_outcome(Json& json, const ReportInput& input, const FeatureTable& table, const std::vector<Observation>& seen,
                 const MarksFound& marks, const Outcome& outcome) {
  json["marks"] = marks_json(input, marks);
  json["remaining"] = name(outcome.remaining);
  json["candidates"] = table.size();
  json["left"] = Json::array();
  for (const std::size_t candidate : most_agreeing_first(outcome)) {
    Json left = candidate_json(table, candidate);
    left["agrees"] = texts(seen, members(outcome.stands[candidate].agrees));
    left["undecided"] = texts(seen, members(outcome.stands[candidate].undecided));
    json["left"].push_back(std::move(left));
  }
  json["excluded"] = Json::array();
  for (std::size_t candidate = 0; candidate < table.size(); ++candidate) {
    if (!outcome.stands[candidate].out()) continue;
    Json excluded = candidate_json(table, candidate);
    excluded["by"] = Json::array();
    for (const std::size_t i : members(outcome.stands[candidate].excludes))
      excluded["by"].push_back({{"seen", seen[i].text}, {"stated", stated_of(table, candidate, seen[i])}});
    const bool by_mark = !marks.rulings.empty() && marks.rulings[candidate];
    excluded["by-mark"] = by_mark ? ruling_json(input, *marks.rulings[candidate]) : Json(nullptr);
    json["excluded"].push_back(std::move(excluded));
  }
  json["nearest"] = candidates_json(table, outcome.nearest);
  json["look-again"] = texts(seen, outcome.recheck);
  json["next"] = looks_json(table, outcome.next);
}

Json seen_json(const FeatureTable& table, const std::vector<Observation>& seen) {
  Json list = Json::array();
  for (const Observation& observation : seen)
    list.push_back({{"feature", table.feature(at(observation.feature)).id}, {"seen", observation.text}});
  return list;
}

Json requests_json(const FeatureTable& table, std::size_t claimed, const std::vector<Request>& requests) {
  Json list = Json::array();
  for (const Request& request : requests) {
    const Feature& feature = table.feature(at(request.feature));
    const Stated* stated = table.candidates[claimed].find(request.feature);
    list.push_back({{"feature", feature.id},
                    {"name", feature.name},
                    {"bits", rounded(request.bits)},
                    {"by", name(feature.by)},
                    {"look", how_to_look(*table.kb, feature)},
                    {"caution", table.kb->entries[feature.entry].text("caution")},
                    {"as-claimed", stated == nullptr ? Json(nullptr) : Json(stated_words(*table.kb, *stated))},
                    {"rules-out", candidates_json(table, request.rules_out)},
                    {"may-rule-out", candidates_json(table, request.may_rule_out)}});
  }
  return list;
}

Json with_json(const ReportInput& input, const std::optional<Judgement>& with) {
  return with ? full_judgement(input, *with) : Json(nullptr);
}

} // namespace

std::string identify_json(const ReportInput& input, const IdentifyReport& report) {
  Json json = document("identify", input);
  json["of"] = report.of;
  json["seen"] = seen_json(report.table, report.seen);
  add_outcome(json, input, report.table, report.seen, report.marks, report.outcome);
  json["cautions"] = cautions_json();
  return written(json);
}

std::string key_json(const ReportInput& input, const KeyReport& report) {
  const FeatureTable& table = report.table;
  Json json = document("key", input);
  json["of"] = report.of;
  json["candidates"] = candidates_json(table, [&] {
    std::vector<std::size_t> all(table.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = i;
    return all;
  }());
  json["optimal"] = report.key.optimal;
  json["complete"] = report.key.complete;
  json["expected-looks"] = rounded(report.key.expected_steps);
  json["expected-minutes"] = rounded(report.key.expected_minutes);
  json["least-looks"] = rounded(report.key.least_steps);
  json["least-minutes"] = rounded(report.key.least_minutes);
  json["nodes"] = Json::array();
  for (const KeyNode& node : report.key.nodes) {
    Json entry{{"candidates", node.candidates}, {"look", nullptr}, {"branches", Json::array()}};
    if (node.look) entry["look"] = table.feature(at(*node.look)).id;
    for (const KeyBranch& branch : node.branches)
      entry["branches"].push_back(
          {{"shows", branch.words}, {"probability", rounded(branch.probability)}, {"node", branch.node}});
    json["nodes"].push_back(std::move(entry));
  }
  json["cautions"] = cautions_json();
  return written(json);
}

std::string examine_json(const ReportInput& input, const ExamineReport& report) {
  const FeatureTable& table = report.table;
  Json json = document("examine", input);
  json["claimed"] = candidate_json(table, report.claimed);
  json["answer"] = name(report.conclusion.answer);
  json["seen"] = Json::array();
  for (std::size_t i = 0; i < report.seen.size(); ++i) {
    const Observation& seen = report.seen[i];
    const std::string stated = stated_of(table, report.claimed, seen);
    json["seen"].push_back({{"feature", table.feature(at(seen.feature)).id},
                            {"seen", seen.text},
                            {"as-claimed", stated.empty() ? Json(nullptr) : Json(stated)},
                            {"stands", stand_words(report.outcome.stands[report.claimed], i)}});
  }
  json["could-also-be"] = candidates_json(table, report.conclusion.others);
  json["not-told-apart"] = candidates_json(table, report.conclusion.alike);
  add_outcome(json, input, table, report.seen, report.marks, report.outcome);
  json["with"] = with_json(input, report.with);
  json["cautions"] = cautions_json();
  return written(json);
}

std::string ask_json(const ReportInput& input, const AskReport& report) {
  const FeatureTable& table = report.table;
  Json json = document("ask", input);
  json["claimed"] = candidate_json(table, report.claimed);
  json["excluded"] = report.excluded;
  json["seen"] = seen_json(table, report.seen);
  json["could-also-be"] = candidates_json(table, report.requests.others);
  json["ask-the-seller"] = requests_json(table, report.claimed, report.requests.of_seller);
  json["in-the-hand"] = requests_json(table, report.claimed, report.requests.in_hand);
  json["never-ruled-out"] = candidates_json(table, report.requests.after_all);
  json["with"] = with_json(input, report.with);
  json["cautions"] = cautions_json();
  return written(json);
}

} // namespace coeval
