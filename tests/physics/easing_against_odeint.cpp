// Easing curves against Boost's ODE solver: where they lead, and how a body lags along them.
//
// The solver is given 1e-12; 1e-9 is asked for, in radians, and in metres against the length of the
// way. Strata are named where they differ in what may go wrong.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/numerics/clothoid.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/track.hpp"
#include "random_draws.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPi = units::kPi;

double wrapped(double angle) { return std::remainder(angle, 2.0 * kPi); }

double reference_lag(double lag, double length, double from, double to, double distance) {
  auto system = [&](const std::array<double, 1>& x, std::array<double, 1>& d, double s) {
    d[0] = from + (to - from) * s / distance - std::sin(x[0]) / length;
  };
  return integrate_ode<1>(system, {lag}, 0.0, distance)[0];
}

Leg random_arc(Draws& draws, double least_radius_m, double most_radius_m) {
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = draws.between(least_radius_m, most_radius_m);
  arc.turn_rad = draws.sign() * draws.between(0.2, 3.1);
  arc.easing_m = draws.between(0.0, 1.0) * arc.radius_m * std::abs(arc.turn_rad);
  return arc;
}

Leg random_straight(Draws& draws) {
  Leg leg;
  leg.length_m = draws.between(5.0, 150.0);
  return leg;
}

// x, y and heading after a distance along the legs, from the curvature alone.
std::array<double, 3> walk(const TaxiRoute& route, std::size_t first, double distance_m) {
  std::array<double, 3> state{0.0, 0.0, 0.0};
  for (std::size_t i = first; i < route.legs.size() && distance_m > 0.0; ++i) {
    const Leg& leg = route.legs[i];
    auto system = [&](const std::array<double, 3>& x, std::array<double, 3>& d, double s) {
      d = {std::cos(x[2]), std::sin(x[2]), leg_curvature_pm(leg, s)};
    };
    const double ends = leg_length_m(leg);
    const double easing = leg_easing_m(leg);
    double from = 0.0;
    for (const double knot : {easing, ends - easing, ends}) {
      const double to = std::min(knot, distance_m);
      if (to > from) state = integrate_ode<3>(system, state, from, to);
      from = std::max(from, to);
    }
    distance_m -= ends;
  }
  return state;
}

}  // namespace

TEST_CASE("easing: the lag along a clothoid agrees with the ODE solver") {
  Draws draws(20261101);
  enum { FromStraight, ToStraight, NearLength, Tight, Reverse, Long, Count };
  const char* const names[] = {
      "clothoid lag: straight to arc",        "clothoid lag: arc to straight",
      "clothoid lag: radius near the length", "clothoid lag: radius below the length",
      "clothoid lag: curvature through zero", "clothoid lag: many lengths"};
  const int count = draw_count(1500);
  for (int stratum = 0; stratum < Count; ++stratum) {
    Worst worst;
    for (int i = 0; i < count; ++i) {
      const double length = draws.between(8.0, 40.0);
      double radius = length * draws.by_size(1.05, 8.0);
      if (stratum == NearLength)
        radius = length * (1.0 + draws.sign() * draws.by_size(1e-15, 1e-2));
      if (stratum == Tight) radius = length * draws.between(0.3, 0.98);
      const double curvature = draws.sign() / radius;
      double distance = radius * draws.between(0.01, kPi);
      if (stratum == Long) distance = length * draws.between(8.0, 40.0);
      double from = 0.0, to = curvature;
      if (stratum == ToStraight) std::swap(from, to);
      if (stratum == Reverse) from = -curvature * draws.between(0.1, 1.0);
      const double lag = draws.coin() ? 0.0 : draws.between(-1.0, 1.0);
      worst.note(wrapped(lag_after_clothoid_m(lag, length, from, to, distance) -
                         reference_lag(lag, length, from, to, distance)),
                 i);
    }
    agree_within_1e9(names[stratum], {worst});
  }
}

TEST_CASE("easing: the painted line agrees with the ODE solver") {
  Draws draws(20261102);
  Worst x, y, heading;
  const int count = draw_count(1500);
  for (int i = 0; i < count; ++i) {
    TaxiRoute route;
    const int legs = 1 + draws.below(4);
    for (int k = 0; k < legs; ++k)
      route.legs.push(draws.below(3) == 0 ? random_straight(draws) : random_arc(draws, 20.0, 90.0));
    const double length = route_length_m(route);
    const double at = draws.between(0.0, length);
    const LinePoint got = line_at(painted_line(route, 0), at);
    const std::array<double, 3> expected = walk(route, 0, at);
    x.note((got.point.x_m - expected[0]) / length, i);
    y.note((got.point.y_m - expected[1]) / length, i);
    heading.note(got.heading_rad - expected[2], i);
  }
  agree_within_1e9("eased line: place and heading", {x, y, heading});
}

