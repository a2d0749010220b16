// history.hpp: what really happened in an invented line of toys?
//
// A history is drawn first, day by day, and only then written down (written.hpp), more or less exactly. All that is
// written is true of it, so that however vague it is, it cannot contradict itself. The ratios are those of the demo
// knowledge base, kb/saltmere; README.md lists them.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "calendar/day.hpp"

namespace generated {

using coeval::Day;

struct Plan {
  std::uint32_t runs = 1'000; // at least; whole families are drawn until there are so many
  std::uint64_t seed = 1976;
  std::uint32_t links = 15;         // percent of the moulds that are dated by a mould of another family; 0 to 50
  std::uint32_t loose = 30;         // percent of the spans whose dates are not two months
  std::uint32_t contradictions = 0; // independent of each other; no more than one for each 20 runs
  std::uint32_t runs_per_line = 5'000;
};

// From the first day to the last.
struct Lasted {
  Day start = 0;
  Day end = 0;
};

// Days that parts were kept in stock at most: nine months at their shortest.
inline constexpr Day stock_days = 273;
// Could a part of the one have gone into the other?
[[nodiscard]] inline bool could_go(Lasted part, Lasted whole) {
  return part.start <= whole.end && whole.start - part.end <= stock_days;
}

struct MouldAt {
  std::uint32_t family = 0; // within its line
  std::uint32_t mould = 0;
};

struct TrueRun {
  Lasted made;
  std::uint32_t plant = 0;
  std::uint32_t colour = 0; // different within a mould
};

struct TrueMould {
  Lasted used;
  bool clean = false; // began only after the one before it had ended
  std::optional<std::uint32_t> mark;
  std::optional<MouldAt> dated_by; // a mould of another family
  bool dated_by_period = false;
  std::vector<TrueRun> runs;
};

// A contradiction that was asked for. Each has its own family and so nothing to do with another.
enum class Planted : std::uint8_t {
  nothing,
  date,       // the first mould is said to have begun years after it had ended
  succession, // the first mould is said to have begun after the last one had ended
  pairing,    // a figure packed before the family began is said to have been found with its first run
};

struct Family {
  std::uint32_t number = 0; // within the knowledge base
  std::uint32_t slot = 0;
  std::vector<TrueMould> moulds;
  std::uint32_t repros = 0;
  Planted planted = Planted::nothing;
};

struct TruePairing {
  std::uint32_t family = 0;
  std::uint32_t mould = 0;
  std::uint32_t run = 0;
  std::optional<std::uint32_t> card;
  bool claimed = false; // collectors repeat it
};

struct TrueIssue {
  Lasted packed;
  bool follows = false; // replaces the issue before it
  std::uint32_t packer = 0;
  std::vector<std::uint32_t> cards;
  std::vector<std::uint32_t> takes; // families
  std::vector<TruePairing> found;
  std::optional<std::uint32_t> planted; // a family whose first run is wrongly said to have been found with it
};

struct TrueFigure {
  std::uint32_t number = 0; // within the knowledge base
  std::vector<TrueIssue> issues;
};

struct TrueRoute {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  Lasted active;
};

struct TrueLine {
  std::uint32_t number = 0;
  Lasted sold;
  std::vector<Lasted> periods;
  std::vector<Lasted> cards;
  std::vector<Lasted> marks;
  std::vector<TrueRoute> routes;
  std::uint32_t plants = 7;
  std::uint32_t sources = 74;
  std::vector<Family> families;
  std::vector<TrueFigure> figures;
};

// Draws one line after the other; a line depends on the plan and its number alone, save for how many families and
// contradictions those before it have.
class History {
public:
  explicit History(const Plan& plan) : plan_(plan) {}
  // Nothing once there are as many runs as planned.
  [[nodiscard]] std::optional<TrueLine> next_line();

private:
  const Plan plan_;
  std::uint32_t lines_ = 0;
  std::uint32_t runs_ = 0;
  std::uint32_t families_ = 0;
  std::uint32_t figures_ = 0;
  std::uint32_t planted_ = 0;
};

} // namespace generated
