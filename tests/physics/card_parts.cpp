// The card is made of the answers of its parts, each for the day's surface and brakes.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "made_card.hpp"
#include "physics/uncertainty/uncertainty.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Brief with_turnaround(Brief brief) {
  brief.turnaround.included = true;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.turnaround.landing_mass_kg = 0.9 * brief.condition.mass_kg;
  return brief;
}

void check_after_landing(const MadeCard& p) {
  const AfterLanding got = p.card->after_landing;
  const AfterLanding own = after_landing(p.today, p.air, p.card->run);
  CHECK(got.included == p.given.turnaround.included);
  CHECK(got.worst.line_up_k == own.worst.line_up_k);
  CHECK(got.worst.line_up_k > 0.0);
  CHECK(got.limit_k == own.limit_k);
  CHECK(got.within_limit == own.within_limit);
  CHECK(got.applications_left == own.applications_left);
  CHECK(got.points.size() == own.points.size());
  CHECK(got.mean.off_stand_k == brakes_now(p.today, p.air).pack_k);
}

void check_runs(const MadeCard& p) {
  FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(p.today, p.air, turns);
  REQUIRE(turns.size() == p.card->turns.size());
  for (const BrakeTechnique technique :
       {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
    const RouteRun run = run_route(p.today, p.air, technique, turns);
    const TechniqueCost& cost = p.card->heat.techniques[static_cast<int>(technique)];
    CHECK(cost.applications == run.applications);
    CHECK(cost.end_k == run.end_brake_k);
    if (technique != p.given.technique.braking) continue;
    CHECK(p.card->run.duration_s == run.duration_s);
    CHECK(p.card->run.fuel_kg == run.fuel_kg);
    CHECK(p.card->heat.end_k == run.end_brake_k);
    CHECK(p.card->heat.peak_k == run.peak_brake_k);
    const StopAnswer stop = stop_answer(p.today, run.stop_application);
    CHECK(p.card->stop.brake_distance_m == stop.brake_distance_m);
    CHECK(p.card->stop.eye_before_line_m == stop.eye_before_line_m);
  }
}

void check_thrust(const MadeCard& p) {
  const RollAnswer roll = roll_answer(p.today, p.air);
  CHECK(p.card->roll.idle_thrust_n == roll.idle_thrust_n);
  CHECK(p.card->roll.breakaway_margin_n == roll.breakaway_margin_n);
  const RestartAnswer restart = restart_answer(p.today, p.air, p.card->turns);
  REQUIRE(restart.worst >= 0);
  CHECK(p.card->restart.worst == restart.worst);
  const RestartPoint& worst = *worst_point(restart);
  const double grip = side_grip(pavement_state(p.given.aircraft, p.given.day), 0.0);
  const auto yaw = thrust_yaw(p.today.aircraft, p.today.condition,
                              std::max(worst.needed_n, roll.idle_thrust_n), grip);
  CHECK(p.card->yaw.even == yaw.even);
  CHECK(p.card->yaw.nose_grip_needed == yaw.nose_grip_needed);
  const BlastAnswer blast = blast_answer(p.today, p.air, worst.needed_n, worst.leg);
  CHECK(p.card->blast.restart_leg == blast.restart_leg);
  CHECK(p.card->blast.restart_leg == worst.leg);
  const EngineChoices engines = engine_choices(p.today, p.air);
  REQUIRE(p.card->engines.rows.size() == engines.rows.size());
  for (std::size_t i = 0; i < engines.rows.size(); ++i)
    CHECK(p.card->engines.rows[i].fuel_kg == engines.rows[i].fuel_kg);
}

void check_turns(const MadeCard& p) {
  REQUIRE(p.card->tracks.size() == p.card->turns.size());
  for (std::size_t i = 0; i < p.card->turns.size(); ++i) {
    const TurnAnswer& turn = p.card->turns[i];
    const LegResult& leg = p.card->run.legs[static_cast<std::size_t>(turn.leg)];
    CHECK(turn.peak_mps == leg.peak_mps);
    CHECK(turn.exit_mps == leg.exit_mps);
    const TrackAnswer track =
        track_answer(p.today, turn.leg, std::max(turn.planned_entry_mps, 1.0));
    CHECK(p.card->tracks[i].leg == turn.leg);
    CHECK(p.card->tracks[i].gear_on_line.steering_rate_radps ==
          track.gear_on_line.steering_rate_radps);
    CHECK(p.card->tracks[i].eye_on_line.steering_rate_radps ==
          track.eye_on_line.steering_rate_radps);
    const RestartPoint& restart = p.card->restart.points[static_cast<std::size_t>(turn.leg)];
    CHECK(turn.restart_thrust_n == restart.needed_n);
    CHECK(turn.restart_extra_thrust_n == restart.extra_n);
    CHECK(turn.restarts_at_idle == (restart.extra_n <= 0.0));
    CHECK(turn.restart_within_limit == restart.within_limit);
    CHECK(turn.restarts_at_idle_straight ==
          (restart.needed_n <= p.card->roll.idle_thrust_n + turn.loads.scrub_drag_n));
    // Sideways v^2/r at the peak, r of the place on the body; further from the gear it is more.
    CHECK(turn.gear_side_g * 9.80665 * turn.rolling_radius_m ==
          doctest::Approx(turn.peak_mps * turn.peak_mps).epsilon(1e-3));
    CHECK(turn.cockpit_side_g >= turn.gear_side_g);
    CHECK(turn.cabin_side_g >= turn.gear_side_g);
  }
}

}  // namespace

