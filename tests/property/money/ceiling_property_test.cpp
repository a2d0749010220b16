// Is a bill what its schedule says, and is the highest bid the one that trying every bid finds?
#include <catch2/catch.hpp>

#include <random>

#include "money/landed.hpp"

using namespace coeval;

namespace {

constexpr std::uint64_t seed = 1973;

class Dice {
public:
  std::int64_t roll(std::int64_t low, std::int64_t high) {
    return std::uniform_int_distribution<std::int64_t>(low, high)(random_);
  }
  bool one_in(int sides) { return roll(1, sides) == 1; }

private:
  std::mt19937_64 random_{seed};
};

Decimal any_percent(Dice& dice) {
  const auto scale = static_cast<std::int32_t>(dice.roll(0, 3));
  return {.digits = dice.roll(0, scale == 0 ? 60 : 6000), .scale = scale};
}

StepRounding any_rounding(Dice& dice) {
  return {.mode = static_cast<Rounding>(dice.roll(0, 3)), .unit = dice.one_in(2) ? 1 : dice.roll(1, 120)};
}

CostSet any_costs(Dice& dice, std::initializer_list<Cost> of) {
  CostSet costs{Cost::hammer};
  if (dice.one_in(5)) costs = {};
  for (const Cost cost : of)
    if (dice.one_in(2)) costs.add(cost);
  if (costs.empty()) costs.add(Cost::shipping);
  return costs;
}

FeeSchedule any_schedule(Dice& dice) {
  FeeSchedule schedule{.currency = std::get<Currency>(read_currency("GBP"))};
  if (!dice.one_in(5)) {
    BuyersPremium premium;
    std::int64_t up_to = 0;
    for (std::int64_t tier = dice.roll(0, 4); tier > 0; --tier)
      premium.tiers.push_back({.up_to = up_to += dice.roll(1, 700), .percent = any_percent(dice)});
    premium.tiers.push_back({.up_to = {}, .percent = any_percent(dice)});
    premium.on_whole = dice.one_in(2);
    if (dice.one_in(2)) premium.least = dice.roll(0, 200);
    if (dice.one_in(2)) premium.most = premium.least + dice.roll(0, 300);
    premium.rounding = any_rounding(dice);
    schedule.premium = premium;
  }
  for (std::int64_t fee = dice.roll(0, 2); fee > 0; --fee)
    schedule.fees.push_back({.name = "", .amount = dice.roll(0, 50)});
  if (dice.one_in(2)) schedule.shipping = dice.roll(0, 150);
  if (dice.one_in(2))
    schedule.insurance = Insurance{.percent = any_percent(dice),
                                   .on = any_costs(dice, {Cost::premium, Cost::fee, Cost::shipping}),
                                   .least = dice.roll(0, 60),
                                   .rounding = any_rounding(dice)};
  const auto all = {Cost::premium, Cost::fee, Cost::shipping, Cost::insurance, Cost::duty, Cost::tax};
  for (std::int64_t levy = dice.roll(0, 3); levy > 0; --levy) {
    schedule.levies.push_back({.kind = dice.one_in(2) ? Cost::duty : Cost::tax,
                               .percent = any_percent(dice),
                               .on = any_costs(dice, all),
                               .rounding = any_rounding(dice)});
    if (dice.one_in(2)) {
      schedule.levies.back().above = dice.roll(0, 900);
      schedule.levies.back().counted = any_costs(dice, all);
    }
  }
  return schedule;
}

// The bill computed anew, in thousandths of a percent: 64 bits are enough for amounts as small as these.
class PlainBill {
public:
  PlainBill(const FeeSchedule& schedule, std::int64_t bid) : sums_(kinds_of_cost, 0) {
    sum(Cost::hammer) = bid;
    if (schedule.premium) sum(Cost::premium) = premium(*schedule.premium, bid);
    for (const FixedFee& fee : schedule.fees) sum(Cost::fee) += fee.amount;
    sum(Cost::shipping) = schedule.shipping;
    if (schedule.insurance) {
      const Insurance& insurance = *schedule.insurance;
      const std::int64_t charge = to_unit(thousandths(insurance.percent) * on(insurance.on), insurance.rounding);
      sum(Cost::insurance) = charge < insurance.least ? insurance.least : charge;
    }
    for (const Levy& levy : schedule.levies)
      if (!levy.above || on(levy.counted) > *levy.above)
        sum(levy.kind) += to_unit(thousandths(levy.percent) * on(levy.on), levy.rounding);
  }

