#include "swap/search.hpp"

#include <algorithm>
#include <limits>

namespace coeval {
namespace {

// Lexicographic values as one number: complete * complete_unit + strength * strength_unit - moved.
//
// With S slots, P parts in them: moved <= 2 S, strength <= 16 S. strength_unit = 2 S + 1 exceeds any difference in
// moved; complete_unit = 16 S (2 S + 1) + 2 S + 1 exceeds any difference in both. A worth is divided into `shares`
// parts for its slots, so an arc costs, and a filled slot adds, at most shares * (complete_unit + 16 strength_unit +
// 1). That times the nodes bounds potentials, that times the slots whole values; shares are lowered until both stay
// below 2^60. LEMON's own artificial cost is 2^62, of which a potential holds at most one: reduced costs stay below
// 2^63. With the most slots and parts that are allowed there is still a share for each slot of a piece of three.
struct Units {
  std::int64_t strength = 1;
  std::int64_t complete = 1;
  std::int64_t shares = 1;

  explicit Units(const SwapNetwork& network) {
    constexpr std::int64_t strongest = 16;
    constexpr std::int64_t most_shares = 840; // divided by every number of slots up to 8
    constexpr std::int64_t limit = std::int64_t{1} << 60U;
    strength = 2 * network.slots + 1;
    complete = strongest * network.slots * strength + strength;
    const std::int64_t per_share = complete + strongest * strength + 1;
    shares = std::min(most_shares, limit / per_share / (std::max<std::int64_t>(network.nodes, network.slots) + 2));
    if (shares < 1) stop_swap("costs could overflow");
  }
};

class Search {
public:
  Search(const SwapComponent& component, const SwapNetwork& network, std::int64_t effort)
      : component_(component), network_(network), units_(network), flows_(network.nodes, network.arcs), effort_(effort),
        lower_(network.arcs.size(), 0), upper_(network.capacity), cost_(network.arcs.size(), 0),
        fixed_(network.arcs.size(), Fixed::no), shares_(network.places.size(), 0), least_(component.groups.size(), 0),
        most_(component.groups.size(), 0) {
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
      const SwapGroup& group = component_.groups[g];
      if (!group.can_complete) continue;
      most_[g] = static_cast<std::int32_t>(group.count());
      const auto places = static_cast<std::int64_t>(group.places.size());
      for (std::int64_t p = 0; p < places; ++p) // as even as whole numbers allow
        share(g, p) = units_.shares * (p + 1) / places - units_.shares * p / places;
    }
  }

  SwapSearch run() {
    keep_right();
    branch(std::numeric_limits<std::int64_t>::max(), root_rounds);
    SwapSearch result;
    const std::int64_t bound = std::max(best_, left_open_);
    result.is_best = bound == best_;
    result.most_complete = (bound + units_.strength - 1) / units_.complete;
    result.flow = std::move(best_flow_);
    result.solved = solved_;
    return result;
  }

private:
  enum class Fixed : std::uint8_t { no, empty, full };
  static constexpr int root_rounds = 40;
  static constexpr int rounds = 6;

  std::int64_t& share(std::uint32_t group, std::int64_t place) {
    return shares_[network_.first_place[group] + static_cast<std::size_t>(place)];
  }

  // From here on only flows with the most right are looked at: complementary slackness.
  void keep_right() {
    for (std::size_t a = 0; a < cost_.size(); ++a) cost_[a] = -network_.worth[a].right;
    set_bounds();
    ++solved_;
    if (!flows_.solve(lower_, upper_, cost_)) stop_swap("no flow at all");
    for (std::size_t a = 0; a < cost_.size(); ++a) {
      const std::int64_t reduced =
          cost_[a] + flows_.potential()[network_.arcs[a].from] - flows_.potential()[network_.arcs[a].to];
      if (reduced > 0) fixed_[a] = Fixed::empty;
      if (reduced < 0) fixed_[a] = Fixed::full;
    }
  }

  // False: they contradict each other.
  bool set_bounds() {
    for (std::size_t a = 0; a < cost_.size(); ++a) {
      lower_[a] = 0;
      upper_[a] = network_.capacity[a];
    }
    for (const PlaceArcs& place : network_.places) {
      lower_[place.counted] = least_[place.group];
      upper_[place.counted] = most_[place.group];
      upper_[place.uncounted] -= most_[place.group];
    }
    for (std::size_t a = 0; a < cost_.size(); ++a) {
      if (fixed_[a] == Fixed::empty) upper_[a] = 0;
      if (fixed_[a] == Fixed::full) lower_[a] = upper_[a];
      if (lower_[a] > upper_[a]) return false;
    }
    return true;
  }

  void set_costs() {
    for (std::size_t a = 0; a < cost_.size(); ++a)
      cost_[a] = units_.shares * (network_.worth[a].moved - units_.strength * network_.worth[a].strength);
    for (std::size_t p = 0; p < network_.places.size(); ++p)
      cost_[network_.places[p].counted] -= shares_[p] * units_.complete;
  }

  std::int32_t right_in(std::uint32_t place) const {
    const PlaceArcs& arcs = network_.places[place];
    return flows_.flow()[arcs.counted] + flows_.flow()[arcs.uncounted];
  }

