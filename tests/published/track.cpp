// Where the main gear runs when the cockpit is kept on the line, and the tightest turn.
#include "physics/path/track.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/plan_motion.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";
constexpr const char* kTractrix = "Equation of the tractrix integrated apart (Runge-Kutta 4)";
constexpr const char* kDataBook = "Matthews, Aeronautical Engineer's Data Book, 2002";

double degrees(double radians) { return units::degrees_from_radians(radians); }
double radians(double value) { return units::radians_from_degrees(value); }

// Lag after so long an arc that it no longer changes.
double steady_lag_rad(double radius, double length) {
  return lag_after_m(0.0, length, 1.0 / radius, 60.0 * radius);
}

double gear_radius(double radius, double length, double lag_rad) {
  return std::sqrt(radius * radius + length * length - 2.0 * radius * length * std::sin(lag_rad));
}

}  // namespace

TEST_CASE("track: fillet example of the handbook") {
  // R 150 ft, cockpit 72.1 ft ahead, wheel span 34.25 ft, margin 15 ft, taxiway 75 ft. Feet all
  // through: the geometry has no unit.
  const double lag = steady_lag_rad(150.0, 72.1);
  const double gear = gear_radius(150.0, 72.1, lag);
  check({.what = "greatest lag, deg, unrounded",
         .source = kHandbook,
         .place = "eq. 6-9, asin(d/R)",
         .kind = Kind::Formula,
         .expected = 28.729,
         .got = degrees(lag),
         .tolerance = 0.0005});
  check({.what = "main-gear radius, ft",
         .source = kHandbook,
         .place = "eq. 6-11",
         .kind = Kind::Formula,
         .expected = 131.54,
         .got = gear,
         .tolerance = 0.005});
  check({.what = "off-tracking, ft",
         .source = kHandbook,
         .place = "eq. 6-11",
         .kind = Kind::Formula,
         .expected = 18.46,
         .got = 150.0 - gear,
         .tolerance = 0.005});
  // Lead-in: the straight that brings the deviation back to what the taxiway leaves. Measured for
  // the main gear, so the cockpit has gone one length more. The book starts from its rounded 29 deg
  // and takes sines for angles at the end, which is worth 0.1 ft: tolerance half a foot and that.
  const double left_over = (75.0 - 34.25 - 2.0 * 15.0) / 2.0;
  double low = 0.0, high = 300.0;
  for (int k = 0; k < 60; ++k) {
    const double middle = 0.5 * (low + high);
    const double deviation = 72.1 * std::sin(lag_after_m(radians(29.0), 72.1, 0.0, middle));
    (deviation > left_over ? low : high) = middle;
  }
  check({.what = "lead-in, ft",
         .source = kHandbook,
         .place = "eq. 6-12, L = 68 ft",
         .kind = Kind::Worked,
         .expected = 68.0,
         .got = low - 72.1,
         .tolerance = 0.6});
}

TEST_CASE("track: lag on the way round an arc") {
  struct Row {
    double turn_deg, lag_deg, off_tracking_m;
  };
  for (const Row& row :
       {Row{30.0, 18.121, 2.2161}, Row{60.0, 24.314, 5.2228}, Row{90.0, 26.532, 6.3055},
        Row{120.0, 27.343, 6.7019}, Row{180.0, 27.753, 6.9022}}) {
    const double lag = lag_after_m(0.0, 28.0, 1.0 / 60.0, 60.0 * radians(row.turn_deg));
    check({.what = "lag, deg",
           .source = kTractrix,
           .place = "28 m behind a point on a 60 m arc",
           .kind = Kind::Own,
           .expected = row.lag_deg,
           .got = degrees(lag),
           .tolerance = 0.0005});
    check({.what = "radial deviation, m",
           .source = kTractrix,
           .place = "28 m behind a point on a 60 m arc",
           .kind = Kind::Own,
           .expected = row.off_tracking_m,
           .got = 60.0 - gear_radius(60.0, 28.0, lag),
           .tolerance = 0.00006});
  }
  check({.what = "steady deviation, m",
         .source = kTractrix,
         .place = "28 m behind a point on a 60 m circle",
         .kind = Kind::Own,
         .expected = 6.9340,
         .got = 60.0 - gear_radius(60.0, 28.0, steady_lag_rad(60.0, 28.0)),
         .tolerance = 0.00006});
}

