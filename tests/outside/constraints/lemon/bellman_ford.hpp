// LEMON's Bellman-Ford behind plain types, because LEMON's headers need an older C++ than ours.
#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

namespace lemon_bellman_ford {

struct Arc {
  int from = 0;
  int to = 0;
  std::int64_t length = 0;
};

// Shortest lengths from one point, nothing where there is no path.
using Row = std::vector<std::optional<std::int64_t>>;

class Digraph {
public:
  Digraph(int points, const std::vector<Arc>& arcs);
  ~Digraph();
  Digraph(const Digraph&) = delete;
  Digraph& operator=(const Digraph&) = delete;

  // Missing where a negative cycle can be reached from that point.
  [[nodiscard]] std::optional<Row> distances_from(int start) const;
  // Is there a negative cycle anywhere?
  [[nodiscard]] bool has_negative_cycle() const;

private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

} // namespace lemon_bellman_ford
