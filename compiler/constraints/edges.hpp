// constraints/edges.hpp: the constraints as a graph to search.
//
// x - y <= most is the edge y -> x of length most. Parallel edges stay apart, because it matters which statement they
// belong to. The edges lie sorted by the point that they leave, there those of definitions first, so that those at a
// point are neighbours in memory; what a search reads of each takes 8 bytes. Private to this room, where a point is a
// plain array position.
#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <limits>
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

// Numbers of edges, from `first` up to, not including, `last`.
struct EdgeRange {
  std::size_t first = 0;
  std::size_t last = 0;
};

// Whether edges are followed from y to x of their constraint or back.
enum class Direction : std::uint8_t { along, against };

class SortedEdges {
public:
  // The edges of all constraints for which keep(ConstraintIndex) holds; of equals in the order of the constraints.
  // Against, every edge is turned round. `graph` must outlive this.
  template <class Keep>
  SortedEdges(const ConstraintGraph& graph, const Keep& keep, Direction direction = Direction::along);

  [[nodiscard]] std::uint32_t points() const { return graph_->points(); }
  [[nodiscard]] std::size_t size() const { return targets_.size(); }
  [[nodiscard]] std::uint32_t to(std::size_t number) const { return targets_[number].to; }
  [[nodiscard]] std::int64_t length(std::size_t number) const {
    const std::int32_t length = targets_[number].length;
    return length != does_not_fit ? length : constraint(number).most;
  }
  [[nodiscard]] ConstraintIndex index(std::size_t number) const { return constraints_[number]; }
  [[nodiscard]] const Constraint& constraint(std::size_t number) const { return (*graph_)[constraints_[number]]; }
  [[nodiscard]] std::uint32_t from(std::size_t number) const { return begins_at(constraint(number)); }
  [[nodiscard]] StatementIndex statement(std::size_t number) const { return constraint(number).statement; }
  [[nodiscard]] std::uint8_t level(std::size_t number) const { return levels_[number]; }

  [[nodiscard]] EdgeRange leaving(std::size_t point) const { return {begins_[2 * point], begins_[2 * point + 2]}; }
  [[nodiscard]] EdgeRange definitions_leaving(std::size_t point) const {
    return {begins_[2 * point], begins_[2 * point + 1]};
  }
  [[nodiscard]] EdgeRange stated_leaving(std::size_t point) const {
    return {begins_[2 * point + 1], begins_[2 * point + 2]};
  }

private:
  struct Target {
    std::uint32_t to = 0;
    std::int32_t length = 0;
  };
  [[nodiscard]] std::uint32_t begins_at(const Constraint& constraint) const {
    return static_cast<std::uint32_t>(direction_ == Direction::along ? constraint.y : constraint.x);
  }
  [[nodiscard]] std::uint32_t ends_at(const Constraint& constraint) const {
    return static_cast<std::uint32_t>(direction_ == Direction::along ? constraint.x : constraint.y);
  }

  // For this length the constraint is asked.
  static constexpr std::int32_t does_not_fit = std::numeric_limits<std::int32_t>::min();

  const ConstraintGraph* graph_;
  Direction direction_;
  std::vector<Target> targets_;
  std::vector<ConstraintIndex> constraints_;
  std::vector<std::uint8_t> levels_;
  std::vector<std::uint32_t> begins_; // two for each point, definitions and others, and one more
};

template <class Keep>
SortedEdges::SortedEdges(const ConstraintGraph& graph, const Keep& keep, Direction direction)
    : graph_(&graph), direction_(direction), begins_(2 * std::size_t{graph.points()} + 1, 0) {
  // Counted into place: a third of the time of a stable sort at 1.4 million edges.
  const auto group = [&](const Constraint& constraint) {
    return 2 * std::size_t{begins_at(constraint)} + (constraint.statement == by_definition ? 0 : 1);
  };
  const std::span<const Constraint> all = graph.constraints();
  for (std::size_t i = 0; i < all.size(); ++i)
    if (keep(static_cast<ConstraintIndex>(i))) ++begins_[group(all[i]) + 1];
  for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
  targets_.resize(begins_.back());
  constraints_.resize(begins_.back());
  levels_.resize(begins_.back());
  std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
  for (std::size_t i = 0; i < all.size(); ++i) {
    const auto index = static_cast<ConstraintIndex>(i);
    if (!keep(index)) continue;
    const std::uint32_t number = next[group(all[i])]++;
    const bool fits = all[i].most > does_not_fit && all[i].most <= std::numeric_limits<std::int32_t>::max();
    targets_[number] = {ends_at(all[i]), fits ? static_cast<std::int32_t>(all[i].most) : does_not_fit};
    constraints_[number] = index;
    levels_[number] = all[i].level;
  }
}

