// Tracks against Boost's ODE solver: the tractrix, its greatest deviation, and a bicycle whose nose
// wheels turn at a limited rate.
//
// Tolerances. Dormand-Prince at 1e-12 is good to about 1e-10 rad on the tractrix; 1e-9 is asked
// for. Lengths are compared against the way of the nose wheels, some hundred metres.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <vector>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/track.hpp"
#include "random_draws.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

const int kDraws = draw_count(2000);
constexpr double kPi = units::kPi;

double reference_lag(double lag, double length, double curvature, double distance) {
  auto system = [&](const std::array<double, 1>& x, std::array<double, 1>& d, double) {
    d[0] = curvature - std::sin(x[0]) / length;
  };
  return integrate_ode<1>(system, {lag}, 0.0, distance)[0];
}

double wrapped(double angle) { return std::remainder(angle, 2.0 * kPi); }

}  // namespace

TEST_CASE("track: lag on an arc agrees with the ODE solver for every ratio of radius to length") {
  Draws draws(20260201);
  enum { Wide, Equal, Tight, Straight, Count };
  const char* const names[] = {"lag on a wide arc", "lag, radius next to the wheelbase",
                               "lag on an arc tighter than the wheelbase", "lag on a straight"};
  for (int stratum = 0; stratum < Count; ++stratum) {
    CAPTURE(stratum);
    Worst worst;
    for (int i = 0; i < kDraws; ++i) {
      const double length = draws.between(8.0, 40.0);
      double radius = length * draws.by_size(1.05, 12.0);
      if (stratum == Equal) radius = length * (1.0 + draws.sign() * draws.by_size(1e-15, 1e-2));
      if (stratum == Equal && draws.below(5) == 0) radius = length;
      if (stratum == Tight) radius = length * draws.between(0.3, 0.98);
      const double curvature = stratum == Straight ? 0.0 : draws.sign() / radius;
      const double distance =
          stratum == Straight ? draws.between(0.0, 200.0) : radius * draws.between(0.0, kPi);
      const double lag = draws.below(3) == 0 ? 0.0 : draws.between(-1.2, 1.2);
      const double got = lag_after_m(lag, length, curvature, distance);
      worst.note(wrapped(got - reference_lag(lag, length, curvature, distance)), i);
    }
    agree_within_1e9(names[stratum], {worst});
  }
}

TEST_CASE("track: lag far off the path, over a short way") {
  Draws draws(20260202);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const double length = draws.between(8.0, 40.0);
    const double curvature = draws.sign() / (length * draws.between(0.4, 5.0));
    const double distance = length * draws.between(0.0, 2.0);
    const double lag = draws.between(-3.0, 3.0);
    // An error may grow by e a length where the lag runs away from itself.
    worst.note(wrapped(lag_after_m(lag, length, curvature, distance) -
                       reference_lag(lag, length, curvature, distance)) /
                   std::exp(distance / length),
               i);
  }
  agree_within_1e9("lag far off the path", {worst});
}

TEST_CASE("track: two arcs one after the other are the same as one") {
  Draws draws(20260203);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const double length = draws.between(8.0, 40.0);
    const double curvature = draws.sign() * draws.by_size(1.0 / 500.0, 1.0 / 15.0);
    const double first = draws.between(0.0, 60.0);
    const double second = draws.between(0.0, 60.0);
    const double lag = draws.between(-1.0, 1.0);
    const double in_two =
        lag_after_m(lag_after_m(lag, length, curvature, first), length, curvature, second);
    worst.note(wrapped(in_two - lag_after_m(lag, length, curvature, first + second)), i);
  }
  CHECK(worst.error < 1e-13);
}

// --- Greatest deviation, by looking everywhere ---------------------------------------------------

