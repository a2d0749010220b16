// LEMON's Bellman-Ford behind plain types, because LEMON's headers need an older C++ than ours.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

namespace lemon_bellman_ford {

struct Arc {
  int from = 0;
  int to = 0;
  std::int64_t length = 0;
};

// Shortest lengths from one point, nothing where there is no path. The outer value is missing where a negative cycle
// can be reached from that point.
using Row = std::vector<std::optional<std::int64_t>>;
std::optional<Row> distances_from(int start, int points, const std::vector<Arc>& arcs);

// Is there a negative cycle anywhere?
bool has_negative_cycle(int points, const std::vector<Arc>& arcs);

} // namespace lemon_bellman_ford
