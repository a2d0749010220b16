// Is a document that is written item by item the same text as one that is written whole?
#include <catch2/catch.hpp>

#include "export/list_json.hpp"

using namespace coeval;
using Json = nlohmann::ordered_json;

TEST_CASE("a list that is written item by item is the same text as the whole") {
  const Json items =
      Json::array({Json{{"text", "two\nlines, \"quoted\", \xff"}, {"list", {1, 2.5, nullptr}}}, Json::array(),
                   Json::object(), true, "a text", Json{{"deep", {{"deeper", Json::array({Json{{"a", 1}}})}}}}});
  for (std::size_t count = 0; count <= items.size(); ++count) {
    CAPTURE(count);
    Json whole{{"format", "of a test"}, {"context", {{"a", "b"}}}, {"items", Json::array()}};
    ListJson list{whole};
    for (std::size_t i = 0; i < count; ++i) {
      list.add(items[i]);
      whole["items"].push_back(items[i]);
    }
    CHECK(std::move(list).finished() == whole.dump(1, ' ', false, Json::error_handler_t::replace) + "\n");
  }
  CHECK_THROWS_AS(ListJson(Json{{"items", Json::array()}, {"last", 1}}), std::logic_error);
}
