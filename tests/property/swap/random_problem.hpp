// Random problems of swapping, and their scores counted plainly from the definition.
#pragma once

#include <algorithm>
#include <cstdint>
#include <optional>
#include <random>
#include <string>
#include <tuple>
#include <vector>

#include "swap/swap.hpp"

namespace random_problem {

using namespace coeval;

// std::uniform_int_distribution differs between libraries; a seed must not.
class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::uint32_t below(std::uint64_t n) { return static_cast<std::uint32_t>(engine_() % n); }
  bool one_in(std::uint64_t n) { return below(n) == 0; }

private:
  std::mt19937_64 engine_;
};

struct Shape {
  std::uint32_t pieces = 3, slots = 6, parts = 6, part_kinds = 6, slot_kinds = 6;
  std::uint32_t fits_in_ten = 4;    // of all pairs of kinds
  std::uint32_t right_in_ten = 7;   // of the fits
  std::uint32_t in_slot_in_ten = 6; // of the parts
  std::int32_t weights = 2;
  std::int32_t strengths = 3;
  std::uint32_t fixed_in_ten = 1;
};

inline SwapProblem make(Dice& dice, const Shape& shape) {
  SwapProblem problem;
  problem.part_kinds = shape.part_kinds;
  problem.slot_kinds = shape.slot_kinds;
  for (std::uint32_t p = 0; p < shape.pieces; ++p)
    problem.pieces.push_back({1 + static_cast<std::int32_t>(dice.below(static_cast<std::uint64_t>(shape.weights)))});
  for (std::uint32_t s = 0; s < shape.slots; ++s)
    problem.slots.push_back(
        {dice.below(shape.pieces), dice.below(shape.slot_kinds), dice.below(10) < shape.fixed_in_ten});
  std::vector<char> taken(shape.slots, 0);
  for (std::uint32_t p = 0; p < shape.parts; ++p) {
    SwapPart part{dice.below(shape.part_kinds), {}};
    const std::uint32_t slot = dice.below(std::max(shape.slots, 1U));
    if (shape.slots > 0 && dice.below(10) < shape.in_slot_in_ten && taken[slot] == 0) {
      part.in = slot;
      taken[slot] = 1;
    }
    problem.parts.push_back(part);
  }
  for (std::uint32_t p = 0; p < shape.part_kinds; ++p)
    for (std::uint32_t s = 0; s < shape.slot_kinds; ++s)
      if (dice.below(10) < shape.fits_in_ten)
        problem.fits.push_back({p, s,
                                1 + static_cast<std::int32_t>(dice.below(static_cast<std::uint64_t>(shape.strengths))),
                                dice.below(10) < shape.right_in_ten});
  if (!problem.fits.empty() && dice.one_in(3)) { // the same two kinds once more
    SwapFit again = problem.fits[dice.below(problem.fits.size())];
    again.right = !again.right;
    problem.fits.push_back(again);
  }
  return problem;
}

using Holds = std::vector<std::optional<std::uint32_t>>;

// Null: the part is not listed for the slot.
inline const SwapFit* fit_of(const SwapProblem& problem, std::uint32_t part, std::uint32_t slot) {
  const SwapFit* best = nullptr;
  for (const SwapFit& fit : problem.fits)
    if (fit.part_kind == problem.parts[part].kind && fit.slot_kind == problem.slots[slot].kind &&
        (best == nullptr || std::tuple{fit.right, fit.strength} > std::tuple{best->right, best->strength}))
      best = &fit;
  return best;
}

inline SwapScore score_of(const SwapProblem& problem, const Holds& holds) {
  SwapScore score;
  for (std::uint32_t piece = 0; piece < problem.pieces.size(); ++piece) {
    std::int64_t slots = 0;
    std::int64_t right = 0;
    for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot) {
      if (problem.slots[slot].piece != piece) continue;
      ++slots;
      const SwapFit* fit = holds[slot] ? fit_of(problem, *holds[slot], slot) : nullptr;
      if (fit == nullptr) continue;
      score.strength += fit->strength;
      if (fit->right) ++right;
    }
    score.right += right * problem.pieces[piece].weight;
    if (slots > 0 && right == slots) ++score.complete;
  }
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part) {
    std::optional<std::uint32_t> at;
    for (std::uint32_t slot = 0; slot < holds.size(); ++slot)
      if (holds[slot] == part) at = slot;
    if (at != problem.parts[part].in) ++score.moved;
  }
  return score;
}

inline Holds now(const SwapProblem& problem) {
  Holds holds(problem.slots.size());
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part)
    if (problem.parts[part].in) holds[*problem.parts[part].in] = part;
  return holds;
}

inline auto rank_of(const SwapScore& score) {
  return std::tuple{score.right, score.complete, score.strength, -score.moved};
}

inline std::string text(const SwapScore& score) {
  return "right " + std::to_string(score.right) + " complete " + std::to_string(score.complete) + " strength " +
         std::to_string(score.strength) + " moved " + std::to_string(score.moved);
}

inline std::string describe(const SwapProblem& problem) {
  std::string told = "pieces";
  for (const SwapPiece& piece : problem.pieces) told += " " + std::to_string(piece.weight);
  told += "; slots";
  for (const SwapSlot& slot : problem.slots)
    told += " " + std::to_string(slot.piece) + "/" + std::to_string(slot.kind) + (slot.fixed ? "!" : "");
  told += "; parts";
  for (const SwapPart& part : problem.parts)
    told += " " + std::to_string(part.kind) + (part.in ? "@" + std::to_string(*part.in) : "");
  told += "; fits";
  for (const SwapFit& fit : problem.fits)
    told += " " + std::to_string(fit.part_kind) + ">" + std::to_string(fit.slot_kind) + (fit.right ? "=" : "?") +
            std::to_string(fit.strength);
  return told;
}

} // namespace random_problem
