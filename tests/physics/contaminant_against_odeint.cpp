// The roll through a loose contaminant, with a brake that drags, against Boost's ODE solver: the
// forces are written down once more here, displacement drag always against the motion.
//
// Errors of time and distance are relative and, near a balance of forces, against the condition of
// the case: 1 + a_top / a_least, with a_top the largest and a_least the smallest acceleration met.
// Where a(v) is the small difference of large forces, its own last digit is allowed for as well.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/motion/roll.hpp"
#include "physics/world/surface.hpp"
#include "random_draws.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

double balance_mps2(const RollForces& f, double v) {
  const double weight = f.mass_kg * 9.80665;
  const double air = v + f.headwind_mps;
  const double resistance = weight * std::cos(f.slope_rad) * f.rolling_resistance +
                            0.5 * f.air_density_kgpm3 * f.drag_area_m2 * air * std::abs(air) +
                            (f.displacement_drag_nspm2 + f.cornering_drag_nspm2) * v * v +
                            f.snow_drag_nspm * v + f.cornering_offset_n + f.scrub_drag_n +
                            f.dragging_brake_n;
  const double taken_in = air > 0.0 ? air : f.overtaken_thrust_share * air;
  return (f.thrust_n - f.thrust_fall_nspm * taken_in - weight * std::sin(f.slope_rad) -
          resistance) /
         f.mass_kg;
}

struct Reference {
  double time_s, distance_m;
};

Reference over_speed(const RollForces& f, double v0, double v1) {
  const auto system = [&](const std::array<double, 2>&, std::array<double, 2>& d, double gain) {
    const double v = v0 + gain;
    const double a = balance_mps2(f, v);
    d = {1.0 / a, v / a};
  };
  const double kink = -f.headwind_mps;
  std::array<double, 2> state{0.0, 0.0};
  double from = 0.0;
  if (kink > std::min(v0, v1) && kink < std::max(v0, v1)) {
    state = integrate_ode<2>(system, state, from, kink - v0);
    from = kink - v0;
  }
  state = integrate_ode<2>(system, state, from, v1 - v0);
  return {state[0], state[1]};
}

// Smallest and largest acceleration towards v1 on the way.
struct Range {
  double least, most;
};
Range towards(const RollForces& f, double v0, double v1) {
  const double direction = v1 > v0 ? 1.0 : -1.0;
  Range range{1e9, 0.0};
  for (int k = 0; k <= 200; ++k) {
    const double a = direction * balance_mps2(f, v0 + (v1 - v0) * k / 200.0);
    range.least = std::min(range.least, a);
    range.most = std::max(range.most, a);
  }
  return range;
}

enum class Stratum { Free, WindFlips, NearDouble, NearTerminal, FromRest, ToRest, Dragging, Count };
constexpr const char* kStrata[] = {
    "contaminant: accelerating and slowing", "contaminant: a tailwind turns the air drag round",
    "contaminant: discriminant near zero",   "contaminant: terminal speed just above the target",
    "contaminant: from a standstill",        "contaminant: to a standstill",
    "contaminant: with a brake that drags"};

struct Case {
  RollForces forces;
  double v0 = 0.0, v1 = 0.0;
};

// Slush, water or snow of any depth on any number of wheels: up to 60 N s2/m2 a tonne.
RollForces draw_forces(Draws& draws) {
  RollForces f;
  f.mass_kg = draws.between(60e3, 500e3);
  f.thrust_n = f.mass_kg * 9.8 * draws.between(0.01, 0.05);
  f.thrust_fall_nspm = draws.between(0.0, 1500.0);
  f.rolling_resistance = draws.between(0.008, 0.02);
  f.slope_rad = draws.between(-0.02, 0.02);
  f.headwind_mps = draws.between(-12.0, 12.0);
  f.overtaken_thrust_share = draws.coin() ? 0.0 : draws.between(0.0, 1.0);
  f.drag_area_m2 = draws.between(5.0, 20.0);
  const double tyre =
      tyre_displacement_drag_nspm2(draws.between(0.3, 0.55), draws.between(0.05, 0.12),
                                   draws.between(0.003, 0.1), draws.between(200.0, 1000.0));
  f.displacement_drag_nspm2 = tyre * (4.0 + draws.below(12));
  f.snow_drag_nspm = draws.coin() ? 0.0 : draws.between(0.0, 2e3);
  f.dragging_brake_n = draws.coin() ? 0.0 : draws.between(0.0, 5e3);
  return f;
}

// Adds a constant force that makes the acceleration at v the one wanted.
void set_acceleration(RollForces& f, double v, double wanted_mps2) {
  f.thrust_n += f.mass_kg * (wanted_mps2 - balance_mps2(f, v));
}

