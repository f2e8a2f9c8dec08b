// Eased arcs: lengths, curvature, where the line goes, its pavement, the wind met on it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/clothoid.hpp"
#include "physics/numerics/units.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/track.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPi = units::kPi;

Leg straight(double length_m) {
  Leg leg;
  leg.length_m = length_m;
  return leg;
}

Leg arc_leg(double radius_m, double turn_rad, double easing_m) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = turn_rad;
  leg.easing_m = easing_m;
  return leg;
}

TaxiRoute between_straights(const Leg& arc, double straight_m) {
  TaxiRoute route;
  route.legs.push(straight(straight_m));
  route.legs.push(arc);
  route.legs.push(straight(straight_m));
  return route;
}

}  // namespace

TEST_CASE("easing: lengths and curvature of a leg") {
  const Leg arc = arc_leg(50.0, -1.2, 20.0);
  CHECK(leg_easing_m(arc) == 20.0);
  CHECK(leg_length_m(arc) == doctest::Approx(80.0).epsilon(1e-15));
  CHECK(leg_curvature_pm(arc) == -0.02);
  CHECK(leg_curvature_pm(arc, 0.0) == 0.0);
  CHECK(leg_curvature_pm(arc, 5.0) == doctest::Approx(-0.005).epsilon(1e-14));
  CHECK(leg_curvature_pm(arc, 20.0) == -0.02);
  CHECK(leg_curvature_pm(arc, 40.0) == -0.02);
  CHECK(leg_curvature_pm(arc, 70.0) == doctest::Approx(-0.01).epsilon(1e-13));
  CHECK(leg_curvature_pm(arc, -0.001) == 0.0);
  CHECK(leg_curvature_pm(arc, 80.001) == 0.0);
  // A plain arc has its curvature from end to end, a straight has none, nor an easing.
  const Leg plain = arc_leg(50.0, 1.2, 0.0);
  CHECK(leg_length_m(plain) == 60.0);
  CHECK(leg_curvature_pm(plain, 0.0) == 0.02);
  CHECK(leg_curvature_pm(plain, 60.0) == 0.02);
  CHECK(leg_curvature_pm(plain, 60.1) == 0.0);
  Leg line = straight(70.0);
  line.easing_m = 10.0;
  CHECK(leg_easing_m(line) == 0.0);
  CHECK(leg_length_m(line) == 70.0);
  CHECK(leg_curvature_pm(line, 10.0) == 0.0);
}

TEST_CASE("easing: longer than the arc is taken as the arc, negative as none") {
  const Leg arc = arc_leg(40.0, 0.5, 90.0);
  CHECK(leg_easing_m(arc) == 20.0);
  CHECK(leg_length_m(arc) == 40.0);
  CHECK(leg_curvature_pm(arc, 20.0) == 0.025);
  CHECK(leg_easing_m(arc_leg(40.0, 0.5, -3.0)) == 0.0);
  const LinePoint end = line_at(painted_line(between_straights(arc, 50.0), 1), 40.0);
  CHECK(end.heading_rad == doctest::Approx(0.5).epsilon(1e-14));
}

TEST_CASE("easing: the turn keeps its angle, and the line has no kink") {
  Draws draws(20261110);
  Worst angle, place, heading, curvature;
  for (int i = 0; i < 500; ++i) {
    const double radius = draws.between(20.0, 120.0);
    const double turn = draws.sign() * draws.between(0.1, kPi);
    const Leg arc = arc_leg(radius, turn, draws.between(0.0, 1.1) * radius * std::abs(turn));
    const double length = leg_length_m(arc);
    const PaintedLine line = painted_line(between_straights(arc, 50.0), 1);
    angle.note(line_at(line, length).heading_rad - turn, i);
    const double at = draws.between(-5.0, length + 5.0);
    // Short steps along the line: the way goes along the heading, the heading by the curvature.
    const double step = 1e-4;
    const LinePoint a = line_at(line, at - 0.5 * step), b = line_at(line, at + 0.5 * step);
    const double middle = 0.5 * (a.heading_rad + b.heading_rad);
    place.note(b.point.x_m - a.point.x_m - step * std::cos(middle), i);
    place.note(b.point.y_m - a.point.y_m - step * std::sin(middle), i);
    heading.note((b.heading_rad - a.heading_rad) - 0.5 * step *
                                                       (line_curvature_pm(line, at - 0.25 * step) +
                                                        line_curvature_pm(line, at + 0.25 * step)),
                 i);
    curvature.note(at < 0.0 || at > length
                       ? line_curvature_pm(line, at)
                       : line_curvature_pm(line, at) - leg_curvature_pm(arc, at),
                   i);
  }
  CHECK(angle.error < 1e-13);
  CHECK(place.error < 1e-12);
  CHECK(heading.error < 1e-5 * 1e-4);  // a joint may lie within the step
  CHECK(curvature.error < 1e-15);
}

