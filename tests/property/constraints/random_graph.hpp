// Small random constraint graphs, the same for the same seed on every machine.
#pragma once

#include <cstdint>
#include <random>
#include <vector>

#include "constraints/entail.hpp"

namespace random_graph {

using namespace coeval;

// Not std::uniform_int_distribution: what that makes of an engine is up to each standard library.
class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::uint64_t below(std::uint64_t limit) { return engine_() % limit; }
  std::int64_t between(std::int64_t least, std::int64_t most) {
    return least + static_cast<std::int64_t>(below(static_cast<std::uint64_t>(most - least + 1)));
  }

private:
  std::mt19937_64 engine_;
};

struct Shape {
  std::uint32_t points = 5;
  std::uint32_t constraints = 8;
  std::uint32_t statements = 5; // the constraints are dealt out among so many
  std::int64_t shortest = -3;
  std::int64_t longest = 4;
  int levels = 1;
  std::uint32_t definitions_in_ten = 2; // constraints that hold by definition; never contradictory on their own
};

inline ConstraintGraph make(Dice& dice, const Shape& shape) {
  std::vector<Constraint> constraints;
  for (std::uint32_t i = 0; i < shape.constraints; ++i) {
    Constraint c;
    c.x = Point{static_cast<std::uint32_t>(dice.below(shape.points))};
    c.y = Point{static_cast<std::uint32_t>(dice.below(shape.points))};
    c.level = static_cast<std::uint8_t>(dice.below(static_cast<std::uint64_t>(shape.levels)));
    c.most = dice.between(shape.shortest, shape.longest);
    if (dice.below(10) < shape.definitions_in_ten) {
      // Every definition is true of points that lie at 2, 4, 6 ..., so that together they are satisfiable.
      c.most = 2 * (static_cast<std::int64_t>(c.x) - static_cast<std::int64_t>(c.y)) + dice.between(0, 2);
      c.level = static_cast<std::uint8_t>(dice.below(2) == 0 ? 0 : c.level);
    } else {
      c.statement = StatementIndex{static_cast<std::uint32_t>(dice.below(shape.statements))};
    }
    constraints.push_back(c);
  }
  return ConstraintGraph{shape.points, std::move(constraints)};
}

} // namespace random_graph
