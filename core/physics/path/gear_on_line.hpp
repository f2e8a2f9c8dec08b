// One plain arc between long straights with the main gear kept on the line: nose wheels that turn
// at a limited rate, the start, the shift and how far nose and eye go past the new centreline. The
// manoeuvre is described at the head of track.hpp.
#pragma once

#include "physics/path/plan_events.hpp"
#include "physics/path/pose.hpp"

namespace tillerline {

// The main-gear-on-line manoeuvre for one arc between long straights.
struct GearOnLineTurn {
  bool possible = false;            // the steering angle reaches the radius
  bool full_deflection = false;     // the ramps leave a steady part between them
  double steering_rad = 0.0;        // greatest nose-wheel angle
  double start_before_arc_m = 0.0;  // main-gear axis before the painted arc's begin when it starts
  double shift_m = 0.0;             // how far the path lies inside the painted arc
  double ramp_heading_rad = 0.0;    // heading turned in one ramp
  double ramp_nose_m = 0.0;         // nose-gear path of one ramp
  Point ramp_end;                   // main-gear axis at its end, from where it began
  double nose_path_m = 0.0;         // nose-gear path of the whole manoeuvre
  // Past the outbound centreline, furthest: nose gear and eye (0 when never past).
  double nose_overshoot_m = 0.0;
  double eye_overshoot_m = 0.0;
  // Where the nose gear and eye are when the turn is started, along the inbound line, counted from
  // where the two straight centrelines cross (positive: past it; not a number where they do not,
  // way_to_crossing_m) and from the arc's begin.
  double eye_past_crossing_m = 0.0;
  double nose_past_crossing_m = 0.0;
  double eye_past_arc_begin_m = 0.0;
};

// radius_m > 0, turn_rad > 0. `steering_rate_radps` 0 means instantaneous.
GearOnLineTurn gear_on_line_turn(double radius_m, double turn_rad, double wheelbase_m,
                                 double eye_ahead_m, double steering_limit_rad,
                                 double steering_rate_radps, double nose_speed_mps);

// Pose after the nose gear has moved `nose_m` since the start of the manoeuvre; the turn goes to
// the right; coordinates as above.
Pose gear_on_line_pose(const GearOnLineTurn& turn, double radius_m, double turn_rad,
                       double wheelbase_m, double nose_m);

// Distance of a point past the outbound centreline, m (positive: on its far side); right-hand turn.
double past_outbound_m(double radius_m, double turn_rad, Point point);

// The same as a motion: per metre of the nose gear the turn axis moves cos(delta), the heading
// turns by sin(delta)/wheelbase.
struct RampedMotion {
  const GearOnLineTurn& turn;
  double radius_m;
  double turn_rad;  // > 0
  double wheelbase_m;
  double side;  // +1: the turn goes to the right

  BodyMotion at(const MotionPhase& phase, double at_m) const;
};

// From `before_m` before steering starts to `after_m` after it has ended, in metres of the nose
// gear from the start.
MotionPhases phases_of_ramps(const GearOnLineTurn& turn, double before_m, double after_m);

}  // namespace tillerline
