#include "constraints/fewest.hpp"

#include <algorithm>

namespace coeval {

FewestStatements::FewestStatements(const ActiveEdges& graph, const EnteringEdges& entering, std::uint32_t added,
                                   std::span<const std::uint32_t> own)
    : graph_(graph), entering_(entering), added_(added), own_(own), missing_(-graph.room(added)) {
  back_.along = false;
}

std::optional<std::vector<std::uint32_t>> FewestStatements::cycle() {
  there_.ways.push_back({.point = graph_.edges->to(added_)});
  back_.ways.push_back({.point = graph_.edges->from(added_)});
  there_.beyond.push_back(0);
  back_.beyond.push_back(0);
  settle_layer(there_, back_);
  settle_layer(back_, there_);
  while (true) {
    const bool go_there = is_useful(there_, back_);
    const bool go_back = is_useful(back_, there_);
    if (!go_there && !go_back) break;
    // The side that is cheaper to go on with, so that a point with very many edges is opened only where it must be.
    const bool there = go_there && (!go_back || there_.cost <= back_.cost);
    Side& side = there ? there_ : back_;
    open_layer(side);
    settle_layer(side, there ? back_ : there_);
  }
  if (best_.stated == nothing) return {};
  return told();
}

// Could the next layer of this side be part of a cycle with no more statements than the best one so far? One that
// avoids the origin has more layers than both sides have together, or it would have been met; of one that leads through
// it, the part of one side is missing.
bool FewestStatements::is_useful(const Side& side, const Side& other) const {
  if (side.exhausted()) return false;
  const auto no_more = [&](std::uint32_t stated) { return stated <= best_.stated; };
  if (!other.exhausted() && no_more(side.depth + other.depth + 1)) return true;
  if (other.exhausted() && !other.to_origin) return false;
  return no_more(side.depth + 1 + other.origin_from());
}

void FewestStatements::settle_layer(Side& side, const Side& other) {
  // By length; of equals the one that was found first.
  using Place = std::pair<std::int64_t, std::uint32_t>;
  std::priority_queue<Place, std::vector<Place>, std::greater<>> queue;
  const auto found = [&](std::uint32_t position) {
    Way& way = side.ways[position];
    const auto [known, fresh] = side.shortest.try_emplace(way.point, position);
    if (!fresh) {
      if (side.ways[known->second].length <= way.length) return;
      way.earlier = known->second;
      known->second = position;
    }
    queue.emplace(way.length, position);
  };
  side.layer.clear();
  side.cost = 0;
  for (const std::uint32_t position : side.beyond) found(position);
  side.beyond.clear();
  const std::uint32_t end = other.ways.front().point;
  while (!queue.empty()) {
    const std::uint32_t position = queue.top().second;
    queue.pop();
    const Way way = side.ways[position];
    if (side.shortest[way.point] != position) continue;
    meet(side, other, position);
    if (way.point == static_cast<std::uint32_t>(origin)) {
      if (!side.to_origin) side.to_origin = way.layer;
      continue;
    }
    if (way.point == end) continue;
    each_free_edge(side, way.point, [&](std::uint32_t edge, std::uint32_t point) {
      const std::int64_t length = way.length + graph_.room(edge);
      if (length >= missing_) return;
      side.ways.push_back({point, edge, position, nothing, way.layer, way.edges + 1, length});
      found(static_cast<std::uint32_t>(side.ways.size() - 1));
    });
    side.layer.push_back(position);
    if (side.along) {
      const EdgeRange edges = graph_.edges->stated_leaving(way.point);
      side.cost += edges.last - edges.first;
    } else {
      side.cost += entering_.stated_at(way.point).size();
    }
  }
}

void FewestStatements::open_layer(Side& side) {
  ++side.depth;
  for (const std::uint32_t position : side.layer) {
    const Way way = side.ways[position];
    each_stated_edge(side, way.point, [&](std::uint32_t edge, std::uint32_t point) {
      const std::int64_t length = way.length + graph_.room(edge);
      if (length >= missing_) return;
      const auto known = side.shortest.find(point);
      if (known != side.shortest.end() && side.ways[known->second].length <= length) return;
      side.beyond.push_back(static_cast<std::uint32_t>(side.ways.size()));
      side.ways.push_back({point, edge, position, nothing, side.depth, way.edges + 1, length});
    });
  }
}

void FewestStatements::meet(const Side& side, const Side& other, std::uint32_t position) {
  const Way& way = side.ways[position];
  const auto found = other.shortest.find(way.point);
  if (found == other.shortest.end()) return;
  for (std::uint32_t opposite = found->second; opposite != nothing; opposite = other.ways[opposite].earlier) {
    const Way& rest = other.ways[opposite];
    if (way.length + rest.length >= missing_) return; // those before it are longer still
    best_ = std::min(best_, Meeting{way.layer + rest.layer, way.length + rest.length, way.edges + rest.edges,
                                    side.along ? position : opposite, side.along ? opposite : position});
  }
}

// A statement may have very many edges, but few at a point.
bool FewestStatements::is_own(std::uint32_t edge) const {
  return graph_.edges->statement(edge) == graph_.edges->statement(added_);
}

// Calls visit(edge, point beyond it) for the active edges at a point that are free: by definition or of the same
// statement.
template <class Visit>
void FewestStatements::each_free_edge(const Side& side, std::uint32_t point, const Visit& visit) const {
  const SortedEdges& edges = *graph_.edges;
  const auto offer = [&](std::uint32_t edge) {
    if (graph_.active[edge] != 0) visit(edge, side.along ? edges.to(edge) : edges.from(edge));
  };
  if (side.along) {
    for (auto [e, last] = edges.definitions_leaving(point); e < last; ++e) offer(static_cast<std::uint32_t>(e));
  } else {
    for (const std::uint32_t e : entering_.definitions_at(point)) offer(e);
  }
  if (own_.size() < 2) return;
  if (side.along) {
    for (const std::uint32_t e : leaving_among(edges, own_, point)) offer(e);
    return;
  }
  const std::span<const std::uint32_t> entering = entering_.stated_at(point);
  if (entering.size() < own_.size()) {
    for (const std::uint32_t e : entering)
      if (is_own(e)) offer(e);
  } else {
    for (const std::uint32_t e : own_)
      if (edges.to(e) == point) offer(e);
  }
}

// The same for the others.
template <class Visit>
void FewestStatements::each_stated_edge(const Side& side, std::uint32_t point, const Visit& visit) const {
  const SortedEdges& edges = *graph_.edges;
  const auto offer = [&](std::uint32_t edge) {
    if (graph_.active[edge] != 0 && !is_own(edge)) visit(edge, side.along ? edges.to(edge) : edges.from(edge));
  };
  if (side.along) {
    for (auto [e, last] = edges.stated_leaving(point); e < last; ++e) offer(static_cast<std::uint32_t>(e));
  } else {
    for (const std::uint32_t e : entering_.stated_at(point)) offer(e);
  }
}

std::vector<std::uint32_t> FewestStatements::told() const {
  std::vector<std::uint32_t> cycle;
  for (std::uint32_t way = best_.there; there_.ways[way].edge != nothing; way = there_.ways[way].before)
    cycle.push_back(there_.ways[way].edge);
  std::ranges::reverse(cycle);
  for (std::uint32_t way = best_.back; back_.ways[way].edge != nothing; way = back_.ways[way].before)
    cycle.push_back(back_.ways[way].edge);
  cycle.push_back(added_);
  return cycle;
}

} // namespace coeval
