#include "physics/path/gear_on_line.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/path/crossing.hpp"
#include "physics/path/steering_ramp.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// What the nose wheels do in the parts of a ramped turn.
enum RampedPart : std::size_t { kBefore, kEntryRamp, kSteady, kExitRamp, kAfter };

}  // namespace

GearOnLineTurn gear_on_line_turn(double radius_m, double turn_rad, double wheelbase_m,
                                 double eye_ahead_m, double steering_limit_rad,
                                 double steering_rate_radps, double nose_speed_mps) {
  GearOnLineTurn turn;
  const double half_tangent = tangent(0.5 * turn_rad);
  turn.steering_rad = arctangent(wheelbase_m / radius_m);
  turn.full_deflection = true;
  const bool ramped = steering_rate_radps > 0.0 && nose_speed_mps > 0.0;
  double begin_to_crossing_m = radius_m * half_tangent;
  if (ramped) {
    const double per_metre = steering_rate_radps / nose_speed_mps;
    SteeringRamp ramp = steering_ramp(0.0, turn.steering_rad, per_metre, wheelbase_m);
    if (2.0 * ramp.heading_rad > turn_rad) {
      // The turn is over before full deflection: two ramps make it.
      turn.full_deflection = false;
      turn.steering_rad = 2.0 * arcsine(square_root(0.25 * per_metre * wheelbase_m * turn_rad));
      ramp = steering_ramp(0.0, turn.steering_rad, per_metre, wheelbase_m);
      begin_to_crossing_m = ramp.axis.x_m + ramp.axis.y_m * half_tangent;
    } else {
      turn.shift_m = ramp.axis.y_m - radius_m * (1.0 - cosine(ramp.heading_rad));
      begin_to_crossing_m = ramp.axis.x_m - radius_m * sine(ramp.heading_rad) +
                            (radius_m + turn.shift_m) * half_tangent;
    }
    turn.ramp_heading_rad = ramp.heading_rad;
    turn.ramp_nose_m = turn.steering_rad / per_metre;
    turn.ramp_end = ramp.axis;
  }
  const double nose_radius_m = hypotenuse(radius_m, wheelbase_m);
  const double steady_rad = std::max(0.0, turn_rad - 2.0 * turn.ramp_heading_rad);
  turn.nose_path_m =
      2.0 * turn.ramp_nose_m + (turn.full_deflection ? nose_radius_m * steady_rad : 0.0);
  turn.possible = turn.steering_rad <= steering_limit_rad;
  turn.start_before_arc_m = begin_to_crossing_m - radius_m * half_tangent;
  if (turn_rad > kLargestThatCrosses_rad)  // what was good for a difference is no place to name
    begin_to_crossing_m = way_to_crossing_m(radius_m, turn_rad);
  turn.eye_past_crossing_m = eye_ahead_m - begin_to_crossing_m;
  turn.nose_past_crossing_m = wheelbase_m - begin_to_crossing_m;
  turn.eye_past_arc_begin_m = eye_ahead_m - turn.start_before_arc_m;
  const RampedMotion motion{turn, radius_m, turn_rad, wheelbase_m, 1.0};
  const MotionPhases phases = phases_of_ramps(turn, 0.0, 0.0);
  const auto sweep = plan_sweep(motion, phases);
  const LinePoint outbound{{radius_m * sine(turn_rad), radius_m * (1.0 - cosine(turn_rad))},
                           turn_rad};
  turn.nose_overshoot_m = sweep.furthest_past_m(outbound, 1.0, {.ahead_m = wheelbase_m});
  turn.eye_overshoot_m = sweep.furthest_past_m(outbound, 1.0, {.ahead_m = eye_ahead_m});
  return turn;
}

Pose gear_on_line_pose(const GearOnLineTurn& turn, double radius_m, double turn_rad,
                       double wheelbase_m, double nose_m) {
  const double begin_x = -turn.start_before_arc_m;
  const auto ramp_pose = [&](double along_m) {  // relative to the manoeuvre's begin
    const double per_metre = turn.steering_rad / turn.ramp_nose_m;
    const SteeringRamp ramp = steering_ramp(0.0, per_metre * along_m, per_metre, wheelbase_m);
    return Pose{ramp.axis, ramp.heading_rad};
  };
  const double clamped = std::clamp(nose_m, 0.0, turn.nose_path_m);
  if (clamped < turn.ramp_nose_m) {
    Pose pose = ramp_pose(clamped);
    pose.gear.x_m += begin_x;
    return pose;
  }
  const double left_m = turn.nose_path_m - clamped;
  if (left_m < turn.ramp_nose_m || !turn.full_deflection) {
    // The exit is the entry mirrored about the bisector.
    const Pose mirror = ramp_pose(left_m);
    const double half_tangent = tangent(0.5 * turn_rad);
    const double crossing_to_end_m = radius_m * half_tangent + turn.start_before_arc_m;
    Point end = ahead_of({radius_m * half_tangent, 0.0}, turn_rad, crossing_to_end_m);
    end = ahead_of(end, turn_rad, -mirror.gear.x_m);
    return {beside(end, turn_rad, mirror.gear.y_m), turn_rad - mirror.heading_rad};
  }
  const double heading =
      turn.ramp_heading_rad + (clamped - turn.ramp_nose_m) / hypotenuse(radius_m, wheelbase_m);
  // Centre of the steady part: where the ramp's end puts it.
  const Point centre =
      beside({begin_x + turn.ramp_end.x_m, turn.ramp_end.y_m}, turn.ramp_heading_rad, radius_m);
  return {beside(centre, heading, -radius_m), heading};
}

double past_outbound_m(double radius_m, double turn_rad, Point point) {
  const double crossing_x = radius_m * tangent(0.5 * turn_rad);
  // Right normal of the outbound direction is (-sin, cos); the far side is to its left.
  return (point.x_m - crossing_x) * sine(turn_rad) - point.y_m * cosine(turn_rad);
}

BodyMotion RampedMotion::at(const MotionPhase& phase, double at_m) const {
  const double inside_m = std::clamp(at_m, 0.0, turn.nose_path_m);
  const Pose pose = gear_on_line_pose(turn, radius_m, turn_rad, wheelbase_m, inside_m);
  double steering_rad = 0.0;
  if (phase.part == kSteady) steering_rad = turn.steering_rad;
  if (phase.part == kEntryRamp) steering_rad = turn.steering_rad * inside_m / turn.ramp_nose_m;
  if (phase.part == kExitRamp)
    steering_rad = turn.steering_rad * (turn.nose_path_m - inside_m) / turn.ramp_nose_m;
  const Point axis = ahead_of(pose.gear, pose.heading_rad, at_m - inside_m);
  BodyMotion body;
  body.axis = {axis.x_m, side * axis.y_m};
  body.cosine = cosine(pose.heading_rad);
  body.sine = side * sine(pose.heading_rad);
  body.forward = cosine(steering_rad);
  body.turning = side * sine(steering_rad) / wheelbase_m;
  return body;
}

MotionPhases phases_of_ramps(const GearOnLineTurn& turn, double before_m, double after_m) {
  const double steady_m = turn.ramp_nose_m;
  const double back_m = turn.nose_path_m - turn.ramp_nose_m;
  const double ends_m[] = {
      -before_m, 0.0, steady_m, back_m, turn.nose_path_m, turn.nose_path_m + after_m};
  MotionPhases phases;
  for (std::size_t part = kBefore; part <= kAfter; ++part)
    if (ends_m[part] < ends_m[part + 1]) phases.push({part, ends_m[part], ends_m[part + 1]});
  return phases;
}

}  // namespace tillerline
