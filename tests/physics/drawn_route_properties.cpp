// Drawn routes: there and back, turned and mirrored, sums that close, and what is refused.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/drawn_route.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPi = units::kPi;
constexpr double kDegree = units::kDegree_rad;

Leg straight(double length_m, double slope_rad = 0.0) {
  return {.kind = LegKind::Straight, .length_m = length_m, .slope_rad = slope_rad};
}

Leg arc(double radius_m, double turn_rad, double slope_rad = 0.0, double easing_m = 0.0) {
  return {.kind = LegKind::Arc,
          .radius_m = radius_m,
          .turn_rad = turn_rad,
          .slope_rad = slope_rad,
          .easing_m = easing_m};
}

// Straights with a turn after each, within what can be drawn.
TaxiRoute random_route(Draws& draws, bool eased) {
  TaxiRoute route;
  route.start_heading_rad = draws.between(0.0, 2.0 * kPi);
  const auto slope = [&] { return draws.between(-0.02, 0.02); };
  const int turns = draws.below(8);
  for (int i = 0; i < turns; ++i) {
    route.legs.push(straight(draws.between(20.0, 900.0), slope()));
    const double radius_m = draws.between(15.0, 120.0);
    const double turn_rad = draws.sign() * draws.between(6.0, 169.0) * kDegree;
    const double most_m = radius_m * std::abs(turn_rad);
    route.legs.push(arc(radius_m, turn_rad, slope(), eased ? draws.between(0.0, most_m) : 0.0));
  }
  route.legs.push(straight(draws.between(20.0, 900.0), slope()));
  return route;
}

DrawnRoute corners(std::initializer_list<PlanePoint> at, double radius_m = 45.0) {
  DrawnRoute drawn;
  for (const PlanePoint& point : at) {
    DrawnPoint one;
    one.at = point;
    one.turn.radius_m = radius_m;
    drawn.points.push(one);
  }
  return drawn;
}

double furthest_m(const DrawnRoute& drawn) {
  double far_m = 1.0;
  for (const DrawnPoint& point : drawn.points) {
    far_m = std::max(far_m, distance_between_m({}, point.at));
  }
  return far_m;
}

RoutePlace end_of(const TaxiRoute& route) {
  RoutePlace place{.at = {}, .heading_rad = route.start_heading_rad};
  for (const Leg& leg : route.legs) place = place_on_leg(leg, place, leg_length_m(leg));
  return place;
}

void agree(const Leg& a, const Leg& b) {
  CHECK(a.kind == b.kind);
  CHECK(leg_length_m(a) == doctest::Approx(leg_length_m(b)).epsilon(1e-8));
  CHECK(a.slope_rad == doctest::Approx(b.slope_rad).epsilon(1e-9));
  if (a.kind == LegKind::Straight) return;
  CHECK(a.radius_m == b.radius_m);
  CHECK(a.turn_rad == doctest::Approx(b.turn_rad).epsilon(1e-8));
  CHECK(a.easing_m == b.easing_m);
}

DrawnError only_error(const DrawnRoute& drawn) {
  const DrawnLegs made = drawn_legs(drawn);
  REQUIRE(made.errors.size() == 1);
  return made.errors[0];
}

}  // namespace

TEST_CASE("drawn routes: legs, their points, and the same legs again") {
  Draws draws(20261126);
  for (int i = 0; i < scaled_draws(400); ++i) {
    const TaxiRoute route = random_route(draws, i % 2 == 1);
    const DrawnFromRoute there = drawn_from_route(route);
    REQUIRE(there.errors.empty());
    const DrawnLegs back = drawn_legs(there.drawn);
    REQUIRE(back.errors.empty());
    REQUIRE(back.legs.size() == route.legs.size());
    for (std::size_t k = 0; k < route.legs.size(); ++k) agree(back.legs[k], route.legs[k]);
    CHECK(std::abs(wrapped_rad(back.start_heading_rad - route.start_heading_rad)) < 1e-9);
    CHECK(back.start_heading_rad >= 0.0);
    // What the pieces of a turn lead to is where its last straight ends.
    const double off_m = distance_between_m(end_of(route).at, there.drawn.points.back().at);
    CHECK(off_m < 1e-9 * furthest_m(there.drawn));
  }
}

