#include "constraints/potential.hpp"

#include <algorithm>
#include <limits>
#include <span>

namespace coeval {

namespace {

enum class Settled : std::uint8_t { yes, no, too_large };

// To and fro: a chain that lies against the order of the points would need a round for each of its links. Only points
// that were lowered since their edges were followed are looked at, so that the rounds after the first cost little.
// Stops where fits(number, lowered) says that the number, lowered from another one, is too large for its kind.
template <class Number, class Counts, class Fits>
Settled settle(const SortedEdges& edges, std::span<Number> numbers, std::vector<char>& waiting, const Counts& counts,
               const Fits& fits) {
  constexpr int rounds = 8;
  const Number lowest_of_origin = numbers[static_cast<std::size_t>(origin)];
  bool lowered = true;
  bool too_large = false;
  const auto follow = [&](std::size_t point) {
    if (waiting[point] == 0) return;
    waiting[point] = 0;
    const std::int64_t number = numbers[point];
    for (auto [e, last] = edges.leaving(point); e < last; ++e) {
      const std::int64_t lower = number + edges.length(e);
      const std::uint32_t to = edges.to(e);
      if (lower >= numbers[to] || !counts(e)) continue;
      too_large = too_large || !fits(number, lower);
      numbers[to] = static_cast<Number>(lower);
      waiting[to] = 1;
      lowered = true;
    }
  };
  for (int round = 0; round < rounds && lowered && !too_large && numbers[0] >= lowest_of_origin; ++round) {
    lowered = false;
    if (round % 2 == 0)
      for (std::size_t point = 0; point < edges.points(); ++point) follow(point);
    else
      for (std::size_t point = edges.points(); point-- > 0;) follow(point);
  }
  if (too_large) return Settled::too_large;
  return lowered ? Settled::no : Settled::yes;
}

template <class Counts>
bool settle(const SortedEdges& edges, std::span<std::int64_t> numbers, std::vector<char>& waiting,
            const Counts& counts) {
  const auto fits = [](std::int64_t, std::int64_t) { return true; };
  return settle(edges, numbers, waiting, counts, fits) == Settled::yes;
}

// With numbers of 32 bits, of which twice as many stay in the processor's cache. Nothing where they do not suffice or a
// few rounds do not tell.
std::optional<bool> is_satisfiable_in_few_days(const SortedEdges& edges) {
  constexpr std::int32_t origin_in_few_days = std::numeric_limits<std::int32_t>::min() / 2;
  std::vector<std::int32_t> numbers(edges.points(), 0);
  numbers[static_cast<std::size_t>(origin)] = origin_in_few_days;
  std::vector<char> waiting(edges.points(), 1);
  const auto counts = [](std::size_t) { return true; };
  // A way from another point than the origin must not lead as low as one from there.
  const auto fits = [](std::int64_t number, std::int64_t lower) {
    return lower >= std::numeric_limits<std::int32_t>::min() &&
           (number < origin_in_few_days / 2 || lower >= origin_in_few_days / 2);
  };
  const Settled settled = settle(edges, std::span{numbers}, waiting, counts, fits);
  if (settled == Settled::yes) return true;
  if (settled == Settled::no && numbers[static_cast<std::size_t>(origin)] < origin_in_few_days) return false;
  return {};
}

} // namespace

std::vector<std::int64_t> first_numbers(std::uint32_t points) {
  std::vector<std::int64_t> numbers(points, 0);
  numbers[static_cast<std::size_t>(origin)] = origin_number;
  return numbers;
}

bool settle_in_rounds(ActiveEdges& graph, std::vector<char>& waiting) {
  return settle(*graph.edges, graph.potential, waiting, [&](std::size_t e) { return graph.active[e] != 0; });
}

bool settle_levels(const SortedEdges& edges, int first, int last, std::vector<std::int64_t>& numbers) {
  std::vector<char> waiting(edges.points(), first == 0 ? 1 : 0); // nearly every point has an edge of the first level
  for (std::size_t point = 0; point < edges.points() && first > 0; ++point)
    for (auto [e, end] = edges.leaving(point); e < end && waiting[point] == 0; ++e)
      waiting[point] = edges.level(e) >= first && edges.level(e) <= last;
  if (settle(edges, numbers, waiting, [&](std::size_t e) { return edges.level(e) <= last; })) return true;
  if (numbers[static_cast<std::size_t>(origin)] < origin_number) return false;
  ActiveEdges graph{&edges, std::vector<char>(edges.size()), std::move(numbers)};
  for (std::size_t e = 0; e < edges.size(); ++e) graph.active[e] = edges.level(e) <= last;
  const bool settled = !CycleSearch{graph}.next_cycle();
  numbers = std::move(graph.potential);
  return settled;
}

bool is_satisfiable(const SortedEdges& edges) {
  if (const std::optional<bool> known = is_satisfiable_in_few_days(edges)) return *known;
  std::vector<std::int64_t> numbers = first_numbers(edges.points());
  return settle_levels(edges, 0, std::numeric_limits<std::uint8_t>::max(), numbers);
}

CycleSearch::CycleSearch(ActiveEdges& graph) : graph_(graph) { begin(); }

void CycleSearch::begin() {
  const SortedEdges& edges = *graph_.edges;
  queue_.clear();
  passed_.clear();
  turns_.assign(edges.points(), Turn::none);
  for (auto* links : {&parent_edge_, &parent_, &first_child_, &next_sibling_, &previous_sibling_})
    links->assign(edges.points(), nothing);
  lowest_ = 0;
  for (std::uint32_t point = 0; point < edges.points(); ++point) {
    lowest_ = std::min(lowest_, graph_.potential[point]);
    bool no_room = false;
    for (auto [e, last] = edges.leaving(point); e < last && !no_room; ++e)
      no_room = graph_.active[e] != 0 && graph_.potential[point] + edges.length(e) < graph_.potential[edges.to(e)];
    if (no_room) enqueue(point);
  }
}

std::optional<std::vector<std::uint32_t>> CycleSearch::next_cycle() {
  // Numbers lowered along edges that have been deactivated since stay low. That is harmless unless it goes on for so
  // long that they could overflow; then start afresh.
  constexpr std::int64_t too_low = -(std::int64_t{1} << 61U);
  if (lowest_ < too_low) {
    std::ranges::fill(graph_.potential, 0);
    begin();
  }
  while (true) {
    while (!queue_.empty()) {
      const std::uint32_t point = queue_.front();
      queue_.pop_front();
      if (turns_[point] == Turn::passed_over) {
        turns_[point] = Turn::passed_and_out;
        passed_.push_back(point);
        continue;
      }
      turns_[point] = Turn::none;
      if (auto cycle = follow_edges_of(point)) {
        queue_.push_front(point); // the rest of its edges are still to be followed
        turns_[point] = Turn::queued;
        return cycle;
      }
    }
    // Points passed over have been lowered since through the points they hung from, unless an edge between was
    // deactivated. Those still take their turn.
    for (const std::uint32_t point : passed_)
      if (turns_[point] == Turn::passed_and_out) enqueue(point);
    passed_.clear();
    if (queue_.empty()) return {};
  }
}

std::optional<std::vector<std::uint32_t>> CycleSearch::follow_edges_of(std::uint32_t point) {
  const SortedEdges& edges = *graph_.edges;
  for (auto [e, last] = edges.leaving(point); e < last; ++e) {
    const std::uint32_t to = edges.to(e);
    const std::int64_t lower = graph_.potential[point] + edges.length(e);
    if (lower >= graph_.potential[to] || graph_.active[e] == 0) continue;
    const auto number = static_cast<std::uint32_t>(e);
    if (hangs_below(to, point)) return cycle_through(number);
    take_apart_below();
    graph_.potential[to] = lower;
    lowest_ = std::min(lowest_, lower);
    cut(to);
    hang(to, number, point);
    enqueue(to);
  }
  return {};
}

void CycleSearch::enqueue(std::uint32_t point) {
  Turn& turn = turns_[point];
  if (turn == Turn::none || turn == Turn::passed_and_out) queue_.push_back(point);
  turn = Turn::queued;
}

// Is `lookout` the point itself, or does it hang below it? Walks down from the one and up from the other in step, so
// that the answer yes takes no longer than the shorter of the two. After the answer no, below_ holds all that hangs
// there.
bool CycleSearch::hangs_below(std::uint32_t point, std::uint32_t lookout) {
  below_.assign(1, point);
  std::uint32_t above = lookout;
  bool at_root = false;
  for (std::size_t next = 0; next < below_.size(); ++next) {
    if (above == point || below_[next] == lookout) return true;
    if (!at_root) {
      at_root = parent_edge_[above] == nothing;
      if (!at_root) above = parent_[above];
    }
    for (std::uint32_t child = first_child_[below_[next]]; child != nothing; child = next_sibling_[child])
      below_.push_back(child);
  }
  return false;
}

// All in below_ after the first become roots, and are passed over until they have been lowered through it. Were their
// edges followed before, two fronts could chase each other round a negative cycle, each cutting the other's trail, and
// never close it.
void CycleSearch::take_apart_below() {
  first_child_[below_.front()] = nothing;
  for (std::size_t i = 1; i < below_.size(); ++i) {
    const std::uint32_t point = below_[i];
    parent_edge_[point] = first_child_[point] = next_sibling_[point] = previous_sibling_[point] = nothing;
    if (turns_[point] == Turn::queued) turns_[point] = Turn::passed_over;
  }
}

void CycleSearch::hang(std::uint32_t point, std::uint32_t edge, std::uint32_t parent) {
  parent_edge_[point] = edge;
  parent_[point] = parent;
  next_sibling_[point] = first_child_[parent];
  if (first_child_[parent] != nothing) previous_sibling_[first_child_[parent]] = point;
  first_child_[parent] = point;
}

void CycleSearch::cut(std::uint32_t point) {
  if (parent_edge_[point] == nothing) return;
  const std::uint32_t parent = parent_[point];
  const std::uint32_t next = next_sibling_[point];
  const std::uint32_t previous = previous_sibling_[point];
  if (previous == nothing)
    first_child_[parent] = next;
  else
    next_sibling_[previous] = next;
  if (next != nothing) previous_sibling_[next] = previous;
  parent_edge_[point] = next_sibling_[point] = previous_sibling_[point] = nothing;
}

std::vector<std::uint32_t> CycleSearch::cycle_through(std::uint32_t closing_edge) const {
  const SortedEdges& edges = *graph_.edges;
  std::vector<std::uint32_t> cycle{closing_edge};
  for (std::uint32_t point = edges.from(closing_edge); point != edges.to(closing_edge); point = parent_[point])
    cycle.push_back(parent_edge_[point]);
  std::ranges::reverse(cycle);
  return cycle;
}

void CycleSearch::deactivate(std::uint32_t edge) {
  graph_.active[edge] = 0;
  const std::uint32_t point = graph_.edges->to(edge);
  if (parent_edge_[point] != edge) return;
  cut(point);
  raise(point);
}

// The point and what hangs below it have been lowered along an edge that is gone. Left so low they would soon lower a
// large part of the graph in turn. Where they are few, they get the numbers that their surroundings ask for; where they
// are many, they are the larger part.
void CycleSearch::raise(std::uint32_t point) {
  constexpr std::size_t few = 64;
  const std::int64_t before = graph_.potential[point];
  below_.assign(1, point);
  for (std::size_t next = 0; next < below_.size(); ++next) {
    for (std::uint32_t child = first_child_[below_[next]]; child != nothing; child = next_sibling_[child])
      below_.push_back(child);
    if (below_.size() > few) return;
  }
  if (!entering_) entering_.emplace(*graph_.edges);
  take_apart_below();
  for (const std::uint32_t raised : below_) graph_.potential[raised] = 0;
  for (const std::uint32_t raised : below_) {
    for (const std::uint32_t e : entering_->at(raised)) {
      if (graph_.active[e] == 0) continue;
      graph_.potential[raised] =
          std::min(graph_.potential[raised], graph_.potential[graph_.edges->from(e)] + graph_.edges->length(e));
    }
    // Of several, one may get a number lower than the others of them were given to go by: all take their turn again.
    // One alone may get a number lower than before, asked for by a neighbour that still waits for its turn.
    if (below_.size() > 1 || turns_[raised] != Turn::none || graph_.potential[raised] < before) enqueue(raised);
  }
}

} // namespace coeval
