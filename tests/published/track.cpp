// Where the main gear runs when the cockpit is kept on the line, and the tightest turn.
#include "physics/path/track.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Origin;

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
  const char* const place = "pp. 247-249, eqs 6-9, 6-11, 6-12";
  check({.what = "greatest lag, deg",
         .source = kHandbook,
         .place = place,
         .expected = 29.0,
         .got = degrees(lag),
         .tolerance = 0.5,
         .worked = true});
  check({.what = "greatest lag, deg, unrounded",
         .source = kHandbook,
         .place = "eq. 6-9, asin(d/R)",
         .origin = Origin::Identity,
         .expected = 28.729,
         .got = degrees(lag),
         .tolerance = 0.0005});
  check({.what = "main-gear radius, ft",
         .source = kHandbook,
         .place = "eq. 6-11",
         .origin = Origin::Identity,
         .expected = 131.54,
         .got = gear,
         .tolerance = 0.005,
         .worked = true});
  check({.what = "off-tracking, ft",
         .source = kHandbook,
         .place = "eq. 6-11",
         .origin = Origin::Identity,
         .expected = 18.46,
         .got = 150.0 - gear,
         .tolerance = 0.005,
         .worked = true});
  check({.what = "fillet radius, ft",
         .source = kHandbook,
         .place = "example 6-3; its own formula gives 99.1 to 99.4, so the print is about 1 ft off",
         .expected = 100.1,
         .got = gear - 0.5 * 34.25 - 15.0,
         .tolerance = 1.1,
         .worked = true});
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
         .expected = 68.0,
         .got = low - 72.1,
         .tolerance = 0.6,
         .worked = true});
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
           .origin = Origin::Derived,
           .expected = row.lag_deg,
           .got = degrees(lag),
           .tolerance = 0.0005});
    check({.what = "radial deviation, m",
           .source = kTractrix,
           .place = "28 m behind a point on a 60 m arc",
           .origin = Origin::Derived,
           .expected = row.off_tracking_m,
           .got = 60.0 - gear_radius(60.0, 28.0, lag),
           .tolerance = 0.00006});
  }
  check({.what = "steady deviation, m",
         .source = kTractrix,
         .place = "28 m behind a point on a 60 m circle",
         .origin = Origin::Derived,
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
           .origin = Origin::Derived,
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
           .origin = Origin::Derived,
           .expected = row.lag_deg,
           .got = degrees(lag),
           .tolerance = 0.00006});
    check({.what = "deviation on a straight, m",
           .source = kTractrix,
           .place = "45 deg at the start, 28 m",
           .origin = Origin::Derived,
           .expected = row.deviation_m,
           .got = 28.0 * std::sin(lag),
           .tolerance = 0.0006});
  }
}

TEST_CASE("track: greatest deviation over a whole turn") {
  check({.what = "greatest deviation, m",
         .source = "Dragging a bar step by step along the line, computed apart",
         .place = "60 m, 90 deg, 28 m",
         .origin = Origin::Derived,
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
             .origin = Origin::Derived,
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
           .expected = row.inner,
           .got = turn.inner_main_wheel_m,
           .tolerance = 0.6,
           .worked = true});
    check({.what = row.what,
           .source = "AASHTO, Geometric Design of Highways and Streets, turning of design vehicles",
           .place = "outer radius, ft",
           .expected = row.outer,
           .got = turn.wing_tip_m,
           .tolerance = 0.6,
           .worked = true});
    const double gear = gear_radius(row.centre_radius, row.wheelbase,
                                    steady_lag_rad(row.centre_radius, row.wheelbase));
    check({.what = row.what,
           .source = "AASHTO, Geometric Design of Highways and Streets, 7th ed. 2018",
           .place = "3.3.9, R - sqrt(R^2 - L^2), ft",
           .origin = Origin::Identity,
           .expected = row.centre_radius - std::sqrt(row.centre_radius * row.centre_radius -
                                                     row.wheelbase * row.wheelbase),
           .got = row.centre_radius - gear,
           .tolerance = 1e-9});
  }
}

TEST_CASE("track: turning radii by nose-wheel angle of a large twin") {
  // The drawing puts the turning centre 0.61 m ahead of the main gear (steered rear axles). From
  // memory: wheelbase 25.88 m. Fitted: wheel span 12.86 m, nose gear's outer tyre 0.65 m beside its
  // middle, nose tip 31.78 m ahead; wing and tail tips, each from its first and last row alone.
  // Printed to 0.1 m from whole feet (0.15 m): tolerance 0.25 m for all nine rows.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.88;
  aircraft.turn_axis_ahead_m = 0.61;
  aircraft.wheel_span_m = 12.86;
  aircraft.nose_tip_ahead_m = 31.78;
  aircraft.wing_span_m = 2.0 * 30.97;
  aircraft.wing_tip_behind_m = 8.59;
  aircraft.tailplane_span_m = 2.0 * 11.02;
  aircraft.tail_behind_m = 31.69;
  struct Row {
    double angle_deg, inner, outer, nose_gear, wing, nose_tip, tail;
  };
  for (const Row& row :
       {Row{30.0, 37.5, 50.3, 51.3, 75.3, 53.8, 63.6},
        Row{35.0, 29.7, 42.6, 44.8, 67.6, 47.8, 57.1},
        Row{40.0, 23.7, 36.6, 40.0, 61.7, 43.4, 52.2},
        Row{45.0, 18.9, 31.7, 36.4, 56.9, 40.2, 48.5},
        Row{50.0, 14.8, 27.7, 33.7, 52.9, 37.7, 45.6},
        Row{55.0, 11.2, 24.1, 31.5, 49.5, 35.8, 43.2}, Row{60.0, 8.1, 21.0, 29.9, 46.5, 34.4, 41.2},
        Row{65.0, 5.3, 18.2, 28.6, 43.7, 33.3, 39.5},
        Row{70.0, 2.7, 15.6, 27.6, 41.2, 32.5, 38.1}}) {
    const TightestTurn turn = tightest_turn(aircraft, radians(row.angle_deg));
    struct Part {
      const char* what;
      double expected, got;
    };
    for (const Part& part : {Part{"inner main wheel, m", row.inner, turn.inner_main_wheel_m},
                             Part{"outer main wheel, m", row.outer, turn.outer_main_wheel_m},
                             Part{"outer nose tyre, m", row.nose_gear, turn.nose_gear_m + 0.65},
                             Part{"wing tip, m", row.wing, turn.wing_tip_m},
                             Part{"nose tip, m", row.nose_tip, turn.nose_tip_m},
                             Part{"tail, m", row.tail, turn.tail_m}}) {
      check({.what = part.what,
             .source = kDataBook,
             .place = "p. 184, fig. 11.13, turning radii",
             .expected = part.expected,
             .got = part.got,
             .tolerance = 0.25,
             .worked = true});
    }
  }
}