TEST_CASE("track: arcs no larger than the length, and the way back on a straight") {
  struct Arc {
    double radius_m, turn_deg, lag_deg;
  };
  for (const Arc& row :
       {Arc{28.0, 90.0, 47.4895}, Arc{25.0, 60.0, 39.7374}, Arc{20.0, 90.0, 56.6145}}) {
    check({.what = "lag, deg",
           .source = kTractrix,
           .place = "radius at or below the length of 28 m",
           .kind = Kind::Own,
           .expected = row.lag_deg,
           .got = degrees(
               lag_after_m(0.0, 28.0, 1.0 / row.radius_m, row.radius_m * radians(row.turn_deg))),
           .tolerance = 0.00006});
  }
  struct Straight {
    double travel_m, lag_deg, deviation_m;
  };
  for (const Straight& row : {Straight{14.0, 28.2055, 13.234}, Straight{28.0, 17.3282, 8.340},
                              Straight{56.0, 6.4170, 3.129}, Straight{84.0, 2.3628, 1.154},
                              Straight{112.0, 0.8693, 0.425}}) {
    const double lag = lag_after_m(radians(45.0), 28.0, 0.0, row.travel_m);
    check({.what = "lag on a straight, deg",
           .source = kTractrix,
           .place = "45 deg at the start, 28 m",
           .kind = Kind::Own,
           .expected = row.lag_deg,
           .got = degrees(lag),
           .tolerance = 0.00006});
    check({.what = "deviation on a straight, m",
           .source = kTractrix,
           .place = "45 deg at the start, 28 m",
           .kind = Kind::Own,
           .expected = row.deviation_m,
           .got = 28.0 * std::sin(lag),
           .tolerance = 0.0006});
  }
}

TEST_CASE("track: greatest deviation over a whole turn") {
  check({.what = "greatest deviation, m",
         .source = "Dragging a bar step by step along the line, computed apart",
         .place = "60 m, 90 deg, 28 m",
         .kind = Kind::Own,
         .expected = 6.401,
         .got = largest_off_tracking_m(60.0, radians(90.0), 28.0),
         .tolerance = 0.0006});
  constexpr double kTurns_deg[] = {30.0, 45.0, 60.0, 90.0, 120.0, 135.0, 150.0, 180.0};
  struct Row {
    double ratio;
    double deviation[8];
  };
  const Row rows[] = {{1.00, {.1652, .2312, .2888, .3839, .4589, .4905, .5190, .5680}},
                      {1.10, {.1625, .2255, .2793, .3651, .4291, .4549, .4774, .5142}},
                      {1.25, {.1585, .2173, .2658, .3392, .3896, .4085, .4243, .4481}},
                      {1.50, {.1521, .2043, .2451, .3014, .3350, .3463, .3549, .3664}},
                      {2.00, {.1402, .1811, .2096, .2422, .2569, .2608, .2633, .2660}},
                      {2.50, {.1294, .1613, .1808, .1995, .2058, .2071, .2078, .2084}},
                      {3.00, {.1196, .1443, .1576, .1681, .1707, .1712, .1714, .1715}},
                      {4.00, {.1027, .1172, .1232, .1265, .1269, .1270, .1270, .1270}},
                      {5.00, {.0889, .0973, .0999, .1009, .1010, .1010, .1010, .1010}}};
  for (const Row& row : rows) {
    for (int k = 0; k < 8; ++k) {
      check({.what = "greatest deviation over length",
             .source = "Dragging a bar step by step along the line, computed apart",
             .place = "table by radius over length and turn angle",
             .kind = Kind::Own,
             .expected = row.deviation[k],
             .got = largest_off_tracking_m(row.ratio, radians(kTurns_deg[k]), 1.0),
             .tolerance = 0.00006});
    }
  }
}