TEST_CASE("easing: beyond both ends of the route the line goes straight on") {
  TaxiRoute route;
  route.legs.push(arc_leg(40.0, 1.0, 15.0));
  const PaintedLine line = painted_line(route, 0);
  const double length = leg_length_m(route.legs[0]);
  const LinePoint before = line_at(line, -7.0);
  CHECK(before.point.x_m == -7.0);
  CHECK(before.point.y_m == 0.0);
  CHECK(before.heading_rad == 0.0);
  const LinePoint end = line_at(line, length), after = line_at(line, length + 7.0);
  CHECK(after.heading_rad == end.heading_rad);
  CHECK(after.point.x_m == doctest::Approx(end.point.x_m + 7.0 * std::cos(1.0)).epsilon(1e-13));
  CHECK(after.point.y_m == doctest::Approx(end.point.y_m + 7.0 * std::sin(1.0)).epsilon(1e-13));
  CHECK(line_curvature_pm(line, -0.1) == 0.0);
  CHECK(line_curvature_pm(line, length + 0.1) == 0.0);
}

TEST_CASE("easing: legs before the turn fit on to it from behind") {
  // The line laid out from the second turn is the line from the first, moved.
  TaxiRoute route;
  route.legs.push(arc_leg(45.0, -1.1, 18.0));
  route.legs.push(straight(33.0));
  route.legs.push(arc_leg(60.0, 0.9, 25.0));
  const PaintedLine first = painted_line(route, 0), second = painted_line(route, 2);
  const double ahead = leg_length_m(route.legs[0]) + 33.0;
  const LinePoint origin = line_at(first, ahead);
  for (double at = -5.0; at < 160.0; at += 3.7) {
    const LinePoint a = line_at(first, at), b = line_at(second, at - ahead);
    const Point moved = beside(ahead_of(origin.point, origin.heading_rad, b.point.x_m),
                               origin.heading_rad, b.point.y_m);
    CHECK(moved.x_m == doctest::Approx(a.point.x_m).epsilon(1e-12).scale(100.0));
    CHECK(moved.y_m == doctest::Approx(a.point.y_m).epsilon(1e-12).scale(100.0));
    CHECK(b.heading_rad + origin.heading_rad == doctest::Approx(a.heading_rad).epsilon(1e-13));
  }
}

TEST_CASE(
    "easing: a short one hardly differs from the plain arc, a clothoid without growth is one") {
  const PaintedLine plain = painted_line(between_straights(arc_leg(45.0, 1.5, 0.0), 60.0), 1);
  const PaintedLine eased = painted_line(between_straights(arc_leg(45.0, 1.5, 1e-6), 60.0), 1);
  for (double at = -20.0; at < 90.0; at += 2.3) {
    CHECK(line_at(eased, at).point.x_m ==
          doctest::Approx(line_at(plain, at).point.x_m).epsilon(1e-6));
    CHECK(line_at(eased, at).point.y_m ==
          doctest::Approx(line_at(plain, at).point.y_m).epsilon(1e-6).scale(1.0));
  }
  CHECK(crossing_radius_m(arc_leg(45.0, 1.5, 1e-6)) == doctest::Approx(45.0).epsilon(1e-7));
  CHECK(crossing_radius_m(arc_leg(45.0, 1.5, 0.0)) == 45.0);
  const ClothoidStep circle = clothoid_step(0.02, 0.0, 60.0);
  CHECK(circle.forward_m == doctest::Approx(50.0 * std::sin(1.2)).epsilon(1e-15));
  CHECK(circle.right_m == doctest::Approx(50.0 * (1.0 - std::cos(1.2))).epsilon(1e-14));
  CHECK(circle.turned_rad == doctest::Approx(1.2).epsilon(1e-15));
  CHECK(circle.cosine == doctest::Approx(std::cos(1.2)).epsilon(1e-15));
  CHECK(circle.sine == doctest::Approx(std::sin(1.2)).epsilon(1e-15));
  for (const double lag : {-0.4, 0.0, 0.7})
    CHECK(lag_after_clothoid_m(lag, 25.0, 0.02, 0.02, 90.0) ==
          doctest::Approx(lag_after_m(lag, 25.0, 0.02, 90.0)).epsilon(1e-14));
}

