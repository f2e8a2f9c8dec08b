// Properties of the plans: mirrored turns mirror, limits, swings, eased lines and S-turns.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Leg straight(double length_m) {
  Leg leg;
  leg.length_m = length_m;
  return leg;
}

Leg arc_leg(double radius_m, double turn_rad, double easing_m = 0.0) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = turn_rad;
  leg.easing_m = easing_m;
  return leg;
}

Brief brief_of(std::initializer_list<Leg> legs) {
  Brief brief;
  brief.route.legs.clear();
  for (const Leg& leg : legs) brief.route.legs.push(leg);
  return brief;
}

// Rate of the nose wheels from one sample to the next, the largest.
double fastest_wheels_radps(const TrackPlan& plan, double step_m, double speed_mps) {
  double fastest = 0.0;
  for (int i = 1; i < plan.samples; ++i)
    fastest = std::max(fastest, std::abs(plan.nose_wheel_rad[i] - plan.nose_wheel_rad[i - 1]) /
                                    step_m * speed_mps);
  return fastest;
}

Brief random_brief(Draws& draws) {
  Brief brief;
  brief.route.legs.clear();
  Aircraft& a = brief.aircraft;
  a.wheelbase_m = draws.between(18.0, 33.0);
  a.eye_ahead_m = a.wheelbase_m + draws.between(0.5, 5.0);
  a.wing_tip_behind_m = draws.between(-4.0, 12.0);
  if (draws.coin()) {
    a.turn_axis_ahead_m = draws.between(-0.5, 1.0);
    a.body_gear_steer_share = draws.between(0.0, 0.2);
    a.body_gear_behind_m = draws.between(0.0, 3.5);
  }
  const int legs = 2 + draws.below(5);
  for (int i = 0; i < legs; ++i) {
    Leg leg = draws.below(3) == 0
                  ? straight(draws.between(20.0, 200.0))
                  : arc_leg(draws.between(30.0, 110.0), draws.sign() * draws.between(0.15, 2.8));
    if (draws.coin()) leg.easing_m = draws.between(1.0, 40.0);
    leg.width_m = draws.between(20.0, 30.0);
    if (draws.coin()) leg.widening_m = draws.between(0.0, 8.0);
    if (draws.coin()) leg.lead_in_m = draws.between(0.0, 50.0);
    brief.route.legs.push(leg);
  }
  return brief;
}

Brief mirrored(Brief brief) {
  for (Leg& leg : brief.route.legs) leg.turn_rad = -leg.turn_rad;
  return brief;
}

void same(double a, double b) { CHECK(a == b); }

void check_mirror(const TrackPlan& a, const TrackPlan& b) {
  CHECK(a.possible == b.possible);
  CHECK(a.ramps_fit == b.ramps_fit);
  same(a.steering_rad, b.steering_rad);
  same(a.steering_rate_radps, b.steering_rate_radps);
  same(a.start_before_arc_m, b.start_before_arc_m);
  same(a.eye_past_arc_begin_m, b.eye_past_arc_begin_m);
  same(a.eye_past_crossing_m, b.eye_past_crossing_m);
  same(a.nose_overshoot_m, b.nose_overshoot_m);
  same(a.eye_overshoot_m, b.eye_overshoot_m);
  same(a.nose_off_line_m, b.nose_off_line_m);
  same(a.gear_off_line_m, b.gear_off_line_m);
  same(a.smallest_gear_radius_m, b.smallest_gear_radius_m);
  same(a.wing_reach_m, b.wing_reach_m);
  same(a.tail_reach_m, b.tail_reach_m);
  same(a.main_outside_m, b.main_outside_m);
  same(a.main_inside_m, b.main_inside_m);
  same(a.wing_outside_m, b.wing_outside_m);
  same(a.wing_inside_m, b.wing_inside_m);
  same(a.tail_swing_m, b.tail_swing_m);
  same(a.margins.left_main.margin_m, b.margins.right_main.margin_m);
  same(a.margins.right_main.margin_m, b.margins.left_main.margin_m);
  same(a.margins.nose.margin_m, b.margins.nose.margin_m);
  for (int i = 0; i < a.samples; ++i) {
    same(a.pose[i].gear.x_m, b.pose[i].gear.x_m);
    same(a.pose[i].gear.y_m, -b.pose[i].gear.y_m);
    same(a.pose[i].heading_rad, -b.pose[i].heading_rad);
    same(a.nose_wheel_rad[i], -b.nose_wheel_rad[i]);
  }
}

