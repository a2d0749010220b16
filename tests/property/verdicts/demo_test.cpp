// Does following the first line of the demo's agenda settle what it promises?
#include <filesystem>
#include <map>

#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "pipeline.hpp"
#include "verdicts/agenda.hpp"

using namespace coeval;

namespace {

using Pair = std::pair<std::string, std::string>; // issue and run

// Of every issue with every run of the accessories that it takes.
std::map<Pair, Verdict> judge_all(const LinkedKb& kb, const Chronology& dates) {
  std::map<Pair, Verdict> verdicts;
  for (std::size_t i = 0; i < kb.issues.size(); ++i) {
    Judge judge{kb, dates, Basis::conjectured};
    for (const Takes& takes : kb.issues[i].takes)
      for (const Judgement& judgement : judge.outfit(IssueIndex{static_cast<std::uint32_t>(i)}, takes))
        verdicts[{std::string{kb.issues[i].address}, std::string{kb.runs[at(judgement.run)].address}}] =
            judgement.verdict;
  }
  return verdicts;
}

} // namespace

TEST_CASE("the first line of the demo's agenda keeps its promise, whatever the day turns out to be") {
  const Compiled demo = compile(std::filesystem::path{COEVAL_TEST_DATA} / "../../../kb", Depth::to_answer);
  REQUIRE_FALSE(demo.has_errors);
  const LinkedKb& kb = *demo.kb;
  const std::map<Pair, Verdict> before = judge_all(kb, *demo.dates);
  const Agenda agenda = agenda_of(kb, *demo.dates, Basis::conjectured);
  REQUIRE_FALSE(agenda.items.empty());
  const AgendaItem& first = agenda.items.front();
  CHECK(first.least > 0);
  const std::string point =
      std::string{kb.spans[at(first.end.span)].address} + (first.end.end == SpanEnd::start ? ".start" : ".end");
  REQUIRE(first.steps.size() > 1);
  for (const AgendaStep& step : first.steps) {
    std::map<Pair, Verdict> promised;
    for (const AgendaPair& pair : first.pairs)
      if (const auto verdict = verdict_in(pair, step))
        promised[{std::string{kb.issues[at(pair.issue)].address}, std::string{kb.runs[at(pair.run)].address}}] =
            *verdict;
    CHECK(promised.size() == step.settled);
    // Both ends of the step, and where one bound is enough, no more than that.
    std::vector<std::string> dates;
    if (step.days.from) dates.push_back(iso(*step.days.from));
    if (step.days.to) dates.push_back(iso(*step.days.to));
    if (step.no_later) dates.push_back("[.." + iso(*step.days.to) + "]");
    if (step.no_earlier) dates.push_back("[" + iso(*step.days.from) + "..]");
    for (const std::string& date : dates) {
      INFO(point << " on " << date);
      std::vector<SourceFile> files = demo.sources.files;
      files.push_back(
          {"zz-found-out.toml", "[[period]]\nid = \"found-out\"\nname = \"Found out\"\ndates = { start = \"" + date +
                                    "\" }\nbasis = \"documented\"\nsource = [\"press-log-kt\"]\n"
                                    "[[period.timing]]\nthis = \"start\"\nsame-day-as = \"" +
                                    point + "\"\nbasis = \"documented\"\nsource = [\"press-log-kt\"]\n"});
      const in_memory::Kb found{std::move(files)};
      INFO(found.troubles());
      REQUIRE(found.codes().empty());
      REQUIRE(found.dates.contradictions().empty());
      std::map<Pair, Verdict> settled;
      for (const auto& [pair, verdict] : judge_all(found.kb, found.dates))
        if (before.at(pair) != verdict) settled[pair] = verdict;
      CHECK(settled == promised);
    }
  }
}
