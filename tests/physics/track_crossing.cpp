// Turns where two centrelines cross and no arc is painted, against a body that is turned in steps.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/crossing.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// Furthest past the outbound line of a point ahead of the axis, looking at every heading.
double furthest_past(double radius, double turn, double ahead) {
  double most = -1e9;
  constexpr int kSteps = 20000;
  for (int i = 0; i <= kSteps; ++i) {
    const double heading = turn * i / kSteps;
    const double x = radius * std::sin(heading) + ahead * std::cos(heading);
    const double y = radius * (1.0 - std::cos(heading)) + ahead * std::sin(heading);
    most =
        std::max(most, (x - radius * std::tan(0.5 * turn)) * std::sin(turn) - y * std::cos(turn));
  }
  return most;
}

Aircraft plain_aircraft() {
  Aircraft aircraft;
  aircraft.wheelbase_m = 28.0;
  aircraft.eye_ahead_m = 31.0;
  aircraft.nose_wheel_span_m = 1.0;
  aircraft.steering_limit_rad = 1.2;
  return aircraft;
}

}  // namespace

TEST_CASE("crossing: excursion is the furthest of all headings") {
  Draws draws(20261120);
  Worst worst;
  int whole = 0, brief = 0;
  for (int i = 0; i < 300; ++i) {
    const double radius = draws.between(5.0, 80.0);
    const double ahead = draws.between(10.0, 36.0);
    const double turn = draws.between(0.1, 3.0);
    (turn >= std::atan2(ahead, radius) ? whole : brief) += 1;
    worst.note(crossing_excursion_m(radius, turn, ahead) - furthest_past(radius, turn, ahead), i);
  }
  CHECK(worst.error < 1e-6);  // the search stops at a step
  CHECK(whole > 50);
  CHECK(brief > 50);
}

TEST_CASE("crossing: the smallest radius gives the excursion allowed, and both scale") {
  Draws draws(20261121);
  Worst inverse, scaling;
  int none = 0;
  for (int i = 0; i < 1000; ++i) {
    const double ahead = draws.between(10.0, 36.0);
    const double turn = draws.between(0.1, 3.0);
    const double allowed = draws.between(0.5, 40.0);
    const double radius = radius_for_excursion_m(allowed, turn, ahead);
    CHECK(radius >= 0.0);
    if (radius == 0.0) {
      ++none;
      CHECK(furthest_past(1e-9, turn, ahead) <= allowed + 1e-6);
      continue;
    }
    inverse.note(crossing_excursion_m(radius, turn, ahead) / allowed - 1.0, i);
    scaling.note(radius_for_excursion_m(3.0 * allowed, turn, 3.0 * ahead) / (3.0 * radius) - 1.0,
                 i);
    CHECK(crossing_excursion_m(1.01 * radius, turn, ahead) < allowed);
  }
  CHECK(inverse.error < 1e-11);
  CHECK(scaling.error < 1e-12);
  CHECK(none > 50);
  CHECK(equal_split_m(60.0, 24.0) == 2.4);
  CHECK(equal_split_m(120.0, 48.0) == 4.8);
}

TEST_CASE("crossing: equal split puts nose and gear evenly about the circle, to second order") {
  // e = w^2/(4R) exactly: R + e and R - e are hypotenuse and leg of a right triangle with w.
  const double e = equal_split_m(50.0, 26.0);
  CHECK(std::hypot(50.0 - e, 26.0) == doctest::Approx(50.0 + e).epsilon(1e-15));
}

TEST_CASE("crossing: the turn on a pavement of the usual width") {
  const Aircraft aircraft = plain_aircraft();
  const CrossingTurn turn = crossing_turn(aircraft, 1.4, 11.5, 1.0, 45.0);
  CHECK(turn.allowed_excursion_m == 10.0);
  CHECK(turn.nose_on_pavement);
  CHECK(turn.possible);
  CHECK(turn.radius_m == doctest::Approx((28.0 * 28.0 - 100.0) / 20.0).epsilon(1e-14));
  CHECK(turn.nose_excursion_m == doctest::Approx(10.0).epsilon(1e-13));
  CHECK(turn.eye_excursion_m ==
        doctest::Approx(crossing_excursion_m(turn.radius_m, 1.4, 31.0)).epsilon(1e-14));
  CHECK(turn.steering_rad == doctest::Approx(std::atan(28.0 / turn.radius_m)).epsilon(1e-14));
  const double before = turn.radius_m * std::tan(0.7);
  CHECK(turn.gear_before_crossing_m == doctest::Approx(before).epsilon(1e-14));
  CHECK(turn.nose_past_crossing_m == doctest::Approx(28.0 - before).epsilon(1e-13));
  CHECK(turn.eye_past_crossing_m == doctest::Approx(31.0 - before).epsilon(1e-13));
  CHECK(turn.equal_split_m == equal_split_m(turn.radius_m, 28.0));
}

