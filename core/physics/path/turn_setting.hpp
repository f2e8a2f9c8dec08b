// One turn of a route as every plan of it needs it: the aircraft seen from its turn axis, the
// painted line, and how much of the straights beside the arc the turn may use.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/pose.hpp"

namespace tillerline {

// Shown straight before and after a manoeuvre.
inline constexpr double kRunUp_m = 10.0;

struct TurnSetting {
  const Aircraft& aircraft;
  const TaxiRoute& route;
  const Leg& arc;
  int leg;
  PaintedLine line;
  double side;               // +1: the turn goes to the right
  double angle_rad;          // > 0
  double crossing_radius_m;  // of the plain arc between the same ends
  double axis_m;             // turn axis ahead of the main-gear axis, in the steady part
  double wheelbase_m;        // nose gear and eye ahead of the turn axis
  double eye_m;

  // The pose whose turn axis is here.
  Pose pose_of_axis(Point axis, double heading_rad) const;
  // How much of the straight before (-1) or behind (+1) the arc a steering ramp may use: all of it,
  // or half when another arc wants the other half.
  double ramp_room_m(int direction) const;
  // How far beside the manoeuvre, which has taken `taken_m` of it already, the straight still
  // belongs to this turn: as far as its extra pavement leads in, ten metres at least, and no
  // farther than a ramp might reach.
  double straight_beside_m(int direction, double taken_m) const;
  // How far behind the arc a turn still counts: `wanted_m`, or until the next arc begins.
  double run_out_m(double wanted_m) const;
};
TurnSetting turn_setting(const Aircraft& aircraft, const TaxiRoute& route, int leg);

}  // namespace tillerline
