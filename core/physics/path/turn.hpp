// How fast may a turn be entered, and how slow dare one be?
//
// In a turn the bogies scrub (tyre.hpp): the drag grows, and the nose wheels must hold their
// moment. The speed in the turn is limited from above by the first of
//   the operator's limit for the turn (and the leg's own limit),
//   the side load omega^2 r at the cockpit and at the farthest cabin ends,
//   the side load at the main gear,
//   the nose wheels' side force against their grip on this surface;
// and from below by walking pace, since a stop inside costs a restart against the scrub.
// The entry window is the range of entry speeds for which, at idle, the speed stays between those
// two until roll-out. It is found by inverting the exact roll over the arc's length.
//
// The speed v is that of the main-gear axis, which runs on the radius R (on the line when the main
// gear is kept there; on the smaller radius reached at the end of the arc when the eye is kept on
// it). A point at distance x before or behind it runs on sqrt(R^2 + x^2) with the same omega = v/R.
// The centripetal force costs drag besides: the tyres carry it at a slip angle, and its part along
// the path is F sin(slip). At the limit speed v_L, F = m v_L^2 / R, that is D_L exactly; below, it
// goes with the fourth power of the speed. The line in v^2 that misses (v / v_L)^4 least,
// (v / v_L)^2 - 1/8, stands for it: off by at most D_L / 8, too little at both ends and too much
// between. D_L is 0.1 to 0.4 % of the weight where people's side load is the limit.
// Left and right bogies run on R -+ track/2 and carry equal loads (load transfer of v^2 h/(R t g),
// a few per cent at taxi speed, is left out).
// Yaw inertia and the transients of entering and leaving are left out.
#pragma once

#include "physics/given/limits.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/fixed_list.hpp"

namespace tillerline {

struct TurnLoads {
  double scrub_drag_n = 0.0;
  double scrub_moment_nm = 0.0;
  double nose_side_force_n = 0.0;  // normal to the nose wheels, from scrub alone
  double nose_grip_needed = 0.0;   // that force per load on the nose wheels
  double nose_angle_rad = 0.0;     // steady nose-wheel angle
};

// Loads from turning slowly on the given radius of the main-gear axis.
TurnLoads turn_loads(const Aircraft& aircraft, double mass_kg, double radius_m, double grip);

// What the centripetal force costs in drag, and the line in v^2 for it. All 0 at limit 0 or
// without stiffness.
struct CorneringDrag {
  double at_limit_n = 0.0;
  double offset_n = 0.0;  // of the line at v = 0: below zero
  double rise_nspm2 = 0.0;
};
CorneringDrag cornering_drag(const Aircraft& aircraft, double mass_kg, double radius_m,
                             double limit_mps, double grip);

enum class TurnLimit { Operator, Leg, Cockpit, CabinFront, CabinRear, MainGear, NoseGrip };

struct TurnSpeedLimit {
  TurnLimit by = TurnLimit::Operator;
  double speed_mps = 0.0;  // 0: the nose wheels slide at any speed
};
// `uneven_moment_nm`: yaw of uneven thrust that the nose wheels hold besides the scrub (the worse
// turning direction: towards the running side).
TurnSpeedLimit turn_speed_limit(const Aircraft& aircraft, const Limits& limits, double mass_kg,
                                double radius_m, double turn_rad, double leg_limit_mps, double grip,
                                double uneven_moment_nm = 0.0);

// Acceleration towards the turn's centre, m/s^2, at a point x ahead of (negative: behind) the
// main-gear axis: the total. Its part across the fuselage, the side load proper, is v^2 / R at
// every x; the rest is along it. The limits for people are held against the total, on the safe
// side.
double centripetal_acceleration_mps2(double speed_mps, double radius_m, double ahead_m);

enum class WindowState {
  Open,
  RunsAway,  // even from walking pace it passes the limit before roll-out
  Stalls,    // even from the limit it falls to walking pace inside
  NoSpeed    // the limit itself is below walking pace
};

struct EntryWindow {
  WindowState state = WindowState::Open;
  double lower_mps = 0.0;
  double upper_mps = 0.0;
  double opening_thrust_n = 0.0;  // extra thrust that opens a stalling window; else 0
};

// Entry window of an arc of the given length under this law; exit_limit <= limit is what the next
// leg allows at roll-out.
EntryWindow entry_window(const RollForces& forces, double length_m, double limit_mps,
                         double walking_pace_mps);

struct TurnAnswer {
  int leg = 0;  // index into the route
  double turn_rad = 0.0;
  double radius_m = 0.0;          // of the painted line
  double rolling_radius_m = 0.0;  // of the main-gear axis, the one the loads are for
  double grip = 0.0;              // side force per load that the surface gives at the limit
  double uneven_moment_nm = 0.0;  // yaw of uneven idle thrust
  TurnLoads loads;
  TurnSpeedLimit limit;
  CorneringDrag cornering;
  EntryWindow window;
  double planned_entry_mps = 0.0;  // from the route's run
  double exit_mps = 0.0;
  double peak_mps = 0.0;        // fastest inside, from the route's run
  double cockpit_side_g = 0.0;  // at the fastest
  double cabin_side_g = 0.0;    // at the worse cabin end, at the fastest
  double gear_side_g = 0.0;
  double idle_acceleration_mps2 = 0.0;     // at the limit speed
  bool restarts_at_idle = false;           // after a stop inside
  bool restarts_at_idle_straight = false;  // on a straight of the same slope
  double restart_thrust_n = 0.0;           // total thrust needed after a stop inside
  double restart_extra_thrust_n = 0.0;     // above idle, 0 when idle does it
  bool restart_within_limit = true;        // within the thrust limit for taxiing
};

// One entry per arc of a route, in order.
using Turns = FixedList<TurnAnswer, kMaxLegs>;

}  // namespace tillerline
