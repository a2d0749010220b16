#include "swap/search.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

namespace coeval {
namespace {

constexpr int root_rounds = 40;
constexpr int rounds = 6;

} // namespace

// With S slots: moved <= 2 S, strength <= 16 S. The unit of strength, 2 S + 1, exceeds any difference in moved; that of
// complete pieces, 16 S (2 S + 1) + 2 S + 1, any difference in both. A worth is divided into shares, so an arc costs,
// and a filled slot adds, at most shares * (complete + 16 strength + 1). That times the nodes bounds potentials, that
// times the slots whole values; shares are lowered until both stay below 2^57, and a reward beside them below 2^60.
// LEMON's own artificial cost is 2^62, of which a potential holds at most one: reduced costs stay below 2^63.
SwapUnits::SwapUnits(const SwapNetwork& network) {
  constexpr std::int64_t strongest = 16;
  constexpr std::int64_t enough_shares = 840; // divided by every number of slots up to 8
  constexpr std::int64_t limit = std::int64_t{1} << 57U;
  strength = 2 * network.slots + 1;
  complete = strongest * network.slots * strength + strength;
  const std::int64_t per_share = complete + strongest * strength + 1;
  const std::int64_t terms = std::max<std::int64_t>(network.nodes, network.slots) + 2;
  shares = std::min(enough_shares, limit / per_share / terms);
  if (shares < 1) stop_swap("costs could overflow");
  most_reward = 7 * (limit / terms);
}

namespace {

// Places whose right fills can count for complete pieces.
std::vector<std::uint32_t> counting_places(const SwapComponent& component, const SwapNetwork& network) {
  std::vector<std::uint32_t> places;
  for (std::uint32_t p = 0; p < network.places.size(); ++p)
    if (component.groups[network.places[p].group].kind.can_complete) places.push_back(p);
  return places;
}

// The arcs of the network; then for each of those places an arc of fills that count, and one of fills that must be.
std::vector<FlowArc> with_counting(const SwapNetwork& network, const std::vector<std::uint32_t>& counting) {
  std::vector<FlowArc> arcs = network.arcs;
  for (const std::uint32_t place : counting) arcs.insert(arcs.end(), 2, network.arcs[network.places[place].right]);
  return arcs;
}

} // namespace

SwapSearch::SwapSearch(const SwapComponent& component, const SwapNetwork& network)
    : component_(component), network_(network), units_(network),
      flows_(network.nodes, with_counting(network, counting_places(component, network))),
      counting_(counting_places(component, network)), fixed_(network.arcs.size(), FixedArc::no),
      flow_(network.arcs.size(), 0), shares_(network.places.size(), 0), least_(component.groups.size(), 0),
      most_(component.groups.size(), 0), objective_{units_.complete, 1} {
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
    const SwapGroup& group = component_.groups[g];
    if (!group.kind.can_complete) continue;
    most_[g] = static_cast<std::int32_t>(group.count());
    most_complete_ += most_[g];
    const auto places = static_cast<std::int64_t>(group.places.size());
    for (std::int64_t p = 0; p < places; ++p) // as even as whole numbers allow
      shares_[network_.first_place[g] + static_cast<std::size_t>(p)] =
          units_.shares * (p + 1) / places - units_.shares * p / places;
  }
  keep_right();
}

// Complementary slackness: whatever the potentials of one best flow say holds for all of them.
void SwapSearch::keep_right() {
  const std::size_t arcs = network_.arcs.size();
  std::vector<std::int32_t> upper = network_.capacity;
  std::vector<std::int64_t> cost(arcs + 2 * counting_.size(), 0);
  upper.resize(cost.size(), 0);
  for (std::size_t a = 0; a < arcs; ++a) cost[a] = -network_.worth[a].right;
  if (!flows_.solve(std::vector<std::int32_t>(cost.size(), 0), upper, cost)) stop_swap("no flow at all");
  for (std::size_t a = 0; a < arcs; ++a) {
    const auto [from, to] = network_.arcs[a];
    const std::int64_t reduced = cost[a] + flows_.potential()[from] - flows_.potential()[to];
    if (reduced > 0) fixed_[a] = FixedArc::empty;
    if (reduced < 0) fixed_[a] = FixedArc::full;
  }
}

