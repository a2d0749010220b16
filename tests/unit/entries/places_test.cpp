// Do the places of keys and values cover exactly what was written, whatever stands before them?
#include <catch2/catch.hpp>

#include "reading.hpp"

using namespace coeval;

namespace {

// One accessory whose every written piece is known to the test.
constexpr std::string_view sample =
    "[accessory]\n"
    "id = \"lantern\"\n"
    "name = \"Lántern ☃ 🏮\"\n"
    "slot = 'hand'\n"
    "\n"
    "[[mould]]\n"
    "id\t=\t\"ring\"\t# tabs\n"
    "name = \"\"\"Ring\n top ☃\"\"\"\n"
    "used = { start = \"1976-08\", end = \"1979\" } # ünï\n"
    "source = [ \"log ☃ p. 1\", 'log p. 2',\n"
    "  \"log p. 3\" ]\n"
    "features = { top = \"ríng\", vents = 4, height = { value = 21.5, tolerance = 0.3 } }\n"
    "\n"
    "[[mould.timing]]\n"
    "this = \"start\"\n"
    "on = \"1977\"\n";

std::string with_crlf(std::string_view plain) {
  std::string result;
  for (const char c : plain) {
    if (c == '\n') result += '\r';
    result += c;
  }
  return result;
}

void check_places(const std::string& written, bool crlf) {
  const reading::Read result = reading::read(written);
  INFO(result.troubles());
  REQUIRE(result.diagnostics.empty());
  const auto key = [&](const Entry& entry, std::string_view name) { return result.at(entry.find(name)->key_place()); };
  const auto value = [&](const Entry& entry, std::string_view name) { return result.at(entry.find(name)->place); };

  const Entry& accessory = result.first(Kind::accessory);
  CHECK(result.at(accessory.place) == "\"lantern\"");
  CHECK(key(accessory, "name") == "name");
  CHECK(value(accessory, "name") == "\"Lántern ☃ 🏮\"");
  CHECK(value(accessory, "slot") == "'hand'");

  const Entry& mould = result.first(Kind::mould);
  CHECK(key(mould, "id") == "id");
  CHECK(value(mould, "id") == "\"ring\"");
  CHECK(value(mould, "name") == (crlf ? "\"\"\"Ring\r\n top ☃\"\"\"" : "\"\"\"Ring\n top ☃\"\"\""));
  CHECK(value(mould, "used") == "{ start = \"1976-08\", end = \"1979\" }");
  const auto* dates = mould.get<WrittenDates>("used");
  CHECK(result.at(dates->start.place) == "\"1976-08\"");
  CHECK(result.at(dates->end.place) == "\"1979\"");
  const auto* source = mould.get<Words>("source");
  REQUIRE(source->size() == 3);
  CHECK(result.at((*source)[0].place) == "\"log ☃ p. 1\"");
  CHECK(result.at((*source)[1].place) == "'log p. 2'");
  CHECK(result.at((*source)[2].place) == "\"log p. 3\"");
  const auto* features = mould.get<Features>("features");
  REQUIRE(features->size() == 3);
  CHECK(result.at((*features)[0].name_place) == "top"); // in the order of the text
  CHECK(result.at((*features)[0].place) == "\"ríng\"");
  CHECK(result.at((*features)[1].name_place) == "vents");
  CHECK(result.at((*features)[1].place) == "4");
  CHECK(result.at((*features)[2].place) == "{ value = 21.5, tolerance = 0.3 }");

  const Entry& timing = result.first(Kind::timing);
  CHECK(result.at(timing.place).starts_with("[[mould.timing]]"));
  CHECK(value(timing, "on") == "\"1977\"");
}

} // namespace

TEST_CASE("places cover what was written") { check_places(std::string{sample}, false); }

TEST_CASE("places cover what was written after carriage returns") { check_places(with_crlf(sample), true); }

TEST_CASE("places cover what was written after a byte order mark") {
  check_places("\xEF\xBB\xBF" + std::string{sample}, false);
}

TEST_CASE("places cover what was written after comments of any text") {
  const std::string comment = "# ünï — ☃ 🏮 e\xCC\x81 \xE2\x80\xA8 \xC2\x85 \t end\n";
  check_places(comment + comment + std::string{sample}, false);
  check_places(with_crlf(comment + std::string{sample}), true);
}

TEST_CASE("the place of a broken date begins where the trouble does") {
  const auto place = [](const std::string& value) {
    const reading::Read result =
        reading::read("# é\n[[period]]\nid = \"p\"\nname = \"P\"\ndates = " + value + " # é\n");
    REQUIRE(result.codes() == std::vector<std::string>{"broken-date"});
    return result.at(result.diagnostics[0].place);
  };
  CHECK(place("\"1979-13\"") == "13");
  CHECK(place("\"1979/1980-02-30\"").starts_with("30"));
  CHECK(place("\"\\u0031979-13\"") == "\"\\u0031979-13\""); // escapes: the string as a whole
}

TEST_CASE("the place of broken TOML is in its line") {
  const reading::Read result = reading::read("# é\r\n[[period]]\r\nid = \"p\r\n");
  REQUIRE(result.codes() == std::vector<std::string>{"broken-toml"});
  CHECK(result.sources.files[0].position(result.diagnostics[0].place.begin).line == 3);
}
