#include <algorithm>
#include <numeric>
#include <tuple>
#include <utility>

#include "swap/groups.hpp"
#include "swap/swap.hpp"

namespace coeval {
namespace {

class Mover {
public:
  Mover(const SwapProblem& problem, const SwapPlan& plan) : problem_(problem), plan_(plan) {
    check_problem(problem);
    if (plan.holds.size() != problem.slots.size()) stop_swap("a plan is not of this problem");
    held_.assign(problem.slots.size(), no_part);
    at_.resize(problem.parts.size());
    for (std::uint32_t part = 0; part < problem.parts.size(); ++part) {
      at_[part] = problem.parts[part].in;
      if (at_[part]) held_[*at_[part]] = part;
    }
    goes_to_.resize(problem.parts.size());
    for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot) {
      const auto part = plan.holds[slot];
      if (part && (*part >= problem.parts.size() || goes_to_[*part])) stop_swap("a plan is not of this problem");
      if (problem.slots[slot].fixed && part.value_or(no_part) != held_[slot]) stop_swap("a plan moves a fixed part");
      if (part) goes_to_[*part] = slot;
    }
  }

  std::vector<SwapMove> moves() {
    for (const std::uint32_t slot : slots_in_order()) make_right(slot);
    return std::move(moves_);
  }

private:
  bool changes(std::uint32_t slot) const { return held_[slot] != plan_.holds[slot].value_or(no_part); }

  // Slots of pieces that get complete come first, the heaviest piece first.
  std::vector<std::uint32_t> slots_in_order() const {
    const FitTable fits{problem_};
    const auto right = [&](std::uint32_t part, std::uint32_t slot) {
      const SwapFit* fit = part == no_part ? nullptr : fits.find(problem_.parts[part].kind, problem_.slots[slot].kind);
      return fit != nullptr && fit->right;
    };
    std::vector<char> complete_after(problem_.pieces.size(), 1);
    std::vector<char> complete_before(problem_.pieces.size(), 1);
    for (std::uint32_t slot = 0; slot < problem_.slots.size(); ++slot) {
      const std::uint32_t piece = problem_.slots[slot].piece;
      if (!right(plan_.holds[slot].value_or(no_part), slot)) complete_after[piece] = 0;
      if (!right(held_[slot], slot)) complete_before[piece] = 0;
    }
    std::vector<std::uint32_t> order(problem_.slots.size());
    std::iota(order.begin(), order.end(), 0U);
    std::ranges::stable_sort(order, {}, [&](std::uint32_t slot) {
      const std::uint32_t piece = problem_.slots[slot].piece;
      const bool gets_complete = complete_after[piece] != 0 && complete_before[piece] == 0;
      return std::tuple{!gets_complete, -problem_.pieces[piece].weight, piece};
    });
    return order;
  }

  // Carries out all moves that hang together with this slot: along the parts that have to give way to a slot that is or
  // becomes free, and from there back to where the row begins.
  void make_right(std::uint32_t slot) {
    if (!changes(slot)) return;
    std::uint32_t end = slot;
    while (held_[end] != no_part) {
      const std::uint32_t part = held_[end];
      if (!goes_to_[part] || *goes_to_[part] == slot) { // for good; or a ring, whose last part waits aside
        move(part, {});
        break;
      }
      end = *goes_to_[part];
    }
    while (const auto part = plan_.holds[end]) {
      const auto from = at_[*part];
      move(*part, end);
      if (!from) break;
      end = *from;
    }
  }

  void move(std::uint32_t part, std::optional<std::uint32_t> to) {
    const auto from = at_[part];
    if (from) held_[*from] = no_part;
    if (to) held_[*to] = part;
    at_[part] = to;
    moves_.push_back({part, from, to});
  }

  const SwapProblem& problem_;
  const SwapPlan& plan_;
  std::vector<std::uint32_t> held_;                   // by slot: the part that is in it at the moment
  std::vector<std::optional<std::uint32_t>> at_;      // by part: the slot that it is in at the moment
  std::vector<std::optional<std::uint32_t>> goes_to_; // by part: the slot of the plan
  std::vector<SwapMove> moves_;
};

} // namespace

std::vector<SwapMove> moves_of(const SwapProblem& problem, const SwapPlan& plan) {
  return Mover{problem, plan}.moves();
}

} // namespace coeval
