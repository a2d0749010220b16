// swap/solve.hpp: how good a plan for one component is found in bounded time?
// How many pieces can be complete is searched without regard to what is in the slots now, which leaves far fewer kinds
// of piece. Then strength and moves are searched with regard to it; or, where that is too large, the pieces that are to
// be complete are chosen by what they lack, and every slot is filled for itself.
#pragma once

#include <cstdint>
#include <vector>

#include "swap/network.hpp"

namespace coeval {

struct SolvedFlow {
  SwapComponent component;
  SwapNetwork network;
  std::vector<std::int32_t> flow;
};

struct SolvedComponent {
  std::vector<SolvedFlow> flows;  // of the component, or of those that it has fallen into
  std::int64_t most_complete = 0; // proven
  bool is_best = false;           // proven
  std::int64_t work = 0;          // done
};

// About a quarter of a microsecond each: what solving one flow of a component takes.
std::int64_t work_of(const SwapComponent& component, const FitTable& fits);

// Does about so much work, and at least what it takes to have a plan.
SolvedComponent solve_component(const SwapComponent& component, const FitTable& fits,
                                const std::vector<PartSupply>& supply, std::int64_t work);

} // namespace coeval