TEST_CASE("drawn routes: turned by an angle the legs stay, mirrored the turns change sides") {
  Draws draws(20261127);
  for (int i = 0; i < scaled_draws(200); ++i) {
    const DrawnRoute drawn = drawn_from_route(random_route(draws, false)).drawn;
    const double by_rad = draws.between(-kPi, kPi);
    DrawnRoute turned = drawn;
    DrawnRoute mirrored = drawn;
    for (std::size_t k = 0; k < drawn.points.size(); ++k) {
      const PlanePoint at = drawn.points[k].at;
      turned.points[k].at = moved({}, heading_to_rad({}, at) + by_rad, distance_between_m({}, at));
      mirrored.points[k].at.east_m = -at.east_m;
    }
    const DrawnLegs one = drawn_legs(drawn);
    const DrawnLegs other = drawn_legs(turned);
    const DrawnLegs mirror = drawn_legs(mirrored);
    REQUIRE(other.legs.size() == one.legs.size());
    REQUIRE(mirror.legs.size() == one.legs.size());
    CHECK(std::abs(wrapped_rad(other.start_heading_rad - one.start_heading_rad - by_rad)) < 1e-9);
    CHECK(std::abs(wrapped_rad(mirror.start_heading_rad + one.start_heading_rad)) < 1e-9);
    for (std::size_t k = 0; k < one.legs.size(); ++k) {
      CHECK(other.legs[k].turn_rad == doctest::Approx(one.legs[k].turn_rad).epsilon(1e-8));
      CHECK(mirror.legs[k].turn_rad == doctest::Approx(-one.legs[k].turn_rad).epsilon(1e-8));
      CHECK(leg_length_m(other.legs[k]) ==
            doctest::Approx(leg_length_m(one.legs[k])).epsilon(1e-7));
      CHECK(leg_length_m(mirror.legs[k]) ==
            doctest::Approx(leg_length_m(one.legs[k])).epsilon(1e-7));
    }
  }
}

TEST_CASE("drawn routes: a closed ring turns by a full circle, and its heights close") {
  Draws draws(20261128);
  for (int i = 0; i < scaled_draws(100); ++i) {
    // Corners on a circle, to the right; the start in the middle of a side, to which the ring comes
    // back.
    const int sides = 3 + draws.below(6);
    const double size_m = draws.between(300.0, 800.0);
    DrawnRoute ring;
    ring.elevations_given = true;
    const auto corner = [&](int k) { return moved({}, 2.0 * kPi * k / sides, size_m); };
    const auto put = [&](PlanePoint at, double elevation_m) {
      DrawnPoint point;
      point.at = at;
      point.elevation_m = elevation_m;
      ring.points.push(point);
    };
    const PlanePoint middle{0.5 * (corner(0).east_m + corner(sides - 1).east_m),
                            0.5 * (corner(0).north_m + corner(sides - 1).north_m)};
    put(middle, 12.0);
    for (int k = 0; k < sides; ++k) put(corner(k), draws.between(8.0, 16.0));
    put(middle, 12.0);
    const DrawnLegs made = drawn_legs(ring);
    REQUIRE(made.errors.empty());
    double turned_rad = 0.0;
    double rise_m = 0.0;
    for (const Leg& leg : made.legs) {
      turned_rad += leg.turn_rad;
      rise_m += leg_length_m(leg) * std::sin(leg.slope_rad);
    }
    CHECK(turned_rad == doctest::Approx(2.0 * kPi).epsilon(1e-10));
    CHECK(std::abs(rise_m) < 1e-9);
    for (std::size_t k = 0; k < made.legs.size(); ++k) {
      const std::size_t at = made.point_of_leg[k];
      CHECK(at < ring.points.size() - 1);
      CHECK((made.legs[k].kind == LegKind::Straight || made.corners[at].turn_rad > 0.0));
      CHECK(made.legs[k].elevation_le90_m == kUsualElevationLe90_m);
    }
  }
}