double largest(const double* values, int count) {
  double most = 0.0;
  for (int i = 0; i < count; ++i) most = std::max(most, std::abs(values[i]));
  return most;
}

}  // namespace

TEST_CASE("track: mirrored turns mirror to the last bit, eased, chained, about any axis") {
  Draws draws(20261150);
  int turns = 0;
  for (int i = 0; i < 60; ++i) {
    const Brief brief = random_brief(draws);
    const Brief mirror = mirrored(brief);
    const double speed = draws.between(1.5, 8.0);
    for (std::size_t k = 0; k < brief.route.legs.size(); ++k) {
      if (brief.route.legs[k].kind != LegKind::Arc) continue;
      const int leg = static_cast<int>(k);
      const TrackAnswer a = track_answer(brief, leg, speed), b = track_answer(mirror, leg, speed);
      CAPTURE(i);
      CAPTURE(leg);
      check_mirror(a.eye_on_line, b.eye_on_line);
      check_mirror(a.gear_on_line, b.gear_on_line);
      same(a.crossing.radius_m, b.crossing.radius_m);
      same(a.turn_axis_ahead_m, b.turn_axis_ahead_m);
      same(largest_lag_in_turn_rad(brief.route, leg, 30.0),
           largest_lag_in_turn_rad(mirror.route, leg, 30.0));
      ++turns;
    }
  }
  CHECK(turns > 100);
}

TEST_CASE("track: swings to both sides, and reach as the larger of them") {
  Draws draws(20261151);
  for (int i = 0; i < 60; ++i) {
    Brief brief = random_brief(draws);
    brief.route.legs.clear();
    brief.route.legs.push(straight(200.0));
    brief.route.legs.push(arc_leg(draws.between(60.0, 110.0),
                                  draws.sign() * draws.between(0.3, 2.5),
                                  draws.coin() ? draws.between(1.0, 15.0) : 0.0));
    brief.route.legs.push(straight(200.0));
    const Aircraft& a = brief.aircraft;
    const TrackAnswer answer = track_answer(brief, 1, 4.0);
    for (const TrackPlan* plan : {&answer.eye_on_line, &answer.gear_on_line}) {
      CHECK(plan->wing_reach_m == std::max(plan->wing_outside_m, plan->wing_inside_m));
      CHECK(plan->wing_reach_m >= 0.5 * a.wing_span_m);
      CHECK(plan->wing_outside_m > 0.4 * a.wing_span_m);
      CHECK(plan->wing_inside_m > 0.4 * a.wing_span_m);
      CHECK(plan->tail_reach_m >= plan->tail_swing_m);
      CHECK(plan->main_outside_m > 0.0);
      CHECK(plan->main_inside_m >= 0.5 * a.wheel_span_m - 1e-9);
    }
    // The gear on the line keeps the outer wheels half a span out, the tail swings farther out than
    // half its span; the eye on the line draws the gear inwards.
    const TrackPlan& gear = answer.gear_on_line;
    CHECK(gear.tail_swing_m > 0.5 * a.tailplane_span_m);
    CHECK(gear.main_outside_m == doctest::Approx(0.5 * a.wheel_span_m).epsilon(0.05));
    CHECK(answer.eye_on_line.main_inside_m > gear.main_inside_m);
    CHECK(answer.eye_on_line.main_inside_m ==
          doctest::Approx(answer.eye_on_line.gear_off_line_m + 0.5 * a.wheel_span_m).epsilon(0.01));
  }
}

TEST_CASE("track: tail swing in a steady turn is that of its circle") {
  Brief brief = brief_of({straight(300.0), arc_leg(50.0, 3.0), straight(300.0)});
  brief.aircraft.steering_rate_radps = 0.0;
  const Aircraft& a = brief.aircraft;
  const TrackPlan plan = track_answer(brief, 1, 4.0).gear_on_line;
  const auto outside = [&](double out, double behind) {
    return std::hypot(50.0 + out, behind) - 50.0;
  };
  CHECK(plan.tail_swing_m ==
        doctest::Approx(outside(0.5 * a.tailplane_span_m, a.tail_behind_m)).epsilon(1e-12));
  CHECK(plan.wing_outside_m ==
        doctest::Approx(outside(0.5 * a.wing_span_m, a.wing_tip_behind_m)).epsilon(1e-12));
  CHECK(plan.main_outside_m == doctest::Approx(0.5 * a.wheel_span_m).epsilon(1e-12));
}