TEST_CASE("track: nose-gear radius by nose-wheel angle") {
  // Geometric wheelbase 25.88 m (from memory): within +0.9 and -0.3 % of all nine printed rows.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.88;
  struct Row {
    double angle_deg, radius;
  };
  for (const Row& row :
       {Row{30.0, 51.3}, Row{35.0, 44.8}, Row{40.0, 40.0}, Row{45.0, 36.4}, Row{50.0, 33.7},
        Row{55.0, 31.5}, Row{60.0, 29.9}, Row{65.0, 28.6}, Row{70.0, 27.6}}) {
    check({.what = "nose-gear radius, m",
           .source = kDataBook,
           .place = "pp. 184-185, turning radii",
           .expected = row.radius,
           .got = tightest_turn(aircraft, radians(row.angle_deg)).nose_gear_m,
           .tolerance = 0.009 * row.radius,
           .worked = true});
  }
}

TEST_CASE("track: pavement for half a circle") {
  // Two lengths of a large twin at an effective angle of 64 deg, with the printed nose radius.
  struct Row {
    double wheelbase_m, nose_radius_m, width_m;
  };
  for (const Row& row : {Row{25.3, 29.0, 47.5}, Row{30.6, 34.0, 55.4}}) {
    Aircraft aircraft;
    aircraft.wheelbase_m = row.wheelbase_m;
    aircraft.wheel_span_m = 12.86;
    check({.what = "pavement for 180 deg, m",
           .source = kDataBook,
           .place = "p. 185, minimum pavement width for a continuous turn",
           .expected = row.width_m,
           .got = row.nose_radius_m + tightest_turn(aircraft, radians(64.0)).outer_main_wheel_m,
           .tolerance = 0.3,
           .worked = true});
  }
  // Whole width from the core for the shorter one, the outer nose tyre 0.65 m beside the middle.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.3;
  aircraft.wheel_span_m = 12.86;
  aircraft.nose_wheel_span_m = 1.3;
  check({.what = "pavement for 180 deg, all computed, m",
         .source = kDataBook,
         .place = "p. 185, minimum pavement width for a continuous turn",
         .expected = 47.5,
         .got = tightest_turn(aircraft, radians(64.0)).half_circle_width_m,
         .tolerance = 0.3,
         .worked = true});
}

TEST_CASE("track: turn radius of the handbook and of vehicle practice") {
  Aircraft aircraft;
  aircraft.wheelbase_m = 30.0;
  aircraft.wheel_span_m = 12.0;
  const TightestTurn turn = tightest_turn(aircraft, radians(50.0));
  check({.what = "radius of a 180 deg turn, m",
         .source = kHandbook,
         .place = "p. 58, eq. 2-1: w tan(90 - beta) + t/2",
         .origin = Origin::Identity,
         .expected = 30.0 * std::tan(radians(40.0)) + 6.0,
         .got = turn.outer_main_wheel_m,
         .tolerance = 1e-9});
  check({.what = "nose-gear radius, m",
         .source = "SAE J695, reaffirmed 1998",
         .place = "turning radius = wheelbase / sin(angle)",
         .origin = Origin::Identity,
         .expected = 30.0 / std::sin(radians(50.0)),
         .got = turn.nose_gear_m,
         .tolerance = 1e-9});
  check({.what = "nose-wheel angle for a lag of 25 deg with the eye 34 m ahead, deg",
         .source = kHandbook,
         .place = "p. 249, atan((w/d) tan A)",
         .origin = Origin::Identity,
         .expected = degrees(std::atan(30.0 / 34.0 * std::tan(radians(25.0)))),
         .got = degrees(nose_wheel_angle_rad(radians(25.0), 34.0, 30.0)),
         .tolerance = 1e-10});
  check({.what = "main-gear radius at 45 deg, m",
         .source = "ICAO Annex 14 Vol I, 3.3.5 (45 deg as design nose-wheel angle)",
         .place = "equal to the wheelbase",
         .origin = Origin::FromMemory,
         .expected = 30.0,
         .got = tightest_turn(aircraft, radians(45.0)).gear_axis_m,
         .tolerance = 1e-9});
}
