// Any number of running engines: what they push and burn at idle, the yaw of uneven thrust, and how
// long the others take to be warm.
//
// Idle thrust of n running engines, standing and its fall with forward speed v:
//   T = n (delta F (1 + i) - v mdot delta / sqrt(theta) sqrt(1 + i))
// with pressure ratio delta and temperature ratio theta of the day's air, F and mdot an engine's
// idle thrust and air flow at sea level in the standard atmosphere, and i the thrust share that
// engine anti-ice adds (0 when off). At a fixed corrected speed thrust scales with delta, air flow
// with delta / sqrt(theta) (turbomachinery similarity). Thrust falls with speed by the momentum of
// the air taken on board, F = mdot (V_jet - V). A raised idle is more flow at more speed through
// the same nozzle: thrust goes with the flow's square. Real idle schedules hold shaft speed or
// bleed pressure and differ by some 15 %; the 7 % of rated thrust of the ICAO landing and take-off
// cycle is a convention of certification, real ground idle is lower.
//
// Fuel. n idle flows (1 + the anti-ice fuel share) plus a linear flow for thrust above idle. The
// flow at standard sea level is kept in all air (it would fall with delta). CO2: route_run.hpp.
//
// Which engines are off. Engines sit in pairs (one more in the middle when their count is odd).
// Fewer engines: the middle one is shut down where that makes the rest even; else from the
// outermost pair inwards. Only an even count with an odd number off is uneven; its unpaired engine
// is the outermost running one. Arms of pairs between the inner and the outer are spaced evenly.
//
// Yaw. Rolling straight, the moment (thrust of one engine) x arm about the main-gear axis is held
// by the nose wheels alone: side force moment / wheelbase, at the slip angle that the tyre's cubic
// (tyre.hpp) gives. On the safe side: the bogies' own resistance to yaw is left out. In a turn
// towards the running side it adds to the scrub moment: turn limits count that worse side always.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/world/atmosphere.hpp"

namespace tillerline {

// Thrust, N, standing, and its fall with speed, N per m/s, of the running engines at idle.
struct IdleThrust {
  double standing_n = 0.0;
  double fall_nspm = 0.0;
};
IdleThrust idle_thrust(const Aircraft& aircraft, const Condition& condition, const Air& air);

// Uneven thrust: one engine of a pair runs, the other does not.
struct ThrustYaw {
  bool even = true;
  double arm_m = 0.0;              // of the unpaired engine (outermost), 0 when even
  double moment_nm = 0.0;          // yaw of its thrust
  double nose_side_force_n = 0.0;  // that the nose wheels hold it with
  double nose_grip_needed = 0.0;   // that force per load on the nose wheels
  double steering_rad = 0.0;       // slip angle at which the nose wheels give it, rolling straight
};
// `thrust_n` of all running engines together, shared evenly. Where `grip` does not suffice the
// steering is the angle of most side force.
ThrustYaw thrust_yaw(const Aircraft& aircraft, const Condition& condition, double thrust_n,
                     double grip);

// Fuel flow of the running engines, kg/s, with `extra_thrust_n` above idle in all.
double fuel_flow_kgps(const Aircraft& aircraft, const Condition& condition, double extra_thrust_n);

// Time from the first start switch until the last engine that is off now is warm, s.
double time_to_all_warm_s(const Aircraft& aircraft, const Condition& condition);

}  // namespace tillerline
