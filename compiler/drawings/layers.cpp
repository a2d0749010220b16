#include "drawings/layers.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

namespace coeval {
namespace {

constexpr int sweeps = 12;

// The length of the longest way to each node; nodes that nothing leads to stand just before what they lead to.
std::vector<std::size_t> depths(std::size_t nodes, const std::vector<Arc>& arcs, const Outgoing& outgoing) {
  std::vector<std::size_t> missing(nodes, 0); // arcs from nodes that are not done
  for (const Arc& arc : arcs) ++missing[arc.to];
  const std::vector<std::size_t> incoming = missing;
  std::vector<std::size_t> depth(nodes, 0);
  std::vector<std::size_t> ready;
  for (std::size_t node = 0; node < nodes; ++node)
    if (missing[node] == 0) ready.push_back(node);
  for (std::size_t next = 0; next < ready.size(); ++next) {
    const std::size_t node = ready[next];
    for (const std::size_t* arc = outgoing.begin(node); arc != outgoing.end(node); ++arc) {
      const std::size_t to = arcs[*arc].to;
      depth[to] = std::max(depth[to], depth[node] + 1);
      if (--missing[to] == 0) ready.push_back(to);
    }
  }
  for (std::size_t node = 0; node < nodes; ++node) {
    if (incoming[node] != 0 || outgoing.count(node) == 0) continue;
    std::size_t nearest = no_node;
    for (const std::size_t* arc = outgoing.begin(node); arc != outgoing.end(node); ++arc)
      nearest = std::min(nearest, depth[arcs[*arc].to]);
    depth[node] = nearest - 1;
  }
  return depth;
}

// The first layer from one on that is not full.
class Room {
public:
  explicit Room(std::size_t most) : most_(most) {}

  std::size_t take(std::size_t layer) {
    grow(layer);
    std::size_t found = layer;
    while (next_[found] != found) {
      found = next_[found];
      grow(found);
    }
    for (std::size_t passed = layer; passed != found;) passed = std::exchange(next_[passed], found);
    if (++taken_[found] == most_) next_[found] = found + 1;
    return found;
  }

private:
  void grow(std::size_t layer) {
    while (next_.size() <= layer) {
      next_.push_back(next_.size());
      taken_.push_back(0);
    }
  }

