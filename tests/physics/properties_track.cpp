// Properties of the route's line, of what follows it, and of a turn as a whole: adding up along the
// way, mirrors, scale, limits.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/track.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPi = 3.14159265358979323846;

double apart(Point a, Point b) { return std::hypot(a.x_m - b.x_m, a.y_m - b.y_m); }

TaxiRoute draw_route(Draws& draws, bool eased) {
  TaxiRoute route;
  route.legs.push(draw_straight(draws));
  const int turns = 1 + draws.below(4);
  for (int i = 0; i < turns; ++i) {
    Leg arc = draw_arc(draws);
    if (eased && draws.coin())
      arc.easing_m = draws.between(0.05, 0.9) * arc.radius_m * std::abs(arc.turn_rad);
    route.legs.push(arc);
    if (draws.coin()) route.legs.push(draw_straight(draws));
  }
  route.legs.push(draw_straight(draws));
  return route;
}

int draw_turn_of(Draws& draws, const TaxiRoute& route) {
  for (;;) {
    const int leg = draws.below(static_cast<int>(route.legs.size()));
    if (route.legs[static_cast<std::size_t>(leg)].kind == LegKind::Arc) return leg;
  }
}

TaxiRoute in_mirror(TaxiRoute route) {
  for (Leg& leg : route.legs) leg.turn_rad = -leg.turn_rad;
  return route;
}

TaxiRoute times(TaxiRoute route, double k) {
  for (Leg& leg : route.legs)
    for (double* length : {&leg.length_m, &leg.radius_m, &leg.width_m, &leg.widening_m,
                           &leg.lead_in_m, &leg.easing_m})
      *length *= k;
  return route;
}

Aircraft times(Aircraft a, double k) {
  for (double* length :
       {&a.wheelbase_m, &a.eye_ahead_m, &a.eye_side_m, &a.nose_tip_ahead_m, &a.cabin_front_ahead_m,
        &a.cabin_rear_behind_m, &a.tail_behind_m, &a.tailplane_span_m, &a.wing_span_m,
        &a.wing_tip_behind_m, &a.wheel_span_m, &a.bogie_track_m, &a.nose_wheel_span_m,
        &a.axle_spacing_m, &a.turn_axis_ahead_m, &a.body_gear_behind_m})
    *length *= k;
  return a;
}

}  // namespace

// ------------------------------------------------------------------------------ route ------------

TEST_CASE("property: legs have their length, their turn and their wind") {
  Draws draws(501);
  Worst length, turned, scaled, wind;
  int wrong = 0;
  for (int i = 0; i < 3000; ++i) {
    const TaxiRoute route = draw_route(draws, true);
    double sum = 0.0;
    for (const Leg& leg : route.legs) {
      sum += leg_length_m(leg);
      // The curvature adds up to the angle turned: by the trapezium rule, exact for straight lines
      // between the joints of circle and easing.
      const double e = leg_easing_m(leg), whole = leg_length_m(leg);
      const double k = leg_curvature_pm(leg);
      if (leg.kind == LegKind::Straight) {
        if (k != 0.0 || e != 0.0 || whole != leg.length_m) ++wrong;
        continue;
      }
      turned.note(k * (whole - e) - leg.turn_rad, i);
      for (const double x : {0.25 * e, 0.5 * e, e}) {
        if (e == 0.0) break;
        turned.note(leg_curvature_pm(leg, x) / k - x / e, i);
        turned.note(leg_curvature_pm(leg, whole - x) / k - x / e, i);
      }
      if (leg_curvature_pm(leg, 0.5 * whole) != k) ++wrong;
      if (leg_curvature_pm(leg, -0.1) != 0.0 || leg_curvature_pm(leg, whole + 0.1) != 0.0) ++wrong;
      // An easing longer than the arc is cut to it.
      Leg long_eased = leg;
      long_eased.easing_m = 3.0 * leg.radius_m * std::abs(leg.turn_rad);
      length.note(leg_easing_m(long_eased) / (leg.radius_m * std::abs(leg.turn_rad)) - 1.0, i);
      Leg plain = leg;
      plain.easing_m = 0.0;
      length.note(leg_length_m(leg) - leg_length_m(plain) - e, i);
      // Wind: linear in its speed, the other way from behind, and never more than itself.
      const double heading = draws.between(0.0, 6.28), from = draws.between(0.0, 6.28);
      const double headwind = leg_headwind_mps(leg, heading, 7.0, from);
      wind.note(leg_headwind_mps(leg, heading, 14.0, from) - 2.0 * headwind, i);
      wind.note(leg_headwind_mps(leg, heading, 7.0, from + kPi) + headwind, i);
      if (std::abs(headwind) > 7.0) ++wrong;
      // The way back: headings turned round, the other end first, the turn to the same side seen
      // from the other direction.
      Leg back = leg;
      back.turn_rad = -leg.turn_rad;
      wind.note(leg_headwind_mps(back, heading + leg.turn_rad + kPi, 7.0, from) + headwind, i);
      // A turn that vanishes leaves the straight's headwind.
      Leg slight = plain;
      slight.turn_rad = 1e-7;
      wind.note(
          (leg_headwind_mps(slight, heading, 7.0, from) - 7.0 * std::cos(heading - from)) * 1e-8,
          i);
    }
    length.note(route_length_m(route) - sum, i);
    scaled.note(route_length_m(times(route, 3.0)) / (3.0 * sum) - 1.0, i);
    if (route_length_m(in_mirror(route)) != route_length_m(route)) ++wrong;
  }
  CHECK(length.error < 1e-11);
  CHECK(turned.error < 1e-12);
  CHECK(scaled.error < 1e-14);
  CHECK(wind.error < 1e-12);
  CHECK(wrong == 0);
}

