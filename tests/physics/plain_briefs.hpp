// Briefs drawn at random without the documents: an aircraft of any size, on any day, over a short
// chain of legs. For properties that must hold everywhere; every number is invented.
#pragma once

#include "draws.hpp"
#include "physics/given/brief.hpp"

namespace tillerline::tests {

inline Aircraft draw_aircraft(Draws& draws) {
  Aircraft a;
  a.lowest_mass_kg = draws.between(60e3, 200e3);
  a.highest_mass_kg = a.lowest_mass_kg * draws.between(1.3, 2.2);
  a.engine_count = 2 + draws.below(3);
  a.idle_thrust_n = draws.between(0.012, 0.028) * 9.81 * a.highest_mass_kg / a.engine_count;
  a.idle_air_flow_kgps = a.idle_thrust_n / draws.between(45.0, 90.0);
  a.taxi_thrust_limit_n = a.idle_thrust_n * draws.between(2.0, 5.0);
  a.drag_area_m2 = draws.between(4.0, 15.0);
  a.rolling_resistance = draws.between(0.008, 0.016);
  a.breakaway_resistance = a.rolling_resistance * draws.between(1.0, 1.6);
  a.rolling_speed_factor_s2pm2 = draws.coin() ? 0.0 : draws.between(0.0, 1e-3);
  a.wheelbase_m = draws.between(12.0, 34.0);
  a.eye_ahead_m = a.wheelbase_m + draws.between(1.0, 5.0);
  a.nose_tip_ahead_m = a.eye_ahead_m + draws.between(1.5, 3.5);
  a.cabin_front_ahead_m = a.eye_ahead_m - draws.between(2.0, 5.0);
  a.cabin_rear_behind_m = a.wheelbase_m * draws.between(0.8, 1.1);
  a.tail_behind_m = a.cabin_rear_behind_m + draws.between(2.0, 6.0);
  a.wing_span_m = a.wheelbase_m * draws.between(1.8, 2.4);
  a.tailplane_span_m = a.wing_span_m * draws.between(0.25, 0.4);
  a.wing_tip_behind_m = draws.between(-2.0, 10.0);
  a.wheel_span_m = draws.between(6.0, 14.0);
  a.bogie_track_m = a.wheel_span_m * draws.between(0.75, 0.9);
  a.bogie_axles = 1 + draws.below(3);
  a.main_wheel_count = 4 * a.bogie_axles;
  a.brake_count = a.main_wheel_count;
  a.fan_convection_wpm2k = draws.coin() ? 0.0 : draws.between(10.0, 40.0);
  a.brake_material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel;
  a.heat_pack_mass_kg = draws.between(30.0, 80.0);
  return a;
}

inline Leg draw_straight(Draws& draws) {
  Leg leg;
  leg.length_m = draws.by_size(30.0, 1200.0);
  leg.slope_rad = draws.between(-0.012, 0.008);
  leg.speed_limit_mps = draws.below(4) == 0 ? draws.between(4.0, 12.0) : 0.0;
  return leg;
}

inline Leg draw_arc(Draws& draws) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = draws.between(30.0, 120.0);
  leg.turn_rad = draws.sign() * draws.between(0.3, 2.2);
  leg.slope_rad = draws.between(-0.008, 0.006);
  leg.widening_m = draws.between(0.0, 12.0);
  leg.lead_in_m = draws.coin() ? 0.0 : draws.between(10.0, 60.0);
  return leg;
}

// Begins and ends straight; dry or wet, as given.
inline Brief draw_plain_brief(Draws& draws) {
  Brief b;
  b.aircraft = draw_aircraft(draws);
  b.condition.mass_kg = draws.between(b.aircraft.lowest_mass_kg, b.aircraft.highest_mass_kg);
  b.condition.engines_running = b.aircraft.engine_count;
  b.condition.brake_temperature_k = draws.between(290.0, 500.0);
  b.condition.fans_on = draws.coin();
  b.condition.engine_anti_ice = draws.below(4) == 0;
  b.condition.brakes_inoperative = draws.below(4) == 0 ? 1 : 0;
  b.condition.dragging_brake_n = draws.below(4) == 0 ? draws.between(0.0, 3e3) : 0.0;
  b.day.temperature_k = draws.between(255.0, 315.0);
  b.day.qnh_pa = draws.between(97e3, 104e3);
  b.day.wind_speed_mps = draws.below(4) == 0 ? 0.0 : draws.between(0.0, 15.0);
  b.day.wind_from_rad = draws.between(0.0, 6.28);
  b.day.surface = draws.coin() ? Surface::Dry : Surface::Wet;
  b.route.start_elevation_m = draws.between(-20.0, 1500.0);
  b.route.start_heading_rad = draws.between(0.0, 6.28);
  b.route.start_speed_mps = draws.below(5) == 0 ? draws.between(0.0, 8.0) : 0.0;
  b.route.end = draws.coin() ? RouteEnd::HoldingLine : RouteEnd::StandMark;
  b.route.stop_bar_lit = draws.coin();
  b.route.legs.push(draw_straight(draws));
  const int turns = draws.below(4);
  for (int i = 0; i < turns; ++i) {
    b.route.legs.push(draw_arc(draws));
    if (draws.below(4) > 0) b.route.legs.push(draw_straight(draws));
  }
  Leg last = draw_straight(draws);
  last.length_m += 80.0;  // room for the aircraft itself behind the line
  b.route.legs.push(last);
  b.technique.turning = draws.coin() ? TurnTechnique::EyeOnLine : TurnTechnique::MainGearOnLine;
  return b;
}

}  // namespace tillerline::tests