  std::size_t most_;
  std::vector<std::size_t> next_; // itself while there is room
  std::vector<std::size_t> taken_;
};

std::vector<std::size_t> layers_of(std::size_t nodes, const std::vector<Arc>& arcs, std::size_t most) {
  const Outgoing outgoing{nodes, arcs};
  const std::vector<std::size_t> depth = depths(nodes, arcs, outgoing);
  std::vector<bool> linked(nodes, false);
  for (const Arc& arc : arcs) linked[arc.from] = linked[arc.to] = true;
  std::vector<std::size_t> order(nodes);
  std::iota(order.begin(), order.end(), std::size_t{0});
  // Nodes that stand alone fill what is left.
  std::ranges::stable_sort(order, {}, [&](std::size_t node) { return std::pair{!linked[node], depth[node]}; });
  std::vector<std::size_t> layer(nodes, 0);
  std::vector<std::size_t> earliest = depth;
  Room room{most};
  for (const std::size_t node : order) {
    layer[node] = room.take(earliest[node]);
    for (const std::size_t* arc = outgoing.begin(node); arc != outgoing.end(node); ++arc)
      earliest[arcs[*arc].to] = std::max(earliest[arcs[*arc].to], layer[node] + 1);
  }
  return layer;
}

void connect(Layers& result, std::size_t from, std::size_t to) {
  result.knots[from].after.push_back(to);
  result.knots[to].before.push_back(from);
}

// Short arcs get their knots first, for they need fewest.
void add_ways(Layers& result, std::size_t nodes, const std::vector<Arc>& arcs) {
  const auto length = [&](std::size_t arc) {
    return result.knots[arcs[arc].to].layer - result.knots[arcs[arc].from].layer;
  };
  std::vector<std::size_t> order(arcs.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, length);
  std::size_t affordable = 2000 + 4 * (nodes + arcs.size());
  result.ways.resize(arcs.size());
  std::vector<std::size_t> passes(arcs.size(), 0);
  for (const std::size_t arc : order) {
    if (length(arc) - 1 > affordable) continue;
    passes[arc] = length(arc) - 1;
    affordable -= passes[arc];
  }
  for (std::size_t arc = 0; arc < arcs.size(); ++arc) {
    std::vector<std::size_t>& way = result.ways[arc];
    way.push_back(arcs[arc].from);
    for (std::size_t i = 1; i <= passes[arc]; ++i) {
      way.push_back(result.knots.size());
      result.knots.push_back({no_node, result.knots[arcs[arc].from].layer + i, {}, {}});
    }
    way.push_back(arcs[arc].to);
    if (passes[arc] + 1 != length(arc)) continue; // ends only
    for (std::size_t i = 1; i < way.size(); ++i) connect(result, way[i - 1], way[i]);
  }
}

// First order: neighbours found one after the other, from the first node on, so that what hangs together stands
// together.
void fill_layers(Layers& result) {
  std::vector<bool> seen(result.knots.size(), false);
  std::vector<std::size_t> found;
  for (std::size_t root = 0; root < result.knots.size(); ++root) {
    if (seen[root]) continue;
    seen[root] = true;
    found.push_back(root);
    for (std::size_t next = found.size() - 1; next < found.size(); ++next) {
      const std::size_t here = found[next]; // `found` grows
      for (const auto* neighbours : {&result.knots[here].after, &result.knots[here].before})
        for (const std::size_t knot : *neighbours) {
          if (seen[knot]) continue;
          seen[knot] = true;
          found.push_back(knot);
        }
    }
  }
  for (const std::size_t knot : found) {
    const std::size_t layer = result.knots[knot].layer;
    if (result.layers.size() <= layer) result.layers.resize(layer + 1);
    result.layers[layer].push_back(knot);
  }
}

std::vector<std::size_t> orders_of(const Layers& layers) {
  std::vector<std::size_t> order(layers.knots.size(), 0);
  for (const auto& layer : layers.layers)
    for (std::size_t i = 0; i < layer.size(); ++i) order[layer[i]] = i;
  return order;
}

// Sorts a layer by the mean place of its neighbours in the layer before or after it.
void sort_layer(Layers& result, std::size_t layer, bool by_before, std::vector<std::size_t>& order) {
  std::vector<std::size_t>& knots = result.layers[layer];
  std::vector<std::pair<double, std::size_t>> keyed;
  keyed.reserve(knots.size());
  for (const std::size_t knot : knots) {
    const auto& neighbours = by_before ? result.knots[knot].before : result.knots[knot].after;
    double sum = 0;
    for (const std::size_t neighbour : neighbours) sum += static_cast<double>(order[neighbour]);
    keyed.emplace_back(
        neighbours.empty() ? static_cast<double>(order[knot]) : sum / static_cast<double>(neighbours.size()), knot);
  }
  std::ranges::stable_sort(keyed, {}, &std::pair<double, std::size_t>::first);
  for (std::size_t i = 0; i < knots.size(); ++i) {
    knots[i] = keyed[i].second;
    order[knots[i]] = i;
  }
}

void order_layers(Layers& result) {
  std::vector<std::size_t> order = orders_of(result);
  auto best = result.layers;
  std::size_t fewest = count_crossings(result);
  for (int sweep = 0; sweep < sweeps && fewest > 0; ++sweep) {
    const bool forwards = sweep % 2 == 0;
    for (std::size_t i = 1; i < result.layers.size(); ++i)
      sort_layer(result, forwards ? i : result.layers.size() - 1 - i, forwards, order);
    const std::size_t crossings = count_crossings(result);
    if (crossings >= fewest) continue;
    fewest = crossings;
    best = result.layers;
  }
  result.layers = std::move(best);
}

} // namespace

Layers arrange_in_layers(std::size_t nodes, const std::vector<Arc>& arcs, std::size_t most) {
  Layers result;
  const std::vector<std::size_t> layer = layers_of(nodes, arcs, most);
  for (std::size_t node = 0; node < nodes; ++node) result.knots.push_back({node, layer[node], {}, {}});
  add_ways(result, nodes, arcs);
  fill_layers(result);
  order_layers(result);
  return result;
}

// After Barth, Jünger and Mutzel, "Simple and efficient bilayer cross counting", 2002: crossings are inversions,
// counted in a tree of sums.
std::size_t count_crossings(const Layers& layers) {
  const std::vector<std::size_t> order = orders_of(layers);
  std::size_t crossings = 0;
  std::vector<std::size_t> tree;
  std::vector<std::size_t> ends;
  for (std::size_t layer = 0; layer + 1 < layers.layers.size(); ++layer) {
    tree.assign(layers.layers[layer + 1].size() + 1, 0);
    std::size_t seen = 0;
    for (const std::size_t knot : layers.layers[layer]) {
      ends.clear();
      for (const std::size_t end : layers.knots[knot].after) ends.push_back(order[end] + 1);
      for (const std::size_t end : ends) {
        std::size_t left = 0; // or at the same place
        for (std::size_t i = end; i > 0; i &= i - 1) left += tree[i];
        crossings += seen - left;
      }
      for (const std::size_t end : ends)
        for (std::size_t i = end; i < tree.size(); i += i & (~i + 1)) ++tree[i];
      seen += ends.size();
    }
  }
  return crossings;
}

} // namespace coeval
