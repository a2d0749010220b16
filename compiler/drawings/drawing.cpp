#include "drawings/drawing.hpp"

#include <array>

namespace coeval {

std::string_view name(Style style) {
  static constexpr std::array<std::string_view, style_count> names{
      "background",    "band",           "band-other",    "axis",     "tick",        "certain",     "possible",
      "certain-other", "possible-other", "uncertain-end", "open-end", "highlight",   "node",        "node-other",
      "edge",          "edge-possible",  "arrow-head",    "label",    "label-small", "label-strong"};
  return names[static_cast<std::size_t>(style)];
}

} // namespace coeval
