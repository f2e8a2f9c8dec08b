#include "physics/path/fillet.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"
#include "physics/path/track.hpp"

namespace tillerline {

using namespace elementary;

Fillet handbook_fillet(const FilletInputs& in) {
  constexpr double kNever_m = 1e9;
  const double r = in.radius_m;
  const double d = in.eye_ahead_m;
  Fillet fillet;
  fillet.lag_rad = lag_after_m(0.0, d, 1.0 / r, r * in.turn_rad);
  fillet.steering_rad = nose_wheel_angle_rad(fillet.lag_rad, d, in.wheelbase_m);
  const double gear_radius_m =
      square_root(std::max(0.0, r * r + d * d - 2.0 * r * d * sine(fillet.lag_rad)));
  fillet.radius_m = gear_radius_m - 0.5 * in.wheel_span_m - in.margin_m;
  fillet.widening_m = std::max(0.0, r - 0.5 * in.width_m - fillet.radius_m);
  const double left_over_m = in.width_m - in.wheel_span_m - 2.0 * in.margin_m;
  fillet.lead_in_m = kNever_m;
  if (left_over_m > 0.0) {
    const double decays = 4.0 * d * tangent(0.5 * fillet.lag_rad) / left_over_m;
    fillet.lead_in_m = std::max(0.0, d * natural_log(decays) - d);
  }
  return fillet;
}

}  // namespace tillerline