// False: no flow keeps what is fixed, least_ and most_.
bool SwapSearch::relax() {
  ++solved_;
  const std::size_t arcs = network_.arcs.size();
  std::vector<std::int32_t> upper = network_.capacity;
  std::vector<std::int64_t> cost(arcs + 2 * counting_.size(), 0);
  upper.resize(cost.size(), 0);
  std::vector<std::uint32_t> full; // arcs that must be
  for (std::uint32_t a = 0; a < arcs; ++a) {
    cost[a] =
        objective_.rest * units_.shares * (network_.worth[a].moved - units_.strength * network_.worth[a].strength);
    if (fixed_[a] == FixedArc::empty) upper[a] = 0;
    if (fixed_[a] == FixedArc::full) full.push_back(a);
  }
  for (std::size_t c = 0; c < counting_.size(); ++c) {
    const PlaceArcs& place = network_.places[counting_[c]];
    const auto counted = static_cast<std::uint32_t>(arcs + 2 * c);
    const std::uint32_t due = counted + 1;
    if (fixed_[place.right] == FixedArc::empty) {
      if (least_[place.group] > 0) return false;
      continue;
    }
    upper[place.right] -= most_[place.group];
    upper[counted] = most_[place.group] - least_[place.group];
    upper[due] = least_[place.group];
    cost[counted] = cost[due] = -shares_[counting_[c]] * objective_.complete;
    full.push_back(due);
    if (fixed_[place.right] == FixedArc::full) full.push_back(counted);
  }

  // LEMON takes many times as long where bounds have to be met first; a reward for meeting them mostly does as well. A
  // flow that meets all is the best of those that do, because all of those earn the same. And where the reward exceeds
  // what any simple cycle can cost, a flow that does not meet all of them shows that none does.
  std::int64_t greatest = 0;
  for (const std::int64_t each : cost) greatest = std::max(greatest, std::abs(each));
  const std::int64_t proof = greatest * network_.nodes + 1;
  std::vector<std::int64_t> rewarded = cost;
  for (const std::uint32_t a : full) rewarded[a] -= std::min(proof, units_.most_reward);
  std::vector<std::int32_t> lower(cost.size(), 0);
  if (!flows_.solve(lower, upper, rewarded)) stop_swap("no flow at all");
  const bool met = std::ranges::all_of(full, [&](std::uint32_t a) { return flows_.flow()[a] == upper[a]; });
  if (!met) {
    if (proof <= units_.most_reward) return false;
    for (const std::uint32_t a : full) lower[a] = upper[a];
    if (!flows_.solve(lower, upper, cost)) return false;
  }
  std::copy_n(flows_.flow().begin(), arcs, flow_.begin());
  for (std::size_t c = 0; c < counting_.size(); ++c)
    flow_[network_.places[counting_[c]].right] += flows_.flow()[arcs + 2 * c] + flows_.flow()[arcs + 2 * c + 1];
  return true;
}

// Strength and moves of a flow as one number.
std::int64_t SwapSearch::rest_of(const std::vector<std::int32_t>& flow) const {
  std::int64_t rest = -network_.held;
  for (std::size_t a = 0; a < flow.size(); ++a)
    rest += flow[a] * (units_.strength * network_.worth[a].strength - std::int64_t{network_.worth[a].moved});
  return rest;
}

// Of the last relaxation: no flow within the bounds has a greater objective than this. Rounded down, for it is whole.
std::int64_t SwapSearch::relaxed() const {
  std::int64_t scaled = objective_.rest * units_.shares * rest_of(flow_);
  for (const std::uint32_t place : counting_) scaled += shares_[place] * objective_.complete * counted_in(place);
  return scaled >= 0 ? scaled / units_.shares : -((units_.shares - 1 - scaled) / units_.shares);
}