TEST_CASE("track: off-tracking of road vehicles") {
  // AASHTO, A Policy on Geometric Design of Highways and Streets, 2018: U = u + R - sqrt(R^2 - L^2)
  // and the swept radii of design vehicles, ft. The printed radii are those of real vehicles with
  // overhangs: tolerance 0.6 ft.
  struct Row {
    const char* what;
    double wheelbase, centre_radius, width, inner, outer;
  };
  for (const Row& row : {Row{"passenger car", 11.0, 21.0, 7.0, 14.4, 23.8},
                         Row{"city bus", 25.0, 37.8, 8.5, 24.5, 41.6}}) {
    Aircraft vehicle;
    vehicle.wheelbase_m = row.wheelbase;
    vehicle.wheel_span_m = row.width;
    vehicle.wing_span_m = row.width;  // a "wing tip" abeam the front axle is the outer front corner
    vehicle.wing_tip_behind_m = -row.wheelbase;
    const TightestTurn turn = tightest_turn(vehicle, std::asin(row.wheelbase / row.centre_radius));
    check({.what = row.what,
           .source = "AASHTO, Geometric Design of Highways and Streets, turning of design vehicles",
           .place = "inner radius, ft",
           .kind = Kind::Own,
           .expected = row.inner,
           .got = turn.inner_main_wheel_m,
           .tolerance = 0.6});
    check({.what = row.what,
           .source = "AASHTO, Geometric Design of Highways and Streets, turning of design vehicles",
           .place = "outer radius, ft",
           .kind = Kind::Own,
           .expected = row.outer,
           .got = turn.wing_tip_m,
           .tolerance = 0.6});
    const double gear = gear_radius(row.centre_radius, row.wheelbase,
                                    steady_lag_rad(row.centre_radius, row.wheelbase));
    check({.what = row.what,
           .source = "AASHTO, Geometric Design of Highways and Streets, 7th ed. 2018",
           .place = "3.3.9, R - sqrt(R^2 - L^2), ft",
           .kind = Kind::Own,
           .expected = row.centre_radius - std::sqrt(row.centre_radius * row.centre_radius -
                                                     row.wheelbase * row.wheelbase),
           .got = row.centre_radius - gear,
           .tolerance = 1e-9});
  }
}