// --------------------------------------------------------------------------- painted line --------

TEST_CASE("property: along the painted line distance, heading and curvature belong together") {
  Draws draws(502);
  Worst step, bend, closed, mirror, joints;
  for (int i = 0; i < 1500; ++i) {
    const TaxiRoute route = draw_route(draws, true);
    const int leg = draw_turn_of(draws, route);
    const PaintedLine line = painted_line(route, leg);
    const PaintedLine other = painted_line(in_mirror(route), leg);
    double before = 0.0;
    for (int k = 0; k < leg; ++k) before += leg_length_m(route.legs[static_cast<std::size_t>(k)]);
    const double whole = route_length_m(route);
    const LinePoint origin = line_at(line, 0.0);
    joints.note(std::hypot(origin.point.x_m, origin.point.y_m) + std::abs(origin.heading_rad), i);
    // From end to end the heading turns by the sum of the legs' turns.
    double turn = 0.0;
    for (const Leg& one : route.legs) turn += one.turn_rad;
    closed.note(
        line_at(line, whole - before).heading_rad - line_at(line, -before).heading_rad - turn, i);
    for (int k = 0; k < 20; ++k) {
      const double at = draws.between(-before - 20.0, whole - before + 20.0), ds = 1e-4;
      const LinePoint here = line_at(line, at);
      const LinePoint ahead = line_at(line, at + ds), behind = line_at(line, at - ds);
      const Point step_to = ahead_of(behind.point, here.heading_rad, 2.0 * ds);
      // A chord of 0.2 mm: off by its sagitta at a joint, by rounding of the coordinates else.
      step.note(apart(step_to, ahead.point), i);
      const double curvature = line_curvature_pm(line, at);
      if (std::abs(line_curvature_pm(line, at + ds) - line_curvature_pm(line, at - ds)) < 1e-5)
        bend.note((ahead.heading_rad - behind.heading_rad) / (2.0 * ds) - curvature, i);
      const LinePoint seen = line_at(other, at);
      mirror.note(seen.point.x_m - here.point.x_m, i);
      mirror.note(seen.point.y_m + here.point.y_m, i);
      mirror.note(seen.heading_rad + here.heading_rad, i);
    }
  }
  CHECK(step.error < 5e-10);
  CHECK(bend.error < 1e-5);
  CHECK(closed.error < 1e-12);
  CHECK(mirror.error == 0.0);
  CHECK(joints.error == 0.0);
}

