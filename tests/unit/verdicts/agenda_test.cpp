// The agenda against brute force: every end that is not known exactly is pinned to each of its days in turn, and the
// whole knowledge base compiled and judged anew.
#include <map>
#include <set>

#include <catch2/catch.hpp>

#include "verdicts/agenda.hpp"
#include "verdicts/claims.hpp"
#include "world.hpp"

namespace {

using namespace coeval;

// Few days, so that every one can be tried: three runs, two issues, an order and a stock limit between them.
std::vector<SourceFile> files(const std::string& more) {
  return {{"accessory.toml",
           "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
           "[[mould]]\nid = \"ring\"\nused = \"1976-01-01/1976-12-31\"\n"
           "[[mould.run]]\nid = \"brass\"\nplant = \"cork\"\n"
           "made = { start = \"[1976-03-01..1976-03-20]\", end = \"[1976-03-10..1976-04-10]\" }\n"
           "[[mould.run]]\nid = \"grey\"\nplant = \"cork\"\n"
           "made = { start = \"[1976-03-25..1976-04-08]\", end = \"1976-05-01\" }\n"
           "[[mould.run.timing]]\nthis = \"start\"\nafter = \"lantern/ring/brass.start\"\nat-least = \"P10D\"\n"
           "[[mould.run]]\nid = \"slate\"\nplant = \"cork\"\n"
           "made = { start = \"[1976-05-20..1976-06-20]\", end = \"1976-07-01\" }\n"},
          {"figure.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n"
                          "[[issue]]\nid = \"first\"\npacker = \"cork\"\n"
                          "packed = { start = \"[1976-03-05..1976-03-08]\", end = \"[1976-03-12..1976-04-01]\" }\n"
                          "[[issue.takes]]\naccessory = \"lantern\"\n"
                          "[[issue]]\nid = \"second\"\npacker = \"cork\"\n"
                          "packed = { start = \"[1976-04-15..1976-04-30]\", end = \"1976-06-01\" }\n"
                          "[[issue.takes]]\naccessory = \"lantern\"\n"},
          {"world.toml", "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.leftover]\nat-most = \"P15D\"\n"
                         "[[plant]]\nid = \"cork\"\nname = \"Cork\"\n"},
          {"z.toml", more}};
}

using Pair = std::pair<std::string, std::string>;

std::map<Pair, Verdict> judge_all(const in_memory::Kb& kb) {
  Judge judge{kb.kb, kb.dates, Basis::conjectured};
  std::map<Pair, Verdict> verdicts;
  for (const std::string run : {"lantern/ring/brass", "lantern/ring/grey", "lantern/ring/slate"})
    for (const std::string issue : {"maren/first", "maren/second"})
      verdicts[{run, issue}] = judge.judge(kb.run(run), kb.issue(issue), false).verdict;
  return verdicts;
}

// A period that begins and ends on the day pins an end of another span by an order, so that no file need change.
std::string pin(const std::string& point, Day day) {
  return "[[period]]\nid = \"pin\"\nname = \"Pin\"\ndates = \"" + iso(day) +
         "\"\n[[period.timing]]\nthis = \"start\"\n" + "same-day-as = \"" + point + "\"\n";
}

TEST_CASE("what an end settles is what trying each of its days settles") {
  const in_memory::Kb kb{files("")};
  REQUIRE(kb.codes().empty());
  REQUIRE(kb.dates.contradictions().empty());
  const std::map<Pair, Verdict> now = judge_all(kb);
  const Agenda agenda = agenda_of(kb.kb, kb.dates, Basis::conjectured);
  const auto open = std::ranges::count_if(now, [](const auto& item) { return item.second == Verdict::open; });
  CHECK(agenda.open == static_cast<std::size_t>(open));
  REQUIRE(open > 1);

  std::map<std::string, std::map<Pair, bool>> said; // whether always, by end and pair
  for (const AgendaItem& item : agenda.items) {
    const std::string end = item.end.end == SpanEnd::start ? ".start" : ".end";
    for (const AgendaPair& pair : item.pairs)
      said[kb.kb.spans[at(item.end.span)].address + end]
          [{kb.kb.runs[at(pair.run)].address, kb.kb.issues[at(pair.issue)].address}] = pair.always;
  }

  std::map<std::string, std::map<Pair, bool>> tried;
  std::size_t always = 0;
  std::size_t sometimes = 0;
  for (const std::string span :
       {"lantern/ring/brass", "lantern/ring/grey", "lantern/ring/slate", "maren/first", "maren/second"})
    for (const SpanEnd end : {SpanEnd::start, SpanEnd::end}) {
      const DayBounds known = kb.dates.bounds(point_of(SpanPoint{kb.span(span), end}), Basis::conjectured);
      REQUIRE((known.earliest && known.latest));
      const std::string point = span + (end == SpanEnd::start ? ".start" : ".end");
      std::map<Pair, std::size_t> settled;
      for (Day day = *known.earliest; day <= *known.latest; ++day) {
        const in_memory::Kb pinned{files(pin(point, day))};
        INFO(point << " on " << iso(day) << "\n" << pinned.troubles());
        REQUIRE(pinned.codes().empty());
        REQUIRE(pinned.dates.contradictions().empty());
        for (const auto& [pair, verdict] : judge_all(pinned))
          if (verdict != Verdict::open) ++settled[pair];
      }
      const auto days = static_cast<std::size_t>(*known.latest - *known.earliest + 1);
      for (const auto& [pair, count] : settled)
        if (days > 1 && now.at(pair) == Verdict::open) {
          // Only ends of the pair itself are on the agenda for it.
          if (pair.first != span && pair.second != span) continue;
          tried[point][pair] = count == days;
          ++(count == days ? always : sometimes);
        }
    }
  CHECK(said == tried);
  CHECK(always > 0); // the case shows both
  CHECK(sometimes > 0);
}

TEST_CASE("a plant that is not known stands on the agenda with the verdicts that wait for it") {
  world::World world;
  world.run_plant.clear();
  const in_memory::Kb kb{world.files()};
  const Agenda agenda = agenda_of(kb.kb, kb.dates, Basis::conjectured);
  CHECK(agenda.open == 1);
  CHECK(agenda.undecided_in_time == 0);
  CHECK(agenda.items.empty());
  REQUIRE(agenda.plants.size() == 1);
  CHECK(kb.kb.address(agenda.plants.front().entry) == "lantern/ring/brass");
  CHECK(agenda.plants.front().waiting == 1);
}

TEST_CASE("nothing is on the agenda where everything is settled") {
  const in_memory::Kb kb{world::World{}.files()};
  const Agenda agenda = agenda_of(kb.kb, kb.dates, Basis::conjectured);
  CHECK(agenda.open == 0);
  CHECK(agenda.items.empty());
  CHECK(agenda.plants.empty());
}

std::string claim(const std::string& before) {
  return "[[claim]]\nid = \"c\"\nsays = \"it was gone\"\nstanding = \"open\"\n[[claim.timing]]\n"
         "of = \"lantern/ring/brass\"\nthis = \"end\"\nbefore = \"" +
         before + "\"\n";
}

TEST_CASE("a claimed order is proven, ruled out or neither, and its proof is told") {
  world::World world; // made 1976-08-01/1978-12-31, packed 1976-10-01/1979-12-31
  world.more = claim("maren/first.end");
  const in_memory::Kb proven{world.files()};
  REQUIRE(proven.codes().empty());
  const ClaimFinding yes = find_claimed(proven.kb, proven.dates, proven.kb.claims.at(0).timings.at(0), true);
  CHECK(yes.possible);
  CHECK(yes.proven);
  CHECK(yes.proof.size() == 2);

  world.more = claim("maren/first.start");
  const in_memory::Kb refuted{world.files()};
  const ClaimFinding no = find_claimed(refuted.kb, refuted.dates, refuted.kb.claims.at(0).timings.at(0), true);
  CHECK_FALSE(no.possible);
  CHECK_FALSE(no.proven);
  CHECK(no.proof.size() == 2);

  world.made = "made = \"1976-08-01/\"\n";
  world.more = claim("maren/first.end");
  const in_memory::Kb open{world.files()};
  const ClaimFinding neither = find_claimed(open.kb, open.dates, open.kb.claims.at(0).timings.at(0), true);
  CHECK(neither.possible);
  CHECK_FALSE(neither.proven);
  CHECK(neither.proof.empty());
}

} // namespace