TEST_CASE("track: a hardly noticeable bend of huge radius is a straight") {
  const Brief brief = brief_of({straight(200.0), arc_leg(5e6, 2e-5), straight(200.0)});
  const TrackAnswer answer = track_answer(brief, 1, 4.0);
  const Aircraft& a = brief.aircraft;
  for (const TrackPlan* plan : {&answer.eye_on_line, &answer.gear_on_line}) {
    CHECK(plan->steering_rad < 1e-5);
    CHECK(plan->gear_off_line_m < 36.0 * 36.0 / (2.0 * 5e6));
    CHECK(plan->wing_reach_m == doctest::Approx(0.5 * a.wing_span_m).epsilon(1e-5));
    CHECK(plan->tail_swing_m == doctest::Approx(0.5 * a.tailplane_span_m).epsilon(1e-4));
    CHECK(plan->margins.left_main.margin_m ==
          doctest::Approx(0.5 * (23.0 - a.wheel_span_m)).epsilon(1e-4));
  }
}

TEST_CASE("track: a vanishing easing gives the plain arc steered at once") {
  Brief plain = brief_of({straight(200.0), arc_leg(55.0, 1.6), straight(200.0)});
  plain.aircraft.steering_rate_radps = 0.0;
  Brief eased = plain;
  eased.route.legs[1].easing_m = 1e-7;
  const TrackAnswer a = track_answer(plain, 1, 4.0), b = track_answer(eased, 1, 4.0);
  const auto alike = [](double x, double y) { CHECK(x == doctest::Approx(y).epsilon(1e-6)); };
  alike(a.eye_on_line.gear_off_line_m, b.eye_on_line.gear_off_line_m);
  alike(a.eye_on_line.steering_rad, b.eye_on_line.steering_rad);
  alike(a.eye_on_line.margins.left_main.margin_m, b.eye_on_line.margins.left_main.margin_m);
  alike(a.eye_on_line.eye_past_crossing_m, b.eye_on_line.eye_past_crossing_m);
  alike(a.gear_on_line.nose_overshoot_m, b.gear_on_line.nose_overshoot_m);
  alike(a.gear_on_line.eye_overshoot_m, b.gear_on_line.eye_overshoot_m);
  alike(a.gear_on_line.eye_past_crossing_m, b.gear_on_line.eye_past_crossing_m);
  alike(a.gear_on_line.eye_past_arc_begin_m, b.gear_on_line.eye_past_arc_begin_m);
  alike(a.gear_on_line.steering_rad, b.gear_on_line.steering_rad);
  alike(a.gear_on_line.smallest_gear_radius_m, b.gear_on_line.smallest_gear_radius_m);
  alike(largest_lag_in_turn_rad(plain.route, 1, 34.0),
        largest_lag_in_turn_rad(eased.route, 1, 34.0));
  CHECK(b.gear_on_line.ramps_fit == false);  // no nose wheel is that quick
}

TEST_CASE("track: gear kept on an eased line: nose wheels by the curvature, at its rate") {
  Brief brief = brief_of({straight(200.0), arc_leg(50.0, -1.5, 25.0), straight(200.0)});
  brief.aircraft.steering_rate_radps = 0.12;
  const double wheelbase = brief.aircraft.wheelbase_m;
  const TrackPlan plan = track_answer(brief, 1, 4.0).gear_on_line;
  CHECK(plan.technique == TurnTechnique::MainGearOnLine);
  CHECK(plan.possible);
  CHECK(plan.steering_rad == doctest::Approx(std::atan(wheelbase / 50.0)).epsilon(1e-14));
  CHECK(plan.steering_rate_radps ==
        doctest::Approx(wheelbase * 4.0 / (50.0 * 25.0)).epsilon(1e-14));
  CHECK(plan.ramps_fit);
  CHECK(plan.gear_off_line_m < 1e-9);
  CHECK(plan.start_before_arc_m == 0.0);
  CHECK(plan.shift_m == 0.0);
  CHECK(plan.smallest_gear_radius_m == 50.0);
  CHECK(largest(plan.nose_wheel_rad, plan.samples) ==
        doctest::Approx(plan.steering_rad).epsilon(1e-14));
  // Rate from one sample to the next: never above the one said, and near it where the easing
  // begins.
  const double step = (leg_length_m(brief.route.legs[1]) + 20.0) / (kPlanSamples - 1);
  const double fastest = fastest_wheels_radps(plan, step, 4.0);
  CHECK(fastest <= plan.steering_rate_radps * (1.0 + 1e-12));
  CHECK(fastest > 0.98 * plan.steering_rate_radps);
  // Just too slow for it.
  brief.aircraft.steering_rate_radps = 0.99 * plan.steering_rate_radps;
  CHECK(!track_answer(brief, 1, 4.0).gear_on_line.ramps_fit);
  brief.aircraft.steering_limit_rad = 0.99 * plan.steering_rad;
  CHECK(!track_answer(brief, 1, 4.0).gear_on_line.possible);
  // The nose runs past the outbound line as far as the furthest of many places.
  double nose = 0.0, eye = 0.0;
  const Brief fine = brief_of({straight(200.0), arc_leg(50.0, 1.5, 25.0), straight(200.0)});
  const PaintedLine line = painted_line(fine.route, 1);
  const LinePoint out = line_at(line, leg_length_m(fine.route.legs[1]));
  for (double at = 0.0; at < leg_length_m(fine.route.legs[1]); at += 0.001) {
    const LinePoint here = line_at(line, at);
    const auto past = [&](double ahead) {
      const Point p = ahead_of(here.point, here.heading_rad, ahead);
      return (p.x_m - out.point.x_m) * std::sin(1.5) - (p.y_m - out.point.y_m) * std::cos(1.5);
    };
    nose = std::max(nose, past(wheelbase));
    eye = std::max(eye, past(brief.aircraft.eye_ahead_m));
  }
  CHECK(plan.nose_overshoot_m == doctest::Approx(nose).epsilon(1e-6));
  CHECK(plan.eye_overshoot_m == doctest::Approx(eye).epsilon(1e-6));
  CHECK(plan.eye_past_arc_begin_m == brief.aircraft.eye_ahead_m);
  CHECK(plan.eye_past_crossing_m ==
        doctest::Approx(brief.aircraft.eye_ahead_m -
                        crossing_radius_m(fine.route.legs[1]) * std::tan(0.75))
            .epsilon(1e-13));
}

