// constraints/irreducible.hpp: which of these statements does a contradiction really need?
//
// A deletion filter: leave out one statement at a time and look whether the rest still contradict each other. Only what
// can be reached from one of them, through the statements' own constraints and definitions, takes part, so the search
// is small.
#pragma once

#include <cstdint>
#include <vector>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/potential.hpp"

namespace coeval {

class Reduction {
public:
  // All must outlive this.
  Reduction(const ConstraintGraph& graph, const SortedEdges& edges, const EdgesByStatement& by_statement)
      : graph_(graph), edges_(edges), by_statement_(by_statement) {}

  struct Conflict {
    std::vector<StatementIndex> statements; // irreducible, by index
    std::vector<Edge> cycle;                // a negative cycle through exactly these
  };

  // Reduces the statements of the negative cycle `cycle`, which is one with the fewest edges that are neither by
  // definition nor of `added`, trying to do without the earlier of `order`, which are the statements of the cycle,
  // first. Constraints up to `level` count. Without those of `added`, one of the statements, they can all hold, and
  // `potential` should have room for them; that only saves work.
  Conflict reduce(std::vector<Edge> cycle, std::vector<StatementIndex> order, int level, StatementIndex added,
                  const std::vector<std::int64_t>& potential);

private:
  // The constraints of some statements and definitions, with points numbered in the order in which they were found.
  struct Part {
    std::vector<Constraint> constraints;
    std::vector<ConstraintIndex> indices; // of each in the whole
    std::vector<std::uint32_t> points;    // of each in the whole
  };
  // `statements` by index.
  [[nodiscard]] Part reached_from(StatementIndex added, const std::vector<StatementIndex>& statements, int level) const;

  const ConstraintGraph& graph_;
  const SortedEdges& edges_;
  const EdgesByStatement& by_statement_;
};

// The statements of these edges, by index, each once.
std::vector<StatementIndex> statements_of(const std::vector<Edge>& edges);

} // namespace coeval
