// What holds of the point that is kept on the line, in random turns: its ends are the two old
// techniques, margins move one way, and the band keeps what it promises.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/followed_point.hpp"
#include "physics/path/point_way.hpp"
#include "physics/path/steering_ramp.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

struct RandomTurn {
  Aircraft aircraft;
  TaxiRoute route;
  double speed_mps = 4.0;
};

Leg straight_of(double length_m, double width_m) {
  Leg leg;
  leg.length_m = length_m;
  leg.width_m = width_m;
  return leg;
}

// One plain turn between long straights; the rate as given, 0 for steering at once.
RandomTurn draw_turn(Draws& draws, double rate_radps) {
  RandomTurn turn;
  Aircraft& a = turn.aircraft;
  a.wheelbase_m = draws.between(16.0, 33.0);
  a.eye_ahead_m = a.wheelbase_m + draws.between(0.5, 5.0);
  a.wheel_span_m = draws.between(6.0, 14.0);
  a.steering_limit_rad = 1.3;
  a.steering_rate_radps = rate_radps;
  turn.speed_mps = draws.between(2.0, 6.0);
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = a.eye_ahead_m * draws.by_size(1.0, 3.5);
  arc.turn_rad = draws.sign() * draws.between(0.25, 2.6);
  arc.width_m = draws.between(20.0, 30.0);
  if (draws.coin()) arc.widening_m = draws.between(1.0, 10.0);
  if (draws.coin()) arc.lead_in_m = draws.between(5.0, 60.0);
  turn.route.legs.clear();
  turn.route.legs.push(straight_of(500.0, arc.width_m));
  turn.route.legs.push(arc);
  turn.route.legs.push(straight_of(500.0, arc.width_m));
  return turn;
}

PointMargins with_point(const RandomTurn& turn, double ahead_m) {
  return margins_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, ahead_m);
}

FollowedPoint best_of(const RandomTurn& turn, const WantedMargins& wanted) {
  return best_followed_point(turn.aircraft, turn.route, 1, turn.speed_mps, wanted);
}

double surplus_m(const RandomTurn& turn, const WantedMargins& wanted, double ahead_m) {
  const PointMargins m = with_point(turn, ahead_m);
  return m.reached ? std::min(m.nose_m - wanted.nose_m, m.main_m - wanted.main_m) : -1e9;
}

}  // namespace

TEST_CASE("followed point: its ends are the eye and the main gear on the line") {
  Draws draws(20261101);
  Worst worst;
  for (int i = 0; i < scaled_draws(60); ++i) {
    const RandomTurn turn = draw_turn(draws, 0.2);
    const TrackAnswer answer = track_answer(turn.aircraft, turn.route, 1.0, 1, turn.speed_mps);
    const PointMargins gear = with_point(turn, 0.0);
    worst.note(gear.nose_m - answer.gear_on_line.margins.nose.margin_m, i);
    worst.note(gear.main_m - answer.gear_on_line.margins.least_main_m(), i);
    worst.note(gear.steering_rad - answer.gear_on_line.steering_rad, i);
    const TrackPlan at_gear = plan_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, 0.0);
    worst.note(at_gear.nose_overshoot_m - answer.gear_on_line.nose_overshoot_m, i);
    worst.note(at_gear.start_before_arc_m - answer.gear_on_line.start_before_arc_m, i);
    // A point just ahead of the main gear goes nearly as the main gear does.
    const TrackPlan near = plan_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, 0.001);
    CHECK(std::abs(near.nose_overshoot_m - at_gear.nose_overshoot_m) < 0.005);
    CHECK(std::abs(near.start_before_arc_m - at_gear.start_before_arc_m) < 0.02);
    CHECK(std::abs(near.shift_m - at_gear.shift_m) < 0.005);
    // The eye, where the nose wheels are fast enough for what the line asks.
    const double eye_m = turn.aircraft.eye_ahead_m;
    const TurnSetting setting = turn_setting(turn.aircraft, turn.route, 1);
    const PointWay way = point_way(setting, eye_m, turn.speed_mps, NoseRate::Limited);
    if (way.kind == WayKind::PointByRamps) continue;
    const PointMargins eye = with_point(turn, eye_m);
    worst.note(eye.nose_m - answer.eye_on_line.margins.nose.margin_m, i);
    worst.note(eye.main_m - answer.eye_on_line.margins.least_main_m(), i);
    worst.note(eye.steering_rad - answer.eye_on_line.steering_rad, i);
    const TrackPlan at_eye = plan_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, eye_m);
    worst.note(at_eye.gear_off_line_m - answer.eye_on_line.gear_off_line_m, i);
    worst.note(at_eye.eye_past_arc_begin_m, i);
  }
  CAPTURE(worst.at);
  CHECK(worst.error < 1e-9);
  CHECK(worst.count > scaled_draws(60) * 5);
}