namespace {

struct Turn {
  double radius, angle, length;
};

// Inward distance of a point from straight - arc - straight: from the nearest of the pieces that it
// lies abeam of. The arc begins at the origin and turns to the right (y positive), its centre lies
// at (0, radius).
double inward_distance(const Turn& turn, double x, double y) {
  const double out_x = turn.radius * std::sin(turn.angle);
  const double out_y = turn.radius * (1.0 - std::cos(turn.angle));
  const double along = (x - out_x) * std::cos(turn.angle) + (y - out_y) * std::sin(turn.angle);
  const double angle = std::atan2(x, turn.radius - y);  // turned from the arc's begin
  double nearest = std::numeric_limits<double>::infinity();
  auto consider = [&](double inward) {
    if (std::abs(inward) < std::abs(nearest)) nearest = inward;
  };
  if (x <= 0.0) consider(y);
  if (along >= 0.0)
    consider(-(x - out_x) * std::sin(turn.angle) + (y - out_y) * std::cos(turn.angle));
  if (angle >= 0.0 && angle <= turn.angle) consider(turn.radius - std::hypot(x, turn.radius - y));
  return nearest;
}

// The main gear's deviation when the leading point is `s` past the arc's begin with lag `lag`.
double deviation(const Turn& turn, double s, double lag) {
  const double on_arc = std::min(s, turn.radius * turn.angle);
  const double heading_of_path = on_arc / turn.radius;
  const double beyond = s - on_arc;
  const double x = turn.radius * std::sin(heading_of_path) + beyond * std::cos(heading_of_path);
  const double y =
      turn.radius * (1.0 - std::cos(heading_of_path)) + beyond * std::sin(heading_of_path);
  const double heading = heading_of_path - lag;
  return inward_distance(turn, x - turn.length * std::cos(heading),
                         y - turn.length * std::sin(heading));
}

double greatest_deviation(const Turn& turn) {
  const double arc = turn.radius * turn.angle;
  auto lag_from = [&](double lag, double from, double to) {
    if (from < arc && to > arc) {
      lag = reference_lag(lag, turn.length, 1.0 / turn.radius, arc - from);
      return reference_lag(lag, turn.length, 0.0, to - arc);
    }
    return reference_lag(lag, turn.length, from < arc ? 1.0 / turn.radius : 0.0, to - from);
  };
  // Look at 400 places from the arc's begin to four lengths past its end, then between the
  // neighbours of the best by golden section.
  constexpr int kPlaces = 400;
  const double step = (arc + 4.0 * turn.length) / kPlaces;
  std::vector<double> lags{0.0};
  int best = 0;
  double greatest = 0.0;
  for (int k = 1; k <= kPlaces; ++k) {
    lags.push_back(lag_from(lags.back(), (k - 1) * step, k * step));
    const double here = deviation(turn, k * step, lags.back());
    if (here > greatest) {
      greatest = here;
      best = k;
    }
  }
  double low = std::max(0, best - 1) * step, high = (best + 1) * step;
  const double start = low;
  const double start_lag = lags[static_cast<std::size_t>(std::max(0, best - 1))];
  auto at = [&](double s) { return deviation(turn, s, lag_from(start_lag, start, s)); };
  const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
  for (int k = 0; k < 60; ++k) {
    const double a = high - golden * (high - low), b = low + golden * (high - low);
    (at(a) < at(b) ? low : high) = at(a) < at(b) ? a : b;
  }
  return std::max(greatest, at(0.5 * (low + high)));
}

}  // namespace

TEST_CASE("track: greatest deviation agrees with looking everywhere") {
  Draws draws(20260204);
  Worst worst;
  for (int i = 0; i < 300; ++i) {
    Turn turn;
    turn.length = draws.between(10.0, 40.0);
    turn.radius = turn.length * draws.by_size(0.6, 6.0);
    turn.angle = draws.between(0.15, kPi);
    // With a lag near 90 deg the leading point drags the body sideways and the main gear passes the
    // arc's centre: no nose wheel turns that far, and "inward" loses its meaning.
    const double end_lag =
        lag_after_m(0.0, turn.length, 1.0 / turn.radius, turn.radius * turn.angle);
    if (end_lag > 1.35) continue;
    CAPTURE(i);
    worst.note(
        largest_off_tracking_m(turn.radius, turn.angle, turn.length) / greatest_deviation(turn) -
            1.0,
        i);
  }
  CAPTURE(worst.at);
  CHECK(worst.error < 1e-9);
  CHECK(worst.count > 250);
}

