#include "constraints/near.hpp"

#include <algorithm>
#include <functional>

#include "constraints/solved.hpp"

namespace coeval {
namespace {

constexpr auto home = static_cast<std::uint32_t>(origin);

// A way of this length, not reweighted, from one point to another, or back: reweighted.
std::int64_t reweighted(std::int64_t length, const SolvedGraph::Known& here, const SolvedGraph::Known& there,
                        bool along) {
  return along ? length + here.number - there.number : length + there.number - here.number;
}

// Is a way of this length, reweighted, from one point to another, or back, shorter than that through the origin?
bool is_nearer(std::int64_t length, const SolvedGraph::Known& here, const SolvedGraph::Known& there, bool along) {
  return length < (along ? here.by_origin_to(there) : there.by_origin_to(here));
}

} // namespace

NearSearch::NearSearch(const Entailment& weakest) : solved_(weakest.solved_), weakest_(weakest.level_) {}

std::span<const NearSearch::Found> NearSearch::on_levels(Point point, bool along, int strongest) {
  found_.clear();
  const auto start = static_cast<std::uint32_t>(point);
  if (point == origin) return found_;
  const SortedEdges& edges = solved_->in(along ? Direction::along : Direction::against);
  int first = weakest_ + 1; // the first level on which something is nearer
  for (auto [e, last] = edges.leaving(start); e < last; ++e) {
    const std::uint32_t there = edges.to(e);
    if (there == home) continue; // most edges are dates
    const int level = edges.level(e);
    if (level >= first) continue;
    const SolvedGraph::Known& known = solved_->on(level, start);
    const SolvedGraph::Known& known_there = solved_->on(level, there);
    if (is_nearer(reweighted(edges.length(e), known, known_there, along), known, known_there, along)) first = level;
  }
  for (int level = std::max(first, strongest); level <= weakest_; ++level) search(start, along, level);
  return found_;
}

// Dijkstra's search. What lies beyond a point that is no nearer than through the origin is reached through that as
// well, so nothing is missed by turning back there.
void NearSearch::search(std::uint32_t start, bool along, int level) {
  const SolvedGraph& solved = *solved_;
  const SortedEdges& edges = solved.in(along ? Direction::along : Direction::against);
  const SolvedGraph::Known& known_of_start = solved.on(level, start);
  const std::size_t found_before = found_.size();
  queue_.emplace_back(0, start);
  while (!queue_.empty()) {
    std::ranges::pop_heap(queue_, std::greater{});
    const std::int64_t reached = queue_.back().first;
    const std::uint32_t point = queue_.back().second;
    queue_.pop_back();
    const SolvedGraph::Known& known = solved.on(level, point);
    if (point != start) {
      if (reached > distance_.find(point)->second) continue;
      found_.push_back({Point{point}, level, reweighted(reached, known, known_of_start, along)});
    }
    for (auto [e, last] = edges.leaving(point); e < last; ++e) {
      const std::uint32_t there = edges.to(e);
      if (there == home || there == start || edges.level(e) > level) continue;
      const SolvedGraph::Known& known_there = solved.on(level, there);
      const std::int64_t length = reached + reweighted(edges.length(e), known, known_there, along);
      if (!is_nearer(length, known_of_start, known_there, along)) continue;
      const auto [before, fresh] = distance_.try_emplace(there, length);
      if (!fresh && length >= before->second) continue;
      before->second = length;
      queue_.emplace_back(length, there);
      std::ranges::push_heap(queue_, std::greater{});
    }
  }
  for (std::size_t i = found_before; i < found_.size(); ++i)
    distance_.erase(static_cast<std::uint32_t>(found_[i].point));
}

} // namespace coeval
