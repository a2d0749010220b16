// Which statements cannot all be true, and is every one of them needed?
#include <catch2/catch.hpp>

#include "stating.hpp"

using namespace coeval;
using in_memory::Kb;
using stating::period;

namespace {

// A file as its tables: the first names what the others belong to.
using Tables = std::vector<std::string>;

std::vector<SourceFile> joined(const std::vector<Tables>& files) {
  std::vector<SourceFile> result;
  for (std::size_t i = 0; i < files.size(); ++i) {
    std::string text;
    for (const std::string& table : files[i]) text += table;
    result.emplace_back(std::to_string(i) + ".toml", text);
  }
  return result;
}

// Without the table that a place lies in; with a file's first table everything that belongs to it goes.
std::vector<Tables> without(std::vector<Tables> files, Span place) {
  Tables& file = files[static_cast<std::size_t>(place.file)];
  std::size_t byte = 0;
  for (std::size_t i = 0; i < file.size(); ++i) {
    byte += file[i].size();
    if (place.begin >= byte) continue;
    if (i == 0)
      file = {"\n"};
    else
      file[i] = std::string(file[i].size(), '\n');
    return files;
  }
  throw std::logic_error("the place is in no table");
}

// Every statement told is needed: without its table the contradiction is gone. Gives how many there are.
std::size_t needed_statements(const std::vector<Tables>& files) {
  const Kb kb{joined(files)};
  INFO(kb.troubles());
  REQUIRE(kb.codes().empty());
  REQUIRE(kb.dates.contradictions().size() == 1);
  const std::vector<Reason> reasons = kb.dates.tell_contradiction(kb.dates.contradictions()[0]);
  REQUIRE_FALSE(reasons.empty());
  CHECK(std::ranges::count_if(reasons, &Reason::weakest) == 1);
  for (const Reason& reason : reasons) {
    INFO("without: " << reason.statement);
    const Kb rest{joined(without(files, reason.place)), false};
    CHECK(rest.dates.contradictions().empty());
  }
  return reasons.size();
}

std::string timing(const std::string& keys) { return "[[period.timing]]\n" + keys; }

} // namespace

TEST_CASE("dates in one table against each other") {
  CHECK(needed_statements({{period("a", "dates = \"1979\"\n"), timing("this = \"end\"\non = \"1978\"\n")}}) == 2);
}

TEST_CASE("a ring of orders") {
  CHECK(needed_statements(
            {{period("a"), timing("this = \"start\"\nafter = \"period/c.end\"\n")},
             {period("b"), timing("this = \"start\"\nafter = \"period/a.end\"\n")},
             {period("c"), timing("this = \"start\"\nafter = \"period/b.end\"\n")},
             // no part of it
             {period("d", "dates = \"1979\"\n"), timing("this = \"start\"\nafter = \"period/a.end\"\n")}}) == 3);
}

TEST_CASE("a relation, a gap and dates") {
  CHECK(needed_statements({{period("a", "dates = { end = \"1979\" }\n")},
                           {period("b"), timing("relation = \"during\"\nspan = \"period/a\"\n")},
                           {period("c", "dates = { start = \"1980-03\" }\n"),
                            timing("this = \"start\"\nbefore = \"period/b.end\"\nat-least = \"P1D\"\n")}}) == 4);
}

TEST_CASE("succession, containment and marks") {
  const std::string accessory = "[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n";
  // The mark came after the mould was replaced for good.
  CHECK(needed_statements({{accessory, "[[mould]]\nid = \"ring\"\nmarks = [\"roundel\"]\n",
                            "[[mould]]\nid = \"plain\"\nreplaces = \"ring\"\nclean = true\nused = \"../1979\"\n"},
                           {"[[mark]]\nid = \"roundel\"\nname = \"Roundel\"\nused = \"1980/..\"\n"}}) >= 3);
}

TEST_CASE("a pairing on a card, the policy on stock and dates") {
  const std::vector<Tables> files{
      {"[accessory]\nid = \"lantern\"\nname = \"Lantern\"\nslot = \"hand\"\n",
       "[[mould]]\nid = \"ring\"\n[[mould.run]]\nid = \"brass\"\nmade = \"../1976-06-30\"\n"},
      {"[figure]\nid = \"maren\"\nname = \"Maren\"\n[[issue]]\nid = \"first\"\n",
       "[[issue.pairing]]\nrun = \"lantern/ring/brass\"\ncard = \"six\"\n"},
      {"[[card]]\nid = \"six\"\nname = \"Six\"\nused = \"1977-01-01/..\"\n"},
      {"[line]\nid = \"patrol\"\nname = \"Patrol\"\n", "[line.leftover]\nat-most = \"P6M\"\n"}};
  const Kb kb{joined(files)};
  REQUIRE(kb.codes().empty());
  REQUIRE(kb.dates.contradictions().size() == 1);
  CHECK(kb.dates.contradictions()[0].excess == 1); // 30 June and 184 days is 31 December
  const std::vector<Reason> reasons = kb.dates.tell_contradiction(kb.dates.contradictions()[0]);
  CHECK(reasons.size() == 4);
  for (const Reason& reason : reasons) {
    INFO("without: " << reason.statement);
    CHECK(Kb{joined(without(files, reason.place)), false}.dates.contradictions().empty());
  }
}

