// The batch kernels against Boost's ODE solver and against the scalar closed forms.
//
// Tolerances as in motion_against_odeint.cpp: near a terminal speed errors are taken over the
// condition 1 + |a0|/|a1| + |a1|/|a0|.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/batch_heat.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "random_draws.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

RollForces draw_forces(Draws& draws) {
  RollForces f;
  f.mass_kg = draws.between(60e3, 550e3);
  f.thrust_n = f.mass_kg * units::kGravity_mps2 * draws.between(0.008, 0.05);
  f.thrust_fall_nspm = draws.between(0.0, 1500.0);
  f.rolling_resistance = draws.between(0.008, 0.025);
  f.breakaway_resistance = f.rolling_resistance * draws.between(1.0, 1.5);
  f.rolling_speed_factor_s2pm2 = draws.coin() ? 0.0 : draws.by_size(1e-6, 1e-4);
  f.slope_rad = draws.between(-0.03, 0.03);
  f.headwind_mps = draws.between(-15.0, 15.0);
  f.overtaken_thrust_share = draws.coin() ? 0.0 : draws.between(0.0, 1.0);
  f.drag_area_m2 = draws.between(5.0, 25.0);
  f.air_density_kgpm3 = draws.between(0.9, 1.4);
  f.scrub_drag_n = draws.coin() ? 0.0 : draws.between(0.0, 0.01) * f.mass_kg * 9.8;
  f.displacement_drag_nspm2 = draws.coin() ? 0.0 : draws.between(0.0, 60.0);
  f.snow_drag_nspm = draws.coin() ? 0.0 : draws.between(0.0, 600.0);
  f.cornering_offset_n = draws.coin() ? 0.0 : draws.between(-300.0, 0.0);
  f.cornering_drag_nspm2 = draws.coin() ? 0.0 : draws.between(0.0, 60.0);
  f.dragging_brake_n = draws.coin() ? 0.0 : draws.between(0.0, 3e3);
  return f;
}

struct Lane {
  RollForces forces;
  double v0, v1;
};

// What differs from lane to lane of a block; the rest is the first lane's.
RollForces like(const RollForces& first, RollForces other) {
  other.thrust_fall_nspm = first.thrust_fall_nspm;
  other.rolling_speed_factor_s2pm2 = first.rolling_speed_factor_s2pm2;
  other.drag_area_m2 = first.drag_area_m2;
  other.air_density_kgpm3 = first.air_density_kgpm3;
  other.displacement_drag_nspm2 = first.displacement_drag_nspm2;
  other.snow_drag_nspm = first.snow_drag_nspm;
  other.cornering_offset_n = first.cornering_offset_n;
  other.cornering_drag_nspm2 = first.cornering_drag_nspm2;
  other.dragging_brake_n = first.dragging_brake_n;
  return other;
}

BatchForces block_of(const Lane (&lanes)[kLanes]) {
  BatchForces forces = batch_forces(lanes[0].forces);
  for (int i = 0; i < kLanes; ++i) {
    const RollForces& f = lanes[i].forces;
    forces.mass_kg[i] = f.mass_kg;
    forces.thrust_n[i] = f.thrust_n;
    forces.rolling_resistance[i] = f.rolling_resistance;
    forces.slope_rad[i] = f.slope_rad;
    forces.headwind_mps[i] = f.headwind_mps;
    forces.overtaken_thrust_share[i] = lanes[i].forces.overtaken_thrust_share;
    forces.scrub_drag_n[i] = f.scrub_drag_n;
  }
  return forces;
}

// Time and distance by the solver, told about the kink at v = -headwind.
std::array<double, 2> by_solver(const RollLaw& law, double v0, double v1) {
  auto system = [&](const std::array<double, 2>&, std::array<double, 2>& d, double v) {
    const double a = acceleration_mps2(law, v);
    d = {1.0 / a, v / a};
  };
  std::array<double, 2> state{0.0, 0.0};
  double from = v0;
  if (law.split_mps > std::min(v0, v1) && law.split_mps < std::max(v0, v1)) {
    state = integrate_ode<2>(system, state, from, law.split_mps);
    from = law.split_mps;
  }
  return integrate_ode<2>(system, state, from, v1);
}

