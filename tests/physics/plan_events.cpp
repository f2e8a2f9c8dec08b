// The narrowest margins and the reach of a plan, by its events, against ten thousand places of it.
#include "physics/path/plan_events.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <functional>

#include "draws.hpp"
#include "physics/path/plan_motion.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr int kPlaces = 10000;

// What ten thousand poses of a plan come to.
struct Dense {
  double left = 1e9, right = 1e9, nose = 1e9;
  double main_inside = 0.0, main_outside = 0.0, wing_inside = 0.0, wing_outside = 0.0;
  double tail_outside = 0.0, nose_outside = 0.0, gear_inside = 0.0;
  double step_m = 0.0;
};

Dense look_everywhere(const Aircraft& a, const PaintedLine& line, double side, double begin_m,
                      double end_m, const std::function<Pose(double)>& pose_at) {
  Dense dense;
  dense.step_m = (end_m - begin_m) / kPlaces;
  for (int i = 0; i <= kPlaces; ++i) {
    const Pose pose = pose_at(begin_m + i * dense.step_m);
    const auto from = [&](double ahead_m, double right_m) {
      return offset_from_line(line, point_on_body(pose, ahead_m, right_m));
    };
    const auto margin = [](const LineOffset& o) {
      return std::min(o.left_half_width_m + o.offset_m, o.right_half_width_m - o.offset_m);
    };
    const auto note = [&](double offset_m, double& inside, double& outside) {
      inside = std::max(inside, side * offset_m);
      outside = std::max(outside, -side * offset_m);
    };
    double unused = 0.0;
    for (const double half : {-0.5, 0.5}) {
      const LineOffset main = from(0.0, half * a.wheel_span_m);
      double& least = half < 0.0 ? dense.left : dense.right;
      least = std::min(least, margin(main));
      note(main.offset_m, dense.main_inside, dense.main_outside);
      dense.nose = std::min(dense.nose, margin(from(a.wheelbase_m, half * a.nose_wheel_span_m)));
      note(from(-a.wing_tip_behind_m, half * a.wing_span_m).offset_m, dense.wing_inside,
           dense.wing_outside);
      note(from(-a.tail_behind_m, half * a.tailplane_span_m).offset_m, unused, dense.tail_outside);
    }
    note(from(a.wheelbase_m, 0.0).offset_m, unused, dense.nose_outside);
    note(from(0.0, 0.0).offset_m, dense.gear_inside, unused);
  }
  return dense;
}

// How far on the unsafe side an answer lies, and how far on the safe one beyond what one step of
// the dense search may have missed.
struct Apart {
  double unsafe = 0.0, cautious = 0.0;
  int unsafe_at = 0, cautious_at = 0;

  void margin(double got, double dense, double step_m, int i) {
    if (got - dense > unsafe) unsafe = got - dense, unsafe_at = i;
    // No point of the body moves more than half as fast across as it goes along.
    if (dense - got - 2.0 * step_m > cautious)
      cautious = dense - got - 2.0 * step_m, cautious_at = i;
  }
  void reach(double got, double dense, double step_m, int i) { margin(-got, -dense, step_m, i); }
};

void compare(const TrackPlan& plan, const Dense& dense, int i, Apart& margins, Apart& reach) {
  margins.margin(plan.margins.left_main.margin_m, dense.left, dense.step_m, i);
  margins.margin(plan.margins.right_main.margin_m, dense.right, dense.step_m, i);
  margins.margin(plan.margins.nose.margin_m, dense.nose, dense.step_m, i);
  reach.reach(plan.main_inside_m, dense.main_inside, dense.step_m, i);
  reach.reach(plan.main_outside_m, dense.main_outside, dense.step_m, i);
  reach.reach(plan.wing_inside_m, dense.wing_inside, dense.step_m, i);
  reach.reach(plan.wing_outside_m, dense.wing_outside, dense.step_m, i);
  reach.reach(plan.tail_swing_m, dense.tail_outside, dense.step_m, i);
  reach.reach(plan.nose_off_line_m, dense.nose_outside, dense.step_m, i);
  reach.reach(plan.gear_off_line_m, dense.gear_inside, dense.step_m, i);
}

Leg random_straight(Draws& draws, double shortest_m) {
  Leg leg;
  leg.length_m = draws.between(shortest_m, 200.0);
  leg.width_m = draws.between(20.0, 32.0);
  return leg;
}

