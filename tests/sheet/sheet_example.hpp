// A small taxi with a card filled in by hand, so that each test can bring about one edge of the
// wording without computing anything: a straight, a right turn, a straight to a holding line.
#pragma once

#include <memory>

#include "physics/numerics/units.hpp"
#include "sheet/build_sheet.hpp"
#include "sheet/sheet.hpp"

namespace tillerline::sheet_example {

inline double kt(double knots) { return units::mps_from_knots(knots); }
inline double celsius(double degrees) { return units::kelvin_from_celsius(degrees); }
inline double degrees(double value) { return units::radians_from_degrees(value); }

struct Example {
  BriefDocument document;
  std::unique_ptr<Card> card = std::make_unique<Card>();

  Sheet sheet() const { return build_sheet(document, *card); }
  void caution(CautionLevel level, CautionKind kind, int leg, double value, double limit = 0.0,
               int verdict = -1) {
    card->cautions.push({level, kind, leg, value, limit, verdict});
  }
};

inline Leg straight(double length_m, double slope_percent) {
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = slope_percent / 100.0;
  return leg;
}

inline Leg arc(double radius_m, double turn_deg) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = degrees(turn_deg);
  return leg;
}

inline void fill_document(BriefDocument& document) {
  document.aircraft.id = "test-four";
  document.aircraft.name = "Test four";
  document.aircraft.note = "Invented for tests.";
  document.route.id = "test-route";
  document.route.name = "Test route";
  document.route.aerodrome = "Test field";
  document.route.note = "Invented for tests.";
  document.route.from = "stand 12";
  document.route.to = "holding line B1";
  TaxiRoute& route = document.brief.route;
  route.legs.push(straight(420.0, -0.2));
  route.legs.push(arc(45.0, 90.0));
  route.legs.push(straight(260.0, 0.0));
  document.brief.condition.mass_kg = 298e3;
  document.brief.condition.brake_temperature_k = celsius(85.0);
  document.brief.day.temperature_k = celsius(14.0);
  document.brief.day.qnh_pa = 100900.0;
  document.brief.day.wind_speed_mps = kt(8.0);
  document.brief.day.wind_from_rad = degrees(250.0);
}

inline void fill_roll(RollAnswer& roll) {
  roll.idle_thrust_n = 54e3;
  roll.idle_thrust_per_weight = 0.0185;
  roll.breakaway_margin_n = 6.2e3;
  roll.acceleration_mps2 = 0.081;
  roll.level_acceleration_mps2 = 0.0612;
  const double times_s[] = {31.0, 63.2, 101.0, 150.0};
  const double metres[] = {40.0, 165.4, 390.0, 1240.0};
  for (int i = 0; i < kRollTargets; ++i) {
    roll.targets[i].speed_mps = kt(5.0 * (i + 1));
    roll.targets[i].passage = {true, times_s[i], metres[i]};
  }
  roll.terminal = {true, kt(33.0)};
  roll.keeps_rolling_slope_rad = 0.008;
  roll.restarts_slope_rad = 0.003;
  roll.slope_rad = -0.002;
  roll.headwind_mps = kt(3.0);
}

inline void fill_turn(TurnAnswer& turn) {
  turn.leg = 1;
  turn.turn_rad = degrees(90.0);
  turn.radius_m = 45.0;
  turn.rolling_radius_m = 44.9;
  turn.loads = {14e3, 630e3, 20e3, 0.1, degrees(34.6)};
  turn.limit = {TurnLimit::Operator, kt(10.0)};
  turn.window = {WindowState::Open, kt(6.5), kt(8.5), 0.0};
  turn.planned_entry_mps = kt(8.1);
  turn.exit_mps = kt(7.2);
  turn.peak_mps = kt(8.1);
  turn.grip = 0.7;
  turn.cockpit_side_g = 0.05;
  turn.cabin_side_g = 0.04;
  turn.gear_side_g = 0.04;
  turn.idle_acceleration_mps2 = -0.02;
  turn.restarts_at_idle = false;
  turn.restarts_at_idle_straight = true;
  turn.restart_thrust_n = 79e3;
  turn.restart_extra_thrust_n = 25e3;
}

inline void fill_track(TrackAnswer& track) {
  track.leg = 1;
  track.radius_m = 45.0;
  track.turn_rad = degrees(90.0);
  track.eye_side_m = 0.53;
  track.steering_limit_rad = degrees(70.0);
  track.radius_reachable = true;
  TrackPlan& gear = track.gear_on_line;
  gear.technique = TurnTechnique::MainGearOnLine;
  gear.possible = true;
  gear.steering_rad = degrees(34.8);
  gear.eye_past_arc_begin_m = -31.0;
  gear.eye_past_crossing_m = 9.2;
  gear.nose_overshoot_m = 8.0;
  gear.eye_overshoot_m = 10.1;
  gear.gear_off_line_m = 0.1;
  gear.wing_reach_m = 38.0;
  gear.tail_reach_m = 22.0;
  gear.margins.left_main.margin_m = 5.2;
  gear.margins.right_main.margin_m = 4.16;
  gear.margins.nose.margin_m = 6.0;
  TrackPlan& eye = track.eye_on_line;
  eye = gear;
  eye.technique = TurnTechnique::EyeOnLine;
  eye.gear_off_line_m = 6.34;
  eye.margins.right_main.margin_m = -0.3;
  eye.nose_overshoot_m = 0.0;
  eye.eye_overshoot_m = 0.0;
}

