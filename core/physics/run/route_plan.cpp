#include "physics/run/route_plan.hpp"

#include <algorithm>

#include "physics/motion/application.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/path/track.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"

namespace tillerline {
namespace {

constexpr double kLeast_m = 1e-9;  // shorter ways count as none
constexpr double kSameSpeed_mps = 1e-9;

// The point that a technique chooses follows from the planned speed, and that from the loads: for
// these the choice among seven at walking pace stands for it. The radius is off by a few per cent
// at most.
double about_chosen_m(const Today& today, const TaxiRoute& route, int leg) {
  constexpr int kParts = 6;
  const WantedMargins wanted = WantedMargins::of(today.limits);
  const double pace_mps = std::max(today.limits.walking_pace_mps, 0.1);
  const bool least_outside = today.technique.turning == TurnTechnique::LeastOutside;
  double chosen_m = 0.0;
  double most_m = -1e9;
  for (int i = 0; i <= kParts; ++i) {
    const double ahead_m = today.aircraft.eye_ahead_m * i / kParts;
    const PointMargins margins = margins_with_point(today.aircraft, route, leg, pace_mps, ahead_m);
    if (!margins.reached) continue;
    double surplus_m = std::min(margins.nose_m - wanted.nose_m, margins.main_m - wanted.main_m);
    if (least_outside) surplus_m = std::min(surplus_m, 0.0);  // the furthest ahead of all that keep
    if (surplus_m < most_m || (surplus_m == most_m && !least_outside)) continue;
    most_m = surplus_m;
    chosen_m = ahead_m;
  }
  return chosen_m;
}

// What is kept on the line, ahead of the main gear.
double followed_ahead_m(const Today& today, const TaxiRoute& route, int leg) {
  const double eye_m = today.aircraft.eye_ahead_m;
  const TurnTechnique turning = today.technique.turning;
  if (turning == TurnTechnique::EyeOnLine) return eye_m;
  if (turning == TurnTechnique::MainGearOnLine) return 0.0;
  if (turning == TurnTechnique::PointOnLine)
    return std::min(today.technique.followed_ahead_m, eye_m);
  return about_chosen_m(today, route, leg);
}

double rolling_radius_m(const Today& today, const TaxiRoute& route, int leg) {
  const Leg& arc = route.legs[static_cast<std::size_t>(leg)];
  const double ahead_m = followed_ahead_m(today, route, leg);
  if (ahead_m <= 0.0) return arc.radius_m;
  const double smallest =
      smallest_gear_radius_m(largest_lag_in_turn_rad(route, leg, ahead_m), ahead_m);
  // A turn too short to build up lag is not wider than its line.
  return std::min(smallest, arc.radius_m);
}

// The technique's deceleration, as far as the braked wheels can give it against slope and thrust.
double planned_deceleration_mps2(const Today& today, const PlannedLeg& leg) {
  constexpr double kLeast_mps2 = 0.05;
  const double most_mps2 = leg.brake_friction * today.braked_weight_n / today.condition.mass_kg;
  const double pull_mps2 = std::max(0.0, acceleration_mps2(leg.law, 0.0));
  return std::min(today.technique.deceleration_mps2, std::max(kLeast_mps2, most_mps2 - pull_mps2));
}

// Forces and lengths of all legs, without the speeds at their ends.
void lay_out(const Today& today, const Legs& legs, RoutePlan& plan) {
  double left_m = std::max(0.0, legs.stop_m);
  std::size_t next_turn = 0;
  for (std::size_t i = 0; i < legs.at.size(); ++i) {
    const LegToday& leg = legs.at[i];
    PlannedLeg here;
    here.length_m = std::min(left_m, leg.length_m);
    left_m -= here.length_m;
    here.forces = leg.forces;
    here.limit_mps = leg.limit_mps;
    if (legs.route.legs[i].kind == LegKind::Arc) {
      here.turn = static_cast<int>(next_turn);
      const TurnAnswer& turn = plan.turns[next_turn++];
      here.forces.scrub_drag_n = turn.loads.scrub_drag_n;
      here.forces.cornering_offset_n = turn.cornering.offset_n;
      here.forces.cornering_drag_nspm2 = turn.cornering.rise_nspm2;
      here.limit_mps = turn.limit.speed_mps;
    }
    here.law = roll_law(here.forces);
    here.brake_friction = braking_friction(today.pavement, here.limit_mps);
    here.deceleration_mps2 = planned_deceleration_mps2(today, here);
    plan.legs.push(here);
  }
}

// Fastest speed from which one smooth application over the leg comes down to `exit_mps`.
double fastest_entry_mps(const PlannedLeg& leg, double exit_mps, double jerk_mps3) {
  const RollLaw still_air_level{};
  const auto spare = [&](double v) {
    return leg.length_m -
           plan_application(still_air_level, v, exit_mps, leg.deceleration_mps2, jerk_mps3)
               .length_m;
  };
  if (exit_mps >= leg.limit_mps || spare(leg.limit_mps) >= 0.0) return leg.limit_mps;
  if (leg.length_m <= kLeast_m) return exit_mps;
  return find_zero(exit_mps + kSameSpeed_mps, leg.limit_mps, spare);
}

// A turn may be left no faster than the next leg allows.
void fill_window(const Today& today, const PlannedLeg& here, TurnAnswer& turn) {
  const double walk = today.limits.walking_pace_mps;
  const double limit = here.limit_mps < walk
                           ? here.limit_mps
                           : std::max(std::min(here.limit_mps, here.exit_most_mps), walk);
  turn.window = entry_window(here.forces, here.length_m, limit, walk);
  turn.planned_entry_mps =
      turn.window.lower_mps +
      today.technique.entry_aim * (turn.window.upper_mps - turn.window.lower_mps);
}

// The pass backwards: what each leg must leave with, and with it the windows of the turns.
void plan_backwards(const Today& today, RoutePlan& plan) {
  double aim = 0.0;
  double most = 0.0;
  for (std::size_t i = plan.legs.size(); i-- > 0;) {
    PlannedLeg& here = plan.legs[i];
    here.exit_aim_mps = aim;
    here.exit_most_mps = most;
    if (here.turn < 0) {
      most = fastest_entry_mps(here, aim, today.technique.jerk_mps3);
      aim = most;
      continue;
    }
    TurnAnswer& turn = plan.turns[static_cast<std::size_t>(here.turn)];
    fill_window(today, here, turn);
    const double slowest =
        std::max(0.5, std::min(today.limits.walking_pace_mps, turn.planned_entry_mps));
    aim = std::max(slowest, turn.planned_entry_mps);
    most = std::max(aim, turn.window.upper_mps);
  }
}

TurnAnswer turn_at(const Today& today, const Legs& legs, std::size_t i) {
  const Leg& leg = legs.route.legs[i];
  const double mass_kg = today.condition.mass_kg;
  TurnAnswer turn;
  turn.leg = static_cast<int>(i);
  turn.turn_rad = leg.turn_rad;
  turn.radius_m = leg.radius_m;
  turn.rolling_radius_m = rolling_radius_m(today, legs.route, turn.leg);
  turn.grip = legs.at[i].grip;
  turn.uneven_moment_nm =
      thrust_yaw(today.aircraft, today.condition, today.idle.thrust_n, turn.grip).moment_nm;
  turn.loads = turn_loads(today.aircraft, mass_kg, turn.rolling_radius_m, turn.grip);
  turn.limit =
      turn_speed_limit(today.aircraft, today.limits, mass_kg, turn.rolling_radius_m, leg.turn_rad,
                       leg.speed_limit_mps, turn.grip, turn.uneven_moment_nm);
  turn.cornering = cornering_drag(today.aircraft, mass_kg, turn.rolling_radius_m,
                                  turn.limit.speed_mps, turn.grip);
  return turn;
}

}  // namespace

RoutePlan plan_route(const Today& today, const Legs& legs) {
  RoutePlan plan;
  plan.start_speed_mps = legs.route.start_speed_mps;
  for (std::size_t i = 0; i < legs.at.size(); ++i)
    if (legs.route.legs[i].kind == LegKind::Arc) plan.turns.push(turn_at(today, legs, i));
  lay_out(today, legs, plan);
  plan_backwards(today, plan);
  return plan;
}

}  // namespace tillerline