TEST_CASE("track: turning radii by nose-wheel angle of a large twin") {
  // The drawing puts the turning centre 0.61 m ahead of the main gear (steered rear axles). The
  // aircraft's dimensions are not printed: they are taken from the rows of 30 and of 70 degrees,
  // and the rows between are then predicted. Inner and outer wheel differ by the wheel span only,
  // so the outer column is left out. Printed from whole feet: half a foot and half of the last
  // digit, 0.2 m, on the row itself, and as much on the two rows that it is predicted from,
  // which it lies between: 0.25 m.
  struct Row {
    double angle_deg, inner, outer, nose_gear, wing, nose_tip, tail;
  };
  constexpr Row kFirst{30.0, 37.5, 50.3, 51.3, 75.3, 53.8, 63.6};
  constexpr Row kLast{70.0, 2.7, 15.6, 27.6, 41.2, 32.5, 38.1};
  const auto axis = [](const Row& row) { return 0.5 * (row.inner + row.outer); };
  // Turning axis to nose gear: axis radius x tan(angle), of the first row, where it is largest.
  const double to_nose_gear = axis(kFirst) * std::tan(radians(kFirst.angle_deg));
  const double first = axis(kFirst);
  const double last = to_nose_gear / std::tan(radians(kLast.angle_deg));
  // A tip at (x, y) from the axis's middle runs on hypot(axis + y, x): y and x from two rows.
  struct Tip {
    double side, along;
  };
  const auto tip = [&](double at_first, double at_last) {
    const double y = (at_first * at_first - at_last * at_last - first * first + last * last) /
                     (2.0 * (first - last));
    return Tip{y, std::sqrt(at_first * at_first - (first + y) * (first + y))};
  };
  const Tip wing = tip(kFirst.wing, kLast.wing);
  const Tip tail = tip(kFirst.tail, kLast.tail);
  const double tyre = kFirst.nose_gear - std::hypot(first, to_nose_gear);
  const double nose = std::sqrt(kFirst.nose_tip * kFirst.nose_tip - first * first);
  Aircraft aircraft;
  aircraft.turn_axis_ahead_m = 0.61;
  aircraft.wheelbase_m = to_nose_gear + 0.61;
  aircraft.wheel_span_m = kFirst.outer - kFirst.inner;
  aircraft.nose_tip_ahead_m = nose + 0.61;
  aircraft.wing_span_m = 2.0 * wing.side;
  aircraft.wing_tip_behind_m = wing.along - 0.61;
  aircraft.tailplane_span_m = 2.0 * tail.side;
  aircraft.tail_behind_m = tail.along - 0.61;
  for (const Row& row :
       {Row{35.0, 29.7, 42.6, 44.8, 67.6, 47.8, 57.1},
        Row{40.0, 23.7, 36.6, 40.0, 61.7, 43.4, 52.2},
        Row{45.0, 18.9, 31.7, 36.4, 56.9, 40.2, 48.5},
        Row{50.0, 14.8, 27.7, 33.7, 52.9, 37.7, 45.6},
        Row{55.0, 11.2, 24.1, 31.5, 49.5, 35.8, 43.2}, Row{60.0, 8.1, 21.0, 29.9, 46.5, 34.4, 41.2},
        Row{65.0, 5.3, 18.2, 28.6, 43.7, 33.3, 39.5}}) {
    const TightestTurn turn = tightest_turn(aircraft, radians(row.angle_deg));
    struct Part {
      const char* what;
      double expected, got;
    };
    for (const Part& part : {Part{"inner main wheel, m", row.inner, turn.inner_main_wheel_m},
                             Part{"outer nose tyre, m", row.nose_gear, turn.nose_gear_m + tyre},
                             Part{"wing tip, m", row.wing, turn.wing_tip_m},
                             Part{"nose tip, m", row.nose_tip, turn.nose_tip_m},
                             Part{"tail, m", row.tail, turn.tail_m}}) {
      check({.what = part.what,
             .source = kDataBook,
             .place = "p. 184, fig. 11.13, turning radii",
             .kind = Kind::Worked,
             .expected = part.expected,
             .got = part.got,
             .tolerance = 0.25});
    }
  }
}

TEST_CASE("track: turning radius by nose-wheel angle of a narrow twin") {
  // Radii of the inner main wheel and of the tail, feet. Wheelbase and half the wheel span from the
  // inner wheel's rows of 30 and 75 degrees; the rest predicted. Printed to a tenth, and as much
  // again from the rows that the dimensions come from: 0.15 ft.
  constexpr const char* kManual = "Ground maneuvering, section 4.2 of a planning manual [...]";
  const double slope = 1.0 / std::tan(radians(30.0)) - 1.0 / std::tan(radians(75.0));
  const double wheelbase_ft = (67.5 - 3.5) / slope;
  const double half_span_ft = wheelbase_ft / std::tan(radians(30.0)) - 67.5;
  // The tail's place from its rows of 30 and 82 degrees, 108.0 and 58.5 ft.
  const double first = wheelbase_ft / std::tan(radians(30.0));
  const double last = wheelbase_ft / std::tan(radians(82.0));
  const double side =
      (108.0 * 108.0 - 58.5 * 58.5 - first * first + last * last) / (2.0 * (first - last));
  Aircraft aircraft;
  aircraft.wheelbase_m = wheelbase_ft;  // the geometry has no unit
  aircraft.wheel_span_m = 2.0 * half_span_ft;
  aircraft.turn_axis_ahead_m = 0.0;
  aircraft.tailplane_span_m = 2.0 * side;
  aircraft.tail_behind_m = std::sqrt(108.0 * 108.0 - (first + side) * (first + side));
  struct Row {
    double angle_deg, inner_ft, tail_ft;
  };
  for (const Row& row : {Row{45.0, 35.5, 81.7}, Row{50.0, 28.5, 76.5}, Row{55.0, 22.4, 72.3},
                         Row{60.0, 17.0, 68.8}, Row{65.0, 12.2, 65.8}, Row{70.0, 7.7, 63.3}}) {
    const TightestTurn turn = tightest_turn(aircraft, radians(row.angle_deg));
    struct Part {
      const char* what;
      double expected, got;
    };
    for (const Part& part : {Part{"inner main wheel, ft", row.inner_ft, turn.inner_main_wheel_m},
                             Part{"tail, ft", row.tail_ft, turn.tail_m}}) {
      check({.what = part.what,
             .source = kManual,
             .place = "turning radii without slip, by nose-wheel angle",
             .kind = Kind::Worked,
             .expected = part.expected,
             .got = part.got,
             .tolerance = 0.15});
    }
  }
}

