// Circular curves between straights and the simplification of lines, against worked examples.
#include "physics/path/drawn_route.hpp"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <vector>

#include "physics/numerics/units.hpp"
#include "physics/path/drawn_line.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

double radians(double degrees, double minutes = 0.0) {
  return units::radians_from_degrees(degrees + minutes / 60.0);
}

// Two stretches of 1 000 m that cross at that angle.
DrawnRoute one_corner(double radius_m, double turn_rad) {
  DrawnRoute drawn;
  DrawnPoint point;
  point.turn.radius_m = radius_m;
  point.at = {0.0, -1000.0};
  drawn.points.push(point);
  point.at = {};
  drawn.points.push(point);
  point.at = moved({}, turn_rad, 1000.0);
  drawn.points.push(point);
  return drawn;
}

}  // namespace

TEST_CASE("drawn routes: a simple curve of a surveying course") {
  // Tangents N 65 30' E and S 85 10' E meet, radius 249.17 m: I = 29 deg 20'.
  constexpr const char* kSource = "Horizontal Curves 1, surveying course, solutions (homework)";
  constexpr const char* kPlace = "situation 1";
  const double turn_rad = radians(180.0) - (radians(85.0, 10.0) + radians(65.0, 30.0));
  const DrawnRoute drawn = one_corner(249.17, turn_rad);
  const DrawnLegs made = drawn_legs(drawn);
  REQUIRE(made.errors.empty());
  const Leg& arc = made.legs[1];
  const double tangent_m = tangent_length_m(arc);
  const RoutePlace begin{.at = moved({}, 0.0, -tangent_m), .heading_rad = 0.0};
  const PlanePoint middle = place_on_leg(arc, begin, 0.5 * leg_length_m(arc)).at;
  const PlanePoint end = place_on_leg(arc, begin, leg_length_m(arc)).at;
  struct Part {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Part& part :
       {Part{"tangent distance, m", 65.2136, tangent_m, 5e-5},
        Part{"the tangent that the straight before is shorter by, m", 65.2136,
             1000.0 - made.legs[0].length_m, 5e-5},
        Part{"long chord, m", 126.1773, distance_between_m(begin.at, end), 5e-5},
        Part{"middle ordinate, m", 8.119, distance_to_stretch_m(middle, begin.at, end), 5e-4},
        Part{"radius that leaves that tangent, m", 249.17, largest_radius_m(arc, 65.2136),
             5e-5 / std::tan(0.5 * turn_rad)}}) {
    check({.what = part.what,
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = part.expected,
           .got = part.got,
           .tolerance = part.tolerance});
  }
  // One chord of the whole arc is off by the middle ordinate: two halves of it are not needed.
  check({.what = "chords that stay within the middle ordinate",
         .source = kSource,
         .place = kPlace,
         .kind = Kind::Numerics,
         .expected = 1.0,
         .got = static_cast<double>(chords_of_leg(arc, 8.1192)),
         .tolerance = 0.0});
  check({.what = "chords that stay within a little less",
         .source = kSource,
         .place = kPlace,
         .kind = Kind::Numerics,
         .expected = 2.0,
         .got = static_cast<double>(chords_of_leg(arc, 8.1190)),
         .tolerance = 0.0});
}

