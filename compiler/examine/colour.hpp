// examine/colour.hpp: how different do two colours look?
#pragma once

namespace coeval {

// CIELAB, D65 and the 2 degree observer.
struct Lab {
  double lightness = 0;
  double a = 0;
  double b = 0;
  friend bool operator==(const Lab&, const Lab&) = default;
};

// The CIEDE2000 difference with kL = kC = kH = 1. Symmetric, 0 for equal colours, not a metric: the way round by a
// third colour can be shorter. It jumps where two hues lie opposite each other. G. Sharma, W. Wu, E. N. Dalal, "The
// CIEDE2000 color-difference formula: implementation notes, supplementary test data, and mathematical observations",
// Color Research & Application 30 (2005) 21-30, equations 2 to 22.
[[nodiscard]] double ciede2000(const Lab& one, const Lab& other);

// Two colours whose lightness differs by more than this times a difference are further apart than that difference:
// the weight of lightness, S_L, is at most 1 + 0.015 * 50² / sqrt(20 + 50²), and the other terms add to it.
inline constexpr double most_lightness_per_difference = 1.75;

} // namespace coeval
