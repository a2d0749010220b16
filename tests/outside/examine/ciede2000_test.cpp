// Does the colour difference agree with the published test data?
//
// G. Sharma, W. Wu, E. N. Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test
// data, and mathematical observations", Color Research & Application 30 (2005) 21-30, Table 1: 34 pairs chosen to catch
// the usual mistakes, printed to 4 decimals.
#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>

#include <nlohmann/json.hpp>

#include "examine/colour.hpp"

using namespace coeval;

namespace {

Lab lab(const nlohmann::json& numbers) { return {numbers.at(0), numbers.at(1), numbers.at(2)}; }

} // namespace

TEST_CASE("the 34 published pairs differ as printed") {
  std::ifstream file(COEVAL_TEST_DATA "/ciede2000_pairs.json");
  REQUIRE(file);
  const nlohmann::json rows = nlohmann::json::parse(file).at("rows");
  REQUIRE(rows.size() == 34);
  for (const auto& row : rows) {
    INFO("pair " << row.at(0));
    const Lab one = lab(row.at(1));
    const Lab other = lab(row.at(2));
    const double printed = row.at(3);
    CHECK(std::abs(ciede2000(one, other) - printed) < 0.5e-4 + 1e-9);
    CHECK(ciede2000(one, other) == Approx(ciede2000(other, one)).margin(1e-12));
    CHECK(ciede2000(one, one) == 0);
    // The bound by which far colours are skipped.
    CHECK(std::abs(one.lightness - other.lightness) <= most_lightness_per_difference * ciede2000(one, other));
  }
}
