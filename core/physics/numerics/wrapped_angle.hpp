// One angle for all that differ by whole turns: the one above -180 and up to 180 degrees.
#pragma once

#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {

inline double wrapped_rad(double angle_rad) {
  while (angle_rad > units::kPi) angle_rad -= 2.0 * units::kPi;
  while (angle_rad <= -units::kPi) angle_rad += 2.0 * units::kPi;
  return angle_rad;
}

// The angle whose half has this sine and cosine, up to a common factor. The mirrored sine gives the
// mirrored angle, at half a turn too.
inline double angle_of_half_rad(double sine, double cosine) {
  const double angle_rad = 2.0 * elementary::arctangent2(sine, cosine);
  return std::copysign(1.0, angle_rad) * wrapped_rad(std::abs(angle_rad));
}

}  // namespace tillerline
