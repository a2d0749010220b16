// LEMON's maximum weighted matching behind plain types, because LEMON's headers need an older C++ than ours.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace lemon_matching {

struct Edge {
  int one = 0;
  int other = 0;
  std::int64_t weight = 0;
};

// Which edges are in a matching of the greatest weight.
std::vector<std::size_t> heaviest_matching(int nodes, const std::vector<Edge>& edges);

} // namespace lemon_matching
