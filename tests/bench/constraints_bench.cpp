// How does the search for a potential compare with other people's Bellman-Ford, and how long do contradictions take?
//
// Not a test: it prints whole ratios from one run on one machine. Everyone solves the same graphs, from number zero at
// every point, and the time to build a graph does not count. Boost's is started from one more point with an edge to
// every other, which is how its documentation would have it.
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <limits>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include <boost/graph/bellman_ford_shortest_paths.hpp>
#include <boost/graph/compressed_sparse_row_graph.hpp>
#include <fmt/format.h>

#include "bellman_ford.hpp"
#include "constraints/contradictions.hpp"
#include "constraints/entail.hpp"
#include "constraints/potential.hpp"

using namespace coeval;

namespace {

using Seconds = std::chrono::duration<double>;

double seconds(const std::function<void()>& work) {
  const auto start = std::chrono::steady_clock::now();
  work();
  return Seconds{std::chrono::steady_clock::now() - start}.count();
}

// Spans with both ends dated, in a loose order and here and there nested. `misses` of the dates are off.
ConstraintGraph dated_spans(std::uint32_t spans, std::uint32_t misses) {
  std::mt19937_64 engine{1976};
  std::vector<std::int64_t> starts;
  for (std::uint32_t i = 0; i < spans; ++i) starts.push_back(static_cast<std::int64_t>(engine() % 10'000));
  std::vector<Constraint> constraints;
  std::uint32_t statement = 0;
  const auto start_of = [](std::uint32_t i) { return Point{1 + 2 * i}; };
  const auto end_of = [](std::uint32_t i) { return Point{2 + 2 * i}; };
  for (std::uint32_t i = 0; i < spans; ++i) {
    constraints.push_back({start_of(i), end_of(i), 0});
    if (engine() % 3 == 0) {
      constraints.push_back({origin, start_of(i), -starts[i], StatementIndex{statement}});
      constraints.push_back({end_of(i), origin, starts[i] + 400, StatementIndex{statement++}});
    }
    const auto other = static_cast<std::uint32_t>(engine() % spans);
    if (starts[other] < starts[i])
      constraints.push_back({start_of(other), start_of(i), -1, StatementIndex{statement++}});
    else
      constraints.push_back({end_of(i), end_of(other), 0, StatementIndex{statement++}});
  }
  for (std::uint32_t miss = 0; miss < misses; ++miss) {
    const std::uint32_t i = (spans / misses) * miss;
    constraints.push_back({origin, start_of(i), -starts[i] - 20, StatementIndex{statement++}});
    constraints.push_back({start_of(i), origin, starts[i] + 10, StatementIndex{statement++}});
  }
  return ConstraintGraph{1 + 2 * spans, std::move(constraints)};
}

// One ring through all points in a shuffled order; negative iff `most` is.
ConstraintGraph ring(std::uint32_t points, std::int64_t most) {
  std::mt19937_64 engine{1976};
  std::vector<std::uint32_t> order(points);
  for (std::uint32_t i = 0; i < points; ++i) order[i] = i;
  for (std::uint32_t i = points - 1; i > 0; --i) std::swap(order[i], order[engine() % (i + 1)]);
  std::vector<Constraint> constraints;
  std::int64_t left = most;
  for (std::uint32_t i = 0; i < points; ++i) {
    const std::int64_t length = i + 1 < points ? static_cast<std::int64_t>(engine() % 21) - 10 : left;
    left -= length;
    constraints.push_back({Point{order[(i + 1) % points]}, Point{order[i]}, length, StatementIndex{i}});
  }
  return ConstraintGraph{points, std::move(constraints)};
}

bool check(bool ours, bool theirs, const std::string& whose) {
  if (ours == theirs) return true;
  fmt::print("  {} disagrees\n", whose);
  return false;
}

bool compare(const std::string& name, const ConstraintGraph& graph) {
  const auto n = static_cast<int>(graph.points());
  const SortedEdges edges{graph, [](ConstraintIndex) { return true; }};
  bool ours = false;
  const double our_time = seconds([&] { ours = is_satisfiable(edges); });
  fmt::print("{}: {} points, {} constraints, {}satisfiable\n", name, n, edges.size(), ours ? "" : "not ");
  fmt::print("  this program: {:.4f} s\n", our_time);

  std::vector<lemon_bellman_ford::Arc> arcs;
  for (std::size_t e = 0; e < edges.size(); ++e)
    arcs.push_back({static_cast<int>(edges.from(e)), static_cast<int>(edges.to(e)), edges.length(e)});
  const lemon_bellman_ford::Digraph digraph{n, arcs};
  bool lemon = false;
  const double lemon_time = seconds([&] { lemon = !digraph.has_negative_cycle(); });
  fmt::print("  LEMON: {:.4f} s, {:.0f} times as long\n", lemon_time, lemon_time / our_time);
  bool agreed = check(ours, lemon, "LEMON");

  struct Weight {
    std::int64_t length = 0;
  };
  using Digraph = boost::compressed_sparse_row_graph<boost::directedS, boost::no_property, Weight>;
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  std::vector<Weight> weights;
  for (std::size_t e = 0; e < edges.size(); ++e) {
    pairs.emplace_back(edges.from(e), edges.to(e));
    weights.push_back({edges.length(e)});
  }
  for (std::uint32_t p = 0; p < graph.points(); ++p) {
    pairs.emplace_back(graph.points(), p);
    weights.push_back({0});
  }
  const Digraph theirs(boost::edges_are_sorted, pairs.begin(), pairs.end(), weights.begin(),
                       graph.points() + std::size_t{1});
  std::vector<std::int64_t> distance(graph.points() + std::size_t{1}, std::numeric_limits<std::int64_t>::max());
  distance.back() = 0;
  bool boost_says = false;
  const double boost_time = seconds([&] {
    boost_says =
        bellman_ford_shortest_paths(theirs, static_cast<int>(num_vertices(theirs)),
                                    boost::weight_map(get(&Weight::length, theirs)).distance_map(distance.data()));
  });
  fmt::print("  Boost: {:.4f} s, {:.0f} times as long\n", boost_time, boost_time / our_time);
  return check(ours, boost_says, "Boost") && agreed;
}

void contradictions(const std::string& name, const ConstraintGraph& graph) {
  std::size_t found = 0;
  const double time = seconds(
      [&] { found = find_contradictions(graph, 1, [](StatementIndex, StatementIndex) { return false; }).size(); });
  fmt::print("{}: {} contradictions among {} constraints in {:.3f} s\n", name, found, graph.constraints().size(), time);
}

} // namespace

int main() {
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  bool agreed = compare("dated spans", dated_spans(200'000, 0));
  // The others go on to the last round when there is a negative cycle, so this one is small.
  agreed = compare("dated spans with one date off", dated_spans(3'000, 1)) && agreed;
  agreed = compare("a ring", ring(20'000, 0)) && agreed;
  agreed = compare("a negative ring", ring(20'000, -1)) && agreed;
  contradictions("dated spans", dated_spans(100'000, 1'000));
  contradictions("a negative ring", ring(2'000, -1));
  contradictions("a longer negative ring", ring(10'000, -1));
  return agreed ? EXIT_SUCCESS : EXIT_FAILURE;
}
