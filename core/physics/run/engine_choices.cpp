#include "physics/run/engine_choices.hpp"

#include <algorithm>

#include "physics/run/hottest_brake.hpp"
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

void fill_restart(const Today& today, const Legs& legs, const Turns& turns, EngineChoice& choice) {
  const RestartAnswer restart = restart_answer(today, legs, turns);
  const RestartPoint* const worst = worst_point(restart);
  if (worst == nullptr) return;
  const double idle_n = today.idle.thrust_n;
  choice.restart_margin_n = idle_n - worst->needed_n;
  choice.restart_leg = worst->leg;
  choice.restart_within_limit = worst->within_limit;
  const double thrust_n = std::max(idle_n, worst->needed_n);
  choice.nose_grip_needed =
      thrust_yaw(today.aircraft, today.condition, thrust_n, 1.0).nose_grip_needed;
}

EngineChoice engine_choice(const Today& today, const TaxiRoute& route) {
  const Aircraft& aircraft = today.aircraft;
  const Condition& condition = today.condition;
  const Legs legs = make_legs(today, route);
  const RoutePlan plan = plan_route(today, legs);
  const RouteRun run = run_route(today, plan, today.technique.braking);
  EngineChoice choice;
  choice.running = condition.engines_running;
  choice.possible = run.status == RunStatus::Complete;
  choice.even = thrust_yaw(aircraft, condition, 0.0, 1.0).even;
  choice.warm_up_wait_s = std::max(0.0, time_to_all_warm_s(aircraft, condition) - run.duration_s);
  choice.time_s = run.duration_s + choice.warm_up_wait_s;
  choice.fuel_kg = run.fuel_kg + choice.warm_up_wait_s * today.idle_fuel_kgps +
                   late_starters_fuel_kg(aircraft, condition);
  choice.co2_kg = kCo2PerFuel * choice.fuel_kg;
  choice.applications = run.applications;
  choice.brake_energy_j = run.brake_energy_j;
  choice.end_k = run.end_brake_k;
  choice.peak_k = run.peak_brake_k;
  choice.hottest_k = hottest_brake(today, today.worst_brake, run).highest_k;
  fill_restart(today, legs, plan.turns, choice);
  return choice;
}

}  // namespace

EngineChoices engine_choices(const Today& today, const TaxiRoute& route) {
  EngineChoices choices;
  for (int running = 1; running <= today.aircraft.engine_count; ++running)
    choices.rows.push(engine_choice(with_engines(today, running), route));
  return choices;
}

}  // namespace tillerline
