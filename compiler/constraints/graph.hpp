// constraints/graph.hpp: what does a set of difference constraints entail?
//
// A Simple Temporal Problem (R. Dechter, I. Meiri, J. Pearl, "Temporal constraint networks", Artificial Intelligence
// 49, 1991): points in time, and constraints x - y <= most. Each constraint is an edge y -> x of length `most`. The set
// is satisfiable iff no cycle has negative length; the tightest bound on x - y is the length of a shortest path y -> x.
//
// Constraints come in levels of strength: level 0 is the strongest, and the graph of level k holds every constraint of
// level k or stronger. Several constraints may belong to one statement; a statement stands or falls as a whole.
//
// This room knows nothing of knowledge bases, files or dates: points are numbers, differences are days.
#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace coeval {

enum class Point : std::uint32_t {};
inline constexpr Point origin{0}; // the calendar's day 0; point 0 of every graph

// Which statement a constraint belongs to. Statements that hold by definition can never be what is wrong.
enum class StatementIndex : std::uint32_t {};
inline constexpr StatementIndex by_definition{0xffffffffU};

// x - y <= most
struct Constraint {
  Point x{};
  Point y{};
  std::int64_t most = 0;
  StatementIndex statement = by_definition;
  std::uint8_t level = 0;
};
enum class ConstraintIndex : std::uint32_t {};

// The lengths' absolute values add up to at most 2^56 days, so that no sum along paths can overflow: a hundred thousand
// constraints may each span a thousand million years.
class ConstraintGraph {
public:
  // A point out of range, or lengths beyond that sum, are a bug of the caller and stop the program with a message.
  explicit ConstraintGraph(std::uint32_t points, std::vector<Constraint> constraints);
  [[nodiscard]] std::uint32_t points() const { return points_; }
  [[nodiscard]] std::span<const Constraint> constraints() const { return constraints_; }
  [[nodiscard]] const Constraint& operator[](ConstraintIndex index) const {
    return constraints_[static_cast<std::size_t>(index)];
  }

private:
  std::uint32_t points_;
  std::vector<Constraint> constraints_;
};

} // namespace coeval