TEST_CASE("easing: a clothoid of a right angle, and both ways along it") {
  // Series at its longest: half of an eased half circle.
  const double growth = kPi;  // 90 degrees over 1 m
  const ClothoidStep end = clothoid_step(0.0, growth, 1.0);
  CHECK(end.turned_rad == doctest::Approx(0.5 * kPi).epsilon(1e-15));
  CHECK(std::abs(end.cosine) < 1e-14);
  CHECK(std::abs(end.sine - 1.0) < 1e-14);
  // Back from its end, seen from the end's heading, to the begin.
  const ClothoidStep back = clothoid_step(growth, growth, -1.0);
  CHECK(back.turned_rad == doctest::Approx(-0.5 * kPi).epsilon(1e-15));
  const double x = end.forward_m + back.forward_m * end.cosine - back.right_m * end.sine;
  const double y = end.right_m + back.forward_m * end.sine + back.right_m * end.cosine;
  CHECK(std::abs(x) < 1e-13);  // terms up to exp(3 pi / 2) cancel
  CHECK(std::abs(y) < 1e-13);
}

TEST_CASE("easing: the straights cross where the crossing radius says") {
  Draws draws(20261111);
  Worst crossing;
  for (int i = 0; i < 300; ++i) {
    const double radius = draws.between(20.0, 120.0);
    const double turn = draws.between(0.1, 3.0);
    const Leg arc = arc_leg(radius, draws.sign() * turn, draws.between(0.01, 1.0) * radius * turn);
    const PaintedLine line = painted_line(between_straights(arc, 50.0), 1);
    const LinePoint end = line_at(line, leg_length_m(arc));
    const double tangent = crossing_radius_m(arc) * std::tan(0.5 * turn);
    // Backwards from the end by the tangent's length is the same point as forwards from the begin.
    const Point back = ahead_of(end.point, end.heading_rad, -tangent);
    crossing.note((back.x_m - tangent) / tangent, i);
    crossing.note(back.y_m / tangent, i);
    CHECK(crossing_radius_m(arc) > radius);
  }
  CHECK(crossing.error < 1e-12);
  // A half circle has no crossing but still a radius: half the distance of the straights.
  const Leg half = arc_leg(40.0, -kPi, 30.0);
  const LinePoint end = line_at(painted_line(between_straights(half, 50.0), 1), leg_length_m(half));
  CHECK(crossing_radius_m(half) == doctest::Approx(-0.5 * end.point.y_m).epsilon(1e-14));
}

TEST_CASE("easing: pavement along an eased arc") {
  Leg arc = arc_leg(50.0, -1.2, 20.0);
  arc.width_m = 24.0;
  arc.widening_m = 5.0;
  arc.lead_in_m = 30.0;
  TaxiRoute route = between_straights(arc, 100.0);
  for (Leg& leg : route.legs) leg.width_m = 24.0;
  const PaintedLine line = painted_line(route, 1);
  const double length = leg_length_m(arc);
  const auto left_at = [&](double at) {
    const LineOffset here = offset_from_line(line, line_at(line, at).point);
    CHECK(std::abs(here.offset_m) < 1e-12);
    CHECK(here.right_half_width_m == 12.0);
    return here.left_half_width_m;
  };
  for (const double at : {0.5, 10.0, 19.9, 30.0, 65.0, length - 0.5}) CHECK(left_at(at) == 17.0);
  CHECK(left_at(-15.0) == doctest::Approx(14.5).epsilon(1e-12));
  CHECK(left_at(length + 6.0) == doctest::Approx(16.0).epsilon(1e-12));
  CHECK(left_at(-30.5) == 12.0);
  CHECK(left_at(length + 31.0) == 12.0);
  // The drawn edges stand off the line by these widths.
  Brief brief;
  brief.route = route;
  const TurnOutline outline = turn_outline(brief, 1);
  double most = 0.0, least = 1e9;
  for (int i = 0; i < outline.samples; ++i) {
    const double left = std::hypot(outline.left_edge[i].x_m - outline.centre[i].x_m,
                                   outline.left_edge[i].y_m - outline.centre[i].y_m);
    most = std::max(most, left);
    least = std::min(least, left);
  }
  CHECK(most == doctest::Approx(17.0).epsilon(1e-12));
  CHECK(least == doctest::Approx(12.0).epsilon(1e-12));
}

