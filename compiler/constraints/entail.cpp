#include "constraints/entail.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/edges.hpp"
#include "constraints/potential.hpp"

namespace coeval {
namespace {

constexpr std::int64_t unreached = std::numeric_limits<std::int64_t>::max();

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

// An edge of the weakest level asked for or a stronger one, its length reweighted.
struct TightEdge {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
  std::int64_t length = 0;
  ConstraintIndex constraint{};
  std::uint8_t level = 0;
  bool stated = false;
};

Count one_more(Count count, const TightEdge& edge) { return {count.stated + (edge.stated ? 1U : 0U), count.all + 1}; }

std::size_t at(Point point) { return static_cast<std::size_t>(point); }

} // namespace

// Lengths are reweighted: length + potential[from] - potential[to], which is never negative. Reweighting lengthens
// every path between the same two points by the same amount. A potential of the weakest level has room for the edges of
// every stronger one too, so that all levels share it and the edges: for four levels a quarter of the memory and of the
// time to sort.
struct Entailment::Edges {
  std::vector<std::int64_t> potential;
  std::vector<TightEdge> leaving;            // by the point that they leave, there in the order of the constraints
  std::vector<std::uint32_t> leaving_begin;  // per point, and one more
  std::vector<std::uint32_t> entering;       // positions in `leaving`, by the point that they enter, likewise
  std::vector<std::uint32_t> entering_begin; // per point, and one more

  [[nodiscard]] std::span<const TightEdge> leaving_at(std::size_t point) const {
    return std::span{leaving}.subspan(leaving_begin[point], leaving_begin[point + 1] - leaving_begin[point]);
  }
  [[nodiscard]] std::span<const std::uint32_t> entering_at(std::size_t point) const {
    return std::span{entering}.subspan(entering_begin[point], entering_begin[point + 1] - entering_begin[point]);
  }
};

struct Entailment::State {
  std::shared_ptr<const Edges> edges;
  int level = 0;

  [[nodiscard]] bool counts(const TightEdge& edge) const { return edge.level <= level; }
  [[nodiscard]] std::size_t points() const { return edges->potential.size(); }

  enum class Direction { along, against };

  // Calls visit(edge) for every edge that leaves the point or, against, enters it.
  template <class Visit> void each_edge(std::size_t point, Direction direction, const Visit& visit) const {
    if (direction == Direction::along) {
      for (const TightEdge& edge : edges->leaving_at(point))
        if (counts(edge)) visit(edge);
    } else {
      for (const std::uint32_t position : edges->entering_at(point))
        if (counts(edges->leaving[position])) visit(edges->leaving[position]);
    }
  }

  [[nodiscard]] std::int64_t plain(std::int64_t reweighted, std::size_t from, std::size_t to) const {
    return reweighted - edges->potential[from] + edges->potential[to];
  }

  // Distances from every point to the hub and from the hub to every point, for searches between two points. Most
  // statements are dates, edges to and from the calendar's origin, and so most shortest paths lead through it; any
  // point would do for a hub, and that one does it best.
  static constexpr std::size_t hub = 0;
  std::vector<std::int64_t> to_hub;
  std::vector<std::int64_t> from_hub;

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
    if (from_hub[point] != unreached) {
      if (from_hub[end] == unreached) return unreached; // whatever the point leads to, the hub would
      least = std::max(least, from_hub[end] - from_hub[point]);
    }
    if (to_hub[end] != unreached) {
      if (to_hub[point] == unreached) return unreached;
      least = std::max(least, to_hub[point] - to_hub[end]);
    }
    return least;
  }

