#include "physics/path/crossing.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "physics/numerics/elementary.hpp"
#include "physics/path/turn_axis.hpp"

namespace tillerline {

using namespace elementary;

double way_to_crossing_m(double radius_m, double turn_rad) {
  if (turn_rad > kLargestThatCrosses_rad) return std::numeric_limits<double>::quiet_NaN();
  return radius_m * tangent(0.5 * turn_rad);
}

double crossing_excursion_m(double radius_m, double turn_rad, double ahead_m) {
  const double point_radius_m = hypotenuse(radius_m, ahead_m);
  if (turn_rad >= arctangent2(ahead_m, radius_m))
    return ahead_m * ahead_m / (point_radius_m + radius_m);  // without a difference of radii
  const double half_sine = sine(0.5 * turn_rad);
  return ahead_m * sine(turn_rad) - radius_m * 2.0 * half_sine * half_sine;
}

double radius_for_excursion_m(double excursion_m, double turn_rad, double ahead_m) {
  const double steady_m = (ahead_m * ahead_m - excursion_m * excursion_m) / (2.0 * excursion_m);
  if (turn_rad >= arctangent2(ahead_m, steady_m)) return std::max(0.0, steady_m);
  const double half_sine = sine(0.5 * turn_rad);
  const double brief_m = (ahead_m * sine(turn_rad) - excursion_m) / (2.0 * half_sine * half_sine);
  return std::max(0.0, brief_m);
}

double equal_split_m(double radius_m, double wheelbase_m) {
  return wheelbase_m * wheelbase_m / (4.0 * radius_m);
}

CrossingTurn crossing_turn(const Aircraft& aircraft, double turn_rad, double half_width_m,
                           double nose_clearance_m, double painted_radius_m) {
  const double tightest_m = turning_radius_m(aircraft, aircraft.steering_limit_rad);
  CrossingTurn turn;
  turn.allowed_excursion_m = half_width_m - 0.5 * aircraft.nose_wheel_span_m - nose_clearance_m;
  turn.nose_on_pavement = turn.allowed_excursion_m > 0.0;
  turn.radius_m = painted_radius_m;
  if (turn.nose_on_pavement) {
    // The axis moves a little with the radius; the two settle long before the last round.
    for (int round = 0; round < 20; ++round) {
      const double nose_m = aircraft.wheelbase_m - turn_axis_at_radius_m(aircraft, turn.radius_m);
      turn.radius_m =
          std::max(tightest_m, radius_for_excursion_m(turn.allowed_excursion_m, turn_rad, nose_m));
    }
  }
  const double axis_m = turn_axis_at_radius_m(aircraft, turn.radius_m);
  const double nose_m = aircraft.wheelbase_m - axis_m;
  const double eye_m = aircraft.eye_ahead_m - axis_m;
  turn.steering_rad = steering_for_radius_rad(aircraft, turn.radius_m);
  turn.possible = turn.radius_m >= tightest_m;
  turn.gear_before_crossing_m = way_to_crossing_m(turn.radius_m, turn_rad);
  turn.nose_past_crossing_m = nose_m - turn.gear_before_crossing_m;
  turn.eye_past_crossing_m = eye_m - turn.gear_before_crossing_m;
  turn.nose_excursion_m = crossing_excursion_m(turn.radius_m, turn_rad, nose_m);
  turn.eye_excursion_m = crossing_excursion_m(turn.radius_m, turn_rad, eye_m);
  turn.equal_split_m = equal_split_m(turn.radius_m, nose_m);
  return turn;
}

}  // namespace tillerline
