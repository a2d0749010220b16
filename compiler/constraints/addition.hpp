// constraints/addition.hpp: can one more constraint join a set that is satisfiable?
//
// With a potential of the set at hand this takes a search of only those points whose number would have to move
// (S. Cotton and O. Maler, "Fast and flexible difference constraint propagation for DPLL(T)", SAT 2006). Where the
// answer is no, every negative cycle runs through the new edge; the one with the fewest stated edges is given.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <limits>
#include <optional>
#include <queue>
#include <utility>
#include <vector>

#include "constraints/potential.hpp"

namespace coeval {

class Additions {
public:
  // graph.potential must be a potential of the active edges, and stays one.
  explicit Additions(ActiveEdges& graph);

  // Activates the edge and gives nothing; or leaves everything as it is and gives the edges of a negative cycle, each
  // continuing where the last ended: one with the fewest edges that are neither by definition nor of the same statement
  // as the new edge, which comes last.
  std::optional<std::vector<std::uint32_t>> add(std::uint32_t edge);

private:
  using Place =
      std::pair<std::int64_t, std::uint32_t>; // how far away, and a position; of equals the lower position first
  using NearestFirst = std::priority_queue<Place, std::vector<Place>, std::greater<>>;

  // One way of having come to a point; the ways are kept so that the edges can be told afterwards.
  struct Way {
    std::uint32_t point = 0;
    std::uint32_t edge = 0;   // the last edge on the way
    std::uint32_t before = 0; // the way up to there
    std::int64_t length = 0;  // reweighted by the potential, so never negative
  };

  bool make_room(const Edge& edge, std::int64_t missing);
  std::vector<std::uint32_t> fewest_stated_cycle(std::uint32_t edge, std::int64_t missing);
  [[nodiscard]] std::int64_t reweighted(const Edge& edge) const {
    return graph_.potential[edge.from] + edge.length - graph_.potential[edge.to];
  }
  bool shorten(std::uint32_t point, std::int64_t distance);
  void forget();

  static constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();
  ActiveEdges& graph_;
  std::vector<std::int64_t> distance_; // unreached everywhere between two searches
  std::vector<std::uint32_t> reached_; // where it is not, perhaps more than once
};

} // namespace coeval