TEST_CASE("property: a point beside the line is that far from it, with the edges of that place") {
  Draws draws(503);
  Worst offset, mirror;
  int wrong = 0, widened = 0;
  for (int i = 0; i < 2000; ++i) {
    TaxiRoute route;
    for (int k = 0; k < 2; ++k) {
      Leg straight;
      straight.length_m = draws.between(80.0, 200.0);
      straight.width_m = draws.between(15.0, 30.0);
      if (k == 1) {
        Leg arc = draw_arc(draws);
        arc.turn_rad = draws.sign() * draws.between(0.3, 1.6);
        if (draws.coin())
          arc.easing_m = draws.between(0.1, 0.9) * arc.radius_m * std::abs(arc.turn_rad);
        route.legs.push(arc);
      }
      route.legs.push(straight);
    }
    const Leg& arc = route.legs[1];
    const PaintedLine line = painted_line(route, 1);
    const PaintedLine other = painted_line(in_mirror(route), 1);
    const double length = leg_length_m(arc);
    for (int k = 0; k < 10; ++k) {
      const double at = draws.between(-70.0, length + 70.0);
      const double right = draws.between(-12.0, 12.0);
      const LinePoint foot = line_at(line, at);
      const Point point = beside(foot.point, foot.heading_rad, right);
      const LineOffset seen = offset_from_line(line, point);
      offset.note(seen.offset_m - right, i);
      const LineOffset mirrored = offset_from_line(other, {point.x_m, -point.y_m});
      mirror.note(mirrored.offset_m + seen.offset_m, i);
      mirror.note(mirrored.left_half_width_m - seen.right_half_width_m, i);
      mirror.note(mirrored.right_half_width_m - seen.left_half_width_m, i);
      const bool to_right = arc.turn_rad > 0.0;
      const double inner = to_right ? seen.right_half_width_m : seen.left_half_width_m;
      const double outer = to_right ? seen.left_half_width_m : seen.right_half_width_m;
      const std::size_t leg = at < 0.0 ? 0 : at > length ? 2 : 1;
      if (std::min(std::abs(at), std::abs(at - length)) < 1e-3) continue;
      const double half = 0.5 * route.legs[leg].width_m;
      if (std::abs(outer - half) > 1e-12) ++wrong;
      const double away = at < 0.0 ? -at : at - length;
      const double wanted = leg == 1                ? arc.widening_m
                            : away >= arc.lead_in_m ? 0.0
                                                    : arc.widening_m * (1.0 - away / arc.lead_in_m);
      if (std::abs(inner - half - wanted) > 1e-9) ++wrong;
      if (wanted > 0.1) ++widened;
    }
  }
  CHECK(offset.error < 1e-9);
  CHECK(mirror.error < 1e-12);
  CHECK(widened > 3000);
  CHECK(wrong == 0);
}

TEST_CASE("property: the two straights of an arc cross where its plain twin says") {
  Draws draws(504);
  Worst crossing;
  int wrong = 0;
  for (int i = 0; i < 2000; ++i) {
    TaxiRoute route;
    route.legs.push(draw_straight(draws));
    Leg arc = draw_arc(draws);
    if (crossing_radius_m(arc) != arc.radius_m) ++wrong;
    arc.easing_m = draws.between(0.02, 1.0) * arc.radius_m * std::abs(arc.turn_rad);
    route.legs.push(arc);
    route.legs.push(draw_straight(draws));
    const double r = crossing_radius_m(arc);
    if (!(r > arc.radius_m)) ++wrong;
    const PaintedLine line = painted_line(route, 1);
    const LinePoint end = line_at(line, leg_length_m(arc));
    const double angle = std::abs(arc.turn_rad);
    const double tangent_m = r * std::tan(0.5 * angle);
    const Point from_begin = {tangent_m, 0.0};
    const Point from_end = ahead_of(end.point, end.heading_rad, -tangent_m);
    crossing.note(apart(from_begin, from_end) / r, i);
  }
  CHECK(crossing.error < 1e-13);
  CHECK(wrong == 0);
}

// ------------------------------------------------------------------------------- lag -------------

