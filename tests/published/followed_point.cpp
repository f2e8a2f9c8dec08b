// The point of the aircraft that is kept on the line: everything here was derived apart from the
// program, as plane kinematics of a rigid body, in closed forms that agree with DOP853 at 1e-12 and
// dense search to 4e-11 m (2e-9 m with a limited steering rate). Lengths are printed to 0.1 mm,
// angles to 1e-3 or 1e-4 deg; 1 mm and 1e-3 deg are asked for.
#include "physics/path/followed_point.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/path/eye_view.hpp"
#include "physics/path/point_on_line.hpp"
#include "physics/path/point_way.hpp"
#include "physics/path/steering_ramp.hpp"
#include "physics/path/track.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kSource = "Own derivation, closed forms against DOP853 at 1e-12";

double degrees(double radians) { return units::degrees_from_radians(radians); }
double radians(double value) { return units::radians_from_degrees(value); }

struct Part {
  const char* what;
  double expected, got;
};

// What ends with "deg" is an angle.
void compare(const char* place, std::initializer_list<Part> parts) {
  for (const Part& part : parts)
    check({.what = part.what,
           .source = kSource,
           .place = place,
           .kind = Kind::Own,
           .expected = part.expected,
           .got = part.got,
           .tolerance = 0.001});
}

// L 30, E 33, outer main wheels +-6.3, nose wheels +-0.45, left seat 0.53 left of the middle.
Aircraft aircraft_at_rate(double rate_degps) {
  Aircraft a;
  a.wheelbase_m = 30.0;
  a.eye_ahead_m = 33.0;
  a.eye_side_m = 0.53;
  a.wheel_span_m = 12.6;
  a.nose_wheel_span_m = 0.9;
  a.steering_limit_rad = 1.4;
  a.steering_rate_radps = radians(rate_degps);
  return a;
}

struct Pavement {
  double radius_m, turn_deg, width_m, widening_m = 0.0, lead_in_m = 0.0;
};

TaxiRoute one_turn(const Pavement& pavement) {
  Leg straight;
  straight.length_m = 400.0;
  straight.width_m = pavement.width_m;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = pavement.radius_m;
  arc.turn_rad = radians(pavement.turn_deg);
  arc.width_m = pavement.width_m;
  arc.widening_m = pavement.widening_m;
  arc.lead_in_m = pavement.lead_in_m;
  TaxiRoute route;
  route.legs.clear();
  route.legs.push(straight);
  route.legs.push(arc);
  route.legs.push(straight);
  return route;
}

}  // namespace