TEST_CASE("followed point: further ahead the nose keeps more and the main gear less") {
  Draws draws(20261102);
  int steps = 0;
  for (int i = 0; i < scaled_draws(60); ++i) {
    // At once it is a theorem; ramps move the inner wheel by some tenths of a millimetre.
    const bool at_once = i % 2 == 0;
    const RandomTurn turn = draw_turn(draws, at_once ? 0.0 : 0.2);
    const double back_m = at_once ? 1e-7 : 5e-4;
    PointMargins before = with_point(turn, 0.0);
    // Ahead of the nose gear the nose wheels run inside, a little.
    const double most_m = turn.aircraft.wheelbase_m;
    for (int k = 1; k <= 12; ++k) {
      const PointMargins here = with_point(turn, most_m * k / 12.0);
      CAPTURE(i);
      CAPTURE(k);
      CHECK(here.nose_m >= before.nose_m - back_m);
      CHECK(here.main_m <= before.main_m + back_m);
      before = here;
      ++steps;
    }
  }
  CHECK(steps > 12 * 5);
}

TEST_CASE("followed point: every point of the band keeps both margins, none outside of it does") {
  Draws draws(20261103);
  int bands = 0, none = 0, ends = 0;
  for (int i = 0; i < scaled_draws(120); ++i) {
    const RandomTurn turn = draw_turn(draws, draws.coin() ? 0.0 : 0.2);
    WantedMargins wanted{draws.between(0.0, 4.0), draws.between(0.0, 5.0)};
    if (i % 4 == 3) wanted = {9.0, 9.0};  // more than any of these pavements has
    const FollowedPoint point = best_of(turn, wanted);
    CAPTURE(i);
    REQUIRE(point.reached);
    CHECK(point.eye_m == turn.aircraft.eye_ahead_m);
    CHECK(point.surplus_m ==
          doctest::Approx(surplus_m(turn, wanted, point.ahead_m)).epsilon(1e-12));
    // No other point is better than the best, and the recommended one is as good to 0.1 m.
    const double best_m = surplus_m(turn, wanted, point.best_m);
    for (int k = 0; k <= 10; ++k)
      CHECK(surplus_m(turn, wanted, point.eye_m * k / 10.0) <= best_m + 0.001);
    CHECK(point.surplus_m >= best_m - 0.1001);
    CHECK(point.keeps_all == (best_m >= 0.0));
    if (!point.keeps_all) {
      ++none;
      continue;
    }
    ++bands;
    CHECK(point.low_m <= point.best_m);
    CHECK(point.high_m >= point.best_m);
    for (const double share : {0.0, draws.between(0.0, 1.0), draws.between(0.0, 1.0), 1.0}) {
      const double ahead_m = point.low_m + share * (point.high_m - point.low_m);
      CHECK(surplus_m(turn, wanted, ahead_m) >= -1e-6);
    }
    constexpr double kOutside_m = 0.01;  // the ends are found to a millimetre
    if (point.low_m > kOutside_m) {
      CHECK(surplus_m(turn, wanted, point.low_m - kOutside_m) < 0.0);
      ++ends;
    }
    if (point.high_m < point.eye_m - kOutside_m) {
      CHECK(surplus_m(turn, wanted, point.high_m + kOutside_m) < 0.0);
      ++ends;
    }
  }
  CHECK(bands >= 3);
  CHECK(none >= 1);
  CHECK(ends >= 2);
}

TEST_CASE("followed point: points beyond the steering limit keep nothing") {
  Draws draws(20261104);
  for (int i = 0; i < scaled_draws(30); ++i) {
    RandomTurn turn = draw_turn(draws, 0.2);
    const double at_gear_rad = with_point(turn, 0.0).steering_rad;
    const double at_eye_rad = with_point(turn, turn.aircraft.eye_ahead_m).steering_rad;
    turn.aircraft.steering_limit_rad = 0.5 * (at_gear_rad + at_eye_rad);
    const FollowedPoint point = best_of(turn, {-50.0, -50.0});
    CAPTURE(i);
    REQUIRE(point.reached);
    for (const double ahead_m : {point.low_m, point.best_m, point.ahead_m, point.high_m})
      CHECK(with_point(turn, ahead_m).reached);
    turn.aircraft.steering_limit_rad = 0.1 * std::min(at_gear_rad, at_eye_rad);
    CHECK_FALSE(best_of(turn, {0.0, 0.0}).reached);
    CHECK_FALSE(best_of(turn, {0.0, 0.0}).keeps_all);
  }
}