Leg random_arc(Draws& draws) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = draws.between(25.0, 110.0);
  leg.turn_rad = draws.sign() * draws.between(0.2, 2.7);
  leg.width_m = draws.between(20.0, 32.0);
  if (draws.coin()) leg.widening_m = draws.between(0.0, 10.0);
  if (draws.coin()) leg.lead_in_m = draws.between(0.0, 60.0);
  return leg;
}

Aircraft random_aircraft(Draws& draws) {
  Aircraft a;
  a.wheelbase_m = draws.between(14.0, 33.0);
  a.eye_ahead_m = a.wheelbase_m * draws.between(0.3, 1.15);  // any followed point
  a.wing_tip_behind_m = draws.between(-4.0, 12.0);
  a.steering_limit_rad = 1.5;
  if (draws.below(3) == 0) {
    a.turn_axis_ahead_m = draws.between(-0.5, 1.0);
    a.body_gear_steer_share = draws.between(0.0, 0.2);
    a.body_gear_behind_m = draws.between(0.0, 3.5);
  }
  return a;
}

// The lag carried through the legs, leg by leg, without the tables of the plan.
double lag_after_legs(const TaxiRoute& route, int leg, double ahead_m, double at_m) {
  double left_m = at_m;
  for (int i = 0; i < leg; ++i) left_m += leg_length_m(route.legs[static_cast<std::size_t>(i)]);
  double lag_rad = 0.0;
  for (std::size_t i = 0; i < route.legs.size() && left_m > 0.0; ++i) {
    const bool last = i + 1 == route.legs.size();
    const double way_m = last ? left_m : std::min(left_m, leg_length_m(route.legs[i]));
    lag_rad = lag_after_m(lag_rad, ahead_m, leg_curvature_pm(route.legs[i]), way_m);
    left_m -= way_m;
  }
  return lag_rad;
}

}  // namespace

TEST_CASE("property: margins by events are never wider than those of ten thousand places") {
  Draws draws(20261201);
  Apart margins, reach;
  const int turns = scaled_draws(100);
  for (int i = 0; i < turns; ++i) {
    Brief brief;
    brief.aircraft = random_aircraft(draws);
    const Aircraft& a = brief.aircraft;
    brief.route.legs.clear();
    // A turn alone, or a chain: an arc before, with a straight between or at once.
    brief.route.legs.push(random_straight(draws, 150.0));
    if (draws.coin()) {
      brief.route.legs.push(random_arc(draws));
      if (draws.coin()) brief.route.legs.push(random_straight(draws, 5.0));
    }
    const int leg = static_cast<int>(brief.route.legs.size());
    Leg bend = random_arc(draws);
    // A line that comes back across itself has a second foot for every point there.
    const Leg& first = brief.route.legs[1];
    const double turned_rad = leg > 1 ? first.turn_rad : 0.0;
    if (std::abs(turned_rad + bend.turn_rad) > 2.9) bend.turn_rad = -bend.turn_rad;
    brief.route.legs.push(bend);
    Leg out = random_straight(draws, 190.0);
    out.length_m = 300.0;
    brief.route.legs.push(out);
    CAPTURE(i);

    const PaintedLine line = painted_line(brief.route, leg);
    const Leg& arc = brief.route.legs[static_cast<std::size_t>(leg)];
    const Leg& before = brief.route.legs[static_cast<std::size_t>(leg - 1)];
    const double side = arc.turn_rad < 0.0 ? -1.0 : 1.0;
    const double axis_m = turn_axis_at_radius_m(a, arc.radius_m);
    const double eye_m = a.eye_ahead_m - axis_m;
    const double arc_m = leg_length_m(arc);
    const TrackAnswer answer = track_answer(brief, leg, 4.0);

    const auto with_eye_on_line = [&](double at_m) {
      const LinePoint here = line_at(line, at_m);
      const double heading_rad = here.heading_rad - lag_after_legs(brief.route, leg, eye_m, at_m);
      return Pose{ahead_of(here.point, heading_rad, -a.eye_ahead_m), heading_rad};
    };
    const double room_m = before.kind == LegKind::Arc ? 0.0
                          : leg > 1                   ? 0.5 * before.length_m
                                                      : before.length_m;
    const double eye_begin_m = -std::max(10.0, std::min(arc.lead_in_m, room_m) - a.eye_ahead_m);
    const double eye_end_m = arc_m + std::max(3.5 * eye_m, arc.lead_in_m + a.eye_ahead_m);
    compare(answer.eye_on_line,
            look_everywhere(a, line, side, eye_begin_m, eye_end_m, with_eye_on_line), i, margins,
            reach);

    const TrackPlan& gear = answer.gear_on_line;
    const double lead_in_m = arc.lead_in_m + std::abs(axis_m);  // wheels stand behind the axis
    if (gear.ramps_fit) {
      const double length_m = a.wheelbase_m - axis_m;
      const GearOnLineTurn turn = gear_on_line_turn(
          arc.radius_m, std::abs(arc.turn_rad), length_m, eye_m, 1.5, a.steering_rate_radps,
          4.0 * std::hypot(arc.radius_m, length_m) / arc.radius_m);
      const auto on_ramps = [&](double nose_m) {
        const double inside_m = std::clamp(nose_m, 0.0, turn.nose_path_m);
        Pose pose =
            gear_on_line_pose(turn, arc.radius_m, std::abs(arc.turn_rad), length_m, inside_m);
        pose.gear = ahead_of(pose.gear, pose.heading_rad, nose_m - inside_m - axis_m);
        return Pose{{pose.gear.x_m, side * pose.gear.y_m}, side * pose.heading_rad};
      };
      const double wanted_m = std::max(10.0, lead_in_m - turn.start_before_arc_m);
      const double before_m = std::clamp(room_m - turn.start_before_arc_m, 0.0, wanted_m);
      compare(gear,
              look_everywhere(a, line, side, -before_m, turn.nose_path_m + wanted_m, on_ramps), i,
              margins, reach);
    } else {
      const auto on_line = [&](double at_m) {
        const LinePoint here = line_at(line, at_m);
        return Pose{ahead_of(here.point, here.heading_rad, -axis_m), here.heading_rad};
      };
      const double before_m = std::max(10.0, std::min(lead_in_m, room_m));
      const double after_m = std::max(10.0, lead_in_m);
      compare(gear, look_everywhere(a, line, side, -before_m, arc_m + after_m, on_line), i, margins,
              reach);
    }
  }
  CAPTURE(margins.unsafe_at);
  CAPTURE(margins.cautious_at);
  CAPTURE(reach.unsafe_at);
  CAPTURE(reach.cautious_at);
  CHECK(margins.unsafe < 1e-3);
  CHECK(margins.cautious < 1e-3);
  CHECK(reach.unsafe < 1e-3);
  CHECK(reach.cautious < 1e-3);
}