TEST_CASE("property: lag adds up along an arc, mirrors, scales, and settles") {
  Draws draws(505);
  Worst parts, mirror, scaled, settled, uniform;
  for (int i = 0; i < 20000; ++i) {
    const double l = draws.between(5.0, 40.0), k = draws.sign() * draws.by_size(1e-4, 0.2);
    const double a0 = draws.between(-2.5, 2.5);
    const double s1 = draws.by_size(1e-3, 60.0), s2 = draws.by_size(1e-3, 60.0);
    const double once = lag_after_m(a0, l, k, s1 + s2);
    const double twice = lag_after_m(lag_after_m(a0, l, k, s1), l, k, s2);
    parts.note(wrapped_rad(once - twice) / (1.0 + std::abs(k) * (s1 + s2)), i);
    mirror.note(lag_after_m(-a0, l, -k, s1) + lag_after_m(a0, l, k, s1), i);
    const double f = draws.by_size(0.1, 10.0);
    scaled.note(wrapped_rad(lag_after_m(a0, f * l, k / f, f * s1) - lag_after_m(a0, l, k, s1)), i);
    // In the long run sin(lag) = length / radius, for circles larger than the body.
    if (std::abs(k) * l < 0.95) settled.note(std::sin(lag_after_m(a0, l, k, 60.0 * l)) - l * k, i);
    // No way, no change; on a straight tan(lag/2) decays by e a length.
    uniform.note(lag_after_m(a0, l, k, 0.0) - a0, i);
    uniform.note(std::tan(0.5 * lag_after_m(a0, l, 0.0, l)) * std::exp(1.0) - std::tan(0.5 * a0),
                 i);
  }
  CHECK(parts.error < 1e-13);
  CHECK(mirror.error == 0.0);
  CHECK(scaled.error < 1e-12);
  CHECK(settled.error < 1e-6);
  CHECK(uniform.error < 1e-13);
}

TEST_CASE("property: steering and radius follow from the lag, and back") {
  Draws draws(506);
  Worst radius, wheel;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const double w = draws.between(10.0, 35.0), x = w + draws.between(0.0, 5.0);
    const double lag = draws.between(0.001, 1.5);
    const double r = smallest_gear_radius_m(lag, x);
    radius.note(std::atan(x / r) - lag, i);
    const double nose = nose_wheel_angle_rad(lag, x, w);
    wheel.note(std::atan(w / r) - nose, i);
    wheel.note(nose_wheel_angle_rad(lag, x, x) - lag, i);
    wheel.note(nose_wheel_angle_rad(-lag, x, w) + nose, i);
    if (!(nose_wheel_angle_rad(lag + 0.01, x, w) > nose)) ++wrong;
    if (!(smallest_gear_radius_m(lag + 0.01, x) < r)) ++wrong;
    // A body past the right angle turns about a point beside the steered wheels.
    if (!(nose_wheel_angle_rad(1.7, x, w) > 0.5 * kPi)) ++wrong;
  }
  CHECK(radius.error < 1e-13);
  CHECK(wheel.error < 1e-13);
  CHECK(wrong == 0);
  CHECK(smallest_gear_radius_m(0.0, 30.0) >= 1e9);
  CHECK(smallest_gear_radius_m(-0.1, 30.0) >= 1e9);
  CHECK(smallest_gear_radius_m(2.0, 30.0) < 0.4);
}

TEST_CASE("property: the largest lag in a turn is the largest anywhere in it") {
  Draws draws(507);
  Worst plain, eased;
  int wrong = 0, carried = 0;
  for (int i = 0; i < 1500; ++i) {
    const TaxiRoute route = draw_route(draws, draws.coin());
    const int leg = draw_turn_of(draws, route);
    const double ahead = draws.between(12.0, 38.0);
    const double found = largest_lag_in_turn_rad(route, leg, ahead);
    if (largest_lag_in_turn_rad(in_mirror(route), leg, ahead) != found) ++wrong;
    // Walk along the route in small steps, lag by lag, through the turn.
    double lag = 0.0, most = 0.0;
    for (int k = 0; k <= leg; ++k) {
      const Leg& one = route.legs[static_cast<std::size_t>(k)];
      if (k == leg) {
        most = std::abs(lag);
        if (most > 0.02) ++carried;
      }
      constexpr int kSteps = 200;
      const double step_m = leg_length_m(one) / kSteps;
      for (int s = 0; s < kSteps; ++s) {
        // An easing curve in steps of its mean curvature.
        lag = lag_after_m(lag, ahead, leg_curvature_pm(one, (s + 0.5) * step_m), step_m);
        if (k == leg) most = std::max(most, std::abs(lag));
      }
    }
    (route.legs[static_cast<std::size_t>(leg)].easing_m > 0.0 ? eased : plain)
        .note(found - most, i);
  }
  CHECK(carried > 200);
  CHECK(plain.error < 1e-3);
  CHECK(eased.error < 1e-3);
  CHECK(wrong == 0);
}

