// constraints/edges.hpp: the constraints as a graph to search.
//
// x - y <= most is the edge y -> x of length most. Parallel edges stay apart, because it matters which statement they
// belong to. The edges lie sorted by the point that they leave in one array, so that those at a point are neighbours in
// memory. Private to this room, where a point is a plain array position.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "constraints/graph.hpp"

namespace coeval {

struct Edge {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  std::int64_t length = 0;
  ConstraintIndex constraint{};
  StatementIndex statement = by_definition;
};

inline Edge edge_of(const ConstraintGraph& graph, ConstraintIndex index) {
  const Constraint& constraint = graph[index];
  return {static_cast<std::uint32_t>(constraint.y), static_cast<std::uint32_t>(constraint.x), constraint.most, index,
          constraint.statement};
}

// The edges of all constraints for which keep(ConstraintIndex) holds, in the order of the constraints.
template <typename Keep> std::vector<Edge> edges_of(const ConstraintGraph& graph, const Keep& keep) {
  std::vector<Edge> edges;
  edges.reserve(graph.constraints().size());
  for (std::size_t i = 0; i < graph.constraints().size(); ++i) {
    const auto index = static_cast<ConstraintIndex>(i);
    if (keep(index)) edges.push_back(edge_of(graph, index));
  }
  return edges;
}

class SortedEdges {
public:
  SortedEdges(std::uint32_t points, const std::vector<Edge>& edges)
      : edges_(edges.size()), begins_(points + std::size_t{1}, 0) {
    // Counted into place, equals in the order of the constraints: a third of the time of a stable sort at 1.4 million
    // edges.
    for (const Edge& edge : edges) ++begins_[edge.from + std::size_t{1}];
    for (std::size_t point = 0; point < points; ++point) begins_[point + 1] += begins_[point];
    std::vector<std::size_t> next(begins_.begin(), begins_.end() - 1);
    for (const Edge& edge : edges) edges_[next[edge.from]++] = edge;
  }

  [[nodiscard]] std::uint32_t points() const { return static_cast<std::uint32_t>(begins_.size() - 1); }
  [[nodiscard]] std::span<const Edge> all() const { return edges_; }
  [[nodiscard]] const Edge& operator[](std::size_t number) const { return edges_[number]; }
  // The numbers of the edges at a point are begin(point) .. begin(point + 1) - 1.
  [[nodiscard]] std::size_t begin(std::size_t point) const { return begins_[point]; }
  [[nodiscard]] std::span<const Edge> at(std::size_t point) const {
    return std::span{edges_}.subspan(begins_[point], begins_[point + 1] - begins_[point]);
  }

private:
  std::vector<Edge> edges_;
  std::vector<std::size_t> begins_;
};

} // namespace coeval
