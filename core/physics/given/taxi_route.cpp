#include "physics/given/taxi_route.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"

namespace tillerline {
namespace {

// Integral of cos(heading - wind) along the eased arc: both clothoids by quadrature (their heading
// is a smooth function that changes by less than half a circle), the circle between exactly.
double eased_cosine_m(const Leg& leg, double off_rad, double easing_m) {
  const double curvature_pm = leg_curvature_pm(leg);
  const double easing_turn_rad = 0.5 * easing_m * curvature_pm;
  const auto clothoid_m = [&](double outer_rad, double towards_circle) {
    return gauss_integral(kGauss20, 0.0, easing_m, [&](double s) {
      return elementary::cosine(outer_rad +
                                towards_circle * easing_turn_rad * (s / easing_m) * (s / easing_m));
    });
  };
  const double circle_m = (elementary::sine(off_rad + leg.turn_rad - easing_turn_rad) -
                           elementary::sine(off_rad + easing_turn_rad)) /
                          curvature_pm;
  return clothoid_m(off_rad, 1.0) + circle_m + clothoid_m(off_rad + leg.turn_rad, -1.0);
}

}  // namespace

double leg_easing_m(const Leg& leg) {
  if (leg.kind == LegKind::Straight) return 0.0;
  return std::clamp(leg.easing_m, 0.0, leg.radius_m * std::abs(leg.turn_rad));
}

double leg_length_m(const Leg& leg) {
  if (leg.kind == LegKind::Straight) return leg.length_m;
  return leg.radius_m * std::abs(leg.turn_rad) + leg_easing_m(leg);
}

double leg_curvature_pm(const Leg& leg) {
  if (leg.kind == LegKind::Straight) return 0.0;
  return leg.turn_rad < 0.0 ? -1.0 / leg.radius_m : 1.0 / leg.radius_m;
}

double leg_curvature_pm(const Leg& leg, double distance_m) {
  const double to_nearer_end_m = std::min(distance_m, leg_length_m(leg) - distance_m);
  if (to_nearer_end_m < 0.0) return 0.0;
  const double easing_m = leg_easing_m(leg);
  const double share = to_nearer_end_m < easing_m ? to_nearer_end_m / easing_m : 1.0;
  return share * leg_curvature_pm(leg);
}

SlopeKnown slope_known(const Leg& leg) {
  if (leg.slope_guess_rad > 0.0) return SlopeKnown::Guessed;
  return leg.elevation_le90_m > 0.0 ? SlopeKnown::Elevations : SlopeKnown::Surveyed;
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
  const double easing_m = leg_easing_m(leg);
  if (easing_m > 0.0)
    return wind_speed_mps * eased_cosine_m(leg, off, easing_m) / leg_length_m(leg);
  // Mean of cos over the arc: (sin(off + turn) - sin(off)) / turn.
  return wind_speed_mps * (elementary::sine(off + leg.turn_rad) - elementary::sine(off)) /
         leg.turn_rad;
}

}  // namespace tillerline
