#include "physics/path/half_turn.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"
#include "physics/path/track.hpp"

namespace tillerline {
namespace {

// Furthest to either side, from the turn's centre, of a point beside the body's middle.
struct Sweep {
  double near_m;
  double far_m;
};

Sweep sweep(double ahead_of_axis_m, double outward_m) {
  const double radius_m = elementary::hypotenuse(outward_m, ahead_of_axis_m);
  if (ahead_of_axis_m < 0.0) return {radius_m, outward_m};
  return {outward_m, radius_m};
}

}  // namespace

HalfTurn half_turn(const Aircraft& aircraft, const Limits& limits, double width_m) {
  const TightestTurn turn = tightest_turn(aircraft, aircraft.steering_limit_rad);
  const double nose_m = turn.nose_gear_m + 0.5 * aircraft.nose_wheel_span_m;
  const double wheel_m = turn.outer_main_wheel_m;
  const double wheel_and_clearance_m = wheel_m + limits.edge_clearance_m;
  HalfTurn half;
  half.wanted = width_m > 0.0;
  half.steering_rad = aircraft.steering_limit_rad;
  half.gear_radius_m = turn.turn_radius_m;
  half.nose_radius_m = turn.nose_gear_m;
  half.wing_tip_radius_m = turn.wing_tip_m;
  half.tail_radius_m = turn.tail_m;
  half.nose_tip_radius_m = turn.nose_tip_m;
  half.bare_m = wheel_m + std::max(nose_m, wheel_m);
  half.needed_m =
      wheel_and_clearance_m + std::max(nose_m + limits.nose_clearance_m, wheel_and_clearance_m);
  if (!half.wanted) return half;
  half.width_m = width_m;
  half.spare_m = width_m - half.needed_m;
  half.possible = half.spare_m >= 0.0;
  half.gear_from_edge_m = limits.edge_clearance_m;
  const auto beyond_edge_m = [&](double behind_m, double half_span_m) {
    const Sweep swept = sweep(-behind_m - turn.turn_axis_ahead_m, turn.turn_radius_m + half_span_m);
    return std::max(swept.near_m - wheel_and_clearance_m,
                    swept.far_m - (width_m - wheel_and_clearance_m));
  };
  half.wing_beyond_edge_m = beyond_edge_m(aircraft.wing_tip_behind_m, 0.5 * aircraft.wing_span_m);
  half.tail_beyond_edge_m = beyond_edge_m(aircraft.tail_behind_m, 0.5 * aircraft.tailplane_span_m);
  return half;
}

}  // namespace tillerline