TEST_CASE("easing: a point beyond the centre of curvature still has a distance") {
  const Leg arc = arc_leg(20.0, 1.4, 12.0);
  const PaintedLine line = painted_line(between_straights(arc, 80.0), 1);
  Draws draws(20261112);
  for (int i = 0; i < 500; ++i) {
    const Point point{draws.between(-60.0, 60.0), draws.between(-60.0, 60.0)};
    double nearest = 1e9;
    for (double at = -80.0; at < 140.0; at += 0.02) {
      const Point on = line_at(line, at).point;
      nearest = std::min(nearest, std::hypot(on.x_m - point.x_m, on.y_m - point.y_m));
    }
    const double got = std::abs(offset_from_line(line, point).offset_m);
    CAPTURE(point.x_m);
    CAPTURE(point.y_m);
    CHECK(got > nearest - 0.02);
    // Nearer than the centre of the arc the answer is the distance itself.
    if (nearest < 19.0) CHECK(got < nearest + 0.02);
    if (nearest >= 19.0) CHECK(got < nearest + 25.0);
  }
}

TEST_CASE("easing: a point beside the very ends of an easing has its foot there") {
  for (const double turn_rad : {1.2, -1.2}) {
    const Leg arc = arc_leg(45.0, turn_rad, 30.0);
    const PaintedLine line = painted_line(between_straights(arc, 80.0), 1);
    const double arc_m = leg_length_m(arc);
    for (const double into_m : {0.01, 0.3, 0.7, 0.99, 1.5, 29.5, 29.99})
      for (const double along : {into_m, arc_m - into_m})
        for (const double right_m : {-15.0, -3.0, 4.0, 12.0}) {
          CAPTURE(along);
          const LinePoint on = line_at(line, along);
          const LineOffset got = offset_from_line(line, beside(on.point, on.heading_rad, right_m));
          CHECK(got.offset_m == doctest::Approx(right_m).epsilon(1e-9));
        }
  }
}

TEST_CASE("easing: a route that begins and ends in an arc goes straight on for the foot, too") {
  for (const double easing : {0.0, 15.0}) {
    Leg arc = arc_leg(60.0, -0.8, easing);
    arc.width_m = 24.0;
    arc.widening_m = 6.0;
    arc.lead_in_m = 40.0;
    TaxiRoute route;
    route.legs.push(arc);
    const PaintedLine line = painted_line(route, 0);
    const double length = leg_length_m(arc);
    for (const double at : {-60.0, -20.0, length + 10.0, length + 55.0})
      for (const double right : {-25.0, 0.5, 18.0}) {
        const LinePoint on = line_at(line, at);
        const LineOffset got = offset_from_line(line, beside(on.point, on.heading_rad, right));
        CHECK(got.offset_m == doctest::Approx(right).epsilon(1e-12));
        CHECK(got.right_half_width_m == 12.0);
        const double beyond = at < 0.0 ? -at : at - length;
        const double taper = 6.0 * std::max(0.0, 1.0 - beyond / 40.0);
        CHECK(got.left_half_width_m == doctest::Approx(12.0 + taper).epsilon(1e-12));
      }
  }
}

