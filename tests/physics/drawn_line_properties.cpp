// Measured lines: the bound of the simplification, and turns found in points along a known route.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/drawn_line.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kDegree = units::kDegree_rad;

using Line = std::vector<PlanePoint>;

double nearest_m(const PlanePoint& point, const Line& line) {
  double nearest = 1e9;
  for (std::size_t i = 0; i + 1 < line.size(); ++i) {
    nearest = std::min(nearest, distance_to_stretch_m(point, line[i], line[i + 1]));
  }
  return nearest;
}

Line kept_of(const Line& line, const std::vector<unsigned char>& kept) {
  Line stays;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (kept[i] != 0) stays.push_back(line[i]);
  }
  return stays;
}

LineCorners corners_of(const Line& line, double tolerance_m, double radius_m = 45.0) {
  std::vector<unsigned char> kept(line.size());
  return line_corners(line, tolerance_m, radius_m, kept);
}

// Points along the route, no further apart than that, with noise.
Line line_along(const TaxiRoute& route, double spacing_m, double noise_m, Draws& draws) {
  Line line;
  RoutePlace begin{.at = {}, .heading_rad = route.start_heading_rad};
  const auto put = [&](PlanePoint at) {
    line.push_back({at.east_m + draws.between(-noise_m, noise_m),
                    at.north_m + draws.between(-noise_m, noise_m)});
  };
  put(begin.at);
  for (const Leg& leg : route.legs) {
    const double length_m = leg_length_m(leg);
    const int pieces = std::max(1, static_cast<int>(std::ceil(length_m / spacing_m)));
    for (int k = 1; k <= pieces; ++k) put(place_on_leg(leg, begin, length_m * k / pieces).at);
    begin = place_on_leg(leg, begin, length_m);
  }
  return line;
}

TaxiRoute three_turns(Draws& draws) {
  TaxiRoute route;
  route.start_heading_rad = draws.between(0.0, 6.28);
  for (int i = 0; i < 3; ++i) {
    route.legs.push({.kind = LegKind::Straight, .length_m = draws.between(250.0, 700.0)});
    route.legs.push({.kind = LegKind::Arc,
                     .radius_m = draws.between(40.0, 120.0),
                     .turn_rad = draws.sign() * draws.between(40.0, 120.0) * kDegree});
  }
  route.legs.push({.kind = LegKind::Straight, .length_m = draws.between(250.0, 700.0)});
  return route;
}

}  // namespace

TEST_CASE("measured lines: no point is further from what stays than the tolerance") {
  Draws draws(20261131);
  for (int i = 0; i < scaled_draws(200); ++i) {
    Line line(static_cast<std::size_t>(2 + draws.below(120)));
    double heading_rad = 0.0;
    for (std::size_t k = 1; k < line.size(); ++k) {
      heading_rad += draws.between(-0.8, 0.8);
      line[k] = moved(line[k - 1], heading_rad, draws.between(0.0, 20.0));
    }
    const double tolerance_m = draws.by_size(0.01, 30.0);
    std::vector<unsigned char> kept(line.size());
    const std::size_t count = simplify_line(line, tolerance_m, kept);
    const Line stays = kept_of(line, kept);
    CHECK(count == stays.size());
    CHECK(kept.front() == 1);
    CHECK(kept.back() == 1);
    for (const PlanePoint& point : line) CHECK(nearest_m(point, stays) <= tolerance_m);
    // What stays stays when it is simplified again, and a wider tolerance keeps no more.
    std::vector<unsigned char> again(stays.size());
    CHECK(simplify_line(stays, tolerance_m, again) == stays.size());
    CHECK(simplify_line(line, 1e9, kept) == 2);
  }
  std::vector<unsigned char> two(2);
  CHECK(simplify_line(Line{{1.0, 2.0}, {1.0, 4.0}}, 1.0, two) == 2);
  std::vector<unsigned char> one(1);
  CHECK(simplify_line(Line{{1.0, 2.0}}, 1.0, one) == 1);
  CHECK(simplify_line(Line{}, 1.0, std::span<unsigned char>{}) == 0);
}