TEST_CASE("track: easing lowers the rate and the deviation asked of the nose wheels") {
  Brief brief = brief_of({straight(200.0), arc_leg(50.0, 1.5), straight(200.0)});
  double last_rate = 1e9;
  for (const double easing : {0.0, 10.0, 20.0, 40.0}) {
    brief.route.legs[1].easing_m = easing;
    const TrackPlan plan = track_answer(brief, 1, 4.0).eye_on_line;
    CHECK(plan.steering_rate_radps < last_rate);
    last_rate = plan.steering_rate_radps;
  }
}

TEST_CASE("track: largest lag of an eased arc is the largest of many places") {
  Draws draws(20261152);
  Worst worst;
  for (int i = 0; i < 100; ++i) {
    const double radius = draws.between(30.0, 90.0);
    const double turn = draws.sign() * draws.between(0.3, 2.8);
    const double easing = draws.between(0.05, 1.0) * radius * std::abs(turn);
    const Brief brief = brief_of({straight(80.0), arc_leg(radius, turn, easing), straight(80.0)});
    const double ahead = draws.between(15.0, 36.0);
    const double length = leg_length_m(brief.route.legs[1]);
    double lag = 0.0, most = 0.0;
    const double step = length / 20000.0;
    for (int k = 0; k < 20000; ++k) {
      lag = lag_after_m(lag, ahead, leg_curvature_pm(brief.route.legs[1], (k + 0.5) * step), step);
      most = std::max(most, std::abs(lag));
    }
    worst.note(largest_lag_in_turn_rad(brief.route, 1, ahead) - most, i);
  }
  CHECK(worst.error < 1e-6);
  // Entered out of a much tighter turn the lag falls all the way, and out of one to the other side
  // it may not even pass through zero: largest at the begin.
  const double lag = lag_after_m(0.0, 30.0, 1.0 / 32.0, 64.0);
  for (const Leg& next : {arc_leg(300.0, 0.3, 20.0), arc_leg(300.0, 0.3), arc_leg(60.0, -0.1, 3.0),
                          arc_leg(60.0, -0.1)}) {
    const Brief brief = brief_of({straight(50.0), arc_leg(32.0, 2.0), next, straight(50.0)});
    CHECK(largest_lag_in_turn_rad(brief.route, 2, 30.0) == doctest::Approx(lag).epsilon(1e-14));
  }
  // Out of a wider one it grows.
  const Brief grows =
      brief_of({straight(50.0), arc_leg(90.0, 1.0), arc_leg(50.0, 1.0), straight(50.0)});
  CHECK(largest_lag_in_turn_rad(grows.route, 2, 30.0) ==
        doctest::Approx(lag_after_m(lag_after_m(0.0, 30.0, 1.0 / 90.0, 90.0), 30.0, 0.02, 50.0))
            .epsilon(1e-14));
}

