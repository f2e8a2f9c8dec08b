// Every rule of the cautions by itself: a taxi about which nothing is to be said, one thing of it
// changed to just beyond its rule and back.
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <memory>
#include <set>
#include <string>

#include "physics/card/cautions.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/slope_errors.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

EdgeMargins margins_of(double left_m, double right_m, double nose_m) {
  EdgeMargins margins;
  margins.left_main.margin_m = left_m;
  margins.right_main.margin_m = right_m;
  margins.nose.margin_m = nose_m;
  return margins;
}

// A route of straight, arc, straight with nothing to say about it.
struct Quiet {
  Brief brief;
  std::unique_ptr<Card> of = std::make_unique<Card>();

  Quiet() {
    Leg straight;
    straight.length_m = 500.0;
    Leg arc;
    arc.kind = LegKind::Arc;
    arc.radius_m = 60.0;
    arc.turn_rad = 1.0;
    brief.route.legs.push(straight);
    brief.route.legs.push(arc);
    brief.route.legs.push(straight);
    brief.route.end = RouteEnd::HoldingLine;
    brief.condition.engines_running = 2;
    brief.aircraft.taxi_thrust_limit_n = 40e3;
    brief.technique.turning = TurnTechnique::MainGearOnLine;
    brief.technique.deceleration_mps2 = 1.0;
    brief.limits.edge_clearance_m = 4.0;
    brief.limits.nose_clearance_m = 1.0;
    brief.limits.walking_pace_mps = 1.5;
    brief.limits.nose_grip_share = 0.7;
    Card& card = *of;
    card.roll.verdict = RollVerdict::RollsByItself;
    for (int i = 0; i < 3; ++i) card.run.legs.push(LegResult{});
    TurnAnswer turn;
    turn.leg = 1;
    turn.grip = 0.5;
    turn.window.state = WindowState::Open;
    turn.limit = {.speed_mps = 5.0};
    turn.restarts_at_idle = true;
    turn.restarts_at_idle_straight = true;
    card.turns.push(turn);
    TrackAnswer track;
    track.leg = 1;
    for (TrackPlan* plan : {&track.gear_on_line, &track.eye_on_line}) {
      plan->possible = true;
      plan->ramps_fit = true;
      plan->margins = margins_of(6.0, 6.0, 3.0);
    }
    card.tracks.push(track);
    card.heat.within_limit = true;
    card.heat.limit_k = 570.0;
    card.after_landing.within_limit = true;
    card.stop.line_visible_at_stop = true;
    card.stop.end = RouteEnd::HoldingLine;
    TurnChance chance;
    chance.leg = 1;
    card.uncertainty.turns.push(chance);
    card.possible = true;
  }
  Card& card() { return *of; }
  TurnAnswer& turn() { return of->turns[0]; }
  LegResult& leg(std::size_t i) { return of->run.legs[i]; }
  TrackPlan& plan() { return of->tracks[0].gear_on_line; }

  void silent() {
    fill_cautions(brief, *of);
    CHECK(of->cautions.size() == 0);
    CHECK(of->possible);
  }
  // Just this one, and the taxi possible or not.
  void says(const Caution& wanted, bool possible = true) {
    fill_cautions(brief, *of);
    REQUIRE(of->cautions.size() == 1);
    is(0, wanted);
    CHECK(of->possible == possible);
  }
  void is(std::size_t at, const Caution& wanted) {
    const Caution& got = of->cautions[at];
    CHECK(got.level == wanted.level);
    CHECK(got.kind == wanted.kind);
    CHECK(got.leg == wanted.leg);
    CHECK(got.value == doctest::Approx(wanted.value).epsilon(1e-12));
    CHECK(got.limit == doctest::Approx(wanted.limit).epsilon(1e-12));
    CHECK(got.verdict == wanted.verdict);
  }
};

constexpr auto kCare = CautionLevel::Care;
constexpr auto kExceeded = CautionLevel::Exceeded;
constexpr double kBit = 1e-9;

}  // namespace

TEST_CASE("caution rules: about a quiet taxi nothing is said") { Quiet{}.silent(); }

