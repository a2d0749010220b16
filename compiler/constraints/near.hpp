// constraints/near.hpp: what is bound more tightly to a point than by way of the origin, on every level at once?
//
// Most points have nothing of the kind, which a look at their edges tells for all levels: an edge that is no shorter
// than the way through the origin on its own level is no shorter on weaker ones either, for there that way can only be
// shorter. For the verdicts of all pairs this takes half of the time that a search for each level took.
#pragma once

#include <cstdint>
#include <memory>
#include <span>
#include <utility>
#include <vector>

#include <boost/unordered/unordered_flat_map.hpp>

#include "constraints/entail.hpp"

namespace coeval {

// What Entailment::nearer_from and nearer_to give, but for the point itself, and on the stronger levels too. Made once
// and asked often, each time by one thread: a search takes its memory from the one before.
class NearSearch {
public:
  // Shares what the entailment answers from.
  explicit NearSearch(const Entailment& weakest);

  struct Found {
    Point point{};
    int level = 0;
    std::int64_t most = 0;
  };
  // Strongest level first, and there the nearest. Both stay until the next search.
  [[nodiscard]] std::span<const Found> from(Point point) { return on_levels(point, true, 0); }
  [[nodiscard]] std::span<const Found> to(Point point) { return on_levels(point, false, 0); }

private:
  friend class Entailment; // asks on its own level only
  std::span<const Found> on_levels(Point point, bool along, int strongest);
  void search(std::uint32_t start, bool along, int level);

  using Place = std::pair<std::int64_t, std::uint32_t>; // how far away, and a point

  std::shared_ptr<const SolvedGraph> solved_;
  int weakest_;
  std::vector<Found> found_;
  boost::unordered_flat_map<std::uint32_t, std::int64_t> distance_; // empty between two searches
  std::vector<Place> queue_;                                        // a heap, the nearest first
};

} // namespace coeval
