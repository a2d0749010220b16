// Is the plan of small problems as good as the best of all assignments, in the full order of what counts?
#include <catch2/catch.hpp>

#include "random_problem.hpp"
#include "replay.hpp"

using namespace coeval;
using namespace random_problem;

namespace {

// Tries everything: each slot holds nothing, a part that is listed for it, or the part that is in it now.
class Trial {
public:
  explicit Trial(const SwapProblem& problem)
      : problem_(problem), now_(now(problem)), holds_(problem.slots.size()), used_(problem.parts.size(), 0) {
    for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot) {
      choices_.emplace_back();
      for (std::uint32_t part = 0; part < problem.parts.size(); ++part)
        if (const SwapFit* fit = fit_of(problem, part, slot); now_[slot] == part || (fit != nullptr && !fixed_in(part)))
          if (!problem.slots[slot].fixed || now_[slot] == part) choices_.back().push_back(part);
    }
    fill(0);
  }
  SwapScore best() const { return *best_; }

private:
  bool fixed_in(std::uint32_t part) const {
    return problem_.parts[part].in && problem_.slots[*problem_.parts[part].in].fixed;
  }

  void fill(std::uint32_t slot) {
    if (slot == problem_.slots.size()) {
      const SwapScore score = score_of(problem_, holds_);
      if (!best_ || rank_of(score) > rank_of(*best_)) best_ = score;
      return;
    }
    for (const std::uint32_t part : choices_[slot]) {
      if (used_[part] != 0) continue;
      used_[part] = 1;
      holds_[slot] = part;
      fill(slot + 1);
      holds_[slot].reset();
      used_[part] = 0;
    }
    if (!problem_.slots[slot].fixed || !now_[slot]) fill(slot + 1);
  }

  const SwapProblem& problem_;
  Holds now_, holds_;
  std::vector<char> used_;
  std::vector<std::vector<std::uint32_t>> choices_;
  std::optional<SwapScore> best_;
};

Shape some_shape(Dice& dice) {
  Shape shape;
  shape.slots = dice.below(9);
  shape.pieces = 1 + dice.below(4);
  shape.parts = dice.below(8);
  shape.part_kinds = 1 + dice.below(6);
  shape.slot_kinds = 1 + dice.below(6);
  shape.fits_in_ten = 1 + dice.below(6);
  shape.right_in_ten = 4 + dice.below(7);
  shape.in_slot_in_ten = dice.below(11);
  shape.weights = 1 + static_cast<std::int32_t>(dice.below(3));
  shape.strengths = dice.one_in(2) ? 1 : 16;
  shape.fixed_in_ten = dice.below(3);
  return shape;
}

} // namespace

TEST_CASE("plans of small problems are the best of all assignments") {
  int with_complete = 0;
  int with_wrong_left = 0;
  int with_moves = 0;
  int unproven = 0;
  int worse = 0;
  for (std::uint64_t seed = 1; seed <= 4000; ++seed) {
    Dice dice{seed};
    const SwapProblem problem = make(dice, some_shape(dice));
    INFO("seed " << seed << ": " << describe(problem));
    const SwapPlan plan = best_swap(problem);
    const SwapScore best = Trial{problem}.best();
    INFO("plan " << text(plan.after) << ", best " << text(best));
    REQUIRE(plan.before == score_of(problem, now(problem)));
    REQUIRE(plan.after == score_of(problem, plan.holds));
    REQUIRE(plan.after == best);
    REQUIRE(plan.is_best);
    REQUIRE(plan.complete_is_best);
    REQUIRE(plan.most_complete == best.complete);
    REQUIRE(fault_in_moves(problem, plan) == "");
    // Whatever is left out of the search, what is told of the plan is true.
    const SwapPlan hasty = best_swap(problem, seed % 60);
    INFO("hasty " << text(hasty.after) << ", at most " << hasty.most_complete << " complete");
    REQUIRE(hasty.after == score_of(problem, hasty.holds));
    REQUIRE(hasty.after.right == best.right);
    REQUIRE(hasty.most_complete >= best.complete);
    REQUIRE(hasty.complete_is_best == (hasty.most_complete == hasty.after.complete));
    REQUIRE((!hasty.is_best || hasty.after == best));
    REQUIRE(fault_in_moves(problem, hasty) == "");
    if (!hasty.is_best) ++unproven;
    if (hasty.after != best) ++worse;
    if (best.complete > 0) ++with_complete;
    if (best.moved > 1) ++with_moves;
    for (std::uint32_t slot = 0; slot < plan.holds.size(); ++slot)
      if (plan.holds[slot] && fit_of(problem, *plan.holds[slot], slot) == nullptr && !problem.slots[slot].fixed)
        ++with_wrong_left;
  }
  // None may be rare, or the test says little.
  CHECK(with_complete > 800);
  CHECK(with_moves > 1000);
  CHECK(with_wrong_left > 500);
  CHECK(unproven > 100);
  CHECK(worse > 10);
}
