// Does the reader agree with the specification's own examples, and with what two other readers refuse?
#include <catch2/catch.hpp>

#include <fstream>
#include <map>
#include <string>

#include <nlohmann/json.hpp>

#include "calendar/edtf.hpp"

using namespace coeval;

namespace {

nlohmann::json published_examples() {
  std::ifstream file(COEVAL_TEST_DATA "/edtf_examples.json");
  REQUIRE(file);
  return nlohmann::json::parse(file);
}

std::string shown(std::optional<Day> bound, EndKind kind) {
  if (bound) return iso(*bound);
  return kind == EndKind::open ? "open" : "unknown";
}

// What edtf-validate refuses and the specification allows. It compares the first days of two ends of an interval, or
// orders them as text; the specification lets the ends differ in precision ("2004-02-01/2005" is its own example), so
// an end that is the month or the year around the start can still fall after it.
const std::map<std::string, std::string> allowed_after_all = {
    {"0000-01-03/0000-01", "some day of January from the 3rd on"},
    {"0000-02/0000", "some day of year 0 from February on"},
    {"2004-06-11%/2004-%06", "some day of June from the 11th on"},
    {"2004-06-11%/2004-06~", "some day of June from the 11th on"},
    {"Y-61000/-2000", "the year -61000 is before the year -2000"},
    {"2012-24/2012-21", "winter 2012 may be that of January 2012, before the spring"},
    {"2012-23/2012-22", "by the months autumn begins on 1 September, by the equinox summer ends later"},
};

} // namespace

TEST_CASE("the examples of the specification have the bounds that it describes") {
  const auto data = published_examples();
  REQUIRE(data["examples"].size() == 64);
  for (const auto& example : data["examples"]) {
    const std::string text = example["text"];
    INFO(text << " (" << example["section"].get<std::string>() << ")");
    const EdtfResult result = parse_edtf(text);
    INFO(result.refusal);
    REQUIRE(result.value);
    CHECK(result.refusal.empty());
    // One string is printed at levels 1 and 2; the lowest level that allows it is meant here.
    CHECK(result.value->level == (text == "2004-06-11%" ? 1 : example["level"].get<int>()));
    if (example["first"] == "no months given") continue; // seasons: the policy is tested with the parts of a year
    CHECK(shown(result.value->first(), result.value->start_kind) == example["first"].get<std::string>());
    CHECK(shown(result.value->last(), result.value->end_kind) == example["last"].get<std::string>());
  }
}

TEST_CASE("what other readers refuse is refused with a reason") {
  const auto data = published_examples();
  REQUIRE(data["invalid"].size() == 87);
  std::size_t exceptions = 0;
  for (const auto& invalid : data["invalid"]) {
    const std::string text = invalid["text"];
    INFO("`" << text << "` (" << invalid["source"].get<std::string>() << ")");
    const EdtfResult result = parse_edtf(text);
    if (allowed_after_all.contains(text)) {
      ++exceptions;
      CHECK(result.value);
      continue;
    }
    CHECK_FALSE(result.value);
    CHECK_FALSE(result.refusal.empty());
    CHECK(result.offset <= text.size());
  }
  CHECK(exceptions == allowed_after_all.size());
}