TEST_CASE("track: turn radius of the handbook and of vehicle practice") {
  Aircraft aircraft;
  aircraft.wheelbase_m = 30.0;
  aircraft.wheel_span_m = 12.0;
  const TightestTurn turn = tightest_turn(aircraft, radians(50.0));
  check({.what = "radius of a 180 deg turn, m",
         .source = kHandbook,
         .place = "p. 58, eq. 2-1: w tan(90 - beta) + t/2",
         .kind = Kind::Formula,
         .expected = 30.0 * std::tan(radians(40.0)) + 6.0,
         .got = turn.outer_main_wheel_m,
         .tolerance = 1e-9});
  check({.what = "nose-gear radius, m",
         .source = "SAE J695, reaffirmed 1998",
         .place = "turning radius = wheelbase / sin(angle)",
         .kind = Kind::Formula,
         .expected = 30.0 / std::sin(radians(50.0)),
         .got = turn.nose_gear_m,
         .tolerance = 1e-9});
  check({.what = "nose-wheel angle for a lag of 25 deg with the eye 34 m ahead, deg",
         .source = kHandbook,
         .place = "p. 249, atan((w/d) tan A)",
         .kind = Kind::Formula,
         .expected = degrees(std::atan(30.0 / 34.0 * std::tan(radians(25.0)))),
         .got = degrees(nose_wheel_angle_rad(radians(25.0), 34.0, 30.0)),
         .tolerance = 1e-10});
  check({.what = "main-gear radius at 45 deg, m",
         .source = "ICAO Annex 14 Vol I, 3.3.5 (45 deg as design nose-wheel angle)",
         .place = "equal to the wheelbase",
         .kind = Kind::Own,
         .expected = 30.0,
         .got = tightest_turn(aircraft, radians(45.0)).gear_axis_m,
         .tolerance = 1e-9});
}

// Everything that follows was derived apart from this program, as plane kinematics of a rigid body
// whose one point follows the line, and computed apart from it; dense brute force agrees with it to
// 4e-11 m. Printed to 0.1 mm, 1e-4 deg: half of the last digit and a little for what is derived.
namespace {

constexpr const char* kEvents = "Plane kinematics of a followed point, computed apart";

// L 30, outer main wheels +-6.3, nose wheels +-0.45, tail (33 behind, +-10), wing tips (8 behind,
// +-31); the followed point takes the place of the eye.
Aircraft plain_aircraft(double followed_m) {
  Aircraft a;
  a.wheelbase_m = 30.0;
  a.eye_ahead_m = followed_m;
  a.wheel_span_m = 12.6;
  a.nose_wheel_span_m = 0.9;
  a.tail_behind_m = 33.0;
  a.tailplane_span_m = 20.0;
  a.wing_tip_behind_m = 8.0;
  a.wing_span_m = 62.0;
  a.steering_limit_rad = 1.4;
  return a;
}

TaxiRoute straight_arc_straight(double radius_m, double turn_deg, double width_m) {
  Leg straight;
  straight.length_m = 400.0;
  straight.width_m = width_m;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = radius_m;
  arc.turn_rad = radians(turn_deg);
  arc.width_m = width_m;
  TaxiRoute route;
  route.legs.clear();
  route.legs.push(straight);
  route.legs.push(arc);
  route.legs.push(straight);
  return route;
}

}  // namespace