inline void fill_heat(HeatAnswer& heat) {
  heat.start_k = celsius(85.0);
  heat.end_k = celsius(121.4);
  heat.peak_k = celsius(124.0);
  heat.rise_k = 39.0;
  heat.applications = 4;
  heat.energy_j = 45e6;
  heat.hottest = {.start = {celsius(97.0), celsius(85.0)},
                  .at_stop = {celsius(141.0), celsius(104.0)},
                  .on_way_k = celsius(104.0),
                  .highest_k = celsius(121.4),
                  .highest_s = 540.0};
  heat.limit_k = celsius(300.0);
  heat.limit_pack_k = celsius(350.0);
  const BrakeTechnique order[] = {BrakeTechnique::FewLong, BrakeTechnique::ManyShort,
                                  BrakeTechnique::Dragging};
  const int counts[] = {4, 11, 1};
  for (int i = 0; i < 3; ++i) {
    TechniqueCost& cost = heat.techniques[i];
    cost.technique = order[i];
    cost.applications = counts[i];
    cost.energy_j = 45e6;
    cost.end_k = celsius(121.4);
    cost.peak_k = celsius(124.0);
    cost.hottest_k = celsius(121.4);
    cost.time_s = 540.0;
    cost.fuel_kg = 640.0;
    cost.on_s = 100.0 + 20.0 * i;
    cost.most_wear_j = 27e6;
    cost.wear_cost = 40.0 * counts[i];
  }
}

inline void fill_stop(StopAnswer& stop) {
  stop.obscured_m = 16.48;
  stop.nose_ahead_of_eye_m = 2.5;
  stop.eye_before_line_m = 5.0;
  stop.nose_before_line_m = 2.5;
  stop.nose_gear_before_line_m = 8.0;
  stop.gear_before_line_m = 39.0;
  stop.tail_before_line_m = 70.0;
  stop.nose_before_line_when_lost_m = 13.98;
  stop.left_when_lost_m = 12.6;
  stop.left_when_lost_s = 5.0;
  stop.speed_when_lost_mps = kt(5.0);
  stop.approach_mps = kt(8.0);
  stop.brake_distance_m = 15.4;
  stop.brake_time_s = 7.5;
  stop.eye_before_line_at_brake_m = 20.4;
  stop.line_visible_at_brake = true;
}

inline void fill_run(RouteRun& run) {
  run.length_m = 2410.0;
  run.duration_s = 545.0;
  run.fuel_kg = 641.0;
  run.co2_kg = 2025.0;
  run.applications = 4;
  LegResult first;
  first.length_m = 420.0;
  first.peak_mps = kt(20.0);
  first.exit_mps = kt(8.1);
  first.duration_s = 72.0;
  first.brake_end_k = celsius(94.0);
  first.applications = 1;
  first.first_application_m = 330.0;
  first.first_application_to_mps = kt(7.0);
  LegResult turn;
  turn.length_m = 70.7;
  turn.entry_mps = turn.peak_mps = kt(8.1);
  turn.exit_mps = kt(7.2);
  turn.duration_s = 18.0;
  turn.brake_end_k = celsius(94.0);
  LegResult last;
  last.length_m = 260.0;
  last.entry_mps = kt(7.2);
  last.peak_mps = kt(12.0);
  last.duration_s = 65.0;
  last.brake_end_k = celsius(121.4);
  last.applications = 1;
  last.first_application_m = 240.0;
  run.legs.push(first);
  run.legs.push(turn);
  run.legs.push(last);
  Piece piece;
  piece.length_m = 420.0;
  run.pieces.push(piece);
}

inline Example example() {
  Example made;
  fill_document(made.document);
  made.card->turns.push(TurnAnswer{});
  made.card->tracks.push(TrackAnswer{});
  fill_roll(made.card->roll);
  fill_turn(made.card->turns[0]);
  fill_track(made.card->tracks[0]);
  fill_heat(made.card->heat);
  fill_stop(made.card->stop);
  fill_run(made.card->run);
  return made;
}

// The row with that label, or an empty one.
inline SheetRow row(const SheetSection& section, const std::string& label) {
  for (const SheetRow& candidate : section.rows) {
    if (candidate.label == label) return candidate;
  }
  return {};
}

}  // namespace tillerline::sheet_example
