// Does the agenda tell what compiling the knowledge base with each day added tells?
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "routed_world.hpp"
#include "verdicts/agenda.hpp"

using namespace coeval;
using small_world::SmallWorld;

namespace {

using Pair = std::pair<std::string, std::string>; // run and issue
using Verdicts = std::map<Pair, Verdict>;

Verdicts judge_all(const in_memory::Kb& kb, Basis weakest) {
  Judge judge{kb.kb, kb.dates, weakest};
  Verdicts verdicts;
  for (std::size_t run = 0; run < kb.kb.runs.size(); ++run)
    for (std::size_t issue = 0; issue < kb.kb.issues.size(); ++issue) {
      const RunIndex r{static_cast<std::uint32_t>(run)};
      const IssueIndex i{static_cast<std::uint32_t>(issue)};
      verdicts[{std::string{kb.kb.runs[run].address}, std::string{kb.kb.issues[issue].address}}] =
          judge.judge(r, i, false).verdict;
    }
  return verdicts;
}

std::string written(SpanPoint point, const in_memory::Kb& kb) {
  return std::string{kb.kb.spans[at(point.span)].address} + (point.end == SpanEnd::start ? ".start" : ".end");
}

// The knowledge base and one more documented statement: that an end fell in `date`, EDTF. It is said by a period that
// begins on the same day, so that no file need change.
std::vector<SourceFile> and_that(std::vector<SourceFile> files, const std::string& point, const std::string& date) {
  files.push_back({"z.toml", "[[period]]\nid = \"pin\"\nname = \"Pin\"\ndates = { start = \"" + date +
                                 "\" }\nbasis = \"documented\"\nsource = [\"s p. 1\"]\n[[period.timing]]\nthis = "
                                 "\"start\"\nsame-day-as = \"" +
                                 point + "\"\nbasis = \"documented\"\nsource = [\"s p. 1\"]\n"});
  return files;
}

// What was open in `before` and is settled now.
Verdicts settled(const Verdicts& before, const std::vector<SourceFile>& files, Basis weakest) {
  const in_memory::Kb kb{files};
  INFO(kb.troubles());
  REQUIRE(kb.codes().empty());
  // A day that the stronger evidence allows may contradict the weaker, which is not asked.
  for (const Contradiction& contradiction : kb.dates.contradictions())
    REQUIRE(contradiction.level > static_cast<int>(weakest));
  Verdicts changed;
  for (const auto& [pair, verdict] : judge_all(kb, weakest)) {
    const Verdict was = before.at(pair);
    if (was == Verdict::open && verdict != was) changed[pair] = verdict;
  }
  return changed;
}

Verdicts settled_in(const AgendaItem& item, const AgendaStep& step, const in_memory::Kb& kb) {
  Verdicts verdicts;
  for (const AgendaPair& pair : item.pairs)
    if (const auto verdict = verdict_in(pair, step))
      verdicts[{std::string{kb.kb.runs[at(pair.run)].address}, std::string{kb.kb.issues[at(pair.issue)].address}}] =
          *verdict;
  return verdicts;
}

bool in(const AgendaDays& days, Day day) { return (!days.from || *days.from <= day) && (!days.to || day <= *days.to); }

} // namespace