// -------------------------------------------------------------------- off-tracking, gear on line
// --

TEST_CASE("property: off-tracking scales, grows with length and angle, and has its steady bound") {
  Draws draws(508);
  Worst scaled;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const double r = draws.between(25.0, 150.0), l = draws.between(0.1, 0.9) * r;
    const double angle = draws.between(0.1, 2.6);
    const double d = largest_off_tracking_m(r, angle, l);
    const double k = draws.by_size(0.1, 10.0);
    scaled.note(largest_off_tracking_m(k * r, angle, k * l) / (k * d) - 1.0, i);
    const double room = 1.0 + 1e-12;
    if (!(d > 0.0 && d <= (r - std::sqrt(r * r - l * l)) * room)) ++wrong;
    if (!(largest_off_tracking_m(r, angle + 0.05, l) * room >= d)) ++wrong;
    if (!(largest_off_tracking_m(r, angle, 1.02 * l) > d)) ++wrong;
    if (!(largest_off_tracking_m(1.02 * r, angle, l) < d * room)) ++wrong;
    // No longer than the chord's sagitta allows: less than the length times the angle turned.
    if (!(d < l * angle)) ++wrong;
  }
  CHECK(scaled.error < 1e-12);
  CHECK(wrong == 0);
  CHECK(largest_off_tracking_m(1e6, 1.5, 30.0) == doctest::Approx(450e-6).epsilon(1e-3));
}

TEST_CASE("property: a turn with the gear on the line scales, and begins and ends on its lines") {
  Draws draws(509);
  Worst scaled, ends, slow, body;
  int partial = 0, wrong = 0;
  for (int i = 0; i < 3000; ++i) {
    const double r = draws.between(20.0, 150.0), w = draws.between(10.0, 34.0);
    const double eye = w + draws.between(1.0, 5.0), angle = draws.between(0.15, 2.6);
    const double rate = draws.between(0.05, 0.4), v = draws.between(1.0, 8.0);
    const GearOnLineTurn t = gear_on_line_turn(r, angle, w, eye, 1.2, rate, v);
    if (!t.full_deflection) ++partial;
    const double k = draws.by_size(0.2, 5.0);
    const GearOnLineTurn larger = gear_on_line_turn(k * r, angle, k * w, k * eye, 1.2, rate, k * v);
    scaled.note(larger.start_before_arc_m / k - t.start_before_arc_m, i);
    scaled.note(larger.shift_m / k - t.shift_m, i);
    scaled.note(larger.nose_path_m / k - t.nose_path_m, i);
    scaled.note(larger.eye_past_crossing_m / k - t.eye_past_crossing_m, i);
    scaled.note((larger.nose_overshoot_m / k - t.nose_overshoot_m) * 1e-3, i);
    scaled.note(larger.steering_rad - t.steering_rad, i);
    // The manoeuvre begins on the inbound line and ends on the outbound one.
    const Pose begin = gear_on_line_pose(t, r, angle, w, 0.0);
    const Pose end = gear_on_line_pose(t, r, angle, w, t.nose_path_m);
    ends.note(begin.gear.x_m + t.start_before_arc_m, i);
    ends.note(begin.gear.y_m, i);
    ends.note(begin.heading_rad, i);
    ends.note(end.heading_rad - angle, i);
    ends.note(past_outbound_m(r, angle, end.gear), i);
    // Half way it points along the bisector, by symmetry.
    ends.note(gear_on_line_pose(t, r, angle, w, 0.5 * t.nose_path_m).heading_rad - 0.5 * angle, i);
    // Between two poses the main gear moves along the body: no side slip.
    const double at = draws.between(0.05, 0.95) * t.nose_path_m, ds = 1e-4 * t.nose_path_m;
    const Pose a = gear_on_line_pose(t, r, angle, w, at);
    const Pose b = gear_on_line_pose(t, r, angle, w, at + ds);
    const double middle = 0.5 * (a.heading_rad + b.heading_rad);
    const double side =
        (b.gear.y_m - a.gear.y_m) * std::cos(middle) - (b.gear.x_m - a.gear.x_m) * std::sin(middle);
    body.note(side / ds, i);
    // Quick steering needs no room: the start of an instantaneous turn.
    const GearOnLineTurn quick = gear_on_line_turn(r, angle, w, eye, 1.2, 1e6, v);
    const GearOnLineTurn at_once = gear_on_line_turn(r, angle, w, eye, 1.2, 0.0, v);
    slow.note(quick.start_before_arc_m - at_once.start_before_arc_m, i);
    slow.note(quick.nose_overshoot_m - at_once.nose_overshoot_m, i);
    if (at_once.start_before_arc_m != 0.0 || at_once.shift_m != 0.0) ++wrong;
    if (!(t.start_before_arc_m > 0.0 && t.shift_m >= 0.0)) ++wrong;
    if (t.nose_overshoot_m > t.eye_overshoot_m + 1e-9) ++wrong;
    if (t.possible != (t.steering_rad <= 1.2)) ++wrong;
  }
  CHECK(partial > 50);
  CHECK(scaled.error < 1e-9);
  CHECK(ends.error < 1e-9);
  CHECK(slow.error < 1e-3);
  CHECK(body.error < 1e-6);
  CHECK(wrong == 0);
}

