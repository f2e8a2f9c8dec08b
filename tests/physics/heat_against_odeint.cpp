// Heating and cooling of a heat pack against Boost's ODE solver.
//
// The core integrates over temperature (Gauss-Legendre) and inverts; the solver here goes forward
// in time. Tolerances: the solver is good to some 1e-11 at 1e-12; 1e-9 is asked for. The specific
// heat changes its polynomial at 1000 K (carbon) or 600 degC (steel), which the solver is told of:
// it stops there and starts again.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/heat/heat.hpp"
#include "physics/motion/application.hpp"
#include "physics/numerics/units.hpp"
#include "physics/run/stop.hpp"
#include "random_draws.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

const int kDraws = draw_count(2000);

HeatPack draw_pack(Draws& draws) {
  HeatPack pack;
  pack.material = draws.below(4) == 0 ? BrakeMaterial::Steel : BrakeMaterial::Carbon;
  pack.mass_kg = draws.between(30.0, 120.0);
  pack.area_m2 = draws.between(0.3, 1.5);
  pack.emissivity = draws.below(8) == 0 ? 0.0 : draws.between(0.3, 1.0);
  pack.convection_wpm2k = draws.between(3.0, 40.0);
  pack.air_k = draws.between(235.0, 320.0);
  return pack;
}

// Written down again, so that the equation is not the core's.
double heat_flow_out_w(const HeatPack& pack, double t_k) {
  return pack.convection_wpm2k * pack.area_m2 * (t_k - pack.air_k) +
         pack.emissivity * 5.670374419e-8 * pack.area_m2 *
             (std::pow(t_k, 4) - std::pow(pack.air_k, 4));
}

double knot_k(const HeatPack& pack) {
  return pack.material == BrakeMaterial::Carbon ? 1000.0 : units::kelvin_from_celsius(600.0);
}

double reference_temperature(const HeatPack& pack, double from_k, double time_s, double power_w) {
  auto rate = [&](double t_k) {
    return (power_w - heat_flow_out_w(pack, t_k)) /
           (pack.mass_kg * specific_heat_jpkgk(pack.material, t_k));
  };
  auto over_time = [&](const std::array<double, 1>& t, std::array<double, 1>& d, double) {
    d[0] = rate(t[0]);
  };
  const double knot = knot_k(pack);
  const bool rises = rate(from_k) > 0.0;
  const bool towards_knot =
      rises ? from_k < knot && rate(knot) > 0.0 : from_k > knot && rate(knot) < 0.0;
  double left_s = time_s;
  if (towards_knot) {
    auto over_temperature = [&](const std::array<double, 1>&, std::array<double, 1>& d, double t) {
      d[0] = 1.0 / rate(t);
    };
    // On this side of the knot up to its last bit.
    const double near_side = std::nextafter(knot, from_k);
    const double until_s = integrate_ode<1>(over_temperature, {0.0}, from_k, near_side)[0];
    if (until_s < time_s) {
      left_s = time_s - until_s;
      from_k = std::nextafter(knot, rises ? 1e9 : 0.0);
    }
  }
  return integrate_ode<1>(over_time, {from_k}, 0.0, left_s)[0];
}

bool crosses_knot(const HeatPack& pack, double a_k, double b_k) {
  return (a_k < knot_k(pack)) != (b_k < knot_k(pack));
}

// One application to rest that neither thrust nor drag nor slope changes.
Application stop_by_itself(double speed_mps, double deceleration_mps2, double jerk_mps3) {
  return plan_application(RollLaw{}, speed_mps, 0.0, deceleration_mps2, jerk_mps3);
}

}  // namespace

TEST_CASE("heat: temperature after a time agrees with the ODE solver") {
  Draws draws(20260301);
  enum { Cooling, Heating, NearBalance, VeryHot, AcrossKnot, Count };
  const char* const names[] = {"heat: cooling", "heat: heated", "heat: next to the balance",
                               "heat: very hot", "heat: next to the change of polynomial"};
  for (int stratum = 0; stratum < Count; ++stratum) {
    CAPTURE(stratum);
    Worst worst;
    int across = 0;
    for (int i = 0; i < kDraws; ++i) {
      const HeatPack pack = draw_pack(draws);
      double from = draws.between(pack.air_k + 1.0, 800.0);
      double power = 0.0;
      if (stratum == Heating) power = draws.by_size(10.0, 2e4);
      if (stratum == NearBalance) {
        power = draws.by_size(50.0, 3000.0);
        from = balance_temperature_k(pack, power) + draws.sign() * draws.by_size(1e-6, 1.0);
      }
      if (stratum == VeryHot) from = draws.between(700.0, 1900.0);
      if (stratum == AcrossKnot) from = knot_k(pack) + draws.sign() * draws.by_size(1e-6, 30.0);
      const double time = draws.by_size(0.5, 20000.0);
      const double got = temperature_after_time_k(pack, from, time, power);
      const double expected = reference_temperature(pack, from, time, power);
      if (crosses_knot(pack, from, expected)) ++across;
      worst.note(got / expected - 1.0, i);
    }
    agree_within_1e9(names[stratum], {worst});
    if (stratum == AcrossKnot) CHECK(across > kDraws / 4);
  }
}

