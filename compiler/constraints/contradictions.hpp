// constraints/contradictions.hpp: which statements cannot all be true?
//
// A contradiction is a negative cycle, reduced until it is irreducible: together its statements cannot hold, and drop
// any one of them and the rest can, counting their constraints up to its level and everything that holds by definition.
// By-definition constraints are never listed and never dropped.
// Levels are searched strongest first, so a contradiction is shown at the strongest level that already has it. After
// each, its weakest statement is set aside and the search goes on, so every contradiction reported would remain if the
// earlier ones were mended by giving up the statement marked in them. With all those set aside the graph is
// satisfiable.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "constraints/graph.hpp"

namespace coeval {

struct Contradiction {
  std::vector<StatementIndex> statements; // in the order of the cycle, the first being the lowest index
  std::vector<ConstraintIndex> cycle;     // one negative cycle through exactly these statements (and definitions),
                                          // each continuing where the last ended; begins in the first statement
  std::int64_t excess = 0;                // by how many days they miss each other: minus the cycle's length, positive
  int level = 0;
  StatementIndex weakest{}; // an element of `statements`; of equals the one with the higher index
};

// True where the first argument is weaker evidence than the second; must be a strict weak order on statements.
using WeakerThan = std::function<bool(StatementIndex, StatementIndex)>;

// Constraints of level `levels` and beyond are left out. The same graph always gives the same list.
// A cycle of by-definition constraints alone is a bug of the caller and stops the program with a message.
[[nodiscard]] std::vector<Contradiction> find_contradictions(const ConstraintGraph& graph, int levels,
                                                             const WeakerThan& weaker);

// What each of the statements `supposed` contradicts, held for itself against all that is not among them: one
// contradiction at the strongest level that has one, or nothing. `weaker` must call each of them weaker than all
// others. What is not supposed must be satisfiable. Takes one search of the whole for each level and then, for each
// statement, one of its neighbourhood.
[[nodiscard]] std::vector<std::optional<Contradiction>> find_contradictions_of(const ConstraintGraph& graph, int levels,
                                                                               std::span<const StatementIndex> supposed,
                                                                               const WeakerThan& weaker);

} // namespace coeval
