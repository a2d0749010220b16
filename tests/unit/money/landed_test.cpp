// Does every line of a bill say what it is charged on, and is the highest bid affordable and the next one not?
#include <catch2/catch.hpp>

#include <limits>

#include "money/landed.hpp"

using namespace coeval;

namespace {

Currency gbp() { return std::get<Currency>(read_currency("GBP")); }
Decimal percent(std::string_view written) { return std::get<Decimal>(read_percent(written)); }

// 20 % up to 1000.00 and 12 % of what is above, at least 10.00.
BuyersPremium tiered() {
  return {.tiers = {{.up_to = 100'000, .percent = percent("20")}, {.up_to = {}, .percent = percent("12")}},
          .least = 1000};
}

std::int64_t total(const FeeSchedule& schedule, std::int64_t bid) {
  const auto bill = landed(schedule, bid);
  REQUIRE(bill);
  std::int64_t sum = 0;
  for (const LandedLine& line : bill->lines) sum += line.amount;
  CHECK(bill->total.minor == sum);
  return sum;
}

std::string fault(const FeeSchedule& schedule) {
  const auto found = fault_of(schedule);
  REQUIRE(found);
  CHECK_FALSE(found->help.empty());
  CHECK_THROWS_AS(landed(schedule, 1), std::logic_error);
  CHECK_THROWS_AS(ceiling(schedule, 1), std::logic_error);
  return found->message;
}

} // namespace

// Amounts worked by hand from the rules stated in the schedule; no published source.
TEST_CASE("a bill has a line for every charge, with what it is charged on") {
  FeeSchedule schedule{.currency = gbp(), .premium = tiered()};
  schedule.fees = {{.name = "lot fee", .amount = 350}};
  schedule.shipping = 2400;
  schedule.insurance = Insurance{.percent = percent("1.5"), .on = {Cost::hammer, Cost::premium}, .least = 500};
  schedule.levies = {{.kind = Cost::duty,
                      .name = "duty",
                      .percent = percent("4.7"),
                      .on = {Cost::hammer, Cost::premium, Cost::shipping, Cost::insurance},
                      .above = 13'500,
                      .counted = {Cost::hammer}},
                     {.kind = Cost::tax,
                      .name = "import tax",
                      .percent = percent("20"),
                      .on = {Cost::hammer, Cost::premium, Cost::shipping, Cost::insurance, Cost::duty}}};
  REQUIRE_FALSE(fault_of(schedule));
  const auto bill = landed(schedule, 150'000);
  REQUIRE(bill);
  REQUIRE(bill->lines.size() == 7);
  CHECK(bill->lines[0].amount == 150'000);
  CHECK(bill->lines[1].amount == 26'000); // 20 % of 1000.00 and 12 % of 500.00
  REQUIRE(bill->lines[1].parts.size() == 2);
  CHECK(bill->lines[1].parts[0].on == 100'000);
  CHECK(bill->lines[1].parts[1].on == 50'000);
  CHECK(bill->lines[2].name == "lot fee");
  CHECK(bill->lines[2].amount == 350);
  CHECK(bill->lines[3].amount == 2400);
  CHECK(bill->lines[4].amount == 2640); // 1.5 % of 1760.00
  CHECK(bill->lines[5].amount == 8509); // 4.7 % of 1810.40 is 85.0888
  CHECK(bill->lines[5].parts[0].on == 181'040);
  CHECK(bill->lines[6].amount == 37'910); // 20 % of 1895.49 is 379.098
  CHECK(bill->lines[6].on.has(Cost::duty));
  CHECK(bill->total.minor == 150'000 + 26'000 + 350 + 2400 + 2640 + 8509 + 37'910);

  const auto small = landed(schedule, 4000);
  REQUIRE(small);
  CHECK(small->lines[1].amount == 1000);
  CHECK(small->lines[1].held == LandedLine::Held::at_least);
  CHECK(small->lines[4].amount == 500);
  CHECK(small->lines[5].amount == 0);
  CHECK(small->lines[5].held == LandedLine::Held::below_threshold);
  CHECK(small->lines[6].amount == 1580); // 20 % of 79.00, without duty
}

TEST_CASE("a threshold is passed only by more than it") {
  FeeSchedule schedule{.currency = gbp()};
  schedule.levies = {
      {.kind = Cost::duty, .percent = percent("10"), .on = {Cost::hammer}, .above = 1000, .counted = {Cost::hammer}}};
  CHECK(total(schedule, 1000) == 1000);
  CHECK(total(schedule, 1001) == 1101);
  CHECK(ceiling(schedule, 1050) == 1000);
  CHECK(ceiling(schedule, 1100) == 1000);
  CHECK(ceiling(schedule, 1101) == 1001);
}

TEST_CASE("a premium on the whole price may fall where a tier ends, and the highest bid is still found") {
  FeeSchedule schedule{.currency = gbp()};
  schedule.premium = BuyersPremium{
      .tiers = {{.up_to = 1000, .percent = percent("50")}, {.up_to = {}, .percent = percent("10")}}, .on_whole = true};
  CHECK(total(schedule, 1000) == 1500);
  CHECK(total(schedule, 1001) == 1101);
  CHECK(ceiling(schedule, 1101) == 1001); // bids from 735 to 1000 cost more
  CHECK(ceiling(schedule, 1100) == 733);
  CHECK(total(schedule, 733) == 1100);
  CHECK(total(schedule, 734) == 1101);
}

TEST_CASE("each step is rounded to its unit in its way") {
  FeeSchedule schedule{.currency = gbp()};
  schedule.levies = {{.kind = Cost::duty, .percent = percent("2.5"), .on = {Cost::hammer}}};
  const auto duty = [&](Rounding mode, std::int64_t unit, std::int64_t bid) {
    schedule.levies[0].rounding = {.mode = mode, .unit = unit};
    return landed(schedule, bid)->lines[1].amount;
  };
  CHECK(duty(Rounding::half_up, 1, 1020) == 26); // 25.5
  CHECK(duty(Rounding::half_even, 1, 1020) == 26);
  CHECK(duty(Rounding::half_even, 1, 980) == 24); // 24.5
  CHECK(duty(Rounding::half_up, 1, 980) == 25);
  CHECK(duty(Rounding::down, 1, 1020) == 25);
  CHECK(duty(Rounding::up, 1, 1001) == 26);
  CHECK(duty(Rounding::down, 100, 7999) == 100); // 199.975 down to whole pounds
  CHECK(duty(Rounding::half_up, 5, 1100) == 30); // 27.5 to five pence
  CHECK(duty(Rounding::half_even, 5, 1100) == 30);
  CHECK(duty(Rounding::half_even, 5, 900) == 20); // 22.5
}

TEST_CASE("a bid that nothing is left for is none") {
  FeeSchedule schedule{.currency = gbp(), .shipping = 500};
  CHECK_FALSE(ceiling(schedule, 0));
  CHECK_FALSE(ceiling(schedule, 500));
  CHECK(ceiling(schedule, 501) == 1);
  CHECK_FALSE(ceiling(schedule, 599, 100));
  CHECK(ceiling(schedule, 600, 100) == 100);
  CHECK(ceiling(schedule, 799, 100) == 200);
  CHECK(ceiling({.currency = gbp()}, 12345) == 12345);
}

TEST_CASE("the greatest budgets are searched without overflow, and a bill that does not fit is none") {
  constexpr std::int64_t most = std::numeric_limits<std::int64_t>::max();
  FeeSchedule schedule{.currency = gbp(), .premium = tiered()};
  const auto bid = ceiling(schedule, most);
  REQUIRE(bid);
  CHECK(landed(schedule, *bid)->total.minor <= most);
  const auto next = landed(schedule, *bid + 1);
  CHECK_FALSE(next);
  CHECK_FALSE(landed(schedule, most));
}

TEST_CASE("a schedule that cannot be meant is refused") {
  const FeeSchedule sound{.currency = gbp(), .premium = tiered()};
  CHECK_FALSE(fault_of(sound));
  FeeSchedule wrong = sound;
  wrong.premium->tiers.clear();
  CHECK(fault(wrong) == "a buyer's premium without a tier");
  wrong = sound;
  wrong.premium->tiers.back().up_to = 200'000;
  CHECK(fault(wrong) == "the last tier of the buyer's premium ends");
  wrong = sound;
  wrong.premium->tiers.insert(wrong.premium->tiers.begin(), PremiumTier{.up_to = 100'000, .percent = percent("1")});
  CHECK(fault(wrong) == "the tiers of the buyer's premium do not rise");
  wrong = sound;
  wrong.premium->tiers.front().up_to.reset();
  CHECK(fault(wrong) == "a tier of the buyer's premium without end before the last");
  wrong = sound;
  wrong.premium->most = 999;
  CHECK(fault(wrong) == "the buyer's premium has a maximum below its minimum");
  wrong = sound;
  wrong.premium->rounding.unit = 0;
  CHECK(fault(wrong) == "the unit that the buyer's premium is rounded to is not above nought");
  wrong = sound;
  wrong.shipping = -1;
  CHECK(fault(wrong) == "an amount below nought for shipping");
  wrong = sound;
  wrong.fees = {{.name = "lot fee", .amount = -1}};
  CHECK(fault(wrong) == "an amount below nought for a fee");
  wrong = sound;
  wrong.insurance = Insurance{.percent = percent("1"), .on = {Cost::duty}};
  CHECK(fault(wrong) == "insurance is charged on duty, which comes after it");
  wrong = sound;
  wrong.levies = {{.kind = Cost::fee, .percent = percent("1"), .on = {Cost::hammer}}};
  CHECK(fault(wrong) == "fee among duties and taxes");
  wrong.levies = {{.kind = Cost::tax, .percent = percent("1000.1"), .on = {Cost::hammer}}};
  CHECK(fault(wrong) == "1000.1 % for tax");
  wrong.levies = {{.kind = Cost::tax, .percent = percent("1")}};
  CHECK(fault(wrong) == "tax is charged on nothing");
  wrong.levies = {{.kind = Cost::tax, .percent = percent("1"), .on = {Cost::hammer}, .above = 1}};
  CHECK(fault(wrong) == "the threshold of tax counts nothing");
  wrong.levies.assign(1001, {.kind = Cost::tax, .percent = percent("1"), .on = {Cost::hammer}});
  CHECK(fault(wrong) == "1001 duties and taxes");
  CHECK_THROWS_AS(ceiling(sound, -1), std::logic_error);
  CHECK_THROWS_AS(ceiling(sound, 1, 0), std::logic_error);
  CHECK_THROWS_AS(landed(sound, -1), std::logic_error);
}
