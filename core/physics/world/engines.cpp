#include "physics/world/engines.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"
#include "physics/run/restart.hpp"
#include "physics/world/tyre.hpp"

namespace tillerline {
namespace {

using elementary::square_root;

constexpr double kStandardPressure_pa = 101325.0;
constexpr double kStandardTemperature_k = 288.15;

int engines_off(const Aircraft& aircraft, const Condition& condition) {
  return aircraft.engine_count - condition.engines_running;
}

// Fuel of the engines that are off at the start, from each one's start switch until all are warm.
double late_starters_fuel_kg(const Aircraft& aircraft, const Condition& condition) {
  Condition one = condition;
  one.engines_running = 1;
  const double off = engines_off(aircraft, condition);
  const double starting_s = aircraft.engine_start_s * off * (off + 1.0) / 2.0;
  return fuel_flow_kgps(aircraft, one, 0.0) * (starting_s + off * aircraft.engine_warm_up_s);
}

void fill_restart(const Brief& brief, const Air& air, const FixedList<TurnAnswer, kMaxLegs>& turns,
                  EngineChoice& choice) {
  const RestartAnswer restart = restart_answer(brief, air, turns);
  const RestartPoint* const worst = worst_point(restart);
  if (worst == nullptr) return;
  const double idle_n = idle_thrust(brief.aircraft, brief.condition, air).standing_n;
  choice.restart_margin_n = idle_n - worst->needed_n;
  choice.restart_leg = worst->leg;
  choice.restart_within_limit = worst->within_limit;
  const double thrust_n = std::max(idle_n, worst->needed_n);
  choice.nose_grip_needed =
      thrust_yaw(brief.aircraft, brief.condition, thrust_n, 1.0).nose_grip_needed;
}

EngineChoice engine_choice(const Brief& brief, const Air& air) {
  const Aircraft& aircraft = brief.aircraft;
  const Condition& condition = brief.condition;
  FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(brief, air, turns);
  const RouteRun run = run_route(brief, air, brief.technique.braking, turns);
  EngineChoice choice;
  choice.running = condition.engines_running;
  choice.possible = run.status == RunStatus::Complete;
  choice.even = thrust_yaw(aircraft, condition, 0.0, 1.0).even;
  choice.warm_up_wait_s = std::max(0.0, time_to_all_warm_s(aircraft, condition) - run.duration_s);
  choice.time_s = run.duration_s + choice.warm_up_wait_s;
  choice.fuel_kg = run.fuel_kg + choice.warm_up_wait_s * fuel_flow_kgps(aircraft, condition, 0.0) +
                   late_starters_fuel_kg(aircraft, condition);
  choice.co2_kg = kCo2PerFuel * choice.fuel_kg;
  choice.applications = run.applications;
  choice.brake_energy_j = run.brake_energy_j;
  choice.end_k = run.end_brake_k;
  choice.peak_k = run.peak_brake_k;
  fill_restart(brief, air, turns, choice);
  return choice;
}

// Arm of a pair, counted from the innermost, 0.
double pair_arm_m(const Aircraft& aircraft, int pair) {
  const int steps = std::max(1, aircraft.engine_count / 2 - 1);
  return aircraft.inner_engine_arm_m +
         (aircraft.outer_engine_arm_m - aircraft.inner_engine_arm_m) * pair / steps;
}

}  // namespace

IdleThrust idle_thrust(const Aircraft& aircraft, const Condition& condition, const Air& air) {
  const double delta = air.pressure_pa / kStandardPressure_pa;
  const double theta = air.temperature_k / kStandardTemperature_k;
  const double engines = condition.engines_running;
  const double raised = condition.engine_anti_ice ? 1.0 + aircraft.anti_ice_thrust_share : 1.0;
  return {.standing_n = engines * delta * raised * aircraft.idle_thrust_n,
          .fall_nspm = engines * delta * square_root(raised / theta) * aircraft.idle_air_flow_kgps};
}

ThrustYaw thrust_yaw(const Aircraft& aircraft, const Condition& condition, double thrust_n,
                     double grip) {
  const int off = engines_off(aircraft, condition);
  ThrustYaw yaw;
  yaw.even = aircraft.engine_count % 2 == 1 || off % 2 == 0;
  if (yaw.even) return yaw;
  const int broken_pair = aircraft.engine_count / 2 - 1 - off / 2;
  yaw.arm_m = pair_arm_m(aircraft, broken_pair);
  yaw.moment_nm = thrust_n / condition.engines_running * yaw.arm_m;
  yaw.nose_side_force_n = yaw.moment_nm / aircraft.wheelbase_m;
  const double nose_load_n =
      (1.0 - aircraft.main_gear_load_share) * condition.mass_kg * units::kGravity_mps2;
  yaw.nose_grip_needed = yaw.nose_side_force_n / nose_load_n;
  yaw.steering_rad =
      slip_for_side_force_rad(yaw.nose_grip_needed, aircraft.cornering_stiffness_prad, grip);
  return yaw;
}

double fuel_flow_kgps(const Aircraft& aircraft, const Condition& condition, double extra_thrust_n) {
  const double raised = condition.engine_anti_ice ? 1.0 + aircraft.anti_ice_fuel_share : 1.0;
  return condition.engines_running * raised * aircraft.idle_fuel_flow_kgps +
         extra_thrust_n * aircraft.fuel_per_extra_thrust_kgpns;
}

double time_to_all_warm_s(const Aircraft& aircraft, const Condition& condition) {
  const int off = engines_off(aircraft, condition);
  return off > 0 ? off * aircraft.engine_start_s + aircraft.engine_warm_up_s : 0.0;
}

EngineChoices engine_choices(const Brief& brief, const Air& air) {
  EngineChoices choices;
  Brief with = brief;
  for (int running = 1; running <= brief.aircraft.engine_count; ++running) {
    with.condition.engines_running = running;
    choices.rows.push(engine_choice(with, air));
  }
  return choices;
}

}  // namespace tillerline
