// The ends of the ranges: long turns, no speed, no lag, no turn.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/path/track.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

TEST_CASE("track: after a very long turn the greatest deviation is the steady one") {
  Draws draws(20261160);
  Worst worst;
  for (int i = 0; i < 300; ++i) {
    const double length = draws.between(10.0, 40.0), radius = length * draws.between(1.05, 8.0);
    const double steady = radius - std::sqrt(radius * radius - length * length);
    worst.note(largest_off_tracking_m(radius, 200.0, length) / steady - 1.0, i);
  }
  CHECK(worst.error < 1e-12);
}

TEST_CASE("track: greatest deviation grows with the turn and the length, falls with the radius") {
  Draws draws(20261161);
  for (int i = 0; i < 300; ++i) {
    const double length = draws.between(10.0, 40.0), radius = length * draws.between(0.8, 6.0);
    const double turn = draws.between(0.1, 2.6);
    const double off = largest_off_tracking_m(radius, turn, length);
    CHECK(off > 0.0);
    CHECK(largest_off_tracking_m(radius, turn + 0.05, length) > off);
    CHECK(largest_off_tracking_m(radius, turn, length + 0.1) > off);
    CHECK(largest_off_tracking_m(radius + 0.1, turn, length) < off);
  }
}

TEST_CASE("track: a vanishing length follows the line itself, a vanishing arc asks for nothing") {
  // Steady deviation R - sqrt(R^2 - L^2), L^2 / 2R for short ones.
  for (const double length : {1.0, 0.1, 0.01}) {
    CHECK(largest_off_tracking_m(50.0, 1.5, length) ==
          doctest::Approx(length * length / 100.0).epsilon(length));
    CHECK(lag_after_m(0.3, length, 0.02, 40.0) ==
          doctest::Approx(std::asin(0.02 * length)).epsilon(1e-12));
    CHECK(lag_after_clothoid_m(0.0, length, 0.02, 0.02, 40.0) ==
          doctest::Approx(std::asin(0.02 * length)).epsilon(1e-12));
  }
  CHECK(largest_off_tracking_m(50.0, 1e-9, 30.0) < 1e-7);
  CHECK(lag_after_m(0.2, 30.0, 0.02, 0.0) == doctest::Approx(0.2).epsilon(1e-15));
  CHECK(lag_after_clothoid_m(0.2, 30.0, 0.0, 0.02, 0.0) == doctest::Approx(0.2).epsilon(1e-15));
}

TEST_CASE("track: standing, or with nose wheels that need no time, steering is at once") {
  const GearOnLineTurn standing = gear_on_line_turn(45.0, 1.5, 28.0, 31.0, 1.2, 0.2, 0.0);
  const GearOnLineTurn no_time = gear_on_line_turn(45.0, 1.5, 28.0, 31.0, 1.2, 0.0, 4.0);
  for (const GearOnLineTurn& turn : {standing, no_time}) {
    CHECK(turn.full_deflection);
    CHECK(turn.start_before_arc_m == 0.0);
    CHECK(turn.shift_m == 0.0);
    CHECK(turn.ramp_nose_m == 0.0);
    CHECK(turn.nose_path_m == doctest::Approx(std::hypot(45.0, 28.0) * 1.5).epsilon(1e-15));
    CHECK(turn.eye_past_arc_begin_m == 31.0);
    const Pose end = gear_on_line_pose(turn, 45.0, 1.5, 28.0, turn.nose_path_m);
    CHECK(end.heading_rad == doctest::Approx(1.5).epsilon(1e-15));
    CHECK(end.gear.x_m == doctest::Approx(45.0 * std::sin(1.5)).epsilon(1e-14));
  }
}

TEST_CASE("track: the quicker the nose wheels, the nearer to steering at once") {
  double last = 1e9;
  for (const double rate : {0.05, 0.1, 0.2, 0.5, 2.0, 20.0}) {
    const GearOnLineTurn turn = gear_on_line_turn(45.0, 2.0, 28.0, 31.0, 1.2, rate, 4.0);
    CHECK(turn.start_before_arc_m < last);
    CHECK(turn.start_before_arc_m > 0.0);
    last = turn.start_before_arc_m;
  }
  CHECK(last < 0.1);
}

TEST_CASE("track: radius by the lag, to the straight and to the pivot") {
  CHECK(smallest_gear_radius_m(0.0, 30.0) == 1e9);
  CHECK(smallest_gear_radius_m(0.5, 30.0) == doctest::Approx(30.0 / std::tan(0.5)).epsilon(1e-15));
  // A lag of a right angle and more is the pivot: no smaller than that of 1.56 rad.
  CHECK(smallest_gear_radius_m(1.7, 30.0) == smallest_gear_radius_m(1.56, 30.0));
  CHECK(smallest_gear_radius_m(1.56, 30.0) ==
        doctest::Approx(30.0 / std::tan(1.56)).epsilon(1e-15));
  // Steady lag on a circle: back to the main gear's radius.
  CHECK(smallest_gear_radius_m(std::asin(30.0 / 50.0), 30.0) ==
        doctest::Approx(40.0).epsilon(1e-14));
}

TEST_CASE("track: nose-wheel angle from the lag") {
  CHECK(nose_wheel_angle_rad(0.0, 30.0, 27.0) == 0.0);
  CHECK(nose_wheel_angle_rad(0.4, 27.0, 27.0) == doctest::Approx(0.4).epsilon(1e-15));
  CHECK(nose_wheel_angle_rad(-0.4, 30.0, 27.0) == -nose_wheel_angle_rad(0.4, 30.0, 27.0));
  CHECK(nose_wheel_angle_rad(2.0, 30.0, 27.0) > 1.6);
}

TEST_CASE("track: headwind on a straight, on an arc without a turn, on a plain arc") {
  Leg straight;
  CHECK(leg_headwind_mps(straight, 1.0, 8.0, 1.0) == 8.0);
  CHECK(leg_headwind_mps(straight, 1.0, 8.0, 1.0 + 3.14159265358979312) ==
        doctest::Approx(-8.0).epsilon(1e-15));
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = 0.0;
  arc.easing_m = 10.0;
  CHECK(leg_headwind_mps(arc, 1.0, 8.0, 0.3) ==
        doctest::Approx(8.0 * std::cos(0.7)).epsilon(1e-15));
  arc.easing_m = 0.0;
  arc.turn_rad = 1.2;
  CHECK(leg_headwind_mps(arc, 1.0, 8.0, 0.3) ==
        doctest::Approx(8.0 * (std::sin(1.9) - std::sin(0.7)) / 1.2).epsilon(1e-15));
  TaxiRoute route;
  route.legs.push(straight);
  route.legs.push(arc);
  CHECK(route_length_m(route) == doctest::Approx(100.0 + 45.0 * 1.2).epsilon(1e-15));
}
