// Do the median and the quartiles lie where their definition says, to the minor unit?
#include <catch2/catch.hpp>

#include <limits>

#include "money/sales.hpp"

using namespace coeval;

namespace {

Currency gbp() { return std::get<Currency>(read_currency("GBP")); }

std::vector<Money> amounts(std::initializer_list<std::int64_t> minors) {
  std::vector<Money> all;
  for (const std::int64_t minor : minors) all.push_back({gbp(), minor});
  return all;
}

std::vector<std::int64_t> five(const PriceSpread& spread) {
  return {spread.low.minor, spread.lower_quartile.minor, spread.median.minor, spread.upper_quartile.minor,
          spread.high.minor};
}

} // namespace

// Worked by hand from definition 7 of Hyndman and Fan (1996).
TEST_CASE("quartiles lie at (n - 1)p") {
  CHECK_FALSE(spread_of({}));
  CHECK(five(*spread_of(amounts({7}))) == std::vector<std::int64_t>{7, 7, 7, 7, 7});
  CHECK(five(*spread_of(amounts({40, 10, 30, 20, 50}))) == std::vector<std::int64_t>{10, 20, 30, 40, 50});
  CHECK(five(*spread_of(amounts({0, 100}))) == std::vector<std::int64_t>{0, 25, 50, 75, 100});
  CHECK(five(*spread_of(amounts({100, 200, 400, 800}))) == std::vector<std::int64_t>{100, 175, 300, 500, 800});
  CHECK(spread_of(amounts({1, 1, 2}))->count == 3);
}

TEST_CASE("between two amounts the half goes to the even unit") {
  CHECK(spread_of(amounts({1, 2}))->median.minor == 2);         // 1.5
  CHECK(spread_of(amounts({2, 3}))->median.minor == 2);         // 2.5
  CHECK(spread_of(amounts({0, 2}))->lower_quartile.minor == 0); // 0.5
}

TEST_CASE("the greatest amounts do not overflow, and two currencies are not mixed") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  CHECK(spread_of(amounts({most, most, most - 2}))->lower_quartile.minor == most - 1);
  std::vector<Money> mixed = amounts({1});
  mixed.push_back({std::get<Currency>(read_currency("EUR")), 1});
  CHECK_THROWS_AS(spread_of(mixed), std::logic_error);
}

TEST_CASE("sales are told by quarter of the calendar, those without any left out") {
  CHECK(quarter_of(1999, 3) == Quarter{1999, 1});
  CHECK(quarter_of(1999, 4) == Quarter{1999, 2});
  CHECK(quarter_of(1999, 12) == Quarter{1999, 4});
  const std::vector<DatedAmount> dated = {{{gbp(), 30}, {2001, 1}}, {{gbp(), 10}, {1999, 4}}, {{gbp(), 20}, {2001, 1}}};
  const auto quarters = by_quarter(dated);
  REQUIRE(quarters.size() == 2);
  CHECK(quarters[0].quarter == Quarter{1999, 4});
  CHECK(quarters[0].spread.count == 1);
  CHECK(quarters[1].spread.count == 2);
  CHECK(quarters[1].spread.median.minor == 25);
}
