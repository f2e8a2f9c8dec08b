// The first station: this aircraft on this day, all that holds wherever on the route it stands.
//
//   Brief -> Today -> Legs -> RoutePlan -> RouteRun -> answers -> Card
//
// Each station is a plain value, made once from those before it; none looks back. What follows
// takes Today in place of the brief: the limits and the braking in it are those that the surface
// leaves, and the brakes are as the turnaround leaves them.
//
// Made in make_today.hpp. SI units.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"
#include "physics/heat/wheel_brakes.hpp"
#include "physics/motion/roll.hpp"
#include "physics/world/atmosphere.hpp"
#include "physics/world/surface.hpp"

namespace tillerline {

struct Today {
  Aircraft aircraft;    // with its tyres as they are today
  Condition condition;  // as given: its brake temperature is that before a turnaround
  Day day;
  Technique technique;  // braking as far as the surface gives it
  Limits limits;        // speeds as the surface allows them
  SurfaceLimits surface_limits;
  Air air;
  PavementState pavement;
  RollForces idle;                 // on the level in still air, through today's contaminant
  double idle_fuel_kgps = 0.0;     // of the running engines
  double thrust_limit_n = 0.0;     // that they may give on a taxiway, all together
  double braked_weight_n = 0.0;    // that stands on working brakes
  HeatPack pack;                   // of one brake, on the taxi-out
  Probe probe;                     // beside it
  BrakeShares shares;              // of the braking work
  double brakes_k = 0.0;           // pack of the mean brake when the taxi-out begins
  BrakeState worst_brake;          // then, too
  double departure_limit_k = 0.0;  // as Limits::brake_reading says
};

// In that air, with the brief's limits and braking as they are given and its brakes as they are
// now: what is left when neither surface nor turnaround is asked.
Today today_as_given(const Brief& brief, const Air& air);

// The same day with so many engines running: 1 to Aircraft::engine_count.
Today with_engines(const Today& today, int running);

}  // namespace tillerline
