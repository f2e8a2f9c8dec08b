#include "physics/taxi_route.hpp"

#include <cmath>

#include "physics/elementary.hpp"

namespace tillerline {

double leg_length_m(const Leg& leg) {
  return leg.kind == LegKind::Straight ? leg.length_m : leg.radius_m * std::abs(leg.turn_rad);
}

double leg_curvature_pm(const Leg& leg) {
  if (leg.kind == LegKind::Straight) return 0.0;
  return leg.turn_rad < 0.0 ? -1.0 / leg.radius_m : 1.0 / leg.radius_m;
}

double route_length_m(const TaxiRoute& route) {
  double length_m = 0.0;
  for (const Leg& leg : route.legs) length_m += leg_length_m(leg);
  return length_m;
}

double leg_headwind_mps(const Leg& leg, double heading_rad, double wind_speed_mps,
                        double wind_from_rad) {
  const double off = heading_rad - wind_from_rad;
  if (leg.kind == LegKind::Straight || leg.turn_rad == 0.0)
    return wind_speed_mps * elementary::cosine(off);
  // Mean of cos over the arc: (sin(off + turn) - sin(off)) / turn.
  return wind_speed_mps * (elementary::sine(off + leg.turn_rad) - elementary::sine(off)) /
         leg.turn_rad;
}

}  // namespace tillerline