  struct Extent {
    std::int32_t fewest, most;
  };
  // Of the slots rightly filled at each place of a group.
  template <typename Filled> Extent extent_of(std::uint32_t group, Filled filled) const {
    Extent extent{std::numeric_limits<std::int32_t>::max(), 0};
    for (std::uint32_t p = network_.first_place[group]; p < network_.first_place[group + 1]; ++p) {
      extent.fewest = std::min(extent.fewest, filled(p));
      extent.most = std::max(extent.most, filled(p));
    }
    return extent;
  }
  // As far as they can count for complete pieces.
  std::int32_t counted_in(std::uint32_t place) const {
    return std::min(right_in(place), most_[network_.places[place].group]);
  }
  Extent counted(std::uint32_t group) const {
    return extent_of(group, [this](std::uint32_t p) { return counted_in(p); });
  }

  std::int64_t value() const {
    std::int64_t value = -network_.held;
    for (std::size_t a = 0; a < cost_.size(); ++a)
      value +=
          flows_.flow()[a] * (units_.strength * network_.worth[a].strength - std::int64_t{network_.worth[a].moved});
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g)
      if (component_.groups[g].can_complete)
        value += units_.complete * extent_of(g, [this](std::uint32_t p) { return right_in(p); }).fewest;
    return value;
  }

  // No plan within the bounds is worth more than this. Shares add up to more than their due where flows below what a
  // piece needs are counted, never to less.
  std::int64_t bound_of_flow() const {
    std::int64_t scaled = -network_.held * units_.shares;
    for (std::size_t a = 0; a < cost_.size(); ++a) scaled -= flows_.flow()[a] * cost_[a];
    // Rounded down: values are whole.
    return scaled >= 0 ? scaled / units_.shares : -((-scaled + units_.shares - 1) / units_.shares);
  }

  // Moves shares to the places that are short. False: none is.
  bool shift_shares(int round) {
    bool shifted = false;
    for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
      const auto [fewest, most] = counted(g);
      if (!component_.groups[g].can_complete || fewest == most) continue;
      std::int64_t pool = 0;
      std::int64_t short_places = 0;
      const std::int64_t step = std::max<std::int64_t>(1, units_.shares / (2 * (round + 1)));
      for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p) {
        const std::int32_t filled = counted_in(p);
        if (filled == fewest) ++short_places;
        if (filled != most) continue;
        const std::int64_t taken = std::min(shares_[p], step);
        shares_[p] -= taken;
        pool += taken;
      }
      if (pool > 0) shifted = true;
      for (std::uint32_t p = network_.first_place[g]; p < network_.first_place[g + 1]; ++p) {
        if (counted_in(p) != fewest) continue;
        const std::int64_t given = pool / short_places--;
        shares_[p] += given;
        pool -= given;
      }
    }
    return shifted;
  }

  // The best within least_ and most_. `inherited` bounds it already.
  void branch(std::int64_t inherited, int most_rounds) {
    std::int64_t bound = inherited;
    std::uint32_t widest = no_kind;
    std::int32_t split = 0;
    for (int round = 0;; ++round) {
      if (solved_ >= effort_ && found_) {
        left_open_ = std::max(left_open_, bound);
        return;
      }
      set_costs();
      ++solved_;
      if (!set_bounds() || !flows_.solve(lower_, upper_, cost_)) return;
      bound = std::min(bound, bound_of_flow());
      if (const std::int64_t found = value(); !found_ || found > best_) {
        found_ = true;
        best_ = found;
        best_flow_ = flows_.flow();
      }
      if (bound <= best_) return;
      std::int32_t gap = 0;
      for (std::uint32_t g = 0; g < component_.groups.size(); ++g) {
        if (!component_.groups[g].can_complete) continue;
        const auto [fewest, most] = counted(g);
        if (most - fewest <= gap) continue;
        gap = most - fewest;
        widest = g;
        split = fewest + (gap - 1) / 2;
      }
      if (gap == 0) stop_swap("a flow is worth less than its bound though every worth is earned");
      if (round + 1 >= most_rounds || !shift_shares(round)) break;
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

  const SwapComponent& component_;
  const SwapNetwork& network_;
  const Units units_;
  MinCostFlow flows_;
  const std::int64_t effort_;
  std::int64_t solved_ = 0;
  std::vector<std::int32_t> lower_, upper_;
  std::vector<std::int64_t> cost_;
  std::vector<Fixed> fixed_;               // by arc: what all flows with the most right have in common
  std::vector<std::int64_t> shares_;       // by place: of the worth of a complete piece
  std::vector<std::int32_t> least_, most_; // by group: complete pieces
  bool found_ = false;
  std::int64_t best_ = 0;
  std::vector<std::int32_t> best_flow_;
  std::int64_t left_open_ = std::numeric_limits<std::int64_t>::min();
};

} // namespace

SwapSearch search_flows(const SwapComponent& component, const SwapNetwork& network, std::int64_t effort) {
  return Search{component, network, effort}.run();
}

} // namespace coeval
