// constraints/fewest.hpp: which cycle through this edge is negative, and goes through as few statements as can be?
//
// The ways from the edge's end and the ways back to its beginning are followed in turn, layer by layer: layer k holds
// those with k stated edges, and within a layer Dijkstra's search (1959) finds the shortest. The ways of one side meet
// those of the other.
//
// Nearly every point has a date and so an edge to or from the origin, from where one comes everywhere. But a way that
// passes no point twice is, where it leads through the origin, a way to there and a way from there: as both sides look
// for theirs, neither has to follow the edges beyond it. So a search stays in the neighbourhood of the edge.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <queue>
#include <span>
#include <tuple>
#include <utility>
#include <vector>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/potential.hpp"

namespace coeval {

class FewestStatements {
public:
  // graph.potential must be a potential of the active edges. `added` is not active; `own` are the edges of its
  // statement, active or not, in ascending order.
  FewestStatements(const ActiveEdges& graph, const EnteringEdges& entering, std::uint32_t added,
                   std::span<const std::uint32_t> own);

  // The edges of a negative cycle through `added` and active edges, each continuing where the last ended and passing no
  // point twice: one with the fewest edges that are neither by definition nor of the same statement, of those
  // the shortest; `added` comes last. Nothing where no such cycle is negative.
  [[nodiscard]] std::optional<std::vector<std::uint32_t>> cycle();

private:
  static constexpr std::uint32_t nothing = 0xffffffffU;

  // One way of having come to a point; the ways are kept so that the edges can be told afterwards.
  struct Way {
    std::uint32_t point = 0;
    std::uint32_t edge = nothing;    // the last edge on the way
    std::uint32_t before = nothing;  // the way up to there
    std::uint32_t earlier = nothing; // a longer way to the same point, in this layer or an earlier one
    std::uint32_t layer = 0;         // how many stated edges are on it
    std::uint32_t edges = 0;         // how many edges
    std::int64_t length = 0;         // by what room the edges have, so never negative
  };

  // The ways from the edge's end, or those back to its beginning.
  struct Side {
    bool along = true; // with the edges; against them otherwise
    std::vector<Way> ways;
    boost::unordered_flat_map<std::uint32_t, std::uint32_t> shortest; // by point, positions of ways
    std::vector<std::uint32_t> layer;       // ways whose stated edges have not been followed yet
    std::vector<std::uint32_t> beyond;      // ways of the next layer
    std::uint32_t depth = 0;                // layers that are complete
    std::size_t cost = 0;                   // how many edges there are to follow for the next
    std::optional<std::uint32_t> to_origin; // the first layer that came there

    [[nodiscard]] bool exhausted() const { return layer.empty(); }
    // The first layer in which a way to the origin may still be found.
    [[nodiscard]] std::uint32_t origin_from() const { return to_origin.value_or(depth + 1); }
  };

  // Two ways that meet at a point; the fewest statements first, then the shortest of those.
  struct Meeting {
    std::uint32_t stated = nothing;
    std::int64_t length = 0;
    std::uint32_t edges = 0;
    std::uint32_t there = nothing;
    std::uint32_t back = nothing;
    friend auto operator<=>(const Meeting&, const Meeting&) = default;
  };

  void settle_layer(Side& side, const Side& other);
  void open_layer(Side& side);
  void meet(const Side& side, const Side& other, std::uint32_t position);
  [[nodiscard]] bool is_useful(const Side& side, const Side& other) const;
  [[nodiscard]] bool is_own(std::uint32_t edge) const;
  template <class Visit> void each_free_edge(const Side& side, std::uint32_t point, const Visit& visit) const;
  template <class Visit> void each_stated_edge(const Side& side, std::uint32_t point, const Visit& visit) const;
  [[nodiscard]] std::vector<std::uint32_t> told() const;

  const ActiveEdges& graph_;
  const EnteringEdges& entering_;
  std::uint32_t added_;
  std::span<const std::uint32_t> own_;
  std::int64_t missing_;
  Side there_;
  Side back_;
  Meeting best_;
};

} // namespace coeval
