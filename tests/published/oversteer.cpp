// The main gear kept on the line: how far past it the nose goes; and the margins to the edges.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/path/track.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kRigid = "Rigid-body kinematics without side slip, computed apart";

double radians(double value) { return units::radians_from_degrees(value); }

GearOnLineTurn at_once(double radius_m, double turn_deg, double wheelbase_m, double eye_m) {
  return gear_on_line_turn(radius_m, radians(turn_deg), wheelbase_m, eye_m, radians(75.0), 0.0,
                           4.0);
}

Brief one_turn(double turn_rad, double straight_m) {
  Brief brief;
  brief.route.legs.clear();
  Leg straight;
  straight.length_m = straight_m;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 45.0;
  arc.turn_rad = turn_rad;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc);
  brief.route.legs.push(straight);
  return brief;
}

}  // namespace

TEST_CASE("oversteer: wheelbase 25.9 m, eye 29.4 m ahead, 50 m") {
  const GearOnLineTurn turn = at_once(50.0, 90.0, 25.9, 29.4);
  CHECK(turn.possible);
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row :
       {Row{"nose gear outside, m", 6.310, turn.nose_overshoot_m},
        Row{"eye outside, m", 8.003, turn.eye_overshoot_m},
        Row{"nose-wheel angle, deg", 27.38, units::degrees_from_radians(turn.steering_rad)}}) {
    check({.what = row.what,
           .source = kRigid,
           .place = "sqrt(R^2 + x^2) - R",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.expected > 20.0 ? 0.005 : 0.0006});
  }
  // Half oversteer: both stray by the same e = w^2/(4 R), so the nose is 2 e outside the gear.
  check({.what = "twice the equal share, m",
         .source = kRigid,
         .place = "e = w^2/(4 R)",
         .kind = Kind::Own,
         .expected = 2.0 * 3.354,
         .got = at_once(50.0 - 3.35405, 90.0, 25.9, 29.4).nose_overshoot_m,
         .tolerance = 0.001});
}

TEST_CASE("oversteer: sharp corner at 50 deg of nose-wheel angle") {
  const GearOnLineTurn turn = at_once(25.9 / std::tan(radians(50.0)), 90.0, 25.9, 29.4);
  CHECK(turn.possible);
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row :
       {Row{"nose gear past the crossing at the start, m", 4.167, turn.nose_past_crossing_m},
        Row{"eye past the crossing at the start, m", 7.667, turn.eye_past_crossing_m},
        Row{"nose gear furthest past the new centreline, m", 12.077, turn.nose_overshoot_m}}) {
    check({.what = row.what,
           .source = kRigid,
           .place = "x - R tan(D/2); sqrt(R^2 + x^2) - R",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 0.0006});
  }
}

