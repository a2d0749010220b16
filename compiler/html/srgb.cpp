// A CIELAB colour on a screen.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "html/render.hpp"

namespace coeval {
namespace {

// ISO/CIE 11664-4: the inverse of the cube root with its linear foot.
double inverse(double t) { return t > 6.0 / 29 ? t * t * t : 3 * (6.0 / 29) * (6.0 / 29) * (t - 4.0 / 29); }

// IEC 61966-2-1.
int encoded(double linear) {
  const double value = linear <= 0.0031308 ? 12.92 * linear : 1.055 * std::pow(linear, 1 / 2.4) - 0.055;
  return static_cast<int>(std::lround(std::clamp(value, 0.0, 1.0) * 255));
}

} // namespace

std::string srgb_of(const std::array<double, 3>& lab) {
  for (const double value : lab)
    if (!std::isfinite(value)) return "#000000";
  // The white of D65 for the 2 degree observer, as IEC 61966-2-1 has it.
  const double f = (lab[0] + 16) / 116;
  const double x = 0.95047 * inverse(f + lab[1] / 500);
  const double y = inverse(f);
  const double z = 1.08883 * inverse(f - lab[2] / 200);
  return fmt::format("#{:02x}{:02x}{:02x}", encoded(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
                     encoded(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
                     encoded(0.0556434 * x - 0.2040259 * y + 1.0572252 * z));
}

} // namespace coeval