TEST_CASE("caution rules: it cannot move") {
  Quiet stands;
  stands.card().roll.verdict = RollVerdict::CannotMove;
  stands.card().roll.start_thrust_n = 90e3;
  stands.says({kExceeded, CautionKind::CannotMove, 0, 90e3, 80e3}, false);
  // Stuck on the way; and the roll's own word is said once only.
  Quiet stuck;
  stuck.card().run.status = RunStatus::NotEnoughThrust;
  stuck.card().run.stuck_leg = 2;
  stuck.says({kExceeded, CautionKind::CannotMove, 2, 80e3, 80e3}, false);
  Quiet both;
  both.card().roll.verdict = RollVerdict::CannotMove;
  both.card().run.status = RunStatus::NotEnoughThrust;
  both.says({kExceeded, CautionKind::CannotMove, 0, 0.0, 80e3}, false);
  // A run that does not end is no taxi either, though there is no sentence for it here.
  Quiet endless;
  endless.card().run.status = RunStatus::TooManyPieces;
  fill_cautions(endless.brief, endless.card());
  CHECK(endless.card().cautions.size() == 0);
  CHECK(!endless.card().possible);
}

TEST_CASE("caution rules: a push to start, where it starts at all") {
  for (const RollVerdict verdict : {RollVerdict::KeepsRolling, RollVerdict::NeedsThrust}) {
    Quiet one;
    one.card().roll.verdict = verdict;
    one.card().roll.extra_thrust_n = 12e3;
    one.says({kCare, CautionKind::NeedsPushToStart, 0, 12e3, 0.0});
    Quiet moving;
    moving.card().roll.verdict = verdict;
    moving.brief.route.start_speed_mps = 0.5;
    moving.silent();
  }
}

TEST_CASE("caution rules: a slope that is known too badly for the start") {
  // 300 m from elevations of LE90 1.3 m: 0.299 % one standard deviation, with pavements flat.
  const auto known = [](double off_by_sd) {
    Quiet one;
    Leg& first = one.brief.route.legs[0];
    first.length_m = 300.0;
    first.elevation_le90_m = 1.3;
    const Belief slope = slope_belief(slope_law(one.brief.route), 0);
    CHECK(slope.sd == doctest::Approx(0.00299).epsilon(2e-3));
    one.card().roll.restarts_slope_rad = slope.off + off_by_sd * slope.sd;
    return one;
  };
  for (const double sds : {-1.28, 0.0, 1.28}) {
    Quiet one = known(sds);
    const double sd = slope_belief(slope_law(one.brief.route), 0).sd;
    fill_cautions(one.brief, one.card());
    REQUIRE(one.card().cautions.size() == 1);
    const Caution& said = one.card().cautions[0];
    CHECK(said.kind == CautionKind::SlopeDecidesStart);
    CHECK(said.level == kCare);
    CHECK(said.leg == 0);
    CHECK(said.value == doctest::Approx(1.6449 * sd).epsilon(1e-9));
    CHECK(said.limit == doctest::Approx(std::abs(sds) * sd).epsilon(1e-9));
    CHECK(one.card().possible);
  }
  for (const double sds : {-1.283, 1.283}) known(sds).silent();
  // Surveyed, however near; and rolling already.
  Quiet surveyed = known(0.0);
  surveyed.brief.route.legs[0].elevation_le90_m = 0.0;
  surveyed.silent();
  Quiet moving = known(0.0);
  moving.brief.route.start_speed_mps = 0.5;
  moving.silent();
}

