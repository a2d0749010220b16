// distance_labels.hpp: how far apart are two points, read off and not searched for?
//
// Pruned landmark labels (T. Akiba, Y. Iwata, Y. Yoshida, "Fast exact shortest-path distance queries on large networks
// by pruned landmark labeling", SIGMOD 2013), weighted and directed. Every point keeps its distances to and from some
// hubs, such that on a shortest path between any two points lies a hub that both keep. The origin is everyone's first
// hub; its distances stand in arrays of their own.
#pragma once

#include <algorithm>
#include <cstdint>
#include <functional>
#include <limits>
#include <numeric>
#include <queue>
#include <utility>
#include <vector>

#include "constraints/potential.hpp"

namespace bench {

class DistanceLabels {
public:
  // All edges of a satisfiable graph. Distances must fit 32 bits.
  DistanceLabels(const coeval::SortedEdges& along, const coeval::SortedEdges& against)
      : from_origin_(coeval::first_numbers(along.points())), to_origin_(coeval::first_numbers(along.points())) {
    sound_ = coeval::settle_levels(along, 0, 255, from_origin_) && coeval::settle_levels(against, 0, 255, to_origin_);
    Builder{along, against, *this}.build();
  }

  [[nodiscard]] bool sound() const { return sound_; }
  [[nodiscard]] std::size_t entries() const { return leaving_.entries.size() + entering_.entries.size(); }
  [[nodiscard]] std::size_t bytes() const {
    return entries() * sizeof(Entry) + 2 * from_origin_.size() * (sizeof(std::int64_t) + sizeof(std::uint32_t));
  }

  static constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

  [[nodiscard]] std::int64_t distance(std::uint32_t from, std::uint32_t to) const {
    std::int64_t best = through_origin(from, to);
    const Entry* a = leaving_.begin(from);
    const Entry* b = entering_.begin(to);
    const Entry* const a_end = leaving_.begin(from + 1);
    const Entry* const b_end = entering_.begin(to + 1);
    while (a != a_end && b != b_end) {
      if (a->hub == b->hub) best = std::min(best, std::int64_t{a->distance} + b->distance);
      const bool step_a = a->hub <= b->hub;
      const bool step_b = b->hub <= a->hub;
      a += step_a ? 1 : 0;
      b += step_b ? 1 : 0;
    }
    return best;
  }

private:
  struct Entry {
    std::uint32_t hub = 0; // by rank
    std::int32_t distance = 0;
  };
  struct Lists {
    std::vector<std::uint32_t> begins;
    std::vector<Entry> entries;
    [[nodiscard]] const Entry* begin(std::size_t point) const { return entries.data() + begins[point]; }
  };

  [[nodiscard]] std::int64_t through_origin(std::uint32_t from, std::uint32_t to) const {
    if (!coeval::hangs_from_origin(to_origin_[from]) || !coeval::hangs_from_origin(from_origin_[to])) return unreached;
    return to_origin_[from] + from_origin_[to] - 2 * coeval::origin_number;
  }

  class Builder {
  public:
    Builder(const coeval::SortedEdges& along, const coeval::SortedEdges& against, DistanceLabels& labels)
        : along_(along), against_(against), labels_(labels), leaving_(along.points()), entering_(along.points()),
          reached_(along.points(), unreached), known_(along.points(), unreached) {}

    void build() {
      std::vector<std::uint32_t> order(along_.points() - 1);
      std::iota(order.begin(), order.end(), 1U);
      // Points that many others refer to first: ends of periods, cards, marks.
      const auto degree = [&](std::uint32_t point) {
        const auto [first, last] = along_.leaving(point);
        const auto [first_back, last_back] = against_.leaving(point);
        return last - first + last_back - first_back;
      };
      std::ranges::stable_sort(order, std::greater<>{}, degree);
      for (std::uint32_t rank = 0; rank < order.size(); ++rank) {
        search(order[rank], rank, along_, labels_.from_origin_, leaving_, entering_, true);
        search(order[rank], rank, against_, labels_.to_origin_, entering_, leaving_, false);
      }
      labels_.leaving_ = flat(leaving_);
      labels_.entering_ = flat(entering_);
    }

  private:
    // Dijkstra's search from the hub, which turns back wherever the labels so far already tell the distance.
    void search(std::uint32_t hub, std::uint32_t rank, const coeval::SortedEdges& edges,
                const std::vector<std::int64_t>& number, std::vector<std::vector<Entry>>& of_hub,
                std::vector<std::vector<Entry>>& of_others, bool along) {
      const auto through = [&](std::uint32_t other) {
        return along ? labels_.through_origin(hub, other) : labels_.through_origin(other, hub);
      };
      using Place = std::pair<std::int64_t, std::uint32_t>;
      for (const Entry& entry : of_hub[hub]) known_[entry.hub] = entry.distance;
      std::priority_queue<Place, std::vector<Place>, std::greater<>> queue;
      reached_[hub] = 0;
      touched_.assign(1, hub);
      queue.emplace(0, hub);
      while (!queue.empty()) {
        const std::int64_t reweighted = queue.top().first; // no binding: clang 14 cannot capture its names
        const std::uint32_t point = queue.top().second;
        queue.pop();
        const std::int64_t reached = reweighted - number[hub] + number[point];
        if (reached > reached_[point]) continue;
        const auto told = [&](const Entry& entry) {
          return known_[entry.hub] != unreached && known_[entry.hub] + entry.distance <= reached_[point];
        };
        if (point != hub && std::ranges::any_of(of_others[point], told)) continue;
        of_others[point].push_back({rank, static_cast<std::int32_t>(reached)});
        for (auto [e, last] = edges.leaving(point); e < last; ++e) {
          const std::uint32_t to = edges.to(e);
          const std::int64_t length = reached + edges.length(e);
          if (to == 0 || length >= reached_[to] || length >= through(to)) continue;
          reached_[to] = length;
          touched_.push_back(to);
          queue.emplace(length + number[hub] - number[to], to);
        }
      }
      for (const std::uint32_t point : touched_) reached_[point] = unreached;
      for (const Entry& entry : of_hub[hub]) known_[entry.hub] = unreached;
    }

    static Lists flat(std::vector<std::vector<Entry>>& lists) {
      Lists result;
      result.begins.push_back(0);
      for (std::vector<Entry>& list : lists) {
        result.entries.insert(result.entries.end(), list.begin(), list.end());
        result.begins.push_back(static_cast<std::uint32_t>(result.entries.size()));
      }
      lists = {};
      return result;
    }

    const coeval::SortedEdges& along_;
    const coeval::SortedEdges& against_;
    DistanceLabels& labels_;
    std::vector<std::vector<Entry>> leaving_;
    std::vector<std::vector<Entry>> entering_;
    std::vector<std::int64_t> reached_;
    std::vector<std::int64_t> known_; // by rank
    std::vector<std::uint32_t> touched_;
  };

  std::vector<std::int64_t> from_origin_;
  std::vector<std::int64_t> to_origin_;
  Lists leaving_;
  Lists entering_;
  bool sound_ = false;
};

} // namespace bench
