#include "physics/card/compute_card.hpp"

#include <algorithm>

#include "physics/card/card_gate.hpp"
#include "physics/card/cautions.hpp"
#include "physics/run/brake_use.hpp"
#include "physics/run/hottest_brake.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/make_today.hpp"
#include "physics/run/route_plan.hpp"

namespace tillerline {
namespace {

// What the turn feels at its fastest.
void fill_side_loads(const Aircraft& aircraft, TurnAnswer& turn) {
  const auto side_g = [&](double ahead_m) {
    return centripetal_acceleration_mps2(turn.peak_mps, turn.rolling_radius_m, ahead_m) /
           units::kGravity_mps2;
  };
  turn.cockpit_side_g = side_g(aircraft.eye_ahead_m);
  turn.cabin_side_g =
      std::max(side_g(aircraft.cabin_front_ahead_m), side_g(aircraft.cabin_rear_behind_m));
  turn.gear_side_g = side_g(0.0);
}

void fill_turn_from_run(const Today& today, const PlannedLeg& leg, const Card& card,
                        TurnAnswer& turn) {
  const auto index = static_cast<std::size_t>(turn.leg);
  const bool reached = index < card.run.legs.size();
  if (reached) {
    const LegResult& run = card.run.legs[index];
    turn.planned_entry_mps = run.entry_mps;
    turn.exit_mps = run.exit_mps;
    turn.peak_mps = run.peak_mps;
  }
  fill_side_loads(today.aircraft, turn);
  RollForces forces = leg.forces;
  if (!reached) forces.headwind_mps = 0.0;  // where no run gets to: as in calm air
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

TechniqueCost technique_cost(const Today& today, BrakeTechnique technique, const RouteRun& run) {
  TechniqueCost cost;
  cost.technique = technique;
  cost.applications = run.applications;
  cost.energy_j = run.brake_energy_j;
  cost.peak_k = run.peak_brake_k;
  cost.end_k = run.end_brake_k;
  cost.hottest_k = hottest_brake(today, today.worst_brake, run).highest_k;
  cost.time_s = run.duration_s;
  cost.fuel_kg = run.fuel_kg;
  const BrakeUse use = brake_use(run, today.probe);
  cost.on_s = use.on_s;
  cost.most_wear_j = use.most_wear_j;
  cost.wear_by_energy = today.aircraft.brake_material == BrakeMaterial::Steel;
  const bool by_count = !cost.wear_by_energy && technique != BrakeTechnique::Dragging;
  cost.wear_cost = by_count ? run.applications * today.technique.cost_per_application : 0.0;
  return cost;
}

void fill_heat(const Today& today, Card& card) {
  HeatAnswer& heat = card.heat;
  heat.start_k = today.brakes_k;
  heat.end_k = card.run.end_brake_k;
  heat.peak_k = card.run.peak_brake_k;
  heat.rise_k = heat.peak_k - heat.start_k;
  heat.applications = card.run.applications;
  heat.energy_j = card.run.brake_energy_j;
  heat.reading = today.limits.brake_reading;
  heat.hottest = hottest_brake(today, today.worst_brake, card.run);
  heat.limit_k = today.departure_limit_k;
  heat.limit_pack_k = brake_as_read(today.probe, heat.reading, heat.limit_k).pack_k;
  heat.within_limit = heat.hottest.highest_k <= heat.limit_k;
  if (heat.within_limit) return;
  const BrakeState& at_stop = heat.hottest.at_stop;
  const CoolingTime wait =
      time_to_reading(today.pack, today.probe, at_stop, heat.reading, heat.limit_k);
  heat.wait_s = wait.time_s;
  heat.wait_reaches_limit = wait.reached;
}

// The run with each braking technique; the brief's own is the card's.
void fill_runs(const Today& today, const RoutePlan& plan, Card& card) {
  for (const BrakeTechnique technique :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
    const RouteRun run = run_route(today, plan, technique);
    card.heat.techniques[static_cast<int>(technique)] = technique_cost(today, technique, run);
    if (technique == today.technique.braking) card.run = run;
  }
}

// Restart anywhere, the yaw it needs to be held with, and how far behind it is felt.
void fill_restart(const Today& today, const Legs& legs, Card& card) {
  card.restart = restart_answer(today, legs, card.turns);
  const RestartPoint* const worst = worst_point(card.restart);
  const double thrust_n = worst != nullptr ? worst->needed_n : card.roll.idle_thrust_n;
  const int leg = worst != nullptr ? worst->leg : -1;
  card.yaw =
      thrust_yaw(today.aircraft, today.condition, std::max(thrust_n, card.roll.idle_thrust_n),
                 side_grip(today.pavement, 0.0));
  card.blast = blast_answer(today, thrust_n, leg);
}

// The plan with a point between eye and main gear on the line, where the technique asks for one.
void fill_point(const Today& today, const TaxiRoute& route, double speed_mps, TrackAnswer& track) {
  const TurnTechnique technique = today.technique.turning;
  if (!Technique::is_between(technique)) return;
  track.followed = best_followed_point(today.aircraft, route, track.leg, speed_mps,
                                       WantedMargins::of(today.limits));
  double ahead_m = track.followed.ahead_m;
  if (technique == TurnTechnique::LeastOutside) ahead_m = track.followed.high_m;
  if (technique == TurnTechnique::PointOnLine)
    ahead_m = std::clamp(today.technique.followed_ahead_m - track.turn_axis_ahead_m, 0.0,
                         std::max(0.0, track.followed.eye_m));
  track.point_on_line = plan_with_point(today.aircraft, route, track.leg, speed_mps, ahead_m);
  track.point_on_line.technique = technique;
}

void fill_turns(const Today& today, const Legs& legs, const RoutePlan& plan, Card& card) {
  for (TurnAnswer& turn : card.turns) {
    fill_turn_from_run(today, plan.legs[static_cast<std::size_t>(turn.leg)], card, turn);
    const double speed_mps = std::max(turn.planned_entry_mps, 1.0);
    card.tracks.push(track_answer(today.aircraft, legs.route, today.limits.nose_clearance_m,
                                  turn.leg, speed_mps));
    fill_point(today, legs.route, speed_mps, card.tracks.back());
  }
}

void fill_wander(const Today& today, double sigma_m, Card& card) {
  for (const TrackAnswer& track : card.tracks) {
    const Wander wander = wander_of(today.aircraft, track.turn_axis_ahead_m, sigma_m);
    card.wander.push({track.leg,
                      wander_in_turn(wander, track.eye_on_line.margins, today.limits),
                      wander_in_turn(wander, track.gear_on_line.margins, today.limits),
                      {}});
    if (track.point_on_line.samples > 0)
      card.wander.back().point_on_line =
          wander_in_turn(wander, track.point_on_line.margins, today.limits);
  }
}

}  // namespace

void compute_card(const Brief& brief, Card& out, Uncertainty uncertainty) {
  out = Card{};
  const Today today = make_today(brief);
  const Legs legs = make_legs(today, brief.route);
  const RoutePlan plan = plan_route(today, legs);
  out.air = today.air;
  out.pavement = today.pavement;
  out.surface_limits = today.surface_limits;
  out.roll = roll_answer(today, legs);
  out.turns = plan.turns;
  fill_runs(today, plan, out);
  fill_restart(today, legs, out);
  fill_turns(today, legs, plan, out);
  fill_wander(today, brief.bands.wander_sigma_m, out);
  fill_heat(today, out);
  out.stop = stop_answer(today.aircraft, today.limits, legs.route, out.run.stop_application);
  out.engines = engine_choices(today, legs.route);
  out.after_landing = after_landing(today, brief.turnaround, out.run);
  out.standards = standards_answer(today.aircraft, legs.route, out.tracks, out.turns);
  if (legs.route.half_turn_width_m > 0.0)
    out.half_turn = half_turn(today.aircraft, today.limits, legs.route.half_turn_width_m);
  if (uncertainty == Uncertainty::Drawn)
    out.uncertainty = uncertainty_answer(today, legs, brief.bands, out.turns, out.run);
  gate_card(brief, out);
  fill_cautions(today, legs.route, out);
}

}  // namespace tillerline