TEST_CASE("followed point: to the left as to the right, and twice as large as large") {
  Draws draws(20261105);
  for (int i = 0; i < scaled_draws(20); ++i) {
    const RandomTurn turn = draw_turn(draws, 0.2);
    const WantedMargins wanted{1.0, 3.0};
    const FollowedPoint point = best_of(turn, wanted);
    RandomTurn other = turn;
    other.route.legs[1].turn_rad = -turn.route.legs[1].turn_rad;
    CAPTURE(i);
    CHECK(best_of(other, wanted).ahead_m == point.ahead_m);
    CHECK(best_of(other, wanted).high_m == point.high_m);
    const double ahead_m = draws.between(0.0, turn.aircraft.eye_ahead_m);
    const TrackPlan plan = plan_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, ahead_m);
    const TrackPlan mirrored =
        plan_with_point(other.aircraft, other.route, 1, other.speed_mps, ahead_m);
    CHECK(plan.nose_overshoot_m == mirrored.nose_overshoot_m);
    CHECK(plan.margins.left_main.margin_m == mirrored.margins.right_main.margin_m);
    for (int k = 0; k < kPlanSamples; k += 10) {
      CHECK(plan.pose[k].gear.y_m == -mirrored.pose[k].gear.y_m);
      CHECK(plan.pose[k].heading_rad == -mirrored.pose[k].heading_rad);
    }
  }
}

TEST_CASE("followed point: as a plan it has the margins of the search, and starts where it says") {
  Draws draws(20261106);
  Worst worst;
  int ramped = 0;
  for (int i = 0; i < scaled_draws(60); ++i) {
    const RandomTurn turn = draw_turn(draws, 0.2);
    const double ahead_m = draws.between(0.05, 1.0) * turn.aircraft.eye_ahead_m;
    const TrackPlan plan = plan_with_point(turn.aircraft, turn.route, 1, turn.speed_mps, ahead_m);
    const PointMargins margins = with_point(turn, ahead_m);
    const TurnSetting setting = turn_setting(turn.aircraft, turn.route, 1);
    const PointWay way = point_way(setting, ahead_m, turn.speed_mps, NoseRate::Limited);
    CAPTURE(i);
    worst.note(plan.margins.nose.margin_m - margins.nose_m, i);
    worst.note(plan.margins.least_main_m() - margins.main_m, i);
    worst.note(plan.eye_past_arc_begin_m + ahead_m - way.start_past_arc_m - setting.eye_m, i);
    worst.note(plan.start.gear.x_m - (way.start_past_arc_m - ahead_m), i);
    CHECK(plan.technique == TurnTechnique::PointOnLine);
    CHECK(plan.followed_ahead_m == ahead_m);
    CHECK(plan.ramps_fit);
    CHECK(plan.steering_rate_radps <= turn.aircraft.steering_rate_radps);
    if (way.kind != WayKind::PointByRamps) {
      CHECK(plan.start_before_arc_m == ahead_m);
      continue;
    }
    ++ramped;
    CHECK(way.steered.ahead_m == ahead_m);
    CHECK(plan.shift_m >= 0.0);
    // Samples go on smoothly and never past the greatest angle.
    for (int k = 1; k < kPlanSamples; ++k) {
      CHECK(std::abs(plan.nose_wheel_rad[k]) <= plan.steering_rad + 1e-9);
      CHECK(std::abs(plan.pose[k].heading_rad - plan.pose[k - 1].heading_rad) < 0.2);
    }
  }
  CAPTURE(worst.at);
  CHECK(worst.error < 1e-9);
  CHECK(ramped >= 3);
}

