#include "physics/given/limits.hpp"

#include <cmath>

namespace tillerline {

double operator_turn_limit_mps(const Limits& limits, double turn_rad) {
  const bool sharp = std::abs(turn_rad) >= limits.sharp_turn_rad - 1e-9;
  return sharp ? limits.sharp_turn_speed_mps : limits.gentle_turn_speed_mps;
}

}  // namespace tillerline