double least_towards(const RollLaw& law, double v0, double v1) {
  const double direction = v1 > v0 ? 1.0 : -1.0;
  double least = direction * acceleration_mps2(law, v0);
  for (int k = 0; k <= 200; ++k)
    least = std::min(least, direction * acceleration_mps2(law, v0 + (v1 - v0) * k / 200.0));
  return least;
}

}  // namespace

TEST_CASE("batch: time and distance agree with the ODE solver and the scalar form") {
  Draws draws(20261101);
  Worst time, distance, scalar_time, scalar_distance;
  int refused = 0, across = 0, slowed = 0;
  const int blocks = 1 + draw_count(2000) / kLanes;
  for (int b = 0; b < blocks; ++b) {
    Lane lanes[kLanes];
    Lanes v0, v1;
    const RollForces first = draw_forces(draws);
    for (int i = 0; i < kLanes; ++i) {
      Lane& lane = lanes[i];
      lane.forces = like(first, draw_forces(draws));
      const RollLaw law = roll_law(lane.forces);
      lane.v0 = draws.coin() ? 0.0 : draws.between(0.0, 10.0);
      lane.v1 = draws.between(0.5, 15.0);
      if (acceleration_mps2(law, lane.v0) < 0.0) lane.v1 = draws.between(0.0, lane.v0);
      if (i % 4 == 3) {  // close to where it settles
        const TerminalSpeed end = terminal_speed(law, lane.v0);
        if (end.exists)
          lane.v1 = lane.v0 + (end.speed_mps - lane.v0) * (1.0 - draws.by_size(1e-7, 1e-1));
      }
      v0[i] = lane.v0;
      v1[i] = lane.v1;
    }
    BatchLaw law;
    BatchPassage way;
    batch_roll_law(block_of(lanes), law);
    batch_passage(law, v0, v1, way);
    for (int i = 0; i < kLanes; ++i) {
      const RollLaw one = roll_law(lanes[i].forces);
      const double least = least_towards(one, v0[i], v1[i]);
      if (std::abs(least) < 1e-9 || std::abs(v1[i] - v0[i]) < 1e-3) continue;
      CAPTURE(b);
      CAPTURE(i);
      CHECK((way.reached[i] > 0.0) == (least > 0.0));
      if (least < 0.0) {
        CHECK(way.time_s[i] == 0.0);
        CHECK(way.distance_m[i] == 0.0);
        ++refused;
        continue;
      }
      const double a0 = std::abs(acceleration_mps2(one, v0[i]));
      const double a1 = std::abs(acceleration_mps2(one, v1[i]));
      const double condition = 1.0 + a0 / a1 + a1 / a0;
      const auto reference = by_solver(one, v0[i], v1[i]);
      const Passage scalar = passage(one, v0[i], v1[i]);
      time.note((way.time_s[i] / reference[0] - 1.0) / condition, i);
      distance.note((way.distance_m[i] / reference[1] - 1.0) / condition, i);
      scalar_time.note((way.time_s[i] / scalar.time_s - 1.0) / condition, i);
      scalar_distance.note((way.distance_m[i] / scalar.distance_m - 1.0) / condition, i);
      if (one.split_mps > std::min(v0[i], v1[i]) && one.split_mps < std::max(v0[i], v1[i]))
        ++across;
      if (v1[i] < v0[i]) ++slowed;
    }
  }
  agree_within_1e9("batch: time and distance", {time, distance});
  CHECK(scalar_time.error < 1e-11);
  CHECK(scalar_distance.error < 1e-11);
  CHECK(refused > blocks);
  CHECK(across > blocks);
  CHECK(slowed > blocks);
}