TEST_CASE("caution rules: the track's margins, of the technique that is used") {
  for (const bool eye : {false, true}) {
    const auto quiet = [&] {
      Quiet one;
      if (eye) one.brief.technique.turning = TurnTechnique::EyeOnLine;
      return one;
    };
    const auto used = [&](Quiet& one) -> TrackPlan& {
      return eye ? one.card().tracks[0].eye_on_line : one.card().tracks[0].gear_on_line;
    };
    const auto other = [&](Quiet& one) -> TrackPlan& {
      return eye ? one.card().tracks[0].gear_on_line : one.card().tracks[0].eye_on_line;
    };
    Quiet unused = quiet();
    other(unused).possible = false;
    unused.silent();
    Quiet tight = quiet();
    used(tight).possible = false;
    used(tight).ramps_fit = false;  // of no use to say any more
    used(tight).margins.left_main.margin_m = -1.0;
    used(tight).steering_rad = 1.4;
    tight.card().tracks[0].steering_limit_rad = 1.2;
    tight.says({kExceeded, CautionKind::TurnTooTight, 1, 1.4, 1.2}, false);
    Quiet ramps = quiet();
    used(ramps).ramps_fit = false;
    ramps.says({kCare, CautionKind::RampsDoNotFit, 1, 0.0, 0.0});

    for (EdgeMargin EdgeMargins::*main : {&EdgeMargins::left_main, &EdgeMargins::right_main}) {
      Quiet off = quiet();
      (used(off).margins.*main).margin_m = -0.5;
      off.says({kExceeded, CautionKind::WheelOffPavement, 1, -0.5, 0.0}, false);
      Quiet small = quiet();
      (used(small).margins.*main).margin_m = 4.0 - kBit;
      small.says({kCare, CautionKind::EdgeMarginSmall, 1, 4.0 - kBit, 4.0});
      Quiet edge = quiet();
      (used(edge).margins.*main).margin_m = 0.0;  // on the very edge
      edge.says({kCare, CautionKind::EdgeMarginSmall, 1, 0.0, 4.0});
      Quiet enough = quiet();
      (used(enough).margins.*main).margin_m = 4.0;
      enough.silent();
    }
    Quiet nose_off = quiet();
    used(nose_off).margins.nose.margin_m = -0.2;
    nose_off.says({kExceeded, CautionKind::WheelOffPavement, 1, -0.2, 0.0}, false);
    Quiet nose_edge = quiet();
    used(nose_edge).margins.nose.margin_m = 0.0;
    nose_edge.says({kCare, CautionKind::NoseMarginSmall, 1, 0.0, 1.0});
    Quiet nose_small = quiet();
    used(nose_small).margins.nose.margin_m = 1.0 - kBit;
    nose_small.says({kCare, CautionKind::NoseMarginSmall, 1, 1.0 - kBit, 1.0});
    Quiet nose_enough = quiet();
    used(nose_enough).margins.nose.margin_m = 1.0;
    nose_enough.silent();
    // The worst of the three.
    Quiet all = quiet();
    used(all).margins = margins_of(-0.3, -0.1, -0.2);
    all.says({kExceeded, CautionKind::WheelOffPavement, 1, -0.3, 0.0}, false);
  }
}

TEST_CASE("caution rules: a wing tip and the nearest object") {
  // Both plans know how far the tips reach; the one that is taxied by counts.
  const auto reaching = [](double reach_m, TurnTechnique turning) {
    Quiet taxi;
    taxi.brief.route.nearest_object_m = 40.0;
    taxi.brief.limits.wing_clearance_m = 7.5;
    taxi.brief.technique.turning = turning;
    TrackAnswer& track = taxi.card().tracks[0];
    const bool eye = turning == TurnTechnique::EyeOnLine;
    (eye ? track.eye_on_line : track.gear_on_line).wing_reach_m = reach_m;
    (eye ? track.gear_on_line : track.eye_on_line).wing_reach_m = 10.0;
    return taxi;
  };
  for (const TurnTechnique turning : {TurnTechnique::EyeOnLine, TurnTechnique::MainGearOnLine}) {
    reaching(32.5, turning).silent();
    reaching(32.5 + kBit, turning)
        .says({kCare, CautionKind::WingTipNearObject, 1, 7.5 - kBit, 7.5});
    reaching(40.0, turning).says({kCare, CautionKind::WingTipNearObject, 1, 0.0, 7.5});
    reaching(40.5, turning).says({kExceeded, CautionKind::WingTipStrikes, 1, -0.5, 0.0}, false);
    // Where no distance is given nothing can be said.
    Quiet unknown = reaching(60.0, turning);
    unknown.brief.route.nearest_object_m = 0.0;
    unknown.silent();
  }
}

