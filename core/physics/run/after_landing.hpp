// Brakes through a short turnaround: the landing stop, the taxi-in, the stand, and then this taxi.
//
// A chain of steps for two brakes, the mean working one and the worst one (wheel_brakes.hpp). All
// temperatures are of the heat pack, except where a name says "indicated": that is what the brake's
// probe shows (indication.hpp). "Work" below is that of all brakes together;
// Aircraft::brake_heat_share of it heats the packs, and a brake gets its share of that.
//
//   landing   1/2 m (v_td^2 - v_off^2) (1 - r) at once, r the share taken by reverse thrust and
//             air, m the landing mass
//   taxi-in   the energy balance of rolling on the level in calm air on today's surface, at idle,
//             between turn-off and stand, fans off: at its begin the slowing from the turn-off
//             speed to the band's middle v_m, 1/2 m (v_off^2 - v_m^2), none when slower; evenly
//             over its time m a(v_m) x distance, a the acceleration that idle gives at v_m, none
//             when idle does not hold v_m; at its end the stop, 1/2 m v_m^2
//   stand     cooling, with or without fans
//   taxi-out  the pieces of the route's run again, in its order: a piece's power over its duration,
//             an application's energy at its end
// A dragging brake takes its force x distance besides, on both taxis. Without a turnaround the
// chain is the taxi-out alone, from Condition::brake_temperature_k.
//
// Cooling and heating are those of heat.hpp, exact to rounding from step to step. The indication
// takes the pack as going evenly within a step (30 s at first, 1/40 of the time passed on a long
// stand; an application as a whole): within 0.1 K of a continuous one. At the begin the probe has
// settled. Uncertain are the inputs: reverse share, heat pack, cooling surface (heat.hpp), each
// worth 10 % of the rise or more. The default pack takes 96 min from 300 to 100 degC in still air
// of 20 degC, where pilots report 45 to 70: on the slow, safe side. 14 CFR 25.735(f) has the
// landing's kinetic energy per brake as 0.0443 W V^2 / N ft lb (W lb, V kt), nothing taken off for
// drag or reverse.
//
// The limit is compared with the worst *pack* at the stop of the taxi-out. Operators' limits are
// indications, and the pack is hotter than a settled indication: on the safe side.
// Valid for taxi_in_s > 0, touchdown faster than turn-off, the ranges of heat.hpp.
#pragma once

#include "physics/given/turnaround.hpp"
#include "physics/heat/wheel_brakes.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// One brake at the events of the turnaround: pack and indication.
struct BrakeTimes {
  double after_stop_k = 0.0;  // pack, at the turn-off
  double at_stand_k = 0.0;    // pack, on arrival
  double off_stand_k = 0.0;   // pack, when this taxi-out begins
  double line_up_k = 0.0;     // pack, at the stop of the taxi-out
  double peak_k = 0.0;        // pack, highest on the taxi-out
  double off_stand_indicated_k = 0.0;
  double line_up_indicated_k = 0.0;
};

struct HeatPoint {
  double time_s = 0.0;  // from touchdown (or from the begin of the taxi-out)
  double mean_k = 0.0;
  double worst_k = 0.0;
  double indicated_k = 0.0;  // of the worst brake
};

inline constexpr int kHeatPoints = 240;

struct AfterLanding {
  bool included = false;
  double landing_energy_j = 0.0;  // work of all brakes
  double taxi_in_energy_j = 0.0;  // likewise; a dragging brake's own not counted
  BrakeShares shares;
  BrakeTimes mean;  // without a turnaround: before the taxi-out all as the condition says
  BrakeTimes worst;
  double limit_k = 0.0;
  bool within_limit = true;        // the worst pack at line-up
  double longer_stand_s = 0.0;     // more time on the stand that brings it there; 0 when within
  bool wait_reaches_limit = true;  // false: even brakes as cold as the air pass the limit
  // More applications from the band's top to its bottom, at line-up, level and calm, before the
  // worst brake is at the limit: counted by heat content, at most 999.
  int applications_left = 0;
  double energy_per_application_j = 0.0;  // of that size, work of all brakes
  // Picture: temperatures from touchdown to line-up (or only the taxi-out), joined by straight
  // lines. The corners (landing, stand, line-up) are exact, between them thinned evenly in time.
  FixedList<HeatPoint, kHeatPoints> points;
  double taxi_out_from_s = 0.0;  // time at which the taxi-out begins
};

// Pack temperature of the mean brake when the taxi-out begins; the condition's own when no
// turnaround is included. Of `today` the brakes at the taxi-out are not asked.
double brakes_at_taxi_out_k(const Today& today, const Turnaround& turn);

// `run`: today's.
AfterLanding after_landing(const Today& today, const Turnaround& turn, const RouteRun& run);

}  // namespace tillerline
