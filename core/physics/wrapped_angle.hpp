// One angle for all that differ by whole turns: the one above -180 and up to 180 degrees.
#pragma once

#include "physics/units.hpp"

namespace tillerline {

inline double wrapped_rad(double angle_rad) {
  while (angle_rad > units::kPi) angle_rad -= 2.0 * units::kPi;
  while (angle_rad <= -units::kPi) angle_rad += 2.0 * units::kPi;
  return angle_rad;
}

}  // namespace tillerline
