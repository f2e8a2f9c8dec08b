// Every number of a card, by hand: none may be forgotten silently, so they are grouped as the
// structs are. For tests that ask the same of all of them.
#pragma once

#include "physics/card/card.hpp"

namespace tillerline::tests {

// f(where, number) for each.
template <class F>
void every_number(const Card& c, F f) {
  for (double x :
       {c.air.temperature_k, c.air.pressure_pa, c.air.density_kgpm3, c.air.sound_speed_mps})
    f("air", x);
  const RollAnswer& r = c.roll;
  for (double x :
       {r.idle_thrust_n, r.idle_thrust_per_weight, r.breakaway_margin_n, r.acceleration_mps2,
        r.terminal.speed_mps, r.keeps_rolling_slope_rad, r.restarts_slope_rad, r.start_thrust_n,
        r.extra_thrust_n, r.slope_rad, r.headwind_mps, r.level_acceleration_mps2})
    f("roll", x);
  for (const RollTarget& t : r.targets)
    for (double x : {t.speed_mps, t.passage.time_s, t.passage.distance_m}) f("roll target", x);
  for (const TurnAnswer& t : c.turns)
    for (double x : {t.turn_rad,
                     t.radius_m,
                     t.rolling_radius_m,
                     t.loads.scrub_drag_n,
                     t.loads.scrub_moment_nm,
                     t.loads.nose_side_force_n,
                     t.loads.nose_grip_needed,
                     t.loads.nose_angle_rad,
                     t.limit.speed_mps,
                     t.window.lower_mps,
                     t.window.upper_mps,
                     t.window.opening_thrust_n,
                     t.planned_entry_mps,
                     t.exit_mps,
                     t.peak_mps,
                     t.cockpit_side_g,
                     t.cabin_side_g,
                     t.gear_side_g,
                     t.idle_acceleration_mps2,
                     t.restart_thrust_n,
                     t.restart_extra_thrust_n})
      f("turn", x);
  for (const TurnWander& w : c.wander)
    for (double x : {w.eye_on_line.off_edge, w.eye_on_line.below_clearance, w.gear_on_line.off_edge,
                     w.gear_on_line.below_clearance, w.point_on_line.off_edge,
                     w.point_on_line.below_clearance})
      f("wander", x);
  for (const TrackAnswer& t : c.tracks) {
    for (double x : {t.radius_m, t.turn_rad, t.eye_side_m, t.steering_limit_rad}) f("track", x);
    for (double x : {t.followed.ahead_m, t.followed.best_m, t.followed.eye_m, t.followed.surplus_m,
                     t.followed.low_m, t.followed.high_m})
      f("followed point", x);
    for (const TrackPlan* p : {&t.eye_on_line, &t.gear_on_line, &t.point_on_line}) {
      if (p->samples == 0) continue;
      for (double x : {p->followed_ahead_m,
                       p->followed_behind_eye_m,
                       p->steering_rad,
                       p->steering_rate_radps,
                       p->shift_m,
                       p->start_before_arc_m,
                       p->eye_past_arc_begin_m,
                       p->eye_past_crossing_m,
                       p->nose_overshoot_m,
                       p->eye_overshoot_m,
                       p->nose_off_line_m,
                       p->gear_off_line_m,
                       p->smallest_gear_radius_m,
                       p->wing_reach_m,
                       p->tail_reach_m,
                       p->margins.left_main.margin_m,
                       p->margins.right_main.margin_m,
                       p->margins.nose.margin_m,
                       p->margins.left_main.bend_pm,
                       p->margins.right_main.bend_pm,
                       p->margins.nose.bend_pm})
        f("track plan", x);
      for (int i = 0; i < p->samples; ++i)
        for (double x : {p->pose[i].gear.x_m, p->pose[i].gear.y_m, p->pose[i].heading_rad,
                         p->nose_wheel_rad[i]})
          f("pose", x);
    }
  }
  const HeatAnswer& h = c.heat;
  for (double x : {h.start_k, h.end_k, h.peak_k, h.rise_k, h.energy_j, h.limit_k, h.limit_pack_k,
                   h.wait_s, h.hottest.on_way_k, h.hottest.highest_k, h.hottest.highest_s})
    f("heat", x);
  for (const BrakeState& brake : {h.hottest.start, h.hottest.at_stop})
    for (double x : {brake.pack_k, brake.indicated_k}) f("hottest brake", x);
  for (const TechniqueCost& t : h.techniques)
    for (double x : {t.energy_j, t.peak_k, t.end_k, t.hottest_k, t.time_s, t.fuel_kg, t.on_s,
                     t.most_wear_j, t.wear_cost})
      f("technique", x);
  const StopAnswer& s = c.stop;
  for (double x :
       {s.obscured_m, s.nose_ahead_of_eye_m, s.eye_before_line_m, s.nose_before_line_m,
        s.nose_gear_before_line_m, s.gear_before_line_m, s.tail_before_line_m,
        s.nose_before_line_when_lost_m, s.left_when_lost_m, s.left_when_lost_s, s.approach_mps,
        s.speed_when_lost_mps, s.brake_distance_m, s.brake_time_s, s.eye_before_line_at_brake_m})
    f("stop", x);
  const RouteRun& run = c.run;
  for (double x : {run.length_m, run.duration_s, run.fuel_kg, run.co2_kg, run.brake_energy_j,
                   run.peak_brake_k, run.end_brake_k})
    f("run", x);
  for (const LegResult& l : run.legs)
    for (double x :
         {l.start_m, l.length_m, l.entry_mps, l.exit_mps, l.peak_mps, l.start_s, l.duration_s,
          l.brake_end_k, l.first_application_m, l.first_application_to_mps, l.extra_thrust_n,
          l.allowed_exit_mps, l.limit_mps, l.headwind_mps, l.idle_acceleration_mps2})
      f("leg", x);
  for (const Piece& p : run.pieces)
    for (double x : {p.start_m, p.start_s, p.length_m, p.duration_s, p.v0_mps, p.v1_mps,
                     p.brake_energy_j, p.brake_start_k, p.brake_end_k, p.extra_thrust_n, p.fuel_kg})
      f("piece", x);
  for (const Caution& w : c.cautions)
    for (double x : {w.value, w.limit}) f("caution", x);
}

}  // namespace tillerline::tests
