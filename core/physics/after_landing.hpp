// Brakes through a short turnaround: the landing stop, the taxi-in, the stand, and then this taxi.
#pragma once

#include "physics/atmosphere.hpp"
#include "physics/brief.hpp"
#include "physics/heat.hpp"
#include "physics/route_run.hpp"
#include "physics/wheel_brakes.hpp"

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
  double landing_energy_j = 0.0;  // into all brakes
  double taxi_in_energy_j = 0.0;
  BrakeShares shares;
  BrakeTimes mean;
  BrakeTimes worst;
  double limit_k = 0.0;
  bool within_limit = true;     // the worst pack at line-up
  double longer_stand_s = 0.0;  // more time on the stand that brings it there; 0 when within
  bool wait_reaches_limit = true;
  int applications_left = 0;  // more ones of the band's size before the worst brake is there
  double energy_per_application_j = 0.0;  // of that size, into all brakes
  // Picture: temperatures from touchdown to line-up (or only the taxi-out).
  FixedList<HeatPoint, kHeatPoints> points;
  double taxi_out_from_s = 0.0;  // time at which the taxi-out begins
};

// Pack temperature of the mean brake when the taxi-out begins; the condition's own when no
// turnaround is included.
double brakes_at_taxi_out_k(const Brief& brief, const Air& air);

AfterLanding after_landing(const Brief& brief, const Air& air, const RouteRun& run);

}  // namespace tillerline