TEST_CASE("caution rules: the turn's speeds") {
  Quiet slides;
  slides.turn().limit = {.by = TurnLimit::NoseGrip, .speed_mps = 1.5 - kBit};
  slides.turn().loads.nose_grip_needed = 0.4;
  slides.turn().window.state = WindowState::NoSpeed;
  slides.says({kExceeded, CautionKind::NoseWheelSlides, 1, 0.4, 0.35}, false);
  Quiet walks;
  walks.turn().limit = {.by = TurnLimit::NoseGrip, .speed_mps = 1.5};
  walks.silent();
  Quiet other_reason;
  other_reason.turn().limit.speed_mps = 1.0;
  REQUIRE(other_reason.turn().limit.by != TurnLimit::NoseGrip);
  other_reason.silent();
  Quiet none;
  none.turn().limit.speed_mps = 1.2;
  none.turn().window.state = WindowState::NoSpeed;
  none.says({kCare, CautionKind::NoEntrySpeed, 1, 1.2, 1.5});
  Quiet runs;
  runs.turn().window.state = WindowState::RunsAway;
  runs.turn().peak_mps = 4.9;
  runs.says({kCare, CautionKind::RunsAwayInTurn, 1, 4.9, 5.0});
  Quiet stalls;
  stalls.turn().window.state = WindowState::Stalls;
  stalls.turn().window.opening_thrust_n = 7e3;
  stalls.says({kCare, CautionKind::StallsInTurn, 1, 7e3, 0.0});
  Quiet fast;
  fast.turn().peak_mps = 5.05 + kBit;
  fast.says({kExceeded, CautionKind::TurnSpeedAboveLimit, 1, 5.05 + kBit, 5.0});
  Quiet hardly;
  hardly.turn().peak_mps = 5.05 - kBit;
  hardly.silent();
  // Below walking pace the pace counts.
  Quiet walking;
  walking.turn().limit.speed_mps = 1.0;
  walking.turn().peak_mps = 1.55 - kBit;
  walking.silent();
  Quiet above;
  above.turn().limit.speed_mps = 1.0;
  above.turn().peak_mps = 1.55 + kBit;
  above.says({kExceeded, CautionKind::TurnSpeedAboveLimit, 1, 1.55 + kBit, 1.0});
  Quiet restart;
  restart.turn().restarts_at_idle = false;
  restart.turn().restart_extra_thrust_n = 3e3;
  restart.says({kCare, CautionKind::NoRestartInTurn, 1, 3e3, 0.0});
  Quiet nowhere;
  nowhere.turn().restarts_at_idle = nowhere.turn().restarts_at_idle_straight = false;
  nowhere.silent();
}

TEST_CASE("caution rules: the legs") {
  Quiet thrust;
  thrust.leg(0).extra_thrust_n = 5e3;  // the start has its own sentence
  thrust.silent();
  thrust.leg(2).extra_thrust_n = 5e3;
  thrust.says({kCare, CautionKind::ThrustNeeded, 2, 5e3, 0.0});
  Quiet hard;
  hard.leg(2).hardest_braking_mps2 = 1.5 + kBit;
  hard.says({kCare, CautionKind::HardBraking, 2, 1.5 + kBit, 1.0});
  Quiet firm;
  firm.leg(2).hardest_braking_mps2 = 1.5;
  firm.silent();
  for (const std::size_t at : {std::size_t{0}, std::size_t{2}}) {
    Quiet tailwind;
    tailwind.leg(at).headwind_mps = -2.5 - kBit;
    tailwind.says({kCare, CautionKind::TailwindGrows, static_cast<int>(at), 2.5 + kBit, 0.0});
    Quiet light;
    light.leg(at).headwind_mps = -2.5;
    light.silent();
    Quiet steep;
    steep.leg(at).idle_acceleration_mps2 = 0.15 + kBit;
    steep.brief.route.legs[at].slope_rad = -0.011;
    steep.says({kCare, CautionKind::SteepDownhill, static_cast<int>(at), -0.011, 0.0});
    Quiet gentle;
    gentle.leg(at).idle_acceleration_mps2 = 0.15;
    gentle.silent();
  }
  Quiet arc;
  arc.leg(1).headwind_mps = -20.0;
  arc.leg(1).idle_acceleration_mps2 = 0.5;
  arc.silent();
}

TEST_CASE("caution rules: heat") {
  Quiet hot;
  hot.card().heat.within_limit = false;
  hot.card().heat.hottest.highest_k = 600.0;
  hot.card().heat.hottest.on_way_k = 610.0;
  hot.says({kExceeded, CautionKind::BrakesTooHot, -1, 600.0, 570.0});
  Quiet peak;
  peak.card().heat.hottest.on_way_k = 570.0 + kBit;
  peak.says({kCare, CautionKind::PeakAboveLimit, -1, 570.0 + kBit, 570.0});
  Quiet at;
  at.card().heat.hottest.on_way_k = 570.0;
  at.silent();
}

TEST_CASE("caution rules: the surface") {
  Quiet cut;
  cut.card().surface_limits.speeds_cut = true;
  cut.card().pavement.condition_code = 3;
  cut.says({kCare, CautionKind::SurfaceTightens, -1, 3.0, 0.0});
  Quiet poor;
  poor.card().surface_limits.braking_cut = true;
  poor.card().surface_limits.most_deceleration_mps2 = 0.6;
  poor.card().surface_limits.planned_deceleration_mps2 = 1.0;
  poor.says({kCare, CautionKind::BrakingPoor, -1, 0.6, 1.0});
}

