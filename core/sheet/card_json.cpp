// The card as JSON: every number of it, SI, with the unit in the key, in the shortest digits that
// give the same double back. Left out are only the samples of the pictures (poses and nose-wheel
// angles along a turn, brake temperatures over time), which follow from the rest.
//
//   { "format": "tillerline/card", "version": 1, "program": "0.1.0",
//     "brief": { … the inputs, as `tillerline/brief` … },
//     "possible": true, "air": {…}, "roll": {…}, "turns": [{…}], "tracks": [{…}], "wander": [{…}],
//     "heat": {…},
//     "stop": {…}, "run": { …, "legs": [{…}], "pieces": [{…}] }, "surface": {…}, "yaw": {…},
//     "engines": [{…}], "after_landing": {…}, "restart": { …, "points": [{…}] }, "blast": {…},
//     "standards": { …, "verdicts": [{…}] }, "half_turn": {…} or null, "uncertainty": {…} or null,
//     "withheld": [{ "what", "reason", "leg" }],
//     "cautions": [{ "level", "kind", "leg", "value", "limit" }] }
//
// "leg" counts from 0. What has no value (no terminal speed, no application on a leg) is null; so
// is a number that the gate took back, and "withheld" says why.
#include <cmath>
#include <nlohmann/json.hpp>

#include "documents/options.hpp"
#include "sheet/parts.hpp"
#include "sheet/sheet.hpp"
#include "sheet/version.hpp"

