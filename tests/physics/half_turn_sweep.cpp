// The half turn against a body that is turned in small steps, and what its width depends on.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/half_turn.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPi = units::kPi;

Aircraft random_aircraft(Draws& draws) {
  Aircraft a;
  a.wheelbase_m = draws.between(15.0, 33.0);
  a.wheel_span_m = draws.between(8.0, 14.5);
  a.nose_wheel_span_m = draws.between(0.4, 1.2);
  a.steering_limit_rad = draws.between(0.4, 1.35);
  a.wing_span_m = draws.between(34.0, 79.0);
  a.wing_tip_behind_m = draws.between(-6.0, 14.0);
  a.tailplane_span_m = draws.between(12.0, 30.0);
  a.tail_behind_m = draws.between(15.0, 38.0);
  a.turn_axis_ahead_m = draws.between(-0.5, 1.0);
  a.body_gear_steer_share = draws.coin() ? 0.0 : draws.between(0.0, 0.2);
  return a;
}

// Least and greatest distance across the pavement of a point during the turn; the turn's centre is
// at 0, the aircraft starts on the negative side and ends on the positive one.
struct Across {
  double least = 1e9;
  double most = -1e9;
};

Across swept(double radius, double ahead_of_axis, double outward) {
  Across across;
  constexpr int kSteps = 20000;
  for (int i = 0; i <= kSteps; ++i) {
    const double turned = kPi * i / kSteps;
    const double y = -(radius + outward) * std::cos(turned) + ahead_of_axis * std::sin(turned);
    across.least = std::min(across.least, y);
    across.most = std::max(across.most, y);
  }
  return across;
}

}  // namespace

TEST_CASE("half turn: width and reach beyond the edges as a body turned in steps needs them") {
  Draws draws(20261140);
  Worst bare, needed, wing, tail;
  const Limits limits;
  int nose_governs = 0, wheel_governs = 0, wing_far = 0, wing_near = 0;
  for (int i = 0; i < 300; ++i) {
    const Aircraft a = random_aircraft(draws);
    const double width = draws.between(30.0, 90.0);
    const HalfTurn half = half_turn(a, limits, width);
    const double r = turning_radius_m(a, a.steering_limit_rad);
    const double axis = turn_axis_at_steering_m(a, a.steering_limit_rad);
    // Main wheels at their true place, nose wheels turned: their outer face is farther by half
    // their span along the turn's radius.
    const double wheel = std::hypot(r + 0.5 * a.wheel_span_m, axis);
    const Across nose = swept(r, a.wheelbase_m - axis, 0.0);
    const double nose_out = nose.most + 0.5 * a.nose_wheel_span_m;
    (nose_out > wheel ? nose_governs : wheel_governs) += 1;
    bare.note(half.bare_m - (wheel + std::max(nose_out, wheel)), i);
    needed.note(half.needed_m -
                    (wheel + limits.edge_clearance_m +
                     std::max(nose_out + limits.nose_clearance_m, wheel + limits.edge_clearance_m)),
                i);
    const double near_edge = -(wheel + limits.edge_clearance_m);
    const double far_edge = near_edge + width;
    const auto beyond = [&](const Across& across) {
      return std::max(near_edge - across.least, across.most - far_edge);
    };
    const Across tip = swept(r, -a.wing_tip_behind_m - axis, 0.5 * a.wing_span_m);
    (near_edge - tip.least > tip.most - far_edge ? wing_near : wing_far) += 1;
    wing.note(half.wing_beyond_edge_m - beyond(tip), i);
    tail.note(half.tail_beyond_edge_m -
                  beyond(swept(r, -a.tail_behind_m - axis, 0.5 * a.tailplane_span_m)),
              i);
    CHECK(half.spare_m == width - half.needed_m);
    CHECK(half.possible == (half.spare_m >= 0.0));
  }
  CHECK(bare.error < 1e-6);  // the search stops at a step
  CHECK(needed.error < 1e-6);
  CHECK(wing.error < 1e-6);
  CHECK(tail.error < 1e-6);
  CHECK(nose_governs > 30);
  CHECK(wheel_governs > 10);
  CHECK(wing_near > 10);
  CHECK(wing_far > 10);
}

TEST_CASE("half turn: possible from the width needed on") {
  const Aircraft aircraft;
  const Limits limits;
  const double needed = half_turn(aircraft, limits, 50.0).needed_m;
  CHECK(half_turn(aircraft, limits, needed).possible);
  CHECK(half_turn(aircraft, limits, needed).spare_m == 0.0);
  CHECK(!half_turn(aircraft, limits, needed - 1e-9).possible);
  const HalfTurn half = half_turn(aircraft, limits, 60.0);
  CHECK(half.wanted);
  CHECK(half.width_m == 60.0);
  CHECK(half.gear_from_edge_m == limits.edge_clearance_m);
}