TEST_CASE("property: points of the body and of the outbound line keep their places") {
  Draws draws(510);
  Worst rigid, outbound;
  for (int i = 0; i < 5000; ++i) {
    const Pose pose{{draws.between(-50.0, 50.0), draws.between(-50.0, 50.0)},
                    draws.between(-6.0, 6.0)};
    const double x = draws.between(-40.0, 40.0), y = draws.between(-40.0, 40.0);
    const Point p = point_on_body(pose, x, y);
    rigid.note(apart(p, pose.gear) - std::hypot(x, y), i);
    const Point ahead = point_on_body(pose, x + 1.0, y), right = point_on_body(pose, x, y + 1.0);
    rigid.note(ahead.x_m - p.x_m - std::cos(pose.heading_rad), i);
    rigid.note(ahead.y_m - p.y_m - std::sin(pose.heading_rad), i);
    rigid.note(right.x_m - p.x_m + std::sin(pose.heading_rad), i);
    rigid.note(right.y_m - p.y_m - std::cos(pose.heading_rad), i);
    // Along the outbound line nothing changes; beside it, metre by metre.
    const double r = draws.between(20.0, 100.0), angle = draws.between(0.2, 2.8);
    outbound.note(
        past_outbound_m(r, angle, ahead_of(p, angle, 25.0)) - past_outbound_m(r, angle, p), i);
    outbound.note(
        past_outbound_m(r, angle, beside(p, angle, -3.0)) - past_outbound_m(r, angle, p) - 3.0, i);
    const Point crossing{r * std::tan(0.5 * angle), 0.0};
    outbound.note(past_outbound_m(r, angle, crossing), i);
  }
  CHECK(rigid.error < 2e-14 * 100.0);
  CHECK(outbound.error < 1e-11);
}

TEST_CASE("property: the tightest turn widens as the steering is taken back") {
  Draws draws(511);
  Worst shape, scaled;
  int wrong = 0;
  for (int i = 0; i < 3000; ++i) {
    const Aircraft a = draw_aircraft(draws);
    const double steering = draws.between(0.3, 1.3);
    const TightestTurn t = tightest_turn(a, steering);
    shape.note(t.outer_main_wheel_m - t.inner_main_wheel_m - a.wheel_span_m, i);
    shape.note(t.nose_gear_m - std::hypot(t.gear_axis_m, a.wheelbase_m), i);
    shape.note(t.gear_axis_m * std::tan(steering) - a.wheelbase_m, i);
    shape.note(t.nose_tip_m - std::hypot(t.gear_axis_m, a.nose_tip_ahead_m), i);
    shape.note(t.wing_tip_m - std::hypot(t.gear_axis_m + 0.5 * a.wing_span_m, a.wing_tip_behind_m),
               i);
    shape.note(t.tail_m - std::hypot(t.gear_axis_m + 0.5 * a.tailplane_span_m, a.tail_behind_m), i);
    const TightestTurn wider = tightest_turn(a, steering - 0.02);
    if (!(wider.gear_axis_m > t.gear_axis_m && wider.nose_tip_m > t.nose_tip_m)) ++wrong;
    if (!(wider.wing_tip_m > t.wing_tip_m && wider.tail_m > t.tail_m)) ++wrong;
    if (!(wider.half_circle_width_m > t.half_circle_width_m)) ++wrong;
    const TightestTurn large = tightest_turn(times(a, 2.5), steering);
    scaled.note(large.half_circle_width_m / t.half_circle_width_m - 2.5, i);
    scaled.note(large.wing_tip_m / t.wing_tip_m - 2.5, i);
    scaled.note(large.tail_m / t.tail_m - 2.5, i);
  }
  CHECK(shape.error < 1e-12);
  CHECK(scaled.error < 1e-12);
  CHECK(wrong == 0);
}

