// Are the currencies those of ISO 4217, each with its decimals, and the fixed rates those of the regulation?
#include <catch2/catch.hpp>

#include <algorithm>
#include <array>
#include <fstream>
#include <string>

#include <nlohmann/json.hpp>

#include "money/money.hpp"

using namespace coeval;

namespace {

nlohmann::json table(std::string_view name) {
  std::ifstream file(COEVAL_TEST_DATA "/iso4217.json");
  REQUIRE(file);
  return nlohmann::json::parse(file).at(std::string(name));
}

nlohmann::json list_one() { return table("codes_by_minor_units"); }

struct Replaced {
  std::string_view code;
  std::string_view per_euro;
};

// Article 1 of Council Regulation (EC) No 2866/98, OJ L 359, 31.12.1998, as amended (Greece 1478/2000 … Bulgaria, in
// force 2026); read in its consolidated text.
constexpr std::array replaced = std::to_array<Replaced>(
    {{"BEF", "40.3399"},  {"BGN", "1.95583"},  {"DEM", "1.95583"}, {"EEK", "15.6466"},  {"GRD", "340.750"},
     {"ESP", "166.386"},  {"FRF", "6.55957"},  {"HRK", "7.53450"}, {"IEP", "0.787564"}, {"ITL", "1936.27"},
     {"CYP", "0.585274"}, {"LVL", "0.702804"}, {"LTL", "3.45280"}, {"LUF", "40.3399"},  {"MTL", "0.429300"},
     {"NLG", "2.20371"},  {"ATS", "13.7603"},  {"PTE", "200.482"}, {"SIT", "239.640"},  {"SKK", "30.1260"},
     {"FIM", "5.94573"}});

} // namespace

TEST_CASE("every currency of list one has its minor unit, and what has none is no money") {
  std::size_t codes = 0;
  std::size_t money = 0;
  const nlohmann::json by_minor_units = list_one();
  for (const auto& [minor_units, listed] : by_minor_units.items())
    for (const std::string code : listed) {
      INFO(code);
      ++codes;
      const auto read = read_currency(code);
      REQUIRE(std::holds_alternative<Currency>(read) == (minor_units != "N.A."));
      if (minor_units == "N.A.") {
        CHECK(std::get<MisreadAmount>(read).message.find("no minor unit") != std::string::npos);
        continue;
      }
      ++money;
      CHECK(std::to_string(std::get<Currency>(read).decimals()) == minor_units);
      CHECK(std::get<Currency>(read).code() == code);
    }
  CHECK(codes == 179);
  CHECK(money == 166);
}

TEST_CASE("beyond list one there are only currencies that the euro replaced, with their decimals in the CLDR") {
  const nlohmann::json listed = list_one();
  const nlohmann::json decimals = table("decimals_of_replaced_currencies");
  std::size_t beyond = 0;
  for (const std::string_view code : currency_codes()) {
    if (std::ranges::any_of(listed, [&](const auto& codes) { return std::ranges::find(codes, code) != codes.end(); }))
      continue;
    ++beyond;
    INFO(code);
    REQUIRE(decimals.contains(std::string(code)));
    CHECK(std::get<Currency>(read_currency(code)).decimals() == decimals.at(std::string(code)));
    CHECK(std::ranges::any_of(replaced, [&](const Replaced& row) { return row.code == code; }));
  }
  CHECK(beyond == decimals.size());
  CHECK(beyond == replaced.size() - 1); // Bulgaria's lev is in list one of 2024
}

TEST_CASE("the rates to the euro are those of the regulation, of six significant figures") {
  std::size_t with_rate = 0;
  for (const std::string_view code : currency_codes())
    with_rate += std::get<Currency>(read_currency(code)).per_euro() ? 1 : 0;
  CHECK(with_rate == replaced.size());
  for (const Replaced& row : replaced) {
    INFO(row.code);
    const auto rate = std::get<Currency>(read_currency(row.code)).per_euro();
    REQUIRE(rate);
    CHECK(text(*rate) == row.per_euro);
    CHECK(std::to_string(rate->digits).size() == 6);
  }
}