Case draw_case(Draws& draws, Stratum stratum) {
  Case c{draw_forces(draws), draws.between(0.0, 8.0), draws.between(0.5, 14.0)};
  switch (stratum) {
    case Stratum::WindFlips:
      c.forces.headwind_mps = -(std::min(c.v0, c.v1) + 0.5 * std::abs(c.v1 - c.v0));
      break;
    case Stratum::NearDouble: {
      // Slowing, where a(v) nearly touches zero between the two speeds: a(top) = -tiny there.
      c.forces.headwind_mps = draws.between(0.0, 8.0);
      c.v0 = draws.between(6.0, 14.0);
      c.v1 = draws.between(0.0, 4.0);
      // A falling thrust that would rise with speed has no meaning; the touch is made by B > 0.
      const double touch = draws.between(4.5, 5.5);
      const double square = c.forces.displacement_drag_nspm2 +
                            0.5 * c.forces.air_density_kgpm3 * c.forces.drag_area_m2;
      c.forces.snow_drag_nspm = 0.0;
      c.forces.thrust_fall_nspm = -2.0 * square * touch - c.forces.air_density_kgpm3 *
                                                              c.forces.drag_area_m2 *
                                                              c.forces.headwind_mps;
      set_acceleration(c.forces, touch, -draws.by_size(1e-7, 1e-2));
      break;
    }
    case Stratum::NearTerminal:
      // a(v) vanishes just behind v1, and the wind never turns.
      c.forces.headwind_mps = draws.between(0.0, 10.0);
      c.v0 = draws.between(0.0, 4.0);
      c.v1 = draws.between(5.0, 14.0);
      set_acceleration(c.forces, c.v1 + (c.v1 - c.v0) * draws.by_size(1e-6, 1e-2), 0.0);
      break;
    case Stratum::FromRest:
      c.v0 = 0.0;
      set_acceleration(c.forces, 0.0, draws.by_size(1e-4, 0.3));
      break;
    case Stratum::ToRest:
      c.v0 = draws.between(0.2, 14.0);
      c.v1 = 0.0;
      c.forces.thrust_n *= draws.between(0.0, 0.5);
      break;
    case Stratum::Dragging:
      c.forces.dragging_brake_n = draws.between(1e3, 2e4);
      break;
    case Stratum::Free:
    case Stratum::Count:
      break;
  }
  if (balance_mps2(c.forces, c.v0) < 0.0 && c.v1 > c.v0) std::swap(c.v0, c.v1);
  return c;
}

}  // namespace

TEST_CASE("contaminant: time and distance agree with the ODE solver") {
  Draws draws(20260410);
  const int wanted = draw_count(1500);
  for (int s = 0; s < static_cast<int>(Stratum::Count); ++s) {
    const auto stratum = static_cast<Stratum>(s);
    Worst time, distance;
    int drawn = 0;
    while (time.count < wanted) {
      REQUIRE(++drawn < 60 * wanted);
      const Case c = draw_case(draws, stratum);
      const Range range = towards(c.forces, c.v0, c.v1);
      const Passage passed = passage(roll_law(c.forces), c.v0, c.v1);
      // Off the threshold the verdict must be right; on it there is nothing to compare.
      if (range.least < -1e-9) CHECK(!passed.reached);
      if (range.least < 1e-9 || std::abs(c.v1 - c.v0) < 1e-3) continue;
      CAPTURE(s);
      CAPTURE(drawn);
      CHECK(passed.reached);
      const Reference reference = over_speed(c.forces, c.v0, c.v1);
      const double scale = 1.0 + range.most / range.least;
      time.note((passed.time_s / reference.time_s - 1.0) / scale, drawn);
      distance.note((passed.distance_m / reference.distance_m - 1.0) / scale, drawn);
    }
    agree_within_1e9(kStrata[s], {time, distance});
  }
}

TEST_CASE("contaminant: the speed it settles at is a balance of forces") {
  Draws draws(20260411);
  Worst worst;
  for (int i = 0; i < draw_count(1500); ++i) {
    RollForces f = draw_forces(draws);
    set_acceleration(f, 0.0, draws.by_size(1e-3, 0.3));
    const TerminalSpeed terminal = terminal_speed(roll_law(f), 0.0);
    // Displacement drag is a square of the speed: there always is one.
    REQUIRE(terminal.exists);
    worst.note(balance_mps2(f, terminal.speed_mps), i);
  }
  agree_within_1e9("contaminant: terminal speed", {worst});
}

#endif  // TILLERLINE_NATIVE