TEST_CASE("parts: every answer of the card is its part's own") {
  Draws draws(20261207);
  int uneven = 0, turns = 0;
  for (int i = 0; i < 40; ++i) {
    Brief brief = draw_plain_brief(draws);
    if (i % 4 == 1) brief = with_turnaround(brief);
    if (i % 4 == 2) {
      brief.day.surface = Surface::StandingWater;
      brief.day.contaminant_depth_m = 0.006;
    }
    if (i % 4 == 3) brief.condition.engines_running = 1;
    brief.technique.braking = static_cast<BrakeTechnique>(i % 3);
    CAPTURE(i);
    const MadeCard p(brief);
    CHECK(p.card->air.density_kgpm3 == p.air.density_kgpm3);
    check_runs(p);
    check_thrust(p);
    check_turns(p);
    check_after_landing(p);
    const StandardsAnswer rules = standards_answer(p.today, p.card->tracks, p.card->turns);
    REQUIRE(p.card->standards.verdicts.size() == rules.verdicts.size());
    const Today today = make_today(p.given);  // with the worst brake as the landing leaves it
    const UncertaintyAnswer uncertainty = uncertainty_answer(
        today, make_legs(today, p.given.route), p.given.bands, p.card->turns, p.card->run);
    CHECK(p.card->uncertainty.draws == uncertainty.draws);
    CHECK(p.card->uncertainty.line_up_k.p90 == uncertainty.line_up_k.p90);
    CHECK(p.card->uncertainty.hottest_k.p10 == uncertainty.hottest_k.p10);
    CHECK(p.card->uncertainty.over_brake_limit == uncertainty.over_brake_limit);
    uneven += !p.card->yaw.even;
    turns += static_cast<int>(p.card->turns.size());
  }
  CHECK(uneven > 5);
  CHECK(turns > 20);
}

TEST_CASE("parts: a half turn is looked at where a width is given") {
  Draws draws(20261208);
  Brief brief = draw_plain_brief(draws);
  brief.route.half_turn_width_m = 0.0;
  const MadeCard none(brief);
  CHECK(!none.card->half_turn.wanted);
  CHECK(none.card->half_turn.needed_m == 0.0);
  for (const double width_m : {0.5, 45.0, 80.0}) {
    brief.route.half_turn_width_m = width_m;
    const MadeCard wanted(brief);
    const HalfTurn own = half_turn(wanted.today.aircraft, wanted.today.limits, width_m);
    CHECK(wanted.card->half_turn.wanted);
    CHECK(wanted.card->half_turn.needed_m == own.needed_m);
    CHECK(wanted.card->half_turn.possible == own.possible);
    CHECK(wanted.card->half_turn.width_m == width_m);
  }
}
