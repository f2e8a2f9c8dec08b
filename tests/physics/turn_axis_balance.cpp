// The effective turn axis: balance of the bogies' side forces, inverses, limits.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"
#include "physics/world/tyre.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Aircraft steered(Draws& draws) {
  Aircraft aircraft;
  aircraft.wheelbase_m = draws.between(18.0, 33.0);
  aircraft.turn_axis_ahead_m = draws.between(-1.0, 1.0);
  aircraft.body_gear_steer_share = draws.between(0.0, 0.3);
  aircraft.body_gear_behind_m = draws.between(0.0, 4.0);
  return aircraft;
}

}  // namespace

TEST_CASE("turn axis: without inputs it is the main-gear axis, exactly") {
  const Aircraft aircraft;
  for (const double steering : {0.0, 0.3, 0.9, 1.3})
    CHECK(turn_axis_at_steering_m(aircraft, steering) == 0.0);
  CHECK(turn_axis_at_radius_m(aircraft, 40.0) == 0.0);
  CHECK(turning_radius_m(aircraft, 0.7) == aircraft.wheelbase_m / std::tan(0.7));
  for (double radius = 15.0; radius < 120.0; radius += 1.3)
    CHECK(steering_for_radius_rad(aircraft, radius) == std::atan(aircraft.wheelbase_m / radius));
}

TEST_CASE("turn axis: a place given is that place at every angle") {
  Aircraft aircraft;
  aircraft.turn_axis_ahead_m = 0.61;
  for (const double steering : {0.0, 0.3, 0.9, 1.3})
    CHECK(turn_axis_at_steering_m(aircraft, steering) == 0.61);
  CHECK(turn_axis_at_radius_m(aircraft, 55.0) == 0.61);
  CHECK(turning_radius_m(aircraft, 0.7) ==
        doctest::Approx((aircraft.wheelbase_m - 0.61) / std::tan(0.7)).epsilon(1e-15));
}

TEST_CASE("turn axis: side forces of wing gear, body gear and nose gear balance") {
  // The place given by input is where the unsteered axis would lie with all bogies at one place;
  // slips are counted from there. The nose gear's force follows from the sum, and must balance the
  // moment too.
  Draws draws(20261130);
  Worst moment;
  for (int i = 0; i < 1000; ++i) {
    const Aircraft a = steered(draws);
    const double steering = draws.between(0.05, 1.3);
    const double x = turn_axis_at_steering_m(a, steering) - a.turn_axis_ahead_m;
    const double radius = turning_radius_m(a, steering);
    const double b = a.body_gear_behind_m;
    const double wing_slip = (b - x) / radius;
    const double body_slip = (-b - x) / radius + std::tan(a.body_gear_steer_share * steering);
    const double nose_force = -(wing_slip + body_slip);  // stiffness 1 for each half
    moment.note(nose_force * a.wheelbase_m + wing_slip * b - body_slip * b, i);
  }
  CHECK(moment.error < 1e-12);
}

TEST_CASE("turn axis: angle and radius are inverses, and the axis agrees both ways") {
  Draws draws(20261131);
  Worst angle, axis;
  for (int i = 0; i < 1000; ++i) {
    const Aircraft a = steered(draws);
    const double steering = draws.between(0.02, 1.3);
    const double radius = turning_radius_m(a, steering);
    angle.note(steering_for_radius_rad(a, radius) - steering, i);
    axis.note(turn_axis_at_radius_m(a, radius) - turn_axis_at_steering_m(a, steering), i);
  }
  CHECK(angle.error < 1e-13);
  CHECK(axis.error < 1e-12);
}

TEST_CASE("turn axis: hardly turning, the axis comes to its limit") {
  Draws draws(20261132);
  Worst worst;
  for (int i = 0; i < 100; ++i) {
    const Aircraft a = steered(draws);
    worst.note(turn_axis_at_steering_m(a, 1e-6) - turn_axis_at_steering_m(a, 0.0), i);
  }
  CHECK(worst.error < 1e-10);
}

TEST_CASE("turn axis: body gear turns it tighter, its distance alone stretches the wheelbase") {
  Aircraft aircraft;
  double last = 1e9;
  for (const double share : {0.0, 0.05, 0.1, 0.2, 0.3}) {
    aircraft.body_gear_steer_share = share;
    const double radius = turning_radius_m(aircraft, 0.9);
    CHECK(radius < last);
    last = radius;
    CHECK(tightest_turn(aircraft, 0.9).turn_radius_m == radius);
  }
  // Half the bogies 2 m behind and half 2 m ahead are one bogie of two axles 4 m apart.
  Aircraft spread;
  spread.body_gear_behind_m = 2.0;
  // Its wheelbase grows by the mean square distance of the axles over it (Winkler 1998).
  CHECK(spread.wheelbase_m - turn_axis_at_steering_m(spread, 0.5) ==
        doctest::Approx(spread.wheelbase_m + 4.0 / spread.wheelbase_m).epsilon(1e-15));
}

TEST_CASE("turn axis: everything in proportion gives the same angles") {
  Draws draws(20261133);
  Worst angle, length;
  for (int i = 0; i < 200; ++i) {
    Aircraft a = steered(draws);
    const double radius = draws.between(15.0, 90.0);
    const double steering = steering_for_radius_rad(a, radius);
    const double axis = turn_axis_at_radius_m(a, radius);
    a.wheelbase_m *= 4.0;
    a.turn_axis_ahead_m *= 4.0;
    a.body_gear_behind_m *= 4.0;
    angle.note(steering_for_radius_rad(a, 4.0 * radius) - steering, i);
    length.note(turn_axis_at_radius_m(a, 4.0 * radius) - 4.0 * axis, i);
  }
  CHECK(angle.error < 1e-14);
  CHECK(length.error < 1e-12);
}