TEST_CASE("drawn routes: a turn's slope is known no better than the stretches that it carries on") {
  DrawnRoute drawn = corners({{0.0, 0.0}, {0.0, 400.0}, {300.0, 400.0}});
  DrawnLegs made = drawn_legs(drawn);
  for (const Leg& leg : made.legs) CHECK(slope_known(leg) == SlopeKnown::Surveyed);
  drawn.points[0].stretch.elevation_le90_m = 0.8;
  drawn.points[1].stretch.elevation_le90_m = 0.5;
  made = drawn_legs(drawn);
  CHECK(made.legs[0].elevation_le90_m == 0.8);
  CHECK(made.legs[1].elevation_le90_m == 0.8);
  CHECK(made.legs[2].elevation_le90_m == 0.5);
  drawn.points[1].stretch.slope_guess_rad = 0.01;
  CHECK(slope_known(drawn_legs(drawn).legs[1]) == SlopeKnown::Guessed);
  // A slope of its own is known by itself; elevations with an accuracy of their own keep it.
  drawn.points[1].own_turn_slope = true;
  CHECK(slope_known(drawn_legs(drawn).legs[1]) == SlopeKnown::Surveyed);
  drawn.elevations_given = true;
  CHECK(drawn_legs(drawn).legs[0].elevation_le90_m == 0.8);
  CHECK(slope_known(drawn_legs(drawn).legs[1]) == SlopeKnown::Guessed);
}

TEST_CASE("drawn routes: slopes by the stretch carry on through a turn, unless it has its own") {
  DrawnRoute drawn = corners({{0.0, 0.0}, {0.0, 400.0}, {300.0, 400.0}});
  drawn.points[0].stretch.slope_rad = 0.01;
  drawn.points[1].stretch.slope_rad = -0.02;
  DrawnLegs made = drawn_legs(drawn);
  REQUIRE(made.legs.size() == 3);
  CHECK(made.legs[0].slope_rad == 0.01);
  CHECK(made.legs[2].slope_rad == -0.02);
  const double rise_m = 45.0 * (std::sin(0.01) - std::sin(0.02));
  CHECK(std::sin(made.legs[1].slope_rad) ==
        doctest::Approx(rise_m / (45.0 * kPi / 2.0)).epsilon(1e-12));
  drawn.points[1].own_turn_slope = true;
  drawn.points[1].turn.slope_rad = 0.005;
  CHECK(drawn_legs(drawn).legs[1].slope_rad == 0.005);
}