TEST_CASE("property: a motion's velocity is the way of its points, and its phases join") {
  Draws draws(20261202);
  Worst velocity, joint, beside, rate;
  for (int i = 0; i < 200; ++i) {
    TaxiRoute route;
    route.legs.clear();
    route.legs.push(random_straight(draws, 100.0));
    Leg bend = random_arc(draws);
    if (draws.coin()) bend.easing_m = draws.between(0.1, 0.8) * bend.radius_m * 0.2;
    route.legs.push(bend);
    route.legs.push(random_straight(draws, 100.0));
    const PaintedLine line = painted_line(route, 1);
    const CarriedLag lag = carried_lag(line, draws.between(8.0, 36.0));
    const GearOnLineTurn turn = gear_on_line_turn(bend.radius_m, std::abs(bend.turn_rad), 30.0,
                                                  33.0, 1.5, draws.between(0.1, 0.4), 4.0);
    const double side = bend.turn_rad < 0.0 ? -1.0 : 1.0;
    const BodyPoint point{draws.between(-35.0, 35.0), draws.between(-30.0, 30.0)};
    const auto try_motion = [&](const auto& motion, const MotionPhases& phases) {
      for (std::size_t k = 0; k < phases.size(); ++k) {
        const double length_m = phases[k].end_m - phases[k].begin_m;
        const double at_m = phases[k].begin_m + draws.between(0.2, 0.8) * length_m;
        const double step_m = 1e-4 * std::min(1.0, length_m);
        const Point before = motion.at(phases[k], at_m - step_m).place_of(point);
        const Point after = motion.at(phases[k], at_m + step_m).place_of(point);
        const Point by = motion.at(phases[k], at_m).velocity_of(point);
        velocity.note((after.x_m - before.x_m) / (2.0 * step_m) - by.x_m, i);
        velocity.note((after.y_m - before.y_m) / (2.0 * step_m) - by.y_m, i);
        if (k == 0) continue;
        const Point left = motion.at(phases[k - 1], phases[k - 1].end_m).place_of(point);
        const Point entered = motion.at(phases[k], phases[k].begin_m).place_of(point);
        joint.note(left.x_m - entered.x_m, i);
        joint.note(left.y_m - entered.y_m, i);
        joint.note(phases[k].begin_m - phases[k - 1].end_m, i);
      }
    };
    try_motion(FollowedMotion{line, lag},
               phases_along_line(line, -30.0, leg_length_m(bend) + 80.0));
    try_motion(OnLineMotion{line}, phases_along_line(line, -30.0, leg_length_m(bend) + 80.0));
    try_motion(RampedMotion{turn, bend.radius_m, std::abs(bend.turn_rad), 30.0, side},
               phases_of_ramps(turn, 20.0, 20.0));
    // On the piece that a foot lies on, what is seen is what the whole line says; and the line's
    // own course lies on that piece.
    const double into_m = draws.between(-60.0, leg_length_m(bend) + 60.0);
    const LinePoint on = line_at(line, into_m);
    const double right_m = draws.between(-12.0, 12.0);
    const Point at = tillerline::beside(on.point, on.heading_rad, right_m);
    const std::size_t piece = piece_beside(line, at);
    const PlaceBeside seen = place_beside(line, piece, at);
    const LineOffset whole = offset_from_line(line, at);
    beside.note(seen.from.offset_m - whole.offset_m, i);
    beside.note(seen.from.left_half_width_m - whole.left_half_width_m, i);
    beside.note(seen.from.right_half_width_m - whole.right_half_width_m, i);
    beside.note(seen.cosine - std::cos(on.heading_rad), i);
    beside.note(seen.sine - std::sin(on.heading_rad), i);
    const LineCourse course = course_on_piece(line, piece, into_m - line.pieces[piece].begin_m);
    beside.note(course.point.x_m - on.point.x_m, i);
    beside.note(course.point.y_m - on.point.y_m, i);
    // Two ways one after the other are the whole way.
    const double half_m = draws.between(1.0, 40.0), bends = draws.between(-0.04, 0.04);
    const HalfLag once = half_lag_after_m({0.1, 1.0}, 20.0, bends, 2.0 * half_m);
    const HalfLag twice =
        half_lag_after_m(half_lag_after_m({0.1, 1.0}, 20.0, bends, half_m), 20.0, bends, half_m);
    rate.note(std::atan2(once.sine, once.cosine) - std::atan2(twice.sine, twice.cosine), i);
  }
  CHECK(velocity.error < 1e-6);
  CHECK(joint.error < 1e-9);
  CHECK(beside.error < 1e-6);
  CHECK(rate.error < 1e-12);
}

