// Is an amount converted at the rate of its day or the latest before it, and at none where none is stated?
#include <catch2/catch.hpp>

#include <limits>

#include "money/rates.hpp"

using namespace coeval;

namespace {

Currency currency(std::string_view code) { return std::get<Currency>(read_currency(code)); }
Money money(std::string_view written) { return std::get<Money>(read_money(written)); }

DatedRate rate(std::string_view one, std::string_view is, std::string_view other, std::int64_t day) {
  return {.rate = {.one = currency(one), .is = std::get<Decimal>(read_decimal(is)), .other = currency(other)},
          .day = day};
}

Converted converted(const Rates& rates, std::string_view written, std::string_view to, std::int64_t day) {
  const auto result = rates.convert(money(written), currency(to), day);
  INFO(written << " to " << to << " on day " << day);
  REQUIRE(std::holds_alternative<Converted>(result));
  return std::get<Converted>(result);
}

bool has_none(const Rates& rates, std::string_view written, std::string_view to, std::int64_t day) {
  const auto result = rates.convert(money(written), currency(to), day);
  return std::holds_alternative<NotConverted>(result) && std::get<NotConverted>(result) == NotConverted::no_rate;
}

} // namespace

TEST_CASE("the latest rate of the day or before it serves, in either direction") {
  const Rates rates({rate("GBP", "1.20", "EUR", 200), rate("GBP", "1.10", "EUR", 100), rate("EUR", "0.80", "GBP", 300),
                     rate("GBP", "1.5", "USD", 150)});
  CHECK(has_none(rates, "100 GBP", "EUR", 99));
  CHECK(text(converted(rates, "100 GBP", "EUR", 100).money) == "110.00 EUR");
  CHECK(converted(rates, "100 GBP", "EUR", 199).rate == 1);
  CHECK(text(converted(rates, "100 GBP", "EUR", 200).money) == "120.00 EUR");
  CHECK(text(converted(rates, "120 EUR", "GBP", 250).money) == "100.00 GBP");
  CHECK(text(converted(rates, "100 EUR", "GBP", 999).money) == "80.00 GBP");
  CHECK(converted(rates, "100 EUR", "GBP", 999).rate == 2);
  CHECK(has_none(rates, "100 USD", "EUR", 999)); // no chain by way of GBP
  CHECK(converted(rates, "100 USD", "USD", 0).by == ConvertedBy::nothing);
}

TEST_CASE("each rate is rounded in its way") {
  DatedRate up = rate("GBP", "1.001", "EUR", 0);
  CHECK(text(converted(Rates({up}), "1 GBP", "EUR", 0).money) == "1.00 EUR");
  up.rounding = Rounding::up;
  CHECK(text(converted(Rates({up}), "1 GBP", "EUR", 0).money) == "1.01 EUR");
}

TEST_CASE("of two rates of one day the one given last serves") {
  const Rates rates({rate("GBP", "1.1", "EUR", 100), rate("GBP", "1.2", "EUR", 100)});
  CHECK(converted(rates, "1 GBP", "EUR", 100).rate == 1);
}

TEST_CASE("the euro's fixed rates serve where none is stated, with the euro only") {
  const Rates none({});
  CHECK(text(converted(none, "19.5583 CLF", "CLF", 0).money) == "19.5583 CLF");
  CHECK(text(converted(none, "195.58 DEM", "EUR", -10'000).money) == "100.00 EUR");
  CHECK(converted(none, "195.58 DEM", "EUR", 0).by == ConvertedBy::fixed_rate);
  CHECK(text(converted(none, "100 EUR", "FRF", 0).money) == "655.96 FRF");
  CHECK(has_none(none, "100 DEM", "FRF", 0));
  CHECK(has_none(none, "100 DEM", "GBP", 0));
  const Rates stated({rate("EUR", "2", "DEM", 10)});
  CHECK(text(converted(stated, "100 DEM", "EUR", 10).money) == "50.00 EUR");
  CHECK(converted(stated, "100 DEM", "EUR", 9).by == ConvertedBy::fixed_rate);
}

TEST_CASE("what does not fit is told apart from what has no rate") {
  const Rates rates({rate("GBP", "999999999999999999", "EUR", 0)});
  const auto result = rates.convert({currency("GBP"), greatest_minor}, currency("EUR"), 0);
  REQUIRE(std::holds_alternative<NotConverted>(result));
  CHECK(std::get<NotConverted>(result) == NotConverted::too_large);
  CHECK_THROWS_AS(Rates({rate("GBP", "0", "EUR", 0)}), std::logic_error);
  CHECK_THROWS_AS(Rates({rate("GBP", "1", "GBP", 0)}), std::logic_error);
}
