#include "constraints/entail.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/near.hpp"
#include "constraints/solved.hpp"

namespace coeval {
namespace {

// Points by how near they are; of equals the lower point first, so that the order never depends on the queue's insides.
template <typename Nearness>
using NearestFirst = std::priority_queue<std::pair<Nearness, std::uint32_t>,
                                         std::vector<std::pair<Nearness, std::uint32_t>>, std::greater<>>;

// One chain is better than another when it has fewer constraints that are not by definition, then when it is shorter.
struct Count {
  std::uint32_t stated = std::numeric_limits<std::uint32_t>::max();
  std::uint32_t all = std::numeric_limits<std::uint32_t>::max();
  friend auto operator<=>(const Count&, const Count&) = default;
};

// An edge as a search sees it, its length reweighted.
struct TightEdge {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  std::int64_t length = 0;
  ConstraintIndex constraint{};
  bool stated = false;
};

Count one_more(Count count, const TightEdge& edge) { return {count.stated + (edge.stated ? 1U : 0U), count.all + 1}; }

std::size_t at(Point point) { return static_cast<std::size_t>(point); }

// A graph as it is searched on one level.
struct Level {
  const SolvedGraph& solved;
  int level;

  [[nodiscard]] std::size_t points() const { return solved.along.points(); }
  [[nodiscard]] std::int64_t number(std::size_t point) const { return solved.on(level, point).number; }

  // Calls visit(edge) for every edge that leaves the point or, against, enters it.
  template <class Visit> void each_edge(std::size_t point, Direction direction, const Visit& visit) const {
    const SortedEdges& all = solved.in(direction);
    const std::size_t stated = all.stated_leaving(point).first;
    for (auto [e, last] = all.leaving(point); e < last; ++e) {
      if (all.level(e) > level) continue;
      const std::size_t other = all.to(e);
      const std::size_t from = direction == Direction::along ? point : other;
      const std::size_t to = direction == Direction::along ? other : point;
      visit(TightEdge{static_cast<std::uint32_t>(from), static_cast<std::uint32_t>(to),
                      number(from) + all.length(e) - number(to), all.index(e), e >= stated});
    }
  }

  [[nodiscard]] std::int64_t plain(std::int64_t reweighted, std::size_t from, std::size_t to) const {
    return reweighted - number(from) + number(to);
  }

  // Distances from every point to the hub, for searches between two points, and from the hub to every point: by the
  // numbers, nothing, where there is a way. Most statements are dates, edges to and from the calendar's origin, and so
  // most shortest paths lead through it; any point would do for a hub, and that one does it best.
  static constexpr std::size_t hub = 0;
  [[nodiscard]] std::int64_t to_hub(std::size_t point) const { return solved.on(level, point).to_origin; }
  [[nodiscard]] std::int64_t from_hub(std::size_t point) const { return solved.on(level, point).from_origin(); }

  // Dijkstra's search (1959).
  [[nodiscard]] std::vector<std::int64_t> distances(std::size_t start, Direction direction) const {
    const auto next = direction == Direction::along ? &TightEdge::to : &TightEdge::from;
    std::vector<std::int64_t> distance(points(), unreached);
    NearestFirst<std::int64_t> queue;
    distance[start] = 0;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const std::int64_t reached = queue.top().first; // no binding: clang 14 cannot capture its names
      const std::size_t point = queue.top().second;
      queue.pop();
      if (reached > distance[point]) continue;
      each_edge(point, direction, [&](const TightEdge& edge) {
        const std::int64_t length = reached + edge.length;
        if (length >= distance[edge.*next]) return;
        distance[edge.*next] = length;
        queue.emplace(length, edge.*next);
      });
    }
    return distance;
  }

  // No path from `point` to `end` is shorter: by the triangle inequality, with the hub as the third corner (a landmark
  // in the sense of Goldberg and Harrelson's ALT, 2005). `unreached` where there is none.
  [[nodiscard]] std::int64_t at_least(std::size_t point, std::size_t end) const {
    std::int64_t least = 0;
    if (from_hub(point) != unreached && from_hub(end) == unreached)
      return unreached; // whatever the point leads to, the hub would
    if (to_hub(end) != unreached) {
      if (to_hub(point) == unreached) return unreached;
      least = std::max(least, to_hub(point) - to_hub(end));
    }
    return least;
  }