// --- A bicycle with a limited steering rate ------------------------------------------------------

namespace {

struct Steered {
  double radius, angle, wheelbase, eye, rate, speed;
};

struct Simulated {
  double x, y, heading;
};

// Position of the main gear after the nose gear has moved `nose_m`. State x, y, heading over the
// nose gear's path; the nose-wheel angle rises, holds and falls with the rate.
Simulated simulate(const Steered& s, const GearOnLineTurn& turn, double nose_m) {
  const double per_metre = s.rate / s.speed;
  auto steering = [&](double n) {
    return std::clamp(std::min(per_metre * n, per_metre * (turn.nose_path_m - n)), 0.0,
                      turn.steering_rad);
  };
  auto system = [&](const std::array<double, 3>& x, std::array<double, 3>& d, double n) {
    const double delta = steering(n);
    d = {std::cos(delta) * std::cos(x[2]), std::cos(delta) * std::sin(x[2]),
         std::sin(delta) / s.wheelbase};
  };
  std::array<double, 3> state{-turn.start_before_arc_m, 0.0, 0.0};
  // The solver is told where the steering changes its law.
  double from = 0.0;
  for (const double knot : {turn.ramp_nose_m, turn.nose_path_m - turn.ramp_nose_m, nose_m}) {
    const double to = std::min(knot, nose_m);
    if (to > from) state = integrate_ode<3>(system, state, from, to);
    from = std::max(from, to);
  }
  return {state[0], state[1], state[2]};
}

Steered draw_steered(Draws& draws) {
  Steered s;
  s.wheelbase = draws.between(18.0, 34.0);
  s.eye = s.wheelbase + draws.between(0.0, 6.0);
  s.radius = s.wheelbase * draws.by_size(0.7, 4.0);
  s.angle = draws.between(0.3, kPi);
  s.rate = draws.between(0.08, 0.4);
  s.speed = draws.between(1.5, 6.0);
  return s;
}

GearOnLineTurn planned(const Steered& s) {
  return gear_on_line_turn(s.radius, s.angle, s.wheelbase, s.eye, 1.3, s.rate, s.speed);
}

// Distance of a point past the outbound centreline (positive: outside the turn).
double past_outbound(const Steered& s, double x, double y) {
  const double out_x = s.radius * std::sin(s.angle);
  const double out_y = s.radius * (1.0 - std::cos(s.angle));
  return (x - out_x) * std::sin(s.angle) - (y - out_y) * std::cos(s.angle);
}

}  // namespace

TEST_CASE("track: a bicycle steered as planned ends on the outbound centreline") {
  Draws draws(20260205);
  Worst miss, heading, pose_x, pose_y, pose_heading;
  int full = 0, partial = 0;
  for (int i = 0; miss.count < kDraws; ++i) {
    const Steered s = draw_steered(draws);
    const GearOnLineTurn turn = planned(s);
    if (!turn.possible) continue;
    (turn.full_deflection ? full : partial) += 1;
    const Simulated end = simulate(s, turn, turn.nose_path_m);
    miss.note(past_outbound(s, end.x, end.y) / turn.nose_path_m, i);
    heading.note(end.heading - s.angle, i);
    const double nose_m = draws.between(0.0, turn.nose_path_m);
    const Simulated there = simulate(s, turn, nose_m);
    const Pose pose = gear_on_line_pose(turn, s.radius, s.angle, s.wheelbase, nose_m);
    pose_x.note((pose.gear.x_m - there.x) / turn.nose_path_m, i);
    pose_y.note((pose.gear.y_m - there.y) / turn.nose_path_m, i);
    pose_heading.note(pose.heading_rad - there.heading, i);
  }
  agree_within_1e9("bicycle steered as planned", {miss, heading, pose_x, pose_y, pose_heading});
  CHECK(full > kDraws / 4);
  CHECK(partial > kDraws / 100);
}

