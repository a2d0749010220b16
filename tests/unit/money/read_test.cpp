// Is an amount read exactly, or refused with a word on what would do?
#include <catch2/catch.hpp>

#include <limits>

#include "money/money.hpp"

using namespace coeval;

namespace {

Currency currency(std::string_view code) {
  const auto read = read_currency(code);
  INFO(code);
  REQUIRE(std::holds_alternative<Currency>(read));
  return std::get<Currency>(read);
}

Money money(std::string_view text, Sign sign = Sign::none) {
  const auto read = read_money(text, sign);
  INFO(text << ": " << (std::holds_alternative<MisreadAmount>(read) ? std::get<MisreadAmount>(read).message : ""));
  REQUIRE(std::holds_alternative<Money>(read));
  return std::get<Money>(read);
}

MisreadAmount refusal(std::string_view text, Sign sign = Sign::none) {
  const auto read = read_money(text, sign);
  INFO(text);
  REQUIRE(std::holds_alternative<MisreadAmount>(read));
  CHECK_FALSE(std::get<MisreadAmount>(read).message.empty());
  CHECK_FALSE(std::get<MisreadAmount>(read).help.empty());
  return std::get<MisreadAmount>(read);
}

} // namespace

TEST_CASE("an amount has the decimals of its currency, or fewer") {
  CHECK(money("41.50 GBP") == Money{currency("GBP"), 4150});
  CHECK(money("41.5 GBP").minor == 4150);
  CHECK(money("41 GBP").minor == 4100);
  CHECK(money("0.05 GBP").minor == 5);
  CHECK(money("1200 JPY").minor == 1200);
  CHECK(money("1.234 KWD").minor == 1234);
  CHECK(money("0.0001 CLF").minor == 1);
  CHECK(money("75000 ITL").minor == 75000);
  CHECK(money("49.90 DEM").minor == 4990);
  CHECK(text(money("41.5 GBP")) == "41.50 GBP");
  CHECK(text(money("1200 JPY")) == "1200 JPY");
  CHECK(text(money("0.05 GBP")) == "0.05 GBP");
  CHECK(amount_text(money("0.05 GBP")) == "0.05");
}

TEST_CASE("a minus stands only where one is asked for") {
  CHECK(money("-0.05 GBP", Sign::minus).minor == -5);
  CHECK(text(money("-0.05 GBP", Sign::minus)) == "-0.05 GBP");
  CHECK(refusal("-0.05 GBP").message == "`-` in a number");
  CHECK(refusal("--0.05 GBP", Sign::minus).message == "`-` in a number");
  CHECK(refusal("+1 GBP", Sign::minus).message == "`+` in a number");
}

TEST_CASE("what is not an amount is refused with its repair") {
  CHECK(refusal("").message == "an amount is missing");
  CHECK(refusal("41.50").message == "no amount with its currency: `41.50`");
  CHECK(refusal("GBP 41.50").message == "the currency stands first: `GBP 41.50`");
  CHECK(refusal(" 41.50").help == "write it like `41.50 GBP`");
  CHECK(refusal("41,50 GBP").help == "decimals stand behind a point and thousands have no marks: `1234.50`");
  CHECK(refusal("1 234.50 GBP").help == "thousands have no marks: `1234.50`");
  CHECK(refusal("1.234.50 GBP").message == "a second point in a number");
  CHECK(refusal("1e3 GBP").help == "write all digits, without an exponent");
  CHECK(refusal(".5 GBP").message == "no digit before the point");
  CHECK(refusal("5. GBP").message == "no digit behind the point");
  CHECK(refusal("£41 GBP").message == "byte 0xC2 in a number");
  CHECK(refusal("0x1F GBP").message == "`x` in a number");
  CHECK(refusal("nan GBP").message == "the currency stands first: `nan GBP`");
  CHECK(refusal("41.505 GBP").message == "3 decimals in an amount of GBP");
  CHECK(refusal("41.505 GBP").help == "GBP has 2: round it as the bill does");
  CHECK(refusal("41.5 JPY").help == "JPY has no minor unit: write whole units");
  CHECK(refusal("41.50 GBP ").message == "a currency is missing");
}

TEST_CASE("a currency that is not one is refused, naming near ones") {
  CHECK(refusal("41.50 gbp").help == "a currency is written in capitals: `GBP`");
  CHECK(refusal("41.50 GPB").help == "did you mean `GBP`?");
  CHECK(refusal("41.50 EUO").help == "did you mean `EUR`?");
  CHECK(refusal("41.50 QQQ").help == "a currency is three letters of ISO 4217, such as `GBP`, `EUR` or `USD`");
  CHECK(refusal("41.50 POUND").message == "there is no currency `POUND`");
  CHECK(refusal("1 XAU").message == "`XAU` is no money: ISO 4217 gives it no minor unit");
  CHECK(refusal("1 XTS").message == "`XTS` is no money: ISO 4217 gives it no minor unit");
  CHECK(refusal("1 xau").help == "a currency is written in capitals: `XAU`");
}

