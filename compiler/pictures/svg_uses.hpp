// pictures/svg_uses.hpp: how many elements does an SVG draw, with all that its `use` elements draw again?
//
// Private to this room. Ten elements that each use the one before ten times make a browser draw ten thousand million.
#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace coeval {

class SvgUses {
public:
  // Elements in the order of the text; both are empty for none. `target`: the id that a `use` draws.
  void open(std::string_view id, std::string_view target);
  void close();

  // No more than `most` elements are drawn, and none is drawn within itself.
  [[nodiscard]] bool drawn_at_most(std::size_t most) const;

private:
  struct Element {
    std::string target;
    std::vector<std::size_t> inside;
  };
  std::vector<Element> elements_;
  std::vector<std::size_t> open_;
  std::map<std::string, std::size_t, std::less<>> by_id_; // the first of each id
};

} // namespace coeval
