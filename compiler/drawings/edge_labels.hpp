// drawings/edge_labels.hpp: where is there room for the label of an edge?
//
// Private to this room.
#pragma once

#include <map>
#include <utility>
#include <vector>

namespace coeval {

// Boxes that are taken. Each question and each box costs the cells that the box covers, however many boxes there are.
class TakenRoom {
public:
  void take(double left, double top, double right, double bottom);
  [[nodiscard]] bool is_free(double left, double top, double right, double bottom) const;

private:
  struct Box {
    double left, top, right, bottom;
  };
  template <class Visit> static void for_cells(const Box& box, const Visit& visit);

  std::map<std::pair<int, int>, std::vector<Box>> cells_;
};

} // namespace coeval
