#include "examine/measure.hpp"

#include <algorithm>
#include <cmath>

namespace coeval {
namespace {

// Far below what any tool reads, far above what binary arithmetic does to decimals.
bool above(double one, double other) { return one - other > 1e-9 * std::max({1.0, std::abs(one), std::abs(other)}); }

} // namespace

Interval around(double value, double plus_or_minus) { return {value - plus_or_minus, value + plus_or_minus}; }

Fit guarded(Interval measured, Interval tolerated) {
  if (apart(measured, tolerated)) return Fit::outside;
  return above(tolerated.low, measured.low) || above(measured.high, tolerated.high) ? Fit::undecided : Fit::inside;
}

Fit guarded_difference(double difference, double uncertainty, double limit) {
  return guarded({std::max(0.0, difference - uncertainty), difference + uncertainty}, {0, limit});
}

bool apart(Interval one, Interval other) { return above(one.low, other.high) || above(other.low, one.high); }

} // namespace coeval