TEST_CASE("heat: the time to a temperature leads there") {
  Draws draws(20260302);
  Worst worst;
  int never = 0, across = 0;
  for (int i = 0; worst.count < kDraws; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double power = draws.coin() ? 0.0 : draws.by_size(10.0, 2e4);
    const double balance = balance_temperature_k(pack, power);
    const double from = draws.between(pack.air_k + 1.0, 1100.0);
    const double to = draws.between(pack.air_k + 1.0, 1100.0);
    if (std::abs(from - to) < 0.01 || std::abs(to - balance) < 0.01) continue;
    const CoolingTime got = time_between_temperatures(pack, from, to, power);
    CAPTURE(i);
    const bool between = from < balance ? from < to && to < balance : from > to && to > balance;
    CHECK(got.reached == between);
    if (!got.reached) {
      ++never;
      continue;
    }
    if (crosses_knot(pack, from, to)) ++across;
    const double end = reference_temperature(pack, from, got.time_s, power);
    worst.note((end - to) / std::abs(to - from), i);
  }
  agree_within_1e9("heat: time to a temperature", {worst});
  CHECK(never > kDraws / 10);
  CHECK(across > kDraws / 40);
}

TEST_CASE("heat: an energy in at once raises the heat content by just that") {
  Draws draws(20260303);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double from = draws.between(250.0, 900.0);
    const double energy = pack.mass_kg * draws.by_size(1.0, 1e6);
    const double after = temperature_after_energy_k(pack, from, energy);
    // Integral of the specific heat over temperature, by the solver, stopped at the knot.
    auto system = [&](const std::array<double, 1>&, std::array<double, 1>& d, double t) {
      d[0] = pack.mass_kg * specific_heat_jpkgk(pack.material, t);
    };
    const double knot = knot_k(pack);
    std::array<double, 1> sum{0.0};
    if (from < knot && after > knot) {
      sum = integrate_ode<1>(system, sum, from, knot);
      sum = integrate_ode<1>(system, sum, std::nextafter(knot, 1e9), after);
    } else {
      sum = integrate_ode<1>(system, sum, from, after);
    }
    // The temperature is known to 1e-13 of itself, so its rise to 1e-13 T / rise.
    const double room = 1e-12 * after / (after - from);
    worst.note((sum[0] / energy - 1.0) / (1.0 + room / 1e-9), i);
  }
  agree_within_1e9("heat: an energy in at once", {worst});
}

TEST_CASE("heat: at the balance temperature as much flows out as in") {
  Draws draws(20260304);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double power = draws.by_size(1.0, 5e4);
    worst.note(heat_flow_out_w(pack, balance_temperature_k(pack, power)) / power - 1.0, i);
  }
  CHECK(worst.error <= 1e-9);
}

