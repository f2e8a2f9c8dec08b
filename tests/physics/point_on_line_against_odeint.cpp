// A point kept on the line by nose wheels at a limited rate, against Boost's ODE solver: a bicycle
// that is steered as planned comes out on the new centreline, along it, with the point on it, and
// its nose wheels never turn faster than they can.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/point_on_line.hpp"
#include "physics/path/steering_ramp.hpp"
#include "random_draws.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

const int kDraws = draw_count(400);

// Turn axis and heading; in the parts where the point is led, the heading of its way too.
using State = std::array<double, 4>;

// Nose wheels from one angle to another at the rate, over the way of the nose gear.
State ramp(const PointOnLineTurn& turn, State from, double from_rad, double to_rad) {
  const double way_m = std::abs(to_rad - from_rad) / turn.per_metre;
  const double rate = to_rad < from_rad ? -turn.per_metre : turn.per_metre;
  auto system = [&](const State& x, State& d, double n) {
    const double steering = from_rad + rate * n;
    d = {std::cos(steering) * std::cos(x[2]), std::cos(steering) * std::sin(x[2]),
         std::sin(steering) / turn.wheelbase_m, 0.0};
  };
  return integrate_ode<4>(system, from, 0.0, way_m);
}

// The point led along a curvature, over its own way.
State led(const PointOnLineTurn& turn, State from, double curvature_pm, double way_m) {
  auto system = [&](const State& x, State& d, double) {
    const double lag = x[3] - x[2];
    d = {std::cos(lag) * std::cos(x[2]), std::cos(lag) * std::sin(x[2]),
         std::sin(lag) / turn.ahead_m, curvature_pm};
  };
  return integrate_ode<4>(system, from, 0.0, way_m);
}

double lag_at(const PointOnLineTurn& turn, double steering_rad) {
  return std::atan(std::tan(steering_rad) * turn.ahead_m / turn.wheelbase_m);
}

State simulate(const PointOnLineTurn& turn) {
  State state{turn.start_past_arc_m - turn.ahead_m, 0.0, 0.0, 0.0};
  state = ramp(turn, state, 0.0, turn.entry_rad);
  state[3] = state[2] + lag_at(turn, turn.entry_rad);
  state = led(turn, state, 1.0 / turn.radius_m, turn.circle_m);
  state = led(turn, state, 0.0, turn.chord_m);
  if (turn.exit_nose_m > 0.0) {
    state = ramp(turn, state, turn.back_rad, turn.exit_rad);
    state[3] = state[2] + lag_at(turn, turn.exit_rad);
  }
  return state;
}

PointOnLineTurn draw_point(Draws& draws) {
  const double wheelbase_m = draws.between(16.0, 34.0);
  const double ahead_m = wheelbase_m * draws.by_size(0.03, 1.1);
  const double radius_m = wheelbase_m * draws.by_size(0.8, 3.5);
  return point_on_line_turn(radius_m, draws.between(0.2, 2.7), ahead_m, wheelbase_m,
                            draws.by_size(0.012, 0.15));
}

}  // namespace

TEST_CASE("point on the line: a bicycle steered as planned ends on the outbound centreline") {
  Draws draws(20261110);
  Worst miss, along, heading;
  int ramped = 0, met = 0, chords = 0, not_found = 0;
  for (int i = 0; miss.count < kDraws; ++i) {
    const PointOnLineTurn turn = draw_point(draws);
    if (!turn.found || turn.steering_rad > 1.3) {
      ++not_found;
      REQUIRE(not_found < 10 * kDraws);
      continue;
    }
    if (turn.ramps()) ++ramped;
    if (!turn.full) ++met;
    if (turn.chord_m > 0.0) ++chords;
    const State end = simulate(turn);
    const double x = end[0] + turn.ahead_m * std::cos(end[2]);
    const double y = end[1] + turn.ahead_m * std::sin(end[2]);
    const double out_x = x - turn.radius_m * std::sin(turn.turn_rad);
    const double out_y = y - turn.radius_m * (1.0 - std::cos(turn.turn_rad));
    const double size_m = turn.way_m() + turn.radius_m;
    // A short point lets errors of the solver grow.
    const double grows = std::max(1.0, turn.wheelbase_m / turn.ahead_m);
    miss.note((out_y * std::cos(turn.turn_rad) - out_x * std::sin(turn.turn_rad)) / size_m / grows,
              i);
    along.note(
        (out_x * std::cos(turn.turn_rad) + out_y * std::sin(turn.turn_rad) - turn.end_past_arc_m) /
            size_m / grows,
        i);
    heading.note((end[3] - turn.turn_rad) / grows, i);
  }
  agree_within_1e9("point on the line, steered as planned", {miss, along, heading});
  CHECK(ramped > kDraws / 3);
  CHECK(met > kDraws / 50);
  CHECK(chords < kDraws);
}

