// constraints/solved.hpp: what has been found out about every point of a satisfiable graph, on each level?
//
// Private to this room: what Entailment answers from. All levels share the edges: for four levels a quarter of the
// memory and of the time to sort. What is known of a point lies together, four levels in one line of the processor's
// cache, since whoever asks about a point asks on all of them: with a list for each level, the days of a span took
// eight lines, now two.
#pragma once

#include <cstdint>
#include <limits>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include <boost/align/aligned_allocator.hpp>

#include "constraints/edges.hpp"
#include "constraints/potential.hpp"

namespace coeval {

inline constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

// Lengths are reweighted: length + number[from] - number[to], which is never negative. Reweighting lengthens every path
// between the same two points by the same amount.
struct SolvedGraph {
  // What is known of a point on a level.
  struct Known {
    std::int64_t number = 0;    // a potential; where a point hangs from the origin, it tells its distance from there
    std::int64_t to_origin = 0; // the reweighted distance, or unreached

    // The tightest bounds to the origin, where there are any.
    [[nodiscard]] std::optional<std::int64_t> latest() const {
      if (!hangs_from_origin(number)) return {};
      return number - origin_number;
    }
    [[nodiscard]] std::optional<std::int64_t> earliest() const {
      if (to_origin == unreached) return {};
      return number - origin_number - to_origin;
    }
    // The reweighted distance from the origin: nothing, where there is a way.
    [[nodiscard]] std::int64_t from_origin() const { return hangs_from_origin(number) ? 0 : unreached; }
    // No way from the one by the origin to the other is shorter than this, reweighted.
    [[nodiscard]] std::int64_t by_origin_to(const Known& other) const {
      return hangs_from_origin(other.number) ? to_origin : unreached;
    }
  };

  // The levels up to `weakest`, leaving out some statements. Nothing where they cannot all hold.
  static std::shared_ptr<const SolvedGraph> solve(const ConstraintGraph& graph, int weakest,
                                                  std::span<const StatementIndex> left_out);

  [[nodiscard]] const SortedEdges& in(Direction direction) const {
    return direction == Direction::along ? along : against;
  }
  [[nodiscard]] const Known& on(int level, std::size_t point) const {
    return known[point * levels + static_cast<std::size_t>(level)];
  }

  SortedEdges along;
  SortedEdges against; // the same turned round
  std::size_t levels;
  std::vector<Known, boost::alignment::aligned_allocator<Known, 64>> known; // by point, and there by level
};

} // namespace coeval
