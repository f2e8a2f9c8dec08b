// One plain arc between long straights with a point of the body kept on the painted line: nose
// wheels that turn at a limited rate, where the turn is started and how it is left.
//
// The point P lies `ahead_m` = a > 0 before the turn axis. With lambda = wheelbase / a, lag beta
// and tan(delta) = lambda tan(beta), keeping P on a curvature k asks the nose wheels for
//   lambda (k - sin(beta) / a) / n^3   rad per metre of the nose gear,
//   n^2 = cos^2(beta) + lambda^2 sin^2(beta),
// which is more than c = rate / speed of the nose gear at the arc's begin where a < wheelbase /
// (c R), and on the straight behind it where lambda / a sin(beta) / n^3 is. There the nose wheels
// turn at the rate c instead, P leaves the line by centimetres, and the start lies so that P comes
// out on the new centreline:
//   entry ramp   from straight wheels until P can be led round a circle of radius R
//   circle       P on radius R, its centre a little inside the painted one
//   chord        P straight on, while the lag is so large that the wheels would have to go back
//                slower than later; only after very tight turns
//   exit ramp    wheels back at the rate c until P can be kept on the new centreline; P is on it
//   then
// In a turn too short for that the ramps meet (`full` is false). Parts that are not needed have no
// length; as a goes to 0 this becomes gear_on_line.hpp, which takes over below kNoPoint of the
// wheelbase. Own derivation; plane geometry without side slip, steady speed of the nose gear,
// entered without lag. Good to 1e-9 m against an ODE solver.
//
// Right-hand turn, origin where the painted arc begins, x along the incoming straight.
#pragma once

#include "physics/path/lag.hpp"
#include "physics/path/plan_events.hpp"

namespace tillerline {

inline constexpr double kNoPoint = 1e-6;

// The body on the way: where the turn axis is, where the nose points, and the nose wheels.
struct SteeredPose {
  Point axis;
  double heading_rad = 0.0;
  double steering_rad = 0.0;
  double forward = 1.0;  // way of the axis, and heading turned, per metre of the plan
  double turning = 0.0;
};

struct PointOnLineTurn {
  double ahead_m = 0.0;
  double radius_m = 0.0;
  double turn_rad = 0.0;
  double wheelbase_m = 0.0;
  double per_metre = 0.0;     // nose-wheel rate c
  bool found = false;         // false: so tight or so slow a rate that none is
  bool full = false;          // the circle is reached
  double steering_rad = 0.0;  // greatest nose-wheel angle
  double entry_rad = 0.0;     // nose-wheel angle at the end of the entry ramp
  double back_rad = 0.0;      // at the begin of the exit ramp
  double exit_rad = 0.0;      // at its end
  double in_rad = 0.0;        // the way of P turned in the entry ramp
  double out_rad = 0.0;       // and from the circle's end on
  double shift_in_m = 0.0;  // the circle lies so far inside of the painted one, by either straight
  double shift_out_m = 0.0;
  double start_past_arc_m = 0.0;  // P past the arc's begin when steering starts
  double end_past_arc_m = 0.0;    // P past the arc's end when it is back on the line
  // Ways: of the nose gear in the ramps, of P elsewhere.
  double entry_nose_m = 0.0;
  double circle_m = 0.0;
  double chord_m = 0.0;
  double exit_nose_m = 0.0;
  Point circle_begin;  // P there
  SteeredPose back;    // where the exit ramp begins
  SteeredPose end;     // and ends

  bool ramps() const { return entry_nose_m > 0.0 || exit_nose_m > 0.0; }
  double way_m() const { return entry_nose_m + circle_m + chord_m + exit_nose_m; }
};

// All > 0; `per_metre` may be infinite: then there are no ramps.
PointOnLineTurn point_on_line_turn(double radius_m, double turn_rad, double ahead_m,
                                   double wheelbase_m, double per_metre);

// The same as a motion, 0 where steering starts; mirrored for a turn to the left.
struct SteeredPointMotion {
  const PointOnLineTurn& turn;
  double side;  // +1: the turn goes to the right

  SteeredPose pose(std::size_t part, double at_m) const;  // of the turn to the right
  BodyMotion at(const MotionPhase& phase, double at_m) const;
};

// From `before_m` before steering starts to `after_m` after P is on the new centreline.
MotionPhases phases_of_point(const PointOnLineTurn& turn, double before_m, double after_m);

}  // namespace tillerline