TEST_CASE("every day that an end can have settles what the agenda says, in the way that it says") {
  std::map<Verdict, std::size_t> seen;
  std::size_t steps = 0, by_bound = 0, from_afar = 0, by_route = 0;
  for (std::uint64_t seed = 1; seed <= 1000; ++seed) {
    const SmallWorld world{seed};
    const std::vector<SourceFile> files = small_world::with_routes(world, seed);
    const in_memory::Kb kb{files};
    std::string texts;
    for (const SourceFile& file : files) texts += std::string{file.text()} + "\n";
    INFO("seed " << seed << "\n" << texts << kb.troubles());
    REQUIRE(kb.codes().empty());
    if (!kb.dates.contradictions().empty()) continue;
    const Basis weakest = all_bases[seed % all_bases.size()];
    const Verdicts before = judge_all(kb, weakest);
    const Agenda agenda = agenda_of(kb.kb, kb.dates, weakest);
    CHECK(agenda.open == static_cast<std::size_t>(std::ranges::count_if(
                             before, [](const auto& pair) { return pair.second == Verdict::open; })));

    if (agenda.open == 0) { // there is nothing to settle
      REQUIRE(agenda.items.empty());
      continue;
    }

    std::map<std::string, const AgendaItem*> items;
    for (const AgendaItem& item : agenda.items) items[written(item.end, kb)] = &item;
    REQUIRE(items.size() == agenda.items.size());
    for (std::size_t span = 0; span < kb.kb.spans.size(); ++span)
      for (const SpanEnd end : {SpanEnd::start, SpanEnd::end}) {
        const SpanPoint point{TimeSpanIndex{static_cast<std::uint32_t>(span)}, end};
        const std::string name = written(point, kb);
        const DayBounds known = kb.dates.bounds(point_of(point), weakest);
        REQUIRE((known.earliest && known.latest));
        INFO(name << " on " << coeval::name(weakest));
        const AgendaItem* item = items.contains(name) ? items.at(name) : nullptr;
        std::size_t least = 1000, most = 0;
        std::map<Pair, std::size_t> days_settled;
        for (Day day = *known.earliest; day <= *known.latest; ++day) {
          INFO("on " << iso(day));
          const Verdicts now = settled(before, and_that(files, name, iso(day)), weakest);
          least = std::min(least, now.size());
          most = std::max(most, now.size());
          for (const auto& [pair, verdict] : now) ++days_settled[pair];
          if (item == nullptr) {
            REQUIRE((now.empty() || known.earliest == known.latest));
            continue;
          }
          const auto step = std::ranges::find_if(item->steps, [&](const AgendaStep& one) { return in(one.days, day); });
          REQUIRE(step != item->steps.end());
          REQUIRE(settled_in(*item, *step, kb) == now);
          std::array<std::size_t, verdict_count> become{};
          for (const auto& [pair, verdict] : now) {
            ++become[static_cast<std::size_t>(verdict)];
            ++seen[verdict];
            const std::string address{kb.kb.spans[span].address};
            if (address != pair.first && address != pair.second) ++from_afar;
            if (kb.kb.spans[span].kind == Kind::route) ++by_route;
          }
          REQUIRE(step->become == become);
          REQUIRE(step->settled == now.size());
        }
        if (item == nullptr) continue;
        CHECK(item->known == known);
        CHECK(item->least == least);
        CHECK(item->most == most);
        CHECK(most > 0);
        std::size_t always = 0;
        for (const AgendaPair& pair : item->pairs) {
          const std::size_t days = days_settled[{std::string{kb.kb.runs[at(pair.run)].address},
                                                 std::string{kb.kb.issues[at(pair.issue)].address}}];
          CHECK(days > 0);
          CHECK(pair.always == (days == static_cast<std::size_t>(*known.latest - *known.earliest + 1)));
          if (pair.always) ++always;
        }
        CHECK(days_settled.size() == item->pairs.size());
        CHECK(item->always == always);

        // The steps meet, differ, and say truly where one bound is enough.
        CHECK(item->steps.front().days.from == known.earliest);
        CHECK(item->steps.back().days.to == known.latest);
        for (std::size_t i = 0; i < item->steps.size(); ++i, ++steps) {
          const AgendaStep& step = item->steps[i];
          if (i > 0) {
            CHECK(*step.days.from == *item->steps[i - 1].days.to + 1);
            CHECK(settled_in(*item, step, kb) != settled_in(*item, item->steps[i - 1], kb));
          }
          const auto bound_is_enough = [&](const std::string& date) {
            const Verdicts so = settled_in(*item, step, kb);
            const Verdicts now = settled(before, and_that(files, name, date), weakest);
            return !so.empty() && std::ranges::all_of(so, [&](const auto& pair) {
              const auto found = now.find(pair.first);
              return found != now.end() && found->second == pair.second;
            });
          };
          const bool last = i + 1 == item->steps.size();
          CHECK(step.no_later == (!last && bound_is_enough("[.." + iso(*step.days.to) + "]")));
          CHECK(step.no_earlier == (i > 0 && bound_is_enough("[" + iso(*step.days.from) + "..]")));
          by_bound += (step.no_later ? 1U : 0U) + (step.no_earlier ? 1U : 0U);
        }
      }
  }
  INFO("steps " << steps << ", by one bound " << by_bound << ", from afar " << from_afar << ", by a route "
                << by_route);
  CHECK(steps > 100); // a test that never sees one says nothing
  CHECK(by_bound > 50);
  CHECK(from_afar > 50);
  CHECK(by_route > 10);
  for (const Verdict verdict : {Verdict::fits, Verdict::anachronistic, Verdict::stale, Verdict::misrouted}) {
    INFO(name(verdict));
    CHECK(seen[verdict] > 10);
  }
}
