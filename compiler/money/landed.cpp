#include "money/landed.hpp"

#include <algorithm>
#include <array>
#include <stdexcept>

#include <fmt/format.h>

#include "money/exact.hpp"

// How the highest bid is found. Within one tier of the premium every step is a rounded, limited or thresholded sum of
// non-negative multiples of what comes before it, and none of those falls when a step before it rises: in a tier that
// is charged on the whole hammer price too. So within a tier the total rises by at least one with every unit bid, and
// the bids that are affordable are the lowest ones of the tier. Only where a tier charged on the whole ends can the
// total fall. The search therefore goes through the tiers from the highest to the lowest and halves the range within
// the first one whose lowest bid is affordable.

namespace coeval {

namespace {

constexpr std::size_t most_rows = 1000;
constexpr Decimal most_percent{.digits = 1000, .scale = 0};
constexpr std::array all_costs{Cost::hammer,    Cost::premium, Cost::fee, Cost::shipping,
                               Cost::insurance, Cost::duty,    Cost::tax};
static_assert(all_costs.size() == kinds_of_cost);

std::size_t place(Cost cost) { return static_cast<std::size_t>(cost); }

struct ExactPart {
  Decimal percent;
  Whole on;
};

struct ExactLine {
  LandedLine line; // all but the amounts
  std::vector<ExactPart> parts;
  Whole amount;
};

// The bill, amounts without bound.
class Bill {
public:
  Bill(const FeeSchedule& schedule, const Whole& bid) {
    take(plain(Cost::hammer, {}, bid));
    if (schedule.premium) take(premium_on(*schedule.premium, bid));
    for (const FixedFee& fee : schedule.fees) take(plain(Cost::fee, fee.name, fee.amount));
    if (schedule.shipping > 0) take(plain(Cost::shipping, {}, schedule.shipping));
    if (schedule.insurance) take(insurance_on(*schedule.insurance));
    for (const Levy& levy : schedule.levies) take(levied(levy));
  }

  [[nodiscard]] const Whole& total() const { return total_; }
  [[nodiscard]] const std::vector<ExactLine>& lines() const { return lines_; }

private:
  static ExactLine plain(Cost cost, std::string name, const Whole& amount) {
    return {.line = {.cost = cost, .name = std::move(name)}, .parts = {}, .amount = amount};
  }

  static Whole charged(const std::vector<ExactPart>& parts, const StepRounding& rounding) {
    Exact sum{0, 100 * power_of_ten(greatest_scale)};
    for (const ExactPart& part : parts)
      sum.over += part.on * part.percent.digits * power_of_ten(greatest_scale - part.percent.scale);
    return rounded(sum, rounding.mode, rounding.unit);
  }

  static ExactLine premium_on(const BuyersPremium& premium, const Whole& bid) {
    ExactLine line = {.line = {.cost = Cost::premium, .on = {Cost::hammer}, .rounding = premium.rounding}};
    Whole below = 0; // where the tier begins
    for (const PremiumTier& tier : premium.tiers) {
      const bool ends_here = !tier.up_to || bid <= *tier.up_to;
      if (premium.on_whole && ends_here) line.parts.push_back({tier.percent, bid});
      if (!premium.on_whole && (bid > below || below == 0))
        line.parts.push_back({tier.percent, (ends_here ? bid : Whole(*tier.up_to)) - below});
      if (ends_here) break;
      below = *tier.up_to;
    }
    line.amount = charged(line.parts, premium.rounding);
    hold_up(line, premium.least);
    if (premium.most && line.amount > *premium.most) {
      line.amount = *premium.most;
      line.line.held = LandedLine::Held::at_most;
    }
    return line;
  }

  ExactLine insurance_on(const Insurance& insurance) {
    ExactLine line = {.line = {.cost = Cost::insurance, .on = insurance.on, .rounding = insurance.rounding}};
    line.parts.push_back({insurance.percent, sum_of(insurance.on)});
    line.amount = charged(line.parts, insurance.rounding);
    hold_up(line, insurance.least);
    return line;
  }

  ExactLine levied(const Levy& levy) {
    ExactLine line = {.line = {.cost = levy.kind, .name = levy.name, .on = levy.on, .rounding = levy.rounding}};
    line.parts.push_back({levy.percent, sum_of(levy.on)});
    if (levy.above && sum_of(levy.counted) <= *levy.above)
      line.line.held = LandedLine::Held::below_threshold;
    else
      line.amount = charged(line.parts, levy.rounding);
    return line;
  }

