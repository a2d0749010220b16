// Does a bill agree with a customs authority's own worked example?
#include <catch2/catch.hpp>

#include "money/landed.hpp"

using namespace coeval;

namespace {

Currency eur() { return std::get<Currency>(read_currency("EUR")); }
Decimal percent(std::string_view written) { return std::get<Decimal>(read_percent(written)); }

} // namespace

// Revenue (Ireland), revenue.ie, "Calculating Customs Duty and VAT: from outside the EU", standard rate of duty, plus
// VAT: shirts of 600 euro at 2.5 % duty are 15 euro; VAT of 23 % on a camera of 500 euro free of duty, the shirts and
// the duty, 1115 euro, is 256.45 euro; 271.45 euro are due. The camera stands here as a fee that duty is not charged
// on.
TEST_CASE("duty on a part of the goods, and VAT on all of them and on the duty") {
  FeeSchedule schedule{.currency = eur()};
  schedule.fees = {{.name = "camera", .amount = 50'000}};
  schedule.levies = {
      {.kind = Cost::duty, .name = "Customs Duty", .percent = percent("2.5"), .on = {Cost::hammer}},
      {.kind = Cost::tax, .name = "VAT", .percent = percent("23"), .on = {Cost::hammer, Cost::fee, Cost::duty}}};
  const auto bill = landed(schedule, 60'000);
  REQUIRE(bill);
  REQUIRE(bill->lines.size() == 4);
  CHECK(bill->lines[2].amount == 1500);
  CHECK(bill->lines[3].parts[0].on == 111'500);
  CHECK(bill->lines[3].amount == 25'645);
  CHECK(bill->lines[2].amount + bill->lines[3].amount == 27'145);
  CHECK(ceiling(schedule, bill->total.minor) == 60'000);
}

// Revenue (Ireland), revenue.ie, "Buying goods from outside the European Union" (2021): no duty where the goods alone,
// without transport and insurance, are worth no more than 150 euro; otherwise duty on goods, transport and insurance;
// VAT on that value and the duty. The rules are the page's; the amounts are computed from them.
TEST_CASE("the relief counts the goods alone, and duty is charged on transport too") {
  FeeSchedule schedule{.currency = eur(), .shipping = 2500};
  schedule.levies = {{.kind = Cost::duty,
                      .name = "duty",
                      .percent = percent("4.7"),
                      .on = {Cost::hammer, Cost::shipping, Cost::insurance},
                      .above = 15'000,
                      .counted = {Cost::hammer}},
                     {.kind = Cost::tax,
                      .name = "VAT",
                      .percent = percent("23"),
                      .on = {Cost::hammer, Cost::shipping, Cost::insurance, Cost::duty}}};
  const auto relieved = landed(schedule, 15'000);
  REQUIRE(relieved);
  CHECK(relieved->total.minor == 17'500 + 4025);
  const auto charged = landed(schedule, 15'001);
  REQUIRE(charged);
  CHECK(charged->total.minor == 17'501 + 823 + 4215); // 822.547 and 4214.52
}