TEST_CASE("property: a sweep of a straight plan keeps every distance, on both sides") {
  TaxiRoute route;
  route.legs.clear();
  Draws draws(20261203);
  route.legs.push(random_straight(draws, 150.0));
  route.legs.push(random_arc(draws));
  const PaintedLine line = painted_line(route, 1);
  const MotionPhases phases = phases_along_line(line, -140.0, -80.0);
  const OnLineMotion motion{line};
  const auto sweep = plan_sweep(motion, phases);
  const double half_m = 0.5 * route.legs[0].width_m;
  for (const double right_m : {-30.0, -3.0, 0.0, 5.0}) {
    const SweptPoint swept = sweep.of_point(line, {10.0, right_m}, Sought::Both);
    CHECK(swept.left.margin_m == doctest::Approx(half_m + right_m).epsilon(1e-12));
    CHECK(swept.right.margin_m == doctest::Approx(half_m - right_m).epsilon(1e-12));
    CHECK(swept.most_right_m == doctest::Approx(right_m).epsilon(1e-12));
    CHECK(swept.most_left_m == doctest::Approx(-right_m).epsilon(1e-12));
    CHECK(sweep.furthest_past_m({{0.0, 0.0}, 0.0}, 1.0, {10.0, right_m}) ==
          doctest::Approx(std::max(0.0, -right_m)).epsilon(1e-12));
  }
}

TEST_CASE("property: a zero between known ends is the zero, to rounding or within what is asked") {
  Draws draws(20261204);
  for (int i = 0; i < 300; ++i) {
    const double zero = draws.between(-5.0, 5.0), a = draws.between(0.1, 3.0);
    int calls = 0;
    const auto f = [&](double x) {
      ++calls;
      return a * (x - zero) + 0.05 * (x - zero) * (x - zero) * (x - zero);
    };
    const double low = zero - draws.between(0.5, 4.0), high = zero + draws.between(0.5, 4.0);
    const double f_low = f(low), f_high = f(high);
    CHECK(std::abs(find_zero_between(low, f_low, high, f_high, f) - zero) < 1e-13);
    calls = 0;
    CHECK(std::abs(find_zero_between(low, f_low, high, f_high, f, 1e-7) - zero) <= 1e-7);
    CHECK(calls <= 16);
  }
}