  [[nodiscard]] std::int64_t total() const {
    std::int64_t total = 0;
    for (const std::int64_t part : sums_) total += part;
    return total;
  }

private:
  std::int64_t& sum(Cost cost) { return sums_[static_cast<std::size_t>(cost)]; }

  [[nodiscard]] std::int64_t on(const CostSet& costs) const {
    std::int64_t total = 0;
    for (std::size_t cost = 0; cost < sums_.size(); ++cost)
      if (costs.has(static_cast<Cost>(cost))) total += sums_[cost];
    return total;
  }

  static std::int64_t thousandths(const Decimal& percent) {
    std::int64_t value = percent.digits;
    for (int at = percent.scale; at < 3; ++at) value *= 10;
    return value;
  }

  // `parts` are hundred-thousandths of a minor unit.
  static std::int64_t to_unit(std::int64_t parts, const StepRounding& rounding) {
    const std::int64_t unit = rounding.unit * 100'000;
    std::int64_t units = parts / unit;
    const std::int64_t rest = parts - units * unit;
    if (rounding.mode == Rounding::up && rest > 0) ++units;
    if (rounding.mode == Rounding::half_up && rest * 2 >= unit) ++units;
    if (rounding.mode == Rounding::half_even && (rest * 2 > unit || (rest * 2 == unit && units % 2 == 1))) ++units;
    return units * rounding.unit;
  }

  static std::int64_t premium(const BuyersPremium& premium, std::int64_t bid) {
    std::int64_t parts = 0;
    if (premium.on_whole) {
      std::size_t tier = 0;
      while (premium.tiers[tier].up_to && bid > *premium.tiers[tier].up_to) ++tier;
      parts = thousandths(premium.tiers[tier].percent) * bid;
    } else { // unit by unit
      std::size_t tier = 0;
      for (std::int64_t unit = 1; unit <= bid; ++unit) {
        while (premium.tiers[tier].up_to && unit > *premium.tiers[tier].up_to) ++tier;
        parts += thousandths(premium.tiers[tier].percent);
      }
    }
    std::int64_t charge = to_unit(parts, premium.rounding);
    if (charge < premium.least) charge = premium.least;
    if (premium.most && charge > *premium.most) charge = *premium.most;
    return charge;
  }

  std::vector<std::int64_t> sums_;
};

} // namespace

TEST_CASE("a random bill is what its schedule says") {
  Dice dice;
  for (int round = 0; round < 3000; ++round) {
    const FeeSchedule schedule = any_schedule(dice);
    INFO("seed " << seed << ", round " << round);
    REQUIRE_FALSE(fault_of(schedule));
    for (int bids = 0; bids < 5; ++bids) {
      const std::int64_t bid = dice.roll(0, 4000);
      const auto bill = landed(schedule, bid);
      REQUIRE(bill);
      REQUIRE(bill->total.minor == PlainBill(schedule, bid).total());
      std::int64_t sum = 0;
      for (const LandedLine& line : bill->lines) sum += line.amount;
      REQUIRE(sum == bill->total.minor);
    }
  }
}

TEST_CASE("the highest bid is affordable, the next is not, and no higher one is") {
  Dice dice;
  std::size_t none = 0;
  std::size_t falling = 0; // where a bid within the highest one is dearer than the budget
  for (int round = 0; round < 2000; ++round) {
    const FeeSchedule schedule = any_schedule(dice);
    const std::int64_t budget = dice.roll(0, 1500);
    const std::int64_t increment = dice.one_in(3) ? dice.roll(2, 60) : 1;
    INFO("seed " << seed << ", round " << round << ", budget " << budget << ", increment " << increment);
    std::optional<std::int64_t> expected;
    bool dearer = false;
    bool fell = false;
    for (std::int64_t bid = increment; bid <= budget; bid += increment) {
      if (PlainBill(schedule, bid).total() > budget) {
        dearer = true;
      } else {
        expected = bid;
        fell = fell || dearer;
      }
    }
    const auto found = ceiling(schedule, budget, increment);
    REQUIRE(found == expected);
    if (found) {
      REQUIRE(landed(schedule, *found)->total.minor <= budget);
      REQUIRE(landed(schedule, *found + increment)->total.minor > budget);
    }
    none += found ? 0 : 1;
    falling += fell ? 1 : 0;
  }
  CHECK(none > 100);
  CHECK(falling > 20);
}