TEST_CASE("drawn routes: what is too tight, too short or too long is refused with the way out") {
  // A radius that its stretch has no room for: the largest one that fits, fits.
  DrawnRoute drawn = corners({{0.0, 0.0}, {0.0, 60.0}, {100.0, 60.0}}, 80.0);
  DrawnError error = only_error(drawn);
  CHECK(error.fault == DrawnFault::RadiusTooLarge);
  CHECK(error.point == 1);
  CHECK(error.value == 80.0);
  CHECK(error.allowed == doctest::Approx(55.0));
  drawn.points[1].turn.radius_m = error.allowed;
  CHECK(drawn_legs(drawn).errors.empty());
  // Too large for both its stretches: one mistake, and the shorter one counts.
  drawn.points[1].turn.radius_m = 500.0;
  CHECK(only_error(drawn).allowed == doctest::Approx(55.0));
  // Between two turns the longer tangent is to blame, in the middle one with the room of both
  // sides.
  drawn = corners({{0.0, 0.0}, {0.0, 200.0}, {100.0, 200.0}, {100.0, 400.0}}, 30.0);
  drawn.points[1].turn.radius_m = 80.0;
  error = only_error(drawn);
  CHECK(error.point == 1);
  CHECK(error.allowed == doctest::Approx(65.0));
  drawn.points[1].turn.radius_m = 30.0;
  drawn.points[2].turn.radius_m = 90.0;
  error = only_error(drawn);
  CHECK(error.point == 2);
  CHECK(error.allowed == doctest::Approx(65.0));
  drawn.points[2].turn.radius_m = error.allowed;
  CHECK(drawn_legs(drawn).errors.empty());
  // Two arcs may meet; a straight of half a metre between them may not be.
  drawn.points[2].turn.radius_m = 70.0;
  const DrawnLegs meeting = drawn_legs(drawn);
  CHECK(meeting.errors.empty());
  CHECK(meeting.legs.size() == 4);
  drawn.points[2].turn.radius_m = 69.5;
  CHECK(only_error(drawn).fault == DrawnFault::RadiusTooLarge);
  // No radius fits: the stretch is too short.
  drawn = corners({{0.0, 0.0}, {0.0, 200.0}, {12.0, 200.0}, {12.0, 400.0}}, 30.0);
  error = only_error(drawn);
  CHECK(error.fault == DrawnFault::StretchTooShort);
  CHECK(error.point == 1);
  CHECK(error.value == doctest::Approx(12.0));
  CHECK(error.allowed == doctest::Approx(65.0));
  CHECK(only_error(corners({{0.0, 0.0}, {0.0, 4.0}})).fault == DrawnFault::StretchTooShort);
  error = only_error(corners({{0.0, 0.0}, {0.0, 400.0}, {100.0, 400.0}}, 8.0));
  CHECK(error.fault == DrawnFault::RadiusTooSmall);
  CHECK(error.allowed == kLeastDrawnRadius_m);
  // No straight at all is left before the first turn, or behind the last one.
  CHECK(only_error(corners({{0.0, 0.0}, {0.0, 45.0}, {200.0, 45.0}})).allowed ==
        doctest::Approx(40.0));
  CHECK(only_error(corners({{0.0, 0.0}, {0.0, 200.0}, {45.0, 200.0}})).allowed ==
        doctest::Approx(40.0));
  // The same point twice has no slope; two mistakes of a kind are two.
  DrawnRoute doubled = corners({{0.0, 0.0}, {0.0, 0.0}});
  doubled.elevations_given = true;
  doubled.points[1].elevation_m = 3.0;
  CHECK(only_error(doubled).fault == DrawnFault::StretchTooShort);
  CHECK(drawn_legs(corners({{0.0, 0.0}, {0.0, 400.0}, {10.0, 800.0}, {10.0, 1200.0}}))
            .errors.size() == 2);
  // So are two of two kinds.
  const DrawnLegs unlike = drawn_legs(
      corners({{0.0, 0.0}, {0.0, 400.0}, {10.0, 800.0}, {810.0, 800.0}, {810.0, 795.0}}));
  REQUIRE(unlike.errors.size() == 2);
  CHECK(unlike.errors[0].fault != unlike.errors[1].fault);
  // Too slight, too sharp, too few, too long, too many.
  error = only_error(corners({{0.0, 0.0}, {0.0, 400.0}, {10.0, 800.0}}));
  CHECK(error.fault == DrawnFault::TurnTooSlight);
  CHECK(error.value == doctest::Approx(std::atan2(10.0, 400.0)));
  error = only_error(corners({{0.0, 0.0}, {0.0, 400.0}, {10.0, 0.0}}));
  CHECK(error.fault == DrawnFault::TurnTooSharp);
  CHECK(only_error(corners({{0.0, 0.0}})).fault == DrawnFault::TooFewPoints);
  error = only_error(corners({{0.0, 0.0}, {0.0, 21000.0}}));
  CHECK(error.fault == DrawnFault::TooLong);
  CHECK(error.value == doctest::Approx(21000.0));
  DrawnRoute many;
  for (int i = 0; i < 30; ++i) {
    DrawnPoint point;
    point.at = {200.0 * ((i + 1) / 2), 200.0 * (i / 2)};
    many.points.push(point);
  }
  error = only_error(many);
  CHECK(error.fault == DrawnFault::TooManyLegs);
  CHECK(error.value == 57.0);
  for (int i = 0; i < 20; ++i) many.points.push({});
  error = only_error(many);
  CHECK(error.fault == DrawnFault::TooManyLegs);
  CHECK(error.value == 50.0);
}

