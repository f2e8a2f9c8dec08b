#include "physics/run/roll_answer.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using elementary::arctangent;

constexpr double kTargets_kt[kRollTargets] = {5.0, 10.0, 15.0, 20.0};

// A route without legs is as level ground in calm air.
const RollForces& first_leg(const Today& today, const Legs& legs) {
  return legs.at.size() > 0 ? legs.at[0].forces : today.idle;
}

}  // namespace

RollAnswer roll_answer(const Today& today, const Legs& legs) {
  RollAnswer answer;
  const RollForces& forces = first_leg(today, legs);
  answer.slope_rad = forces.slope_rad;
  answer.headwind_mps = forces.headwind_mps;
  const RollLaw law = roll_law(forces);
  answer.idle_thrust_n = forces.thrust_n;
  answer.thrust_lost_to_wind_n = forces.thrust_n - idle_thrust_at_n(forces, 0.0);
  answer.idle_thrust_per_weight = answer.idle_thrust_n / (forces.mass_kg * units::kGravity_mps2);
  answer.breakaway_margin_n = breakaway_margin_n(forces);
  answer.acceleration_mps2 = acceleration_mps2(law, 0.0);
  RollForces level = today.idle;
  level.displacement_drag_nspm2 = level.snow_drag_nspm = 0.0;
  answer.level_acceleration_mps2 = acceleration_mps2(roll_law(level), 0.0);
  answer.keeps_rolling_slope_rad = critical_slope_rad(forces, forces.rolling_resistance);
  answer.restarts_slope_rad = critical_slope_rad(forces, forces.breakaway_resistance);
  answer.extra_thrust_n = std::max(0.0, -answer.breakaway_margin_n);
  answer.start_thrust_n = forces.thrust_n + answer.extra_thrust_n;
  if (answer.acceleration_mps2 > 0.0) answer.terminal = terminal_speed(law, 0.0);
  for (int i = 0; i < kRollTargets; ++i) {
    answer.targets[i].speed_mps = units::mps_from_knots(kTargets_kt[i]);
    answer.targets[i].passage = passage(law, 0.0, answer.targets[i].speed_mps);
  }
  if (!today.pavement.start_modelled)
    answer.verdict = RollVerdict::StartNotKnown;
  else if (answer.breakaway_margin_n >= 0.0)
    answer.verdict = RollVerdict::RollsByItself;
  else if (answer.start_thrust_n > today.thrust_limit_n)
    answer.verdict = RollVerdict::CannotMove;
  else if (answer.acceleration_mps2 > 0.0)
    answer.verdict = RollVerdict::KeepsRolling;
  else
    answer.verdict = RollVerdict::NeedsThrust;
  return answer;
}

RollMap roll_map(const Today& today, const Legs& legs, double target_mps) {
  constexpr double kSteepest = 0.015;  // most that taxiways of the larger code letters may have
  RollMap map;
  map.target_mps = target_mps;
  const bool start_known = today.pavement.start_modelled;
  const Aircraft& aircraft = today.aircraft;
  for (int row = 0; row < kMapRows; ++row)
    map.slope_rad[row] = arctangent(kSteepest * (2.0 * row / (kMapRows - 1) - 1.0));
  for (int column = 0; column < kMapColumns; ++column) {
    const double share = static_cast<double>(column) / (kMapColumns - 1);
    RollForces forces = first_leg(today, legs);
    forces.slope_rad = 0.0;
    forces.mass_kg =
        aircraft.lowest_mass_kg + share * (aircraft.highest_mass_kg - aircraft.lowest_mass_kg);
    map.mass_kg[column] = forces.mass_kg;
    map.keeps_rolling_slope_rad[column] = critical_slope_rad(forces, forces.rolling_resistance);
    map.restarts_slope_rad[column] = start_known
                                         ? critical_slope_rad(forces, forces.breakaway_resistance)
                                         : map.keeps_rolling_slope_rad[column];
    for (int row = 0; row < kMapRows; ++row) {
      forces.slope_rad = map.slope_rad[row];
      const Passage p = passage(roll_law(forces), 0.0, target_mps);
      const bool starts = !start_known || breakaway_margin_n(forces) >= 0.0;
      map.time_s[row][column] = starts && p.reached ? p.time_s : -1.0;
    }
  }
  return map;
}

}  // namespace tillerline