TEST_CASE("track: where each wheel is furthest out, for any followed point") {
  struct Row {
    double followed_m, radius_m, turn_deg, steering_deg, nose_m, inside_m, tail_m, wing_m;
  };
  for (const Row& row : {Row{33, 45, 90, 35.9841, 0.4500, 10.5995, 16.7722, 31.1414},
                         Row{30, 45, 90, 35.9221, 0.4500, 9.0407, 16.9152, 31.1499},
                         Row{20, 45, 90, 35.4221, 5.4127, 4.3834, 17.5353, 31.1883},
                         Row{10, 45, 90, 34.3354, 8.5043, 1.1230, 18.4227, 31.2585},
                         Row{4, 45, 90, 33.7950, 9.3097, 0.1781, 18.9898, 31.3427},
                         Row{33, 45, 30, 19.7362, 0.4500, 5.1332, 14.6563, 31.1414},
                         Row{15, 45, 30, 28.5226, 5.4626, 1.7933, 16.6228, 31.2172},
                         Row{33, 60, 135, 30.1369, 0.4500, 9.4760, 15.1988, 31.1120},
                         Row{18, 60, 135, 27.6475, 5.0179, 2.7608, 16.1218, 31.1609},
                         Row{25, 30, 60, 39.8823, 3.3328, 6.7548, 19.2518, 31.2238},
                         Row{12, 80, 45, 20.6633, 4.9586, 0.8957, 15.2296, 31.1589},
                         Row{33, 33, 90, 44.7622, 0.4500, 12.6699, 19.0794, 31.1799}}) {
    const Aircraft aircraft = plain_aircraft(row.followed_m);
    const TaxiRoute route = straight_arc_straight(row.radius_m, row.turn_deg, 40.0);
    const TrackPlan plan = track_answer(aircraft, route, 1.0, 1, 4.0).eye_on_line;
    struct Part {
      const char* what;
      double expected, got;
    };
    for (const Part& part :
         {Part{"largest steering, deg", row.steering_deg, degrees(plan.steering_rad)},
          Part{"main-gear axis inside, m", row.inside_m, plan.gear_off_line_m},
          Part{"inner main wheel inside, m", row.inside_m + 6.3,
               20.0 - plan.margins.right_main.margin_m},
          Part{"tail outside, m", row.tail_m, plan.tail_swing_m},
          Part{"wing tip outside, m", row.wing_m, plan.wing_outside_m}}) {
      check({.what = part.what,
             .source = kEvents,
             .place = "wheelbase 30 m, followed point 4 to 33 m ahead, 12 turns",
             .kind = Kind::Own,
             .expected = part.expected,
             .got = part.got,
             .tolerance = 0.001});
    }
    // A nose gear behind the followed point runs inside, nearer the other edge.
    if (row.followed_m > aircraft.wheelbase_m) continue;
    check({.what = "outer nose wheel outside, m",
           .source = kEvents,
           .place = "wheelbase 30 m, followed point 4 to 30 m ahead",
           .kind = Kind::Own,
           .expected = row.nose_m,
           .got = 20.0 - plan.margins.nose.margin_m,
           .tolerance = 0.001});
  }
}

