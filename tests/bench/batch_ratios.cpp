// How much faster the batch kernels are than the scalar closed forms and than a general ODE solver,
// in one run. Ratios are what counts: the times are those of this machine while it was busy or not.
//
//   cmake --build build/native --target bench && build/native/tests/bench
//
// Time and distance from rest to 10 kt for the same 64 x 32 random taxis: batch, scalar, and
// Boost's Dormand-Prince 5(4) at 1e-8 in the kind form (over speed, without an event to find). Then
// one whole uncertainty answer. Each figure is the least of nine repeats, taken in turns.
#include <algorithm>
#include <array>
#include <boost/numeric/odeint.hpp>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <vector>

#include "physics/draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/stations.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "physics/uncertainty/uncertainty.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr int kBlocks = 32;
constexpr int kRepeats = 9;
constexpr double kTarget_mps = units::mps_from_knots(10.0);

struct Taxis {
  std::vector<RollForces> forces;
  std::vector<BatchForces> blocks;
};

Taxis draw_taxis() {
  tests::Draws draws(1);
  Taxis taxis;
  for (int b = 0; b < kBlocks; ++b) {
    BatchForces block = batch_forces({.thrust_fall_nspm = 800.0, .drag_area_m2 = 11.0});
    for (int i = 0; i < kLanes; ++i) {
      RollForces f{.thrust_fall_nspm = 800.0, .drag_area_m2 = 11.0};
      f.mass_kg = block.mass_kg[i] = draws.between(150e3, 350e3);
      f.thrust_n = block.thrust_n[i] = f.mass_kg * 9.81 * draws.between(0.02, 0.03);
      f.rolling_resistance = block.rolling_resistance[i] = draws.between(0.009, 0.014);
      f.slope_rad = block.slope_rad[i] = draws.between(-0.004, 0.0);
      f.headwind_mps = block.headwind_mps[i] = draws.between(-6.0, 6.0);
      taxis.forces.push_back(f);
    }
    taxis.blocks.push_back(block);
  }
  return taxis;
}

double by_batch(const Taxis& taxis) {
  double sum = 0.0;
  const Lanes rest = same_in_all_lanes(0.0);
  const Lanes target = same_in_all_lanes(kTarget_mps);
  BatchLaw law;
  BatchPassage way;
  for (const BatchForces& block : taxis.blocks) {
    batch_roll_law(block, law);
    batch_passage(law, rest, target, way);
    for (int i = 0; i < kLanes; ++i) sum += way.time_s[i] + way.distance_m[i];
  }
  return sum;
}

double by_scalar(const Taxis& taxis) {
  double sum = 0.0;
  for (const RollForces& f : taxis.forces) {
    const Passage way = passage(roll_law(f), 0.0, kTarget_mps);
    sum += way.time_s + way.distance_m;
  }
  return sum;
}

double by_solver(const Taxis& taxis) {
  namespace odeint = boost::numeric::odeint;
  using State = std::array<double, 2>;
  double sum = 0.0;
  for (const RollForces& f : taxis.forces) {
    const RollLaw law = roll_law(f);
    State state{0.0, 0.0};
    const auto system = [&](const State&, State& d, double v) {
      const double a = acceleration_mps2(law, v);
      d = {1.0 / a, v / a};
    };
    auto stepper = odeint::make_controlled(1e-8, 1e-8, odeint::runge_kutta_dopri5<State>());
    odeint::integrate_adaptive(stepper, system, state, 0.0, kTarget_mps, kTarget_mps / 8.0);
    sum += state[0] + state[1];
  }
  return sum;
}

Brief usual_brief() {
  Brief b;
  for (int i = 0; i < 7; ++i) {
    Leg leg;
    leg.length_m = 600.0;
    leg.slope_rad = -0.001;
    if (i % 2 == 1) {
      leg.kind = LegKind::Arc;
      leg.turn_rad = i == 3 ? -1.2 : 1.5;
    }
    b.route.legs.push(leg);
  }
  return b;
}

template <class Work>
double seconds(Work&& work) {
  const auto begin = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
}

}  // namespace

int main() {
  const Taxis taxis = draw_taxis();
  const Brief brief = usual_brief();
  const Air air = standard_air(0.0);
  const PavementState pavement = pavement_state(brief.aircraft, brief.day);
  static FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(brief, air, turns);
  static RouteRun run;
  run = run_route(brief, air, brief.technique.braking, turns);
  double batch = 1e9, scalar = 1e9, solver = 1e9, answer = 1e9;
  double sums[3] = {};
  double check = 0.0;
  for (int n = 0; n < kRepeats; ++n) {
    batch = std::min(batch, seconds([&] { sums[0] = by_batch(taxis); }));
    scalar = std::min(scalar, seconds([&] { sums[1] = by_scalar(taxis); }));
    solver = std::min(solver, seconds([&] { sums[2] = by_solver(taxis); }));
    answer = std::min(
        answer, seconds([&] {
          check = uncertainty_answer(brief, air, pavement, turns, run, 573.15).line_up_k.p90;
        }));
  }
  const double taxi_ns = 1e9 / static_cast<double>(taxis.forces.size());
  std::printf("one roll to 10 kt: batch %.0f ns, scalar %.0f ns, dopri5 1e-8 %.0f ns\n",
              batch * taxi_ns, scalar * taxi_ns, solver * taxi_ns);
  std::printf("ratio to batch: scalar %.1f, dopri5 %.1f\n", scalar / batch, solver / batch);
  std::printf("apart: scalar %.1e, dopri5 %.1e\n", std::abs(sums[1] / sums[0] - 1.0),
              std::abs(sums[2] / sums[0] - 1.0));
  std::printf("uncertainty of a route of %zu legs and %zu pieces: %.2f ms (P90 %.1f K)\n",
              brief.route.legs.size(), run.pieces.size(), 1e3 * answer, check);
  return 0;
}
