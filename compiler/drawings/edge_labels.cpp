#include "drawings/edge_labels.hpp"

#include <algorithm>
#include <cmath>

namespace coeval {
namespace {

constexpr double cell_size = 48;

int cell_of(double at) { return static_cast<int>(std::floor(at / cell_size)); }

} // namespace

template <class Visit> void TakenRoom::for_cells(const Box& box, const Visit& visit) {
  for (int x = cell_of(box.left); x <= cell_of(box.right); ++x)
    for (int y = cell_of(box.top); y <= cell_of(box.bottom); ++y) visit(std::pair{x, y});
}

void TakenRoom::take(double left, double top, double right, double bottom) {
  const Box box{left, top, right, bottom};
  for_cells(box, [&](const std::pair<int, int>& cell) { cells_[cell].push_back(box); });
}

bool TakenRoom::is_free(double left, double top, double right, double bottom) const {
  const Box box{left, top, right, bottom};
  bool free = true;
  for_cells(box, [&](const std::pair<int, int>& cell) {
    const auto found = cells_.find(cell);
    if (!free || found == cells_.end()) return;
    free = std::ranges::none_of(found->second, [&](const Box& other) {
      return other.left < right && left < other.right && other.top < bottom && top < other.bottom;
    });
  });
  return free;
}

} // namespace coeval
