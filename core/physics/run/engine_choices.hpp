// The same route with any number of engines: what each choice costs in time, fuel and brakes.
//
// Warm-up. Engines that run at the start are taken as warm when the stop is reached. The others are
// started one after the other, engine_start_s each, as late as lets the last one idle for
// engine_warm_up_s before the stop; where the taxi is too short for that they are started as the
// roll begins and the rest is waited for at the stop. Their fuel counts from the start switch;
// their idle thrust on the last part of the way is left out (it would be taken out by the brakes).
#pragma once

#include "physics/given/taxi_route.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

inline constexpr int kMostEngines = 6;

// One row of the trade-off table: this many engines from the start of the roll.
struct EngineChoice {
  int running = 0;
  bool possible = true;  // it can make the route within the thrust limit
  bool even = true;
  double time_s = 0.0;          // to the stop, and from there until all engines are warm
  double warm_up_wait_s = 0.0;  // of that, standing at the stop
  double fuel_kg = 0.0;         // all engines, the others started as late as lets them be warm
  double co2_kg = 0.0;
  int applications = 0;
  double brake_energy_j = 0.0;
  double end_k = 0.0;  // heat pack of the mean brake, at the stop
  double peak_k = 0.0;
  double hottest_k = 0.0;         // what decides of the hottest brake (heat.hpp)
  double restart_margin_n = 0.0;  // least over the route: idle thrust less what a restart needs
  int restart_leg = -1;           // where that is
  bool restart_within_limit = true;
  double nose_grip_needed = 0.0;  // from uneven thrust at the worst restart
};

struct EngineChoices {
  FixedList<EngineChoice, kMostEngines> rows;  // from fewest to all
};
// Each number of engines has stations of its own; the number that runs today does not count.
EngineChoices engine_choices(const Today& today, const TaxiRoute& route);

}  // namespace tillerline