TEST_CASE("measured lines: points along a route give its turns again, radius and all") {
  Draws draws(20261132);
  for (int i = 0; i < scaled_draws(60); ++i) {
    const TaxiRoute route = three_turns(draws);
    const bool noisy = i % 2 == 1;
    const double noise_m = noisy ? 0.3 : 0.0;
    const double tolerance_m = noisy ? 1.2 : 0.3;
    const Line line = line_along(route, 4.0, noise_m, draws);
    const LineCorners found = corners_of(line, tolerance_m);
    REQUIRE(!found.too_many);
    CHECK(found.deviation_m <= tolerance_m + 1e-9);
    const DrawnLegs made = drawn_legs(found.drawn);
    REQUIRE(made.errors.empty());
    CAPTURE(i);
    REQUIRE(made.legs.size() == route.legs.size());
    CHECK(found.recognised == 3);
    for (std::size_t k = 0; k < made.legs.size(); ++k) {
      const Leg& was = route.legs[k];
      const Leg& is = made.legs[k];
      CHECK(is.kind == was.kind);
      if (was.kind != LegKind::Arc) continue;
      CHECK(std::abs(is.turn_rad - was.turn_rad) < 1.5 * kDegree);
      CHECK(is.radius_m == doctest::Approx(was.radius_m).epsilon(noisy ? 0.12 : 0.05));
    }
    double along_m = 0.0;
    for (std::size_t k = 1; k < found.reaches.size(); ++k) {
      CHECK(found.reaches[k].begin_m >= along_m - 1e-6);
      CHECK(found.reaches[k].end_m >= found.reaches[k].begin_m - 1e-6);
      along_m = found.reaches[k].end_m;
    }
  }
}

namespace {

// The straight with the least sum of squared distances: through the mean, along the vector of the
// larger eigenvalue of the second moments (textbook; no angles, unlike the core's own way).
struct Axis {
  PlanePoint mean;
  double east = 0.0;
  double north = 0.0;
};

Axis axis_of(const Line& points) {
  Axis axis;
  const auto count = static_cast<double>(points.size());
  for (const PlanePoint& p : points) {
    axis.mean.east_m += p.east_m / count;
    axis.mean.north_m += p.north_m / count;
  }
  double ee = 0.0, en = 0.0, nn = 0.0;
  for (const PlanePoint& p : points) {
    const double e = p.east_m - axis.mean.east_m, n = p.north_m - axis.mean.north_m;
    ee += e * e;
    en += e * n;
    nn += n * n;
  }
  const double larger = 0.5 * (ee + nn) + std::hypot(0.5 * (ee - nn), en);
  // Of the two rows the one that does not vanish.
  axis.east = ee > nn ? larger - nn : en;
  axis.north = ee > nn ? en : larger - ee;
  return axis;
}

PlanePoint crossing(const Axis& a, const Axis& b) {
  const double e = b.mean.east_m - a.mean.east_m, n = b.mean.north_m - a.mean.north_m;
  const double along = (e * b.north - n * b.east) / (a.east * b.north - a.north * b.east);
  return {a.mean.east_m + along * a.east, a.mean.north_m + along * a.north};
}

// The points between two, clear of both by the reach of a wide arc (drawn_line.cpp).
Line between_clear(const Line& line, std::size_t from, std::size_t to, double tolerance_m) {
  const double clear_m = std::min(std::sqrt(2.0 * 400.0 * tolerance_m),
                                  0.25 * distance_between_m(line[from], line[to]));
  Line some;
  for (std::size_t i = from + 1; i < to; ++i) {
    if (distance_between_m(line[i], line[from]) >= clear_m &&
        distance_between_m(line[i], line[to]) >= clear_m) {
      some.push_back(line[i]);
    }
  }
  return some;
}

}  // namespace

namespace {

// Of the first leg only its ends and what lies at a third and two thirds of it stay.
void thin_out(Line& line, double length_m) {
  const auto on_leg = static_cast<std::size_t>(std::ceil(length_m / 4.0));
  Line some{line[0], line[on_leg / 3], line[2 * on_leg / 3]};
  some.insert(some.end(), line.begin() + static_cast<std::ptrdiff_t>(on_leg), line.end());
  line = some;
}

}  // namespace

TEST_CASE("measured lines: a turn stands where the best straights before and behind it cross") {
  constexpr double kTolerance_m = 1.2;
  Draws draws(20261133);
  int two_only = 0;
  for (int i = 0; i < 20; ++i) {
    TaxiRoute route;
    route.start_heading_rad = draws.between(0.0, 6.28);
    route.legs.push({.kind = LegKind::Straight, .length_m = draws.between(250.0, 500.0)});
    route.legs.push({.kind = LegKind::Arc,
                     .radius_m = draws.between(60.0, 120.0),
                     .turn_rad = draws.sign() * draws.between(60.0, 120.0) * kDegree});
    route.legs.push({.kind = LegKind::Straight, .length_m = draws.between(250.0, 500.0)});
    Line line = line_along(route, 4.0, 0.35, draws);
    // Sometimes the way in has but two points between its begin and the arc.
    if (i % 2 == 1) thin_out(line, route.legs[0].length_m);
    std::vector<unsigned char> kept(line.size());
    const LineCorners found = line_corners(line, kTolerance_m, 45.0, kept);
    REQUIRE(found.recognised == 1);
    REQUIRE(found.drawn.points.size() == 3);
    simplify_line(line, kTolerance_m, kept);
    std::size_t first = 1;
    while (kept[first] == 0) ++first;
    std::size_t last = line.size() - 2;
    while (kept[last] == 0) --last;
    const Line way_in = between_clear(line, 0, first, kTolerance_m);
    two_only += way_in.size() == 2 ? 1 : 0;
    const PlanePoint expected = crossing(
        axis_of(way_in), axis_of(between_clear(line, last, line.size() - 1, kTolerance_m)));
    CAPTURE(i);
    CHECK(distance_between_m(found.drawn.points[1].at, expected) < 1e-7);
  }
  CHECK(two_only > 0);
}