TEST_CASE("oversteer: crossing centrelines without a painted arc") {
  // The same corner as a turn over crossing lines: pavement 26.154 m wide, so that 1 m of clearance
  // beside the middle of the nose gear leaves 12.077 m.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.9;
  aircraft.eye_ahead_m = 29.4;
  aircraft.nose_wheel_span_m = 0.0;
  aircraft.steering_limit_rad = radians(70.0);
  const CrossingTurn turn = crossing_turn(aircraft, radians(90.0), 13.077, 1.0, 45.0);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row :
       {Row{"smallest radius for 12.077 m, m", 21.733, turn.radius_m, 0.002},
        Row{"nose-wheel angle, deg", 50.0, units::degrees_from_radians(turn.steering_rad), 0.005},
        Row{"nose gear past the crossing at the start, m", 4.167, turn.nose_past_crossing_m, 0.002},
        Row{"eye past the crossing at the start, m", 7.667, turn.eye_past_crossing_m, 0.002},
        Row{"crossing after the begin of an arc of 21.733 m, m", 21.733,
            way_to_crossing_m(21.733, radians(90.0)), 1e-9},
        Row{"crossing after the begin of an arc of 50 m and 120 deg, m", 86.603,
            way_to_crossing_m(50.0, radians(120.0)), 0.0005},
        Row{"nose gear furthest past the new centreline, m", 12.077, turn.nose_excursion_m, 1e-9},
        Row{"equal share of 50 m and 25.9 m, m", 3.354, equal_split_m(50.0, 25.9), 0.0005},
        Row{"nose gear outside 50 m, m", 6.310, crossing_excursion_m(50.0, radians(90.0), 25.9),
            0.0006},
        Row{"eye outside 50 m, m", 8.003, crossing_excursion_m(50.0, radians(90.0), 29.4),
            0.0006}}) {
    check({.what = row.what,
           .source = kRigid,
           .place = "x - R tan(D/2); sqrt(R^2 + x^2) - R; (x^2 - e^2)/(2 e); w^2/(4 R)",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
  }
  // A pavement of 23 m does not do: 12.077 m is more than its half.
  const CrossingTurn narrow = crossing_turn(aircraft, radians(90.0), 11.5, 0.0, 45.0);
  check({.what = "smallest radius on 23 m of pavement, no clearance, m",
         .source = kRigid,
         .place = "(x^2 - e^2)/(2 e)",
         .kind = Kind::Own,
         .expected = (25.9 * 25.9 - 11.5 * 11.5) / 23.0,
         .got = narrow.radius_m,
         .tolerance = 1e-9});
}

TEST_CASE("oversteer: limited steering rate") {
  // Turn 90 deg, wheelbase 30 m, radius 40 m, 12 deg/s at 4 m/s; a prototype simulated the bicycle.
  constexpr const char* kPrototype = "Bicycle with limited steering rate, simulated apart";
  const GearOnLineTurn slow =
      gear_on_line_turn(40.0, radians(90.0), 30.0, 33.0, radians(70.0), radians(12.0), 4.0);
  const GearOnLineTurn instant = at_once(40.0, 90.0, 30.0, 33.0);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row :
       {Row{"nose-wheel angle, deg", 36.9, units::degrees_from_radians(slow.steering_rad), 0.05},
        Row{"start past the crossing, at once, m", -10.0, instant.nose_past_crossing_m, 0.05},
        Row{"start past the crossing, 12 deg/s, m", -16.5, slow.nose_past_crossing_m, 0.05},
        Row{"overshoot, at once, m", 10.0, instant.nose_overshoot_m, 0.05},
        Row{"overshoot, 12 deg/s, m", 9.86, slow.nose_overshoot_m, 0.005},
        Row{"off-tracking with the nose on the line, m", 9.78,
            largest_off_tracking_m(40.0, radians(90.0), 30.0), 0.005}}) {
    check({.what = row.what,
           .source = kPrototype,
           .place = "30 m, 40 m, 90 deg",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
  }
}

TEST_CASE("oversteer: taxiway width and clearance of the standard fit each other") {
  constexpr const char* kCs = "EASA CS-ADR-DSN Issue 6";
  check({.what = "edge clearance, wheel span 9 to 15 m, m",
         .source = kCs,
         .place = "D.240(a)",
         .kind = Kind::Formula,
         .expected = 4.0,
         .got = Limits{}.edge_clearance_m,
         .tolerance = 0.0});
  check({.what = "taxiway width for the widest wheel span of the band, m",
         .source = kCs,
         .place = "D.245: 15 m and 4 m on both sides",
         .kind = Kind::Formula,
         .expected = 23.0,
         .got = 15.0 + 2.0 * Limits{}.edge_clearance_m,
         .tolerance = 0.0});
  // A hardly noticeable bend: both margins are those of the straight, (23 - 12.9)/2, less the few
  // millimetres that the bend takes.
  Brief brief = one_turn(radians(0.05), 300.0);
  brief.aircraft.wheel_span_m = 12.9;
  const TrackAnswer answer = track_answer(brief, 1, 4.0);
  for (const double margin : {answer.eye_on_line.margins.left_main.margin_m,
                              answer.eye_on_line.margins.right_main.margin_m}) {
    check({.what = "margin on a straight, m",
           .source = kCs,
           .place = "D.240 and D.245, (23 - 12.9)/2",
           .kind = Kind::Formula,
           .expected = 5.05,
           .got = margin,
           .tolerance = 0.04});
  }
}

TEST_CASE("oversteer: a fillet made by the handbook keeps the handbook's margin") {
  // R 150 ft, cockpit 72.1 ft ahead, wheel span 34.25 ft, margin 15 ft, taxiway 75 ft: by eq. 6-11
  // the inner edge must lie at 99.41 ft. After 180 deg the deviation is short of the steady one by
  // 0.05 ft, so the margin is that much wider.
  const double foot = units::kFoot_m;
  Brief brief = one_turn(radians(180.0), 600.0);
  brief.aircraft.eye_ahead_m = 72.1 * foot;
  brief.aircraft.wheelbase_m = 64.6 * foot;
  brief.aircraft.wheel_span_m = 34.25 * foot;
  for (Leg& leg : brief.route.legs) leg.width_m = 75.0 * foot;
  Leg& arc = brief.route.legs[1];
  arc.radius_m = 150.0 * foot;
  arc.widening_m = (150.0 - 37.5 - 99.41) * foot;
  arc.lead_in_m = 300.0;
  const TrackAnswer answer = track_answer(brief, 1, 4.0);
  check({.what = "inner margin on the fillet, ft",
         .source = "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010",
         .place = "p. 249, eq. 6-11",
         .kind = Kind::Formula,
         .expected = 15.0,
         .got = answer.eye_on_line.margins.right_main.margin_m / foot,
         .tolerance = 0.15});
}