  [[nodiscard]] std::int64_t through_hub(std::size_t start, std::size_t end) const {
    return solved.on(level, start).by_origin_to(solved.on(level, end));
  }

  // Distances from `start` of the points on shortest paths to `end`, `whole` long, that do not lead through the hub.
  // Points on a shortest path that are not among them are reached through it; of others, nothing is said.
  using Near = boost::unordered_flat_map<std::size_t, std::int64_t>;
  [[nodiscard]] Near near_without_hub(std::size_t start, std::size_t end, std::int64_t whole) const {
    Near distance;
    NearestFirst<std::int64_t> queue;
    distance[start] = 0;
    if (start == hub) return distance;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const std::int64_t reached = queue.top().first;
      const std::size_t point = queue.top().second;
      queue.pop();
      if (reached > distance[point]) continue;
      each_edge(point, Direction::along, [&](const TightEdge& edge) {
        const std::int64_t length = reached + edge.length;
        if (edge.to == hub || length > whole || length > through_hub(start, edge.to)) return;
        if (const std::int64_t rest = at_least(edge.to, end); rest == unreached || rest > whole - length) return;
        const auto [known, fresh] = distance.try_emplace(edge.to, length);
        if (!fresh && length >= known->second) return;
        known->second = length;
        queue.emplace(length, edge.to);
      });
    }
    return distance;
  }

  // The distance between two points: the way through the hub, unless a search that leaves out what is no shorter than
  // that finds a better one.
  [[nodiscard]] std::int64_t distance(std::size_t start, std::size_t end) const {
    if (start == end) return 0;
    std::int64_t best = through_hub(start, end);
    Near shorter;
    NearestFirst<std::int64_t> queue;
    shorter[start] = 0;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const std::int64_t reached = queue.top().first;
      const std::size_t point = queue.top().second;
      queue.pop();
      if (reached >= best) break;
      if (reached > shorter[point]) continue;
      if (point == end) return reached;
      each_edge(point, Direction::along, [&](const TightEdge& edge) {
        const std::int64_t length = reached + edge.length;
        if (length >= through_hub(start, edge.to)) return; // from there on, the hub's way is as short
        const std::int64_t rest = at_least(edge.to, end);
        if (rest == unreached || length >= best || rest >= best - length) return;
        const auto [known, fresh] = shorter.try_emplace(edge.to, length);
        if (!fresh && length >= known->second) return;
        known->second = length;
        queue.emplace(length, edge.to);
      });
    }
    return best;
  }

  [[nodiscard]] BoundRow row(Point start, Direction direction) const {
    const std::vector<std::int64_t> distance = distances(at(start), direction);
    BoundRow bounds(distance.size());
    for (std::size_t point = 0; point < distance.size(); ++point) {
      if (distance[point] == unreached) continue;
      bounds[point] = direction == Direction::along ? plain(distance[point], at(start), point)
                                                    : plain(distance[point], point, at(start));
    }
    return bounds;
  }
};

} // namespace

std::optional<Entailment> Entailment::build(const ConstraintGraph& graph, int level,
                                            std::span<const StatementIndex> left_out) {
  auto solved = SolvedGraph::solve(graph, level, left_out);
  if (!solved) return {};
  return Entailment{std::move(solved), level};
}

std::vector<Entailment> Entailment::build_each(const ConstraintGraph& graph, int levels,
                                               std::span<const StatementIndex> left_out) {
  std::vector<Entailment> each;
  if (const auto solved = SolvedGraph::solve(graph, levels - 1, left_out))
    for (int level = 0; level < levels; ++level) each.push_back(Entailment{solved, level});
  return each;
}

std::optional<std::int64_t> Entailment::latest(Point point) const { return solved_->on(level_, at(point)).latest(); }

std::optional<std::int64_t> Entailment::earliest(Point point) const {
  return solved_->on(level_, at(point)).earliest();
}

void Entailment::bounds_on_levels(Point point, std::span<PointBounds> each) const {
  for (int level = 0; level <= level_; ++level) {
    const SolvedGraph::Known& known = solved_->on(level, at(point));
    each[static_cast<std::size_t>(level)] = {known.earliest(), known.latest()};
  }
}

