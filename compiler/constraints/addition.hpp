// constraints/addition.hpp: can one more constraint join a set that is satisfiable?
//
// With a potential of the set at hand this takes a search of only those points whose number would have to move
// (S. Cotton and O. Maler, "Fast and flexible difference constraint propagation for DPLL(T)", SAT 2006). Where the
// answer is no, every negative cycle runs through the new edge; one with the fewest stated edges is given.
//
// The numbers are more than a potential: where active edges lead from the origin to a point, its number is its distance
// from there (and the origin's own, origin_number). So a date that fits never asks for another number of the origin,
// from where nearly everything hangs: that would be a negative cycle already. To keep it so, what is taken out again
// gives the points that hung from it higher numbers (the same as G. Ramalingam and T. Reps, "An incremental algorithm
// for a generalization of the shortest-path problem", Journal of Algorithms 21, 1996, on edges reweighted).
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <queue>
#include <span>
#include <utility>
#include <vector>

#include "constraints/potential.hpp"

namespace coeval {

class Additions {
public:
  // graph.potential must be such numbers for the active edges, and they stay such. All must outlive this.
  Additions(ActiveEdges& graph, const EnteringEdges& entering, const EdgesByStatement& by_statement);

  // Activates the edge and gives nothing; or leaves everything as it is and gives the edges of a negative cycle, each
  // continuing where the last ended: one with the fewest edges that are neither by definition nor of the same statement
  // as the new edge, which comes last.
  std::optional<std::vector<std::uint32_t>> add(std::uint32_t edge);
  // Deactivates the edges.
  void take_out(std::span<const std::uint32_t> edges);
  // Active edges that lead from the origin to a point that hangs from it, each continuing where the last ended, as long
  // as its number says; of such ways one with the fewest edges.
  [[nodiscard]] std::vector<std::uint32_t> way_from_origin(std::uint32_t point) const;

private:
  using Place = std::pair<std::int64_t, std::uint32_t>; // how far away, and a point; of equals the lower point first
  using NearestFirst = std::priority_queue<Place, std::vector<Place>, std::greater<>>;

  bool make_room(std::uint32_t edge, std::int64_t missing);
  bool shorten(std::uint32_t point, std::int64_t distance);
  void forget();

  static constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();
  ActiveEdges& graph_;
  const EnteringEdges& entering_;
  const EdgesByStatement& by_statement_;
  std::vector<std::int64_t> distance_; // unreached everywhere between two searches
  std::vector<std::uint32_t> reached_; // where it is not, perhaps more than once
};

} // namespace coeval
