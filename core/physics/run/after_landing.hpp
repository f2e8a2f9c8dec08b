// Brakes through a short turnaround: from touchdown to the stand (landing_to_stand.hpp), and then
// this taxi.
//
// A chain of steps for two brakes, the mean working one and the worst one (brake_walk.hpp). All
// temperatures are of the heat pack, except where a name says "indicated": that is what the brake's
// probe shows (indication.hpp). The taxi-out is the pieces of the route's run again, in its order:
// a piece's power over its duration, an application's energy at its end. Without a turnaround the
// chain is the taxi-out alone.
//
// The default pack takes 96 min from 300 to 100 degC in still air of 20 degC, where pilots report
// 45 to 70: on the slow, safe side.
//
// What is compared with the limit is the worst brake, read as the limit is (hottest_brake.hpp): its
// highest indication from the stop of the taxi-out on, or its pack at that stop. Neither tells of
// the wheels: those of an aircraft that parks with its worst brake over the limit may go on getting
// hotter until kWheelsHeatOn_s later (indication.hpp), which is said where it reaches into the
// taxi.
#pragma once

#include "physics/heat/wheel_brakes.hpp"
#include "physics/run/landing_to_stand.hpp"
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

struct AfterLanding {
  bool included = false;
  double landing_energy_j = 0.0;  // work of all brakes
  double taxi_in_energy_j = 0.0;  // likewise; a dragging brake's own not counted
  BrakeShares shares;
  BrakeTimes mean;  // without a turnaround: before the taxi-out all as the condition says
  BrakeTimes worst;
  double limit_k = 0.0;
  bool within_limit = true;        // the worst brake, as it is read
  double longer_stand_s = 0.0;     // more time on the stand that brings it there; 0 when within
  bool wait_reaches_limit = true;  // false: even brakes as cold as the air pass the limit
  // More applications from the band's top to its bottom, at line-up, level and calm, before the
  // worst brake reads the limit: counted by heat content, at most 999, and no pack beyond 5000 K.
  int applications_left = 0;
  // So much of the taxi-out the wheels may still get hotter; 0 too where it parks within the limit.
  double wheels_heat_on_s = 0.0;
  double energy_per_application_j = 0.0;  // of that size, work of all brakes
  // Picture: temperatures from touchdown to line-up (or only the taxi-out), joined by straight
  // lines. The corners (landing, stand, line-up) are exact, between them thinned evenly in time.
  HeatPoints points;
  double taxi_out_from_s = 0.0;  // time at which the taxi-out begins
};

// `run`: today's.
AfterLanding after_landing(const Today& today, const Turnaround& turn, const RouteRun& run);

}  // namespace tillerline
