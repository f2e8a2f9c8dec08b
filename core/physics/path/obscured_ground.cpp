#include "physics/path/obscured_ground.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"

namespace tillerline {

double obscured_ahead_m(double eye_height_m, double view_cutoff_rad, double target_height_m) {
  return std::max(0.0, eye_height_m - target_height_m) / elementary::tangent(view_cutoff_rad);
}

}  // namespace tillerline
