#include "constraints/solved.hpp"

#include <algorithm>

namespace coeval {
namespace {

// By level and point. A level's numbers are those of the level before it, lowered further. Settling takes a few rounds:
// at 14 million edges four levels took 1.5 s, where eight searches with a queue, to and from the origin, took most of
// 14.6 s. Empty where a level is unsatisfiable.
std::vector<std::vector<std::int64_t>> settled_numbers(const SortedEdges& edges, int weakest) {
  std::vector<std::vector<std::int64_t>> numbers;
  for (int level = 0; level <= weakest; ++level) {
    numbers.push_back(numbers.empty() ? first_numbers(edges.points()) : numbers.back());
    if (!settle_levels(edges, level, level, numbers.back())) return {};
  }
  return numbers;
}

} // namespace

std::shared_ptr<const SolvedGraph> SolvedGraph::solve(const ConstraintGraph& graph, int weakest,
                                                      std::span<const StatementIndex> left_out) {
  std::vector<StatementIndex> out(left_out.begin(), left_out.end());
  std::ranges::sort(out);
  const auto keep = [&](ConstraintIndex index) {
    const Constraint& constraint = graph[index];
    return constraint.level <= weakest &&
           (constraint.statement == by_definition || !std::ranges::binary_search(out, constraint.statement));
  };
  const auto levels = static_cast<std::size_t>(weakest + 1);
  SortedEdges along{graph, keep};
  std::vector<std::vector<std::int64_t>> numbers = settled_numbers(along, weakest);
  if (numbers.empty()) return {};
  auto solved = std::make_shared<SolvedGraph>(
      SolvedGraph{std::move(along), SortedEdges{graph, keep, Direction::against}, levels, {}});
  solved->known.resize(graph.points() * levels);
  for (std::size_t point = 0; point < graph.points(); ++point)
    for (std::size_t level = 0; level < levels; ++level)
      solved->known[point * levels + level].number = numbers[level][point];
  numbers.clear(); // before as much is needed for the other direction
  numbers = settled_numbers(solved->against, weakest);
  for (std::size_t point = 0; point < graph.points(); ++point)
    for (std::size_t level = 0; level < levels; ++level) {
      Known& known = solved->known[point * levels + level];
      const std::int64_t back = numbers[level][point];
      known.to_origin = hangs_from_origin(back) ? back - origin_number + known.number - origin_number : unreached;
    }
  return solved;
}

} // namespace coeval