TEST_CASE("half turn: not wanted, the radii are there all the same") {
  const Aircraft aircraft;
  const HalfTurn half = half_turn(aircraft, Limits{}, 0.0);
  CHECK(!half.wanted);
  CHECK(!half.possible);
  CHECK(half.spare_m == 0.0);
  CHECK(half.wing_beyond_edge_m == 0.0);
  const TightestTurn turn = tightest_turn(aircraft, aircraft.steering_limit_rad);
  CHECK(half.steering_rad == aircraft.steering_limit_rad);
  CHECK(half.gear_radius_m == turn.turn_radius_m);
  CHECK(half.nose_radius_m == turn.nose_gear_m);
  CHECK(half.wing_tip_radius_m == turn.wing_tip_m);
  CHECK(half.tail_radius_m == turn.tail_m);
  CHECK(half.nose_tip_radius_m == turn.nose_tip_m);
  CHECK(half.needed_m > half.bare_m);
}

TEST_CASE("half turn: clearances add up, more steering needs less, in proportion it scales") {
  const Aircraft aircraft;
  Limits wide;
  wide.edge_clearance_m = 5.0;
  wide.nose_clearance_m = 2.5;
  const Limits usual;
  CHECK(half_turn(aircraft, wide, 0.0).needed_m - half_turn(aircraft, usual, 0.0).needed_m ==
        doctest::Approx(2.5).epsilon(1e-12));
  double last = 1e9;
  for (double limit = 0.5; limit < 1.4; limit += 0.1) {
    Aircraft a = aircraft;
    a.steering_limit_rad = limit;
    const double needed = half_turn(a, usual, 0.0).needed_m;
    CHECK(needed < last);
    last = needed;
  }
  Aircraft twice = aircraft;
  for (double* length : {&twice.wheelbase_m, &twice.wheel_span_m, &twice.nose_wheel_span_m,
                         &twice.wing_span_m, &twice.wing_tip_behind_m, &twice.tailplane_span_m,
                         &twice.tail_behind_m, &twice.nose_tip_ahead_m})
    *length *= 2.0;
  Limits twice_limits = usual;
  twice_limits.edge_clearance_m *= 2.0;
  twice_limits.nose_clearance_m *= 2.0;
  const HalfTurn one = half_turn(aircraft, usual, 55.0),
                 two = half_turn(twice, twice_limits, 110.0);
  CHECK(two.needed_m == 2.0 * one.needed_m);
  CHECK(two.wing_beyond_edge_m == 2.0 * one.wing_beyond_edge_m);
  CHECK(two.tail_beyond_edge_m == 2.0 * one.tail_beyond_edge_m);
}

TEST_CASE("half turn: tips of the tightest turn about an axis ahead of the main gear") {
  Draws draws(20261141);
  Worst worst;
  for (int i = 0; i < 300; ++i) {
    const Aircraft a = random_aircraft(draws);
    const double steering = draws.between(0.3, 1.35);
    const TightestTurn t = tightest_turn(a, steering);
    const double x = turn_axis_at_steering_m(a, steering);
    const double r = turning_radius_m(a, steering);
    const auto at = [&](double ahead, double out) { return std::hypot(ahead - x, r + out); };
    worst.note(t.turn_axis_ahead_m - x, i);
    worst.note(t.gear_axis_m - at(0.0, 0.0), i);
    worst.note(t.outer_main_wheel_m - at(0.0, 0.5 * a.wheel_span_m), i);
    const double inner = at(0.0, -0.5 * a.wheel_span_m);
    worst.note(t.inner_main_wheel_m - (r < 0.5 * a.wheel_span_m ? -inner : inner), i);
    worst.note(t.nose_gear_m - at(a.wheelbase_m, 0.0), i);
    worst.note(t.nose_tip_m - at(a.nose_tip_ahead_m, 0.0), i);
    worst.note(t.wing_tip_m - at(-a.wing_tip_behind_m, 0.5 * a.wing_span_m), i);
    worst.note(t.tail_m - at(-a.tail_behind_m, 0.5 * a.tailplane_span_m), i);
    worst.note(
        t.half_circle_width_m - (t.nose_gear_m + 0.5 * a.nose_wheel_span_m + t.outer_main_wheel_m),
        i);
  }
  CHECK(worst.error < 1e-12);
}
