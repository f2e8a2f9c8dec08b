#include "physics/path/track.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/plan_motion.hpp"
#include "physics/path/turn_axis.hpp"

namespace tillerline {

using namespace elementary;

double largest_off_tracking_m(double radius_m, double turn_rad, double length_m) {
  const double end_lag = lag_after_m(0.0, length_m, 1.0 / radius_m, radius_m * turn_rad);
  const auto lag_at = [&](double x_m) { return lag_after_m(end_lag, length_m, 0.0, x_m); };
  // Main-gear axis abeam the arc's end when this vanishes (derivation in tests/physics/track.cpp).
  const auto abeam = [&](double x_m) {
    const double lag = lag_at(x_m);
    return x_m * cosine(lag) + radius_m * sine(lag) - length_m;
  };
  // One length past the arc's end it is behind that (tan(lag/2) < R/L there); at the end it is
  // abeam already after a turn so long that nothing changes any more.
  const double x = abeam(0.0) >= 0.0 ? 0.0 : find_zero(0.0, length_m, abeam);
  const double lag = lag_at(x);
  const double centre_m = hypotenuse(x - length_m * cosine(lag), radius_m - length_m * sine(lag));
  return (2.0 * radius_m * length_m * sine(lag) + 2.0 * x * length_m * cosine(lag) -
          length_m * length_m - x * x) /
         (radius_m + centre_m);
}

TightestTurn tightest_turn(const Aircraft& aircraft, double steering_rad) {
  const double axis_m = turn_axis_at_steering_m(aircraft, steering_rad);
  const double r = turning_radius_m(aircraft, steering_rad);
  const auto radius_of = [&](double ahead_m, double outward_m) {
    return hypotenuse(r + outward_m, ahead_m - axis_m);
  };
  const double half_span = 0.5 * aircraft.wheel_span_m;
  const double inner_m = radius_of(0.0, -half_span);
  TightestTurn tightest;
  tightest.turn_axis_ahead_m = axis_m;
  tightest.turn_radius_m = r;
  tightest.gear_axis_m = radius_of(0.0, 0.0);
  tightest.outer_main_wheel_m = radius_of(0.0, half_span);
  tightest.inner_main_wheel_m = r < half_span ? -inner_m : inner_m;
  tightest.nose_gear_m = (aircraft.wheelbase_m - axis_m) / sine(steering_rad);
  tightest.nose_tip_m = radius_of(aircraft.nose_tip_ahead_m, 0.0);
  tightest.wing_tip_m = radius_of(-aircraft.wing_tip_behind_m, 0.5 * aircraft.wing_span_m);
  tightest.tail_m = radius_of(-aircraft.tail_behind_m, 0.5 * aircraft.tailplane_span_m);
  tightest.half_circle_width_m =
      tightest.nose_gear_m + 0.5 * aircraft.nose_wheel_span_m + tightest.outer_main_wheel_m;
  return tightest;
}

}  // namespace tillerline
