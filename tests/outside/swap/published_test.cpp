// Are published examples of assignment and of flows solved as published?
#include <catch2/catch.hpp>

#include <cstdlib>
#include <numeric>
#include <vector>

#include "swap/min_cost_flow.hpp"
#include "swap/swap.hpp"

using namespace coeval;

namespace {

struct Arc {
  std::uint32_t from, to;
  std::int32_t capacity;
  std::int64_t cost;
};

struct Solved {
  std::int64_t cost = 0;
  std::vector<std::int32_t> flow; // of the arcs, without those from and to outside
};

// By node: above zero is what it sends, below what it gets.
Solved solve(const std::vector<std::int32_t>& supply, const std::vector<Arc>& arcs) {
  std::vector<FlowArc> all;
  std::vector<std::int32_t> lower;
  std::vector<std::int32_t> upper;
  std::vector<std::int64_t> cost;
  for (const Arc& arc : arcs) {
    all.push_back({arc.from, arc.to});
    lower.push_back(0);
    upper.push_back(arc.capacity);
    cost.push_back(arc.cost);
  }
  const auto outside = static_cast<std::uint32_t>(supply.size());
  for (std::uint32_t node = 0; node < outside; ++node) {
    if (supply[node] == 0) continue;
    all.push_back(supply[node] > 0 ? FlowArc{outside, node} : FlowArc{node, outside});
    lower.push_back(std::abs(supply[node]));
    upper.push_back(std::abs(supply[node]));
    cost.push_back(0);
  }
  MinCostFlow flows{outside + 1, all};
  REQUIRE(flows.solve(lower, upper, cost));
  return {std::inner_product(cost.begin(), cost.end(), flows.flow().begin(), std::int64_t{0}),
          {flows.flow().begin(), flows.flow().begin() + static_cast<std::ptrdiff_t>(arcs.size())}};
}

} // namespace

TEST_CASE("the guide's assignment of four workers to four tasks") {
  // Google OR-Tools guide, "Assignment", "Linear Sum Assignment Solver",
  // https://developers.google.com/optimization/assignment/linear_assignment: the table was read there; the total of 265
  // was read where another project's tests quote the guide. All 24 assignments were tried: it is the only best one.
  constexpr std::int64_t costs[4][4] = {{90, 76, 75, 70}, {35, 85, 55, 65}, {125, 95, 90, 105}, {45, 110, 95, 115}};
  std::vector<Arc> arcs;
  for (std::uint32_t worker = 0; worker < 4; ++worker)
    for (std::uint32_t task = 0; task < 4; ++task) arcs.push_back({worker, 4 + task, 1, costs[worker][task]});
  const Solved solved = solve({1, 1, 1, 1, -1, -1, -1, -1}, arcs);
  CHECK(solved.cost == 265);
  CHECK(solved.flow == std::vector<std::int32_t>{0, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 1, 0, 0, 0});
}

TEST_CASE("the manual's assignment of three rows to three columns, as a shelf") {
  // SciPy reference, scipy.optimize.linear_sum_assignment, Examples: columns 1, 0, 2, at a cost of 5. From memory, both
  // the table and the answer; all six assignments were tried: it is the only best one. A cost of c is a strength of 6 -
  // c.
  constexpr std::int32_t costs[3][3] = {{4, 1, 3}, {2, 0, 5}, {3, 2, 2}};
  SwapProblem problem;
  problem.part_kinds = problem.slot_kinds = 3;
  for (std::uint32_t row = 0; row < 3; ++row) {
    problem.pieces.push_back({1});
    problem.slots.push_back({row, row, false});
    problem.parts.push_back({row, {}});
    for (std::uint32_t column = 0; column < 3; ++column)
      problem.fits.push_back({column, row, 6 - costs[row][column], true});
  }
  const SwapPlan plan = best_swap(problem);
  CHECK(plan.holds == std::vector<std::optional<std::uint32_t>>{1, 0, 2});
  CHECK(plan.after.strength == 3 * 6 - 5);
}

TEST_CASE("the guide's flow from one node through five") {
  // Google OR-Tools guide, "Flow", "Minimum Cost Flows": "Minimum cost: 150" and the table of arcs, read where other
  // projects quote the guide. Recomputed with successive shortest paths: 150, and this flow.
  const Solved solved = solve({20, 0, 0, -5, -15}, {{0, 1, 15, 4},
                                                    {0, 2, 8, 4},
                                                    {1, 2, 20, 2},
                                                    {1, 3, 4, 2},
                                                    {1, 4, 10, 6},
                                                    {2, 3, 15, 1},
                                                    {2, 4, 4, 3},
                                                    {3, 4, 20, 2},
                                                    {4, 2, 5, 3}});
  CHECK(solved.cost == 150);
  CHECK(solved.flow == std::vector<std::int32_t>{12, 8, 8, 4, 0, 12, 4, 11, 0});
}

TEST_CASE("the manual's flow over two ways") {
  // NetworkX reference, networkx.algorithms.flow: the docstrings of min_cost_flow and network_simplex, and its test
  // test_simple_digraph: cost 24. Recomputed with successive shortest paths.
  const Solved solved = solve({5, 0, 0, -5}, {{0, 1, 4, 3}, {0, 2, 10, 6}, {1, 3, 9, 1}, {2, 3, 5, 2}});
  CHECK(solved.cost == 24);
  CHECK(solved.flow == std::vector<std::int32_t>{4, 1, 4, 1});
}

TEST_CASE("bounds that no flow keeps are told, and do not spoil what is asked next") {
  MinCostFlow flows{2, {{0, 1}, {1, 0}}};
  CHECK_FALSE(flows.solve({2, 0}, {2, 1}, {0, 0}));
  REQUIRE(flows.solve({1, 0}, {2, 1}, {5, 2}));
  CHECK(flows.flow() == std::vector<std::int32_t>{1, 1});
}