TEST_CASE("track: overshoot of nose and eye is the furthest of the simulated path") {
  Draws draws(20260206);
  Worst nose, eye;
  const int cases = std::min(200, draw_count(200));  // thousands of integrations each
  for (int i = 0; i < cases; ++i) {
    const Steered s = draw_steered(draws);
    const GearOnLineTurn turn = planned(s);
    if (!turn.possible) continue;
    auto overshoot = [&](double ahead) {
      auto at = [&](double n) {
        const Simulated p = simulate(s, turn, n);
        return past_outbound(s, p.x + ahead * std::cos(p.heading),
                             p.y + ahead * std::sin(p.heading));
      };
      constexpr int kPlaces = 120;
      int best = 0;
      double furthest = -1e9;
      for (int k = 0; k <= kPlaces; ++k) {
        const double here = at(turn.nose_path_m * k / kPlaces);
        if (here > furthest) {
          furthest = here;
          best = k;
        }
      }
      double low = turn.nose_path_m * std::max(0, best - 1) / kPlaces;
      double high = turn.nose_path_m * std::min(kPlaces, best + 1) / kPlaces;
      const double golden = 0.5 * (std::sqrt(5.0) - 1.0);
      for (int k = 0; k < 40; ++k) {
        const double a = high - golden * (high - low), b = low + golden * (high - low);
        (at(a) < at(b) ? low : high) = at(a) < at(b) ? a : b;
      }
      return std::max({0.0, furthest, at(0.5 * (low + high))});
    };
    nose.note(turn.nose_overshoot_m - overshoot(s.wheelbase), i);
    eye.note(turn.eye_overshoot_m - overshoot(s.eye), i);
  }
  CAPTURE(nose.at);
  CHECK(nose.error < 1e-7);  // the search stops at about this
  CAPTURE(eye.at);
  CHECK(eye.error < 1e-7);
}

TEST_CASE("track: steering at once puts the main gear exactly on the arc") {
  Draws draws(20260207);
  Worst on_arc, path, start;
  for (int i = 0; i < kDraws; ++i) {
    const Steered s = draw_steered(draws);
    const GearOnLineTurn turn =
        gear_on_line_turn(s.radius, s.angle, s.wheelbase, s.eye, 1.3, 0.0, s.speed);
    if (!turn.possible) continue;
    const double n = draws.between(0.0, turn.nose_path_m);
    const Pose pose = gear_on_line_pose(turn, s.radius, s.angle, s.wheelbase, n);
    on_arc.note(std::hypot(pose.gear.x_m, pose.gear.y_m - s.radius) - s.radius, i);
    path.note(turn.nose_path_m / (std::hypot(s.radius, s.wheelbase) * s.angle) - 1.0, i);
    if (s.angle < 3.0)  // tan(angle / 2) grows without bound towards 180 deg
      start.note(turn.nose_past_crossing_m - (s.wheelbase - s.radius * std::tan(s.angle / 2.0)), i);
  }
  CHECK(on_arc.error < 1e-11);
  CHECK(path.error < 1e-13);
  CHECK(start.error < 1e-10);
}

TEST_CASE("track: a radius that the steering can't reach is refused") {
  // 1.0 rad at most: the radius must be at least wheelbase / tan(1.0).
  const double least = 30.0 / std::tan(1.0);
  CHECK(gear_on_line_turn(1.0001 * least, 1.5, 30.0, 33.0, 1.0, 0.0, 3.0).possible);
  CHECK(!gear_on_line_turn(0.9999 * least, 1.5, 30.0, 33.0, 1.0, 0.0, 3.0).possible);
}

#endif  // TILLERLINE_NATIVE
