#include "physics/card/card_gate.hpp"

#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <limits>

#include "physics/path/crossing.hpp"

namespace tillerline {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
constexpr double kRounding_k = 1e-6;

bool known(const Spread& s) {
  return std::isfinite(s.p10) && std::isfinite(s.p50) && std::isfinite(s.p90);
}

struct Gate {
  Card& card;
  double coldest_k;
  double hottest_k;

  void note(const char* what, int leg, WithheldReason reason) {
    for (const Withheld& known : card.withheld)
      if (known.what == what && known.reason == reason && known.leg == leg) return;
    card.withheld.push({what, reason, leg});
  }

  void finite(const char* what, int leg, std::initializer_list<double*> values) {
    for (double* value : values) {
      if (std::isfinite(*value)) continue;
      *value = kNone;
      note(what, leg, WithheldReason::NotFinite);
    }
  }

  // A number that was worked out from a temperature, which has been through the gate.
  void follows(const char* what, double temperature_k, double& value) {
    if (std::isnan(temperature_k))
      value = kNone;
    else
      finite(what, -1, {&value});
  }

  // Why a temperature cannot be so; false where it can.
  bool wrong(double k, WithheldReason& reason) const {
    if (!std::isfinite(k))
      reason = WithheldReason::NotFinite;
    else if (k > hottest_k)
      reason = WithheldReason::TooHot;
    else if (k < coldest_k - kRounding_k)
      reason = WithheldReason::TooCold;
    else
      return false;
    return true;
  }

  void brakes(const char* what, int leg, std::initializer_list<double*> temperatures_k) {
    for (double* k : temperatures_k) {
      WithheldReason reason{};
      if (!wrong(*k, reason)) continue;
      *k = kNone;
      note(what, leg, reason);
    }
  }

  void spread(const char* what, Spread& s) {
    WithheldReason reason = WithheldReason::NotFinite;
    if (known(s)) {
      if (s.p10 <= s.p50 && s.p50 <= s.p90) return;
      reason = WithheldReason::OutOfOrder;
    }
    s = {kNone, kNone, kNone};
    note(what, -1, reason);
  }

  void brake_spread(const char* what, Spread& s) {
    spread(what, s);
    if (std::isnan(s.p50)) return;
    for (const double k : {s.p10, s.p50, s.p90}) {
      WithheldReason reason{};
      if (!wrong(k, reason)) continue;
      s = {kNone, kNone, kNone};
      note(what, -1, reason);
      return;
    }
  }