// --------------------------------------------------------------------- one turn, as a whole ------

TEST_CASE(
    "property: a turn in the mirror is the mirrored turn, and one twice the size is twice it") {
  Draws draws(512);
  int wrong = 0, differ = 0;
  Worst scaled, sampled;
  for (int i = 0; i < 250; ++i) {
    Brief brief = draw_plain_brief(draws);
    while (brief.route.legs.size() < 3) brief = draw_plain_brief(draws);
    if (draws.coin())
      for (Leg& leg : brief.route.legs)
        if (leg.kind == LegKind::Arc)
          leg.easing_m = draws.between(0.1, 0.8) * leg.radius_m * std::abs(leg.turn_rad);
    const int leg = draw_turn_of(draws, brief.route);
    const double v = draws.between(1.0, 8.0);
    const TrackAnswer answer = track_answer(brief, leg, v);
    Brief other = brief;
    other.route = in_mirror(brief.route);
    const TrackAnswer mirrored = track_answer(other, leg, v);
    constexpr double kTimes = 2.0;  // a power of two: lengths scale without rounding
    Brief large = brief;
    large.route = times(brief.route, kTimes);
    large.aircraft = times(brief.aircraft, kTimes);
    large.limits.nose_clearance_m *= kTimes;
    const TrackAnswer twice = track_answer(large, leg, kTimes * v);
    CHECK(mirrored.radius_reachable == answer.radius_reachable);
    CHECK(twice.radius_reachable == answer.radius_reachable);
    const auto compare = [&](const TrackPlan& p, const TrackPlan& q, const TrackPlan& m) {
      if (p.possible != m.possible || p.ramps_fit != m.ramps_fit) ++wrong;
      if (p.possible != q.possible || p.ramps_fit != q.ramps_fit) ++differ;
      const auto same = [&](double a, double b) {
        if (a != b) ++wrong;
      };
      same(p.margins.left_main.margin_m, m.margins.right_main.margin_m);
      same(p.margins.right_main.margin_m, m.margins.left_main.margin_m);
      same(p.margins.nose.margin_m, m.margins.nose.margin_m);
      same(p.wing_reach_m, m.wing_reach_m);
      same(p.tail_reach_m, m.tail_reach_m);
      same(p.main_inside_m, m.main_inside_m);
      same(p.wing_outside_m, m.wing_outside_m);
      same(p.tail_swing_m, m.tail_swing_m);
      same(p.start_before_arc_m, m.start_before_arc_m);
      same(p.nose_overshoot_m, m.nose_overshoot_m);
      if (p.ramps_fit != q.ramps_fit) return;  // a tie decided by rounding

      scaled.note(q.steering_rad - p.steering_rad, i);
      scaled.note(q.shift_m / kTimes - p.shift_m, i);
      scaled.note(q.start_before_arc_m / kTimes - p.start_before_arc_m, i);
      scaled.note(q.eye_past_arc_begin_m / kTimes - p.eye_past_arc_begin_m, i);
      scaled.note(q.eye_past_crossing_m / kTimes - p.eye_past_crossing_m, i);
      // The picture begins ten metres before the manoeuvre on either scale, so samples fall
      // elsewhere.

      sampled.note(q.nose_overshoot_m / kTimes - p.nose_overshoot_m, i);
      sampled.note(q.gear_off_line_m / kTimes - p.gear_off_line_m, i);
    };
    compare(answer.eye_on_line, twice.eye_on_line, mirrored.eye_on_line);
    compare(answer.gear_on_line, twice.gear_on_line, mirrored.gear_on_line);
    // A wing tip is never nearer to the line than when it stands still on it, and never out of its
    // reach, arcs before and after or not.
    for (const TrackPlan* plan : {&answer.eye_on_line, &answer.gear_on_line})
      if (!(plan->wing_reach_m >= 0.5 * brief.aircraft.wing_span_m - 1e-9 &&
            plan->wing_reach_m < 2.0 * brief.aircraft.wing_span_m))
        ++wrong;
  }
  CHECK(wrong == 0);
  CHECK(differ < 5);
  CHECK(scaled.error < 1e-9);
  CHECK(sampled.error < 0.1);
}