TEST_CASE("track: the inner main wheel at the end of the outbound lead-in") {
  struct Row {
    double followed_m, radius_m, turn_deg, corner_m;
  };
  // So wide inside of the arc that the place where the lead-in of 40 m ends is the narrowest.
  for (const Row& row :
       {Row{33, 45, 90, 8.8539}, Row{30, 45, 90, 8.2007}, Row{20, 45, 90, 6.7499},
        Row{10, 45, 90, 6.3152}, Row{4, 45, 90, 6.3000}, Row{33, 45, 30, 7.6802},
        Row{15, 45, 30, 6.4025}, Row{25, 30, 60, 7.4732}, Row{33, 33, 90, 9.5158}}) {
    TaxiRoute route = straight_arc_straight(row.radius_m, row.turn_deg, 25.0);
    route.legs[1].widening_m = 40.0;
    route.legs[1].lead_in_m = 40.0;
    const TrackPlan plan =
        track_answer(plain_aircraft(row.followed_m), route, 1.0, 1, 4.0).eye_on_line;
    check({.what = "inner main wheel inside at the lead-in's end, m",
           .source = kEvents,
           .place = "lead-in 40 m",
           .kind = Kind::Own,
           .expected = row.corner_m,
           .got = 12.5 - plan.margins.right_main.margin_m,
           .tolerance = 0.001});
  }
}

TEST_CASE("track: margins with the main gear and with the eye on the line, steered at once") {
  struct Row {
    double radius_m, turn_deg, width_m, widening_m, lead_in_m;
    double gear_nose_m, gear_inner_m, eye_inner_m;
  };
  for (const Row& row : {Row{45, 90, 25, 0, 0, 3.0417, 6.2000, -4.3995},
                         Row{45, 90, 25, 8, 40, 3.0417, 6.2000, 3.6005},
                         Row{45, 90, 23, 5, 30, 2.0417, 5.2000, -0.3995},
                         Row{60, 135, 25, 6, 50, 5.0152, 6.2000, 2.7240},
                         Row{45, 30, 23, 0, 0, 2.1391, 5.2000, 0.0668},
                         Row{35, 60, 25, 6, 30, 1.0597, 6.2000, 2.8617},
                         Row{80, 45, 23, 0, 0, 5.6385, 5.2000, -0.2151}}) {
    TaxiRoute route = straight_arc_straight(row.radius_m, row.turn_deg, row.width_m);
    route.legs[1].widening_m = row.widening_m;
    route.legs[1].lead_in_m = row.lead_in_m;
    Aircraft aircraft = plain_aircraft(33.0);
    aircraft.steering_rate_radps = 0.0;
    const TrackAnswer answer = track_answer(aircraft, route, 1.0, 1, 4.0);
    struct Part {
      const char* what;
      double expected, got;
    };
    for (const Part& part : {Part{"nose margin, gear on the line, m", row.gear_nose_m,
                                  answer.gear_on_line.margins.nose.margin_m},
                             Part{"inner margin, gear on the line, m", row.gear_inner_m,
                                  answer.gear_on_line.margins.right_main.margin_m},
                             Part{"inner margin, eye on the line, m", row.eye_inner_m,
                                  answer.eye_on_line.margins.right_main.margin_m}}) {
      check({.what = part.what,
             .source = kEvents,
             .place = "eye 33 m, wheelbase 30 m, with and without extra pavement",
             .kind = Kind::Own,
             .expected = part.expected,
             .got = part.got,
             .tolerance = 0.001});
    }
  }
}

TEST_CASE("track: nose wheels at a limited rate, main gear on the line") {
  const double per_second = radians(12.0);
  const GearOnLineTurn turn =
      gear_on_line_turn(40.0, radians(90.0), 30.0, 33.0, 1.4, per_second, 4.0);
  TaxiRoute route = straight_arc_straight(40.0, 90.0, 40.0);
  Aircraft aircraft = plain_aircraft(33.0);
  aircraft.steering_rate_radps = per_second;
  // The nose gear moves at 4 m/s.
  const TrackPlan plan =
      track_answer(aircraft, route, 1.0, 1, 4.0 * 40.0 / std::hypot(40.0, 30.0)).gear_on_line;
  struct Part {
    const char* what;
    double expected, got;
  };
  for (const Part& part :
       {Part{"steering, deg", 36.870, degrees(turn.steering_rad)},
        Part{"heading turned in a ramp, deg", 7.295, degrees(turn.ramp_heading_rad)},
        Part{"shift inwards, m", 0.1407, turn.shift_m},
        Part{"start before the arc, m", 6.5033, turn.start_before_arc_m},
        Part{"eye past the crossing, m", -13.5033, turn.eye_past_crossing_m},
        Part{"outer nose wheel outside, m", 10.2200, 20.0 - plan.margins.nose.margin_m}}) {
    check({.what = part.what,
           .source = kEvents,
           .place = "12 deg/s at 4 m/s of the nose gear",
           .kind = Kind::Own,
           .expected = part.expected,
           .got = part.got,
           .tolerance = 0.001});
  }
}