TEST_CASE("application: speed, way and energy agree with the ODE solver") {
  Draws draws(20260305);
  Worst speed, way, energy, state_speed, state_way;
  int peaked = 0, held = 0;
  for (int i = 0; i < kDraws; ++i) {
    RollForces f;
    f.mass_kg = draws.between(120e3, 550e3);
    f.thrust_n = f.mass_kg * draws.between(0.05, 0.35);
    f.thrust_fall_nspm = draws.between(0.0, 1500.0);
    f.rolling_resistance = draws.between(0.008, 0.02);
    f.slope_rad = draws.between(-0.02, 0.02);
    f.headwind_mps = draws.between(-15.0, 15.0);
    f.drag_area_m2 = draws.between(5.0, 25.0);
    const RollLaw law = roll_law(f);
    const double v0 = draws.between(1.0, 15.0);
    const double v1 = draws.below(3) == 0 ? 0.0 : draws.between(0.0, 0.95) * v0;
    const double wanted = draws.between(0.5, 1.5);
    const double jerk = draws.between(0.2, 1.0);
    const Application a = plan_application(law, v0, v1, wanted, jerk);
    (a.hold_s > 0.0 ? held : peaked) += 1;
    // State: speed, way, energy. Deceleration rises with the jerk from the start value, holds,
    // falls.
    auto deceleration = [&](double t) {
      if (t < a.rise_s) return a.start_mps2 + (a.peak_mps2 - a.start_mps2) * t / a.rise_s;
      const double falling = t - a.rise_s - a.hold_s;
      if (falling <= 0.0) return a.peak_mps2;
      return a.peak_mps2 + (a.end_mps2 - a.peak_mps2) * falling / a.fall_s;
    };
    auto system = [&](const std::array<double, 3>& x, std::array<double, 3>& d, double t) {
      const double brake = deceleration(t) + acceleration_mps2(law, x[0]);
      d = {-deceleration(t), x[0], brake * x[0]};
    };
    // The drag turns around where the speed is that of the tailwind: by halving, in time.
    auto lost_speed = [&](double t) {
      const double rise = std::min(t, a.rise_s), hold = std::clamp(t - a.rise_s, 0.0, a.hold_s);
      const double fall = std::max(0.0, t - a.rise_s - a.hold_s);
      return 0.5 * (a.start_mps2 + deceleration(rise)) * rise + a.peak_mps2 * hold +
             0.5 * (a.peak_mps2 + deceleration(t)) * fall;
    };
    double turns = 0.0, after = a.duration_s;
    for (int k = 0; k < 60; ++k) {
      const double middle = 0.5 * (turns + after);
      (v0 - lost_speed(middle) > -f.headwind_mps ? turns : after) = middle;
    }
    auto at = [&](double time) {
      std::array<double, 3> x{v0, 0.0, 0.0};
      double from = 0.0;
      std::array<double, 4> knots{a.rise_s, a.rise_s + a.hold_s, turns, time};
      std::sort(knots.begin(), knots.end());
      for (const double knot : knots) {
        const double to = std::min(knot, time);
        if (to > from) x = integrate_ode<3>(system, x, from, to);
        from = std::max(from, to);
      }
      return x;
    };
    const auto end = at(a.duration_s);
    speed.note(end[0] - v1, i);
    way.note(end[1] / a.length_m - 1.0, i);
    energy.note((f.mass_kg * end[2] - application_energy_j(a, law, f.mass_kg)) /
                    (0.5 * f.mass_kg * v0 * v0),
                i);
    const double middle = draws.between(0.0, 1.0) * a.duration_s;
    const ApplicationState state = application_state(a, middle);
    const auto there = at(middle);
    state_speed.note(state.speed_mps - there[0], i);
    state_way.note(state.distance_m - there[1], i);
  }
  agree_within_1e9("application", {speed, way, energy, state_speed, state_way});
  CHECK(held > kDraws / 4);
  CHECK(peaked > kDraws / 40);
}

TEST_CASE("smooth stop: way and time agree with the ODE solver") {
  Draws draws(20260306);
  Worst speed, way;
  for (int i = 0; i < kDraws; ++i) {
    const double v = draws.between(0.2, 15.0);
    const double wanted = draws.between(0.3, 2.0);
    const double jerk = draws.between(0.1, 2.0);
    const Application stop = stop_by_itself(v, wanted, jerk);
    // By the rule alone: rise with the jerk to the lesser of the wanted peak and sqrt(J v), hold,
    // fall.
    const double peak = std::min(wanted, std::sqrt(jerk * v));
    CHECK(stop.peak_mps2 == doctest::Approx(peak).epsilon(1e-12));
    const double ramp = peak / jerk;
    auto system = [&](const std::array<double, 2>& x, std::array<double, 2>& d, double t) {
      d = {-std::min({peak, jerk * t, jerk * (stop.duration_s - t)}), x[0]};
    };
    auto x = integrate_ode<2>(system, {v, 0.0}, 0.0, ramp);
    x = integrate_ode<2>(system, x, ramp, stop.duration_s - ramp);
    x = integrate_ode<2>(system, x, stop.duration_s - ramp, stop.duration_s);
    speed.note(x[0], i);
    way.note(x[1] / stop.length_m - 1.0, i);
  }
  agree_within_1e9("smooth stop", {speed, way});
}

#endif  // TILLERLINE_NATIVE