  static void hold_up(ExactLine& line, std::int64_t least) {
    if (line.amount >= least) return;
    line.amount = least;
    line.line.held = LandedLine::Held::at_least;
  }

  [[nodiscard]] Whole sum_of(const CostSet& costs) const {
    Whole sum = 0;
    for (const Cost cost : all_costs)
      if (costs.has(cost)) sum += sums_[place(cost)];
    return sum;
  }

  void take(ExactLine line) {
    sums_[place(line.line.cost)] += line.amount;
    total_ += line.amount;
    lines_.push_back(std::move(line));
  }

  std::array<Whole, kinds_of_cost> sums_{};
  Whole total_ = 0;
  std::vector<ExactLine> lines_;
};

bool out_of_range(const Decimal& percent) { return percent.digits < 0 || percent > most_percent; }

MisreadAmount wrong_percent(std::string_view where, const Decimal& percent) {
  return {fmt::format("{} % for {}", text(percent), where),
          fmt::format("a percent lies between 0 and {}", text(most_percent))};
}

MisreadAmount below_nought(std::string_view where) {
  return {fmt::format("an amount below nought for {}", where), "charges are written without a sign"};
}

std::optional<MisreadAmount> fault_of_rounding(std::string_view where, const StepRounding& rounding) {
  if (rounding.unit >= 1 && rounding.unit <= greatest_minor) return std::nullopt;
  return MisreadAmount{fmt::format("the unit that {} is rounded to is not above nought", where),
                       "round to one minor unit or more"};
}

void demand_sound(const FeeSchedule& schedule, std::int64_t amount) {
  if (const auto fault = fault_of(schedule)) throw std::logic_error("money: " + fault->message);
  if (amount < 0) throw std::logic_error("money: a bid or budget below nought");
}

// The most that `low` .. `high` steps of `increment` can be bid within the budget, where that rises with the bid.
std::optional<Whole> highest_step(const FeeSchedule& schedule, const Whole& budget, std::int64_t increment, Whole low,
                                  Whole high) {
  const auto affordable = [&](const Whole& steps) { return Bill(schedule, steps * increment).total() <= budget; };
  if (low > high || !affordable(low)) return std::nullopt;
  while (low < high) {
    const Whole middle = (low + high + 1) / 2;
    if (affordable(middle))
      low = middle;
    else
      high = middle - 1;
  }
  return low;
}

} // namespace

std::string_view text(Cost cost) {
  switch (cost) {
  case Cost::hammer:
    return "hammer";
  case Cost::premium:
    return "premium";
  case Cost::fee:
    return "fee";
  case Cost::shipping:
    return "shipping";
  case Cost::insurance:
    return "insurance";
  case Cost::duty:
    return "duty";
  case Cost::tax:
    return "tax";
  }
  return {};
}

std::optional<MisreadAmount> fault_of(const BuyersPremium& premium) {
  constexpr std::string_view where = "the buyer's premium";
  if (premium.tiers.empty()) return MisreadAmount{"a buyer's premium without a tier", "give its percent"};
  if (premium.tiers.size() > most_rows)
    return MisreadAmount{fmt::format("{} tiers of the buyer's premium", premium.tiers.size()),
                         fmt::format("no more than {} are read", most_rows)};
  std::int64_t below = 0;
  for (const PremiumTier& tier : premium.tiers) {
    const bool last = &tier == &premium.tiers.back();
    if (out_of_range(tier.percent)) return wrong_percent(where, tier.percent);
    if (last && tier.up_to)
      return MisreadAmount{"the last tier of the buyer's premium ends", "leave its end away: it holds for all above"};
    if (!last && !tier.up_to)
      return MisreadAmount{"a tier of the buyer's premium without end before the last",
                           "say up to which price it holds"};
    if (tier.up_to && *tier.up_to <= below)
      return MisreadAmount{"the tiers of the buyer's premium do not rise",
                           "order them by the price up to which they hold"};
    below = tier.up_to.value_or(below);
  }
  if (premium.least < 0 || (premium.most && *premium.most < 0)) return below_nought(where);
  if (premium.most && *premium.most < premium.least)
    return MisreadAmount{"the buyer's premium has a maximum below its minimum", "swap the two"};
  return fault_of_rounding(where, premium.rounding);
}

std::optional<MisreadAmount> fault_of(const Insurance& insurance) {
  constexpr std::string_view where = "insurance";
  if (out_of_range(insurance.percent)) return wrong_percent(where, insurance.percent);
  if (insurance.least < 0) return below_nought(where);
  for (const Cost cost : {Cost::insurance, Cost::duty, Cost::tax})
    if (insurance.on.has(cost))
      return MisreadAmount{fmt::format("insurance is charged on {}, which comes after it", text(cost)),
                           "charge it on hammer, premium, fee or shipping"};
  if (insurance.on.empty()) return MisreadAmount{"insurance is charged on nothing", "say on what, such as hammer"};
  return fault_of_rounding(where, insurance.rounding);
}

std::optional<MisreadAmount> fault_of(const Levy& levy) {
  const std::string_view where = text(levy.kind);
  if (levy.kind != Cost::duty && levy.kind != Cost::tax)
    return MisreadAmount{fmt::format("{} among duties and taxes", text(levy.kind)), "a levy is duty or tax"};
  if (out_of_range(levy.percent)) return wrong_percent(where, levy.percent);
  if (levy.above && *levy.above < 0) return below_nought(where);
  if (levy.on.empty())
    return MisreadAmount{fmt::format("{} is charged on nothing", where), "say on what, such as hammer"};
  if (levy.above && levy.counted.empty())
    return MisreadAmount{fmt::format("the threshold of {} counts nothing", where), "say what counts, such as hammer"};
  return fault_of_rounding(where, levy.rounding);
}

std::optional<MisreadAmount> fault_of(const FeeSchedule& schedule) {
  if (schedule.premium)
    if (auto fault = fault_of(*schedule.premium)) return fault;
  for (const auto& [what, rows] :
       {std::pair("fees", schedule.fees.size()), std::pair("duties and taxes", schedule.levies.size())})
    if (rows > most_rows)
      return MisreadAmount{fmt::format("{} {}", rows, what), fmt::format("no more than {} are read", most_rows)};
  for (const FixedFee& fee : schedule.fees)
    if (fee.amount < 0) return below_nought("a fee");
  if (schedule.shipping < 0) return below_nought("shipping");
  if (schedule.insurance)
    if (auto fault = fault_of(*schedule.insurance)) return fault;
  for (const Levy& levy : schedule.levies)
    if (auto fault = fault_of(levy)) return fault;
  return std::nullopt;
}

std::optional<Landed> landed(const FeeSchedule& schedule, std::int64_t bid) {
  demand_sound(schedule, bid);
  const Bill bill(schedule, bid);
  const auto total = fitting(bill.total());
  if (!total) return std::nullopt; // and every line is no more than the total
  Landed result = {.lines = {}, .total = {.currency = schedule.currency, .minor = *total}};
  result.lines.reserve(bill.lines().size());
  for (const ExactLine& exact_line : bill.lines()) {
    LandedLine line = exact_line.line;
    line.amount = static_cast<std::int64_t>(exact_line.amount);
    for (const ExactPart& part : exact_line.parts)
      line.parts.push_back({.percent = part.percent, .on = static_cast<std::int64_t>(part.on)});
    result.lines.push_back(std::move(line));
  }
  return result;
}

std::optional<std::int64_t> ceiling(const FeeSchedule& schedule, std::int64_t budget, std::int64_t increment) {
  demand_sound(schedule, budget);
  if (increment < 1) throw std::logic_error("money: a bid's increment below one");
  const Whole highest = budget / increment; // the hammer price alone is within the total
  std::vector<Whole> ends;                  // per tier, the last step that lies in it, from the lowest
  if (schedule.premium && schedule.premium->on_whole)
    for (const PremiumTier& tier : schedule.premium->tiers)
      if (tier.up_to) ends.push_back(std::min<Whole>(*tier.up_to / increment, highest));
  ends.push_back(highest);
  while (!ends.empty()) {
    const Whole last = ends.back();
    ends.pop_back();
    const Whole first = ends.empty() ? Whole(1) : Whole(ends.back() + 1);
    if (const auto steps = highest_step(schedule, budget, increment, first, last))
      return static_cast<std::int64_t>(*steps * increment);
  }
  return std::nullopt;
}

} // namespace coeval
