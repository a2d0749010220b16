#include "swap/swap.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "swap/solve.hpp"

namespace coeval {
namespace {

using Holds = std::vector<std::optional<std::uint32_t>>;

SwapScore score_of(const SwapProblem& problem, const FitTable& fits, const Holds& holds) {
  SwapScore score;
  std::vector<char> complete(problem.pieces.size(), 0); // also false of a piece without slots
  for (const SwapSlot& slot : problem.slots) complete[slot.piece] = 1;
  std::vector<std::optional<std::uint32_t>> at(problem.parts.size());
  for (std::uint32_t s = 0; s < problem.slots.size(); ++s) {
    const SwapSlot& slot = problem.slots[s];
    if (holds[s]) at[*holds[s]] = s;
    const SwapFit* fit = holds[s] ? fits.find(problem.parts[*holds[s]].kind, slot.kind) : nullptr;
    if (fit != nullptr) score.strength += fit->strength;
    if (fit != nullptr && fit->right)
      score.right += problem.pieces[slot.piece].weight;
    else
      complete[slot.piece] = 0;
  }
  score.complete = std::ranges::count(complete, 1);
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part) score.moved += at[part] != problem.parts[part].in;
  return score;
}

std::vector<PartSupply> supply_of(const SwapProblem& problem) {
  std::vector<PartSupply> supply(problem.part_kinds);
  for (const SwapPart& part : problem.parts) {
    if (!part.in)
      ++supply[part.kind].loose;
    else if (!problem.slots[*part.in].fixed)
      ++supply[part.kind].held;
  }
  return supply;
}

// Half a second for ten thousand parts, two for a hundred thousand, on the machine that this was measured on.
std::int64_t work_allowed(const SwapProblem& problem) {
  constexpr std::int64_t at_least = 700'000;
  constexpr std::int64_t for_each = 18; // part or slot
  return at_least + for_each * static_cast<std::int64_t>(problem.parts.size() + problem.slots.size());
}

// Takes kinds of part for slots of one kind out of what flows there, in order.
class Stock {
public:
  void put(std::uint32_t part_kind, std::int32_t amount) {
    if (amount > 0) lots_.push_back({part_kind, amount});
  }
  bool empty() const { return next_ == lots_.size(); }
  std::uint32_t take() {
    if (empty()) stop_swap("more flows into slots than comes for them");
    Lot& lot = lots_[next_];
    if (--lot.amount == 0) ++next_;
    return lot.part_kind;
  }

private:
  struct Lot {
    std::uint32_t part_kind;
    std::int32_t amount;
  };
  std::vector<Lot> lots_;
  std::size_t next_ = 0;
};

struct Stocks {
  Stock right, open;
};

// Reads from a component's flow which parts stay, and which slots want a part of which kind.
void read_flow(const SolvedFlow& solved, const SwapLayout& layout, std::vector<Stocks>& stocks, Holds& holds,
               std::vector<std::uint32_t>& wanted) {
  const std::vector<std::int32_t>& flow = solved.flow;
  for (const FitArc& fit : solved.network.fits)
    (fit.right ? stocks[fit.slot_kind].right : stocks[fit.slot_kind].open).put(fit.part_kind, flow[fit.arc]);
  for (const PlaceArcs& arcs : solved.network.places) {
    const SwapGroup& group = solved.component.groups[arcs.group];
    const std::size_t width = group.places.size();
    Stocks& stock = stocks[group.places[arcs.place].slot_kind];
    const std::int32_t right = flow[arcs.right];
    const std::int32_t stay = arcs.stay == no_kind ? 0 : flow[arcs.stay];
    // The first pieces of a group are filled rightly in all places, as far as it goes: so the fewest are complete.
    std::int32_t stays_left = stay;
    std::int32_t open_left = arcs.open_in == no_kind ? 0 : flow[arcs.open_in];
    for (std::uint32_t piece = 0; piece < group.count(); ++piece) {
      const std::uint32_t slot = group.slots[piece * width + arcs.place];
      const bool rightly = static_cast<std::int32_t>(piece) < right;
      if (stays_left > 0 && rightly == arcs.stay_is_right) {
        holds[slot] = layout.held[slot];
        --stays_left;
      } else if (rightly) {
        wanted[slot] = stock.right.take();
      } else if (arcs.open_in == no_kind ? !stock.open.empty() : open_left-- > 0) {
        wanted[slot] = stock.open.take();
      }
    }
  }
}

// Gives each slot that wants one a part of the kind: first those that have to leave their slot anyway, then loose ones.
void hand_out(const SwapProblem& problem, const std::vector<std::uint32_t>& wanted, Holds& holds) {
  std::vector<std::uint32_t> order; // parts that may move, those in slots first
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part)
    if (const auto in = problem.parts[part].in; in && !problem.slots[*in].fixed && holds[*in] != part)
      order.push_back(part);
  for (std::uint32_t part = 0; part < problem.parts.size(); ++part)
    if (!problem.parts[part].in) order.push_back(part);
  std::vector<std::vector<std::uint32_t>> queues(problem.part_kinds); // last one first
  for (std::size_t at = order.size(); at-- > 0;) queues[problem.parts[order[at]].kind].push_back(order[at]);
  for (std::uint32_t slot = 0; slot < holds.size(); ++slot) {
    if (wanted[slot] == no_kind) continue;
    auto& queue = queues[wanted[slot]];
    if (queue.empty()) stop_swap("more parts flow than there are");
    holds[slot] = queue.back();
    queue.pop_back();
  }
}

} // namespace