namespace tillerline {
// The words of the card, one table an enumeration.
NLOHMANN_JSON_SERIALIZE_ENUM(RuleFamily, {{RuleFamily::Icao, "icao"}, {RuleFamily::Faa, "faa"}})
NLOHMANN_JSON_SERIALIZE_ENUM(RollVerdict, {{RollVerdict::RollsByItself, "rolls_by_itself"},
                                           {RollVerdict::KeepsRolling, "keeps_rolling"},
                                           {RollVerdict::NeedsThrust, "needs_thrust"},
                                           {RollVerdict::CannotMove, "cannot_move"},
                                           {RollVerdict::StartNotKnown, "start_not_known"}})
NLOHMANN_JSON_SERIALIZE_ENUM(TurnLimit, {{TurnLimit::Operator, "operator"},
                                         {TurnLimit::Leg, "leg"},
                                         {TurnLimit::Cockpit, "cockpit"},
                                         {TurnLimit::CabinFront, "cabin_front"},
                                         {TurnLimit::CabinRear, "cabin_rear"},
                                         {TurnLimit::MainGear, "main_gear"},
                                         {TurnLimit::NoseGrip, "nose_grip"}})
NLOHMANN_JSON_SERIALIZE_ENUM(WindowState, {{WindowState::Open, "open"},
                                           {WindowState::RunsAway, "runs_away"},
                                           {WindowState::Stalls, "stalls"},
                                           {WindowState::NoSpeed, "no_speed"}})
NLOHMANN_JSON_SERIALIZE_ENUM(PieceKind, {{PieceKind::Push, "push"},
                                         {PieceKind::Roll, "roll"},
                                         {PieceKind::Apply, "apply"},
                                         {PieceKind::Hold, "hold"},
                                         {PieceKind::Drag, "drag"}})
NLOHMANN_JSON_SERIALIZE_ENUM(RunStatus, {{RunStatus::Complete, "complete"},
                                         {RunStatus::NotEnoughThrust, "not_enough_thrust"},
                                         {RunStatus::TooManyPieces, "too_many_pieces"}})
NLOHMANN_JSON_SERIALIZE_ENUM(WindowPlace, {{WindowPlace::OwnFront, "own_front"},
                                           {WindowPlace::OtherFront, "other_front"},
                                           {WindowPlace::OwnSide, "own_side"},
                                           {WindowPlace::OtherSide, "other_side"},
                                           {WindowPlace::Behind, "behind"}})
NLOHMANN_JSON_SERIALIZE_ENUM(RuleKind, {{RuleKind::TaxiwayWidth, "taxiway_width"},
                                        {RuleKind::EdgeClearance, "edge_clearance"},
                                        {RuleKind::ParallelSeparation, "parallel_separation"},
                                        {RuleKind::ObjectSeparation, "object_separation"},
                                        {RuleKind::CurveRadius, "curve_radius"},
                                        {RuleKind::Fillet, "fillet"},
                                        {RuleKind::Slope, "slope"},
                                        {RuleKind::SteeringAngle, "steering_angle"}})
NLOHMANN_JSON_SERIALIZE_ENUM(WithheldReason, {{WithheldReason::NotFinite, "not_finite"},
                                              {WithheldReason::NoCrossing, "no_crossing"},
                                              {WithheldReason::OutOfOrder, "out_of_order"},
                                              {WithheldReason::TooCold, "too_cold"},
                                              {WithheldReason::TooHot, "too_hot"},
                                              {WithheldReason::NotModelled, "not_modelled"}})
NLOHMANN_JSON_SERIALIZE_ENUM(Unknown, {{Unknown::IdleThrust, "idle_thrust"},
                                       {Unknown::Rolling, "rolling"},
                                       {Unknown::Breakaway, "breakaway"},
                                       {Unknown::Slope, "slope"},
                                       {Unknown::Wind, "wind"},
                                       {Unknown::Mass, "mass"},
                                       {Unknown::BrakesNow, "brakes_now"},
                                       {Unknown::HeatCapacity, "heat_capacity"},
                                       {Unknown::Cooling, "cooling"},
                                       {Unknown::BrakeHeat, "brake_heat"},
                                       {Unknown::Scrub, "scrub"},
                                       {Unknown::OvertakenThrust, "overtaken_thrust"}})

namespace {

using Json = nlohmann::ordered_json;

// A double that JSON can hold; -0 becomes 0.
Json num(double value) {
  if (!std::isfinite(value)) return nullptr;
  return value == 0.0 ? 0.0 : value;
}

Json optional_num(bool there, double value) { return there ? num(value) : Json(nullptr); }

Json air_json(const Air& air) {
  return {{"temperature_k", num(air.temperature_k)},
          {"pressure_pa", num(air.pressure_pa)},
          {"density_kgpm3", num(air.density_kgpm3)},
          {"sound_speed_mps", num(air.sound_speed_mps)}};
}

Json roll_json(const RollAnswer& roll) {
  Json targets = Json::array();
  for (const RollTarget& target : roll.targets) {
    const Passage& passage = target.passage;
    targets.push_back({{"speed_mps", num(target.speed_mps)},
                       {"reached", passage.reached},
                       {"time_s", optional_num(passage.reached, passage.time_s)},
                       {"distance_m", optional_num(passage.reached, passage.distance_m)}});
  }
  return {{"verdict", roll.verdict},
          {"idle_thrust_n", num(roll.idle_thrust_n)},
          {"thrust_lost_to_wind_n", num(roll.thrust_lost_to_wind_n)},
          {"idle_thrust_per_weight", num(roll.idle_thrust_per_weight)},
          {"breakaway_margin_n", num(roll.breakaway_margin_n)},
          {"acceleration_mps2", num(roll.acceleration_mps2)},
          {"level_acceleration_mps2", num(roll.level_acceleration_mps2)},
          {"targets", targets},
          {"terminal_speed_mps", optional_num(roll.terminal.exists, roll.terminal.speed_mps)},
          {"keeps_rolling_slope_rad", num(roll.keeps_rolling_slope_rad)},
          {"restarts_slope_rad", num(roll.restarts_slope_rad)},
          {"start_thrust_n", num(roll.start_thrust_n)},
          {"extra_thrust_n", num(roll.extra_thrust_n)},
          {"slope_rad", num(roll.slope_rad)},
          {"headwind_mps", num(roll.headwind_mps)}};
}

Json loads_json(const TurnLoads& loads) {
  return {{"scrub_drag_n", num(loads.scrub_drag_n)},
          {"scrub_moment_nm", num(loads.scrub_moment_nm)},
          {"nose_side_force_n", num(loads.nose_side_force_n)},
          {"nose_grip_needed", num(loads.nose_grip_needed)},
          {"nose_angle_rad", num(loads.nose_angle_rad)}};
}

Json turn_json(const TurnAnswer& turn) {
  const bool open = turn.window.state == WindowState::Open;
  return {{"leg", turn.leg},
          {"turn_rad", num(turn.turn_rad)},
          {"radius_m", num(turn.radius_m)},
          {"rolling_radius_m", num(turn.rolling_radius_m)},
          {"loads", loads_json(turn.loads)},
          {"cornering_drag_at_limit_n", num(turn.cornering.at_limit_n)},
          {"limit_by", turn.limit.by},
          {"limit_mps", num(turn.limit.speed_mps)},
          {"window", turn.window.state},
          {"window_lower_mps", optional_num(open, turn.window.lower_mps)},
          {"window_upper_mps", optional_num(open, turn.window.upper_mps)},
          {"opening_thrust_n", num(turn.window.opening_thrust_n)},
          {"planned_entry_mps", num(turn.planned_entry_mps)},
          {"exit_mps", num(turn.exit_mps)},
          {"peak_mps", num(turn.peak_mps)},
          {"cockpit_side_g", num(turn.cockpit_side_g)},
          {"cabin_side_g", num(turn.cabin_side_g)},
          {"gear_side_g", num(turn.gear_side_g)},
          {"grip", num(turn.grip)},
          {"uneven_moment_nm", num(turn.uneven_moment_nm)},
          {"idle_acceleration_mps2", num(turn.idle_acceleration_mps2)},
          {"restarts_at_idle", turn.restarts_at_idle},
          {"restarts_at_idle_straight", turn.restarts_at_idle_straight},
          {"restart_thrust_n", num(turn.restart_thrust_n)},
          {"restart_extra_thrust_n", num(turn.restart_extra_thrust_n)},
          {"restart_within_limit", turn.restart_within_limit}};
}

// The new centreline when steering starts.
Json cue_json(const TurnCue& cue) {
  return {{"azimuth_rad", num(cue.sight.azimuth_rad)},
          {"below_rad", num(cue.sight.below_rad)},
          {"distance_m", num(cue.sight.distance_m)},
          {"past_bend_m", num(cue.past_bend_m)},
          {"window", cue.sight.window},
          {"in_view", cue.sight.in_view}};
}

Json plan_json(const TrackPlan& plan) {
  return {{"technique", document_word(plan.technique)},
          {"possible", plan.possible},
          {"ramps_fit", plan.ramps_fit},
          {"steering_rad", num(plan.steering_rad)},
          {"steering_rate_radps", num(plan.steering_rate_radps)},
          {"shift_m", num(plan.shift_m)},
          {"start_before_arc_m", num(plan.start_before_arc_m)},
          {"eye_past_arc_begin_m", num(plan.eye_past_arc_begin_m)},
          {"eye_past_crossing_m", num(plan.eye_past_crossing_m)},
          {"nose_overshoot_m", num(plan.nose_overshoot_m)},
          {"eye_overshoot_m", num(plan.eye_overshoot_m)},
          {"nose_off_line_m", num(plan.nose_off_line_m)},
          {"gear_off_line_m", num(plan.gear_off_line_m)},
          {"smallest_gear_radius_m", num(plan.smallest_gear_radius_m)},
          {"wing_reach_m", num(plan.wing_reach_m)},
          {"tail_reach_m", num(plan.tail_reach_m)},
          {"left_main_margin_m", num(plan.margins.left_main.margin_m)},
          {"right_main_margin_m", num(plan.margins.right_main.margin_m)},
          {"nose_margin_m", num(plan.margins.nose.margin_m)},
          {"new_line_from_left_seat", cue_json(plan.from_left)},
          {"new_line_from_right_seat", cue_json(plan.from_right)}};
}

// The point kept on the line and those that would keep every margin, ahead of the turn axis.
Json followed_json(const FollowedPoint& point) {
  return {{"ahead_m", num(point.ahead_m)}, {"best_m", num(point.best_m)},
          {"eye_m", num(point.eye_m)},     {"surplus_m", num(point.surplus_m)},
          {"keeps_all", point.keeps_all},  {"low_m", num(point.low_m)},
          {"high_m", num(point.high_m)},   {"reached", point.reached}};
}

Json track_json(const TrackAnswer& track) {
  Json json{{"leg", track.leg},
            {"radius_m", num(track.radius_m)},
            {"turn_rad", num(track.turn_rad)},
            {"eye_side_m", num(track.eye_side_m)},
            {"steering_limit_rad", num(track.steering_limit_rad)},
            {"radius_reachable", track.radius_reachable},
            {"eye_on_line", plan_json(track.eye_on_line)},
            {"main_gear_on_line", plan_json(track.gear_on_line)}};
  if (track.point_on_line.samples == 0) return json;
  json["point_on_line"] = plan_json(track.point_on_line);
  json["point_on_line"]["followed_ahead_m"] = num(track.point_on_line.followed_ahead_m);
  json["point_on_line"]["followed_behind_eye_m"] = num(track.point_on_line.followed_behind_eye_m);
  json["followed"] = followed_json(track.followed);
  return json;
}

Json chances_json(const WanderChance& chance) {
  return {{"off_edge", num(chance.off_edge)}, {"below_clearance", num(chance.below_clearance)}};
}

Json wander_json(const TurnWander& turn) {
  return {{"leg", turn.leg},
          {"eye_on_line", chances_json(turn.eye_on_line)},
          {"main_gear_on_line", chances_json(turn.gear_on_line)}};
}

Json brake_state_json(const BrakeState& brake) {
  return {{"pack_k", num(brake.pack_k)}, {"indicated_k", num(brake.indicated_k)}};
}

Json hottest_json(const HottestBrake& hottest) {
  return {{"start", brake_state_json(hottest.start)},
          {"at_stop", brake_state_json(hottest.at_stop)},
          {"on_way_k", num(hottest.on_way_k)},
          {"highest_k", num(hottest.highest_k)},
          {"highest_s", num(hottest.highest_s)}};
}

Json heat_json(const HeatAnswer& heat) {
  Json techniques = Json::array();
  for (const TechniqueCost& cost : heat.techniques) {
    techniques.push_back({{"technique", document_word(cost.technique)},
                          {"applications", cost.applications},
                          {"energy_j", num(cost.energy_j)},
                          {"peak_k", num(cost.peak_k)},
                          {"end_k", num(cost.end_k)},
                          {"hottest_k", num(cost.hottest_k)},
                          {"time_s", num(cost.time_s)},
                          {"fuel_kg", num(cost.fuel_kg)},
                          {"brakes_on_s", num(cost.on_s)},
                          {"most_wear_j", num(cost.most_wear_j)},
                          {"wear_cost", num(cost.wear_cost)},
                          {"wear_by_energy", cost.wear_by_energy}});
  }
  return {{"start_k", num(heat.start_k)},
          {"end_k", num(heat.end_k)},
          {"peak_k", num(heat.peak_k)},
          {"rise_k", num(heat.rise_k)},
          {"applications", heat.applications},
          {"energy_j", num(heat.energy_j)},
          {"reading", document_word(heat.reading)},
          {"hottest", hottest_json(heat.hottest)},
          {"limit_k", num(heat.limit_k)},
          {"limit_pack_k", num(heat.limit_pack_k)},
          {"within_limit", heat.within_limit},
          {"wait_reaches_limit", heat.wait_reaches_limit},
          {"wait_s", optional_num(heat.wait_reaches_limit, heat.wait_s)},
          {"techniques", techniques}};
}

Json stop_json(const StopAnswer& stop) {
  return {{"end", document_word(stop.end)},
          {"stop_bar_lit", stop.stop_bar_lit},
          {"obscured_m", num(stop.obscured_m)},
          {"nose_ahead_of_eye_m", num(stop.nose_ahead_of_eye_m)},
          {"eye_before_line_m", num(stop.eye_before_line_m)},
          {"nose_before_line_m", num(stop.nose_before_line_m)},
          {"nose_gear_before_line_m", num(stop.nose_gear_before_line_m)},
          {"gear_before_line_m", num(stop.gear_before_line_m)},
          {"tail_before_line_m", num(stop.tail_before_line_m)},
          {"line_visible_at_stop", stop.line_visible_at_stop},
          {"nose_before_line_when_lost_m", num(stop.nose_before_line_when_lost_m)},
          {"left_when_lost_m", num(stop.left_when_lost_m)},
          {"left_when_lost_s", num(stop.left_when_lost_s)},
          {"approach_mps", num(stop.approach_mps)},
          {"speed_when_lost_mps", num(stop.speed_when_lost_mps)},
          {"brake_distance_m", num(stop.brake_distance_m)},
          {"brake_time_s", num(stop.brake_time_s)},
          {"eye_before_line_at_brake_m", num(stop.eye_before_line_at_brake_m)},
          {"line_visible_at_brake", stop.line_visible_at_brake}};
}

Json leg_json(const LegResult& leg) {
  const bool braked = leg.first_application_m >= 0.0;
  return {{"start_m", num(leg.start_m)},
          {"length_m", num(leg.length_m)},
          {"entry_mps", num(leg.entry_mps)},
          {"exit_mps", num(leg.exit_mps)},
          {"peak_mps", num(leg.peak_mps)},
          {"start_s", num(leg.start_s)},
          {"duration_s", num(leg.duration_s)},
          {"brake_end_k", num(leg.brake_end_k)},
          {"applications", leg.applications},
          {"first_application_m", optional_num(braked, leg.first_application_m)},
          {"first_application_to_mps", optional_num(braked, leg.first_application_to_mps)},
          {"extra_thrust_n", num(leg.extra_thrust_n)},
          {"hardest_braking_mps2", num(leg.hardest_braking_mps2)},
          {"allowed_exit_mps", num(leg.allowed_exit_mps)},
          {"limit_mps", num(leg.limit_mps)},
          {"headwind_mps", num(leg.headwind_mps)},
          {"idle_acceleration_mps2", num(leg.idle_acceleration_mps2)}};
}

Json piece_json(const Piece& piece) {
  return {{"kind", piece.kind},
          {"leg", piece.leg},
          {"start_m", num(piece.start_m)},
          {"start_s", num(piece.start_s)},
          {"length_m", num(piece.length_m)},
          {"duration_s", num(piece.duration_s)},
          {"v0_mps", num(piece.v0_mps)},
          {"v1_mps", num(piece.v1_mps)},
          {"brake_energy_j", num(piece.brake_energy_j)},
          {"brake_start_k", num(piece.brake_start_k)},
          {"brake_end_k", num(piece.brake_end_k)},
          {"extra_thrust_n", num(piece.extra_thrust_n)},
          {"fuel_kg", num(piece.fuel_kg)}};
}

Json application_json(const Application& application) {
  return {{"v0_mps", num(application.v0_mps)},         {"v1_mps", num(application.v1_mps)},
          {"start_mps2", num(application.start_mps2)}, {"peak_mps2", num(application.peak_mps2)},
          {"end_mps2", num(application.end_mps2)},     {"rise_s", num(application.rise_s)},
          {"hold_s", num(application.hold_s)},         {"fall_s", num(application.fall_s)},
          {"length_m", num(application.length_m)},     {"duration_s", num(application.duration_s)}};
}

Json run_json(const RouteRun& run) {
  Json legs = Json::array();
  for (const LegResult& leg : run.legs) legs.push_back(leg_json(leg));
  Json pieces = Json::array();
  for (const Piece& piece : run.pieces) pieces.push_back(piece_json(piece));
  return {{"status", run.status},
          {"stuck_leg", run.stuck_leg < 0 ? Json(nullptr) : Json(run.stuck_leg)},
          {"length_m", num(run.length_m)},
          {"duration_s", num(run.duration_s)},
          {"fuel_kg", num(run.fuel_kg)},
          {"co2_kg", num(run.co2_kg)},
          {"brake_energy_j", num(run.brake_energy_j)},
          {"peak_brake_k", num(run.peak_brake_k)},
          {"end_brake_k", num(run.end_brake_k)},
          {"applications", run.applications},
          {"stop_application", application_json(run.stop_application)},
          {"legs", legs},
          {"pieces", pieces}};
}

const char* unit(RuleKind kind) {
  if (kind == RuleKind::Slope) return "";
  return kind == RuleKind::SteeringAngle ? "rad" : "m";
}

Json leg_index(int leg) { return leg < 0 ? Json(nullptr) : Json(leg); }

Json surface_json(const PavementState& pavement, const SurfaceLimits& limits) {
  return {{"surface_code", pavement.surface_code},
          {"condition_code", pavement.condition_code},
          {"reported_worse", pavement.reported_worse},
          {"loose", pavement.loose},
          {"depth_m", num(pavement.depth_m)},
          {"density_kgpm3", num(pavement.density_kgpm3)},
          {"tyre_pressure_pa", num(pavement.tyre_pressure_pa)},
          {"displacement_drag_nspm2", num(pavement.displacement_drag_nspm2)},
          {"snow_drag_nspm", num(pavement.snow_drag_nspm)},
          {"rear_rows_share", num(pavement.rear_rows_share)},
          {"start_modelled", pavement.start_modelled},
          {"side_grip_standing", num(side_grip(pavement, 0.0))},
          {"aquaplaning_speed_mps", num(aquaplaning_speed_mps(pavement.tyre_pressure_pa))},
          {"speeds_cut", limits.speeds_cut},
          {"braking_cut", limits.braking_cut},
          {"braking_friction", num(limits.braking_friction)},
          {"most_deceleration_mps2", num(limits.most_deceleration_mps2)},
          {"planned_deceleration_mps2", num(limits.planned_deceleration_mps2)},
          {"deceleration_mps2", num(limits.deceleration_mps2)},
          {"straight_speed_mps", num(limits.straight_speed_mps)},
          {"sharp_turn_speed_mps", num(limits.sharp_turn_speed_mps)},
          {"gentle_turn_speed_mps", num(limits.gentle_turn_speed_mps)}};
}

Json yaw_json(const ThrustYaw& yaw) {
  return {{"even", yaw.even},
          {"arm_m", num(yaw.arm_m)},
          {"moment_nm", num(yaw.moment_nm)},
          {"nose_side_force_n", num(yaw.nose_side_force_n)},
          {"nose_grip_needed", num(yaw.nose_grip_needed)},
          {"steering_rad", num(yaw.steering_rad)}};
}

Json engine_choice_json(const EngineChoice& row) {
  return {{"running", row.running},
          {"possible", row.possible},
          {"even", row.even},
          {"time_s", num(row.time_s)},
          {"warm_up_wait_s", num(row.warm_up_wait_s)},
          {"fuel_kg", num(row.fuel_kg)},
          {"co2_kg", num(row.co2_kg)},
          {"applications", row.applications},
          {"brake_energy_j", num(row.brake_energy_j)},
          {"end_k", num(row.end_k)},
          {"peak_k", num(row.peak_k)},
          {"hottest_k", num(row.hottest_k)},
          {"restart_margin_n", num(row.restart_margin_n)},
          {"restart_leg", leg_index(row.restart_leg)},
          {"restart_within_limit", row.restart_within_limit},
          {"nose_grip_needed", num(row.nose_grip_needed)}};
}

Json brake_json(const BrakeTimes& brake) {
  return {{"after_stop_k", num(brake.after_stop_k)},
          {"at_stand_k", num(brake.at_stand_k)},
          {"off_stand_k", num(brake.off_stand_k)},
          {"line_up_k", num(brake.line_up_k)},
          {"peak_k", num(brake.peak_k)},
          {"off_stand_indicated_k", num(brake.off_stand_indicated_k)},
          {"line_up_indicated_k", num(brake.line_up_indicated_k)}};
}

Json after_landing_json(const AfterLanding& brakes) {
  return {{"included", brakes.included},
          {"landing_energy_j", num(brakes.landing_energy_j)},
          {"taxi_in_energy_j", num(brakes.taxi_in_energy_j)},
          {"working_brakes", brakes.shares.working},
          {"mean_share", num(brakes.shares.mean_share)},
          {"worst_share", num(brakes.shares.worst_share)},
          {"dragging_force_n", num(brakes.shares.dragging_force_n)},
          {"mean", brake_json(brakes.mean)},
          {"worst", brake_json(brakes.worst)},
          {"limit_k", num(brakes.limit_k)},
          {"within_limit", brakes.within_limit},
          {"wait_reaches_limit", brakes.wait_reaches_limit},
          {"longer_stand_s", optional_num(brakes.wait_reaches_limit, brakes.longer_stand_s)},
          {"applications_left", brakes.applications_left},
          {"energy_per_application_j", num(brakes.energy_per_application_j)},
          {"wheels_heat_on_s", num(brakes.wheels_heat_on_s)}};
}

Json restart_point_json(const RestartPoint& point) {
  return {{"leg", point.leg},
          {"at_m", num(point.at_m)},
          {"needed_n", num(point.needed_n)},
          {"extra_n", num(point.extra_n)},
          {"per_engine_n", num(point.per_engine_n)},
          {"share_of_limit", num(point.share_of_limit)},
          {"within_limit", point.within_limit},
          {"nose_grip_needed", num(point.nose_grip_needed)},
          {"nose_holds", point.nose_holds}};
}

Json reach_json(const BlastReach& reach) {
  return {{"velocity_mps", num(reach.velocity_mps)},
          {"single_m", num(reach.single_m)},
          {"merged_m", num(reach.merged_m)},
          {"ground_m", num(reach.ground_m)}};
}

Json blast_json(const BlastAnswer& blast) {
  Json idle = Json::array();
  Json restart = Json::array();
  for (int i = 0; i < 3; ++i) {
    idle.push_back(reach_json(blast.idle[i]));
    restart.push_back(reach_json(blast.restart[i]));
  }
  return {{"note", "a trend, not a safe distance"},
          {"idle_n", num(blast.idle_n)},
          {"restart_n", num(blast.restart_n)},
          {"restart_leg", leg_index(blast.restart_leg)},
          {"idle", idle},
          {"restart", restart},
          {"growth", num(blast.growth)},
          {"manual_contour_m", optional_num(blast.manual_contour_m > 0.0, blast.manual_contour_m)}};
}

Json verdict_json(const RuleVerdict& verdict) {
  return {{"family", verdict.family},
          {"rule", verdict.kind},
          {"leg", leg_index(verdict.leg)},
          {"wanted", num(verdict.wanted)},
          {"actual", num(verdict.actual)},
          {"unit", unit(verdict.kind)},
          {"met", verdict.met},
          {"from_memory", verdict.from_memory}};
}

Json half_turn_json(const HalfTurn& turn) {
  if (!turn.wanted) return nullptr;
  return {{"possible", turn.possible},
          {"width_m", num(turn.width_m)},
          {"needed_m", num(turn.needed_m)},
          {"bare_m", num(turn.bare_m)},
          {"spare_m", num(turn.spare_m)},
          {"steering_rad", num(turn.steering_rad)},
          {"gear_radius_m", num(turn.gear_radius_m)},
          {"nose_radius_m", num(turn.nose_radius_m)},
          {"wing_tip_radius_m", num(turn.wing_tip_radius_m)},
          {"tail_radius_m", num(turn.tail_radius_m)},
          {"nose_tip_radius_m", num(turn.nose_tip_radius_m)},
          {"gear_from_edge_m", num(turn.gear_from_edge_m)},
          {"wing_beyond_edge_m", num(turn.wing_beyond_edge_m)},
          {"tail_beyond_edge_m", num(turn.tail_beyond_edge_m)}};
}

Json spread_json(const Spread& spread) {
  return {{"p10", num(spread.p10)}, {"p50", num(spread.p50)}, {"p90", num(spread.p90)}};
}

Json ranking_json(const Importance (&ranking)[kUnknowns]) {
  Json list = Json::array();
  for (const Importance& item : ranking) {
    list.push_back(
        {{"unknown", item.unknown}, {"first", num(item.first)}, {"total", num(item.total)}});
  }
  return list;
}

Json uncertainty_json(const UncertaintyAnswer& sure) {
  if (sure.draws == 0) return nullptr;
  Json turns = Json::array();
  for (const TurnChance& turn : sure.turns) {
    turns.push_back(
        {{"leg", turn.leg}, {"runs_away", num(turn.runs_away)}, {"stalls", num(turn.stalls)}});
  }
  return {{"draws", sure.draws},
          {"rolls_by_itself", num(sure.rolls_by_itself)},
          {"target_mps", num(sure.target_mps)},
          {"reaches_target", num(sure.reaches_target)},
          {"time_to_target_s", spread_json(sure.time_to_target_s)},
          {"distance_to_target_m", spread_json(sure.distance_to_target_m)},
          {"keeps_rolling_slope_rad", spread_json(sure.keeps_rolling_slope_rad)},
          {"restarts_slope_rad", spread_json(sure.restarts_slope_rad)},
          {"line_up_k", spread_json(sure.line_up_k)},
          {"hottest_k", spread_json(sure.hottest_k)},
          {"over_brake_limit", num(sure.over_brake_limit)},
          {"restart_extra_n", spread_json(sure.restart_extra_n)},
          {"restart_over_limit", num(sure.restart_over_limit)},
          {"turns", turns},
          {"ranked_at_rest", sure.ranked_at_rest},
          {"roll_ranking", ranking_json(sure.roll_ranking)},
          {"heat_ranking", ranking_json(sure.heat_ranking)}};
}

// A rule's numbers have the unit of the rule.
const char* unit(const Card& card, const Caution& caution) {
  const RuleVerdict* const verdict = sheet_parts::rule_of(card, caution);
  return verdict != nullptr ? unit(verdict->kind) : kCautionFacts[caution.kind].unit;
}

Json caution_json(const Card& card, const Caution& caution) {
  return {{"level", caution.level == CautionLevel::Exceeded ? "limit" : "care"},
          {"kind", kCautionFacts[caution.kind].word},
          {"leg", caution.leg < 0 ? Json(nullptr) : Json(caution.leg)},
          {"value", num(caution.value)},
          {"limit", num(caution.limit)},
          {"unit", unit(card, caution)}};
}

Json withheld_json(const Withheld& item) {
  return {{"what", item.what}, {"reason", item.reason}, {"leg", leg_index(item.leg)}};
}

template <class List, class Write>
Json array_of(const List& list, Write write) {
  Json array = Json::array();
  for (const auto& item : list) array.push_back(write(item));
  return array;
}

}  // namespace

std::string card_json(const BriefDocument& document, const Card& card, bool one_line) {
  Json json;
  json["format"] = "tillerline/card";
  json["version"] = 1;
  json["program"] = kVersion;
  json["brief"] = Json::parse(write_brief_line(document));
  json["possible"] = card.possible;
  json["air"] = air_json(card.air);
  json["roll"] = roll_json(card.roll);
  json["turns"] = array_of(card.turns, turn_json);
  json["tracks"] = array_of(card.tracks, track_json);
  json["wander"] = array_of(card.wander, wander_json);
  for (std::size_t i = 0; i < card.wander.size(); ++i)
    if (card.tracks[i].point_on_line.samples > 0)
      json["wander"][i]["point_on_line"] = chances_json(card.wander[i].point_on_line);
  json["heat"] = heat_json(card.heat);
  json["stop"] = stop_json(card.stop);
  json["run"] = run_json(card.run);
  json["surface"] = surface_json(card.pavement, card.surface_limits);
  json["yaw"] = yaw_json(card.yaw);
  json["engines"] = array_of(card.engines.rows, engine_choice_json);
  json["after_landing"] = after_landing_json(card.after_landing);
  json["restart"] = {{"worst", leg_index(card.restart.worst)},
                     {"idle_everywhere", card.restart.idle_everywhere},
                     {"points", array_of(card.restart.points, restart_point_json)}};
  json["blast"] = blast_json(card.blast);
  json["standards"] = {{"code_letter", std::string(1, card.standards.code_letter)},
                       {"design_group", card.standards.design_group},
                       {"not_met", card.standards.not_met},
                       {"verdicts", array_of(card.standards.verdicts, verdict_json)}};
  json["half_turn"] = half_turn_json(card.half_turn);
  json["uncertainty"] = uncertainty_json(card.uncertainty);
  json["withheld"] = array_of(card.withheld, withheld_json);
  json["cautions"] = array_of(
      card.cautions, [&card](const Caution& caution) { return caution_json(card, caution); });
  // Text that is no UTF-8 can't come through the documents; should it, it is replaced, not thrown.
  return json.dump(one_line ? -1 : 2, ' ', false, Json::error_handler_t::replace);
}

}  // namespace tillerline