TEST_CASE("track: the parts of a plan, each by a number of its own") {
  // R 33, 90 deg, followed point 33 m ahead; and a ramped turn of the table above.
  TaxiRoute route = straight_arc_straight(33.0, 90.0, 40.0);
  route.legs[1].lead_in_m = 20.0;
  route.legs[1].widening_m = 4.0;
  const PaintedLine line = painted_line(route, 1);
  const double arc_m = 33.0 * radians(90.0);
  const CarriedLag lag = carried_lag(line, 33.0);
  const HalfLag half = half_lag_after_m({0.0, 1.0}, 33.0, 1.0 / 33.0, arc_m);
  const MotionPhases phases = phases_along_line(line, -10.0, arc_m + 116.0);
  const FollowedMotion motion{line, lag};
  const auto followed = plan_sweep(motion, phases);
  const GearOnLineTurn turn =
      gear_on_line_turn(40.0, radians(90.0), 30.0, 33.0, 1.4, radians(12.0), 4.0);
  const RampedMotion ramped{turn, 40.0, radians(90.0), 30.0, 1.0};
  const MotionPhases ramps = phases_of_ramps(turn, 0.0, 0.0);
  const LinePoint outbound{{40.0, 40.0}, radians(90.0)};
  const Point beside_arc{30.0 * std::sin(0.7), 33.0 - 30.0 * std::cos(0.7)};
  const Point beside_lead_in{33.0 - 5.0, 33.0 + 15.0};
  struct Part {
    const char* what;
    double expected, got;
  };
  for (const Part& part :
       {Part{"lag at the arc's end, deg", 47.4895, degrees(lag.at_begin_rad[line.turn + 1])},
        Part{"the same by its half, deg", 47.4895,
             2.0 * degrees(std::atan2(half.sine, half.cosine))},
        Part{"main-gear axis inside, m", 12.6699,
             followed.of_point(line, {0.0, 0.0}, Sought::Swing).most_right_m},
        Part{"outer nose wheel past the new centreline, ramped, m", 10.2200,
             plan_sweep(ramped, ramps).furthest_past_m(outbound, 1.0, {30.0, -0.45})},
        Part{"ramped turn, nose gear's way, m",
             2.0 * 36.870 / 3.0 + 50.0 * radians(90.0 - 2.0 * 7.295),
             ramps[ramps.size() - 1].end_m},
        Part{"end of the arc, m", 33.0, course_on_piece(line, line.turn, arc_m).point.y_m},
        Part{"beside the arc, m", 3.0,
             place_beside(line, piece_beside(line, beside_arc), beside_arc).from.offset_m},
        Part{"half width a quarter into the lead-in's last part, m", 20.0 + 1.0,
             place_beside(line, piece_beside(line, beside_lead_in), beside_lead_in)
                 .from.right_half_width_m},
        Part{"cos x = x", 0.739085,
             find_zero_between(
                 0.0, -1.0, 1.0, 1.0 - std::cos(1.0), [](double x) { return x - std::cos(x); },
                 1e-9)}}) {
    check({.what = part.what,
           .source = kEvents,
           .place = "R 33 m and 40 m, 90 deg",
           .kind = Kind::Own,
           .expected = part.expected,
           .got = part.got,
           .tolerance = 0.001});
  }
}