TEST_CASE("drawn routes: a road of two curves, station by station") {
  // Bearings 53 30', 79 00' and, after 103 30' the other way round, with D = 8 degrees a curve
  // (R = 716.20 ft). Stations of begin and end of both curves; the hundredths of the first tangent
  // are cut off in print. Feet are taken for metres: the plane does not know.
  constexpr const char* kSource = "Curve data worksheet, two curves of 8 degrees (homework)";
  constexpr const char* kPlace = "PC, PT and end of the road";
  struct Curve {
    double turn_deg, tangent, length;
  };
  for (const Curve& curve : {Curve{25.5, 162.06, 318.75}, Curve{103.5, 908.50, 1293.75}}) {
    const DrawnLegs made = drawn_legs(one_corner(716.20, radians(curve.turn_deg)));
    REQUIRE(made.legs.size() == 3);
    // The printed radius is good to 0.005, the second tangent was rounded up to the half foot's
    // hundredth (908.496 with that radius).
    check({.what = "tangent distance, ft",
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = curve.tangent,
           .got = 1000.0 - made.legs[0].length_m,
           .tolerance = 0.005 + 0.005 * std::tan(0.5 * radians(curve.turn_deg))});
    check({.what = "length of the curve, ft",
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = curve.length,
           .got = leg_length_m(made.legs[1]),
           .tolerance = 0.005 + 0.005 * radians(curve.turn_deg)});
  }
  // The way back: points of a route with those legs are a tangent and a straight apart.
  TaxiRoute route;
  route.legs.push({.kind = LegKind::Straight, .length_m = 1087.94});
  route.legs.push({.kind = LegKind::Arc, .radius_m = 716.20, .turn_rad = radians(25.5)});
  route.legs.push({.kind = LegKind::Straight, .length_m = 96.5});
  route.legs.push({.kind = LegKind::Arc, .radius_m = 716.20, .turn_rad = radians(103.5)});
  route.legs.push({.kind = LegKind::Straight, .length_m = 66.5});
  const DrawnFromRoute there = drawn_from_route(route);
  REQUIRE(there.drawn.points.size() == 4);
  const auto stretch = [&](std::size_t i) {
    return distance_between_m(there.drawn.points[i].at, there.drawn.points[i + 1].at);
  };
  const std::array<double, 3> printed{1250.0, 162.06 + 96.5 + 908.50, 908.50 + 66.50};
  for (std::size_t i = 0; i < printed.size(); ++i) {
    check({.what = "from one point of intersection to the next, ft",
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = printed[i],
           .got = stretch(i),
           .tolerance = 0.015});
  }
}

TEST_CASE("drawn routes: plane headings and distances of whole triangles") {
  // The 3-4-5 triangle of the Elements' converse (I.48), by headings of a quarter circle.
  constexpr const char* kSource = "Euclid, Elements, book I";
  const PlanePoint corner = moved(moved({}, 0.0, 3.0), radians(90.0), 4.0);
  check({.what = "hypotenuse of 3 and 4",
         .source = kSource,
         .place = "proposition 47",
         .kind = Kind::Numerics,
         .expected = 5.0,
         .got = distance_between_m({}, corner),
         .tolerance = 1e-14});
  check({.what = "angles of the triangle, deg",
         .source = kSource,
         .place = "proposition 32",
         .kind = Kind::Numerics,
         .expected = 180.0,
         .got = units::degrees_from_radians(heading_to_rad({}, corner) +
                                            (radians(90.0) - heading_to_rad({}, corner))) +
                90.0,
         .tolerance = 1e-12});
}

TEST_CASE("measured lines: the simplification of a published line") {
  constexpr const char* kSource =
      "Ramer-Douglas-Peucker line simplification, task of a code collection (post)";
  const std::vector<PlanePoint> line{{0.0, 0.0}, {1.0, 0.1}, {2.0, -0.1}, {3.0, 5.0}, {4.0, 6.0},
                                     {5.0, 7.0}, {6.0, 8.1}, {7.0, 9.0},  {8.0, 9.0}, {9.0, 9.0}};
  std::vector<unsigned char> kept(line.size());
  const std::size_t count = simplify_line(line, 1.0, kept);
  check({.what = "points that remain",
         .source = kSource,
         .place = "task, threshold 1.0",
         .kind = Kind::Numerics,
         .expected = 5.0,
         .got = static_cast<double>(count),
         .tolerance = 0.0});
  const std::vector<PlanePoint> printed{
      {0.0, 0.0}, {2.0, -0.1}, {3.0, 5.0}, {7.0, 9.0}, {9.0, 9.0}};
  double off = 0.0;
  std::size_t at = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (kept[i] == 0 || at >= printed.size()) continue;
    off += distance_between_m(line[i], printed[at++]);
  }
  check({.what = "distance of the points that remain from those printed",
         .source = kSource,
         .place = "task, threshold 1.0",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = off,
         .tolerance = 0.0});
  // The same line as corners of a route, scaled up.
  std::vector<PlanePoint> large = line;
  for (PlanePoint& point : large) point = {100.0 * point.east_m, 100.0 * point.north_m};
  const LineCorners found = line_corners(large, 100.0, 20.0, kept);
  check({.what = "points that the corners are sought in",
         .source = kSource,
         .place = "task, threshold 1.0, a hundred times as large",
         .kind = Kind::Numerics,
         .expected = 5.0,
         .got = static_cast<double>(found.simplified_to),
         .tolerance = 0.0});
}