TEST_CASE("point on the line: poses are those of the simulated bicycle, rates within the limit") {
  Draws draws(20261111);
  Worst x, y, turned;
  int too_fast = 0;
  for (int i = 0; x.count < kDraws; ++i) {
    const PointOnLineTurn turn = draw_point(draws);
    if (!turn.found || turn.steering_rad > 1.3) continue;
    const SteeredPointMotion motion{turn, 1.0};
    const MotionPhases phases = phases_of_point(turn, 5.0, 2.0 * turn.ahead_m);
    for (const MotionPhase& phase : phases) {
      // From the plan's own begin of the part, through the solver, to a place in it.
      const double to_m = draws.between(phase.begin_m, phase.end_m);
      const SteeredPose from = motion.pose(phase.part, phase.begin_m);
      const SteeredPose there = motion.pose(phase.part, to_m);
      const double size_m = turn.way_m() + turn.radius_m;
      auto system = [&](const std::array<double, 3>& s, std::array<double, 3>& d, double at_m) {
        const SteeredPose here = motion.pose(phase.part, at_m);
        d = {here.forward * std::cos(s[2]), here.forward * std::sin(s[2]), here.turning};
      };
      const auto end = integrate_ode<3>(system, {from.axis.x_m, from.axis.y_m, from.heading_rad},
                                        phase.begin_m, to_m);
      x.note((end[0] - there.axis.x_m) / size_m, i);
      y.note((end[1] - there.axis.y_m) / size_m, i);
      turned.note(end[2] - there.heading_rad, i);
      // Rate over the way of the nose gear, by a small step.
      const double step_m = 1e-4 * (phase.end_m - phase.begin_m);
      const double at_m = std::clamp(to_m, phase.begin_m + step_m, phase.end_m - step_m);
      const SteeredPose a = motion.pose(phase.part, at_m - step_m);
      const SteeredPose b = motion.pose(phase.part, at_m + step_m);
      const SteeredPose m = motion.pose(phase.part, at_m);
      const double nose_way_m = 2.0 * step_m * m.forward / std::cos(m.steering_rad);
      if (std::abs(b.steering_rad - a.steering_rad) > turn.per_metre * nose_way_m * (1.0 + 1e-4))
        ++too_fast;
    }
  }
  agree_within_1e9("poses with a point on the line", {x, y, turned});
  CHECK(too_fast == 0);
}

TEST_CASE("point on the line: a ramp against the solver") {
  Draws draws(20261112);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    PointOnLineTurn turn;
    turn.wheelbase_m = draws.between(16.0, 34.0);
    turn.per_metre = draws.by_size(0.02, 0.2);
    const double from_rad = draws.between(0.0, 1.0);
    const double to_rad = draws.between(0.0, 1.0);
    const State end = ramp(turn, {}, from_rad, to_rad);
    const SteeringRamp got = steering_ramp(from_rad, to_rad, turn.per_metre, turn.wheelbase_m);
    const double size_m = 1.0 / turn.per_metre;
    worst.note((end[0] - got.axis.x_m) / size_m, i);
    worst.note((end[1] - got.axis.y_m) / size_m, i);
    worst.note(end[2] - got.heading_rad, i);
  }
  agree_within_1e9("steering ramp", {worst});
}

#endif  // TILLERLINE_NATIVE