TEST_CASE("property: the picture's edges lie at the pavement's half width from its line") {
  Draws draws(513);
  Worst edge, mirror;
  for (int i = 0; i < 300; ++i) {
    Brief brief = draw_plain_brief(draws);
    while (brief.route.legs.size() < 3) brief = draw_plain_brief(draws);
    const int leg = draw_turn_of(draws, brief.route);
    const TurnOutline outline = turn_outline(brief, leg);
    Brief other = brief;
    other.route = in_mirror(brief.route);
    const TurnOutline seen = turn_outline(other, leg);
    REQUIRE(outline.samples > 10);
    const PaintedLine line = painted_line(brief.route, leg);
    // As far as the line is looked at for its distance.
    const double length_m = leg_length_m(brief.route.legs[static_cast<std::size_t>(leg)]);
    const double reach_m = brief.aircraft.eye_ahead_m + 30.0;
    const PaintedLine::Piece& last = line.pieces[line.last_near];
    for (int k = 0; k < outline.samples; ++k) {
      const double at_m = (length_m + 2.0 * reach_m) * k / (outline.samples - 1) - reach_m;
      const bool beyond =
          line.last_near + 1 < line.pieces.size() && at_m > last.begin_m + last.length_m;
      if (at_m < line.pieces[line.first_near].begin_m || beyond) continue;
      const LineOffset at = offset_from_line(line, outline.centre[k]);
      edge.note(at.offset_m, i);
      edge.note(apart(outline.centre[k], outline.left_edge[k]) - at.left_half_width_m, i);
      edge.note(apart(outline.centre[k], outline.right_edge[k]) - at.right_half_width_m, i);
      mirror.note(seen.left_edge[k].y_m + outline.right_edge[k].y_m, i);
      mirror.note(seen.left_edge[k].x_m - outline.right_edge[k].x_m, i);
    }
  }
  CHECK(edge.error < 1e-6);
  CHECK(mirror.error < 1e-9);
}

TEST_CASE("property: the angle of a half angle mirrors exactly, and asks for its direction only") {
  CHECK(angle_of_half_rad(1.0, 0.0) == units::kPi);
  CHECK(angle_of_half_rad(-1.0, 0.0) == -units::kPi);
  Draws draws(20261190);
  for (int i = 0; i < 1000; ++i) {
    const double half_rad = draws.between(-3.1, 3.1);
    const double factor = draws.between(0.1, 10.0);
    const double angle_rad = angle_of_half_rad(std::sin(half_rad), std::cos(half_rad));
    CHECK(angle_of_half_rad(-std::sin(half_rad), std::cos(half_rad)) == -angle_rad);
    CHECK(angle_of_half_rad(factor * std::sin(half_rad), factor * std::cos(half_rad)) ==
          doctest::Approx(angle_rad).epsilon(1e-12));
    CHECK(std::abs(std::remainder(angle_rad - 2.0 * half_rad, 2.0 * units::kPi)) < 1e-12);
    CHECK(std::abs(angle_rad) <= units::kPi);
  }
}

TEST_CASE("property: after a turn without end the deviation is the steady one") {
  Draws draws(20261209);
  Worst worst;
  for (int i = 0; i < 1000; ++i) {
    const double length_m = draws.between(10.0, 35.0);
    const double radius_m = length_m * draws.between(1.02, 4.0);
    const double steady_m = radius_m - std::sqrt(radius_m * radius_m - length_m * length_m);
    worst.note(largest_off_tracking_m(radius_m, 400.0, length_m) / steady_m - 1.0, i);
  }
  CHECK(worst.error < 1e-6);
}
