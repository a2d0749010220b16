#include <algorithm>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "report/agenda.hpp"
#include "report/json_parts.hpp"

namespace coeval {
namespace {

Json item_json(const ReportInput& input, const Chronology& dates, const AgendaItem& item) {
  const LinkedKb& kb = input.kb;
  Json steps = Json::array();
  for (const AgendaStep& step : item.steps) {
    Json become = Json::object();
    for (std::size_t i = 0; i < verdict_count; ++i)
      if (step.become[i] > 0) become[std::string{name(static_cast<Verdict>(i))}] = step.become[i];
    steps.push_back({{"from", day_or_null(step.days.from)},
                     {"to", day_or_null(step.days.to)},
                     {"settled", step.settled},
                     {"become", std::move(become)},
                     {"no-later-is-enough", step.no_later},
                     {"no-earlier-is-enough", step.no_earlier}});
  }
  Json pairs = Json::array();
  for (const AgendaPair& pair : item.pairs) {
    Json settled = Json::array();
    for (const AgendaPair::Settled& days : pair.settled)
      settled.push_back(
          {{"from", day_or_null(days.days.from)}, {"to", day_or_null(days.days.to)}, {"verdict", name(days.verdict)}});
    pairs.push_back({{"run", kb.runs[at(pair.run)].address},
                     {"issue", kb.issues[at(pair.issue)].address},
                     {"whatever-the-day", pair.always},
                     {"settled", std::move(settled)}});
  }
  Json finds = Json::array();
  for (const AgendaFind& find : finds_for(kb, dates, item, input.weakest)) {
    Json such = Json::array();
    for (const EntryIndex entry : find.find.such) such.push_back(kb.address(entry));
    finds.push_back({{"step", find.step}, {"find", find.find.words}, {"such-as", std::move(such)}});
  }
  return {{"point",
           fmt::format("{}.{}", kb.spans[at(item.end.span)].address, item.end.end == SpanEnd::start ? "start" : "end")},
          {"happened", happened(kb, item.end)},
          {"earliest", day_or_null(item.known.earliest)},
          {"latest", day_or_null(item.known.latest)},
          {"least", item.least},
          {"most", item.most},
          {"whatever-the-day", item.always},
          {"steps", std::move(steps)},
          {"verdicts", std::move(pairs)},
          {"finds", std::move(finds)}};
}

} // namespace

std::string agenda_json(const ReportInput& input, const AgendaReport& report) {
  const Agenda& agenda = report.agenda;
  Json json = document("agenda", input);
  json["open"] = agenda.open;
  json["undecided-in-time"] = agenda.undecided_in_time;
  json["days"] = Json::array();
  for (std::size_t i = 0; i < std::min(agenda.items.size(), report.shown); ++i)
    json["days"].push_back(item_json(input, report.dates, agenda.items[i]));
  json["more-days"] = agenda.items.size() - json["days"].size();
  json["plants"] = Json::array();
  for (std::size_t i = 0; i < std::min(agenda.plants.size(), report.shown); ++i)
    json["plants"].push_back({{"of", input.kb.address(agenda.plants[i].entry)}, {"waiting", agenda.plants[i].waiting}});
  json["more-plants"] = agenda.plants.size() - json["plants"].size();
  return written(json);
}

} // namespace coeval
