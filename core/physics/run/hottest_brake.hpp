// The hottest brake of a taxi: the worst one (wheel_brakes.hpp) through a run of the route, and
// what is still to come of it after the stop.
//
// It is read as Limits::brake_reading says. What the cockpit shows rises on after the stop
// (indication_to_come.hpp), so its number is the highest indication from the stop on, as long as
// the aircraft stands there; a take-off before that comes sooner than the brake tells. A heat pack
// is never hotter than at the stop. Fans, where they run, run on.
#pragma once

#include "physics/heat/heat.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

// `run` a run of today's route that the worst brake begins like this: Today::worst_brake, or a
// cooler one after a longer stand.
HottestBrake hottest_brake(const Today& today, const BrakeState& start, const RouteRun& run);

// From `at_stop` on: what decides, and when it comes.
HighestReading highest_reading(const Today& today, const BrakeState& at_stop);

}  // namespace tillerline
