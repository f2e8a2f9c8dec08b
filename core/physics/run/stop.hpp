// Where to stop short of a line that can no longer be seen.
//
// View: over the nose the eye sees the ground beyond the obscured stretch (obscured_ground.hpp). A
// line nearer than that is hidden. The stopping rule: no part of the aircraft beyond the line (FAA
// AIM 2-3-5), so the foremost point stops `stop_short` before it; with a lit stop bar the crew
// stops early enough to keep the bar in view. The stop is one smooth application with limited jerk
// J at deceleration a: distance v^2/(2a) + v a/(2J), time v/a + a/J, valid when a^2/J <= v (a
// gentler peak is used below that).
//
// Level pavement within the obscured stretch; eye height and cut-off at the normal ground attitude.
#pragma once

#include "physics/given/aircraft.hpp"
#include "physics/given/limits.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/motion/application.hpp"

namespace tillerline {

struct StopAnswer {
  RouteEnd end = RouteEnd::HoldingLine;
  bool stop_bar_lit = false;
  double obscured_m = 0.0;           // ground hidden ahead of the eye
  double nose_ahead_of_eye_m = 0.0;  // foremost point ahead of the eye
  double eye_before_line_m = 0.0;    // eye at the stop
  double nose_before_line_m = 0.0;   // foremost point at the stop
  double nose_gear_before_line_m = 0.0;
  double gear_before_line_m = 0.0;  // main-gear axis at the stop
  double tail_before_line_m = 0.0;  // rearmost point at the stop
  bool line_visible_at_stop = false;
  double nose_before_line_when_lost_m = 0.0;  // foremost point when the line goes out of sight
  double left_when_lost_m = 0.0;  // metres still to roll then (negative: already stopped)
  double left_when_lost_s = 0.0;  // seconds at the speed held then
  double approach_mps = 0.0;      // speed before the application
  double speed_when_lost_mps = 0.0;
  double brake_distance_m = 0.0;  // of the one smooth application
  double brake_time_s = 0.0;
  double eye_before_line_at_brake_m = 0.0;  // eye when the application starts
  bool line_visible_at_brake = false;
};

// Positions follow from geometry and rule; speeds and times from the last application of the run.
StopAnswer stop_answer(const Aircraft& aircraft, const Limits& limits, const TaxiRoute& route,
                       const Application& application);

// Distance along the route at which the main-gear axis stops, m.
double stop_position_m(const Aircraft& aircraft, const Limits& limits, const TaxiRoute& route);

}  // namespace tillerline
