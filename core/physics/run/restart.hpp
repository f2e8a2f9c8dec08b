// Stopped anywhere on the route: what it takes to get going again.
//
// Thrust that starts the wheels, all running engines together:
//   T = W (mu_b cos(slope) + sin(slope)) + D_scrub + 1/2 rho C_D S w |w| + F_dragging
// with the breakaway resistance mu_b, the whole scrub of a turn from the first metre (tyres keep
// their wound-up side force at a standstill; tyre.hpp), the headwind w and a brake that does not
// let go. A loose contaminant resists with speed: nothing at standstill; what snow and slush packed
// under the wheels take is not known, and the card withholds these numbers there (card_gate.hpp).
// On a downhill where nothing is needed the thrust is 0: there the brakes hold it.
//
// One point a leg: the place where T is largest. On a straight it is the same all along (its begin
// is named); on an arc the headwind changes with the heading, and the worst is at an end or where
// the nose points into the wind. Slope and scrub are taken as even along a leg, the easing of a
// turn as none.
//
// Nose wheels hold the scrub's moment and that of uneven thrust (engines.hpp), the latter at the
// thrust needed or idle, whichever is more, in the worse turning direction. Their side force per
// load must stay below the operator's share of the surface's grip: at walking pace on straights, as
// in the turn's own limit on arcs.
//
// Uncertain by the breakaway resistance above all: 0.015 to 0.035, more after long parking (trade
// sources). 14 CFR 25.509's towing load of 0.15 W is an upper bound that no restart comes near.
#pragma once

#include "physics/numerics/fixed_list.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// One leg at its worst place (the heading of an arc at which the wind is worst).
struct RestartPoint {
  int leg = 0;
  double at_m = 0.0;      // along the route
  double needed_n = 0.0;  // all running engines
  double extra_n = 0.0;   // above idle; 0: idle does it
  double per_engine_n = 0.0;
  double share_of_limit = 0.0;  // needed / taxi thrust limit of the running engines
  bool within_limit = true;
  double nose_grip_needed = 0.0;  // scrub and uneven thrust together
  bool nose_holds = true;
};

struct RestartAnswer {
  FixedList<RestartPoint, kMaxLegs> points;
  int worst = -1;  // index into points
  bool idle_everywhere = true;
};
// `turns` as planned: one for each arc, in order (route_plan.hpp).
RestartAnswer restart_answer(const Today& today, const Legs& legs, const Turns& turns);

// The point that needs most; none on a route without legs.
const RestartPoint* worst_point(const RestartAnswer& restart);

}  // namespace tillerline
