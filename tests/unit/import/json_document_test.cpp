#include <catch2/catch.hpp>

#include "import/json_document.hpp"

namespace {

using namespace coeval;
using Json = nlohmann::ordered_json;

std::string repeated(std::string_view text, std::size_t times) {
  std::string all;
  for (std::size_t i = 0; i < times; ++i) all += text;
  return all;
}

TEST_CASE("JSON is read as it is, in its order") {
  const JsonResult read = read_json(R"({"b": [1, -2, 0.5, true, null, "\u00e9\n"], "a": {}})", {});
  REQUIRE_FALSE(read.fault);
  CHECK(read.value == Json::parse(R"({"b": [1, -2, 0.5, true, null, "é\n"], "a": {}})"));
  CHECK(read.value.begin().key() == "b");
}

TEST_CASE("members that are passed over are left out only where they are expected") {
  const JsonResult read =
      read_json(R"({"span": 1, "entries": [{"span": {"x": [1]}, "kind": "run", "fields": {"span": 2}}]})", {"span"});
  REQUIRE_FALSE(read.fault);
  CHECK(read.value == Json::parse(R"({"span": 1, "entries": [{"kind": "run", "fields": {"span": 2}}]})"));
}

TEST_CASE("what is no JSON is told by its line and byte") {
  const JsonResult read = read_json("{\"a\": 1,\n  nonsense}", {});
  REQUIRE(read.fault);
  CHECK(read.fault->message == "this is not JSON from line 2, byte 4 on"); // "no" can still become no word of JSON
  CHECK(read_json("", {}).fault);
  CHECK(read_json("{} {}", {}).fault);
  CHECK(read_json("{\"a\": \"\xff\"}", {}).fault);
  CHECK(read_json("[1e999]", {}).fault);
}

TEST_CASE("a member that comes twice is refused with its pointer") {
  const JsonResult read = read_json(R"({"entries": [{}, {"fields": {"a/b~c": 1, "a/b~c": 2}}]})", {});
  REQUIRE(read.fault);
  CHECK(read.fault->pointer == "/entries/1/fields/a~1b~0c");
  CHECK(read.fault->message == "this member comes twice");
}

TEST_CASE("no depth and no width harms") {
  CHECK_FALSE(read_json(repeated("[", most_json_depth) + repeated("]", most_json_depth), {}).fault);
  const JsonResult deep = read_json(repeated("[", most_json_depth + 1) + repeated("]", most_json_depth + 1), {});
  REQUIRE(deep.fault);
  CHECK(deep.fault->message == "this lies deeper than 16 levels");
  CHECK(read_json(repeated("[", 10'000'000), {}).fault);
  std::string wide = "{\"m\": 0";
  for (std::size_t i = 1; i <= most_json_members; ++i) wide += ", \"m" + std::to_string(i) + "\": 0";
  const JsonResult read = read_json(wide + "}", {});
  REQUIRE(read.fault);
  CHECK(read.fault->message == "an object has more than 1000 members");
}

} // namespace
