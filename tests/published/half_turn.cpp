// 180 degrees on a given width: printed pavement widths, and the design angle of turn pads.
#include "physics/path/half_turn.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kDataBook = "Matthews, Aeronautical Engineer's Data Book, 2002";

double radians(double value) { return units::radians_from_degrees(value); }

}  // namespace

TEST_CASE("half turn: two lengths of a large twin") {
  // Effective steering 64 deg (70 at most, about 6 deg of tyre slip). X: nose gear to the turning
  // centre's line; A from outside to outside of the tyres. Wheel span 12.86 m and the nose gear's
  // outer tyre 0.65 m beside its middle, from the table of turning radii of the shorter aircraft;
  // both have the same gear. Feet rounded and half of the last digit: 0.2 m.
  struct Row {
    double x_m, y_m, width_m;
    const char* because;
  };
  for (const Row& row : {Row{25.3, 12.2, 47.5, ""},
                         Row{30.6, 14.9, 55.4,
                             "the printed row closes on the middle of the nose gear, without "
                             "half its tyres' width"}}) {
    Aircraft aircraft;
    aircraft.wheelbase_m = row.x_m;
    aircraft.wheel_span_m = 12.86;
    aircraft.nose_wheel_span_m = 1.3;
    aircraft.steering_limit_rad = radians(64.0);
    const HalfTurn half = half_turn(aircraft, Limits{}, 0.0);
    check({.what = "radius of the main gear's middle, m",
           .source = kDataBook,
           .place = "p. 185, fig. 11.14, minimum pavement width for a 180 deg turn",
           .kind = Kind::Worked,
           .expected = row.y_m,
           .got = half.gear_radius_m,
           .tolerance = 0.2});
    check({.what = "pavement, tyre to tyre, m",
           .source = kDataBook,
           .place = "p. 185, fig. 11.14, minimum pavement width for a 180 deg turn",
           .kind = Kind::Worked,
           .expected = row.width_m,
           .got = half.bare_m,
           .tolerance = 0.2,
           .differs_because = row.because});
  }
}

TEST_CASE("half turn: the longer twin with and without slip of its nose tyres") {
  // One book has its nose at 39.4 m with 64 degrees effective, turning centre 14.9 m beside and
  // 30.6 m behind the nose gear; another at 125 ft with the 70 degrees of the hardware. The nose's
  // place follows from the first.
  Aircraft aircraft;
  aircraft.wheelbase_m = 30.6;
  aircraft.nose_tip_ahead_m = std::sqrt(39.4 * 39.4 - 14.9 * 14.9);
  aircraft.steering_limit_rad = radians(70.0);
  check({.what = "nose tip without slip, m",
         .source = "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010",
         .place = "p. 60, Table 2-3: 125 ft at 70 deg",
         .kind = Kind::Worked,
         .expected = 38.1,
         .got = half_turn(aircraft, Limits{}, 0.0).nose_tip_radius_m,
         .tolerance = 0.2});
}

TEST_CASE("half turn: radii of the tips at 64 degrees") {
  // Wing and tail tips from the table of turning radii of the same aircraft.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.88;
  aircraft.turn_axis_ahead_m = 0.61;
  aircraft.steering_limit_rad = radians(64.0);
  aircraft.wing_span_m = 2.0 * 30.97;
  aircraft.wing_tip_behind_m = 8.59;
  aircraft.tailplane_span_m = 2.0 * 11.02;
  aircraft.tail_behind_m = 31.69;
  aircraft.nose_tip_ahead_m = 31.78;
  const HalfTurn half = half_turn(aircraft, Limits{}, 0.0);
  struct Part {
    const char* what;
    double expected, got;
  };
  for (const Part& part : {Part{"wing tip, m", 44.2, half.wing_tip_radius_m},
                           Part{"nose tip, m", 33.5, half.nose_tip_radius_m},
                           Part{"tail, m", 39.9, half.tail_radius_m}}) {
    check({.what = part.what,
           .source = kDataBook,
           .place = "p. 185, fig. 11.14, R4 to R6 of the shorter aircraft",
           .kind = Kind::Worked,
           .expected = part.expected,
           .got = part.got,
           .tolerance = 0.2});
  }
}

TEST_CASE("half turn: the design angle of a turn pad") {
  Aircraft aircraft;
  aircraft.steering_limit_rad = radians(45.0);
  const HalfTurn half = half_turn(aircraft, Limits{}, 0.0);
  check({.what = "turn axis at 45 deg: the wheelbase, m",
         .source = "ICAO Annex 14 Vol I, 3.3.5",
         .place = "nose-wheel angle of at most 45 deg for design",
         .kind = Kind::Own,
         .expected = aircraft.wheelbase_m,
         .got = half.gear_radius_m,
         .tolerance = 1e-9});
  check({.what = "radius of 180 deg turn, m",
         .source = "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010",
         .place = "p. 58, eq. 2-1: b tan(90 - beta) + t/2, width twice that without the nose",
         .kind = Kind::Formula,
         .expected = aircraft.wheelbase_m * std::tan(radians(45.0)) + 0.5 * aircraft.wheel_span_m,
         .got = half.bare_m - half.nose_radius_m - 0.5 * aircraft.nose_wheel_span_m,
         .tolerance = 1e-9});
}