SwapPlan best_swap(const SwapProblem& problem) { return best_swap(problem, work_allowed(problem)); }

SwapPlan best_swap(const SwapProblem& problem, std::int64_t work) {
  constexpr std::int64_t most_work = std::int64_t{1} << 28U;
  check_problem(problem);
  work = std::clamp<std::int64_t>(work, 0, most_work);
  const FitTable fits{problem};
  const SwapLayout layout = lay_out(problem, fits);
  const std::vector<PartSupply> supply = supply_of(problem);

  SwapPlan plan;
  Holds now(problem.slots.size());
  for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot)
    if (layout.held[slot] != no_part) now[slot] = layout.held[slot];
  plan.before = score_of(problem, fits, now);
  plan.holds.resize(problem.slots.size());
  for (std::uint32_t slot = 0; slot < problem.slots.size(); ++slot)
    if (problem.slots[slot].fixed) plan.holds[slot] = now[slot];

  plan.most_complete = layout.always_complete;
  std::vector<std::uint32_t> wanted(problem.slots.size(), no_kind);
  std::vector<Stocks> stocks(problem.slot_kinds);
  // Every component may solve as many flows as the others; what the small ones do not need is left to the large.
  std::vector<std::pair<std::int64_t, std::uint32_t>> order;
  std::int64_t work_for_each = 0; // one flow each: below 2^33 with the most fits; times the work, below 2^62
  for (std::uint32_t c = 0; c < layout.components.size(); ++c) {
    order.emplace_back(work_of(layout.components[c], fits), c);
    work_for_each += order.back().first;
  }
  std::ranges::sort(order);
  for (const auto& [one, c] : order) {
    const SolvedComponent solved = solve_component(layout.components[c], fits, supply, work * one / work_for_each);
    work = std::max<std::int64_t>(0, work - solved.work);
    work_for_each -= one;
    for (const SolvedFlow& flow : solved.flows) read_flow(flow, layout, stocks, plan.holds, wanted);
    plan.most_complete += solved.most_complete;
    plan.is_best = plan.is_best && solved.is_best;
  }
  hand_out(problem, wanted, plan.holds);
  plan.after = score_of(problem, fits, plan.holds);
  plan.complete_is_best = plan.after.complete == plan.most_complete;
  return plan;
}

} // namespace coeval
