// Each layer in turn is moved as near as it can to where its neighbours pull it. With the order given this is a least
// squares problem that pooling neighbours solves exactly: Ayer, Brunk, Ewing, Reid and Silverman, 1955.
#include <algorithm>
#include <cmath>

#include "drawings/layers.hpp"

namespace coeval {
namespace {

constexpr int rounds = 8;

class Placing {
public:
  Placing(const Layers& layers, const std::vector<double>& sizes, double gap, double room)
      : layers_(layers), sizes_(sizes), gap_(gap), room_(room), across_(layers.knots.size(), 0) {
    for (const auto& layer : layers.layers) room_ = std::max(room_, length(layer));
    for (const auto& layer : layers.layers) {
      double at = std::floor((room_ - length(layer)) / 2);
      for (const std::size_t knot : layer) {
        across_[knot] = at + sizes[knot] / 2;
        at += sizes[knot] + gap;
      }
    }
  }

  std::vector<double> place() {
    const std::size_t count = layers_.layers.size();
    for (int round = 0; round < rounds; ++round) {
      for (std::size_t i = 1; i < count; ++i) pull(layers_.layers[i], true, false);
      for (std::size_t i = 1; i < count; ++i) pull(layers_.layers[count - 1 - i], false, true);
    }
    for (const auto& layer : layers_.layers) pull(layer, true, true);
    return std::move(across_);
  }

private:
  struct Pool { // of knots that stand as close as they can
    double sum = 0;
    double weight = 0;
    std::size_t knots = 0;
    [[nodiscard]] double mean() const { return sum / weight; }
  };

  [[nodiscard]] double length(const std::vector<std::size_t>& layer) const {
    double sum = gap_ * static_cast<double>(layer.empty() ? 0 : layer.size() - 1);
    for (const std::size_t knot : layer) sum += sizes_[knot];
    return sum;
  }

  [[nodiscard]] bool passes(std::size_t knot) const { return layers_.knots[knot].node == no_node; }

  // Long arcs are to run straight, so where both ends only pass, the pull is stronger.
  [[nodiscard]] double wish(std::size_t knot, bool by_before, bool by_after) const {
    constexpr double straight = 4;
    double sum = 0;
    double weight = 0;
    const auto take = [&](const std::vector<std::size_t>& neighbours) {
      for (const std::size_t other : neighbours) {
        const double pull = passes(knot) && passes(other) ? straight : 1;
        sum += pull * across_[other];
        weight += pull;
      }
    };
    if (by_before) take(layers_.knots[knot].before);
    if (by_after) take(layers_.knots[knot].after);
    return weight > 0 ? sum / weight : across_[knot];
  }

  void pull(const std::vector<std::size_t>& layer, bool by_before, bool by_after) {
    // Taking off what the ones before need, the places of a layer only have to rise.
    std::vector<double> needed(layer.size(), 0);
    std::vector<Pool> pools;
    for (std::size_t i = 0; i < layer.size(); ++i) {
      if (i > 0) needed[i] = needed[i - 1] + (sizes_[layer[i - 1]] + sizes_[layer[i]]) / 2 + gap_;
      const double weight = passes(layer[i]) ? 2 : 1;
      pools.push_back({(wish(layer[i], by_before, by_after) - needed[i]) * weight, weight, 1});
      while (pools.size() > 1 && pools[pools.size() - 2].mean() >= pools.back().mean()) {
        const Pool last = pools.back();
        pools.pop_back();
        pools.back() = {pools.back().sum + last.sum, pools.back().weight + last.weight,
                        pools.back().knots + last.knots};
      }
    }
    const double least = layer.empty() ? 0 : sizes_[layer.front()] / 2;
    const double most = layer.empty() ? 0 : room_ - sizes_[layer.back()] / 2 - needed.back();
    std::size_t next = 0;
    for (const Pool& pool : pools) {
      const double at = std::clamp(std::round(pool.mean()), least, std::max(least, std::floor(most)));
      for (std::size_t i = 0; i < pool.knots; ++i, ++next) across_[layer[next]] = at + needed[next];
    }
  }

  const Layers& layers_;
  const std::vector<double>& sizes_;
  double gap_;
  double room_;
  std::vector<double> across_;
};

} // namespace

std::vector<double> place_across(const Layers& layers, const std::vector<double>& sizes, double gap, double room) {
  return Placing{layers, sizes, gap, std::floor(room)}.place();
}

} // namespace coeval