TEST_CASE("caution rules: uneven thrust and engines that are not warm") {
  Quiet even;
  even.card().yaw.even = true;
  even.card().yaw.nose_grip_needed = 9.0;
  even.silent();
  Quiet uneven;
  const double allowed = 0.7 * side_grip(uneven.card().pavement, 0.0);
  uneven.card().yaw.even = false;
  uneven.card().yaw.nose_grip_needed = allowed;
  uneven.silent();
  uneven.card().yaw.nose_grip_needed = allowed + kBit;
  uneven.card().blast.restart_leg = 2;
  uneven.says({kExceeded, CautionKind::UnevenThrust, 2, allowed + kBit, allowed}, false);
  Quiet warm;
  EngineChoice row;
  row.running = 1;
  row.warm_up_wait_s = 90.0;  // of another choice
  warm.card().engines.rows.push(row);
  row.running = 2;
  row.warm_up_wait_s = 0.0;
  warm.card().engines.rows.push(row);
  warm.silent();
  warm.card().engines.rows[1].warm_up_wait_s = 45.0;
  warm.says({kCare, CautionKind::EnginesNotWarm, -1, 45.0, 0.0});
  // As slippery as it is at rest.
  Quiet slippery;
  slippery.brief.day.surface = Surface::Wet;
  slippery.card().pavement = pavement_state(slippery.brief.aircraft, slippery.brief.day);
  REQUIRE(side_grip(slippery.card().pavement, 1.0) != side_grip(slippery.card().pavement, 0.0));
  const double at_rest = 0.7 * side_grip(slippery.card().pavement, 0.0);
  slippery.card().yaw.even = false;
  slippery.card().yaw.nose_grip_needed = at_rest * (1.0 + 1e-6);
  slippery.says({kExceeded, CautionKind::UnevenThrust, -1, at_rest * (1.0 + 1e-6), at_rest}, false);
}

TEST_CASE("caution rules: restart") {
  Quiet beyond;
  RestartPoint point;
  point.leg = 0;
  beyond.card().restart.points.push(point);
  point.leg = 2;
  point.needed_n = 95e3;
  point.within_limit = false;
  beyond.card().restart.points.push(point);
  beyond.card().restart.worst = 0;
  beyond.silent();
  beyond.card().restart.worst = 1;
  beyond.says({kCare, CautionKind::RestartBeyondLimit, 2, 95e3, 80e3});
}

TEST_CASE("caution rules: brakes that differ, and a turnaround") {
  // More time helps: said only where there is a stand time, and only where it helps.
  for (const bool included : {false, true})
    for (const bool helps : {false, true})
      for (const bool within : {false, true}) {
        Quiet one;
        one.card().after_landing.included = included;
        one.card().after_landing.wait_reaches_limit = helps;
        one.card().after_landing.within_limit = within;
        one.card().after_landing.longer_stand_s = 600.0;
        one.card().heat.within_limit = within;
        fill_cautions(one.brief, one.card());
        std::size_t told = 0;
        for (const Caution& c : one.card().cautions)
          if (c.kind == CautionKind::TurnaroundTooShort) {
            ++told;
            CHECK(c.level == kCare);
            CHECK(c.leg == -1);
            CHECK(c.value == 600.0);
          }
        CHECK(told == (included && helps && !within ? 1u : 0u));
      }
  Quiet drags;
  drags.brief.condition.dragging_brake_n = 0.5;
  drags.card().after_landing.worst.line_up_k = 480.0;
  drags.card().after_landing.mean.line_up_k = 400.0;
  drags.says({kCare, CautionKind::DraggingBrake, -1, 80.0, 0.0});
  Quiet parked_hot;
  parked_hot.card().after_landing.wheels_heat_on_s = 0.0;
  parked_hot.silent();
  parked_hot.card().after_landing.wheels_heat_on_s = kBit;
  parked_hot.says({kCare, CautionKind::WheelsHeatOn, -1, kBit, 0.0});
}