TEST_CASE("measured lines: plain corners get the radius that is wished for, where it fits") {
  const Line roomy{{0.0, 0.0}, {0.0, 400.0}, {300.0, 400.0}, {300.0, 900.0}};
  const LineCorners found = corners_of(roomy, 1.0, 60.0);
  REQUIRE(found.drawn.points.size() == 4);
  CHECK(found.recognised == 0);
  CHECK(found.tightened == 0);
  CHECK(found.deviation_m < 1e-9);
  CHECK(found.drawn.points[1].turn.radius_m == 60.0);
  CHECK(found.reaches[1].begin_m == doctest::Approx(340.0));
  CHECK(found.reaches[1].end_m == doctest::Approx(460.0));
  CHECK(found.reaches[3].end_m == doctest::Approx(1200.0));
  // Two corners 65 m apart share what there is; the third one keeps its radius.
  const Line tight{{0.0, 0.0}, {0.0, 400.0}, {65.0, 400.0}, {65.0, 800.0}, {500.0, 800.0}};
  const LineCorners shared = corners_of(tight, 1.0, 60.0);
  CHECK(shared.tightened == 2);
  CHECK(shared.drawn.points[1].turn.radius_m == doctest::Approx(30.0));
  CHECK(shared.drawn.points[2].turn.radius_m == doctest::Approx(30.0));
  CHECK(shared.drawn.points[3].turn.radius_m == 60.0);
  CHECK(drawn_legs(shared.drawn).errors.empty());
  // A curve with less room than any turn needs is none: its corners stay corners.
  const Line small{{0.0, 0.0}, {0.0, 3.0}, {1.5, 6.0}, {4.5, 7.5}, {200.0, 7.5}};
  const LineCorners not_one = corners_of(small, 0.1);
  CHECK(not_one.recognised == 0);
  CHECK(not_one.drawn.points.size() == 5);
  // A stretch too short for any turn: the drawn route says so.
  const LineCorners none = corners_of({{0.0, 0.0}, {0.0, 400.0}, {3.0, 400.0}, {3.0, 800.0}}, 0.1);
  CHECK(!drawn_legs(none.drawn).errors.empty());
}

TEST_CASE("measured lines: slight bends are straightened, and how far that leads off is said") {
  // 3 degrees, 20 m off the straight from end to end; then a true corner.
  const Line line{{0.0, 0.0}, {0.0, 800.0}, {42.0, 1600.0}, {800.0, 1600.0}};
  const LineCorners found = corners_of(line, 1.0);
  CHECK(found.straightened == 1);
  REQUIRE(found.drawn.points.size() == 3);
  CHECK(found.deviation_m == doctest::Approx(21.0).epsilon(0.01));
  CHECK(drawn_legs(found.drawn).errors.empty());
}

TEST_CASE("measured lines: doubled points, a line there and back, and more corners than fit") {
  const LineCorners doubled = corners_of({{0.0, 0.0}, {0.0, 0.0}, {0.0, 50.0}, {0.0, 50.0}}, 1.0);
  CHECK(doubled.drawn.points.size() == 2);
  CHECK(doubled.simplified_to == 2);
  // Back on itself: the turning point is kept, and the drawn route refuses it.
  const LineCorners back = corners_of({{0.0, 0.0}, {0.0, 500.0}, {0.0, 100.0}}, 1.0);
  REQUIRE(back.drawn.points.size() == 3);
  CHECK(drawn_legs(back.drawn).errors[0].fault == DrawnFault::TurnTooSharp);
  const auto stairs = [](int count) {
    Line line;
    for (int i = 0; i < count; ++i) line.push_back({100.0 * ((i + 1) / 2), 100.0 * (i / 2)});
    return line;
  };
  const LineCorners many = corners_of(stairs(60), 1.0);
  CHECK(many.too_many);
  CHECK(many.corners_needed == 58);
  const LineCorners far_too_many = corners_of(stairs(500), 1.0);
  CHECK(far_too_many.too_many);
  CHECK(far_too_many.corners_needed == 498);
}
