// What does a run found with an issue say about time?
#include <catch2/catch.hpp>

#include "stating.hpp"

using namespace coeval;
using in_memory::Kb;
using stating::Lines;
using stating::stated;

namespace {

const std::string lantern = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n"
                            "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\n";
const std::string card = "[[card]]\nid = \"six\"\nname = \"Six\"\n";
const std::string leftover = "[line]\nid = \"patrol\"\nname = \"Patrol\"\n[line.leftover]\nat-most = \"P6M\"\n"
                             "basis = \"observed\"\n";

std::vector<SourceFile> files(const std::string& pairing, const std::string& line = "",
                              const std::string& run_keys = "", const std::string& issue_keys = "") {
  return {SourceFile{"a.toml", lantern + run_keys},
          SourceFile{"b.toml", "[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n" + issue_keys +
                                   "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\n" + pairing},
          SourceFile{"c.toml", card + line}};
}

const std::string found = ": lantern/ring/brass was found with maren/first";

} // namespace

TEST_CASE("without a policy on stock, only that the run had begun before the issue ended") {
  CHECK(stated(Kb{files("")}) == Lines{"lantern/ring/brass.start - maren/first.end <= 0, conjectured" + found});
}

TEST_CASE("with a policy, that the run ended no longer before the issue began than stock was kept") {
  const Kb kb{files("", leftover)};
  CHECK(stating::statements(kb) == 2); // the pairing and the policy are doubted apart
  const Lines lines = stated(kb);
  REQUIRE(lines.size() == 3);
  CHECK(lines[0] == "lantern/ring/brass.start - maren/first.end <= 0, conjectured" + found);
  CHECK(lines[1].starts_with("maren/first.start - inner day <= 184, observed: stock was kept for ")); // 6 months
  CHECK(lines[2] == "inner day - lantern/ring/brass.end <= 0, conjectured" + found);
}

TEST_CASE("an issue's own policy stands in for its line's") {
  const Kb kb{files("", leftover, "", "")};
  const Kb own{files("", leftover + "\n", "", "leftover = { at-most = \"P10D\" }\n")};
  CHECK(stated(own).at(1).starts_with("maren/first.start - inner day <= 10, conjectured: "));
  CHECK(stated(kb).at(1).starts_with("maren/first.start - inner day <= 184, observed: "));
}

TEST_CASE("sealed on a card, the card's time binds as the issue's does") {
  const std::string on = found + " on card/six";
  CHECK(stated(Kb{files("card = \"six\"\nbasis = \"observed\"\n")}) ==
        Lines{"lantern/ring/brass.start - maren/first.end <= 0, observed" + on,
              "lantern/ring/brass.start - card/six.end <= 0, observed" + on,
              "maren/first.start - card/six.end <= 0, observed" + on,
              "card/six.start - maren/first.end <= 0, observed" + on});
  const Kb kept{files("card = \"six\"\n", leftover)};
  CHECK(stating::statements(kept) == 2); // one policy, though it is applied to both
  CHECK(stated(kept).size() == 8);
}

TEST_CASE("a pairing moves the bounds of both") {
  const Kb kb{files("", leftover, "made = \"1976-03-01/..\"\n", "packed = { end = \"1976-05-31\" }\n")};
  REQUIRE(kb.troubles() == "");
  CHECK(stating::bounds(kb, "maren/first") == "?..1976-05-31 / 1976-05-31..1976-05-31");
  const Kb late{files("", leftover, "made = { start = \"1976-03-01\", end = \"1976-03-31\" }\n",
                      "packed = { end = \"1979\" }\n")};
  // Packing began at the latest when the oldest stock was used up: 184 days after 31 March.
  CHECK(stating::bounds(late, "maren/first").starts_with("?..1976-10-01 /"));
  // Where the policy is too weak for the question, it says nothing.
  CHECK(stating::bounds(late, "maren/first", Basis::documented).starts_with("?..? /"));
}

TEST_CASE("what is disputed or refuted states nothing") {
  CHECK(stated(Kb{files("disputed = true\n", leftover)}).empty());
  CHECK(stated(Kb{files("refuted = true\n", leftover)}).empty());
  const Kb timing{stating::period("a") + stating::period("b") +
                  "[[period.timing]]\nthis = \"start\"\nafter = \"period/a.end\"\ndisputed = true\n"};
  CHECK(stated(timing).empty());
}