TEST_CASE("followed point: margins, steering and the start, steered at once") {
  struct Row {
    double ahead_m, radius_m, turn_deg, steering_deg, nose_m, eye_m, inside_m, tip_m, eye_x_m,
        short_m, bearing_deg;
  };
  for (const Row& row :
       {Row{33, 45, 90, 35.9841, .4500, 0.0000, 10.5995, 31.1414, -45.0000, 45.0000, 45.3354},
        Row{30, 45, 90, 35.9221, .4500, 1.8090, 9.0407, 31.1499, -42.0000, 42.0000, 47.3094},
        Row{20, 45, 90, 35.4221, 5.4127, 6.8115, 4.3834, 31.1883, -32.0000, 32.0000, 54.8992},
        Row{10, 45, 90, 34.3354, 8.5043, 9.8740, 1.1230, 31.2585, -22.0000, 22.0000, 64.2103},
        Row{4, 45, 90, 33.7950, 9.3097, 10.6597, .1781, 31.3427, -16.0000, 16.0000, 70.6377},
        Row{33, 45, 30, 19.7362, .4500, 0.0000, 5.1332, 31.1414, -12.0577, 6.0289, 16.2517},
        Row{15, 45, 30, 28.5226, 5.4626, 6.2483, 1.7933, 31.2172, 5.9423, -2.9711, 55.5462},
        Row{33, 60, 135, 30.1369, .4500, 0.0000, 9.4760, 31.1120, -144.8528, 102.4264, 67.6044},
        Row{18, 60, 135, 27.6475, 5.0179, 6.0639, 2.7608, 31.1609, -129.8528, 91.8198, 75.0835},
        Row{25, 30, 60, 39.8823, 3.3328, 4.8678, 6.7548, 31.2238, -9.3205, 8.0718, 40.8172},
        Row{12, 80, 45, 20.6633, 4.9586, 5.6224, .8957, 31.1589, -12.1371, 8.5822, 33.9670},
        Row{33, 33, 90, 44.7622, .4500, 0.0000, 12.6699, 31.1799, -33.0000, 33.0000, 45.4564}}) {
    const Aircraft aircraft = aircraft_at_rate(0.0);
    const TaxiRoute route = one_turn({row.radius_m, row.turn_deg, 40.0});
    const PointMargins margins = margins_with_point(aircraft, route, 1, 4.0, row.ahead_m);
    const TrackPlan plan = plan_with_point(aircraft, route, 1, 4.0, row.ahead_m);
    const TurnSetting setting = turn_setting(aircraft, route, 1);
    const PointWay way = point_way(setting, row.ahead_m, 4.0, NoseRate::Limited);
    const Sight sight = sight_of(aircraft, eye_at(aircraft, plan.start, Seat::Left),
                                 line_at(setting.line, row.radius_m * radians(row.turn_deg)).point);
    const double half_tangent = std::tan(radians(0.5 * row.turn_deg));
    compare("wheelbase 30 m, point 4 to 33 m ahead, 12 turns",
            {{"largest steering, deg", row.steering_deg, degrees(margins.steering_rad)},
             {"the same of the way, deg", row.steering_deg, degrees(way.steering_rad)},
             {"inner main wheel inside, m", row.inside_m + 6.3, 20.0 - margins.main_m},
             {"eye past the new centreline, m", row.eye_m, plan.eye_overshoot_m},
             {"eye past the crossing at the start, m", row.eye_x_m, plan.eye_past_crossing_m},
             {"eye short of the new centreline at the start, m", row.short_m,
              -plan.eye_past_crossing_m * std::sin(radians(row.turn_deg))},
             {"eye past the start of the curve at the start, m",
              row.eye_x_m + row.radius_m * half_tangent, plan.eye_past_arc_begin_m},
             {"end of the curve from the left seat, deg", row.bearing_deg,
              degrees(sight.azimuth_rad)}});
    // A nose gear behind the followed point runs inside, nearer the other edge.
    if (row.ahead_m <= aircraft.wheelbase_m)
      compare("wheelbase 30 m, point 4 to 30 m ahead",
              {{"outer nose wheel outside, m", row.nose_m, 20.0 - margins.nose_m}});
  }
}

