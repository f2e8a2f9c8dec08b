// The third station: the turns with their loads, limits and entry windows, and the speed that every
// leg may have and must leave with. One plan serves the three braking techniques.
//
// Turns first, each by itself: the radius that the main gear rolls on, the scrub there, the fastest
// speed (turn.hpp). Then a pass from the stop backwards: on a straight the fastest speed from which
// one smooth application comes down to what the leg behind allows; of a turn the entry window, with
// an exit no faster than the leg behind allows, and the entry planned in it.
//
// On each leg the planned deceleration is cut to what the braked wheels can give against the slope
// and idle thrust there, but not below 0.05 m/s^2.
#pragma once

#include "physics/motion/roll.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// What one leg is like for the run: its forces at idle and the speeds that bound it.
struct PlannedLeg {
  RollForces forces;      // with the scrub of a turn
  RollLaw law;            // of these forces
  int turn = -1;          // index into the turns, -1: a straight
  double length_m = 0.0;  // up to the stop
  double limit_mps = 0.0;
  double deceleration_mps2 = 0.0;  // of its applications
  double brake_friction = 0.0;     // that the surface gives
  double exit_aim_mps = 0.0;       // what an application before the next leg brakes to
  double exit_most_mps = 0.0;      // what the next leg allows without one
};

struct RoutePlan {
  double start_speed_mps = 0.0;
  FixedList<PlannedLeg, kMaxLegs> legs;
  Turns turns;  // what the run and the restart say of them is filled in on the card
};

RoutePlan plan_route(const Today& today, const Legs& legs);

}  // namespace tillerline
