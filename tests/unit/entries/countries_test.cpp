// Are the country codes those of ISO 3166-1 and ISO 3166-3?
//
// Compared with iso_3166-1.json and iso_3166-3.json of Debian's package iso-codes (tests/packages lists it), which
// follow the tables of the ISO 3166 Maintenance Agency.
#include <catch2/catch.hpp>

#include <fstream>
#include <set>

#include <nlohmann/json.hpp>

#include "entries/countries.hpp"

namespace {

void add_codes(std::set<std::string>& codes, const std::string& part, const std::string& key) {
  const std::string path = "/usr/share/iso-codes/json/iso_" + part + ".json";
  INFO(path << " comes with the package iso-codes");
  std::ifstream file{path};
  REQUIRE(file.good());
  const nlohmann::json tables = nlohmann::json::parse(file);
  for (const auto& row : tables.at(part)) {
    std::string code = row.at(key);
    for (char& c : code) c = static_cast<char>(c - 'A' + 'a');
    codes.insert(code);
  }
}

} // namespace

TEST_CASE("the country codes are those of ISO 3166") {
  std::set<std::string> codes;
  add_codes(codes, "3166-1", "alpha_2");
  CHECK(codes.size() == 249);
  add_codes(codes, "3166-3", "alpha_4");
  const auto ours = coeval::country_codes();
  CHECK(std::vector<std::string>(ours.begin(), ours.end()) == std::vector<std::string>(codes.begin(), codes.end()));
}