TEST_CASE("followed point: nose wheels at a limited rate") {
  struct Row {
    double ahead_m, radius_m, turn_deg, rate_degps, speed_mps;
    double entry_deg, steering_deg, in_deg, out_deg, in_m, out_m, start_m, eye_x_m, nose_m;
  };
  for (const Row& row :
       {Row{5, 40, 90, 12, 4, 22.761, 37.087, 6.841, 1.522, .0832, .0411, -2.6580, -14.6580,
            10.0673},
        Row{12, 40, 90, 12, 4, 6.384, 37.981, 2.789, 0, .0028, 0, -.1774, -19.1774, 8.8075},
        Row{16, 40, 90, 12, 4, 0, 38.485, 0, 0, 0, 0, 0, -23.0000, 7.5132},
        Row{5, 45, 20, 8, 5, 25.620, 29.883, 11.294, 4.299, .3068, .1897, -6.3280, 13.7373, 6.0295},
        Row{10, 22, 120, 6, 6, 44.862, 54.862, 50.216, 22.807, 4.2045, 3.2034, -27.0148, -42.1199,
            10.4713},
        Row{2, 60, 60, 10, 5, 22.389, 26.578, 5.697, 4.005, .1051, .1016, -5.0012, -8.6422, 7.3533},
        Row{20, 30, 150, 4, 8, 40.391, 46.834, 81.726, 37.109, 10.2664, 8.1335, -65.4068, -164.3684,
            3.3799}}) {
    const double turn_rad = radians(row.turn_deg);
    const double per_metre = radians(row.rate_degps) / row.speed_mps;
    const PointOnLineTurn turn =
        point_on_line_turn(row.radius_m, turn_rad, row.ahead_m, 30.0, per_metre);
    const SteeredPointMotion motion{turn, 1.0};
    const MotionPhases phases = phases_of_point(turn, 10.0, 60.0);
    const LinePoint outbound{
        {row.radius_m * std::sin(turn_rad), row.radius_m * (1.0 - std::cos(turn_rad))}, turn_rad};
    const double to_crossing_m = row.radius_m * std::tan(0.5 * turn_rad);
    CHECK(turn.found);
    CHECK(turn.full);
    compare("wheelbase 30 m, 4 to 12 deg/s at 4 to 8 m/s of the nose gear",
            {{"steering where the circle begins, deg", row.entry_deg, degrees(turn.entry_rad)},
             {"largest steering, deg", row.steering_deg, degrees(turn.steering_rad)},
             {"turned before the circle, deg", row.in_deg, degrees(turn.in_rad)},
             {"turned after the circle, deg", row.out_deg, degrees(turn.out_rad)},
             {"circle inwards of the old line, m", row.in_m, turn.shift_in_m},
             {"circle inwards of the new line, m", row.out_m, turn.shift_out_m},
             {"start, point past the arc's begin, m", row.start_m, turn.start_past_arc_m},
             {"eye past the crossing, m", row.eye_x_m,
              33.0 - row.ahead_m + turn.start_past_arc_m - to_crossing_m},
             {"outer nose wheel outside, m", row.nose_m,
              plan_sweep(motion, phases).furthest_past_m(outbound, 1.0, {30.0, -0.45})}});
    // As a plan: the speed is that of the main-gear axis where the nose wheels are turned most, as
    // the line asks for it.
    const Aircraft aircraft = aircraft_at_rate(row.rate_degps);
    const TaxiRoute route = one_turn({row.radius_m, row.turn_deg, 80.0});
    const TurnSetting setting = turn_setting(aircraft, route, 1);
    const double asked_rad = point_way(setting, row.ahead_m, 1.0, NoseRate::AsAsked).steering_rad;
    const double speed_mps = row.speed_mps * std::cos(asked_rad);
    const TrackPlan plan = plan_with_point(aircraft, route, 1, speed_mps, row.ahead_m);
    compare("the same as plans between straights",
            {{"start, point past the arc's begin, m", row.start_m,
              row.ahead_m - plan.start_before_arc_m},
             {"largest steering, deg", row.steering_deg, degrees(plan.steering_rad)},
             {"eye past the crossing, m", row.eye_x_m, plan.eye_past_crossing_m}});
    // A circle far inside of the painted one has the other nose wheel nearer to its edge.
    if (row.in_m > 10.0) continue;
    compare("the same as plans between straights",
            {{"outer nose wheel outside, m", row.nose_m,
              40.0 - margins_with_point(aircraft, route, 1, speed_mps, row.ahead_m).nose_m}});
  }
}

TEST_CASE("followed point: the ramp from straight wheels") {
  // The row with the main gear on the line: 36.870 deg at 12 deg/s and 4 m/s turn the heading by
  // 7.295 deg and put the axis 0.1407 m inside of a circle of 40 m that it then follows.
  const SteeringRamp ramp = steering_ramp(0.0, radians(36.869898), radians(3.0), 30.0);
  const SteeringRamp back = steering_ramp(radians(36.869898), 0.0, radians(3.0), 30.0);
  const double circle_m = 40.0 * (1.0 - std::cos(radians(7.295)));
  compare("wheelbase 30 m, 12 deg/s at 4 m/s",
          {{"heading turned, deg", 7.295, degrees(ramp.heading_rad)},
           {"heading turned back, deg", 7.295, degrees(back.heading_rad)},
           {"axis inside of the old line, m", 0.1407 + circle_m, ramp.axis.y_m},
           {"axis along the old line, m",
            6.5033 + 40.0 * std::sin(radians(7.295)) + (0.0 - 0.1407) * std::tan(radians(45.0)),
            ramp.axis.x_m}});
}

