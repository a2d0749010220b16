// What is known on statements of each basis or stronger?
#include <catch2/catch.hpp>

#include "stating.hpp"

using namespace coeval;
using in_memory::Kb;
using stating::period;

TEST_CASE("each basis knows what the stronger ones know, and more") {
  const Kb kb{period("a", "dates = { start = \"1979\" }\nbasis = \"documented\"\n") +
              "[[period.timing]]\nthis = \"start\"\non = \"[1979-02..]\"\nbasis = \"observed\"\n"
              "[[period.timing]]\nthis = \"start\"\non = \"[..1979-11]\"\nbasis = \"reported\"\n"
              "[[period.timing]]\nthis = \"start\"\non = \"1979-06\"\nbasis = \"conjectured\"\n"};
  REQUIRE(kb.troubles() == "");
  const auto start = [&](Basis basis) { return stating::bounds(kb, "period/a", basis).substr(0, 22); };
  CHECK(start(Basis::documented) == "1979-01-01..1979-12-31");
  CHECK(start(Basis::observed) == "1979-02-01..1979-12-31");
  CHECK(start(Basis::reported) == "1979-02-01..1979-11-30");
  CHECK(start(Basis::conjectured) == "1979-06-01..1979-06-30");
}

TEST_CASE("a chain is as strong as its weakest statement") {
  const Kb kb{period("a", "dates = \"1979-01-01/1979-01-31\"\nbasis = \"documented\"\n") + period("b") +
              "[[period.timing]]\nthis = \"start\"\nafter = \"period/a.end\"\nbasis = \"observed\"\n" + period("c") +
              "[[period.timing]]\nthis = \"start\"\nafter = \"period/b.start\"\nat-least = \"P10D\"\nbasis = "
              "\"reported\"\n"};
  REQUIRE(kb.troubles() == "");
  CHECK(stating::bounds(kb, "period/b", Basis::documented) == "?..? / ?..?");
  CHECK(stating::bounds(kb, "period/b", Basis::observed) == "1979-02-01..? / 1979-02-01..?");
  CHECK(stating::bounds(kb, "period/c", Basis::observed) == "?..? / ?..?");
  CHECK(stating::bounds(kb, "period/c", Basis::reported) == "1979-02-11..? / 1979-02-11..?");
  // The chain as told: its statements, with their places and bases; what holds by definition is left out.
  const auto proof = kb.dates.on(Basis::reported).proof(origin, end_of(kb.span("period/c")));
  const std::vector<Reason> told = kb.dates.tell_all(proof);
  std::vector<std::string> sentences;
  for (const Reason& reason : told) sentences.push_back(reason.statement);
  std::ranges::sort(sentences);
  CHECK(sentences == std::vector<std::string>{"period/a ended on 1979-01-31 or later",
                                              "period/b began after period/a ended",
                                              "period/c began at least 10 days after period/b began"});
  CHECK(std::ranges::none_of(told, &Reason::definition));
}

TEST_CASE("a run's bounds are at most its mould's") {
  const Kb kb{"[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
              "[[mould]]\nid = \"ring\"\nused = \"1976-08/1979-06\"\nbasis = \"documented\"\n"
              "[[mould.run]]\nid = \"brass\"\nmade = { start = \"1977\" }\n"};
  CHECK(stating::bounds(kb, "lantern/ring/brass") == "1977-01-01..1977-12-31 / 1977-01-01..1979-06-30");
  CHECK(stating::bounds(kb, "lantern/ring") == "1976-08-01..1976-08-31 / 1979-06-01..1979-06-30");
}

TEST_CASE("an uncertain date does not reach the stronger bases") {
  const Kb kb{period("a", "dates = { start = \"1979?\" }\nbasis = \"documented\"\n")};
  CHECK(stating::bounds(kb, "period/a", Basis::observed) == "?..? / ?..?");
  CHECK(stating::bounds(kb, "period/a", Basis::reported) == "1979-01-01..1979-12-31 / 1979-01-01..?");
  // Told, too, as what it has become.
  for (const Reason& reason :
       kb.dates.tell_all(kb.dates.on(Basis::reported).proof(start_of(kb.span("period/a")), origin)))
    CHECK(reason.basis == Basis::reported);
}
