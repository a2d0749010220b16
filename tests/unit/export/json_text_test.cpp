// Is a document that is written straight into a text the same as one that is made of values and then written?
#include <cmath>
#include <limits>
#include <random>

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "export/json_text.hpp"

using namespace coeval;

namespace {

using Json = nlohmann::ordered_json;

void write(const Json& value, JsonText& to) {
  switch (value.type()) {
  case Json::value_t::object:
    to.open_object();
    for (const auto& [key, member] : value.items()) write(member, to.key(key));
    return to.close_object();
  case Json::value_t::array:
    to.open_list();
    for (const Json& item : value) write(item, to);
    return to.close_list();
  case Json::value_t::string:
    return to.text(value.get<std::string>());
  case Json::value_t::boolean:
    return to.flag(value.get<bool>());
  case Json::value_t::number_float:
    return to.number(value.get<double>());
  case Json::value_t::null:
    return to.null();
  default:
    return to.number(value.get<std::int64_t>());
  }
}

std::string written(const Json& value) {
  std::string text;
  JsonText to{text};
  write(value, to);
  return text;
}

std::string dumped(const Json& value) { return value.dump(1, ' ', false, Json::error_handler_t::replace); }

// Texts of every byte, well-formed or not.
std::string some_text(std::mt19937& random) {
  static const std::vector<std::string> pieces{"plain",
                                               "\"",
                                               "\\",
                                               "\n",
                                               "\t",
                                               std::string(1, '\0'),
                                               "\x1f",
                                               "\x7f",
                                               "é",
                                               "€",
                                               "\xf0\x9f\x91\xa9",
                                               "\xff",
                                               "\xc3",
                                               "/",
                                               "</script>",
                                               "\xe2\x80\xa8"};
  std::string text;
  for (std::size_t i = random() % 5; i > 0; --i) text += pieces[random() % pieces.size()];
  return text;
}

Json some_value(std::mt19937& random, int depth) {
  constexpr std::array numbers{0.0, -0.0, 1.0, 21.5, 0.1, 1e-7, 1e15, 1e16, 123456789.125, 1e300, -2.5};
  switch (random() % (depth > 0 ? 8 : 6)) {
  case 0:
    return some_text(random);
  case 1:
    return static_cast<std::int64_t>(random()) - (std::int64_t{1} << 31);
  case 2:
    return numbers[random() % numbers.size()];
  case 3:
    return random() % 2 == 0;
  case 4:
    return nullptr;
  case 5:
    return std::uniform_real_distribution{-1000.0, 1000.0}(random);
  case 6: {
    Json list = Json::array();
    for (std::size_t i = random() % 4; i > 0; --i) list.push_back(some_value(random, depth - 1));
    return list;
  }
  default: {
    Json object = Json::object();
    for (std::size_t i = random() % 4; i > 0; --i) object[some_text(random)] = some_value(random, depth - 1);
    return object;
  }
  }
}

TEST_CASE("what is written straight is what the library writes") {
  constexpr unsigned seed = 20'261'126;
  std::mt19937 random{seed};
  for (int round = 0; round < 3000; ++round) {
    const Json value = some_value(random, 5);
    CAPTURE(seed, round);
    REQUIRE(written(value) == dumped(value));
  }
}

TEST_CASE("the ends of what numbers can be are written as the library does") {
  for (const double number : {std::numeric_limits<double>::infinity(), std::nan(""), 5e-324, 1.7976931348623157e308})
    CHECK(written(number) == dumped(number));
  for (const std::int64_t number : {std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max()})
    CHECK(written(number) == dumped(number));
}

TEST_CASE("what is empty is null, or left out, where that is asked for") {
  std::string text;
  JsonText json{text};
  json.open_object();
  json.key("a").text_or_null("");
  json.text_if_any("b", "");
  json.text_if_any("c", "there");
  json.close_object();
  CHECK(text == "{\n \"a\": null,\n \"c\": \"there\"\n}");
}

} // namespace