TEST_CASE("track: an S of two plain arcs: ramps do not fit, the nose wheels go from side to side") {
  const Brief brief =
      brief_of({straight(200.0), arc_leg(60.0, 0.8), arc_leg(50.0, -0.9), straight(200.0)});
  const double wheelbase = brief.aircraft.wheelbase_m;
  const TrackAnswer first = track_answer(brief, 1, 4.0), second = track_answer(brief, 2, 4.0);
  CHECK(!first.gear_on_line.ramps_fit);
  CHECK(!second.gear_on_line.ramps_fit);
  CHECK(first.gear_on_line.steering_rate_radps == 0.0);
  // Right in the first, left beyond its end; straight before it.
  const TrackPlan& plan = first.gear_on_line;
  CHECK(plan.nose_wheel_rad[0] == 0.0);
  CHECK(plan.nose_wheel_rad[kPlanSamples / 2] ==
        doctest::Approx(std::atan(wheelbase / 60.0)).epsilon(1e-13));
  CHECK(plan.nose_wheel_rad[kPlanSamples - 1] ==
        doctest::Approx(-std::atan(wheelbase / 50.0)).epsilon(1e-13));
  CHECK(second.gear_on_line.nose_wheel_rad[0] ==
        doctest::Approx(std::atan(wheelbase / 60.0)).epsilon(1e-13));
  // The eye on the line carries the lag of the first into the second: there the gear still lies to
  // the left of the line, outside of the first turn's inside.
  const double eye = brief.aircraft.eye_ahead_m;
  const double carried = lag_after_m(0.0, eye, 1.0 / 60.0, 48.0);
  const double step = (45.0 + 3.5 * eye + 10.0) / (kPlanSamples - 1);
  const int at_begin = static_cast<int>(std::lround(10.0 / step));
  const double off_begin = at_begin * step - 10.0;
  const double lag_there = off_begin <= 0.0 ? lag_after_m(0.0, eye, 1.0 / 60.0, 48.0 + off_begin)
                                            : lag_after_m(carried, eye, -1.0 / 50.0, off_begin);
  CHECK(second.eye_on_line.nose_wheel_rad[at_begin] ==
        doctest::Approx(std::atan(wheelbase / eye * std::tan(lag_there))).epsilon(1e-12));
  CHECK(lag_there > 0.3);
  // After the whole S the lag is to the other side.
  CHECK(second.eye_on_line.nose_wheel_rad[kPlanSamples - 1] < 0.0);
}

TEST_CASE("track: an S of two eased arcs swings the nose wheels through without a jump") {
  const Brief brief = brief_of(
      {straight(200.0), arc_leg(60.0, 0.9, 30.0), arc_leg(50.0, -0.9, 30.0), straight(200.0)});
  const TrackAnswer first = track_answer(brief, 1, 3.0);
  CHECK(first.gear_on_line.ramps_fit);
  double largest_step = 0.0;
  for (int i = 1; i < kPlanSamples; ++i)
    largest_step = std::max(largest_step, std::abs(first.gear_on_line.nose_wheel_rad[i] -
                                                   first.gear_on_line.nose_wheel_rad[i - 1]));
  CHECK(largest_step < 0.03);
  CHECK(first.gear_on_line.nose_wheel_rad[kPlanSamples - 1] < -0.1);
  CHECK(first.gear_on_line.nose_wheel_rad[kPlanSamples / 2] > 0.3);
}