TEST_CASE("followed point: less to turn the nose wheels with starts earlier") {
  Draws draws(20261107);
  for (int i = 0; i < scaled_draws(100); ++i) {
    const double wheelbase_m = draws.between(16.0, 33.0);
    const double ahead_m = wheelbase_m * draws.between(0.02, 0.9);
    const double radius_m = wheelbase_m * draws.by_size(1.0, 3.0);
    const double turn_rad = draws.between(0.25, 2.6);
    double earlier_m = 1e-9;
    CAPTURE(i);
    for (const double per_metre : {1.0, 0.1, 0.05, 0.03}) {
      const PointOnLineTurn turn =
          point_on_line_turn(radius_m, turn_rad, ahead_m, wheelbase_m, per_metre);
      REQUIRE(turn.found);
      CHECK(turn.start_past_arc_m <= earlier_m);
      earlier_m = turn.start_past_arc_m;
      // No ramp where the line asks for no more than the rate at its begin.
      CHECK((turn.entry_nose_m > 0.0) == (ahead_m < wheelbase_m / (per_metre * radius_m)));
      const MotionPhases phases = phases_of_point(turn, 5.0, 7.0);
      CHECK(phases[0].begin_m == -5.0);
      CHECK(phases[phases.size() - 1].end_m == doctest::Approx(turn.way_m() + 7.0).epsilon(1e-12));
      // A ramp there and back turns as much as it turned.
      const SteeringRamp there = steering_ramp(0.0, turn.steering_rad, per_metre, wheelbase_m);
      const SteeringRamp back = steering_ramp(turn.steering_rad, 0.0, per_metre, wheelbase_m);
      CHECK(there.heading_rad == doctest::Approx(back.heading_rad).epsilon(1e-14));
      CHECK(std::hypot(there.axis.x_m, there.axis.y_m) ==
            doctest::Approx(std::hypot(back.axis.x_m, back.axis.y_m)).epsilon(1e-12));
    }
  }
}

TEST_CASE("followed point: in chains and on transition curves the band holds where it is looked") {
  Draws draws(20261108);
  int bands = 0;
  for (int i = 0; i < scaled_draws(25); ++i) {
    RandomTurn turn = draw_turn(draws, 0.2);
    Leg first = turn.route.legs[1];
    first.turn_rad = draws.sign() * draws.between(0.3, 1.6);
    if (draws.coin()) turn.route.legs[1].easing_m = 15.0;
    const Leg second = turn.route.legs[1];
    turn.route.legs.clear();
    for (const Leg& leg : {straight_of(300.0, first.width_m), first,
                           straight_of(draws.between(10.0, 60.0), first.width_m), second,
                           straight_of(300.0, first.width_m)})
      turn.route.legs.push(leg);
    const WantedMargins wanted{0.5, 2.0};
    const FollowedPoint point =
        best_followed_point(turn.aircraft, turn.route, 3, turn.speed_mps, wanted);
    const auto surplus = [&](double ahead_m) {
      const PointMargins m =
          margins_with_point(turn.aircraft, turn.route, 3, turn.speed_mps, ahead_m);
      return std::min(m.nose_m - wanted.nose_m, m.main_m - wanted.main_m);
    };
    CAPTURE(i);
    REQUIRE(point.reached);
    const double best_m = surplus(point.best_m);
    for (int k = 0; k <= 24; ++k) CHECK(surplus(point.eye_m * k / 24.0) <= best_m + 1e-9);
    if (!point.keeps_all) continue;
    ++bands;
    for (const double share : {0.0, 0.5, 1.0})
      CHECK(surplus(point.low_m + share * (point.high_m - point.low_m)) >= -1e-6);
  }
  CHECK(bands >= 1);
}

TEST_CASE(
    "followed point: without a speed, or with a circle that no ramp reaches, it asks for none") {
  RandomTurn turn;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 40.0;
  arc.turn_rad = 1.5;
  turn.route.legs.clear();
  for (const Leg& leg : {straight_of(500.0, 23.0), arc, straight_of(500.0, 23.0)})
    turn.route.legs.push(leg);
  turn.aircraft.steering_rate_radps = 0.2;
  const TurnSetting setting = turn_setting(turn.aircraft, turn.route, 1);
  CHECK(point_way(setting, 10.0, 4.0, NoseRate::Limited).kind == WayKind::PointByRamps);
  CHECK(point_way(setting, 10.0, 0.0, NoseRate::Limited).kind == WayKind::PointOnLine);
  // A point further ahead than the radius, at a rate near nothing.
  turn.route.legs[1].radius_m = 0.6 * turn.aircraft.eye_ahead_m;
  turn.aircraft.steering_rate_radps = 1e-4;
  const TurnSetting tight = turn_setting(turn.aircraft, turn.route, 1);
  CHECK_FALSE(
      point_on_line_turn(tight.arc.radius_m, tight.angle_rad, tight.eye_m, tight.wheelbase_m, 1e-5)
          .found);
  CHECK(point_way(tight, tight.eye_m, 4.0, NoseRate::Limited).kind == WayKind::PointOnLine);
}