TEST_CASE("caution rules: chances worth saying are above one in ten") {
  Quiet hot;
  hot.card().uncertainty.over_brake_limit = 0.1;
  hot.silent();
  hot.card().uncertainty.over_brake_limit = 0.1 + kBit;
  hot.says({kCare, CautionKind::ChanceOfHotBrakes, -1, 0.1 + kBit, 0.1});
  hot.card().cautions.clear();
  hot.card().heat.within_limit = false;  // certain
  hot.says({kExceeded, CautionKind::BrakesTooHot, -1, 0.0, 570.0});
  struct Of {
    double TurnChance::*chance;
    CautionKind kind;
  };
  for (const Of& of : {Of{&TurnChance::runs_away, CautionKind::ChanceOfRunaway},
                       Of{&TurnChance::stalls, CautionKind::ChanceOfStall}}) {
    Quiet one;
    one.card().uncertainty.turns[0].*of.chance = 0.1;
    one.silent();
    one.card().uncertainty.turns[0].*of.chance = 0.1 + kBit;
    one.says({kCare, of.kind, 1, 0.1 + kBit, 0.1});
    one.card().cautions.clear();
    one.turn().window.state = WindowState::NoSpeed;  // its own sentence says more
    one.turn().limit.speed_mps = 1.0;
    one.says({kCare, CautionKind::NoEntrySpeed, 1, 1.0, 1.5});
  }
}

TEST_CASE("caution rules: a wheel may wander off the pavement that it is planned on") {
  const auto wandering = [](double chance) {
    Quiet one;
    TurnWander turn;
    turn.leg = 1;
    turn.gear_on_line.off_edge = chance;
    turn.eye_on_line.off_edge = 1.0;  // the other technique's
    one.card().wander.push(turn);
    return one;
  };
  wandering(0.1).silent();
  Quiet likely = wandering(0.1 + kBit);
  likely.says({kCare, CautionKind::ChanceOffEdge, 1, 0.1 + kBit, 0.1});
  likely.card().cautions.clear();
  likely.brief.technique.turning = TurnTechnique::EyeOnLine;
  likely.says({kCare, CautionKind::ChanceOffEdge, 1, 1.0, 0.1});
  // Where it is planned off the pavement, or the steering does not get it round, that is said.
  Quiet off = wandering(0.6);
  off.plan().margins = margins_of(6.0, -0.1, 3.0);
  off.says({kExceeded, CautionKind::WheelOffPavement, 1, -0.1, 0.0}, false);
  Quiet tight = wandering(0.6);
  tight.plan().possible = false;
  tight.plan().steering_rad = 1.3;
  tight.card().tracks[0].steering_limit_rad = 1.2;
  tight.says({kExceeded, CautionKind::TurnTooTight, 1, 1.3, 1.2}, false);
}

TEST_CASE("caution rules: of each published rule the worst case, the first of equals") {
  Quiet one;
  const auto verdict = [&](RuleFamily family, RuleKind kind, int leg, double wanted, double actual,
                           bool met) {
    RuleVerdict v;
    v.family = family;
    v.kind = kind;
    v.leg = leg;
    v.wanted = wanted;
    v.actual = actual;
    v.met = met;
    one.card().standards.verdicts.push(v);
  };
  verdict(RuleFamily::Icao, RuleKind::Slope, 0, 0.015, 0.02, true);  // met: nothing to say
  one.silent();
  verdict(RuleFamily::Icao, RuleKind::EdgeClearance, 0, 4.0, 3.0, false);  // a quarter short
  verdict(RuleFamily::Icao, RuleKind::EdgeClearance, 1, 4.0, 2.0, false);  // half
  verdict(RuleFamily::Icao, RuleKind::EdgeClearance, 2, 8.0, 4.0, false);  // half as well
  verdict(RuleFamily::Faa, RuleKind::EdgeClearance, 2, 4.0, 3.5, false);
  verdict(RuleFamily::Icao, RuleKind::Slope, 2, -0.01, -0.02, false);
  verdict(RuleFamily::Icao, RuleKind::Slope, 1, 0.0, 0.001, false);  // all of nothing
  fill_cautions(one.brief, one.card());
  REQUIRE(one.card().cautions.size() == 3);
  one.is(0, {kCare, CautionKind::RuleNotMet, 1, 4.0, 2.0, 2});
  one.is(1, {kCare, CautionKind::RuleNotMet, 1, 0.0, 0.001, 6});
  one.is(2, {kCare, CautionKind::RuleNotMet, 2, 4.0, 3.5, 4});
  CHECK(one.card().possible);
  // Each knows its verdict, two of one leg and with the same numbers, too: in the verdicts' order.
  verdict(RuleFamily::Faa, RuleKind::Slope, 1, 0.0, 0.001, false);
  one.card().cautions.clear();
  fill_cautions(one.brief, one.card());
  REQUIRE(one.card().cautions.size() == 4);
  one.is(0, {kCare, CautionKind::RuleNotMet, 1, 4.0, 2.0, 2});
  one.is(1, {kCare, CautionKind::RuleNotMet, 1, 0.0, 0.001, 6});
  one.is(2, {kCare, CautionKind::RuleNotMet, 1, 0.0, 0.001, 7});
  one.is(3, {kCare, CautionKind::RuleNotMet, 2, 4.0, 3.5, 4});
}

