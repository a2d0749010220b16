// constraints/irreducible.hpp: which of these statements does a contradiction really need?
//
// A deletion filter: leave out one statement at a time and look whether the rest still contradict each other. Only the
// statements' own constraints and the definitions that can be reached from them take part, so the search is small.
#pragma once

#include <cstdint>
#include <functional>
#include <vector>

#include "constraints/potential.hpp"

namespace coeval {

class Reduction {
public:
  // `definitions` by the point that they leave. Both must outlive this.
  Reduction(const ConstraintGraph& graph, const SortedEdges& definitions);

  struct Conflict {
    std::vector<StatementIndex> statements; // irreducible, by index
    std::vector<Edge> cycle;                // a negative cycle through exactly these
  };

  // Reduces the statements of the negative cycle `cycle`, trying to do without the earlier of `order`, which are the
  // statements of the cycle, first. `constraints_of` gives the edges of a statement that count, `level` bounds the
  // definitions. `potential` should have room for all of that but one statement's edges; it only saves work.
  Conflict reduce(std::vector<Edge> cycle, std::vector<StatementIndex> order, int level,
                  const std::function<std::vector<Edge>(StatementIndex)>& constraints_of,
                  const std::vector<std::int64_t>& potential);

private:
  std::uint32_t place_of(std::uint32_t point);

  const ConstraintGraph& graph_;
  const SortedEdges& definitions_;
  std::vector<std::uint32_t> places_; // per point, its place in `points_` plus one; zero where it takes no part
  std::vector<std::uint32_t> points_;
};

// The statements of these edges, by index, each once.
std::vector<StatementIndex> statements_of(const std::vector<Edge>& edges);

} // namespace coeval
