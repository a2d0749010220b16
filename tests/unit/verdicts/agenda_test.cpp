// The agenda on knowledge bases small enough to be worked out by hand; tests/property/verdicts tries all days of many.
#include <catch2/catch.hpp>

#include "verdicts/agenda.hpp"
#include "world.hpp"

namespace {

using namespace coeval;

TEST_CASE("the agenda tells the day from which a verdict becomes another") {
  world::World world;
  world.made = "made = { start = \"[1978-01-01..1980-06-30]\", end = \"1981-12-31\" }\n";
  const in_memory::Kb kb{world.files()}; // packed 1976-10-01/1979-12-31
  REQUIRE(kb.codes().empty());
  const Agenda agenda = agenda_of(kb.kb, kb.dates, Basis::conjectured);
  REQUIRE(agenda.open == 1);
  REQUIRE_FALSE(agenda.items.empty());
  const AgendaItem& first = agenda.items.front();
  CHECK(kb.kb.spans[at(first.end.span)].address == "lantern/ring/brass");
  CHECK(first.end.end == SpanEnd::start);
  CHECK(first.least == 1);
  CHECK(first.most == 1);
  CHECK(first.always == 1);
  REQUIRE(first.steps.size() == 2);
  // It was last packed on some day of 1979-12-31, known exactly; a run first made on that day is in time.
  CHECK(iso(first.steps[0].days.from.value()) == "1978-01-01");
  CHECK(iso(first.steps[0].days.to.value()) == "1979-12-31");
  CHECK(first.steps[0].become[static_cast<std::size_t>(Verdict::fits)] == 1);
  CHECK(first.steps[0].no_later);
  CHECK_FALSE(first.steps[0].no_earlier);
  CHECK(iso(first.steps[1].days.from.value()) == "1980-01-01");
  CHECK(iso(first.steps[1].days.to.value()) == "1980-06-30");
  CHECK(first.steps[1].become[static_cast<std::size_t>(Verdict::anachronistic)] == 1);
  CHECK(first.steps[1].no_earlier);
  REQUIRE(first.pairs.size() == 1);
  CHECK(verdict_in(first.pairs[0], first.steps[0]) == Verdict::fits);
  CHECK(verdict_in(first.pairs[0], first.steps[1]) == Verdict::anachronistic);
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

TEST_CASE("an end that nothing bounds on one side has steps without a first or a last day") {
  world::World world;
  world.made = "made = { end = \"1978-12-31\" }\n"; // first made on some day up to then; packed 1976-10-01/1979-12-31
  world.packed = "packed = \"1976-10-01/1977-12-31\"\n";
  const in_memory::Kb kb{world.files()};
  REQUIRE(kb.codes().empty());
  const Agenda agenda = agenda_of(kb.kb, kb.dates, Basis::conjectured);
  const auto item = std::ranges::find_if(agenda.items, [&](const AgendaItem& one) {
    return kb.kb.spans[at(one.end.span)].address == "lantern/ring/brass" && one.end.end == SpanEnd::start;
  });
  REQUIRE(item != agenda.items.end());
  REQUIRE(item->steps.size() == 2);
  CHECK_FALSE(item->steps[0].days.from.has_value());
  CHECK(iso(item->steps[0].days.to.value()) == "1977-12-31");
  CHECK(days_words(*item, item->steps[0].days) == "by 1977-12-31");
  CHECK(become_words(*item, item->steps[0]) == "1 verdict becomes fits");
  CHECK(days_words(*item, item->steps[1].days) == "on 1978-01-01 or later");
  CHECK(become_words(*item, item->steps[1]) == "1 verdict becomes anachronistic");
  CHECK(settles_words(*item) == "1 verdict, whatever the day");
}

} // namespace
