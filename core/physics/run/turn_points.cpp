#include "physics/run/turn_points.hpp"

#include <algorithm>

#include "physics/path/track.hpp"

namespace tillerline {

TurnPoints least_outside_points(const Today& today, const TaxiRoute& route, const Turns& turns) {
  const Aircraft& aircraft = today.aircraft;
  TurnPoints points;
  for (const TurnAnswer& turn : turns) {
    const double speed_mps = std::max(turn.planned_entry_mps, 1.0);
    TurnPoint point;
    point.leg = turn.leg;
    point.band =
        best_followed_point(aircraft, route, turn.leg, speed_mps, WantedMargins::of(today.limits));
    point.ahead_m = point.band.high_m;
    point.margins = margins_with_point(aircraft, route, turn.leg, speed_mps, point.ahead_m);
    const TrackPlan plan = plan_with_point(aircraft, route, turn.leg, speed_mps, point.ahead_m);
    point.nose_outside_m = plan.nose_overshoot_m;
    point.eye_outside_m = plan.eye_overshoot_m;
    points.all_keep = points.all_keep && point.band.keeps_all;
    points.turns.push(point);
  }
  return points;
}

}  // namespace tillerline
