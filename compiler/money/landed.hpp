// money/landed.hpp: what does a purchase cost once it is here, and how high may one bid?
//
// A fee schedule says what is charged on top of a hammer price and how each step is rounded. The highest bid within a
// budget is exact: it is affordable and the next one is not. What rates and duties apply is the schedule's word alone;
// what is owed is decided by the customs authority, and this is no advice on customs or tax law.
#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

#include "money/money.hpp"

namespace coeval {

// What a landed cost is made of, in the order in which it is charged.
enum class Cost : std::uint8_t { hammer, premium, fee, shipping, insurance, duty, tax };
inline constexpr std::size_t kinds_of_cost = 7;

[[nodiscard]] std::string_view text(Cost cost); // "hammer", "premium" …

// What a percentage is charged on.
class CostSet {
public:
  constexpr CostSet() = default;
  constexpr CostSet(std::initializer_list<Cost> costs) {
    for (const Cost cost : costs) add(cost);
  }
  constexpr void add(Cost cost) { bits_ = static_cast<std::uint8_t>(bits_ | bit(cost)); }
  [[nodiscard]] constexpr bool has(Cost cost) const { return (bits_ & bit(cost)) != 0; }
  [[nodiscard]] constexpr bool empty() const { return bits_ == 0; }
  friend bool operator==(const CostSet&, const CostSet&) = default;

private:
  static constexpr std::uint8_t bit(Cost cost) { return static_cast<std::uint8_t>(1U << static_cast<unsigned>(cost)); }
  std::uint8_t bits_ = 0;
};

// To a multiple of `unit` minor units.
struct StepRounding {
  Rounding mode = Rounding::half_up;
  std::int64_t unit = 1;
  friend bool operator==(const StepRounding&, const StepRounding&) = default;
};

struct PremiumTier {
  std::optional<std::int64_t> up_to; // of the hammer price, included; nothing: without end
  Decimal percent;
};

// What the buyer pays to the house on top of the hammer price.
struct BuyersPremium {
  std::vector<PremiumTier> tiers; // rising; only the last is without end
  bool on_whole = false;          // the tier that the hammer price lies in holds for all of it; else each for its part
  std::int64_t least = 0;
  std::optional<std::int64_t> most;
  StepRounding rounding;
};

struct FixedFee {
  std::string name;
  std::int64_t amount = 0;
};

struct Insurance {
  Decimal percent;
  CostSet on; // of hammer, premium, fee, shipping
  std::int64_t least = 0;
  StepRounding rounding;
};

// Duty or tax.
struct Levy {
  Cost kind = Cost::duty; // duty or tax
  std::string name;
  Decimal percent;
  CostSet on; // duty and tax in it are those of the levies before this one
  // Charged only where what is counted comes to more than this; then on all of `on`.
  std::optional<std::int64_t> above;
  CostSet counted;
  StepRounding rounding;
};

// Amounts in minor units of the currency, none below nought.
struct FeeSchedule {
  Currency currency;
  std::optional<BuyersPremium> premium;
  std::vector<FixedFee> fees;
  std::int64_t shipping = 0;
  std::optional<Insurance> insurance;
  std::vector<Levy> levies; // in the order in which they are charged
};

// Why it cannot be used, and nothing where it can: tiers that do not rise, an amount below nought, a percent over 1000,
// insurance on duty, more than 1000 tiers, fees or levies. A schedule's fault is the first one of its parts.
[[nodiscard]] std::optional<MisreadAmount> fault_of(const BuyersPremium& premium);
[[nodiscard]] std::optional<MisreadAmount> fault_of(const Insurance& insurance);
[[nodiscard]] std::optional<MisreadAmount> fault_of(const Levy& levy);
[[nodiscard]] std::optional<MisreadAmount> fault_of(const FeeSchedule& schedule);

// One line of the bill. Of a line with parts, the amount is the rounded sum of percent × on.
struct LandedLine {
  struct Part {
    Decimal percent;
    std::int64_t on = 0;
  };
  enum class Held : std::uint8_t { no, at_least, at_most, below_threshold };

  Cost cost = Cost::hammer;
  std::string name; // of a fee or a levy
  std::vector<Part> parts;
  CostSet on;              // what the parts are charged on
  Held held = Held::no;    // whether a minimum, a maximum or a threshold made the amount
  StepRounding rounding;   // of a line with parts
  std::int64_t amount = 0; // minor units
};

struct Landed {
  std::vector<LandedLine> lines; // hammer first
  Money total;
};

// What a bid that wins comes to. Nothing where an amount does not fit. Throws std::logic_error for a schedule with a
// fault or a bid below nought.
[[nodiscard]] std::optional<Landed> landed(const FeeSchedule& schedule, std::int64_t bid);

// The highest bid, a multiple of `increment` and not nought, whose total is within the budget: no higher one is.
// Nothing where there is none. Tries a few dozen bids for each tier. Throws as `landed` does, and for an increment
// below one.
[[nodiscard]] std::optional<std::int64_t> ceiling(const FeeSchedule& schedule, std::int64_t budget,
                                                  std::int64_t increment = 1);

} // namespace coeval
