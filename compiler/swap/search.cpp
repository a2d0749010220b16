#include "swap/search.hpp"

#include <algorithm>
#include <functional>
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
  constexpr std::int64_t most_shares = 840; // divided by every number of slots up to 8
  constexpr std::int64_t limit = std::int64_t{1} << 57U;
  strength = 2 * network.slots + 1;
  complete = strongest * network.slots * strength + strength;
  const std::int64_t per_share = complete + strongest * strength + 1;
  const std::int64_t terms = std::max<std::int64_t>(network.nodes, network.slots) + 2;
  shares = std::min(most_shares, limit / per_share / terms);
  if (shares < 1) stop_swap("costs could overflow");
  reward = 7 * (limit / terms);
}

SwapSearch::SwapSearch(const SwapComponent& component, const SwapNetwork& network)
    : component_(component), network_(network), units_(network), flows_(network.nodes, network.arcs),
      lower_(network.arcs.size(), 0), upper_(network.capacity), cost_(network.arcs.size(), 0),
      fixed_(network.arcs.size(), Fixed::no), shares_(network.places.size(), 0), least_(component.groups.size(), 0),
      most_(component.groups.size(), 0), worth_of_complete_(units_.complete) {
  std::int64_t can_complete = 0;
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
    const SwapGroup& group = component_.groups[g];
    if (!group.kind.can_complete) continue;
    most_[g] = static_cast<std::int32_t>(group.count());
    can_complete += most_[g];
    const std::size_t places = group.places.size();
    for (std::size_t p = 0; p < places; ++p) { // as even as whole numbers allow
      const auto upto = [&](std::size_t n) {
        return units_.shares * static_cast<std::int64_t>(n) / static_cast<std::int64_t>(places);
      };
      shares_[network_.first_place[g] + p] = upto(p + 1) - upto(p);
    }
  }
  most_complete_ = can_complete;
  keep_right();
}

void SwapSearch::start_from(std::int64_t most_complete, const std::vector<std::int32_t>& complete) {
  most_complete_ = std::min(most_complete_, most_complete);
  const std::vector<std::int32_t> none = std::exchange(least_, complete);
  if (!relax()) stop_swap("pieces are not complete together that were so in a coarser look");
  remember();
  least_ = none;
}

void SwapSearch::find_most_complete(std::int64_t effort) {
  aim_ = Aim::complete;
  effort_ = solved_ + effort;
  worth_of_complete_ = units_.complete;
  left_open_ = 0;
  branch(most_complete_, root_rounds);
  most_complete_ = std::min(most_complete_, std::max(best_complete_, left_open_));
}

void SwapSearch::find_best(std::int64_t effort) {
  constexpr std::int64_t slots_given_up = 64; // for a complete piece, to begin with
  left_open_ = std::numeric_limits<std::int64_t>::min();
  if (settled_) return;
  aim_ = Aim::rest;
  effort_ = solved_ + effort;
  worth_of_complete_ = std::min(units_.complete, slots_given_up * units_.strength);
  branch(std::numeric_limits<std::int64_t>::max(), root_rounds);
}

std::vector<std::int32_t> SwapSearch::complete_by_group() const {
  std::vector<std::int32_t> complete;
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g)
    complete.push_back(static_cast<std::int32_t>(complete_in(best_flow_, g)));
  return complete;
}

// Complementary slackness: whatever the potentials of one best flow say holds for all of them.
void SwapSearch::keep_right() {
  for (std::size_t a = 0; a < cost_.size(); ++a) cost_[a] = -network_.worth[a].right;
  if (!set_bounds() || !flows_.solve(lower_, upper_, cost_)) stop_swap("no flow at all");
  for (std::size_t a = 0; a < cost_.size(); ++a) {
    const auto [from, to] = network_.arcs[a];
    const std::int64_t reduced = cost_[a] + flows_.potential()[from] - flows_.potential()[to];
    if (reduced > 0) fixed_[a] = Fixed::empty;
    if (reduced < 0) fixed_[a] = Fixed::full;
  }
}

// False: they contradict each other.
bool SwapSearch::set_bounds() {
  std::ranges::fill(lower_, 0);
  upper_ = network_.capacity;
  for (const PlaceArcs& place : network_.places) {
    lower_[place.counted] = least_[place.group];
    upper_[place.counted] = most_[place.group];
    upper_[place.uncounted] -= most_[place.group];
  }
  for (std::size_t a = 0; a < fixed_.size(); ++a) {
    if (fixed_[a] == Fixed::empty) upper_[a] = 0;
    if (fixed_[a] == Fixed::full) lower_[a] = upper_[a];
    if (lower_[a] > upper_[a]) return false;
  }
  return true;
}

// False: no flow keeps the bounds.
bool SwapSearch::relax() {
  for (std::size_t a = 0; a < cost_.size(); ++a)
    cost_[a] = units_.shares * (network_.worth[a].moved - units_.strength * network_.worth[a].strength);
  for (std::size_t p = 0; p < network_.places.size(); ++p)
    cost_[network_.places[p].counted] -= shares_[p] * worth_of_complete_;
  ++solved_;
  if (!set_bounds()) return false;
  // LEMON takes many times as long where bounds have to be met first; a reward for meeting them mostly does as well,
  // and a flow that meets all of them is the best of those that do, because all of those earn the same reward.
  eased_ = lower_;
  eased_cost_ = cost_;
  for (std::size_t a = 0; a < cost_.size(); ++a) {
    if (lower_[a] < upper_[a] || lower_[a] == 0) continue;
    eased_[a] = 0;
    eased_cost_[a] -= units_.reward;
  }
  if (!flows_.solve(eased_, upper_, eased_cost_)) return false;
  if (std::ranges::equal(flows_.flow(), lower_, std::greater_equal<>{})) return true;
  return flows_.solve(lower_, upper_, cost_);
}