TEST_CASE("easing: a body led over straight, easing, arc, easing, straight") {
  // The lag of the last leg's end through everything, as the plan carries it: the pose of the plan
  // against a body whose leading point the solver drags along the curvature.
  Draws draws(20261103);
  Worst x, y, heading;
  const int count = draw_count(400);
  for (int i = 0; i < count; ++i) {
    Brief brief;
    brief.route.legs.clear();
    brief.route.legs.push(random_straight(draws));
    brief.route.legs.push(random_arc(draws, 25.0, 90.0));
    brief.route.legs.push(random_arc(draws, 25.0, 90.0));
    brief.route.legs.push(random_straight(draws));
    const double eye = draws.between(15.0, 38.0);
    brief.aircraft.eye_ahead_m = eye;
    brief.aircraft.wheelbase_m = eye - draws.between(0.5, 4.0);
    const TrackPlan plan = track_answer(brief, 2, 4.0).eye_on_line;
    // Sample distances: evenly from 10 m before the arc to the end of what is shown.
    const double arc = leg_length_m(brief.route.legs[2]);
    const double run_out = 3.5 * eye;
    const int k = 5 + draws.below(kPlanSamples - 5);
    const double at = (arc + run_out + 10.0) * k / (kPlanSamples - 1) - 10.0;
    const double before = leg_length_m(brief.route.legs[0]) + leg_length_m(brief.route.legs[1]);
    double left = before + at;
    std::array<double, 4> state{0.0, 0.0, 0.0, 0.0};  // eye, path's heading, lag
    for (std::size_t n = 0; n < 4; ++n) {
      const Leg& leg = brief.route.legs[n];
      auto system = [&](const std::array<double, 4>& s, std::array<double, 4>& d, double along) {
        const double curvature = leg_curvature_pm(leg, along);
        d = {std::cos(s[2]), std::sin(s[2]), curvature, curvature - std::sin(s[3]) / eye};
      };
      const double ends = n == 3 ? 1e6 : leg_length_m(leg);
      const double easing = leg_easing_m(leg);
      double from = 0.0;
      for (const double knot : {easing, ends - easing, ends}) {
        const double to = std::min(knot, left);
        if (to > from) state = integrate_ode<4>(system, state, from, to);
        from = std::max(from, to);
      }
      left -= ends;
    }
    // Seen from where the turn begins.
    const std::array<double, 3> origin = walk(brief.route, 0, before);
    const double body = state[2] - state[3];
    const double gear_x = state[0] - eye * std::cos(body) - origin[0];
    const double gear_y = state[1] - eye * std::sin(body) - origin[1];
    const double c = std::cos(origin[2]), s = std::sin(origin[2]);
    x.note((plan.pose[k].gear.x_m - (gear_x * c + gear_y * s)) / (before + arc), i);
    y.note((plan.pose[k].gear.y_m - (gear_y * c - gear_x * s)) / (before + arc), i);
    heading.note(wrapped(plan.pose[k].heading_rad - (body - origin[2])), i);
  }
  agree_within_1e9("eye over two eased arcs: pose", {x, y, heading});
}

TEST_CASE("easing: the foot of a point is where a search over the whole line finds it") {
  Draws draws(20261104);
  Worst worst;
  const int count = draw_count(400);
  for (int i = 0; i < count; ++i) {
    TaxiRoute route;
    route.legs.push(random_straight(draws));
    route.legs.push(random_arc(draws, 40.0, 90.0));
    route.legs.push(random_straight(draws));
    const PaintedLine line = painted_line(route, 1);
    const double length = leg_length_m(route.legs[1]);
    const double at = draws.between(-3.0, length + 3.0);
    const LinePoint from = line_at(line, at);
    const double right = draws.between(-30.0, 30.0);
    const Point point = beside(from.point, from.heading_rad, right);
    // Within 30 m, less than the least radius, the foot is the place the point was put beside.
    worst.note((offset_from_line(line, point).offset_m - right) / 30.0, i);
  }
  agree_within_1e9("eased line: foot of a point", {worst});
}

#endif  // TILLERLINE_NATIVE
