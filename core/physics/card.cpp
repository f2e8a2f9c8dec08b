#include "physics/card.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

constexpr double kTyreTestDistance_m = 35000.0 * units::kFoot_m;  // TSO-C62 taxi test
constexpr double kTailwindWorthSaying_mps = 2.5;
constexpr double kHardAgainstPlanned = 1.5;
constexpr double kSteepDownhillGain_mps2 = 0.15;

void caution(Card& card, CautionLevel level, CautionKind kind, int leg, double value,
             double limit = 0.0) {
  card.cautions.push({level, kind, leg, value, limit});
}

bool makes_it_impossible(CautionKind kind) {
  return kind == CautionKind::CannotMove || kind == CautionKind::TurnTooTight ||
         kind == CautionKind::WheelOffPavement || kind == CautionKind::NoseWheelSlides;
}

double departure_limit_k(const Brief& brief) {
  const bool fans = brief.condition.fans_on && brief.aircraft.fan_convection_wpm2k > 0.0;
  return fans ? brief.limits.departure_brake_fans_k : brief.limits.departure_brake_k;
}

void fill_turn_from_run(const Brief& brief, const Air& air, const RouteRun& run, TurnAnswer& turn) {
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

  // Standing in the turn the headwind at its middle would do; the leg's mean is what the run uses.
  const double headwind_mps = index < run.legs.size() ? run.legs[index].headwind_mps : 0.0;
  RollForces forces = idle_forces(aircraft, brief.condition, air, leg.slope_rad, headwind_mps);
  const double straight_margin_n = breakaway_margin_n(forces);
  forces.scrub_drag_n = turn.loads.scrub_drag_n;
  const double margin_n = breakaway_margin_n(forces);
  turn.idle_acceleration_mps2 = acceleration_mps2(roll_law(forces), turn.limit.speed_mps);
  turn.restarts_at_idle_straight = straight_margin_n >= 0.0;
  turn.restarts_at_idle = margin_n >= 0.0;
  turn.restart_extra_thrust_n = std::max(0.0, -margin_n);
  turn.restart_thrust_n = forces.thrust_n - margin_n;
  const double limit_n = brief.condition.engines_running * aircraft.taxi_thrust_limit_n;
  turn.restart_within_limit = turn.restart_thrust_n <= std::max(limit_n, forces.thrust_n);
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

// ------------------------------------------------------------------------------ cautions --------

void roll_cautions(const Brief& brief, Card& card) {
  const double limit_n = brief.condition.engines_running * brief.aircraft.taxi_thrust_limit_n;
  if (card.roll.verdict == RollVerdict::CannotMove)
    caution(card, CautionLevel::Exceeded, CautionKind::CannotMove, 0, card.roll.start_thrust_n,
            limit_n);
  else if (card.run.status == RunStatus::NotEnoughThrust)
    caution(card, CautionLevel::Exceeded, CautionKind::CannotMove, card.run.stuck_leg, limit_n,
            limit_n);
  const bool from_rest = brief.route.start_speed_mps <= 0.0;
  const bool needs_push = card.roll.verdict == RollVerdict::KeepsRolling ||
                          card.roll.verdict == RollVerdict::NeedsThrust;
  if (from_rest && needs_push)
    caution(card, CautionLevel::Care, CautionKind::NeedsPushToStart, 0, card.roll.extra_thrust_n);
}

void track_cautions(const Brief& brief, const TrackAnswer& track, Card& card) {
  const TrackPlan& plan =
      brief.technique.turning == TurnTechnique::EyeOnLine ? track.eye_on_line : track.gear_on_line;
  const int leg = track.leg;
  if (!plan.possible) {
    caution(card, CautionLevel::Exceeded, CautionKind::TurnTooTight, leg, plan.steering_rad,
            track.steering_limit_rad);
    return;
  }
  const double least =
      std::min({plan.margins.left_main_m, plan.margins.right_main_m, plan.margins.nose_m});
  const double least_main = std::min(plan.margins.left_main_m, plan.margins.right_main_m);
  if (least < 0.0)
    caution(card, CautionLevel::Exceeded, CautionKind::WheelOffPavement, leg, least);
  else if (least_main < brief.limits.edge_clearance_m)
    caution(card, CautionLevel::Care, CautionKind::EdgeMarginSmall, leg, least_main,
            brief.limits.edge_clearance_m);
  if (least >= 0.0 && plan.margins.nose_m < brief.limits.nose_clearance_m)
    caution(card, CautionLevel::Care, CautionKind::NoseMarginSmall, leg, plan.margins.nose_m,
            brief.limits.nose_clearance_m);
  if (!plan.ramps_fit) caution(card, CautionLevel::Care, CautionKind::RampsDoNotFit, leg, 0.0);
}

void turn_cautions(const Brief& brief, const TurnAnswer& turn, Card& card) {
  const int leg = turn.leg;
  const double walk = brief.limits.walking_pace_mps;
  if (turn.limit.by == TurnLimit::NoseGrip && turn.limit.speed_mps < walk)
    caution(card, CautionLevel::Exceeded, CautionKind::NoseWheelSlides, leg,
            turn.loads.nose_grip_needed, brief.limits.nose_grip_share * turn.grip);
  else if (turn.window.state == WindowState::NoSpeed)
    caution(card, CautionLevel::Care, CautionKind::NoEntrySpeed, leg, turn.limit.speed_mps, walk);
  if (turn.window.state == WindowState::RunsAway)
    caution(card, CautionLevel::Care, CautionKind::RunsAwayInTurn, leg, turn.peak_mps,
            turn.limit.speed_mps);
  if (turn.window.state == WindowState::Stalls)
    caution(card, CautionLevel::Care, CautionKind::StallsInTurn, leg, turn.window.opening_thrust_n);
  if (turn.peak_mps > std::max(turn.limit.speed_mps, walk) + 0.05)
    caution(card, CautionLevel::Exceeded, CautionKind::TurnSpeedAboveLimit, leg, turn.peak_mps,
            turn.limit.speed_mps);
  if (turn.restarts_at_idle_straight && !turn.restarts_at_idle)
    caution(card, CautionLevel::Care, CautionKind::NoRestartInTurn, leg,
            turn.restart_extra_thrust_n);
}

void leg_cautions(const Brief& brief, Card& card) {
  for (std::size_t i = 0; i < card.run.legs.size(); ++i) {
    const LegResult& leg = card.run.legs[i];
    const bool straight = brief.route.legs[i].kind == LegKind::Straight;
    const int index = static_cast<int>(i);
    if (leg.extra_thrust_n > 0.0 && i > 0)
      caution(card, CautionLevel::Care, CautionKind::ThrustNeeded, index, leg.extra_thrust_n);
    const double planned_mps2 = brief.technique.deceleration_mps2;
    if (leg.hardest_braking_mps2 > kHardAgainstPlanned * planned_mps2)
      caution(card, CautionLevel::Care, CautionKind::HardBraking, index, leg.hardest_braking_mps2,
              planned_mps2);
    if (straight && leg.headwind_mps < -kTailwindWorthSaying_mps)
      caution(card, CautionLevel::Care, CautionKind::TailwindGrows, index, -leg.headwind_mps);
    if (straight && leg.idle_acceleration_mps2 > kSteepDownhillGain_mps2)
      caution(card, CautionLevel::Care, CautionKind::SteepDownhill, index,
              brief.route.legs[i].slope_rad);
  }
}

void heat_cautions(Card& card) {
  const HeatAnswer& heat = card.heat;
  if (!heat.within_limit)
    caution(card, CautionLevel::Exceeded, CautionKind::BrakesTooHot, -1, heat.end_k, heat.limit_k);
  else if (heat.peak_k > heat.limit_k)
    caution(card, CautionLevel::Care, CautionKind::PeakAboveLimit, -1, heat.peak_k, heat.limit_k);
}

void fill_cautions(const Brief& brief, Card& card) {
  roll_cautions(brief, card);
  for (const TrackAnswer& track : card.tracks) track_cautions(brief, track, card);
  for (const TurnAnswer& turn : card.turns) turn_cautions(brief, turn, card);
  heat_cautions(card);
  leg_cautions(brief, card);
  if (!card.stop.line_visible_at_stop && card.stop.end == RouteEnd::HoldingLine)
    caution(card, CautionLevel::Care, CautionKind::LineHiddenBeforeStop,
            static_cast<int>(brief.route.legs.size()) - 1, card.stop.left_when_lost_m);
  if (card.run.length_m > kTyreTestDistance_m)
    caution(card, CautionLevel::Care, CautionKind::LongTaxiTyres, -1, card.run.length_m,
            kTyreTestDistance_m);
  // Most serious first; within a level in the order of the kinds, then along the route.
  std::sort(card.cautions.begin(), card.cautions.end(), [](const Caution& a, const Caution& b) {
    if (a.level != b.level) return a.level < b.level;
    if (a.kind != b.kind) return a.kind < b.kind;
    return a.leg < b.leg;
  });
  for (const Caution& c : card.cautions)
    if (c.level == CautionLevel::Exceeded && makes_it_impossible(c.kind)) card.possible = false;
  if (card.run.status != RunStatus::Complete) card.possible = false;
}

}  // namespace

void compute_card(const Brief& brief, Card& out) {
  out = Card{};
  out.air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  out.roll = roll_answer(brief, out.air);
  plan_turns(brief, out.air, out.turns);
  for (const BrakeTechnique technique :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
    const RouteRun run = run_route(brief, out.air, technique, out.turns);
    out.heat.techniques[static_cast<int>(technique)] = technique_cost(brief, technique, run);
    if (technique == brief.technique.braking) out.run = run;
  }
  for (TurnAnswer& turn : out.turns) {
    fill_turn_from_run(brief, out.air, out.run, turn);
    const double speed_mps = std::max(turn.planned_entry_mps, 1.0);
    out.tracks.push(track_answer(brief, turn.leg, speed_mps));
  }
  fill_heat(brief, out.air, out);
  out.stop = stop_answer(brief, out.run.stop_application);
  fill_cautions(brief, out);
}

}  // namespace tillerline
