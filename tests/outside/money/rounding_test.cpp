// Are exact halves rounded as the standards' and the euro's own examples round them?
#include <catch2/catch.hpp>

#include <string>

#include "money/money.hpp"

using namespace coeval;

namespace {

Money money(std::string_view written) {
  const auto read = read_money(written);
  INFO(written);
  REQUIRE(std::holds_alternative<Money>(read));
  return std::get<Money>(read);
}

std::string converted(std::string_view written, std::string_view to, int euro_decimals = 3) {
  const auto result = convert_at_fixed_rates(money(written), std::get<Currency>(read_currency(to)), euro_decimals);
  REQUIRE(result);
  return text(*result);
}

// In a currency of two decimals, to a multiple of `unit` hundredths.
std::string rounded_text(Decimal number, Rounding rounding, std::int64_t unit) {
  const auto result = rounded(number, std::get<Currency>(read_currency("EUR")), rounding, unit);
  REQUIRE(result);
  return amount_text(*result);
}

Decimal decimal(std::string_view written) {
  const bool below_nought = written.starts_with('-');
  Decimal number = std::get<Decimal>(read_decimal(written.substr(below_nought ? 1 : 0)));
  if (below_nought) number.digits = -number.digits;
  return number;
}

struct Example {
  std::string_view number;
  std::int64_t unit; // hundredths
  std::string_view half_even;
  std::string_view half_up;
};

} // namespace

// 12.25, 12.35: the examples of ISO 80000-1:2009 annex B, rule A, from memory. 1.655000 and 1.625000: ASME
// A112.18.1-2018/CSA B125.1-18 annex A.2 d (printed there for half to even). The others follow from the two rules.
TEST_CASE("a half goes to the even multiple or up") {
  for (const Example& example : {Example{"12.25", 10, "12.20", "12.30"}, Example{"12.35", 10, "12.40", "12.40"},
                                 Example{"2.5", 100, "2.00", "3.00"}, Example{"3.5", 100, "4.00", "4.00"},
                                 Example{"-2.5", 100, "-2.00", "-3.00"}, Example{"0.125", 1, "0.12", "0.13"},
                                 Example{"0.135", 1, "0.14", "0.14"}, Example{"1.655000", 1, "1.66", "1.66"},
                                 Example{"1.625000", 1, "1.62", "1.63"}}) {
    INFO(example.number);
    CHECK(rounded_text(decimal(example.number), Rounding::half_even, example.unit) == example.half_even);
    CHECK(rounded_text(decimal(example.number), Rounding::half_up, example.unit) == example.half_up);
  }
}

// Bank of Slovenia and Government of Slovenia, evro.si, "Rounding rules" (information for consumers, 2006).
TEST_CASE("Slovenia's examples of rounding after conversion") {
  CHECK(converted("500 SIT", "EUR") == "2.09 EUR");
  CHECK(converted("1000 SIT", "EUR") == "4.17 EUR");
  CHECK(rounded_text(decimal("24.784"), Rounding::half_up, 1) == "24.78");
  CHECK(rounded_text(decimal("24.785"), Rounding::half_up, 1) == "24.79");
}

// euro-hellas.gr, rules of conversion; the last is computed, and the page warns that it is not twice the first.
TEST_CASE("Greece's examples of conversion") {
  CHECK(converted("500 GRD", "EUR") == "1.47 EUR");
  CHECK(converted("5000 GRD", "EUR") == "14.67 EUR");
  CHECK(converted("500 EUR", "GRD") == "170375.00 GRD");
  CHECK(converted("1000 GRD", "EUR") == "2.93 EUR");
}

// Council Regulation (EC) No 1103/97 Article 4: no inverse rates, and between two national currencies by way of an
// amount in euro with three decimals or more. The amounts are computed from the regulation's rules.
TEST_CASE("rates are divided by, never inverted, and two currencies meet in euro") {
  CHECK(converted("1000000 FRF", "EUR") == "152449.02 EUR"); // times 0.152449 would be 152449.00
  CHECK(converted("1000 DEM", "FRF") == "3353.86 FRF");      // by 511.292 EUR
  CHECK(converted("1000 DEM", "FRF", 9) == "3353.85 FRF");
  CHECK(converted("100 BEF", "LUF") == "100 LUF");
  CHECK(converted("12.34 EUR", "EUR") == "12.34 EUR");
  const Currency frf = std::get<Currency>(read_currency("FRF"));
  CHECK_THROWS_AS(convert_at_fixed_rates(money("1000 DEM"), frf, 2), std::logic_error);
  CHECK_THROWS_AS(convert_at_fixed_rates(money("1000 GBP"), frf), std::logic_error);
}
