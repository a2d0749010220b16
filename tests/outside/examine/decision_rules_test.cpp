// Do guarded decisions agree with published rules and figures?
//
// ILAC-G8:09/2019 clause 4.2.3, figure 5 (read in the document): with an upper limit TL and a guard band w as wide as
// the expanded uncertainty U, a result below TL - w passes, one above TL + w fails, and between the two it is
// "conditional": neither is shown. JCGM 106:2012 calls the two ends guarded acceptance and guarded rejection; its text
// was not at hand. A result on a limit itself: the documents that were read leave it open; here the limits belong to
// the tolerance.
#include <catch2/catch.hpp>

#include <array>
#include <cmath>

#include "examine/measure.hpp"

using namespace coeval;

namespace {

// The probability that a value measured as x, with a normal error of standard uncertainty u, lies within the tolerance.
double conforming(double x, double u, Interval tolerance) {
  const auto below = [&](double limit) { return 0.5 * std::erfc((x - limit) / (u * std::sqrt(2.0))); };
  return below(tolerance.high) - below(tolerance.low);
}

} // namespace

TEST_CASE("the zones of a tolerance of 9.95 to 10.05 measured to 0.04") {
  // The probabilities of conformity were computed outside, for u = U / 2; the decisions follow from the clause.
  struct Row {
    double measured;
    Fit fit;
    double probability;
  };
  constexpr std::array<Row, 18> rows{{{9.90, Fit::outside, 0.0062},
                                      {9.92, Fit::undecided, 0.0668},
                                      {9.93, Fit::undecided, 0.1587},
                                      {9.94, Fit::undecided, 0.3085},
                                      {9.95, Fit::undecided, 0.5000},
                                      {9.96, Fit::undecided, 0.6915},
                                      {9.98, Fit::undecided, 0.9330},
                                      {9.99, Fit::inside, 0.9759},
                                      {10.00, Fit::inside, 0.9876},
                                      {10.01, Fit::inside, 0.9759},
                                      {10.02, Fit::undecided, 0.9330},
                                      {10.03, Fit::undecided, 0.8413},
                                      {10.05, Fit::undecided, 0.5000},
                                      {10.06, Fit::undecided, 0.3085},
                                      {10.08, Fit::undecided, 0.0668},
                                      {10.09, Fit::undecided, 0.0228},
                                      {10.10, Fit::outside, 0.0062},
                                      {10.12, Fit::outside, 0.0002}}};
  const Interval tolerance{9.95, 10.05};
  for (const Row& row : rows) {
    INFO("measured " << row.measured);
    CHECK(guarded(around(row.measured, 0.04), tolerance) == row.fit);
    const double probability = conforming(row.measured, 0.02, tolerance);
    CHECK(probability == Approx(row.probability).margin(5e-5));
    // What is decided is decided with at least 97.5 in 100, what is not decided could be wrong more often than that.
    if (row.fit == Fit::inside) CHECK(probability > 0.975);
    if (row.fit == Fit::outside) CHECK(probability < 0.025);
  }
}

TEST_CASE("a micrometer with a permissible error of 3 micrometres, measured to 1") {
  // talalspecialbolt.com, "ILAC-G8 Decision Rule and Guard Banding" (a vendor's page): +0.0017 mm is conforming, as
  // 0.0027 is within 0.0030; +0.0025 mm is in the grey zone, as 0.0035 is not. That page then decides against the part,
  // because its rule has two answers; here it stays undecided.
  const Interval permissible{-0.003, 0.003};
  CHECK(guarded(around(0.0017, 0.001), permissible) == Fit::inside);
  CHECK(guarded(around(0.0025, 0.001), permissible) == Fit::undecided);
}

TEST_CASE("with no uncertainty, acceptance is simple") { // ILAC-G8:09/2019 clause 4.2.1: w = 0
  const Interval tolerance{9.95, 10.05};
  CHECK(guarded(around(9.95, 0), tolerance) == Fit::inside);
  CHECK(guarded(around(10.05, 0), tolerance) == Fit::inside);
  CHECK(guarded(around(10.051, 0), tolerance) == Fit::outside);
  CHECK(guarded(around(9.949, 0), tolerance) == Fit::outside);
}