  // `known`: the numbers that it was counted from were.
  void chance(const char* what, int leg, bool known, double& share) {
    if (known && share >= 0.0 && share <= 1.0) return;
    note(what, leg,
         known && std::isfinite(share) ? WithheldReason::OutOfOrder : WithheldReason::NotFinite);
    share = kNone;
  }
};

void gate_roll(Gate& gate, RollAnswer& r) {
  gate.finite(
      "roll", -1,
      {&r.idle_thrust_n, &r.idle_thrust_per_weight, &r.breakaway_margin_n, &r.acceleration_mps2,
       &r.terminal.speed_mps, &r.keeps_rolling_slope_rad, &r.restarts_slope_rad, &r.start_thrust_n,
       &r.extra_thrust_n, &r.thrust_lost_to_wind_n, &r.slope_rad, &r.headwind_mps,
       &r.level_acceleration_mps2});
  for (RollTarget& t : r.targets)
    gate.finite("roll", -1, {&t.speed_mps, &t.passage.time_s, &t.passage.distance_m});
}

void gate_turn(Gate& gate, TurnAnswer& t) {
  gate.finite("turn", t.leg,
              {&t.turn_rad,
               &t.radius_m,
               &t.rolling_radius_m,
               &t.grip,
               &t.uneven_moment_nm,
               &t.loads.scrub_drag_n,
               &t.loads.scrub_moment_nm,
               &t.loads.nose_side_force_n,
               &t.loads.nose_grip_needed,
               &t.loads.nose_angle_rad,
               &t.cornering.at_limit_n,
               &t.cornering.offset_n,
               &t.cornering.rise_nspm2,
               &t.limit.speed_mps,
               &t.window.lower_mps,
               &t.window.upper_mps,
               &t.window.opening_thrust_n,
               &t.planned_entry_mps,
               &t.exit_mps,
               &t.peak_mps,
               &t.cockpit_side_g,
               &t.cabin_side_g,
               &t.gear_side_g,
               &t.idle_acceleration_mps2,
               &t.restart_thrust_n,
               &t.restart_extra_thrust_n});
}

void gate_plan(Gate& gate, int leg, TrackPlan& p) {
  gate.finite("track", leg,
              {&p.followed_ahead_m,
               &p.followed_behind_eye_m,
               &p.steering_rad,
               &p.steering_rate_radps,
               &p.shift_m,
               &p.start_before_arc_m,
               &p.eye_past_arc_begin_m,
               &p.nose_overshoot_m,
               &p.eye_overshoot_m,
               &p.nose_off_line_m,
               &p.gear_off_line_m,
               &p.smallest_gear_radius_m,
               &p.wing_reach_m,
               &p.tail_reach_m,
               &p.main_outside_m,
               &p.main_inside_m,
               &p.wing_outside_m,
               &p.wing_inside_m,
               &p.tail_swing_m,
               &p.margins.left_main.margin_m,
               &p.margins.right_main.margin_m,
               &p.margins.nose.margin_m,
               &p.margins.left_main.bend_pm,
               &p.margins.right_main.bend_pm,
               &p.margins.nose.bend_pm});
  for (TurnCue* cue : {&p.from_left, &p.from_right})
    gate.finite("track", leg,
                {&cue->sight.azimuth_rad, &cue->sight.below_rad, &cue->sight.distance_m,
                 &cue->past_bend_m});
  for (int i = 0; i < p.samples; ++i)
    gate.finite(
        "track", leg,
        {&p.pose[i].gear.x_m, &p.pose[i].gear.y_m, &p.pose[i].heading_rad, &p.nose_wheel_rad[i]});
}

void gate_track(Gate& gate, TrackAnswer& t) {
  gate.finite(
      "track", t.leg,
      {&t.radius_m, &t.turn_rad, &t.eye_side_m, &t.steering_limit_rad, &t.turn_axis_ahead_m,
       &t.crossing.radius_m, &t.crossing.steering_rad, &t.crossing.allowed_excursion_m,
       &t.crossing.nose_excursion_m, &t.crossing.eye_excursion_m, &t.crossing.equal_split_m});
  const std::initializer_list<double*> past_crossing = {
      &t.eye_on_line.eye_past_crossing_m,   &t.gear_on_line.eye_past_crossing_m,
      &t.point_on_line.eye_past_crossing_m, &t.crossing.gear_before_crossing_m,
      &t.crossing.nose_past_crossing_m,     &t.crossing.eye_past_crossing_m};
  if (std::abs(t.turn_rad) > kLargestThatCrosses_rad) {
    for (double* value : past_crossing) *value = kNone;
    gate.note("crossing of the lines", t.leg, WithheldReason::NoCrossing);
  } else {
    gate.finite("crossing of the lines", t.leg, past_crossing);
  }
  gate_plan(gate, t.leg, t.eye_on_line);
  gate_plan(gate, t.leg, t.gear_on_line);
  if (t.point_on_line.samples == 0) return;
  gate_plan(gate, t.leg, t.point_on_line);
  gate.finite("track", t.leg,
              {&t.followed.ahead_m, &t.followed.best_m, &t.followed.eye_m, &t.followed.surplus_m,
               &t.followed.low_m, &t.followed.high_m});
}

// Margins that are none have been named already; chances from them are none, too.
void gate_wander(Gate& gate, const TrackAnswer& track, TurnWander& turn) {
  const auto chances = [&](const EdgeMargins& margins, WanderChance& chance) {
    double sum = 0.0;
    for (const EdgeMargin* edge : {&margins.left_main, &margins.right_main, &margins.nose})
      sum += edge->margin_m + edge->bend_pm;
    if (std::isnan(sum)) {
      chance = {kNone, kNone};
      return;
    }
    gate.chance("chance at the edge", turn.leg, true, chance.off_edge);
    gate.chance("chance at the edge", turn.leg, true, chance.below_clearance);
  };
  chances(track.eye_on_line.margins, turn.eye_on_line);
  chances(track.gear_on_line.margins, turn.gear_on_line);
  chances(track.point_on_line.margins, turn.point_on_line);
}

void gate_heat(Gate& gate, HeatAnswer& h) {
  HottestBrake& hottest = h.hottest;
  gate.brakes("brake temperature", -1,
              {&h.start_k, &h.end_k, &h.peak_k, &hottest.start.pack_k, &hottest.start.indicated_k,
               &hottest.at_stop.pack_k, &hottest.at_stop.indicated_k, &hottest.on_way_k,
               &hottest.highest_k});
  gate.finite("brakes", -1, {&h.energy_j, &h.limit_k, &h.limit_pack_k});
  gate.follows("brakes", h.peak_k, h.rise_k);
  gate.follows("brakes", hottest.highest_k, hottest.highest_s);
  gate.follows("brakes", hottest.highest_k, h.wait_s);
  for (TechniqueCost& t : h.techniques) {
    gate.brakes("brake temperature", -1, {&t.peak_k, &t.end_k, &t.hottest_k});
    gate.finite("brakes", -1,
                {&t.energy_j, &t.time_s, &t.fuel_kg, &t.on_s, &t.most_wear_j, &t.wear_cost});
  }
}

void gate_run(Gate& gate, RouteRun& run) {
  gate.brakes("brake temperature", -1, {&run.peak_brake_k, &run.end_brake_k});
  gate.finite("run", -1,
              {&run.length_m, &run.duration_s, &run.fuel_kg, &run.co2_kg, &run.brake_energy_j});
  Application& last = run.stop_application;
  gate.finite("run", -1,
              {&last.v0_mps, &last.v1_mps, &last.start_mps2, &last.peak_mps2, &last.end_mps2,
               &last.rise_s, &last.hold_s, &last.fall_s, &last.length_m, &last.duration_s});
  int index = 0;
  for (LegResult& l : run.legs) {
    gate.brakes("brake temperature", -1, {&l.brake_end_k});
    gate.finite("run", index++,
                {&l.start_m, &l.length_m, &l.entry_mps, &l.exit_mps, &l.peak_mps, &l.start_s,
                 &l.duration_s, &l.first_application_m, &l.first_application_to_mps,
                 &l.extra_thrust_n, &l.hardest_braking_mps2, &l.allowed_exit_mps, &l.limit_mps,
                 &l.headwind_mps, &l.idle_acceleration_mps2, &l.deceleration_mps2,
                 &l.brake_friction, &l.brake_friction_used});
  }
  for (Piece& p : run.pieces) {
    gate.brakes("brake temperature", -1, {&p.brake_start_k, &p.brake_end_k});
    gate.finite("run", p.leg,
                {&p.start_m, &p.start_s, &p.length_m, &p.duration_s, &p.v0_mps, &p.v1_mps,
                 &p.brake_energy_j, &p.extra_thrust_n, &p.fuel_kg});
  }
}

void gate_stop(Gate& gate, StopAnswer& s) {
  gate.finite("stop", -1,
              {&s.obscured_m, &s.nose_ahead_of_eye_m, &s.eye_before_line_m, &s.nose_before_line_m,
               &s.nose_gear_before_line_m, &s.gear_before_line_m, &s.tail_before_line_m,
               &s.nose_before_line_when_lost_m, &s.left_when_lost_m, &s.left_when_lost_s,
               &s.approach_mps, &s.speed_when_lost_mps, &s.brake_distance_m, &s.brake_time_s,
               &s.eye_before_line_at_brake_m});
}

void gate_day(Gate& gate, Card& c) {
  gate.finite(
      "air", -1,
      {&c.air.temperature_k, &c.air.pressure_pa, &c.air.density_kgpm3, &c.air.sound_speed_mps});
  SurfaceLimits& s = c.surface_limits;
  gate.finite("surface", -1,
              {&c.pavement.depth_m, &c.pavement.density_kgpm3, &c.pavement.tyre_pressure_pa,
               &c.pavement.displacement_drag_nspm2, &c.pavement.snow_drag_nspm,
               &c.pavement.rear_rows_share, &s.planned_deceleration_mps2, &s.braking_friction,
               &s.most_deceleration_mps2, &s.straight_speed_mps, &s.sharp_turn_speed_mps,
               &s.gentle_turn_speed_mps, &s.deceleration_mps2});
  gate.finite("uneven thrust", -1,
              {&c.yaw.arm_m, &c.yaw.moment_nm, &c.yaw.nose_side_force_n, &c.yaw.nose_grip_needed,
               &c.yaw.steering_rad});
}

void gate_engines(Gate& gate, EngineChoices& engines) {
  for (EngineChoice& e : engines.rows) {
    gate.brakes("brake temperature", -1, {&e.end_k, &e.peak_k, &e.hottest_k});
    gate.finite("engines", -1,
                {&e.time_s, &e.warm_up_wait_s, &e.fuel_kg, &e.co2_kg, &e.brake_energy_j,
                 &e.restart_margin_n, &e.nose_grip_needed});
  }
}

void gate_after_landing(Gate& gate, AfterLanding& a) {
  gate.finite("brakes", -1,
              {&a.landing_energy_j, &a.taxi_in_energy_j, &a.shares.mean_share,
               &a.shares.worst_share, &a.shares.dragging_force_n, &a.limit_k,
               &a.energy_per_application_j, &a.taxi_out_from_s, &a.wheels_heat_on_s});
  for (BrakeTimes* b : {&a.mean, &a.worst})
    gate.brakes("brake temperature", -1,
                {&b->after_stop_k, &b->at_stand_k, &b->off_stand_k, &b->line_up_k, &b->peak_k,
                 &b->off_stand_indicated_k, &b->line_up_indicated_k});
  gate.follows("brakes", a.worst.line_up_k, a.longer_stand_s);
  for (HeatPoint& p : a.points) {
    gate.finite("brakes", -1, {&p.time_s});
    gate.brakes("brake temperature", -1, {&p.mean_k, &p.worst_k, &p.indicated_k});
  }
}

void gate_restart(Gate& gate, Card& c) {
  for (RestartPoint& p : c.restart.points)
    gate.finite("restart", p.leg,
                {&p.at_m, &p.needed_n, &p.extra_n, &p.per_engine_n, &p.share_of_limit,
                 &p.nose_grip_needed});
  BlastAnswer& b = c.blast;
  gate.finite("blast", -1, {&b.idle_n, &b.restart_n, &b.growth, &b.manual_contour_m});
  for (BlastReach(*reaches)[3] : {&b.idle, &b.restart})
    for (BlastReach& reach : *reaches)
      gate.finite("blast", -1,
                  {&reach.velocity_mps, &reach.single_m, &reach.merged_m, &reach.ground_m});
}

void gate_room(Gate& gate, Card& c) {
  for (RuleVerdict& v : c.standards.verdicts)
    gate.finite("standards", v.leg, {&v.wanted, &v.actual});
  HalfTurn& t = c.half_turn;
  gate.finite("half turn", -1,
              {&t.width_m, &t.needed_m, &t.bare_m, &t.spare_m, &t.steering_rad, &t.gear_radius_m,
               &t.nose_radius_m, &t.wing_tip_radius_m, &t.tail_radius_m, &t.nose_tip_radius_m,
               &t.gear_from_edge_m, &t.wing_beyond_edge_m, &t.tail_beyond_edge_m});
}

void gate_uncertainty(Gate& gate, UncertaintyAnswer& u) {
  if (u.draws == 0) return;
  // Counted from the same draws as the temperature, whatever else is wrong with that.
  const bool heat_known = known(u.line_up_k) && known(u.hottest_k);
  gate.finite("uncertainty", -1, {&u.target_mps});
  gate.spread("time to the target", u.time_to_target_s);
  gate.spread("distance to the target", u.distance_to_target_m);
  gate.spread("slope on which it keeps rolling", u.keeps_rolling_slope_rad);
  gate.spread("slope on which it starts", u.restarts_slope_rad);
  gate.spread("thrust of a restart", u.restart_extra_n);
  gate.brake_spread("band of the brake temperature", u.line_up_k);
  gate.brake_spread("band of the brake temperature", u.hottest_k);
  const bool roll_known = known(u.keeps_rolling_slope_rad) && known(u.restarts_slope_rad);
  gate.chance("chance to roll", -1, roll_known, u.rolls_by_itself);
  gate.chance("chance to reach the target", -1, roll_known, u.reaches_target);
  gate.chance("chance of hot brakes", -1, heat_known, u.over_brake_limit);
  gate.chance("chance of no restart", -1, known(u.restart_extra_n), u.restart_over_limit);
  for (TurnChance& turn : u.turns) {
    gate.chance("chance in a turn", turn.leg, roll_known, turn.runs_away);
    gate.chance("chance in a turn", turn.leg, roll_known, turn.stalls);
  }
  for (Importance(*ranking)[kUnknowns] : {&u.roll_ranking, &u.heat_ranking})
    for (Importance& item : *ranking) gate.finite("ranking", -1, {&item.first, &item.total});
}

// All that hangs on the force of a start from rest.
void gate_start(Gate& gate, Card& c) {
  if (c.pavement.start_modelled) return;
  gate.note("start from rest", -1, WithheldReason::NotModelled);
  const auto hide = [](std::initializer_list<double*> values) {
    for (double* value : values) *value = kNone;
  };
  RollAnswer& r = c.roll;
  hide({&r.breakaway_margin_n, &r.restarts_slope_rad, &r.start_thrust_n, &r.extra_thrust_n});
  for (TurnAnswer& t : c.turns) {
    hide({&t.restart_thrust_n, &t.restart_extra_thrust_n});
    t.restarts_at_idle = t.restarts_at_idle_straight = false;
  }
  c.restart = RestartAnswer{};
  c.restart.idle_everywhere = false;
  for (EngineChoice& e : c.engines.rows) hide({&e.restart_margin_n});
  hide({&c.blast.restart_n, &c.blast.growth});
  for (BlastReach& reach : c.blast.restart)
    hide({&reach.single_m, &reach.merged_m, &reach.ground_m});
  UncertaintyAnswer& u = c.uncertainty;
  if (u.draws == 0) return;
  u.restarts_slope_rad = u.restart_extra_n = {kNone, kNone, kNone};
  hide({&u.rolls_by_itself, &u.restart_over_limit});
}

// The coldest that a brake can be in any draw: as the air, or as it began before the taxi or at
// touchdown.
double coldest_brake_k(const Brief& brief, double air_k) {
  const Condition& condition = brief.condition;
  const BrakeReading reading = brief.limits.brake_reading;
  const auto pack_k = [&](double read_k, bool fans_on) {
    return brake_as_read(brake_probe(brief.aircraft, air_k, fans_on), reading, read_k).pack_k;
  };
  const Probe probe = brake_probe(brief.aircraft, air_k, condition.fans_on);
  const double below_k = brief.bands.brakes_now_k.below * pack_per_reading(probe, reading);
  if (!brief.turnaround.included)
    return std::min(air_k, pack_k(condition.brake_temperature_k, condition.fans_on) - below_k);
  return std::min(air_k, pack_k(brief.turnaround.brakes_at_touchdown_k, false)) - below_k;
}

double hottest_brake_k(BrakeMaterial material) {
  return material == BrakeMaterial::Carbon ? kHottestCarbon_k : kHottestSteel_k;
}

}  // namespace

void gate_card(const Brief& brief, Card& card) {
  Gate gate{.card = card,
            .coldest_k = coldest_brake_k(brief, card.air.temperature_k),
            .hottest_k = hottest_brake_k(brief.aircraft.brake_material)};
  card.withheld.clear();
  gate_day(gate, card);
  gate_roll(gate, card.roll);
  for (TurnAnswer& turn : card.turns) gate_turn(gate, turn);
  for (TrackAnswer& track : card.tracks) gate_track(gate, track);
  for (std::size_t i = 0; i < card.wander.size(); ++i)
    gate_wander(gate, card.tracks[i], card.wander[i]);
  gate_heat(gate, card.heat);
  gate_run(gate, card.run);
  gate_stop(gate, card.stop);
  gate_engines(gate, card.engines);
  gate_after_landing(gate, card.after_landing);
  gate_restart(gate, card);
  gate_room(gate, card);
  gate_uncertainty(gate, card.uncertainty);
  gate_start(gate, card);
}

}  // namespace tillerline
