// Does LEMON's weighted matching, part by part and slot by slot, find no better plan where pieces have one slot each?
// Then complete pieces follow from right slots, so that the order of what counts is a weight on each part and slot.
#include <catch2/catch.hpp>

#include "lemon/matching.hpp"
#include "property/swap/random_problem.hpp"
#include "property/swap/replay.hpp"

using namespace coeval;
using namespace random_problem;

namespace {

SwapProblem some_problem(Dice& dice) {
  Shape shape;
  shape.slots = 20 + dice.below(180);
  shape.pieces = shape.slots;
  shape.parts = 20 + dice.below(180);
  shape.part_kinds = dice.one_in(3) ? 5 : shape.parts;
  shape.slot_kinds = dice.one_in(3) ? 4 : shape.slots;
  shape.weights = dice.one_in(2) ? 1 : 1000;
  shape.strengths = 16;
  shape.fits_in_ten = 0;
  SwapProblem problem = make(dice, shape);
  for (std::uint32_t slot = 0; slot < shape.slots; ++slot) problem.slots[slot].piece = slot;
  const std::uint32_t rows = shape.part_kinds * (1 + dice.below(4)); // few, or one plan is like another
  for (std::uint32_t row = 0; row < rows; ++row)
    problem.fits.push_back({dice.below(shape.part_kinds), dice.below(shape.slot_kinds),
                            1 + static_cast<std::int32_t>(dice.below(16)), dice.below(3) != 0});
  return problem;
}

Holds holds_by_matching(const SwapProblem& problem) {
  // A part that stays gives a move back, a loose one that goes in takes one; what else moves had to leave anyway.
  const auto slots = static_cast<std::int64_t>(problem.slots.size());
  const std::int64_t strength = 4 * slots + 1;
  const std::int64_t right = strength * (16 * slots + 1);
  std::vector<lemon_matching::Edge> edges;
  Holds holds(problem.slots.size());
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part) {
    const auto in = problem.parts[part].in;
    if (in && problem.slots[*in].fixed) {
      holds[*in] = part;
      continue;
    }
    for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot) {
      const SwapFit* fit = fit_of(problem, part, slot);
      if (problem.slots[slot].fixed || (fit == nullptr && in != slot)) continue;
      std::int64_t weight = in == slot ? 1 : !in ? -1 : 0;
      if (fit != nullptr) weight += fit->strength * strength;
      if (fit != nullptr && fit->right) weight += problem.pieces[problem.slots[slot].piece].weight * right;
      edges.push_back({static_cast<int>(part), static_cast<int>(problem.parts.size() + slot), weight});
    }
  }
  const auto nodes = static_cast<int>(problem.parts.size() + problem.slots.size());
  for (const std::size_t edge : lemon_matching::heaviest_matching(nodes, edges))
    holds[static_cast<std::size_t>(edges[edge].other) - problem.parts.size()] =
        static_cast<std::uint32_t>(edges[edge].one);
  return holds;
}

} // namespace

TEST_CASE("a weighted matching finds no better plan") {
  int with_moves = 0;
  int with_gaps = 0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Dice dice{seed};
    const SwapProblem problem = some_problem(dice);
    INFO("seed " << seed << ", " << problem.parts.size() << " parts, " << problem.slots.size() << " slots");
    const SwapPlan plan = best_swap(problem);
    const SwapScore matched = score_of(problem, holds_by_matching(problem));
    INFO("plan " << text(plan.after) << ", matched " << text(matched));
    CHECK(plan.after == matched);
    CHECK(plan.is_best);
    CHECK(fault_in_moves(problem, plan) == "");
    if (matched.moved > 5) ++with_moves;
    if (matched.complete + 5 < static_cast<std::int64_t>(problem.slots.size())) ++with_gaps;
  }
  CHECK(with_moves > 150); // or the test says little
  CHECK(with_gaps > 100);
}
