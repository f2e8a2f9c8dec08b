#include "physics/path/turn_axis.hpp"

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"

namespace tillerline {
namespace {

using namespace elementary;

double unsteered_axis_m(const Aircraft& aircraft) {
  const double behind_m = aircraft.body_gear_behind_m;
  return aircraft.turn_axis_ahead_m - behind_m * behind_m / aircraft.wheelbase_m;
}

// h: how far the axis moves per tangent of the body gear's angle and radius.
double body_gear_leverage(const Aircraft& aircraft) {
  return 0.5 * (1.0 + aircraft.body_gear_behind_m / aircraft.wheelbase_m);
}

}  // namespace

double turn_axis_at_steering_m(const Aircraft& aircraft, double steering_rad) {
  const double share = aircraft.body_gear_steer_share;
  const double angles =
      steering_rad == 0.0 ? share : tangent(share * steering_rad) / tangent(steering_rad);
  const double pull = body_gear_leverage(aircraft) * angles;
  return (unsteered_axis_m(aircraft) + pull * aircraft.wheelbase_m) / (1.0 + pull);
}

double turning_radius_m(const Aircraft& aircraft, double steering_rad) {
  return (aircraft.wheelbase_m - turn_axis_at_steering_m(aircraft, steering_rad)) /
         tangent(steering_rad);
}

double steering_for_radius_rad(const Aircraft& aircraft, double radius_m) {
  const double length_m = aircraft.wheelbase_m - unsteered_axis_m(aircraft);
  const double without_body_gear_rad = arctangent(length_m / radius_m);
  const double share = aircraft.body_gear_steer_share;
  if (share == 0.0) return without_body_gear_rad;
  const double leverage = body_gear_leverage(aircraft);
  return find_zero(0.0, without_body_gear_rad, [&](double steering_rad) {
    return radius_m * (tangent(steering_rad) + leverage * tangent(share * steering_rad)) - length_m;
  });
}

double turn_axis_at_radius_m(const Aircraft& aircraft, double radius_m) {
  return turn_axis_at_steering_m(aircraft, steering_for_radius_rad(aircraft, radius_m));
}

}  // namespace tillerline