TEST_CASE("crossing: wider pavement never needs a larger radius, the steering limit ends it") {
  const Aircraft aircraft = plain_aircraft();
  const double tightest = turning_radius_m(aircraft, aircraft.steering_limit_rad);
  double last = 1e9;
  bool at_limit = false;
  for (double half_width = 4.0; half_width < 40.0; half_width += 0.5) {
    const CrossingTurn turn = crossing_turn(aircraft, 1.5, half_width, 1.0, 45.0);
    CHECK(turn.radius_m <= last);
    CHECK(turn.possible);
    CHECK(turn.nose_excursion_m <= turn.allowed_excursion_m + 1e-9);
    at_limit = at_limit || turn.radius_m == tightest;
    last = turn.radius_m;
  }
  CHECK(at_limit);
  CHECK(last == tightest);
}

TEST_CASE("crossing: no room for the nose wheels at all") {
  const Aircraft aircraft = plain_aircraft();
  // Half the nose wheels and the clearance take 1.5 m.
  CHECK(crossing_turn(aircraft, 1.5, 1.6, 1.0, 45.0).nose_on_pavement);
  const CrossingTurn turn = crossing_turn(aircraft, 1.5, 1.5, 1.0, 45.0);
  CHECK(!turn.nose_on_pavement);
  CHECK(turn.radius_m == 45.0);
  CHECK(turn.possible);
  const double tightest = turning_radius_m(aircraft, aircraft.steering_limit_rad);
  CHECK(!crossing_turn(aircraft, 1.5, 1.0, 1.0, 0.999 * tightest).possible);
  CHECK(crossing_turn(aircraft, 1.5, 1.0, 1.0, 1.001 * tightest).possible);
}

TEST_CASE("crossing: body gear and a turn axis ahead are taken about that axis") {
  Aircraft aircraft = plain_aircraft();
  aircraft.turn_axis_ahead_m = 0.8;
  aircraft.body_gear_steer_share = 0.2;
  aircraft.body_gear_behind_m = 3.0;
  const CrossingTurn turn = crossing_turn(aircraft, 1.5, 11.5, 1.0, 45.0);
  const double axis = turn_axis_at_radius_m(aircraft, turn.radius_m);
  CHECK(axis > 0.8);
  CHECK(turn.nose_excursion_m == doctest::Approx(10.0).epsilon(1e-10));
  CHECK(turn.nose_past_crossing_m ==
        doctest::Approx(28.0 - axis - turn.gear_before_crossing_m).epsilon(1e-12));
  CHECK(turn.steering_rad == steering_for_radius_rad(aircraft, turn.radius_m));
  CHECK(turn.radius_m < crossing_turn(plain_aircraft(), 1.5, 11.5, 1.0, 45.0).radius_m);
}

TEST_CASE("crossing: the answer of a turn takes the pavement that is entered") {
  Brief brief;
  brief.aircraft = plain_aircraft();
  brief.limits.nose_clearance_m = 1.0;
  brief.route.legs.clear();
  Leg straight;
  straight.width_m = 30.0;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 45.0;
  arc.turn_rad = -1.5;
  arc.width_m = 25.0;
  Leg entered = straight;
  entered.width_m = 23.0;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc);
  const auto radius_of = [&](double half_width) {
    return crossing_turn(brief.aircraft, 1.5, half_width, 1.0, 45.0).radius_m;
  };
  CHECK(track_answer(brief, 1, 4.0).crossing.radius_m == radius_of(12.5));
  brief.route.legs.push(entered);
  CHECK(track_answer(brief, 1, 4.0).crossing.radius_m == radius_of(11.5));
}

TEST_CASE("crossing: lines within five degrees of parallel have none") {
  const double last = units::radians_from_degrees(175.0);
  CHECK(way_to_crossing_m(20.0, 1.4) == doctest::Approx(20.0 * std::tan(0.7)).epsilon(1e-14));
  CHECK(way_to_crossing_m(20.0, last - 1e-9) ==
        doctest::Approx(20.0 * std::tan(0.5 * last)).epsilon(1e-6));
  CHECK(std::isnan(way_to_crossing_m(20.0, last + 1e-9)));
  CHECK(std::isnan(way_to_crossing_m(20.0, 3.141592653589793)));
  const CrossingTurn turn = crossing_turn(plain_aircraft(), 3.141592653589793, 11.5, 1.0, 45.0);
  CHECK(std::isnan(turn.eye_past_crossing_m));
  CHECK(std::isnan(turn.gear_before_crossing_m));
  CHECK(std::isfinite(turn.nose_excursion_m));
  const GearOnLineTurn half = gear_on_line_turn(45.0, 3.141592653589793, 28.0, 31.0, 1.2, 0.0, 3.0);
  CHECK(std::isnan(half.eye_past_crossing_m));
  CHECK(std::isnan(half.nose_past_crossing_m));
  CHECK(half.start_before_arc_m == 0.0);
}