TEST_CASE("sizes are limited and nothing hostile comes back") {
  CHECK(money("9999999999999.99 GBP").minor == greatest_minor);
  CHECK(refusal("10000000000000.00 GBP").help == "no more than 9999999999999.99 GBP are read");
  CHECK(money("999999999999999 JPY").minor == greatest_minor);
  CHECK(refusal("1000000000000000 JPY").message == "an amount that is too large");
  CHECK(refusal(std::string(100'000, '9') + " GBP").message == "100000 digits in a number");
  CHECK(refusal(std::string("1\x1B[31m GBP")).message == "byte 0x1B in a number");
  CHECK(refusal("1 GB\x1B[31m").message == "there is no currency byte 0x1B");
  CHECK(refusal("1 " + std::string(100'000, 'A')).message == "there is no currency `AAAAAAAAAAAAAAAAAAAAAAAA…`");
  CHECK(refusal(std::string("1\0 GBP", 6)).message == "byte 0x00 in a number");
}

TEST_CASE("rates and percents keep what was written and compare by value") {
  const auto decimal = [](std::string_view written) { return std::get<Decimal>(read_decimal(written)); };
  CHECK(decimal("1.1745").digits == 11745);
  CHECK(decimal("1.1745").scale == 4);
  CHECK(text(decimal("7.50")) == "7.50");
  CHECK(text(decimal("0.05")) == "0.05");
  CHECK(text(Decimal{.digits = -5, .scale = 2}) == "-0.05");
  CHECK(text(Decimal{.digits = std::numeric_limits<std::int64_t>::min(), .scale = 18}) == "-9.223372036854775808");
  CHECK(decimal("7.50") == decimal("7.5"));
  CHECK(decimal("7.51") > decimal("7.5"));
  CHECK(decimal("0.00000000000000001") < decimal("999999999999999999"));
  for (const std::string_view written : {"2.5", "2.5%", "2.5 %"})
    CHECK(std::get<Decimal>(read_percent(written)) == Decimal{.digits = 25, .scale = 1});
  for (const std::string_view written : {"", "%", " %", "2.5  %", "-2.5", "2.5 %%", "1e2", "0.0000000000000000001"}) {
    INFO(written);
    CHECK(std::holds_alternative<MisreadAmount>(read_percent(written)));
  }
}

TEST_CASE("sums that do not fit are no amounts, and two currencies are never added") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  const Currency gbp = currency("GBP");
  CHECK(add({gbp, most - 1}, {gbp, 1}) == Money{gbp, most});
  CHECK_FALSE(add({gbp, most}, {gbp, 1}));
  CHECK_FALSE(add({gbp, -most - 1}, {gbp, -1}));
  CHECK(add({gbp, most}, {gbp, -most}) == Money{gbp, 0});
  CHECK_THROWS_AS(add({gbp, 1}, {currency("EUR"), 1}), std::logic_error);
}

TEST_CASE("a rate is multiplied or divided by, and what does not fit is no amount") {
  const Currency gbp = currency("GBP");
  const Currency eur = currency("EUR");
  const Currency jpy = currency("JPY");
  const ExchangeRate rate{.one = gbp, .is = {.digits = 11745, .scale = 4}, .other = eur};
  CHECK(convert({gbp, 10000}, rate, Rounding::half_up) == Money{eur, 11745});
  CHECK(convert({eur, 11745}, rate, Rounding::half_up) == Money{gbp, 10000});
  CHECK(convert({eur, 10000}, rate, Rounding::down) == Money{gbp, 8514}); // 85.1425 …
  CHECK(convert({eur, 10000}, rate, Rounding::up) == Money{gbp, 8515});
  const ExchangeRate yen{.one = gbp, .is = {.digits = 1905, .scale = 1}, .other = jpy};
  CHECK(convert({gbp, 101}, yen, Rounding::half_even) == Money{jpy, 192}); // 192.405
  CHECK(convert({jpy, 1905}, yen, Rounding::half_even) == Money{gbp, 1000});
  CHECK_FALSE(convert({gbp, std::numeric_limits<std::int64_t>::max()}, yen, Rounding::down));
  CHECK_FALSE(convert({gbp, std::numeric_limits<std::int64_t>::max()}, rate, Rounding::down));
  CHECK_THROWS_AS(convert({jpy, 1}, rate, Rounding::down), std::logic_error);
  CHECK_THROWS_AS(convert({gbp, 1}, {.one = gbp, .is = {}, .other = eur}, Rounding::down), std::logic_error);
}
