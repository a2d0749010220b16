#include "constraints/addition.hpp"

#include <algorithm>

namespace coeval {

Additions::Additions(ActiveEdges& graph) : graph_(graph), distance_(graph.edges->points(), unreached) {}

std::optional<std::vector<std::uint32_t>> Additions::add(std::uint32_t edge) {
  const Edge& added = (*graph_.edges)[edge];
  const std::int64_t missing = -reweighted(added);
  if (missing > 0 && !make_room(added, missing)) return fewest_stated_cycle(edge, missing);
  graph_.active[edge] = 1;
  return {};
}

// The point that the edge enters must be lowered by what is missing, and with it every point nearer to it than that, by
// what is left of it there. That is impossible if the point that the edge leaves is one of them.
bool Additions::make_room(const Edge& edge, std::int64_t missing) {
  NearestFirst queue;
  shorten(edge.to, 0);
  queue.emplace(0, edge.to);
  bool possible = true;
  while (!queue.empty() && possible) {
    const auto [distance, point] = queue.top();
    queue.pop();
    if (distance > distance_[point]) continue;
    possible = point != edge.from;
    for (std::size_t e = graph_.edges->begin(point); e < graph_.edges->begin(point + std::size_t{1}); ++e) {
      if (graph_.active[e] == 0) continue;
      const Edge& next = (*graph_.edges)[e];
      const std::int64_t length = distance + reweighted(next);
      if (length < missing && shorten(next.to, length)) queue.emplace(length, next.to);
    }
  }
  if (possible) {
    for (const std::uint32_t point : reached_) {
      if (distance_[point] == unreached) continue;
      graph_.potential[point] += distance_[point] - missing;
      distance_[point] = unreached;
    }
  }
  forget();
  return possible;
}

// Dijkstra's search, layer by layer: layer k holds the ways with k stated edges. A way goes on only while it is shorter
// than what is missing and than all ways to the same point in this and earlier layers. So none passes a point twice.
std::vector<std::uint32_t> Additions::fewest_stated_cycle(std::uint32_t edge, std::int64_t missing) {
  const Edge& closing = (*graph_.edges)[edge];
  std::vector<Way> ways{{closing.to, edge, 0, 0}};
  std::vector<std::uint32_t> layer{0}; // positions of ways
  std::optional<std::uint32_t> home;
  while (!home && !layer.empty()) {
    NearestFirst queue;
    for (const std::uint32_t way : layer)
      if (shorten(ways[way].point, ways[way].length)) queue.emplace(ways[way].length, way);
    layer.clear();
    while (!queue.empty()) {
      const std::uint32_t position = queue.top().second;
      queue.pop();
      const Way way = ways[position];
      if (way.length > distance_[way.point]) continue;
      if (way.point == closing.from) {
        home = position;
        break;
      }
      for (std::size_t e = graph_.edges->begin(way.point); e < graph_.edges->begin(way.point + std::size_t{1}); ++e) {
        if (graph_.active[e] == 0) continue;
        const Edge& next = (*graph_.edges)[e];
        const std::int64_t length = way.length + reweighted(next);
        if (length >= missing || length >= distance_[next.to]) continue;
        const bool free = next.statement == by_definition || next.statement == closing.statement;
        const auto fresh = static_cast<std::uint32_t>(ways.size());
        ways.push_back({next.to, static_cast<std::uint32_t>(e), position, length});
        if (!free)
          layer.push_back(fresh);
        else if (shorten(next.to, length))
          queue.emplace(length, fresh);
      }
    }
  }
  forget();

  std::vector<std::uint32_t> cycle{edge};
  for (std::uint32_t way = home.value(); way != 0; way = ways[way].before) cycle.push_back(ways[way].edge);
  std::ranges::reverse(cycle);
  return cycle;
}

bool Additions::shorten(std::uint32_t point, std::int64_t distance) {
  if (distance >= distance_[point]) return false;
  distance_[point] = distance;
  reached_.push_back(point);
  return true;
}

void Additions::forget() {
  for (const std::uint32_t point : reached_) distance_[point] = unreached;
  reached_.clear();
}

} // namespace coeval