TEST_CASE("caution rules: one row a kind, each with a word of its own") {
  std::set<std::string> words;
  for (const CautionFacts& facts : kCautionFacts.row) {
    words.insert(facts.word);
    CHECK(facts.kind == kCautionFacts[facts.kind].kind);
    // What stops the taxi is more than a matter for care.
    CHECK((!facts.stops_taxi || facts.level == CautionLevel::Exceeded));
  }
  CHECK(words.size() == kCautionKinds);
  CHECK(words.count("") == 0);
}

TEST_CASE("caution rules: the half turn") {
  Quiet one;
  one.card().half_turn.wanted = true;
  one.card().half_turn.possible = true;
  one.silent();
  one.card().half_turn.possible = false;
  one.card().half_turn.needed_m = 60.0;
  one.card().half_turn.width_m = 45.0;
  one.says({kExceeded, CautionKind::NoRoomForHalfTurn, -1, 60.0, 45.0});
  Quiet unasked;
  unasked.card().half_turn.wanted = false;
  unasked.card().half_turn.possible = false;
  unasked.silent();
}

TEST_CASE("caution rules: what the gate took back") {
  Quiet parallel;
  parallel.card().withheld.push({"crossing of the lines", WithheldReason::NoCrossing, 1});
  parallel.silent();
  Quiet missing;
  missing.card().withheld.push({"roll", WithheldReason::NotFinite, -1});
  missing.card().withheld.push({"turn", WithheldReason::OutOfOrder, 1});
  missing.says({kExceeded, CautionKind::NotComputed, -1, 2.0, 0.0});
  Quiet hot;
  hot.card().withheld.push({"brake temperature", WithheldReason::TooHot, -1});
  hot.card().heat.hottest.highest_k = std::nan("");
  hot.card().heat.within_limit = false;
  hot.says({kExceeded, CautionKind::BrakesBeyondModel, -1, 2273.15, 2273.15}, false);
  hot.card().cautions.clear();
  hot.card().heat.hottest.highest_k = 600.0;
  hot.card().heat.hottest.on_way_k = std::nan("");
  hot.says({kExceeded, CautionKind::BrakesBeyondModel, -1, 2273.15, 2273.15}, false);
  Quiet steel;
  steel.brief.aircraft.brake_material = BrakeMaterial::Steel;
  steel.card().withheld.push({"brake temperature", WithheldReason::TooHot, -1});
  steel.says({kExceeded, CautionKind::BrakesBeyondModel, -1, 1473.15, 1473.15}, false);
}

TEST_CASE("caution rules: the line at the end, and a long way for the tyres") {
  Quiet hidden;
  hidden.card().stop.line_visible_at_stop = false;
  hidden.card().stop.left_when_lost_m = 3.0;
  hidden.says({kCare, CautionKind::LineHiddenBeforeStop, 2, 3.0, 0.0});
  Quiet stand;
  stand.card().stop.line_visible_at_stop = false;
  stand.card().stop.end = RouteEnd::StandMark;
  stand.silent();
  Quiet far;
  far.card().run.length_m = 35000.0 * 0.3048;
  far.silent();
  far.card().run.length_m = 35000.0 * 0.3048 + 1e-6;
  far.says({kCare, CautionKind::LongTaxiTyres, -1, 10668.0 + 1e-6, 10668.0});
}

TEST_CASE("caution rules: the serious first, then by kind, then along the route") {
  Quiet one;
  one.leg(2).extra_thrust_n = 1e3;
  one.leg(1).extra_thrust_n = 2e3;
  one.leg(2).hardest_braking_mps2 = 2.0;
  one.card().heat.hottest.on_way_k = 580.0;
  one.card().tracks[0].gear_on_line.margins.nose.margin_m = -1.0;
  one.card().half_turn.wanted = true;
  one.card().half_turn.possible = false;
  fill_cautions(one.brief, one.card());
  REQUIRE(one.card().cautions.size() == 6);
  one.is(0, {kExceeded, CautionKind::WheelOffPavement, 1, -1.0, 0.0});
  one.is(1, {kExceeded, CautionKind::NoRoomForHalfTurn, -1, 0.0, 0.0});
  one.is(2, {kCare, CautionKind::PeakAboveLimit, -1, 580.0, 570.0});
  one.is(3, {kCare, CautionKind::ThrustNeeded, 1, 2e3, 0.0});
  one.is(4, {kCare, CautionKind::ThrustNeeded, 2, 1e3, 0.0});
  one.is(5, {kCare, CautionKind::HardBraking, 2, 2.0, 1.0});
  CHECK(!one.card().possible);
}

