// Do our constraints compose as the thirteen interval relations do?
//
// Three periods a, b and c last for more than a day; a lies to b by one relation and b to c by another. Then exactly
// the relations of the table's cell are possible between a and c. Source: see allen_composition.json.
#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

#include "agreement.hpp"

using namespace coeval::outside;

namespace {

std::string three_periods(const std::string& of_a, const std::string& of_b) {
  return period("a") + lasts("a") + of_a + period("b") + lasts("b") + of_b + period("c") + lasts("c");
}

std::vector<std::string> relations(const nlohmann::json& table) {
  std::vector<std::string> names;
  for (const auto& [relation, inverse] : table["inverse"].items()) names.push_back(relation);
  REQUIRE(names.size() == 13);
  return names;
}

} // namespace

TEST_CASE("two relations in a row leave exactly the relations of the published table") {
  const auto table = published("allen_composition.json");
  const auto names = relations(table);
  std::size_t possible = 0;
  for (const std::string& first : names) {
    for (const std::string& second : names) {
      const auto cell = table["composition"][first][second].get<std::vector<std::string>>();
      for (const std::string& third : names) {
        INFO("a " << first << " b, b " << second << " c, a " << third << " c");
        const bool in_cell = std::ranges::find(cell, third) != cell.end();
        possible += in_cell ? 1 : 0;
        CHECK(all_can_be_true(three_periods(lies(first, "b") + lies(third, "c"), lies(second, "c"))) == in_cell);
      }
    }
  }
  CHECK(possible == 409); // or the table was not read as it was published
}

TEST_CASE("a relation agrees with its inverse seen from the other side, and with no other") {
  const auto table = published("allen_composition.json");
  const auto names = relations(table);
  for (const std::string& there : names) {
    for (const std::string& back : names) {
      INFO("a " << there << " b, b " << back << " a");
      const bool inverse = table["inverse"][there] == back;
      CHECK(all_can_be_true(three_periods(lies(there, "b"), lies(back, "a"))) == inverse);
    }
  }
}

TEST_CASE("any two relations between the same two periods exclude each other") {
  const auto names = relations(published("allen_composition.json"));
  for (const std::string& one : names) {
    for (const std::string& other : names) {
      INFO("a " << one << " b, a " << other << " b");
      CHECK(all_can_be_true(three_periods(lies(one, "b") + lies(other, "b"), {})) == (one == other));
    }
  }
}
