// drawings/layers.hpp: in which layer does each node of a graph stand, and in which order do they stand there?
//
// Private to this room. The method of Sugiyama, Tagawa and Toda, "Methods for visual understanding of hierarchical
// system structures", 1981: nodes are put into layers so that every arc leads to a later one, arcs that pass layers get
// a knot in each, and the knots of a layer are ordered by the mean place of their neighbours, forwards and backwards.
#pragma once

#include <limits>

#include "drawings/directed.hpp"

namespace coeval {

inline constexpr std::size_t no_node = std::numeric_limits<std::size_t>::max();

// A node in its layer, or where an arc passes a layer.
struct Knot {
  std::size_t node = no_node;
  std::size_t layer = 0;
  std::vector<std::size_t> before; // knots in the layer before that arcs come from, once for each arc
  std::vector<std::size_t> after;
};

struct Layers {
  std::vector<Knot> knots;                      // those of the nodes first, in their order
  std::vector<std::vector<std::size_t>> layers; // the knots of each, in order
  // The knots that an arc runs through, from its start to its end. An arc that passes more layers than can be afforded
  // has its two ends only.
  std::vector<std::vector<std::size_t>> ways;
};

// Needs arcs that close no circle. No layer holds more than `most` nodes.
[[nodiscard]] Layers arrange_in_layers(std::size_t nodes, const std::vector<Arc>& arcs, std::size_t most);

// How many pairs of arcs cross between neighbouring layers.
[[nodiscard]] std::size_t count_crossings(const Layers& layers);

// Where each knot lies across its layer, as whole numbers: near its neighbours, and no closer to the next one than half
// of both sizes and `gap`. `sizes` are even. All from 0 to `room`, or as far as the fullest layer needs.
[[nodiscard]] std::vector<double> place_across(const Layers& layers, const std::vector<double>& sizes, double gap,
                                               double room);

} // namespace coeval
