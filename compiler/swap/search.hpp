// swap/search.hpp: which flow through a component is the best, counting complete pieces?
//
// The most weight of rightly filled slots is a min-cost flow. Its potentials say which arcs every flow with as much
// weight fills or leaves empty, and whatever follows happens among such flows only. Complete pieces make the problem
// hard, because a piece counts only if all its slots are right: the search branches on how many pieces of a group are
// complete, and bounds with a Lagrangian relaxation. There the worth of a complete piece is shared out among its slots,
// in any shares that add up to one, which can only be too much; shares move to the slots that run short.
//
// First the most complete pieces are found. Then strength and moves, among flows with as many: there a complete piece
// is worth what makes the relaxation keep as many, which is mostly far less than it would take to come first, and the
// less the closer the bound.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

#include "swap/climb.hpp"
#include "swap/network.hpp"

namespace coeval {

// Lexicographic values as one number: complete * units.complete + strength * units.strength - moved.
struct SwapUnits {
  explicit SwapUnits(const SwapNetwork& network);

  std::int64_t strength = 1;
  std::int64_t complete = 1;
  std::int64_t shares = 1;      // that the worth of a complete piece is divided into
  std::int64_t most_reward = 1; // for a unit on an arc that has to be full
};

class SwapSearch {
public:
  // Finds the most right. Keeps references to both.
  SwapSearch(const SwapComponent& component, const SwapNetwork& network);

  // What a coarser look at the same component has shown: no flow has more complete pieces, and by group, so many can be
  // complete together.
  void start_from(std::int64_t most_complete, const std::vector<std::int32_t>& complete);

  // Each solves at most about so many flows, and one if none is known.
  void find_most_complete(std::int64_t effort);
  void find_best(std::int64_t effort);

  // The best flow found, by arc of the network.
  const std::vector<std::int32_t>& flow() const { return best_flow_; }
  std::vector<std::int32_t> complete_by_group() const; // in that flow
  std::int64_t most_complete() const { return most_complete_; }
  std::int64_t solved() const { return solved_; }                                               // flows
  bool is_best() const { return best_complete_ == most_complete_ && left_open_ <= best_rest_; } // after find_best

private:
  enum class Aim : std::uint8_t { complete, rest };
  struct Extent {
    std::int32_t fewest, most;
  };
  // What the relaxation maximises: complete pieces, each worth so much, and so many times strength and moves.
  struct Objective {
    std::int64_t complete, rest;
  };

  void keep_right();
  bool relax();
  void remember(const std::vector<std::int32_t>& flow);
  void settle(const std::vector<std::int32_t>& complete);
  void branch(std::int64_t inherited, int most_rounds);
  void make_more_complete();
  bool adjust_worth(int round);
  bool shift_shares(int round);
  std::int64_t rest_of(const std::vector<std::int32_t>& flow) const;
  std::int64_t relaxed() const;
  std::int64_t aimed_at() const { return aim_ == Aim::complete ? best_complete_ : best_rest_; }
  std::int32_t complete_in(const std::vector<std::int32_t>& flow, std::uint32_t group) const;
  std::int32_t counted_in(std::uint32_t place) const;
  Extent counted(std::uint32_t group) const;

  const SwapComponent& component_;
  const SwapNetwork& network_;
  const SwapUnits units_;
  MinCostFlow flows_;                   // over the arcs of the network, and two more for each place that can count
  std::vector<std::uint32_t> counting_; // those places
  std::vector<FixedArc> fixed_;
  std::vector<std::int32_t> flow_;         // of the last relaxation, by arc of the network
  std::vector<std::int64_t> shares_;       // by place: of the worth of a complete piece
  std::vector<std::int32_t> least_, most_; // by group: complete pieces
  Objective objective_;
  Aim aim_ = Aim::complete;
  bool settled_ = false; // nothing is left to find
  std::int64_t solved_ = 0;
  std::int64_t effort_ = 0;
  std::int64_t left_open_ = std::numeric_limits<std::int64_t>::min(); // bounds what was not looked at

  bool found_ = false;
  std::int64_t best_complete_ = 0;
  std::int64_t best_rest_ = 0;
  std::vector<std::int32_t> best_flow_;
  std::int64_t most_complete_ = 0;
};

} // namespace coeval
