// Do our interval relations hold where the W3C's test suite for OWL-Time says so, and nowhere else?
//
// The suite's instants become days in the same order, and each of its intervals a period with exactly these two days.
// Source: see owl_time_pairs.json.
#include <algorithm>
#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>
#include <fmt/format.h>

#include "agreement.hpp"

using namespace coeval::outside;

namespace {

// "ent0-3": from the first day to the fourth.
std::string period_of(const std::string& id, const std::string& entity) {
  REQUIRE(entity.size() == 6);
  REQUIRE(entity.starts_with("ent"));
  return period(id, fmt::format("2020-12-{:02}/2020-12-{:02}", entity[3] - '0' + 1, entity[5] - '0' + 1));
}

// Our names of an OWL-Time relation; two of its fifteen are unions of several.
std::vector<std::string> our_names(const std::string& owl_time) {
  static const std::map<std::string, std::vector<std::string>> unions{
      {"intervalIn", {"starts", "during", "finishes"}},
      {"intervalDisjoint", {"before", "after"}},
  };
  if (const auto found = unions.find(owl_time); found != unions.end()) return found->second;
  REQUIRE(owl_time.starts_with("interval"));
  std::string name;
  for (const char c : owl_time.substr(8)) {
    const bool capital = c >= 'A' && c <= 'Z';
    if (capital && !name.empty()) name += '-';
    name += capital ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return {name};
}

bool holds(const std::string& relation, const std::string& one, const std::string& other) {
  const std::vector<std::string> names = our_names(relation);
  return std::ranges::any_of(names, [&](const std::string& name) {
    return all_can_be_true(period_of("a", one) + lies(name, "b") + period_of("b", other));
  });
}

} // namespace

TEST_CASE("each pair of the OWL-Time test suite has the relation, or contradicts it, as the suite says") {
  const auto suite = published("owl_time_pairs.json");
  REQUIRE(suite["relations"].size() == 15);
  int pairs = 0;
  for (const auto& [relation, answers] : suite["relations"].items()) {
    for (const bool expected : {true, false}) {
      for (const auto& pair : answers[expected ? "true" : "false"]) {
        const auto one = pair[0].get<std::string>();
        const auto other = pair[1].get<std::string>();
        INFO(one << " " << relation << " " << other);
        CHECK(holds(relation, one, other) == expected);
        ++pairs;
      }
    }
  }
  CHECK(pairs == 1497); // 1300 of the thirteen relations, 197 of the two unions
}
