#include "physics/run/engine_choices.hpp"

#include <algorithm>

#include "physics/run/restart.hpp"
#include "physics/run/route_run.hpp"
#include "physics/world/engines.hpp"

namespace tillerline {
namespace {

// Fuel of the engines that are off at the start, from each one's start switch until all are warm.
double late_starters_fuel_kg(const Aircraft& aircraft, const Condition& condition) {
  Condition one = condition;
  one.engines_running = 1;
  const double off = aircraft.engine_count - condition.engines_running;
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

}  // namespace

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
