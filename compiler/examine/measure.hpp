// examine/measure.hpp: does a measured value decide whether a part keeps to a tolerance?
//
// A measurement decides only where its uncertainty leaves no doubt: this is guarded acceptance and guarded rejection
// with a guard band as wide as the uncertainty (JCGM 106:2012, ILAC-G8:09/2019 clause 4.2.3 with w = U). Between the
// two it decides nothing, and nothing may be concluded from it.
#pragma once

#include <cstdint>

namespace coeval {

// From low to high, both included.
struct Interval {
  double low = 0;
  double high = 0;
  friend bool operator==(const Interval&, const Interval&) = default;
};

enum class Fit : std::uint8_t {
  inside,    // every value that the measurement allows keeps to the tolerance
  outside,   // none does
  undecided, // some do
};

[[nodiscard]] Interval around(double value, double plus_or_minus);

// The limits belong to the tolerance. Decimals that are equal as written count as equal, whatever binary makes of them.
[[nodiscard]] Fit guarded(Interval measured, Interval tolerated);
// The same for a colour difference: known as `difference` give or take `uncertainty`, tolerated up to `limit`.
[[nodiscard]] Fit guarded_difference(double difference, double uncertainty, double limit);
// No value lies in both.
[[nodiscard]] bool apart(Interval one, Interval other);

} // namespace coeval