TEST_CASE("easing: the foot is looked for two legs away, and on to the next straight") {
  // Arcs of 10 m each: a point beside the fifth piece away is still found where all are arcs, and
  // beside a straight three legs away it is not looked for behind the one that is two away.
  TaxiRoute arcs;
  for (int i = 0; i < 9; ++i) arcs.legs.push(arc_leg(100.0, i % 2 == 0 ? 0.1 : -0.1, 0.0));
  const PaintedLine chain = painted_line(arcs, 4);
  CHECK(chain.first_near == 0);
  CHECK(chain.last_near == chain.pieces.size() - 1);
  for (const double at : {-39.0, -25.0, 3.0, 28.0, 47.0}) {
    const LinePoint on = line_at(chain, at);
    CHECK(offset_from_line(chain, beside(on.point, on.heading_rad, 7.0)).offset_m ==
          doctest::Approx(7.0).epsilon(1e-12));
  }
  TaxiRoute mixed;
  for (int i = 0; i < 9; ++i)
    mixed.legs.push(i % 2 == 0 ? straight(50.0) : arc_leg(80.0, 0.3, 0.0));
  const PaintedLine line = painted_line(mixed, 3);
  CHECK(line.turn == 3);
  CHECK(line.first_near == 0);  // leg 1 is an arc, so on to leg 0
  CHECK(line.last_near == 6);   // leg 5 is an arc, so on to leg 6
}

TEST_CASE("easing: headwind over an eased arc is the mean over the distance") {
  Draws draws(20261113);
  Worst mean, plain;
  for (int i = 0; i < 100; ++i) {
    const double radius = draws.between(20.0, 90.0);
    const double turn = draws.sign() * draws.between(0.2, kPi);
    const Leg arc = arc_leg(radius, turn, draws.between(0.0, 1.0) * radius * std::abs(turn));
    const double heading = draws.between(-7.0, 7.0), from = draws.between(-7.0, 7.0);
    const double length = leg_length_m(arc);
    const PaintedLine line = painted_line(between_straights(arc, 50.0), 1);
    // Simpson's rule between the knots.
    const double easing = leg_easing_m(arc);
    const auto simpson = [&](double a, double b) {
      const int n = 200;
      double sum = 0.0;
      for (int k = 0; k <= n; ++k) {
        const double at = a + (b - a) * k / n;
        const double weight = k == 0 || k == n ? 1.0 : k % 2 == 1 ? 4.0 : 2.0;
        sum += weight * std::cos(heading + line_at(line, at).heading_rad - from);
      }
      return sum * (b - a) / (3.0 * n);
    };
    const double expected = 9.0 *
                            (simpson(0.0, easing) + simpson(easing, length - easing) +
                             simpson(length - easing, length)) /
                            length;
    mean.note(leg_headwind_mps(arc, heading, 9.0, from) - expected, i);
    Leg hardly = arc;
    hardly.easing_m = 1e-7;
    Leg none = arc;
    none.easing_m = 0.0;
    plain.note(
        leg_headwind_mps(hardly, heading, 9.0, from) - leg_headwind_mps(none, heading, 9.0, from),
        i);
  }
  CHECK(mean.error < 1e-8);
  CHECK(plain.error < 1e-7);
}

TEST_CASE("easing: angles wrap to one turn") {
  CHECK(wrapped_rad(0.5) == 0.5);
  CHECK(wrapped_rad(kPi) == kPi);
  CHECK(wrapped_rad(-kPi) == doctest::Approx(kPi));
  CHECK(wrapped_rad(0.5 + 4.0 * kPi) == doctest::Approx(0.5).epsilon(1e-14));
  CHECK(wrapped_rad(-0.5 - 6.0 * kPi) == doctest::Approx(-0.5).epsilon(1e-14));
}

TEST_CASE("easing: just behind its begin a point is beside the curve, not off its end") {
  const PaintedLine line = painted_line(between_straights(arc_leg(50.0, 1.2, 20.0), 100.0), 1);
  // On the first metre the curve leaves the straight by s^3 / (6 R L), a fraction of a millimetre.
  for (const double along_m : {0.2, 0.5, 0.9}) {
    for (const double right_m : {-4.0, 4.0})
      CHECK(offset_from_line(line, {along_m, right_m}).offset_m ==
            doctest::Approx(right_m).epsilon(1e-4));
  }
}