  [[nodiscard]] std::int64_t through_hub(std::size_t start, std::size_t end) const {
    return to_hub[start] == unreached || from_hub[end] == unreached ? unreached : to_hub[start] + from_hub[end];
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
      const auto [reached, point] = queue.top();
      queue.pop();
      if (reached > distance[point]) continue;
      for (const TightEdge& edge : edges->leaving_at(point)) {
        const std::int64_t length = reached + edge.length;
        if (!counts(edge) || edge.to == hub || length > whole || length > through_hub(start, edge.to)) continue;
        if (const std::int64_t rest = at_least(edge.to, end); rest == unreached || rest > whole - length) continue;
        const auto [known, fresh] = distance.try_emplace(edge.to, length);
        if (!fresh && length >= known->second) continue;
        known->second = length;
        queue.emplace(length, edge.to);
      }
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
      const auto [reached, point] = queue.top();
      queue.pop();
      if (reached >= best) break;
      if (reached > shorter[point]) continue;
      if (point == end) return reached;
      for (const TightEdge& edge : edges->leaving_at(point)) {
        const std::int64_t length = reached + edge.length;
        if (!counts(edge) || length >= through_hub(start, edge.to))
          continue; // from there on, the hub's way is as short
        const std::int64_t rest = at_least(edge.to, end);
        if (rest == unreached || length >= best || rest >= best - length) continue;
        const auto [known, fresh] = shorter.try_emplace(edge.to, length);
        if (!fresh && length >= known->second) continue;
        known->second = length;
        queue.emplace(length, edge.to);
      }
    }
    return best;
  }

  // The points that the search from `start` reaches on a shorter way than through the hub. What lies beyond one that is
  // not among them is reached through the hub as well, so nothing is missed by turning back there.
  [[nodiscard]] std::vector<NearPoint> nearer(std::size_t start, Direction direction) const {
    std::vector<NearPoint> found{{static_cast<Point>(start), 0}};
    if (start == hub) return found;
    const bool along = direction == Direction::along;
    const auto next = along ? &TightEdge::to : &TightEdge::from;
    const auto is_nearer = [&](std::size_t there, std::int64_t length) {
      return there != hub && length < (along ? through_hub(start, there) : through_hub(there, start));
    };
    // Most points have no such neighbour: nothing is set up for them.
    bool any = false;
    each_edge(start, direction, [&](const TightEdge& edge) { any = any || is_nearer(edge.*next, edge.length); });
    if (!any) return found;
    Near distance;
    NearestFirst<std::int64_t> queue;
    distance[start] = 0;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const std::int64_t reached = queue.top().first;
      const std::size_t point = queue.top().second;
      queue.pop();
      if (reached > distance[point]) continue;
      if (point != start)
        found.push_back(
            {static_cast<Point>(point), along ? plain(reached, start, point) : plain(reached, point, start)});
      each_edge(point, direction, [&](const TightEdge& edge) {
        const std::size_t there = edge.*next;
        const std::int64_t length = reached + edge.length;
        if (!is_nearer(there, length)) return;
        const auto [known, fresh] = distance.try_emplace(there, length);
        if (!fresh && length >= known->second) return;
        known->second = length;
        queue.emplace(length, static_cast<std::uint32_t>(there));
      });
    }
    return found;
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

std::optional<Entailment> Entailment::build(const ConstraintGraph& graph, int level,
                                            std::span<const StatementIndex> left_out) {
  const auto edges = solve(graph, level, left_out);
  if (!edges) return {};
  return on_level(edges, level);
}

std::vector<Entailment> Entailment::build_each(const ConstraintGraph& graph, int levels,
                                               std::span<const StatementIndex> left_out) {
  std::vector<Entailment> each;
  if (const auto edges = solve(graph, levels - 1, left_out))
    for (int level = 0; level < levels; ++level) each.push_back(on_level(edges, level));
  return each;
}

// Nothing where they cannot all hold.
std::shared_ptr<const Entailment::Edges> Entailment::solve(const ConstraintGraph& graph, int weakest,
                                                           std::span<const StatementIndex> left_out) {
  std::vector<StatementIndex> out(left_out.begin(), left_out.end());
  std::ranges::sort(out);
  const SortedEdges sorted{graph, [&](ConstraintIndex index) {
                             const Constraint& constraint = graph[index];
                             return constraint.level <= weakest &&
                                    (constraint.statement == by_definition ||
                                     !std::ranges::binary_search(out, constraint.statement));
                           }};
  auto potential = find_potential(sorted);
  if (!potential) return {};
  auto edges = std::make_shared<Edges>();
  edges->potential = std::move(*potential);
  edges->leaving.reserve(sorted.size());
  for (std::size_t e = 0; e < sorted.size(); ++e) {
    const Edge edge = sorted[e];
    edges->leaving.push_back({edge.from, edge.to, edge.length + edges->potential[edge.from] - edges->potential[edge.to],
                              edge.constraint, sorted.level(e), edge.statement != by_definition});
  }
  edges->leaving_begin.assign(graph.points() + std::size_t{1}, 0);
  edges->entering_begin.assign(graph.points() + std::size_t{1}, 0);
  for (const TightEdge& edge : edges->leaving) {
    ++edges->leaving_begin[edge.from + std::size_t{1}];
    ++edges->entering_begin[edge.to + std::size_t{1}];
  }
  for (std::size_t point = 0; point < graph.points(); ++point) {
    edges->leaving_begin[point + 1] += edges->leaving_begin[point];
    edges->entering_begin[point + 1] += edges->entering_begin[point];
  }
  std::vector<std::uint32_t> next(edges->entering_begin.begin(), edges->entering_begin.end() - 1);
  edges->entering.resize(edges->leaving.size());
  for (std::size_t i = 0; i < edges->leaving.size(); ++i)
    edges->entering[next[edges->leaving[i].to]++] = static_cast<std::uint32_t>(i);
  return edges;
}