TEST_CASE("track: poses are those of the main gear, whichever axis follows the line") {
  Brief brief = brief_of({straight(200.0), arc_leg(50.0, 1.5), straight(200.0)});
  brief.aircraft.turn_axis_ahead_m = 0.8;
  for (const double easing : {0.0, 20.0}) {
    brief.route.legs[1].easing_m = easing;
    const TrackAnswer answer = track_answer(brief, 1, 4.0);
    CHECK(answer.turn_axis_ahead_m == 0.8);
    const PaintedLine line = painted_line(brief.route, 1);
    // The axis on the line, but for the few centimetres of shift; the gear 0.8 m behind it.
    for (int i = 0; i < kPlanSamples; ++i) {
      const Pose& pose = answer.gear_on_line.pose[i];
      const double off = offset_from_line(line, point_on_body(pose, 0.8, 0.0)).offset_m;
      CHECK(std::abs(off) < answer.gear_on_line.shift_m + 0.3);
      if (easing > 0.0) CHECK(std::abs(off) < 1e-9);
      const Pose& eye = answer.eye_on_line.pose[i];
      CHECK(std::abs(offset_from_line(line, point_on_body(eye, brief.aircraft.eye_ahead_m, 0.0))
                         .offset_m) < 1e-9);
    }
    CHECK(answer.gear_on_line.steering_rad ==
          doctest::Approx(std::atan((brief.aircraft.wheelbase_m - 0.8) / 50.0)).epsilon(1e-13));
    CHECK(answer.radius_reachable);
  }
  // The eye's lag about the axis: the axis itself has no side slip.
  const double ahead = brief.aircraft.eye_ahead_m - 0.8;
  const TrackPlan eye = track_answer(brief, 1, 4.0).eye_on_line;
  const Brief plain = [&] {
    Brief b = brief;
    b.aircraft.turn_axis_ahead_m = 0.0;
    b.aircraft.eye_ahead_m = ahead;
    b.aircraft.wheelbase_m -= 0.8;
    return b;
  }();
  CHECK(eye.steering_rad ==
        doctest::Approx(track_answer(plain, 1, 4.0).eye_on_line.steering_rad).epsilon(1e-12));
  CHECK(eye.smallest_gear_radius_m ==
        doctest::Approx(track_answer(plain, 1, 4.0).eye_on_line.smallest_gear_radius_m)
            .epsilon(1e-12));
  brief.aircraft.steering_limit_rad = std::atan((brief.aircraft.wheelbase_m - 0.8) / 50.0) + 1e-9;
  CHECK(track_answer(brief, 1, 4.0).radius_reachable);
  brief.aircraft.steering_limit_rad -= 2e-9;
  CHECK(!track_answer(brief, 1, 4.0).radius_reachable);
}

TEST_CASE("track: everything in proportion gives the same angles and proportional distances") {
  Draws draws(20261153);
  for (int i = 0; i < 200; ++i) {
    const double length = draws.between(10.0, 40.0), radius = draws.between(15.0, 100.0);
    const double lag = draws.between(-0.8, 0.8), way = draws.between(0.0, 120.0);
    CHECK(lag_after_m(lag, length, 1.0 / radius, way) ==
          lag_after_m(lag, 2.0 * length, 0.5 / radius, 2.0 * way));
    CHECK(lag_after_clothoid_m(lag, length, 0.0, 1.0 / radius, way) ==
          lag_after_clothoid_m(lag, 2.0 * length, 0.0, 0.5 / radius, 2.0 * way));
    const double turn = draws.between(0.2, 3.0);
    CHECK(largest_off_tracking_m(2.0 * std::max(radius, length), turn, 2.0 * length) ==
          doctest::Approx(2.0 * largest_off_tracking_m(std::max(radius, length), turn, length))
              .epsilon(1e-12));
    const GearOnLineTurn one = gear_on_line_turn(radius, turn, length, length + 3.0, 1.5, 0.2, 4.0);
    const GearOnLineTurn two =
        gear_on_line_turn(2.0 * radius, turn, 2.0 * length, 2.0 * length + 6.0, 1.5, 0.2, 8.0);
    CHECK(two.nose_path_m == doctest::Approx(2.0 * one.nose_path_m).epsilon(1e-12));
    CHECK(two.shift_m == doctest::Approx(2.0 * one.shift_m).epsilon(1e-9).scale(1.0));
    CHECK(two.nose_overshoot_m == doctest::Approx(2.0 * one.nose_overshoot_m).epsilon(1e-8));
  }
}

TEST_CASE("track: an answer repeats its inputs, its picture reaches past both ends of the arc") {
  const Brief brief = brief_of({straight(200.0), arc_leg(50.0, -1.2, 10.0), straight(200.0)});
  const TrackAnswer answer = track_answer(brief, 1, 4.0);
  CHECK(answer.leg == 1);
  CHECK(answer.radius_m == 50.0);
  CHECK(answer.turn_rad == -1.2);
  CHECK(answer.eye_side_m == brief.aircraft.eye_side_m);
  CHECK(answer.steering_limit_rad == brief.aircraft.steering_limit_rad);
  const TurnOutline outline = turn_outline(brief, 1);
  const PaintedLine line = painted_line(brief.route, 1);
  const double reach = brief.aircraft.eye_ahead_m + 30.0;
  const Point last = line_at(line, leg_length_m(brief.route.legs[1]) + reach).point;
  CHECK(outline.samples == kEdgeSamples);
  CHECK(outline.centre[0].x_m == doctest::Approx(-reach).epsilon(1e-14));
  CHECK(outline.centre[kEdgeSamples - 1].x_m == doctest::Approx(last.x_m).epsilon(1e-12));
  CHECK(outline.centre[kEdgeSamples - 1].y_m == doctest::Approx(last.y_m).epsilon(1e-12));
}