TEST_CASE("the weakest statement is marked, set aside, and everything else still has bounds") {
  const Kb kb{joined({{period("a", "dates = \"1979\"\nbasis = \"documented\"\n"),
                       timing("this = \"start\"\non = \"1981\"\nbasis = \"reported\"\n"),
                       timing("this = \"end\"\non = \"1979-05\"\nbasis = \"observed\"\n")}})};
  REQUIRE(kb.dates.contradictions().size() == 1);
  const std::vector<Reason> reasons = kb.dates.tell_contradiction(kb.dates.contradictions()[0]);
  for (const Reason& reason : reasons) CHECK(reason.weakest == (reason.basis == Basis::reported));
  CHECK(stating::bounds(kb, "period/a") == "1979-01-01..1979-05-31 / 1979-05-01..1979-05-31");
}

TEST_CASE("of equal bases the one with fewer sources is the weaker") {
  const std::string sources = "source = [\"log p. 1\", \"log p. 2\"]\n";
  const Kb kb{joined({{period("a", "dates = \"1979\"\nsource = [\"log p. 3\"]\n"),
                       timing("this = \"start\"\non = \"1981\"\n" + sources)},
                      {"[[source]]\nid = \"log\"\ntitle = \"Log\"\nkind = \"book\"\n"}})};
  REQUIRE(kb.dates.contradictions().size() == 1);
  for (const Reason& reason : kb.dates.tell_contradiction(kb.dates.contradictions()[0]))
    CHECK(reason.weakest == (reason.sources == std::vector<std::string>{"log p. 3"}));
}

TEST_CASE("contradictions in two places are both told") {
  const Kb kb{joined({{period("a", "dates = \"1979\"\n"), timing("this = \"start\"\non = \"1981\"\n")},
                      {period("b", "dates = \"1979\"\n"), timing("this = \"start\"\non = \"1982\"\n")},
                      {period("c", "dates = \"1979\"\n")}})};
  REQUIRE(kb.dates.contradictions().size() == 2);
  CHECK(kb.dates.contradictions()[0].excess == 367); // from 1979-12-31 to 1981-01-01
  CHECK(stating::bounds(kb, "period/c") == "1979-01-01..1979-12-31 / 1979-01-01..1979-12-31");
}

TEST_CASE("contradictions that share their points are all told, and what is left has bounds") {
  // Three statements are doubted: one against a's dates, then one of two that date the same end of c.
  const Kb kb{
      joined({{period("a", "dates = { start = \"1979-03-04\", end = \"1979-03-05\" }\nbasis = \"documented\"\n")},
              {period("b", "within = [\"period/a\"]\ndates = \"1979-03-01/1979-03-02\"\nbasis = \"documented\"\n")},
              {period("c", "within = [\"period/a\"]\n"), timing("this = \"start\"\nsame-day-as = \"period/d.end\"\n"),
               timing("this = \"start\"\non = \"1979-03-05\"\n")},
              {period("d", "dates = \"1979-03-05/1979-03-06\"\nbasis = \"documented\"\n"),
               timing("relation = \"overlaps\"\nspan = \"period/a\"\n")}})};
  CHECK(kb.dates.contradictions().size() == 3);
  CHECK(stating::bounds(kb, "period/d") == "1979-03-05..1979-03-05 / 1979-03-06..1979-03-06");
}

TEST_CASE("a disputed statement contradicts nothing") {
  for (const bool disputed : {false, true}) {
    const Kb kb{joined({{period("a", "dates = \"1979\"\n"), timing(std::string{"this = \"start\"\non = \"1981\"\n"} +
                                                                   (disputed ? "disputed = true\n" : ""))}})};
    CHECK(kb.dates.contradictions().empty() == disputed);
    CHECK(stating::bounds(kb, "period/a") == "1979-01-01..1979-12-31 / 1979-01-01..1979-12-31");
  }
}