TEST_CASE("drawn routes: straight on, long stretches, half turns and routes that cannot be drawn") {
  // A point where only the slope changes makes no turn; a very long stretch becomes several legs.
  const DrawnLegs made = drawn_legs(corners({{0.0, 0.0}, {0.0, 400.0}, {0.0, 11400.0}}));
  REQUIRE(made.errors.empty());
  REQUIRE(made.legs.size() == 4);
  CHECK(made.legs[1].length_m == doctest::Approx(11000.0 / 3.0));
  TaxiRoute route;
  route.legs.push(straight(100.0, 0.01));
  route.legs.push(straight(200.0, -0.01));
  route.legs.push(arc(60.0, kPi, 0.002));
  route.legs.push(straight(300.0));
  // A half turn has no corner: two quarter turns that meet stand for it.
  const DrawnFromRoute there = drawn_from_route(route);
  REQUIRE(there.errors.empty());
  REQUIRE(there.drawn.points.size() == 5);
  const DrawnLegs back = drawn_legs(there.drawn);
  REQUIRE(back.errors.empty());
  REQUIRE(back.legs.size() == 5);
  agree(back.legs[2], arc(60.0, kPi / 2.0, 0.002));
  agree(back.legs[3], arc(60.0, kPi / 2.0, 0.002));
  route.legs[2].easing_m = 20.0;
  const DrawnFromRoute eased = drawn_from_route(route);
  REQUIRE(eased.errors.size() == 1);
  CHECK(eased.errors[0].fault == DrawnFault::TurnTooSharp);
  CHECK(eased.errors[0].point == 2);
  CHECK(drawn_from_route(TaxiRoute{}).drawn.points.empty());
  // Two turns that meet have no straight between them, there and back.
  TaxiRoute meeting;
  meeting.legs.push(straight(100.0));
  meeting.legs.push(arc(60.0, 1.0));
  meeting.legs.push(arc(80.0, -0.5));
  meeting.legs.push(straight(100.0));
  const DrawnLegs met = drawn_legs(drawn_from_route(meeting).drawn);
  REQUIRE(met.errors.empty());
  REQUIRE(met.legs.size() == 4);
  for (std::size_t k = 0; k < 4; ++k) agree(met.legs[k], meeting.legs[k]);
}

TEST_CASE("drawn routes: the largest radius leaves just that tangent, eased or not") {
  Draws draws(20261129);
  for (int i = 0; i < scaled_draws(300); ++i) {
    const double turn_rad = draws.sign() * draws.between(10.0, 165.0) * kDegree;
    const double room_m = draws.between(15.0, 300.0);
    for (const double easing_m : {0.0, draws.between(0.1, 20.0)}) {
      Leg tried = arc(50.0, turn_rad, 0.0, easing_m);
      tried.radius_m = largest_radius_m(tried, room_m);
      CHECK(tangent_length_m(tried) == doctest::Approx(room_m).epsilon(1e-9));
    }
  }
  CHECK(largest_radius_m(arc(50.0, 1.0), 0.0) == 0.0);
}

