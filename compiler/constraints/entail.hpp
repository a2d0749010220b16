// constraints/entail.hpp: how far apart must, and can, two points be?
//
// Answers for one level of a satisfiable graph. Building one costs a pass of relaxation rounds that ends early; each
// question then is a Dijkstra search on edges reweighted by a feasible potential (Johnson's method). A later, faster
// index of distances can take its place behind the same calls.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "constraints/graph.hpp"

namespace coeval {

// The tightest entailed bounds between one point and all others: entry p bounds p - from, or to - p.
using BoundRow = std::vector<std::optional<std::int64_t>>;

// A point with what is known of its distance from another.
struct NearPoint {
  Point point{};
  std::int64_t most = 0;
};

struct SolvedGraph;

// The tightest bounds of a point to the origin.
struct PointBounds {
  std::optional<std::int64_t> earliest;
  std::optional<std::int64_t> latest;
};

class Entailment {
public:
  // The graph of all constraints with level <= `level`, leaving out the statements listed. Nothing if unsatisfiable.
  // Keeps a reference to `graph`, which must outlive it. Safe to ask from several threads.
  static std::optional<Entailment> build(const ConstraintGraph& graph, int level,
                                         std::span<const StatementIndex> left_out = {});

  // The same for each level below `levels`, from one search; empty if the weakest of them is unsatisfiable.
  static std::vector<Entailment> build_each(const ConstraintGraph& graph, int levels,
                                            std::span<const StatementIndex> left_out = {});

  // The tightest bounds between a point and the origin: point - origin <= latest, and >= earliest. No search.
  [[nodiscard]] std::optional<std::int64_t> latest(Point point) const;
  [[nodiscard]] std::optional<std::int64_t> earliest(Point point) const;
  // Both on this level and each stronger one, by level; `each` has room for that many.
  void bounds_on_levels(Point point, std::span<PointBounds> each) const;
  // The tightest w with x - y <= w, or nothing if x - y is not bounded above. Zero where x == y.
  [[nodiscard]] std::optional<std::int64_t> upper(Point x, Point y) const;
  // Row p: the tightest w with p - from <= w.
  [[nodiscard]] BoundRow upper_from(Point from) const;
  // Row p: the tightest w with to - p <= w.
  [[nodiscard]] BoundRow upper_to(Point to) const;
  // The points that are bound more tightly than by both their bounds to the origin, each with the tightest w of
  // point - from <= w: upper(point, from) < upper(point, origin) + upper(origin, from), or the latter is no bound.
  // `from` itself stands first. The search goes no further than they do. For very many points see NearSearch.
  [[nodiscard]] std::vector<NearPoint> nearer_from(Point from) const;
  // The same the other way: the tightest w of to - point <= w.
  [[nodiscard]] std::vector<NearPoint> nearer_to(Point to) const;
  // A chain of constraints that proves upper(x, y): their lengths add up to it, each continuing where the last ended,
  // from y to x. Of all such chains one with the fewest constraints that are not by definition, then with the fewest
  // constraints; ties are broken by constraint index, so the same graph always gives the same chain. Empty where
  // x == y or there is no bound.
  [[nodiscard]] std::vector<ConstraintIndex> proof(Point x, Point y) const;
  // Would the graph stay satisfiable with x - y <= most added?
  [[nodiscard]] bool allows(Point x, Point y, std::int64_t most) const;

private:
  friend class NearSearch; // shares what it answers from
  Entailment(std::shared_ptr<const SolvedGraph> solved, int level) : solved_(std::move(solved)), level_(level) {}
  [[nodiscard]] std::vector<NearPoint> nearer(Point start, bool along) const;

  std::shared_ptr<const SolvedGraph> solved_;
  int level_;
};

} // namespace coeval