TEST_CASE("track: of equal margins along a straight the first is named, wheel and edge abeam") {
  // Turning right the outer left wheels are closest to their edge on the straights.
  const Brief brief = brief_of({straight(200.0), arc_leg(50.0, 1.2), straight(200.0)});
  const Aircraft& a = brief.aircraft;
  const EdgeMargin& left = track_answer(brief, 1, 4.0).eye_on_line.margins.left_main;
  CHECK(left.margin_m == doctest::Approx(0.5 * (23.0 - a.wheel_span_m)).epsilon(1e-12));
  CHECK(left.wheel.x_m == doctest::Approx(-10.0 - a.eye_ahead_m).epsilon(1e-12));
  CHECK(left.wheel.y_m == doctest::Approx(-0.5 * a.wheel_span_m).epsilon(1e-12));
  CHECK(left.edge.x_m == doctest::Approx(left.wheel.x_m).epsilon(1e-12));
  CHECK(left.edge.y_m == doctest::Approx(-11.5).epsilon(1e-12));
}

TEST_CASE("track: in an S the eye on the line leaves the first turn's outbound line") {
  const Brief brief =
      brief_of({straight(200.0), arc_leg(60.0, 0.8), arc_leg(50.0, -0.9), straight(200.0)});
  // The second arc lies to the left of that line: at its end by R (1 - cos) of it.
  const TrackPlan plan = track_answer(brief, 1, 4.0).eye_on_line;
  CHECK(plan.eye_overshoot_m > 50.0 * (1.0 - std::cos(0.9)) - 0.5);
  const Brief alone = brief_of({straight(200.0), arc_leg(60.0, 0.8), straight(400.0)});
  CHECK(track_answer(alone, 1, 4.0).eye_on_line.eye_overshoot_m < 1e-9);
}

TEST_CASE("track: with ramps that fit the nose wheels go evenly to the steering and back") {
  for (const double side : {1.0, -1.0}) {
    const Brief brief = brief_of({straight(200.0), arc_leg(60.0, side * 1.2), straight(200.0)});
    const TrackPlan plan = track_answer(brief, 1, 4.0).gear_on_line;
    REQUIRE(plan.ramps_fit);
    CHECK(plan.nose_wheel_rad[0] == 0.0);
    CHECK(plan.nose_wheel_rad[plan.samples - 1] == 0.0);
    double most = 0.0, steepest = 0.0;
    int up = 0, flat = 0, down = 0;
    for (int i = 1; i < plan.samples; ++i) {
      const double before = side * plan.nose_wheel_rad[i - 1];
      const double here = side * plan.nose_wheel_rad[i];
      CHECK(here >= 0.0);
      most = std::max(most, here);
      steepest = std::max(steepest, std::abs(here - before));
      ++(here > before ? up : here < before ? down : flat);
      if (here > before) CHECK(down == 0);
    }
    CHECK(most == doctest::Approx(plan.steering_rad).epsilon(1e-14));
    CHECK(up > 5);
    CHECK(flat > 5);
    CHECK(std::abs(up - down) <= 1);
    for (int i = 0; i < plan.samples; ++i)
      CHECK(plan.nose_wheel_rad[i] ==
            doctest::Approx(plan.nose_wheel_rad[plan.samples - 1 - i]).epsilon(1e-9));
    // Even: as many steps as the ramp has, each the same but the one into the corner.
    CHECK(steepest * (up - 2) < plan.steering_rad);
    CHECK(steepest * (up + 1) > plan.steering_rad);
  }
}

TEST_CASE("track: a ramp may use the whole straight, or half of one that another arc wants too") {
  const Brief alone = brief_of({straight(200.0), arc_leg(60.0, 1.2), straight(200.0)});
  const double ramp_m = track_answer(alone, 1, 4.0).gear_on_line.start_before_arc_m;
  REQUIRE(ramp_m > 5.0);
  for (const bool before : {false, true}) {
    const auto fits = [&](double straight_m, bool shared) {
      Brief brief;
      if (before && shared) brief.route.legs.push(arc_leg(60.0, 1.2));
      brief.route.legs.push(straight(before ? straight_m : 200.0));
      const int leg = static_cast<int>(brief.route.legs.size());
      brief.route.legs.push(arc_leg(60.0, 1.2));
      brief.route.legs.push(straight(before ? 200.0 : straight_m));
      if (!before && shared) brief.route.legs.push(arc_leg(60.0, 1.2));
      brief.aircraft = alone.aircraft;
      return track_answer(brief, leg, 4.0).gear_on_line.ramps_fit;
    };
    CAPTURE(before);
    CHECK(fits(ramp_m + 0.01, false));
    CHECK(!fits(ramp_m - 0.01, false));
    CHECK(fits(2.0 * ramp_m + 0.01, true));
    CHECK(!fits(2.0 * ramp_m - 0.01, true));
  }
}

