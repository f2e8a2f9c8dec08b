// A way out where the margins of a turn are too small with the chosen technique: another point of
// the aircraft on the centreline.
//
// Per turn the points between eye and main gear that keep every wanted margin, and of these the one
// that brings the nose outside least, with what it leaves. `turns` are those of the route's plan
// (RoutePlan), whose planned entry speeds are taken; what the change does to loads and speeds is
// the caller's to ask, by a brief with that technique.
#pragma once

#include "physics/path/followed_point.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

struct TurnPoint {
  int leg = 0;
  FollowedPoint band;
  double ahead_m = 0.0;         // least outside of the band, the best one where there is none
  PointMargins margins;         // with it
  double nose_outside_m = 0.0;  // nose gear and eye furthest past the new centreline
  double eye_outside_m = 0.0;
};

struct TurnPoints {
  FixedList<TurnPoint, kMaxLegs> turns;
  bool all_keep = true;  // every turn has a point that keeps every wanted margin
};

TurnPoints least_outside_points(const Today& today, const TaxiRoute& route, const Turns& turns);

}  // namespace tillerline
