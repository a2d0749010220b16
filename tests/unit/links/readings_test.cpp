// What does a mark read where it is carried, and which readings are refused?
#include <catch2/catch.hpp>

#include "in_memory_kb.hpp"
#include "links/readings.hpp"

using namespace coeval;
using in_memory::Kb;

namespace {

const std::string marks =
    "[[mark]]\nid = \"copyright\"\nname = \"C\"\nreading = \"year\"\n"
    "[[mark]]\nid = \"patent\"\nname = \"P\"\nreading = \"number\"\n"
    "[[mark.number]]\nfrom = 3070801\non = \"1963\"\n"
    "[[mark.number]]\nfrom = 3015103\non = \"1962\"\nbasis = \"documented\"\nsource = [\"list\"]\n"
    "[[mark]]\nid = \"cross\"\nname = \"X\"\n"
    "[[source]]\nid = \"list\"\ntitle = \"L\"\nkind = \"book\"\n";

Kb card(const std::string& list) {
  return Kb{marks + "[[card]]\nid = \"six\"\nname = \"Six\"\nmarks = [" + list + "]\n"};
}

const std::vector<CarriedMark>& carried(const Kb& kb) { return kb.kb.spans[at(kb.span("card/six"))].marks; }

} // namespace

TEST_CASE("a year has four digits") {
  CHECK(parse_reading(ReadingKind::year, "1977") == 1977);
  CHECK(parse_reading(ReadingKind::year, "9999") == 9999);
  for (const std::string_view wrong :
       {"", "77", "0977", "19777", "197x", " 1977", "-1977", "+1977", "1,977", "MCMLXXVII"}) {
    INFO(wrong);
    CHECK_FALSE(parse_reading(ReadingKind::year, wrong));
  }
}

TEST_CASE("a number has digits, in groups of three where commas part them") {
  CHECK(parse_reading(ReadingKind::number, "3858241") == 3858241);
  CHECK(parse_reading(ReadingKind::number, "3,858,241") == 3858241);
  CHECK(parse_reading(ReadingKind::number, "12") == 12);
  CHECK(parse_reading(ReadingKind::number, "0012") == 12);
  CHECK(parse_reading(ReadingKind::number, "999999999999999") == 999999999999999);
  CHECK(parse_reading(ReadingKind::number, "999,999,999,999,999") == 999999999999999);
  for (const std::string_view wrong : {"", ",", "0", "38,58241", "3858,241", ",858,241", "3,858,24", "3,858,2411",
                                       "3,858,", "3 858 241", "D12", "12.5", "9999999999999999"}) {
    INFO(wrong);
    CHECK_FALSE(parse_reading(ReadingKind::number, wrong));
  }
}

TEST_CASE("what is read is written back as it is printed") {
  CHECK(reading_text(ReadingKind::year, 1977) == "1977");
  CHECK(reading_text(ReadingKind::number, 12) == "12");
  CHECK(reading_text(ReadingKind::number, 123) == "123");
  CHECK(reading_text(ReadingKind::number, 1234) == "1,234");
  CHECK(reading_text(ReadingKind::number, 3858241) == "3,858,241");
}

TEST_CASE("a carried mark keeps what it reads") {
  const Kb kb{card("\"cross\", \"copyright=1977\", \"mark/patent=3,070,900\", \"copyright=1979\"")};
  REQUIRE(kb.troubles() == "");
  REQUIRE(carried(kb).size() == 4);
  CHECK_FALSE(carried(kb)[0].reading);
  CHECK(carried(kb)[1].reading == 1977);
  CHECK(carried(kb)[2].reading == 3070900);
  CHECK(carried(kb)[3].reading == 1979);
}

TEST_CASE("what an accessory carries, each of its moulds carries, and it is reported once") {
  const std::string parts =
      "[accessory]\nid = \"lantern\"\nname = \"L\"\nslot = \"hand\"\nmarks = [\"copyright=1977\", "
      "\"patent=x\"]\n[[mould]]\nid = \"ring\"\n[[mould]]\nid = \"plain\"\nmarks = [\"cross\"]\n";
  const Kb kb{{SourceFile{"a.toml", parts}, SourceFile{"b.toml", marks}}};
  CHECK(kb.codes() == std::vector<std::string>{"broken-reading"});
  CHECK(kb.kb.spans[at(kb.span("lantern/ring"))].marks.size() == 1);
  const auto& plain = kb.kb.spans[at(kb.span("lantern/plain"))].marks;
  REQUIRE(plain.size() == 2);
  CHECK(plain[1].reading == 1977);
}

TEST_CASE("a mark that is read needs its reading, and no other takes one") {
  CHECK(card("\"copyright\"").codes() == std::vector<std::string>{"missing-reading"});
  CHECK(card("\"patent\"").codes() == std::vector<std::string>{"missing-reading"});
  CHECK(card("\"cross=1977\"").codes() == std::vector<std::string>{"unwanted-reading"});
  CHECK(card("\"cross=\"").codes() == std::vector<std::string>{"unwanted-reading"});
  CHECK(card("\"copyright=77\"").codes() == std::vector<std::string>{"broken-reading"});
  CHECK(card("\"patent=\"").codes() == std::vector<std::string>{"broken-reading"});
  CHECK(card("\"=1977\"").codes() == std::vector<std::string>{"broken-address"});
  const Kb near{card("\"copyrigth=1977\"")};
  CHECK(near.codes() == std::vector<std::string>{"unknown-address"});
  CHECK(near.troubles().find("did you mean `copyright=1977`?") != std::string::npos); // what it reads survives
  for (const std::string wrong : {"\"copyright\"", "\"cross=1977\"", "\"patent=x\""})
    CHECK(carried(card(wrong)).empty());
}

TEST_CASE("rows of numbers stand in their order, whatever their order in the file") {
  const Kb kb{card("\"cross\"")};
  const Mark& patent = kb.kb.marks[1];
  REQUIRE(patent.numbers.size() == 2);
  CHECK(patent.numbers[0].from == 3015103);
  CHECK(patent.numbers[0].evidence.basis == Basis::documented);
  CHECK(patent.numbers[1].from == 3070801);
  CHECK(patent.numbers[1].evidence.basis == Basis::conjectured); // the mark's, as it says nothing itself
  CHECK(rows_around(patent, 3015102).row == nullptr);
  CHECK(rows_around(patent, 3015102).next == &patent.numbers[0]);
  CHECK(rows_around(patent, 3015103).row == &patent.numbers[0]);
  CHECK(rows_around(patent, 3070800).next == &patent.numbers[1]);
  CHECK(rows_around(patent, 3070801).row == &patent.numbers[1]);
  CHECK(rows_around(patent, 9000000).next == nullptr);
}
