#include "constraints/graph.hpp"

#include <utility>

#include "constraints/stop.hpp"

namespace coeval {

ConstraintGraph::ConstraintGraph(std::uint32_t points, std::vector<Constraint> constraints)
    : points_(points), constraints_(std::move(constraints)) {
  constexpr std::uint64_t greatest_sum = std::uint64_t{1} << 56U;
  if (points_ == 0) stop("a constraint graph needs its origin");
  std::uint64_t sum = 0;
  for (const Constraint& constraint : constraints_) {
    if (static_cast<std::uint32_t>(constraint.x) >= points_ || static_cast<std::uint32_t>(constraint.y) >= points_)
      stop("a constraint names a point that is not in the graph");
    const auto most = static_cast<std::uint64_t>(constraint.most);
    const std::uint64_t length = constraint.most < 0 ? 0 - most : most;
    if (length > greatest_sum - sum) stop("the lengths of the constraints are too great to be added up safely");
    sum += length;
  }
}

} // namespace coeval