// Of edges in ascending order those that leave the point.
inline std::span<const std::uint32_t> leaving_among(const SortedEdges& edges, std::span<const std::uint32_t> numbers,
                                                    std::uint32_t point) {
  const auto first = std::ranges::lower_bound(numbers, edges.leaving(point).first);
  const auto last = std::ranges::lower_bound(numbers, edges.leaving(point).last);
  return {first, last};
}

// The same edges by the point that they enter, there those of definitions first.
class EnteringEdges {
public:
  explicit EnteringEdges(const SortedEdges& edges)
      : begins_(2 * std::size_t{edges.points()} + 1, 0), numbers_(edges.size()) {
    const auto each = [&](const auto& visit) {
      for (std::uint32_t point = 0; point < edges.points(); ++point) {
        for (auto [e, last] = edges.definitions_leaving(point); e < last; ++e) visit(e, 2 * std::size_t{edges.to(e)});
        for (auto [e, last] = edges.stated_leaving(point); e < last; ++e) visit(e, 2 * std::size_t{edges.to(e)} + 1);
      }
    };
    each([&](std::size_t, std::size_t group) { ++begins_[group + 1]; });
    for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
    std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
    each([&](std::size_t e, std::size_t group) { numbers_[next[group]++] = static_cast<std::uint32_t>(e); });
  }

  [[nodiscard]] std::span<const std::uint32_t> at(std::size_t point) const {
    return between(begins_[2 * point], begins_[2 * point + 2]);
  }
  [[nodiscard]] std::span<const std::uint32_t> definitions_at(std::size_t point) const {
    return between(begins_[2 * point], begins_[2 * point + 1]);
  }
  [[nodiscard]] std::span<const std::uint32_t> stated_at(std::size_t point) const {
    return between(begins_[2 * point + 1], begins_[2 * point + 2]);
  }

private:
  [[nodiscard]] std::span<const std::uint32_t> between(std::size_t first, std::size_t last) const {
    return std::span{numbers_}.subspan(first, last - first);
  }

  std::vector<std::uint32_t> begins_; // two for each point, definitions and others, and one more
  std::vector<std::uint32_t> numbers_;
};

// The same edges by the statement that they belong to. Its memory grows with the greatest statement's index.
class EdgesByStatement {
public:
  explicit EdgesByStatement(const SortedEdges& edges) : edges_(&edges) {
    // Looked up once for each edge: the constraints lie in another order than the edges.
    std::vector<StatementIndex> statement_of(edges.size());
    std::size_t statements = 0;
    for (std::size_t e = 0; e < edges.size(); ++e) {
      statement_of[e] = edges.statement(e);
      if (statement_of[e] != by_definition)
        statements = std::max(statements, static_cast<std::size_t>(statement_of[e]) + 1);
    }
    begins_.assign(statements + 1, 0);
    for (const StatementIndex statement : statement_of)
      if (statement != by_definition) ++begins_[static_cast<std::size_t>(statement) + 1];
    for (std::size_t i = 1; i < begins_.size(); ++i) begins_[i] += begins_[i - 1];
    numbers_.resize(begins_.back());
    std::vector<std::uint32_t> next(begins_.begin(), begins_.end() - 1);
    for (std::size_t e = 0; e < edges.size(); ++e)
      if (statement_of[e] != by_definition)
        numbers_[next[static_cast<std::size_t>(statement_of[e])]++] = static_cast<std::uint32_t>(e);
  }

  [[nodiscard]] std::size_t statements() const { return begins_.size() - 1; } // one more than the greatest index
  // In ascending order, and so in the order of the points that they leave.
  [[nodiscard]] std::span<const std::uint32_t> of(StatementIndex statement) const {
    const auto index = static_cast<std::size_t>(statement);
    if (index >= statements()) return {};
    return std::span{numbers_}.subspan(begins_[index], begins_[index + 1] - begins_[index]);
  }
  [[nodiscard]] std::span<const std::uint32_t> leaving(StatementIndex statement, std::uint32_t point) const {
    return leaving_among(*edges_, of(statement), point);
  }

private:
  const SortedEdges* edges_;
  std::vector<std::uint32_t> begins_; // for each statement, and one more
  std::vector<std::uint32_t> numbers_;
};

} // namespace coeval