TEST_CASE("batch: acceleration, margin and critical slope are the scalar ones") {
  Draws draws(20261102);
  Worst acceleration, margin, slope;
  for (int b = 0; b < 40; ++b) {
    Lane lanes[kLanes];
    const RollForces first = draw_forces(draws);
    Lanes speed, resistance, a, m, s;
    for (int i = 0; i < kLanes; ++i) {
      lanes[i].forces = like(first, draw_forces(draws));
      speed[i] = draws.between(0.0, 20.0);
      resistance[i] = lanes[i].forces.breakaway_resistance;
    }
    const BatchForces forces = block_of(lanes);
    BatchLaw law;
    batch_roll_law(forces, law);
    batch_acceleration(law, speed, a);
    batch_margin(forces, resistance, m);
    batch_critical_slope(forces, resistance, s);
    for (int i = 0; i < kLanes; ++i) {
      const RollForces& f = lanes[i].forces;
      acceleration.note(a[i] - acceleration_mps2(roll_law(f), speed[i]), i);
      margin.note((m[i] - breakaway_margin_n(f)) / (f.mass_kg * units::kGravity_mps2), i);
      slope.note(s[i] - critical_slope_rad(f, resistance[i]), i);
    }
  }
  CHECK(acceleration.error < 1e-14);
  CHECK(margin.error < 1e-15);
  CHECK(slope.error < 1e-15);
}

TEST_CASE("batch: a pack that is heated and cools agrees with the ODE solver") {
  Draws draws(20261103);
  Worst worst, against_exact;
  const int blocks = 1 + draw_count(1000) / kLanes;
  for (int b = 0; b < blocks; ++b) {
    HeatPack first;
    first.material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel;
    first.emissivity = draws.between(0.3, 0.95);
    first.convection_wpm2k = draws.between(2.0, 30.0);
    first.air_k = draws.between(250.0, 320.0);
    BatchPack pack = batch_pack(first);
    HeatPack packs[kLanes];
    Lanes power, temperature;
    double start[kLanes];
    const double time_s = draws.between(5.0, 120.0);
    for (int i = 0; i < kLanes; ++i) {
      packs[i] = first;
      packs[i].mass_kg = pack.mass_kg[i] = draws.between(30.0, 90.0);
      packs[i].area_m2 = pack.area_m2[i] = draws.between(0.4, 1.2);
      power[i] = draws.coin() ? 0.0 : draws.between(0.0, 500.0) * pack.mass_kg[i] * 60.0 / time_s;
      temperature[i] = start[i] = draws.between(first.air_k, 800.0);
    }
    batch_heat(pack, power, time_s, 16, temperature);
    for (int i = 0; i < kLanes; ++i) {
      auto system = [&](const std::array<double, 1>& t, std::array<double, 1>& d, double) {
        d = {(power[i] - cooling_power_w(packs[i], t[0])) /
             (packs[i].mass_kg * specific_heat_jpkgk(packs[i].material, t[0]))};
      };
      const auto end = integrate_ode<1>(system, {start[i]}, 0.0, time_s);
      worst.note(temperature[i] / end[0] - 1.0, i);
      const double exact = temperature_after_time_k(packs[i], start[i], time_s, power[i]);
      against_exact.note(temperature[i] - exact, i);
    }
  }
  agree_within_1e9("batch: brake temperature, sixteen steps", {worst});
  CHECK(against_exact.error < 1e-6);
}

TEST_CASE("batch: one step of two minutes is good to a thousandth of a kelvin") {
  Draws draws(20261104);
  Worst worst;
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel}) {
    HeatPack one;
    one.material = material;
    BatchPack pack = batch_pack(one);
    Lanes power, temperature;
    double start[kLanes];
    for (int i = 0; i < kLanes; ++i) {
      temperature[i] = start[i] = draws.between(280.0, 750.0);
      // At most 60 K warmer, by the least specific heat.
      power[i] = i % 2 == 0 ? 0.0 : draws.between(0.0, 60.0) * one.mass_kg * 430.0 / 120.0;
    }
    batch_heat(pack, power, 120.0, 1, temperature);
    for (int i = 0; i < kLanes; ++i)
      worst.note(temperature[i] - temperature_after_time_k(one, start[i], 120.0, power[i]), i);
  }
  CHECK(worst.error < 1e-3);
}

#endif  // TILLERLINE_NATIVE