Entailment Entailment::on_level(std::shared_ptr<const Edges> edges, int level) {
  State state{std::move(edges), level, {}, {}};
  if (state.points() > 0) {
    state.to_hub = state.distances(State::hub, State::Direction::against);
    state.from_hub = state.distances(State::hub, State::Direction::along);
  }
  return Entailment{std::make_shared<const State>(std::move(state))};
}

std::optional<std::int64_t> Entailment::latest(Point point) const {
  const std::int64_t distance = state_->from_hub[at(point)];
  if (distance == unreached) return {};
  return state_->plain(distance, State::hub, at(point));
}

std::optional<std::int64_t> Entailment::earliest(Point point) const {
  const std::int64_t distance = state_->to_hub[at(point)];
  if (distance == unreached) return {};
  return -state_->plain(distance, at(point), State::hub);
}

std::optional<std::int64_t> Entailment::upper(Point x, Point y) const {
  const std::int64_t distance = state_->distance(at(y), at(x));
  if (distance == unreached) return {};
  return state_->plain(distance, at(y), at(x));
}

BoundRow Entailment::upper_from(Point from) const { return state_->row(from, State::Direction::along); }

BoundRow Entailment::upper_to(Point to) const { return state_->row(to, State::Direction::against); }

std::vector<NearPoint> Entailment::nearer_from(Point from) const {
  return state_->nearer(at(from), State::Direction::along);
}

std::vector<NearPoint> Entailment::nearer_to(Point to) const {
  return state_->nearer(at(to), State::Direction::against);
}

std::vector<ConstraintIndex> Entailment::proof(Point x, Point y) const {
  const State& state = *state_;
  const std::int64_t whole = state.distance(at(y), at(x));
  if (x == y || whole == unreached) return {};
  const State::Near near = state.near_without_hub(at(y), at(x), whole);
  const auto reached = [&](std::size_t point) {
    const auto found = near.find(point);
    return found != near.end() ? found->second : state.through_hub(at(y), point);
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
    if (point != State::hub) {
      state.each_edge(point, State::Direction::against,
                      [&, so_far = count](const TightEdge& edge) { step_back(edge, so_far); });
      continue;
    }
    // A chain that came to the hub from a point that is reached through it would pass it twice.
    for (const auto& [nearer, distance] : near)
      for (const TightEdge& edge : state.edges->leaving_at(nearer))
        if (edge.to == State::hub && state.counts(edge)) step_back(edge, count);
  }

  const auto goes_on = [&](const TightEdge& edge, std::size_t point) {
    return state.counts(edge) && tight(edge) && count_from(edge.to) < count_from(point) &&
           one_more(count_from(edge.to), edge) == count_from(point);
  };
  std::vector<ConstraintIndex> chain;
  for (std::size_t point = at(y); point != at(x);) {
    // Of the edges that will do, the one of the lowest constraint.
    const TightEdge* step = nullptr;
    const auto take = [&](const TightEdge& edge) {
      if ((step == nullptr || edge.constraint < step->constraint) && goes_on(edge, point)) step = &edge;
    };
    if (point != State::hub)
      state.each_edge(point, State::Direction::along, take);
    else // nearly every point has an edge from the hub, and few are on the way: looked for from those
      for (const auto& [on_the_way, count] : left)
        if (on_the_way != State::hub)
          state.each_edge(on_the_way, State::Direction::against, [&](const TightEdge& edge) {
            if (edge.from == State::hub) take(edge);
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
