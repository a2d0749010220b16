#include "examine/colour.hpp"

#include <cmath>
#include <numbers>

namespace coeval {
namespace {

constexpr double degrees = std::numbers::pi / 180;

double power7(double x) {
  const double x2 = x * x;
  return x2 * x2 * x2 * x;
}

// The hue angle in degrees, from 0 to below 360; 0 for a grey, which has none.
double hue(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double angle = std::atan2(b, a) / degrees;
  return angle < 0 ? angle + 360 : angle;
}

} // namespace

double ciede2000(const Lab& one, const Lab& other) {
  // Chroma and hue, with a* stretched near the neutral axis (equations 2 to 7).
  const double mean_chroma = (std::hypot(one.a, one.b) + std::hypot(other.a, other.b)) / 2;
  const double c7 = power7(mean_chroma);
  const double stretch = 1.5 - 0.5 * std::sqrt(c7 / (c7 + power7(25)));
  const double c1 = std::hypot(one.a * stretch, one.b);
  const double c2 = std::hypot(other.a * stretch, other.b);
  const double h1 = hue(one.a * stretch, one.b);
  const double h2 = hue(other.a * stretch, other.b);

  // Differences (8 to 11). Of a grey the hue means nothing, and its difference is 0.
  const bool grey = c1 * c2 == 0;
  double dh = grey ? 0 : h2 - h1;
  if (dh > 180) dh -= 360;
  if (dh < -180) dh += 360;
  const double delta_l = other.lightness - one.lightness;
  const double delta_c = c2 - c1;
  const double delta_h = 2 * std::sqrt(c1 * c2) * std::sin(dh / 2 * degrees);

  // Means (12 to 14); that of two hues is taken on the shorter way round.
  const double l = (one.lightness + other.lightness) / 2;
  const double c = (c1 + c2) / 2;
  double h = h1 + h2;
  if (!grey) {
    if (std::abs(h1 - h2) > 180) h += h < 360 ? 360 : -360;
    h /= 2;
  }

  // Weights (15 to 21) and their sum (22).
  const double t = 1 - 0.17 * std::cos((h - 30) * degrees) + 0.24 * std::cos(2 * h * degrees) +
                   0.32 * std::cos((3 * h + 6) * degrees) - 0.20 * std::cos((4 * h - 63) * degrees);
  const double turn = 30 * std::exp(-((h - 275) / 25) * ((h - 275) / 25));
  const double rc = 2 * std::sqrt(power7(c) / (power7(c) + power7(25)));
  const double l50 = (l - 50) * (l - 50);
  const double sl = 1 + 0.015 * l50 / std::sqrt(20 + l50);
  const double sc = 1 + 0.045 * c;
  const double sh = 1 + 0.015 * c * t;
  const double rt = -std::sin(2 * turn * degrees) * rc;
  const double x = delta_l / sl;
  const double y = delta_c / sc;
  const double z = delta_h / sh;
  return std::sqrt(x * x + y * y + z * z + rt * y * z);
}

} // namespace coeval
