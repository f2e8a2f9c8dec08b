// Taxiing with any number of engines: what the idle engines push and burn, the yaw of uneven
// thrust, the wait for warm engines, and the trade-off on one route.
#pragma once

#include "physics/atmosphere.hpp"
#include "physics/brief.hpp"
#include "physics/fixed_list.hpp"
#include "physics/route_run.hpp"

namespace tillerline {

inline constexpr int kMostEngines = 6;

// Uneven thrust: one engine of a pair runs, the other does not.
struct ThrustYaw {
  bool even = true;
  double arm_m = 0.0;              // of the unpaired engine (outermost)
  double moment_nm = 0.0;          // yaw of its thrust
  double nose_side_force_n = 0.0;  // that the nose wheels hold it with
  double nose_grip_needed = 0.0;   // that force per load on the nose wheels
  double steering_rad = 0.0;       // slip angle at which the nose wheels give it, rolling straight
};
ThrustYaw thrust_yaw(const Aircraft& aircraft, const Condition& condition, double thrust_n,
                     double grip);

// Fuel flow of the running engines, kg/s, with `extra_thrust_n` above idle in all.
double fuel_flow_kgps(const Aircraft& aircraft, const Condition& condition, double extra_thrust_n);

// One row of the trade-off table: this many engines from the start of the roll.
struct EngineChoice {
  int running = 0;
  bool possible = true;  // it can make the route within the thrust limit
  bool even = true;
  double time_s = 0.0;          // to the stop, and from there until all engines are warm
  double warm_up_wait_s = 0.0;  // of that, standing at the stop
  double fuel_kg = 0.0;  // all engines, started on the way so as to be warm as early as possible
  double co2_kg = 0.0;
  int applications = 0;
  double brake_energy_j = 0.0;
  double end_k = 0.0;
  double peak_k = 0.0;
  double restart_margin_n = 0.0;  // least over the route: idle thrust less what a restart needs
  int restart_leg = -1;           // where that is
  bool restart_within_limit = true;
  double nose_grip_needed = 0.0;  // from uneven thrust at the worst restart
};

struct EngineChoices {
  FixedList<EngineChoice, kMostEngines> rows;  // from fewest to all
};
EngineChoices engine_choices(const Brief& brief, const Air& air);

}  // namespace tillerline
