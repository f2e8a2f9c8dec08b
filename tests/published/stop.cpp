// What the eye can't see over the nose, where to stop, and the length of a smooth stop.
#include "physics/run/stop.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/path/obscured_ground.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kSight = "Line of sight over the nose, computed apart";
constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";

double radians(double value) { return units::radians_from_degrees(value); }

// One application to rest that neither thrust nor drag nor slope changes.
Application stop_by_itself(double speed_mps, double deceleration_mps2, double jerk_mps3) {
  return plan_application(RollLaw{}, speed_mps, 0.0, deceleration_mps2, jerk_mps3);
}

}  // namespace

TEST_CASE("stop: ground hidden ahead of the eye") {
  struct Row {
    double eye_m, cutoff_deg, target_m, hidden_m;
  };
  for (const Row& row :
       {Row{5.7, 20.0, 0.0, 15.66}, Row{6.0, 20.0, 0.0, 16.48}, Row{8.7, 18.4, 0.0, 26.15},
        Row{6.0, 20.0, 0.3, 15.66}, Row{8.7, 18.4, 0.3, 25.25}}) {
    check({.what = "hidden ahead of the eye, m",
           .source = kSight,
           .place = "(h - target) / tan(cut-off)",
           .kind = Kind::Own,
           .expected = row.hidden_m,
           .got = obscured_ahead_m(row.eye_m, radians(row.cutoff_deg), row.target_m),
           .tolerance = 0.006});
  }
  check({.what = "azimuth of a lamp 14.5 m to the side when it is lost, deg",
         .source = kSight,
         .place = "lamp 0.3 m high, eye 6 m, 20 deg",
         .kind = Kind::Own,
         .expected = 42.8,
         .got = units::degrees_from_radians(
             std::atan2(14.5, obscured_ahead_m(6.0, radians(20.0), 0.3))),
         .tolerance = 0.05});
}

TEST_CASE("stop: visible segment of the handbook") {
  // H = VR cos(theta) - h cot(alpha - beta), sin(theta) = h/VR; three seconds at 150 mph are 660
  // ft.
  const double hidden = obscured_ahead_m(100.0, radians(15.0), 0.0);  // feet
  check({.what = "visible segment at 1038 ft of range, ft",
         .source = kHandbook,
         .place = "ch. 8, eqs 8-1 and 8-2, h 100 ft, 15 deg",
         .kind = Kind::Formula,
         .expected = 660.0,
         .got = std::sqrt(1038.0 * 1038.0 - 100.0 * 100.0) - hidden,
         .tolerance = 0.5});
}

TEST_CASE("stop: smooth stop from 10 kt") {
  struct Row {
    double deceleration, jerk, distance;
  };
  const double gravity = units::kGravity_mps2;
  for (const Row& row : {Row{1.0, 0.5, 18.377}, Row{0.93, 0.3, 22.203},
                         Row{0.16 * gravity, 0.10 * gravity, 12.549}}) {
    const double speed = units::mps_from_knots(10.0);
    const Application stop = stop_by_itself(speed, row.deceleration, row.jerk);
    check({.what = "distance of a stop with limited jerk, m",
           .source = "Trapezoidal deceleration, integrated apart",
           .place = "v^2/(2 a) + v a/(2 J)",
           .kind = Kind::Own,
           .expected = row.distance,
           .got = stop.length_m,
           .tolerance = 0.0006});
    check({.what = "time of a stop with limited jerk, s",
           .source = "Trapezoidal deceleration, integrated apart",
           .place = "v/a + a/J; mean speed is half of the first",
           .kind = Kind::Own,
           .expected = 2.0 * row.distance / speed,
           .got = stop.duration_s,
           .tolerance = 0.0006});
  }
  check({.what = "nearly sudden braking at 1 m/s2 from 10 kt, m",
         .source = "Constant deceleration, computed apart",
         .place = "v^2/(2 a)",
         .kind = Kind::Own,
         .expected = 13.23,
         .got = stop_by_itself(units::mps_from_knots(10.0), 1.0, 1e4).length_m,
         .tolerance = 0.005});
}

TEST_CASE("stop: no part of the aircraft beyond the line") {
  Brief brief;
  brief.aircraft.eye_height_m = 6.0;
  brief.aircraft.view_cutoff_rad = radians(20.0);
  brief.aircraft.eye_ahead_m = 34.0;
  brief.aircraft.nose_tip_ahead_m = 36.5;
  brief.limits.stop_short_m = 0.0;
  brief.route.end = RouteEnd::HoldingLine;
  Leg leg;
  leg.length_m = 500.0;
  brief.route.legs.push(leg);
  const Application last = plan_application(RollLaw{}, units::mps_from_knots(8.0), 0.0, 0.93, 0.3);
  const StopAnswer at_line = stop_answer(brief, last);
  check({.what = "foremost point at the stop with nothing left, m",
         .source = "FAA Aeronautical Information Manual, 2-3-5",
         .place = "no part of the aircraft beyond the marking",
         .kind = Kind::Formula,
         .expected = 0.0,
         .got = at_line.nose_before_line_m,
         .tolerance = 1e-12});
  check({.what = "foremost point when the line goes out of sight, m",
         .source = kSight,
         .place = "16.48 m ahead of the eye less 2.5 m of nose",
         .kind = Kind::Own,
         .expected = 13.98,
         .got = at_line.nose_before_line_when_lost_m,
         .tolerance = 0.006});
}
