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

Count one_more(Count count, const Edge& edge) {
  return {count.stated + (edge.statement == by_definition ? 0U : 1U), count.all + 1};
}

std::size_t at(Point point) { return static_cast<std::size_t>(point); }

} // namespace

// Lengths in both lists are reweighted: length + potential[from] - potential[to], which is never negative. Reweighting
// lengthens every path between the same two points by the same amount.
struct Entailment::State {
  std::vector<std::int64_t> potential;
  SortedEdges leaving;  // by the point that they leave
  SortedEdges entering; // by the point that they enter

  [[nodiscard]] std::int64_t plain(std::int64_t reweighted, std::size_t from, std::size_t to) const {
    return reweighted - potential[from] + potential[to];
  }

  enum class Direction { along, against };

  // Distances from every point to the hub and from the hub to every point, for searches between two points. Most
  // statements are dates, edges to and from the calendar's origin, and so most shortest paths lead through it; any
  // point would do for a hub, and that one does it best.
  static constexpr std::size_t hub = 0;
  std::vector<std::int64_t> to_hub;
  std::vector<std::int64_t> from_hub;

  // Dijkstra's search (1959).
  [[nodiscard]] std::vector<std::int64_t> distances(std::size_t start, Direction direction) const {
    const SortedEdges& edges = direction == Direction::along ? leaving : entering;
    const auto next = direction == Direction::along ? &Edge::to : &Edge::from;
    std::vector<std::int64_t> distance(potential.size(), unreached);
    NearestFirst<std::int64_t> queue;
    distance[start] = 0;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const auto [reached, point] = queue.top();
      queue.pop();
      if (reached > distance[point]) continue;
      for (const Edge& edge : edges.at(point)) {
        const std::int64_t length = reached + edge.length;
        if (length >= distance[edge.*next]) continue;
        distance[edge.*next] = length;
        queue.emplace(length, edge.*next);
      }
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
      for (const Edge& edge : leaving.at(point)) {
        const std::int64_t length = reached + edge.length;
        if (edge.to == hub || length > whole || length > through_hub(start, edge.to)) continue;
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
      for (const Edge& edge : leaving.at(point)) {
        const std::int64_t length = reached + edge.length;
        if (length >= through_hub(start, edge.to)) continue; // from there on, the hub's way is as short
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
    const SortedEdges& edges = along ? leaving : entering;
    const auto next = along ? &Edge::to : &Edge::from;
    Near distance;
    NearestFirst<std::int64_t> queue;
    distance[start] = 0;
    queue.emplace(0, static_cast<std::uint32_t>(start));
    while (!queue.empty()) {
      const auto [reached, point] = queue.top();
      queue.pop();
      if (reached > distance[point]) continue;
      if (point != start)
        found.push_back(
            {static_cast<Point>(point), along ? plain(reached, start, point) : plain(reached, point, start)});
      for (const Edge& edge : edges.at(point)) {
        const std::size_t there = edge.*next;
        const std::int64_t length = reached + edge.length;
        if (there == hub || length >= (along ? through_hub(start, there) : through_hub(there, start))) continue;
        const auto [known, fresh] = distance.try_emplace(there, length);
        if (!fresh && length >= known->second) continue;
        known->second = length;
        queue.emplace(length, static_cast<std::uint32_t>(there));
      }
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
  std::vector<StatementIndex> out(left_out.begin(), left_out.end());
  std::ranges::sort(out);
  SortedEdges leaving{graph.points(), edges_of(graph, [&](ConstraintIndex index) {
                        const Constraint& constraint = graph[index];
                        return constraint.level <= level && (constraint.statement == by_definition ||
                                                             !std::ranges::binary_search(out, constraint.statement));
                      })};
  auto potential = find_potential(leaving);
  if (!potential) return {};
  std::vector<Edge> edges(leaving.all().begin(), leaving.all().end());
  for (Edge& edge : edges) edge.length += (*potential)[edge.from] - (*potential)[edge.to];
  SortedEdges entering{graph.points(), edges, &Edge::to};
  State state{std::move(*potential), SortedEdges{graph.points(), std::move(edges)}, std::move(entering), {}, {}};
  if (graph.points() > 0) {
    state.to_hub = state.distances(State::hub, State::Direction::against);
    state.from_hub = state.distances(State::hub, State::Direction::along);
  }
  return Entailment{std::make_shared<const State>(std::move(state))};
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
  const auto tight = [&](const Edge& edge) {
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
  const auto step_back = [&](const Edge& edge, Count count) {
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
      for (const Edge& edge : state.entering.at(point)) step_back(edge, count);
      continue;
    }
    // A chain that came to the hub from a point that is reached through it would pass it twice.
    for (const auto& [nearer, distance] : near)
      for (const Edge& edge : state.leaving.at(nearer))
        if (edge.to == State::hub) step_back(edge, count);
  }

  std::vector<ConstraintIndex> chain;
  for (std::size_t point = at(y); point != at(x);) {
    // Edges lie in the order of the constraints: the first that will do has the lowest index.
    const auto edges = state.leaving.at(point);
    const auto step = std::ranges::find_if(edges, [&](const Edge& edge) {
      return tight(edge) && count_from(edge.to) < count_from(point) &&
             one_more(count_from(edge.to), edge) == count_from(point);
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