std::optional<std::int64_t> Entailment::upper(Point x, Point y) const {
  const Level level{*solved_, level_};
  const std::int64_t distance = level.distance(at(y), at(x));
  if (distance == unreached) return {};
  return level.plain(distance, at(y), at(x));
}

BoundRow Entailment::upper_from(Point from) const { return Level{*solved_, level_}.row(from, Direction::along); }

BoundRow Entailment::upper_to(Point to) const { return Level{*solved_, level_}.row(to, Direction::against); }

std::vector<NearPoint> Entailment::nearer(Point start, bool along) const {
  NearSearch search{*this};
  std::vector<NearPoint> near{{start, 0}};
  for (const NearSearch::Found& found : search.on_levels(start, along, level_))
    near.push_back({found.point, found.most});
  return near;
}

std::vector<NearPoint> Entailment::nearer_from(Point from) const { return nearer(from, true); }

std::vector<NearPoint> Entailment::nearer_to(Point to) const { return nearer(to, false); }

std::vector<ConstraintIndex> Entailment::proof(Point x, Point y) const {
  const Level level{*solved_, level_};
  const std::int64_t whole = level.distance(at(y), at(x));
  if (x == y || whole == unreached) return {};
  const Level::Near near = level.near_without_hub(at(y), at(x), whole);
  const auto reached = [&](std::size_t point) {
    const auto found = near.find(point);
    return found != near.end() ? found->second : level.through_hub(at(y), point);
  };
  // An edge is tight when it lies on some shortest path from y. Tight edges can form cycles of length zero, also of
  // definitions alone; counting every edge makes each step come nearer to x, so that no walk goes round in them.
  const auto tight = [&](const TightEdge& edge) {
    const std::int64_t from = reached(edge.from);
    return from != unreached && from + edge.length == reached(edge.to);
  };

  boost::unordered_flat_map<std::size_t, Count> left; // the best chain of tight edges from each point to x
  const auto count_from = [&](std::size_t point) {
    const auto found = left.find(point);
    return found == left.end() ? Count{} : found->second;
  };
  NearestFirst<Count> queue;
  left[at(x)] = {0, 0};
  queue.emplace(Count{0, 0}, static_cast<std::uint32_t>(x));
  const auto step_back = [&](const TightEdge& edge, Count count) {
    const Count longer = one_more(count, edge);
    if (!tight(edge) || longer >= count_from(edge.from)) return;
    left[edge.from] = longer;
    queue.emplace(longer, edge.from);
  };
  while (!queue.empty() && queue.top().second != static_cast<std::uint32_t>(y)) {
    const auto [count, point] = queue.top();
    queue.pop();
    if (count > count_from(point)) continue;
    if (point != Level::hub) {
      level.each_edge(point, Direction::against,
                      [&, so_far = count](const TightEdge& edge) { step_back(edge, so_far); });
      continue;
    }
    // A chain that came to the hub from a point that is reached through it would pass it twice.
    for (const auto& [nearer, distance] : near)
      level.each_edge(nearer, Direction::along, [&, so_far = count](const TightEdge& edge) {
        if (edge.to == Level::hub) step_back(edge, so_far);
      });
  }

  const auto goes_on = [&](const TightEdge& edge, std::size_t point) {
    return tight(edge) && count_from(edge.to) < count_from(point) &&
           one_more(count_from(edge.to), edge) == count_from(point);
  };
  std::vector<ConstraintIndex> chain;
  for (std::size_t point = at(y); point != at(x);) {
    // Of the edges that will do, the one of the lowest constraint.
    std::optional<TightEdge> step;
    const auto take = [&](const TightEdge& edge) {
      if ((!step || edge.constraint < step->constraint) && goes_on(edge, point)) step = edge;
    };
    if (point != Level::hub)
      level.each_edge(point, Direction::along, take);
    else // nearly every point has an edge from the hub, and few are on the way: looked for from those
      for (const auto& [on_the_way, count] : left)
        if (on_the_way != Level::hub)
          level.each_edge(on_the_way, Direction::against, [&](const TightEdge& edge) {
            if (edge.from == Level::hub) take(edge);
          });
    chain.push_back(step->constraint);
    point = step->to;
  }
  return chain;
}

bool Entailment::allows(Point x, Point y, std::int64_t most) const {
  const auto least = upper(y, x); // y - x <= least, and so x - y >= -least
  return !least || most >= -*least;
}

} // namespace coeval
