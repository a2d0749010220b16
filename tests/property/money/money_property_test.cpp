// Do random sums, conversions and texts agree with arithmetic that is written here anew?
#include <catch2/catch.hpp>

#include <algorithm>
#include <limits>
#include <random>
#include <string>

#include "money/money.hpp"

using namespace coeval;

namespace {

__extension__ using Wide = __int128;

constexpr std::uint64_t seed = 4217;

// Schoolbook addition of numbers written in decimal: nothing of it is shared with the program.
std::string sum_of_texts(const std::string& one, const std::string& other) {
  std::string sum;
  int carry = 0;
  for (std::size_t at = 0; at < std::max(one.size(), other.size()) || carry != 0; ++at) {
    int digit = carry;
    if (at < one.size()) digit += one[one.size() - 1 - at] - '0';
    if (at < other.size()) digit += other[other.size() - 1 - at] - '0';
    sum.insert(sum.begin(), static_cast<char>('0' + digit % 10));
    carry = digit / 10;
  }
  return sum;
}

Currency currency(std::string_view code) { return std::get<Currency>(read_currency(code)); }

std::int64_t any_amount(std::mt19937_64& random) {
  const auto digits = std::uniform_int_distribution<int>(1, 15)(random);
  std::int64_t bound = 1;
  for (int digit = 0; digit < digits; ++digit) bound *= 10;
  return std::uniform_int_distribution<std::int64_t>(0, bound - 1)(random);
}

} // namespace

TEST_CASE("what is written for any amount of any currency is read back as it was") {
  std::mt19937_64 random(seed);
  for (const std::string_view code : currency_codes())
    for (int round = 0; round < 50; ++round) {
      const Money money{currency(code), any_amount(random) * (round % 2 == 0 ? 1 : -1)};
      const auto read = read_money(text(money), Sign::minus);
      INFO(text(money) << ", seed " << seed);
      REQUIRE(std::holds_alternative<Money>(read));
      CHECK(std::get<Money>(read) == money);
    }
}

TEST_CASE("random sums agree with schoolbook addition, and stop where 64 bits end") {
  std::mt19937_64 random(seed);
  const Currency yen = currency("JPY");
  for (int round = 0; round < 200; ++round) {
    INFO("seed " << seed << ", round " << round);
    std::optional<Money> sum = Money{yen, 0};
    std::string expected = "0";
    const std::int64_t spread = round % 2 == 0 ? 1'000'000'000 : std::numeric_limits<std::int64_t>::max() / 90;
    for (int term = 0; term < 100 && sum; ++term) {
      const auto minor = std::uniform_int_distribution<std::int64_t>(0, spread)(random);
      expected = sum_of_texts(expected, std::to_string(minor));
      sum = add(*sum, {yen, minor});
    }
    const std::string greatest = std::to_string(std::numeric_limits<std::int64_t>::max());
    const bool fits = expected.size() < greatest.size() || (expected.size() == greatest.size() && expected <= greatest);
    REQUIRE(sum.has_value() == fits);
    if (sum) CHECK(amount_text(*sum) == expected);
  }
}

TEST_CASE("a conversion is the whole number next to the exact one, on the side that its rounding says") {
  std::mt19937_64 random(seed);
  const std::vector<std::string_view> codes = {"GBP", "EUR", "JPY", "KWD", "CLF", "DEM"};
  std::size_t halves = 0;
  for (int round = 0; round < 20'000; ++round) {
    const auto pick = [&] {
      return currency(codes[std::uniform_int_distribution<std::size_t>(0, codes.size() - 1)(random)]);
    };
    const Currency one = pick();
    const Currency other = pick();
    if (one == other) continue;
    // Small rates and amounts meet the half-way often.
    const Decimal rate{.digits =
                           std::uniform_int_distribution<std::int64_t>(1, round % 2 == 0 ? 20 : 999'999'999)(random),
                       .scale = std::uniform_int_distribution<std::int32_t>(0, round % 2 == 0 ? 2 : 8)(random)};
    const std::int64_t minor =
        std::uniform_int_distribution<std::int64_t>(-1000, round % 2 == 0 ? 1000 : 100'000'000)(random);
    const bool divides = round % 3 == 0;
    const Currency from = divides ? other : one;
    const Currency to = divides ? one : other;
    Wide over = minor;
    Wide under = 1;
    for (int at = 0; at < to.decimals(); ++at) over *= 10;
    for (int at = 0; at < from.decimals(); ++at) under *= 10;
    Wide scale = 1;
    for (int at = 0; at < rate.scale; ++at) scale *= 10;
    over *= divides ? scale : rate.digits;
    under *= divides ? rate.digits : scale;
    const int sign = over < 0 ? -1 : 1;
    for (const Rounding rounding : {Rounding::half_up, Rounding::half_even, Rounding::up, Rounding::down}) {
      const auto converted = convert({from, minor}, {.one = one, .is = rate, .other = other}, rounding);
      INFO("seed " << seed << ", round " << round << ": " << text(Money{from, minor}) << " at " << text(rate) << ", "
                   << text(rounding));
      const Wide nearest = over / under * sign;
      if (!converted) {
        REQUIRE(nearest >= std::numeric_limits<std::int64_t>::max() - 1);
        continue;
      }
      // How far the result is from the exact number, away from zero, in parts of `under`.
      const Wide beyond = (Wide(converted->minor) * under - over) * sign;
      REQUIRE(beyond < under);
      REQUIRE(-beyond < under);
      switch (rounding) {
      case Rounding::half_up:
        REQUIRE((-2 * beyond < under && 2 * beyond <= under));
        break;
      case Rounding::half_even:
        REQUIRE((-2 * beyond <= under && 2 * beyond <= under));
        if (2 * beyond == under || -2 * beyond == under) {
          REQUIRE(converted->minor % 2 == 0);
          ++halves;
        }
        break;
      case Rounding::up:
        REQUIRE(beyond >= 0);
        break;
      case Rounding::down:
        REQUIRE(beyond <= 0);
        break;
      }
    }
  }
  CHECK(halves > 100);
}
