// A run as points close enough to be joined by straight lines in a picture.
//
// Between the ends of a piece speeds are evenly spaced in a roll, times in an application; the
// brake temperature is taken in proportion to the time, the elevation from the slopes of the legs.
// The ends of every piece are points, however many pieces there are.
#pragma once

#include "physics/given/taxi_route.hpp"
#include "physics/given/technique.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/route_run.hpp"

namespace tillerline {

inline constexpr int kMaxTrace = 1400;

struct TracePoint {
  double distance_m = 0.0;
  double time_s = 0.0;
  double speed_mps = 0.0;
  double brake_k = 0.0;
  double elevation_m = 0.0;
};

struct RouteTrace {
  FixedList<TracePoint, kMaxTrace> points;
};
RouteTrace route_trace(const TaxiRoute& route, const Technique& technique, const RouteRun& run);

}  // namespace tillerline