TEST_CASE("caution rules: little is said as much is, and nothing beyond the lists") {
  const auto of = std::make_unique<Card>();
  Card& card = *of;
  Brief brief;
  brief.technique.deceleration_mps2 = 0.8;
  brief.condition.engines_running = 2;
  brief.route.legs.push(Leg{});
  brief.route.legs.push(Leg{});
  card.stop.line_visible_at_stop = true;
  card.run.legs.push(LegResult{});
  card.run.legs.push(LegResult{});
  // Left over behind the ends of the lists.
  card.run.legs.items[2].extra_thrust_n = 9e3;
  card.uncertainty.turns.items[0] = {.leg = 0, .runs_away = 0.9, .stalls = 0.9};
  fill_cautions(brief, card);
  CHECK(card.cautions.size() == 0);

  const auto alone = [&](CautionKind kind, int leg, double value, double limit) {
    card.cautions.clear();
    fill_cautions(brief, card);
    REQUIRE(card.cautions.size() == 1);
    CHECK(card.cautions[0].kind == kind);
    CHECK(card.cautions[0].leg == leg);
    CHECK(card.cautions[0].value == value);
    CHECK(card.cautions[0].limit == doctest::Approx(limit));
  };
  card.run.legs[1].extra_thrust_n = 0.5;
  alone(CautionKind::ThrustNeeded, 1, 0.5, 0.0);
  card.run.legs[1] = LegResult{};
  // Half as hard again as 0.8 is 1.2.
  card.run.legs[1].hardest_braking_mps2 = 1.21;
  alone(CautionKind::HardBraking, 1, 1.21, 0.8);
  card.run.legs[1].hardest_braking_mps2 = 1.19;
  EngineChoice row;
  row.running = 2;
  row.warm_up_wait_s = 0.5;
  card.engines.rows.push(row);
  alone(CautionKind::EnginesNotWarm, -1, 0.5, 0.0);
  card.engines.rows.clear();
  RestartPoint point;
  point.leg = 0;
  point.needed_n = 200e3;
  point.within_limit = false;
  card.restart.points.push(point);
  card.restart.worst = 0;
  alone(CautionKind::RestartBeyondLimit, 0, 200e3, 2.0 * brief.aircraft.taxi_thrust_limit_n);
  card.restart = RestartAnswer{};
  // Just 0.05 m/s above the limit is let be.
  TurnAnswer turn;
  turn.leg = 1;
  turn.limit.speed_mps = 5.0;
  turn.peak_mps = 5.0 + 0.05;
  card.turns.push(turn);
  card.cautions.clear();
  fill_cautions(brief, card);
  CHECK(card.cautions.size() == 0);
  card.turns[0].peak_mps = std::nextafter(5.0 + 0.05, 9.0);
  alone(CautionKind::TurnSpeedAboveLimit, 1, card.turns[0].peak_mps, 5.0);
}

TEST_CASE("caution rules: snow and slush, and how deep they lie") {
  Quiet snow;
  snow.card().pavement.start_modelled = false;
  snow.card().pavement.density_kgpm3 = 80.0;
  snow.card().pavement.depth_m = 0.02;
  snow.says({kCare, CautionKind::StartNotKnown, -1, 0.02, 0.0});
  // What a restart takes is not known there, so no limit is said to be passed.
  RestartPoint point;
  point.within_limit = false;
  snow.card().restart.points.push(point);
  snow.card().restart.worst = 0;
  snow.card().cautions.clear();
  snow.says({kCare, CautionKind::StartNotKnown, -1, 0.02, 0.0});
  Quiet told;
  told.card().withheld.push({"start from rest", WithheldReason::NotModelled, -1});
  told.silent();
  Quiet bare;
  bare.card().pavement.density_kgpm3 = 850.0;
  bare.says({kCare, CautionKind::DepthNotGiven, -1, 0.0, 0.0});
  bare.card().cautions.clear();
  bare.card().pavement.depth_m = 0.001;
  bare.silent();
}
