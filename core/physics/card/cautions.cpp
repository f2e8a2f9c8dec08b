#include "physics/card/cautions.hpp"

#include <algorithm>
#include <cmath>

#include "physics/card/card_gate.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/slope_errors.hpp"

namespace tillerline {
namespace {

constexpr double kTyreTestDistance_m = 35000.0 * units::kFoot_m;  // TSO-C62 taxi test
constexpr double kTailwindWorthSaying_mps = 2.5;
constexpr double kHardAgainstPlanned = 1.5;
constexpr double kSteepDownhillGain_mps2 = 0.15;
constexpr double kChanceWorthSaying = 0.1;

static_assert(
    [] {
      for (std::size_t i = 0; i < kCautionKinds; ++i)
        if (kCautionFacts.row[i].kind != static_cast<CautionKind>(i)) return false;
      return true;
    }(),
    "one row a kind, in their order");

void caution(Card& card, CautionKind kind, int leg, double value, double limit = 0.0,
             int verdict = -1) {
  card.cautions.push({kCautionFacts[kind].level, kind, leg, value, limit, verdict});
}

void roll_cautions(const Today& today, const TaxiRoute& route, Card& card) {
  const double limit_n = today.thrust_limit_n;
  if (card.roll.verdict == RollVerdict::CannotMove)
    caution(card, CautionKind::CannotMove, 0, card.roll.start_thrust_n, limit_n);
  else if (card.run.status == RunStatus::NotEnoughThrust)
    caution(card, CautionKind::CannotMove, card.run.stuck_leg, limit_n, limit_n);
  const bool from_rest = route.start_speed_mps <= 0.0;
  const bool needs_push = card.roll.verdict == RollVerdict::KeepsRolling ||
                          card.roll.verdict == RollVerdict::NeedsThrust;
  if (from_rest && needs_push)
    caution(card, CautionKind::NeedsPushToStart, 0, card.roll.extra_thrust_n);
}

// Whether the slope of the first leg alone may be off to where the start goes the other way: that
// slope lies between the first and the last tenth of what is believed.
void slope_cautions(const TaxiRoute& route, Card& card) {
  constexpr double kTenthInSd = 1.2816;       // of a normal distribution; of a triangle 1.35
  constexpr double kNineTenthsInSd = 1.6449;  // as LE90: nine of ten are closer than that
  if (route.start_speed_mps > 0.0 || slope_known(route.legs[0]) == SlopeKnown::Surveyed) return;
  const Belief slope = slope_belief(slope_law(route), 0);
  const double decides_rad =
      std::abs(card.roll.restarts_slope_rad - (route.legs[0].slope_rad + slope.off));
  if (decides_rad < kTenthInSd * slope.sd)
    caution(card, CautionKind::SlopeDecidesStart, 0, kNineTenthsInSd * slope.sd, decides_rad);
}

void track_cautions(const Today& today, const TrackAnswer& track, Card& card) {
  const TrackPlan& plan = track.plan(today.technique.turning);
  const int leg = track.leg;
  if (!plan.possible) {
    caution(card, CautionKind::TurnTooTight, leg, plan.steering_rad, track.steering_limit_rad);
    return;
  }
  const double least = plan.margins.least_m();
  const double least_main = plan.margins.least_main_m();
  if (least < 0.0)
    caution(card, CautionKind::WheelOffPavement, leg, least);
  else if (least_main < today.limits.edge_clearance_m)
    caution(card, CautionKind::EdgeMarginSmall, leg, least_main, today.limits.edge_clearance_m);
  if (least >= 0.0 && plan.margins.nose.margin_m < today.limits.nose_clearance_m)
    caution(card, CautionKind::NoseMarginSmall, leg, plan.margins.nose.margin_m,
            today.limits.nose_clearance_m);
  if (!plan.ramps_fit) caution(card, CautionKind::RampsDoNotFit, leg, 0.0);
}

// The nearest object counts at every turn, since the route says no more than how far it is.
void wing_cautions(const Today& today, double object_m, const TrackAnswer& track, Card& card) {
  if (object_m <= 0.0) return;  // not given
  const TrackPlan& plan = track.plan(today.technique.turning);
  const double gap_m = object_m - plan.wing_reach_m;
  if (gap_m < 0.0)
    caution(card, CautionKind::WingTipStrikes, track.leg, gap_m);
  else if (gap_m < today.limits.wing_clearance_m)
    caution(card, CautionKind::WingTipNearObject, track.leg, gap_m, today.limits.wing_clearance_m);
}

void turn_cautions(const Today& today, const TurnAnswer& turn, Card& card) {
  const int leg = turn.leg;
  const double walk = today.limits.walking_pace_mps;
  if (turn.limit.by == TurnLimit::NoseGrip && turn.limit.speed_mps < walk)
    caution(card, CautionKind::NoseWheelSlides, leg, turn.loads.nose_grip_needed,
            today.limits.nose_grip_share * turn.grip);
  else if (turn.window.state == WindowState::NoSpeed)
    caution(card, CautionKind::NoEntrySpeed, leg, turn.limit.speed_mps, walk);
  if (turn.window.state == WindowState::RunsAway)
    caution(card, CautionKind::RunsAwayInTurn, leg, turn.peak_mps, turn.limit.speed_mps);
  if (turn.window.state == WindowState::Stalls)
    caution(card, CautionKind::StallsInTurn, leg, turn.window.opening_thrust_n);
  if (turn.peak_mps > std::max(turn.limit.speed_mps, walk) + 0.05)
    caution(card, CautionKind::TurnSpeedAboveLimit, leg, turn.peak_mps, turn.limit.speed_mps);
  if (turn.restarts_at_idle_straight && !turn.restarts_at_idle)
    caution(card, CautionKind::NoRestartInTurn, leg, turn.restart_extra_thrust_n);
}

void leg_cautions(const Today& today, const TaxiRoute& route, Card& card) {
  for (std::size_t i = 0; i < card.run.legs.size(); ++i) {
    const LegResult& leg = card.run.legs[i];
    const bool straight = route.legs[i].kind == LegKind::Straight;
    const int index = static_cast<int>(i);
    if (leg.extra_thrust_n > 0.0 && i > 0)
      caution(card, CautionKind::ThrustNeeded, index, leg.extra_thrust_n);
    const double planned_mps2 = today.technique.deceleration_mps2;
    if (leg.hardest_braking_mps2 > kHardAgainstPlanned * planned_mps2)
      caution(card, CautionKind::HardBraking, index, leg.hardest_braking_mps2, planned_mps2);
    if (straight && leg.headwind_mps < -kTailwindWorthSaying_mps)
      caution(card, CautionKind::TailwindGrows, index, -leg.headwind_mps);
    if (straight && leg.idle_acceleration_mps2 > kSteepDownhillGain_mps2)
      caution(card, CautionKind::SteepDownhill, index, route.legs[i].slope_rad);
  }
}

void heat_cautions(Card& card) {
  const HeatAnswer& heat = card.heat;
  const HottestBrake& hottest = heat.hottest;
  // See withheld_cautions.
  if (std::isnan(hottest.highest_k) || std::isnan(hottest.on_way_k)) return;
  if (!heat.within_limit)
    caution(card, CautionKind::BrakesTooHot, -1, hottest.highest_k, heat.limit_k);
  else if (hottest.on_way_k > heat.limit_k)
    caution(card, CautionKind::PeakAboveLimit, -1, hottest.on_way_k, heat.limit_k);
}

void surface_cautions(Card& card) {
  const SurfaceLimits& limits = card.surface_limits;
  if (limits.speeds_cut)
    caution(card, CautionKind::SurfaceTightens, -1, card.pavement.condition_code);
  if (limits.braking_cut)
    caution(card, CautionKind::BrakingPoor, -1, limits.most_deceleration_mps2,
            limits.planned_deceleration_mps2);
  if (!card.pavement.start_modelled)
    caution(card, CautionKind::StartNotKnown, -1, card.pavement.depth_m);
  if (card.pavement.density_kgpm3 > 0.0 && card.pavement.depth_m <= 0.0)
    caution(card, CautionKind::DepthNotGiven, -1, 0.0);
}

void engine_cautions(const Today& today, Card& card) {
  const double allowed = today.limits.nose_grip_share * side_grip(card.pavement, 0.0);
  if (!card.yaw.even && card.yaw.nose_grip_needed > allowed)
    caution(card, CautionKind::UnevenThrust, card.blast.restart_leg, card.yaw.nose_grip_needed,
            allowed);
  for (const EngineChoice& row : card.engines.rows)
    if (row.running == today.condition.engines_running && row.warm_up_wait_s > 0.0)
      caution(card, CautionKind::EnginesNotWarm, -1, row.warm_up_wait_s);
}

void restart_cautions(const Today& today, Card& card) {
  const RestartPoint* const worst = worst_point(card.restart);
  if (worst != nullptr && !worst->within_limit && card.pavement.start_modelled)
    caution(card, CautionKind::RestartBeyondLimit, worst->leg, worst->needed_n,
            today.thrust_limit_n);
}

void uneven_brake_cautions(const Today& today, Card& card) {
  const AfterLanding& brakes = card.after_landing;
  if (std::isnan(brakes.worst.line_up_k + brakes.mean.line_up_k)) return;
  if (brakes.included && !brakes.within_limit && brakes.wait_reaches_limit)
    caution(card, CautionKind::TurnaroundTooShort, -1, brakes.longer_stand_s);
  if (today.condition.dragging_brake_n > 0.0)
    caution(card, CautionKind::DraggingBrake, -1, brakes.worst.line_up_k - brakes.mean.line_up_k);
  if (brakes.wheels_heat_on_s > 0.0)
    caution(card, CautionKind::WheelsHeatOn, -1, brakes.wheels_heat_on_s);
}

// Where the plan stays on the pavement and the steering gets it round.
void wander_cautions(const Today& today, Card& card) {
  for (std::size_t i = 0; i < card.wander.size(); ++i) {
    const TrackPlan& plan = card.tracks[i].plan(today.technique.turning);
    const WanderChance& chance = card.wander[i].chance(today.technique.turning);
    if (plan.possible && plan.margins.least_m() >= 0.0 && chance.off_edge > kChanceWorthSaying)
      caution(card, CautionKind::ChanceOffEdge, card.wander[i].leg, chance.off_edge,
              kChanceWorthSaying);
  }
}

void chance_cautions(Card& card) {
  const UncertaintyAnswer& uncertainty = card.uncertainty;
  if (card.heat.within_limit && uncertainty.over_brake_limit > kChanceWorthSaying)
    caution(card, CautionKind::ChanceOfHotBrakes, -1, uncertainty.over_brake_limit,
            kChanceWorthSaying);
  for (std::size_t i = 0; i < uncertainty.turns.size(); ++i) {
    if (card.turns[i].window.state != WindowState::Open) continue;
    const TurnChance& chance = uncertainty.turns[i];
    if (chance.runs_away > kChanceWorthSaying)
      caution(card, CautionKind::ChanceOfRunaway, chance.leg, chance.runs_away, kChanceWorthSaying);
    if (chance.stalls > kChanceWorthSaying)
      caution(card, CautionKind::ChanceOfStall, chance.leg, chance.stalls, kChanceWorthSaying);
  }
}

// One for each rule of each family: where it is missed by the largest share, the first of equals.
void rule_cautions(Card& card) {
  const auto shortfall = [](const RuleVerdict& v) {
    return std::abs(v.wanted - v.actual) / std::max(std::abs(v.wanted), 1e-9);
  };
  const RuleVerdict* worst[kRuleFamilies][kRuleKinds] = {};
  const auto worst_like = [&worst](const RuleVerdict& v) -> const RuleVerdict*& {
    return worst[static_cast<int>(v.family)][static_cast<int>(v.kind)];
  };
  for (const RuleVerdict& v : card.standards.verdicts) {
    const RuleVerdict*& of_rule = worst_like(v);
    if (!v.met && (of_rule == nullptr || shortfall(v) > shortfall(*of_rule))) of_rule = &v;
  }
  for (const RuleVerdict& v : card.standards.verdicts)
    if (worst_like(v) == &v)
      caution(card, CautionKind::RuleNotMet, v.leg, v.wanted, v.actual,
              static_cast<int>(&v - card.standards.verdicts.begin()));
}

void half_turn_cautions(Card& card) {
  if (card.half_turn.wanted && !card.half_turn.possible)
    caution(card, CautionKind::NoRoomForHalfTurn, -1, card.half_turn.needed_m,
            card.half_turn.width_m);
}

void withheld_cautions(const Today& today, Card& card) {
  const bool carbon = today.aircraft.brake_material == BrakeMaterial::Carbon;
  const double hottest_k = carbon ? kHottestCarbon_k : kHottestSteel_k;
  bool too_hot = false;
  int missing = 0;
  for (const Withheld& item : card.withheld) {
    if (item.reason == WithheldReason::TooHot)
      too_hot = true;
    else if (item.reason != WithheldReason::NoCrossing &&  // which nobody misses
             item.reason != WithheldReason::NotModelled)   // StartNotKnown says it
      ++missing;
  }
  if (too_hot) caution(card, CautionKind::BrakesBeyondModel, -1, hottest_k, hottest_k);
  if (missing > 0) caution(card, CautionKind::NotComputed, -1, missing);
}

}  // namespace

void fill_cautions(const Today& today, const TaxiRoute& route, Card& card) {
  withheld_cautions(today, card);
  surface_cautions(card);
  engine_cautions(today, card);
  restart_cautions(today, card);
  uneven_brake_cautions(today, card);
  wander_cautions(today, card);
  chance_cautions(card);
  rule_cautions(card);
  half_turn_cautions(card);
  roll_cautions(today, route, card);
  slope_cautions(route, card);
  for (const TrackAnswer& track : card.tracks) {
    track_cautions(today, track, card);
    wing_cautions(today, route.nearest_object_m, track, card);
  }
  for (const TurnAnswer& turn : card.turns) turn_cautions(today, turn, card);
  heat_cautions(card);
  leg_cautions(today, route, card);
  if (!card.stop.line_visible_at_stop && card.stop.end == RouteEnd::HoldingLine)
    caution(card, CautionKind::LineHiddenBeforeStop, static_cast<int>(route.legs.size()) - 1,
            card.stop.left_when_lost_m);
  if (card.run.length_m > kTyreTestDistance_m)
    caution(card, CautionKind::LongTaxiTyres, -1, card.run.length_m, kTyreTestDistance_m);
  // Most serious first; within a level in the order of the kinds, then along the route, then in the
  // order of the rules.
  std::sort(card.cautions.begin(), card.cautions.end(), [](const Caution& a, const Caution& b) {
    if (a.level != b.level) return a.level < b.level;
    if (a.kind != b.kind) return a.kind < b.kind;
    if (a.leg != b.leg) return a.leg < b.leg;
    return a.verdict < b.verdict;
  });
  for (const Caution& c : card.cautions)
    if (kCautionFacts[c.kind].stops_taxi) card.possible = false;
  if (card.run.status != RunStatus::Complete) card.possible = false;
}

}  // namespace tillerline