// Every flow of a relaxation is one that can be carried out; the best is kept.
void SwapSearch::remember() {
  std::int64_t complete = 0;
  for (std::uint32_t g = 0; g < component_.groups.size(); ++g) complete += complete_in(flows_.flow(), g);
  std::int64_t rest = -network_.held;
  for (std::size_t a = 0; a < cost_.size(); ++a)
    rest += flows_.flow()[a] * (units_.strength * network_.worth[a].strength - std::int64_t{network_.worth[a].moved});
  if (found_ && std::pair{complete, rest} <= std::pair{best_complete_, best_rest_}) return;
  found_ = true;
  best_complete_ = complete;
  best_rest_ = rest;
  best_flow_ = flows_.flow();
}

// No flow within the bounds has more of rest + worth_of_complete_ * complete.
std::int64_t SwapSearch::relaxed() const {
  std::int64_t scaled = -network_.held * units_.shares;
  for (std::size_t a = 0; a < cost_.size(); ++a) scaled -= flows_.flow()[a] * cost_[a];
  // Rounded down: values are whole.
  return scaled >= 0 ? scaled / units_.shares : -((units_.shares - 1 - scaled) / units_.shares);
}

std::int64_t SwapSearch::complete_in(const std::vector<std::int32_t>& flow, std::uint32_t group) const {
  if (!component_.groups[group].kind.can_complete) return 0;
  std::int32_t fewest = std::numeric_limits<std::int32_t>::max();
  for (std::uint32_t p = network_.first_place[group]; p < network_.first_place[group + 1]; ++p)
    fewest = std::min(fewest, flow[network_.places[p].counted] + flow[network_.places[p].uncounted]);
  return fewest;
}

// Slots of the place that are rightly filled, as far as they can count for complete pieces.
std::int32_t SwapSearch::counted_in(std::uint32_t place) const {
  const PlaceArcs& arcs = network_.places[place];
  return std::min(flows_.flow()[arcs.counted] + flows_.flow()[arcs.uncounted], most_[arcs.group]);
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
  for (std::uint32_t p = 0; p < network_.places.size(); ++p)
    if (shares_[p] > 0) shared += shares_[p] * counted_in(p);
  const std::int64_t due = best_complete_ * units_.shares;
  if (shared == due) return false;
  const std::int64_t worth = worth_of_complete_;
  const std::int64_t step = std::max<std::int64_t>(1, worth / (2 + round / 4));
  worth_of_complete_ = shared > due ? worth - std::min(worth, step) : std::min(units_.complete, worth + step);
  return worth_of_complete_ != worth;
}

// Keeps what is complete in the best flow, and makes more so until no group gives any more.
void SwapSearch::climb() {
  least_ = complete_by_group();
  std::vector<std::int32_t> step(least_.size(), 0);
  std::vector<std::uint32_t> open; // groups
  for (std::uint32_t g = 0; g < step.size(); ++g) {
    if (!component_.groups[g].kind.can_complete) continue;
    step[g] = most_[g] - least_[g];
    open.push_back(g);
  }
  while (!open.empty() && solved_ < effort_) {
    std::size_t kept = 0;
    for (const std::uint32_t g : open) {
      step[g] = std::min(step[g], most_[g] - least_[g]);
      if (step[g] == 0) continue;
      open[kept++] = g;
      if (solved_ >= effort_) continue;
      least_[g] += step[g];
      if (relax()) {
        remember();
        for (std::uint32_t other = 0; other < step.size(); ++other)
          least_[other] = std::max(least_[other], static_cast<std::int32_t>(complete_in(flows_.flow(), other)));
      } else {
        least_[g] -= step[g];
        step[g] /= 2;
      }
    }
    open.resize(kept);
  }
  std::ranges::fill(least_, 0);
}

// The best within least_ and most_, of which nothing exceeds `inherited`.
void SwapSearch::branch(std::int64_t inherited, int most_rounds) {
  const bool unbounded = most_rounds == root_rounds;
  std::int64_t bound = inherited;
  std::uint32_t widest = no_kind;
  std::int32_t split = 0;
  for (int round = 0;; ++round) {
    if (found_ && bound <= aimed_at()) return;
    if (found_ && solved_ >= effort_) {
      left_open_ = std::max(left_open_, bound);
      return;
    }
    if (!relax()) return;
    remember();
    // Flows with at least as many complete: rest <= rest + worth * (complete - best_complete) <= relaxed - worth *
    // best.
    const std::int64_t value = relaxed();
    bound = std::min(bound, aim_ == Aim::complete ? (value + units_.strength - 1) / units_.complete
                                                  : value - worth_of_complete_ * best_complete_);
    if (unbounded && worth_of_complete_ == units_.complete)
      settled_ = settled_ || value == best_rest_ + units_.complete * best_complete_;
    if (bound <= aimed_at()) return;
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
      if (worth_of_complete_ == units_.complete) stop_swap("a bound is not met though every worth is earned");
      worth_of_complete_ = std::min(units_.complete, 4 * worth_of_complete_ + 1);
      continue;
    }
    const bool adjusted = aim_ == Aim::rest && adjust_worth(round);
    if (round + 1 >= most_rounds || (!shift_shares(round) && !adjusted)) break;
  }
  if (unbounded && aim_ == Aim::complete) {
    climb();
    if (bound <= aimed_at()) return;
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
