// What does a mark say about time by what it reads?
#include <catch2/catch.hpp>

#include "chronology/readings.hpp"
#include "stating.hpp"

using namespace coeval;
using in_memory::Kb;
using stating::Lines;
using stating::stated;

namespace {

// The first numbers of 1962 and 1963 are those of United States patents (mwtca.org, First Patents).
const std::string marks =
    "[[mark]]\nid = \"copyright\"\nname = \"C\"\nreading = \"year\"\nbasis = \"documented\"\nsource = "
    "[\"list\"]\n"
    "[[mark]]\nid = \"patent\"\nname = \"P\"\nreading = \"number\"\n"
    "[[mark.number]]\nfrom = 3015103\non = \"1962\"\nbasis = \"reported\"\nsource = [\"list\"]\n"
    "[[mark.number]]\nfrom = 3070801\non = \"1963?\"\nbasis = \"documented\"\nsource = [\"list\"]\n"
    "[[source]]\nid = \"list\"\ntitle = \"L\"\nkind = \"book\"\n";

std::string card(const std::string& id, const std::string& list) {
  return "[[card]]\nid = \"" + id + "\"\nname = \"N\"\nmarks = [" + list +
         "]\nbasis = \"observed\"\nsource = [\"list\"]\n";
}

} // namespace

TEST_CASE("a year is a statement of the mark, and who carries it one of the carrier") {
  const Kb kb{marks + card("six", "\"copyright=1977\"")};
  REQUIRE(kb.troubles() == "");
  CHECK(
      stated(kb) ==
      Lines{"mark/copyright.start - card/six.start <= 0, observed: card/six carries mark/copyright, so it is no older "
            "than the mark",
            "inner day >= 1977-01-01, documented: mark/copyright reads 1977, which began on 1977-01-01",
            "inner day - card/six.start <= 0, observed: card/six carries mark/copyright, which reads 1977, so it is no "
            "older than that"});
  CHECK(stating::statements(kb) == 2);
  CHECK(stating::bounds(kb, "card/six") == "1977-01-01..? / 1977-01-01..?");
  CHECK(stating::bounds(kb, "card/six", Basis::observed).starts_with("1977-01-01.."));
  CHECK(stating::bounds(kb, "card/six", Basis::documented).starts_with("?.."));
}

TEST_CASE("a number is no earlier than the row that it falls in, on the basis of the weaker of the two") {
  const Kb kb{marks + card("six", "\"patent=3,070,800\"")};
  CHECK(stated(kb).at(1) ==
        "inner day >= 1962-01-01, reported: the numbers of mark/patent from 3,015,103 on were given "
        "out on 1962-01-01 or later");
  CHECK(stating::bounds(kb, "card/six", Basis::reported).starts_with("1962-01-01..?"));
  CHECK(stating::bounds(kb, "card/six", Basis::observed).starts_with("?.."));
}

TEST_CASE("a row with a doubtful date is reported at best") {
  const Kb kb{marks + card("six", "\"patent=3,070,801\"")};
  CHECK(stated(kb).at(1).starts_with("inner day >= 1963-01-01, reported: "));
}

TEST_CASE("carriers of one number, or one row, share what it means") {
  const Kb kb{marks + card("six", "\"patent=3015103\"") + card("ten", "\"patent=3015104\", \"copyright=1977\"") +
              card("two", "\"copyright=1977\"")};
  Lines lines = stated(kb);
  std::erase_if(lines, [](const std::string& line) { return !line.starts_with("inner day >= "); });
  CHECK(lines.size() == 2);
}

TEST_CASE("of a number below the first row nothing is concluded") {
  const Kb kb{marks + card("six", "\"patent=3015102\"")};
  CHECK(stated(kb).size() == 1); // only that it carries the mark
  CHECK(stating::bounds(kb, "card/six") == "?..? / ?..?");
  const ReadingDays days = days_of_reading(kb.kb, MarkIndex{1}, 3015102);
  CHECK(days.row == nullptr);
  CHECK_FALSE(days.first);
  CHECK(stating::day(days.last) == "1962-12-31");
}

TEST_CASE("a number was given out between its row and the next, and what carries it has no last day for that") {
  const Kb kb{marks + card("six", "\"patent=3015103\"")};
  const ReadingDays days = days_of_reading(kb.kb, MarkIndex{1}, 3015103);
  CHECK(stating::day(days.first) == "1962-01-01");
  CHECK(stating::day(days.last) == "1963-12-31");
  CHECK_FALSE(days_of_reading(kb.kb, MarkIndex{1}, 3070801).last); // still being given out, as far as is known
  CHECK(stating::bounds(kb, "card/six") == "1962-01-01..? / 1962-01-01..?");
}

TEST_CASE("an approximate row is widened") {
  const Kb kb{
      "[[mark]]\nid = \"design\"\nname = \"D\"\nreading = \"number\"\n[[mark.number]]\nfrom = 10\non = \"1975~\"\n" +
      std::string{"[[card]]\nid = \"six\"\nname = \"N\"\nmarks = [\"design=12\"]\n"}};
  // A year where no line says how far "about" reaches: 366 days.
  CHECK(stated(kb).at(1) ==
        "inner day >= 1973-12-31, conjectured: the numbers of mark/design from 10 on were given out on "
        "1973-12-31 or later, as an approximate date allows");
}

TEST_CASE("a year later than the carrier's start contradicts it") {
  const Kb kb{marks + "[[card]]\nid = \"six\"\nname = \"N\"\nused = \"1976/1978\"\nmarks = [\"copyright=1979\"]\n"};
  REQUIRE(kb.dates.contradictions().size() == 1);
  std::string told;
  for (const Reason& reason : kb.dates.tell_contradiction(kb.dates.contradictions()[0]))
    told += reason.statement + "\n";
  CHECK(told.find("card/six carries mark/copyright, which reads 1979, so it is no older than that") !=
        std::string::npos);
  CHECK(told.find("card/six was first used on 1976-12-31 or earlier") != std::string::npos);
}