TEST_CASE("followed point: the best one") {
  struct Row {
    Pavement pavement;
    double wanted_nose_m, wanted_main_m, best_m, nose_m, main_m, steering_deg;
  };
  for (const Row& row : {Row{{45, 90, 25, 0, 0}, 1, 4, 2.7852, 3.1137, 6.1137, 33.74},
                         Row{{45, 90, 25, 8, 40}, 1, 4, 4.1278, 3.2000, 6.2000, 33.80},
                         Row{{45, 90, 23, 5, 30}, 0, 0, 16.6657, 4.8165, 4.8165, 35.12},
                         Row{{60, 135, 25, 6, 50}, 1, 4, 0.0000, 5.0152, 6.2000, 26.57},
                         Row{{45, 30, 23, 0, 0}, 1, 4, 0.3759, 2.1984, 5.1984, 33.69},
                         Row{{35, 60, 25, 6, 30}, 1, 3, 13.6525, 3.9910, 5.9910, 40.35},
                         Row{{80, 45, 23, 0, 0}, 1, 4, 0.0000, 5.6385, 5.2000, 20.56},
                         Row{{30, 150, 30, 10, 60}, 1, 4, 16.2068, 5.6150, 8.6150, 49.40}}) {
    const Aircraft aircraft = aircraft_at_rate(0.0);
    const TaxiRoute route = one_turn(row.pavement);
    const FollowedPoint point =
        best_followed_point(aircraft, route, 1, 4.0, {row.wanted_nose_m, row.wanted_main_m});
    const PointMargins best = margins_with_point(aircraft, route, 1, 4.0, point.best_m);
    compare("widths 23 to 30 m, with and without extra pavement",
            {{"best point ahead of the main gear, m", row.best_m, point.best_m},
             {"nose margin with it, m", row.nose_m, best.nose_m},
             {"main margin with it, m", row.main_m, best.main_m}});
    check({.what = "largest steering with it, deg",
           .source = kSource,
           .place = "widths 23 to 30 m, with and without extra pavement",
           .kind = Kind::Own,
           .expected = row.steering_deg,
           .got = degrees(best.steering_rad),
           .tolerance = 0.005 + 0.001});
    CHECK(point.keeps_all);
  }
}

TEST_CASE("followed point: the band between two rows of the table, and the way out at its end") {
  // R 45 m, 90 deg, 40 m wide: what the nose wheels have with the point 10 m ahead and the main
  // wheels with it 20 m ahead is wanted, so the band is from 10 to 20 m.
  Brief brief;
  brief.aircraft = aircraft_at_rate(0.0);
  brief.route = one_turn({45.0, 90.0, 40.0});
  brief.limits.nose_clearance_m = 20.0 - 8.5043;
  brief.limits.edge_clearance_m = 20.0 - 4.3834 - 6.3;
  const FollowedPoint band =
      best_followed_point(brief.aircraft, brief.route, 1, 4.0, WantedMargins::of(brief.limits));
  CHECK(band.keeps_all);
  const TrackPlan plan = plan_with_point(brief.aircraft, brief.route, 1, 4.0, band.high_m);
  for (const Part& part :
       {Part{"band of points, from, m", 10.0, band.low_m},
        Part{"band of points, to, m", 20.0, band.high_m},
        Part{"point with the nose outside least, m", 20.0, plan.followed_ahead_m},
        Part{"eye past the new centreline with it, m", 6.8115, plan.eye_overshoot_m}}) {
    check({.what = part.what,
           .source = kSource,
           .place = "R 45 m, 90 deg, points 10 and 20 m ahead",
           .kind = Kind::Own,
           .expected = part.expected,
           .got = part.got,
           // Found to a millimetre from inside; the printed margins are good to 0.3 mm of it.
           .tolerance = 0.0015});
  }
}