TEST_CASE("drawn routes: places on a leg keep its length, and chords stay within their tolerance") {
  Draws draws(20261130);
  for (int i = 0; i < scaled_draws(100); ++i) {
    const double radius_m = draws.between(12.0, 400.0);
    const double turn_rad = draws.sign() * draws.between(6.0, 175.0) * kDegree;
    const double easing_m = draws.coin() ? 0.0 : draws.between(0.0, radius_m * std::abs(turn_rad));
    const Leg leg = arc(radius_m, turn_rad, 0.01, easing_m);
    const double length_m = leg_length_m(leg);
    const RoutePlace begin{.at = {draws.between(-9.0, 9.0), 3.0},
                           .heading_rad = draws.between(0.0, 6.0),
                           .elevation_m = 7.0};
    const RoutePlace end = place_on_leg(leg, begin, length_m);
    CHECK(end.heading_rad - begin.heading_rad == doctest::Approx(turn_rad).epsilon(1e-10));
    CHECK(end.elevation_m == doctest::Approx(7.0 + length_m * std::sin(0.01)).epsilon(1e-12));
    const double tolerance_m = draws.by_size(0.01, 5.0);
    const int chords = chords_of_leg(leg, tolerance_m);
    double walked_m = 0.0;
    constexpr int kFine = 40;
    for (int k = 0; k < chords; ++k) {
      const double from_m = length_m * k / chords;
      const double to_m = length_m * (k + 1) / chords;
      const PlanePoint from = place_on_leg(leg, begin, from_m).at;
      const PlanePoint to = place_on_leg(leg, begin, to_m).at;
      PlanePoint last = from;
      for (int n = 1; n <= kFine; ++n) {
        const PlanePoint at = place_on_leg(leg, begin, from_m + (to_m - from_m) * n / kFine).at;
        walked_m += distance_between_m(last, at);
        last = at;
        CHECK(distance_to_stretch_m(at, from, to) <= tolerance_m * (1.0 + 1e-9));
      }
    }
    CHECK(walked_m == doctest::Approx(length_m).epsilon(1e-3));
  }
  CHECK(chords_of_leg(straight(900.0), 0.01) == 1);
  CHECK(distance_to_stretch_m({3.0, 4.0}, {}, {}) == 5.0);
}

TEST_CASE("drawn routes: what lies just on a border is taken, one beyond it is not") {
  // The sharpest and the slightest turn.
  for (const double turn_rad : {kMostDrawnTurn_rad, kLeastDrawnTurn_rad}) {
    const PlanePoint corner{0.0, 900.0};
    const DrawnRoute drawn = corners({{0.0, 0.0}, corner, moved(corner, turn_rad, 900.0)}, 20.0);
    CHECK(drawn_legs(drawn).errors.empty());
  }
  // The longest route.
  CHECK(drawn_legs(corners({{0.0, 0.0}, {0.0, kLongestDrawnRoute_m}})).errors.empty());
  CHECK(only_error(corners({{0.0, 0.0}, {0.0, kLongestDrawnRoute_m + 0.01}})).fault ==
        DrawnFault::TooLong);
  // One leg more than there is room for: forty stretches of which one needs two legs.
  const auto straight_on = [](double last_m) {
    DrawnRoute drawn;
    double north_m = 0.0;
    for (int i = 0; i <= kMaxLegs; ++i) {
      DrawnPoint point;
      point.at = {0.0, north_m};
      drawn.points.push(point);
      north_m += i + 1 < kMaxLegs ? 100.0 : last_m;
    }
    return drawn;
  };
  CHECK(drawn_legs(straight_on(kMostStraight_m - 1.0)).errors.empty());
  const DrawnError one_more = only_error(straight_on(kMostStraight_m + 1.0));
  CHECK(one_more.fault == DrawnFault::TooManyLegs);
  CHECK(one_more.value == kMaxLegs + 1);
}

TEST_CASE("drawn routes: a corner becomes a turn whatever kind its point had been given") {
  DrawnRoute drawn = corners({{0.0, 0.0}, {0.0, 400.0}, {300.0, 400.0}});
  drawn.points[1].turn.kind = LegKind::Straight;
  const DrawnLegs made = drawn_legs(drawn);
  REQUIRE(made.errors.empty());
  REQUIRE(made.legs.size() == 3);
  CHECK(made.legs[1].kind == LegKind::Arc);
}