TEST_CASE("track: with the eye on the line the nose wheels turn fastest where the arc begins") {
  // There the lag is nothing and grows by 1/R per metre: W/E of that at the nose wheels.
  const Brief brief = brief_of({straight(200.0), arc_leg(60.0, 1.2), straight(200.0)});
  const double eye = brief.aircraft.eye_ahead_m, wheelbase = brief.aircraft.wheelbase_m;
  const TrackPlan plan = track_answer(brief, 1, 4.0).eye_on_line;
  CHECK(plan.steering_rate_radps == doctest::Approx(4.0 / 60.0 * wheelbase / eye).epsilon(0.05));
  const double step = (72.0 + 3.5 * eye + 10.0) / (kPlanSamples - 1);
  const double fastest = fastest_wheels_radps(plan, step, 4.0);
  CHECK(fastest <= plan.steering_rate_radps * 1.02);
  CHECK(fastest > 0.9 * plan.steering_rate_radps);
}

TEST_CASE("track: the crossing's room is that of the taxiway turned into") {
  Leg wide = straight(200.0), narrow = straight(200.0);
  wide.width_m = 44.0;
  narrow.width_m = 24.0;
  const Brief brief = brief_of({wide, arc_leg(50.0, 1.5), narrow, wide});
  const TrackAnswer answer = track_answer(brief, 1, 4.0);
  const CrossingTurn own =
      crossing_turn(brief.aircraft, 1.5, 12.0, brief.limits.nose_clearance_m, 50.0);
  CHECK(answer.crossing.allowed_excursion_m == own.allowed_excursion_m);
  // A route that ends in the arc has its own width only.
  Leg arc = arc_leg(50.0, 1.5);
  arc.width_m = 30.0;
  const Brief ends = brief_of({wide, arc});
  CHECK(track_answer(ends, 1, 4.0).crossing.allowed_excursion_m ==
        crossing_turn(ends.aircraft, 1.5, 15.0, ends.limits.nose_clearance_m, 50.0)
            .allowed_excursion_m);
}

TEST_CASE("property: a ramp that just fits its straight is made, and one a hair longer is not") {
  const auto plan_with = [](double in_m, double out_m) {
    return track_answer(brief_of({straight(in_m), arc_leg(60.0, 1.3), straight(out_m)}), 1, 4.0)
        .gear_on_line;
  };
  const double needed_m = plan_with(500.0, 500.0).start_before_arc_m;
  REQUIRE(needed_m > 1.0);
  CHECK(plan_with(needed_m, 500.0).ramps_fit);
  CHECK(plan_with(500.0, needed_m).ramps_fit);
  CHECK_FALSE(plan_with(std::nextafter(needed_m, 0.0), 500.0).ramps_fit);
  CHECK_FALSE(plan_with(500.0, std::nextafter(needed_m, 0.0)).ramps_fit);
}

TEST_CASE("property: the narrowest place of a pavement that ends narrower is all of its end") {
  // No room to ramp: the main gear keeps to the line from the first to the last sample.
  Leg before = straight(3.0), into = arc_leg(80.0, 1.2), after = straight(3.0);
  before.width_m = 40.0;
  into.width_m = 40.0;
  after.width_m = 23.0;
  Leg last = straight(400.0);
  last.width_m = 23.0;
  const Brief brief = brief_of({straight(400.0), before, into, after, last});
  const TrackPlan plan = track_answer(brief, 2, 4.0).gear_on_line;
  REQUIRE_FALSE(plan.ramps_fit);
  CHECK(plan.margins.left_main.margin_m ==
        doctest::Approx(0.5 * (23.0 - brief.aircraft.wheel_span_m)).epsilon(1e-9));
}

TEST_CASE("property: a route of nothing but eased turns is planned to its last one") {
  Brief brief;
  brief.route.legs.clear();
  for (int i = 0; i < kMaxLegs; ++i)
    brief.route.legs.push(arc_leg(70.0, i % 2 == 0 ? 0.6 : -0.6, 12.0));
  const TrackPlan plan = track_answer(brief, kMaxLegs - 1, 3.0).gear_on_line;
  CHECK(plan.possible);
  CHECK(plan.samples > 2);
  CHECK(std::isfinite(plan.margins.nose.margin_m));
}
