// Rolling at idle: the forces along the path, and the exact motion under them.
//
// Model (point mass, main-gear axis, v along the ground):
//   m dv/dt = T(u) - W cos(theta) mu (1 + f v^2) - W sin(theta) - q u |u|
//             - c v - d v^2 - D_scrub - D_corner(v) - D_brake
//   u = v + w,  W = m g,  q = rho C_D A / 2
//   T(u) = T0 - k u for u >= 0,  T0 - chi k u for u < 0
// with headwind w, airspeed u, thrust T of the idling engines, drag c of dry snow and displacement
// drag d of another loose contaminant (surface.hpp), the scrub of a turn, what its centripetal
// force costs, o + e v^2 (turn.hpp), and a brake that does not let go.
//
// Thrust falls with airspeed, not with ground speed: k is the momentum of the air that is taken in
// (engines.hpp), so a headwind costs thrust at standstill already. Where the wind overtakes the
// aircraft (u < 0) the momentum balance alone would give k |u| more; losses at the intake's lip and
// hot gas taken in work against it. The rule counts a share chi of it, 0 unless told otherwise:
// the safe side for "will it start", the cool side for the brakes. Measured idle thrust in a
// tailwind was not found; the whole range 0 to 1 is in the uncertainty (bands.hpp). Energy left out
// for one start from rest: at most k |w|^3 / (6 a), a the least acceleration below |w|.
// Rotating parts (wheels, tyres) would add about 1 % to the mass: left out. Breakaway
// resistance holds the aircraft at rest; it is larger than rolling resistance, so "will it start"
// and "will it keep rolling" are two questions (roll_answer.hpp).
//
// Exact on each side of v = -w, where air drag changes its sign and the law of thrust its slope
// (quadratic_motion.hpp).
// Valid for 0 to 60 kt. Rolling resistance of heavy tyres on hard pavement: no measured value was
// found; take-off calculations use 0.02 (Mason, TAKEOFF2) to 0.025. tests/published/roll.cpp holds
// the outside checks.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/numerics/quadratic_motion.hpp"
#include "physics/world/atmosphere.hpp"

namespace tillerline {

// All that acts along the path, for one aircraft on one piece of pavement.
struct RollForces {
  double mass_kg = 300e3;
  double thrust_n = 50e3;               // all running engines, standing
  double thrust_fall_nspm = 0.0;        // N lost per m/s of airspeed
  double overtaken_thrust_share = 0.0;  // chi: of that, gained per m/s of wind from behind
  double rolling_resistance = 0.012;
  double breakaway_resistance = 0.015;
  double rolling_speed_factor_s2pm2 = 0.0;
  double slope_rad = 0.0;
  double headwind_mps = 0.0;
  double drag_area_m2 = 0.0;
  double air_density_kgpm3 = 1.225;
  double scrub_drag_n = 0.0;             // from a turn (turn.hpp)
  double cornering_offset_n = 0.0;       // of the line that stands for cornering drag (turn.hpp)
  double cornering_drag_nspm2 = 0.0;     // and its rise
  double displacement_drag_nspm2 = 0.0;  // from a loose contaminant, N per (m/s)^2 (surface.hpp)
  double snow_drag_nspm = 0.0;           // from dry snow, N per m/s of ground speed (surface.hpp)
  double dragging_brake_n = 0.0;         // steady, from a brake that does not let go
};

// The acceleration law, split where the airspeed changes sign (at `split_mps` >= 0 with a
// tailwind; without one `split_mps` is 0 and only `above` is used).
struct RollLaw {
  QuadraticMotion below;
  QuadraticMotion above;
  double split_mps = 0.0;
};

// Forces for this aircraft at idle on a given slope with a given headwind, without scrub, through a
// contaminant of that displacement drag or that drag of dry snow (0: none).
RollForces idle_forces(const Aircraft& aircraft, const Condition& condition, const Air& air,
                       double slope_rad, double headwind_mps, double displacement_drag_nspm2 = 0.0,
                       double snow_drag_nspm = 0.0);

// Idle thrust at that ground speed in that wind, N.
double idle_thrust_at_n(const RollForces& forces, double speed_mps);

RollLaw roll_law(const RollForces& forces);

double acceleration_mps2(const RollLaw& law, double speed_mps);

// Time and distance from v0 to v1 (either way) across the split.
Passage passage(const RollLaw& law, double v0_mps, double v1_mps);

// The speed it settles at when left alone from v0; `exists` is false when it comes to a stop or
// never settles.
TerminalSpeed terminal_speed(const RollLaw& law, double v0_mps);

// What a given distance does to the speed. `stopped`: it came to rest after `distance_m`.
struct RollOut {
  bool stopped = false;
  double speed_mps = 0.0;
  double time_s = 0.0;
  double distance_m = 0.0;
};
RollOut roll_over_distance(const RollLaw& law, double v0_mps, double distance_m);

// Force that the aircraft has left for starting to move, N; negative: it stays.
double breakaway_margin_n(const RollForces& forces);

// Steepest slope (angle, uphill positive) on which the force balance at standstill is not negative,
// with the rolling or the breakaway resistance: solves W sin + W mu cos = F exactly.
double critical_slope_rad(const RollForces& forces, double resistance);

}  // namespace tillerline