// Every flow of a relaxation is one that can be carried out; the best is kept.
void SwapSearch::remember(const std::vector<std::int32_t>& flow) {
  std::int64_t complete = 0;
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) complete += complete_in(flow, g);
  const std::int64_t rest = rest_of(flow);
  if (found_ && std::pair{complete, rest} <= std::pair{best_complete_, best_rest_}) return;
  found_ = true;
  best_complete_ = complete;
  best_rest_ = rest;
  best_flow_ = flow;
}

// The best strength and moves with so many complete by group.
void SwapSearch::settle(const std::vector<std::int32_t>& complete) {
  objective_ = {units_.complete, 1};
  const std::vector<std::int32_t> least = std::exchange(least_, complete);
  if (!relax()) stop_swap("pieces cannot be complete together that were so before");
  remember(flow_);
  least_ = least;
}

void SwapSearch::start_from(std::int64_t most_complete, const std::vector<std::int32_t>& complete) {
  most_complete_ = std::min(most_complete_, most_complete);
  settle(complete);
}

void SwapSearch::find_most_complete(std::int64_t effort) {
  aim_ = Aim::complete;
  effort_ = solved_ + effort;
  objective_ = {units_.complete, 1};
  left_open_ = 0;
  branch(most_complete_, root_rounds);
  most_complete_ = std::min(most_complete_, std::max(best_complete_, left_open_));
}

void SwapSearch::find_best(std::int64_t effort) {
  constexpr std::int64_t slots_given_up = 64; // for a complete piece, to begin with
  left_open_ = std::numeric_limits<std::int64_t>::min();
  if (settled_) return;
  effort_ = solved_ + effort;
  settle(complete_by_group());
  aim_ = Aim::rest;
  objective_ = {std::min(units_.complete, slots_given_up * units_.strength), 1};
  branch(std::numeric_limits<std::int64_t>::max(), root_rounds);
}

std::vector<std::int32_t> SwapSearch::complete_by_group() const {
  std::vector<std::int32_t> complete;
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) complete.push_back(complete_in(best_flow_, g));
  return complete;
}

std::int32_t SwapSearch::complete_in(const std::vector<std::int32_t>& flow, std::uint32_t group) const {
  if (!component_.groups[group].kind.can_complete) return 0;
  std::int32_t fewest = std::numeric_limits<std::int32_t>::max();
  for (std::uint32_t p = network_.first_place[group]; p < network_.first_place[group + 1]; ++p)
    fewest = std::min(fewest, flow[network_.places[p].right]);
  return fewest;
}

// Slots of the place that are rightly filled, as far as they can count for complete pieces.
std::int32_t SwapSearch::counted_in(std::uint32_t place) const {
  const PlaceArcs& arcs = network_.places[place];
  return std::min(flow_[arcs.right], most_[arcs.group]);
}

SwapSearch::Extent SwapSearch::counted(std::uint32_t group) const {
  Extent extent{std::numeric_limits<std::int32_t>::max(), 0};
  for (std::uint32_t p = network_.first_place[group]; p < network_.first_place[group + 1]; ++p) {
    extent.fewest = std::min(extent.fewest, counted_in(p));
    extent.most = std::max(extent.most, counted_in(p));
  }
  return extent;
}

// Moves shares to the places that run short. False: none does.
bool SwapSearch::shift_shares(int round) {
  bool shifted = false;
  const std::int64_t step = std::max<std::int64_t>(1, units_.shares / (2 * (round + 1)));
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
    if (!component_.groups[g].kind.can_complete) continue;
    const auto [fewest, most] = counted(g);
    if (fewest == most) continue;
    std::int64_t pool = 0;
    std::int64_t short_places = 0;
    for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p) {
      if (counted_in(p) == fewest) ++short_places;
      if (counted_in(p) != most) continue;
      const std::int64_t taken = std::min(shares_[p], step);
      shares_[p] -= taken;
      pool += taken;
    }
    shifted = shifted || pool > 0;
    for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p) {
      if (counted_in(p) != fewest) continue;
      const std::int64_t given = pool / short_places--;
      shares_[p] += given;
      pool -= given;
    }
  }
  return shifted;
}

