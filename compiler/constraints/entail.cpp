#include "constraints/entail.hpp"

#include <algorithm>
#include <functional>
#include <limits>
#include <queue>

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

  // Dijkstra's search (1959). Without `until`, all distances; with it, those that are no greater than its own are
  // final.
  [[nodiscard]] std::vector<std::int64_t> distances(std::size_t start, Direction direction,
                                                    std::optional<std::size_t> until = {}) const {
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
      if (until && reached > distance[*until]) break;
      for (const Edge& edge : edges.at(point)) {
        const std::int64_t length = reached + edge.length;
        if (length >= distance[edge.*next]) continue;
        distance[edge.*next] = length;
        queue.emplace(length, edge.*next);
      }
    }
    return distance;
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
  return Entailment{std::make_shared<const State>(
      State{std::move(*potential), SortedEdges{graph.points(), std::move(edges)}, std::move(entering)})};
}

std::optional<std::int64_t> Entailment::upper(Point x, Point y) const {
  const std::int64_t distance = state_->distances(at(y), State::Direction::along, at(x))[at(x)];
  if (distance == unreached) return {};
  return state_->plain(distance, at(y), at(x));
}

BoundRow Entailment::upper_from(Point from) const { return state_->row(from, State::Direction::along); }

BoundRow Entailment::upper_to(Point to) const { return state_->row(to, State::Direction::against); }

std::vector<ConstraintIndex> Entailment::proof(Point x, Point y) const {
  const State& state = *state_;
  const std::vector<std::int64_t> distance = state.distances(at(y), State::Direction::along, at(x));
  if (x == y || distance[at(x)] == unreached) return {};
  // An edge is tight when it lies on some shortest path from y. Tight edges can form cycles of length zero, also of
  // definitions alone; counting every edge makes each step come nearer to x, so that no walk goes round in them.
  const auto tight = [&](const Edge& edge) {
    return distance[edge.from] <= distance[at(x)] && distance[edge.from] + edge.length == distance[edge.to];
  };

  std::vector<Count> left(distance.size()); // the best chain of tight edges from each point to x
  NearestFirst<Count> queue;
  left[at(x)] = {0, 0};
  queue.emplace(Count{0, 0}, static_cast<std::uint32_t>(x));
  while (!queue.empty() && queue.top().second != static_cast<std::uint32_t>(y)) {
    const auto [reached, point] = queue.top();
    queue.pop();
    if (reached > left[point]) continue;
    for (const Edge& edge : state.entering.at(point)) {
      const Count count = one_more(reached, edge);
      if (!tight(edge) || count >= left[edge.from]) continue;
      left[edge.from] = count;
      queue.emplace(count, edge.from);
    }
  }

  std::vector<ConstraintIndex> chain;
  for (std::size_t point = at(y); point != at(x);) {
    // Edges lie in the order of the constraints: the first that will do has the lowest index.
    const auto edges = state.leaving.at(point);
    const auto step = std::ranges::find_if(edges, [&](const Edge& edge) {
      return tight(edge) && left[edge.to] < left[point] && one_more(left[edge.to], edge) == left[point];
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
