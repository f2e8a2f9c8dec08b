// Random turnarounds with a taxi after them, and the run that belongs to each.
#pragma once

#include "draws.hpp"
#include "physics/given/brief.hpp"
#include "physics/numerics/units.hpp"
#include "physics/run/after_landing.hpp"
#include "physics/run/route_run.hpp"
#include "stations.hpp"

namespace tillerline::tests {

struct TurnaroundCase {
  Brief brief;
  Air air;
  RouteRun run;
};

// Runs the brief's route with the packs as the turnaround leaves them.
inline void run_after_turnaround(TurnaroundCase& one) {
  static FixedList<TurnAnswer, kMaxLegs> turns;
  Brief brief = one.brief;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.condition.brake_temperature_k = brakes_at_taxi_out_k(one.brief, one.air);
  plan_turns(brief, one.air, turns);
  one.run = run_route(brief, one.air, brief.technique.braking, turns);
}

inline AfterLanding answer_of(const TurnaroundCase& one) {
  return after_landing(one.brief, one.air, one.run);
}

// What decides of the hottest brake.
inline double deciding_k(const TurnaroundCase& one) {
  return hottest_brake(one.brief, one.air, one.run).highest_k;
}

// The packs at the very begin, at touchdown or now.
inline double packs_at_first_k(const TurnaroundCase& one) {
  const Brief& brief = one.brief;
  if (!brief.turnaround.included) return brakes_now(brief, one.air).pack_k;
  const Probe probe = brake_probe(brief.aircraft, one.air.temperature_k, false);
  return brake_as_read(probe, brief.limits.brake_reading, brief.turnaround.brakes_at_touchdown_k)
      .pack_k;
}

inline Leg straight_leg(double length_m, double slope_rad) {
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_rad;
  return leg;
}

inline Leg arc_leg(double radius_m, double turn_deg, double slope_rad) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = units::radians_from_degrees(turn_deg);
  leg.slope_rad = slope_rad;
  return leg;
}

// A plain one: 250 t after a landing, 45 minutes on the stand, a level taxi with one turn.
inline TurnaroundCase plain_turnaround() {
  TurnaroundCase one;
  one.air = day_air(0.0, 101325.0, 288.15);
  one.brief.turnaround.included = true;
  one.brief.route.legs.push(straight_leg(900.0, -0.002));
  one.brief.route.legs.push(arc_leg(45.0, 90.0, 0.0));
  one.brief.route.legs.push(straight_leg(1200.0, -0.003));
  run_after_turnaround(one);
  return one;
}

inline TurnaroundCase draw_turnaround(Draws& draws) {
  TurnaroundCase one;
  Brief& brief = one.brief;
  Aircraft& aircraft = brief.aircraft;
  aircraft.brake_material = draws.below(4) == 0 ? BrakeMaterial::Steel : BrakeMaterial::Carbon;
  aircraft.brake_count = 8 + draws.below(9);
  aircraft.heat_pack_mass_kg = draws.between(45.0, 120.0);
  aircraft.brake_area_m2 = draws.between(0.5, 1.3);
  aircraft.brake_emissivity = draws.between(0.3, 1.0);
  aircraft.brake_convection_wpm2k = draws.between(3.0, 10.0);
  aircraft.fan_convection_wpm2k = draws.coin() ? draws.between(12.0, 40.0) : 0.0;
  aircraft.brake_heat_share = draws.between(0.8, 1.0);
  aircraft.probe_lag_s = draws.between(60.0, 600.0);
  aircraft.probe_share = draws.between(0.7, 1.0);
  aircraft.probe_share_fans = draws.between(0.4, 0.7);
  Condition& condition = brief.condition;
  condition.mass_kg = draws.between(180e3, 320e3);
  condition.engines_running = 1 + draws.below(4);
  condition.brake_temperature_k = draws.between(280.0, 450.0);
  condition.fans_on = draws.coin();
  condition.brakes_inoperative = draws.below(3);
  condition.worst_brake_extra = draws.below(3) == 0 ? 0.0 : draws.between(0.0, 0.5);
  condition.dragging_brake_n = draws.below(3) == 0 ? draws.between(200.0, 3000.0) : 0.0;
  Turnaround& turn = brief.turnaround;
  turn.included = draws.below(4) != 0;
  turn.landing_mass_kg = draws.between(150e3, 260e3);
  turn.touchdown_mps = units::mps_from_knots(draws.between(120.0, 150.0));
  turn.turn_off_mps = units::mps_from_knots(draws.between(8.0, 60.0));
  turn.reverse_share = draws.between(0.1, 0.6);
  turn.brakes_at_touchdown_k = draws.between(280.0, 340.0);
  turn.taxi_in_m = draws.between(500.0, 5000.0);
  turn.taxi_in_s = draws.between(100.0, 900.0);
  turn.stand_s = draws.below(5) == 0 ? draws.between(7200.0, 43200.0) : draws.between(0.0, 7200.0);
  turn.fans_at_stand = draws.coin();
  brief.technique.braking = static_cast<BrakeTechnique>(draws.below(3));
  const double slope = draws.between(-0.006, 0.002);
  brief.route.legs.push(straight_leg(draws.between(300.0, 1500.0), slope));
  brief.route.legs.push(arc_leg(draws.between(40.0, 90.0), draws.sign() * 90.0, slope));
  brief.route.legs.push(straight_leg(draws.between(300.0, 2500.0), slope));
  one.air = day_air(0.0, 101325.0, draws.between(260.0, 315.0));
  brief.limits.brake_reading = draws.coin() ? BrakeReading::Indicated : BrakeReading::HeatPack;
  run_after_turnaround(one);
  return one;
}

}  // namespace tillerline::tests
