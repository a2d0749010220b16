#include "constraints/addition.hpp"

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/fewest.hpp"

namespace coeval {

Additions::Additions(ActiveEdges& graph, const EnteringEdges& entering, const EdgesByStatement& by_statement)
    : graph_(graph), entering_(entering), by_statement_(by_statement), distance_(graph.edges->points(), unreached) {}

std::optional<std::vector<std::uint32_t>> Additions::add(std::uint32_t edge) {
  const std::int64_t missing = -graph_.room(edge);
  if (missing > 0 && !make_room(edge, missing))
    return FewestStatements{graph_, entering_, edge, by_statement_.of(graph_.edges->statement(edge))}.cycle().value();
  graph_.active[edge] = 1;
  return {};
}

// The point that the edge enters must be lowered by what is missing, and with it every point nearer to it than that, by
// what is left of it there. That is impossible if the point that the edge leaves is one of them. Nor can the origin be:
// its number is the lowest that can be said of it, and so a way there would go on to the point that the edge leaves.
bool Additions::make_room(std::uint32_t edge, std::int64_t missing) {
  const std::uint32_t start = graph_.edges->to(edge);
  const std::uint32_t end = graph_.edges->from(edge);
  NearestFirst queue;
  shorten(start, 0);
  queue.emplace(0, start);
  bool possible = true;
  while (!queue.empty() && possible) {
    const auto [distance, point] = queue.top();
    queue.pop();
    if (distance > distance_[point]) continue;
    possible = point != end && point != static_cast<std::uint32_t>(origin);
    if (!possible) break;
    for (auto [e, last] = graph_.edges->leaving(point); e < last; ++e) {
      if (graph_.active[e] == 0) continue;
      const std::int64_t length = distance + graph_.room(e, point);
      if (length < missing && shorten(graph_.edges->to(e), length)) queue.emplace(length, graph_.edges->to(e));
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

// What can have hung from the edges are the points that edges without room to spare lead to. Each rises as far as those
// that stay where they are allow, but never above zero, where all began. Here distances are how far a point rises.
void Additions::take_out(std::span<const std::uint32_t> edges) {
  const auto may_rise = [&](std::size_t e, std::uint32_t from) {
    const std::uint32_t to = graph_.edges->to(e);
    const bool rises = to != static_cast<std::uint32_t>(origin) && distance_[to] == unreached &&
                       graph_.potential[to] < 0 && graph_.room(e, from) == 0;
    if (rises) shorten(to, -graph_.potential[to]);
  };
  for (const std::uint32_t e : edges) {
    if (graph_.active[e] == 0) continue;
    graph_.active[e] = 0;
    may_rise(e, graph_.edges->from(e));
  }
  for (std::size_t next = 0; next < reached_.size(); ++next) // grows while it is walked
    for (auto [e, last] = graph_.edges->leaving(reached_[next]); e < last; ++e)
      if (graph_.active[e] != 0) may_rise(e, reached_[next]);
  const std::vector<std::uint32_t> rising = reached_;
  NearestFirst queue;
  for (const std::uint32_t point : rising) {
    for (const std::uint32_t e : entering_.at(point))
      if (graph_.active[e] != 0 && distance_[graph_.edges->from(e)] == unreached) shorten(point, graph_.room(e));
    queue.emplace(distance_[point], point);
  }
  while (!queue.empty()) {
    const auto [distance, point] = queue.top();
    queue.pop();
    if (distance > distance_[point]) continue;
    for (auto [e, last] = graph_.edges->leaving(point); e < last; ++e) {
      const std::uint32_t to = graph_.edges->to(e);
      if (graph_.active[e] == 0 || distance_[to] == unreached) continue;
      const std::int64_t rise = distance + graph_.room(e, point);
      if (shorten(to, rise)) queue.emplace(rise, to);
    }
  }
  for (const std::uint32_t point : rising) graph_.potential[point] += distance_[point];
  forget();
}

std::vector<std::uint32_t> Additions::way_from_origin(std::uint32_t point) const {
  constexpr auto home = static_cast<std::uint32_t>(origin);
  boost::unordered_flat_map<std::uint32_t, std::uint32_t> step; // by point, the edge to go on with
  std::vector<std::uint32_t> seen{point};
  for (std::size_t next = 0; next < seen.size() && !step.contains(home) && point != home; ++next) {
    for (const std::uint32_t e : entering_.at(seen[next])) {
      const std::uint32_t from = graph_.edges->from(e);
      if (graph_.active[e] == 0 || from == point || graph_.room(e, from) != 0) continue;
      if (step.try_emplace(from, e).second) seen.push_back(from);
    }
  }
  std::vector<std::uint32_t> way;
  for (std::uint32_t at = home; at != point; at = graph_.edges->to(way.back())) way.push_back(step.at(at));
  return way;
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
