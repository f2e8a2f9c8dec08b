// The second station: the route's legs as they are met today.
//
// Each leg's place, heading and wind, the forces that act on it at idle, and the grip of its
// surface. Headings are counted from leg to leg over the angles of the arcs. Scrub is not in the
// forces: it hangs on the radius that is rolled, which is the plan's (route_plan.hpp).
//
// Worst headwind of an arc: at an end, or where the nose points into the wind on the way. The mean
// one is exact over the distance (taxi_route.hpp).
#pragma once

#include "physics/given/taxi_route.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// The strongest headwind on a leg that starts with `heading_rad`, and the angle turned by then.
struct WorstHeadwind {
  double headwind_mps = 0.0;
  double after_rad = 0.0;  // >= 0
};
WorstHeadwind worst_headwind(const Leg& leg, double heading_rad, double wind_speed_mps,
                             double wind_from_rad);

struct LegToday {
  double start_m = 0.0;      // along the route, of the centreline
  double length_m = 0.0;     // of its centreline, all of it
  double heading_rad = 0.0;  // at its begin
  WorstHeadwind worst;
  RollForces forces;       // rolling at idle in the leg's mean headwind
  RollForces at_rest;      // standing in its worst headwind, where a contaminant does not resist
  double limit_mps = 0.0;  // straights: the operator's and the leg's own; arcs: see TurnAnswer
  double grip = 0.0;       // side force per load; arcs: at the operator's limit, straights: at rest
};

struct Legs {
  TaxiRoute route;                   // as given
  double stop_m = 0.0;               // distance along the route at which the main-gear axis stops
  FixedList<LegToday, kMaxLegs> at;  // one for each leg of the route
};

// `route` with at least one leg.
Legs make_legs(const Today& today, const TaxiRoute& route);

}  // namespace tillerline
