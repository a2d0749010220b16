// swap/min_cost_flow.hpp: what is the cheapest way round for what flows in a network?
// Circulations in whole numbers: what flows into a node flows out of it. Plain types, because LEMON 1.3.1 uses members
// of std::allocator that C++20 removed: the one file that includes it is C++17.
//
// Why LEMON's network simplex: on the networks of shelves (10,000 parts, release build) it took half the time of its
// cost scaling and an eightieth of its capacity scaling; its weighted matching is faster on one giant network of single
// parts and slots, but knows no capacities, and a hub of alike parts would be 10^8 edges. Boost's successive shortest
// paths took more than a minute.
#pragma once

#include <cstdint>
#include <memory>
#include <vector>

namespace coeval {

struct FlowArc {
  std::uint32_t from = 0;
  std::uint32_t to = 0;
};

class MinCostFlow {
public:
  MinCostFlow(std::uint32_t nodes, const std::vector<FlowArc>& arcs);
  ~MinCostFlow();
  MinCostFlow(const MinCostFlow&) = delete;
  MinCostFlow& operator=(const MinCostFlow&) = delete;

  // By arc: 0 <= lower <= upper; the greatest |cost| times (nodes + 2) stays below 2^62. False: no flow keeps the
  // bounds.
  bool solve(const std::vector<std::int32_t>& lower, const std::vector<std::int32_t>& upper,
             const std::vector<std::int64_t>& cost);

  // Of the last solve that was true.
  const std::vector<std::int32_t>& flow() const { return flow_; }
  // cost + potential(from) - potential(to): above zero only on arcs at their lower bound, below only at their upper.
  const std::vector<std::int64_t>& potential() const { return potential_; }

private:
  struct Lemon;
  std::unique_ptr<Lemon> lemon_;
  std::vector<std::int32_t> flow_;
  std::vector<std::int64_t> potential_;
};

} // namespace coeval
