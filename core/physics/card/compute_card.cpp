#include "physics/card/compute_card.hpp"

#include <algorithm>

#include "physics/card/cautions.hpp"

namespace tillerline {
namespace {

void fill_turn_from_run(const Brief& brief, const Card& card, TurnAnswer& turn) {
  const RouteRun& run = card.run;
  const double displacement_drag_nspm2 = card.pavement.displacement_drag_nspm2;
  const Aircraft& aircraft = brief.aircraft;
  const std::size_t index = static_cast<std::size_t>(turn.leg);
  const Leg& leg = brief.route.legs[index];
  if (index < run.legs.size()) {
    turn.planned_entry_mps = run.legs[index].entry_mps;
    turn.exit_mps = run.legs[index].exit_mps;
    turn.peak_mps = run.legs[index].peak_mps;
  }
  const auto side_g = [&](double ahead_m) {
    return side_acceleration_mps2(turn.peak_mps, turn.rolling_radius_m, ahead_m) /
           units::kGravity_mps2;
  };
  turn.cockpit_side_g = side_g(aircraft.eye_ahead_m);
  turn.cabin_side_g =
      std::max(side_g(aircraft.cabin_front_ahead_m), side_g(aircraft.cabin_rear_behind_m));
  turn.gear_side_g = side_g(0.0);

  const double headwind_mps = index < run.legs.size() ? run.legs[index].headwind_mps : 0.0;
  RollForces forces = idle_forces(aircraft, brief.condition, card.air, leg.slope_rad, headwind_mps,
                                  displacement_drag_nspm2);
  forces.scrub_drag_n = turn.loads.scrub_drag_n;
  turn.idle_acceleration_mps2 = acceleration_mps2(roll_law(forces), turn.limit.speed_mps);

  // A restart is the one at the turn's worst heading; on a straight it would lack the scrub.
  const RestartPoint& restart = card.restart.points[index];
  turn.restart_thrust_n = restart.needed_n;
  turn.restart_extra_thrust_n = restart.extra_n;
  turn.restarts_at_idle = restart.extra_n <= 0.0;
  turn.restarts_at_idle_straight =
      restart.needed_n - turn.loads.scrub_drag_n <= card.roll.idle_thrust_n;
  turn.restart_within_limit = restart.within_limit;
}

TechniqueCost technique_cost(const Brief& brief, BrakeTechnique technique, const RouteRun& run) {
  TechniqueCost cost;
  cost.technique = technique;
  cost.applications = run.applications;
  cost.energy_j = run.brake_energy_j;
  cost.peak_k = run.peak_brake_k;
  cost.end_k = run.end_brake_k;
  cost.time_s = run.duration_s;
  cost.fuel_kg = run.fuel_kg;
  cost.wear_by_energy = brief.aircraft.brake_material == BrakeMaterial::Steel;
  cost.wear_cost =
      cost.wear_by_energy ? 0.0 : run.applications * brief.technique.cost_per_application;
  return cost;
}

void fill_heat(const Brief& brief, const Air& air, Card& card) {
  HeatAnswer& heat = card.heat;
  heat.start_k = brief.condition.brake_temperature_k;
  heat.end_k = card.run.end_brake_k;
  heat.peak_k = card.run.peak_brake_k;
  heat.rise_k = heat.peak_k - heat.start_k;
  heat.applications = card.run.applications;
  heat.energy_j = card.run.brake_energy_j;
  heat.limit_k = departure_limit_k(brief);
  heat.within_limit = heat.end_k <= heat.limit_k;
  if (heat.within_limit) return;
  const HeatPack pack = heat_pack(brief.aircraft, air.temperature_k, brief.condition.fans_on);
  const CoolingTime wait = time_between_temperatures(pack, heat.end_k, heat.limit_k, 0.0);
  heat.wait_s = wait.time_s;
  heat.wait_reaches_limit = wait.reached;
}

// The run with each braking technique; the brief's own is the card's.
void fill_runs(const Brief& brief, Card& card) {
  for (const BrakeTechnique technique :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
    const RouteRun run = run_route(brief, card.air, technique, card.turns);
    card.heat.techniques[static_cast<int>(technique)] = technique_cost(brief, technique, run);
    if (technique == brief.technique.braking) card.run = run;
  }
}

// Restart anywhere, the yaw it needs to be held with, and how far behind it is felt.
void fill_restart(const Brief& brief, Card& card) {
  card.restart = restart_answer(brief, card.air, card.turns);
  const RestartPoint* const worst = worst_point(card.restart);
  const double thrust_n = worst != nullptr ? worst->needed_n : card.roll.idle_thrust_n;
  const int leg = worst != nullptr ? worst->leg : -1;
  card.yaw = thrust_yaw(brief.aircraft, brief.condition,
                        std::max(thrust_n, card.roll.idle_thrust_n), side_grip(card.pavement, 0.0));
  card.blast = blast_answer(brief, card.air, thrust_n, leg);
}

}  // namespace

void compute_card(const Brief& brief, Card& out) {
  out = Card{};
  out.air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  out.pavement = pavement_state(brief.aircraft, brief.day);
  out.surface_limits = limits_on_surface(brief, out.pavement);
  // From here on everything is for the surface of the day, and for the brakes as they are when the
  // taxi begins.
  Brief today = tightened_for_surface(brief, out.surface_limits);
  today.condition.brake_temperature_k = brakes_at_taxi_out_k(today, out.air);

  out.roll = roll_answer(today, out.air);
  plan_turns(today, out.air, out.turns);
  fill_runs(today, out);
  fill_restart(today, out);
  for (TurnAnswer& turn : out.turns) {
    fill_turn_from_run(today, out, turn);
    const double speed_mps = std::max(turn.planned_entry_mps, 1.0);
    out.tracks.push(track_answer(today, turn.leg, speed_mps));
  }
  fill_heat(today, out.air, out);
  out.stop = stop_answer(today, out.run.stop_application);
  out.engines = engine_choices(today, out.air);
  out.after_landing = after_landing(today, out.air, out.run);
  out.standards = standards_answer(today, out.tracks, out.turns);
  if (today.route.half_turn_width_m > 0.0)
    out.half_turn = half_turn(today.aircraft, today.limits, today.route.half_turn_width_m);
  out.uncertainty =
      uncertainty_answer(today, out.air, out.pavement, out.turns, out.run, out.heat.limit_k);
  fill_cautions(today, out);
}

}  // namespace tillerline