// Among flows with as many complete pieces: the worth that makes the relaxation have about as many. False: it has.
bool SwapSearch::adjust_worth(int round) {
  std::int64_t shared = 0; // complete pieces as the relaxation counts them, times shares
  for (const std::uint32_t place : counting_) shared += shares_[place] * counted_in(place);
  const std::int64_t due = best_complete_ * units_.shares;
  if (shared == due) return false;
  const std::int64_t worth = objective_.complete;
  const std::int64_t step = std::max<std::int64_t>(1, worth / (2 + round / 4));
  objective_.complete = shared > due ? worth - std::min(worth, step) : std::min(units_.complete, worth + step);
  return objective_.complete != worth;
}

// Beginning with the best flow, without solving any.
void SwapSearch::make_more_complete() {
  const auto arcs = static_cast<std::int64_t>(network_.arcs.size());
  constexpr std::int64_t looks_for_a_flow = 10; // at each arc, that take as long as solving a flow
  std::vector<std::int32_t> flow = best_flow_;
  const std::int64_t looked =
      climb(component_, network_, fixed_, std::max<std::int64_t>(1, effort_ - solved_) * looks_for_a_flow * arcs, flow);
  solved_ += looked / (looks_for_a_flow * arcs);
  remember(flow);
}

// The best within least_ and most_, of which nothing exceeds `inherited`.
void SwapSearch::branch(std::int64_t inherited, int most_rounds) {
  const bool at_root = most_rounds == root_rounds;
  std::int64_t bound = inherited;
  std::uint32_t widest = no_kind;
  std::int32_t split = 0;
  for (int round = 0;; ++round) {
    if (found_ && bound <= aimed_at()) return;
    if (found_ && solved_ >= effort_) break;
    if (!relax()) return;
    remember(flow_);
    const std::int64_t value = relaxed();
    if (aim_ == Aim::rest) // of flows with at least as many complete as the best
      bound = std::min(bound, value - objective_.complete * best_complete_);
    else if (objective_.rest == 0)
      bound = std::min(bound, value);
    else
      bound = std::min(bound, (value + units_.strength - 1) / units_.complete);
    if (at_root && objective_.rest == 1 && objective_.complete == units_.complete)
      settled_ = settled_ || value == best_rest_ + units_.complete * best_complete_;
    if (bound <= aimed_at()) return;
    if (aim_ == Aim::complete) objective_ = {1, 0}; // small numbers, so that rewards prove more
    std::int32_t gap = 0;
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
      if (!component_.groups[g].kind.can_complete) continue;
      const auto [fewest, most] = counted(g);
      if (most - fewest <= gap) continue;
      gap = most - fewest;
      widest = g;
      split = fewest + (gap - 1) / 2;
    }
    if (gap == 0) {
      // Every worth is earned; so too many or too few pieces are complete.
      if (objective_.complete == units_.complete || objective_.rest == 0)
        stop_swap("a bound is not met though every worth is earned");
      objective_.complete = std::min(units_.complete, 4 * objective_.complete + 1);
      continue;
    }
    const bool adjusted = aim_ == Aim::rest && adjust_worth(round);
    if (round + 1 >= most_rounds || (!shift_shares(round) && !adjusted)) break;
  }
  if (at_root && aim_ == Aim::complete) {
    make_more_complete();
    if (bound <= aimed_at()) return;
  }
  if (solved_ >= effort_) {
    left_open_ = std::max(left_open_, bound);
    return;
  }
  const std::int32_t least = least_[widest];
  const std::int32_t most = most_[widest];
  least_[widest] = split + 1;
  branch(bound, rounds);
  least_[widest] = least;
  most_[widest] = split;
  branch(bound, rounds);
  most_[widest] = most;
}

} // namespace coeval
