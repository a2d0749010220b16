// Can the moves of a plan be carried out by hand, one after the other, and do they end where the plan says?
#pragma once

#include <string>

#include "random_problem.hpp"

namespace random_problem {

// "" or what is wrong.
inline std::string fault_in_moves(const SwapProblem& problem, const SwapPlan& plan) {
  const std::vector<SwapMove> moves = moves_of(problem, plan);
  Holds holds = now(problem);
  std::vector<std::optional<std::uint32_t>> at;
  for (const SwapPart& part : problem.parts) at.push_back(part.in);
  std::vector<int> times(problem.parts.size(), 0);
  for (std::size_t m = 0; m < moves.size(); ++m) {
    const auto [part, from, to] = moves[m];
    const std::string where = "move " + std::to_string(m) + ": ";
    if (part >= problem.parts.size()) return where + "no such part";
    if (from != at[part]) return where + "the part is not there";
    if (from == to) return where + "it goes nowhere";
    if (to && holds[*to]) return where + "the slot is full";
    if ((to && problem.slots[*to].fixed) || (from && problem.slots[*from].fixed)) return where + "the slot is fixed";
    if (from) holds[*from].reset();
    if (to) holds[*to] = part;
    at[part] = to;
    ++times[part];
  }
  if (holds != plan.holds) return "the moves do not end in the plan";
  // A part that moves twice opened a ring: it was put aside, and no other part of the ring moves twice.
  std::int64_t moved = 0;
  std::int64_t twice = 0;
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part) {
    if (times[part] > 2) return "a part moves more than twice";
    if (at[part] != problem.parts[part].in)
      ++moved;
    else if (times[part] > 0)
      return "a part moves to and fro";
    if (times[part] != 2) continue;
    ++twice;
    std::int64_t others = 0;
    for (std::uint32_t slot = *problem.parts[part].in; *at[part] != slot || others == 0; ++others) { // along the ring
      const auto next = plan.holds[slot];
      if (!next || !problem.parts[*next].in || others > static_cast<std::int64_t>(problem.slots.size()))
        return "a part moves twice that is not in a ring";
      if (*next != part && times[*next] != 1) return "more than one part of a ring moves twice";
      slot = *problem.parts[*next].in;
      if (*next == part) break;
    }
  }
  if (moved != plan.after.moved) return "the moved parts are not as many as the plan says";
  if (static_cast<std::int64_t>(moves.size()) != moved + twice) return "a move too many";
  return "";
}

} // namespace random_problem
