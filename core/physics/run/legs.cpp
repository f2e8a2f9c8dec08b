#include "physics/run/legs.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/run/stop.hpp"
#include "physics/world/tyre.hpp"

namespace tillerline {
namespace {

using elementary::cosine;

RollForces idle_in(const RollForces& idle, double slope_rad, double headwind_mps) {
  RollForces forces = idle;
  forces.slope_rad = slope_rad;
  forces.headwind_mps = headwind_mps;
  return forces;
}

double limit_mps(const Limits& limits, const Leg& leg) {
  if (leg.speed_limit_mps <= 0.0) return limits.straight_speed_mps;
  return std::min(limits.straight_speed_mps, leg.speed_limit_mps);
}

LegToday leg_today(const Today& today, const Leg& leg, double heading_rad, double start_m) {
  const Day& day = today.day;
  LegToday here;
  here.start_m = start_m;
  here.length_m = leg_length_m(leg);
  here.heading_rad = heading_rad;
  here.worst = worst_headwind(leg, heading_rad, day.wind_speed_mps, day.wind_from_rad);
  here.forces = idle_in(today.idle, leg.slope_rad,
                        leg_headwind_mps(leg, heading_rad, day.wind_speed_mps, day.wind_from_rad));
  here.at_rest = idle_in(today.idle, leg.slope_rad, here.worst.headwind_mps);
  here.at_rest.displacement_drag_nspm2 = here.at_rest.snow_drag_nspm = 0.0;
  here.limit_mps = limit_mps(today.limits, leg);
  here.grip = leg.kind == LegKind::Arc ? grip_in_turn(today.pavement, today.limits, leg)
                                       : side_grip(today.pavement, 0.0);
  return here;
}

}  // namespace

WorstHeadwind worst_headwind(const Leg& leg, double heading_rad, double wind_speed_mps,
                             double wind_from_rad) {
  const auto headwind_at = [&](double heading) {
    return wind_speed_mps * cosine(heading - wind_from_rad);
  };
  WorstHeadwind worst{headwind_at(heading_rad), 0.0};
  if (leg.kind == LegKind::Straight) return worst;
  const auto consider = [&worst](double headwind_mps, double after_rad) {
    if (headwind_mps > worst.headwind_mps) worst = {headwind_mps, after_rad};
  };
  const double turned_rad = std::abs(leg.turn_rad);
  consider(headwind_at(heading_rad + leg.turn_rad), turned_rad);
  // The turn until the nose points into the wind, 0 to a full circle.
  constexpr double kCircle_rad = 2.0 * units::kPi;
  const double off_rad = wind_from_rad - heading_rad;
  const double towards_rad = leg.turn_rad < 0.0 ? -off_rad : off_rad;
  const double until_rad = towards_rad - kCircle_rad * std::floor(towards_rad / kCircle_rad);
  if (until_rad < turned_rad) consider(wind_speed_mps, until_rad);
  return worst;
}

Legs make_legs(const Today& today, const TaxiRoute& route) {
  Legs legs;
  legs.route = route;
  legs.stop_m = stop_position_m(today.aircraft, today.limits, route);
  double heading_rad = route.start_heading_rad;
  double start_m = 0.0;
  for (const Leg& leg : route.legs) {
    legs.at.push(leg_today(today, leg, heading_rad, start_m));
    start_m += legs.at.back().length_m;
    if (leg.kind == LegKind::Arc) heading_rad += leg.turn_rad;
  }
  if (legs.at.size() > 0)
    legs.at[0].forces.breakaway_resistance *= stood_factor(today.condition.stood);
  return legs;
}

}  // namespace tillerline
