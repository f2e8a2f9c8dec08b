// Exact time and distance of the quadratic motion against Boost's ODE solver, and exact roll
// against the equation of motion as it stands in any textbook.
//
// Tolerances. Dormand-Prince at 1e-12 was found good to 1e-11 away from a terminal speed; near one,
// time is as uncertain as the distance to the terminal speed, so errors are divided by the
// condition 1 + |a0|/|a1| + |a1|/|a0| there. 1e-9 is asked for throughout.
//
// Every stratum gets all the draws. The corners among them: a discriminant near zero on both sides,
// a terminal speed just above the target, no quadratic term, a standstill at either end, a step of
// a ten-millionth of the speed, a wind that turns the drag around on the way.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/quadratic_motion.hpp"
#include "physics/numerics/units.hpp"
#include "random_draws.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

const int kDraws = draw_count(2000);
constexpr double kTolerance = kRandomTolerance;

struct Reference {
  double time_s, distance_m;
};

// dt/dv = 1/a, ds/dv = v/a, over the gain of speed (the solver adds up its steps: counted from v0
// they would be rounded to the speed's last digit, which a short step shows).
Reference over_speed(const QuadraticMotion& m, double v0, double v1) {
  auto system = [&](const std::array<double, 2>&, std::array<double, 2>& d, double gain) {
    const double v = v0 + gain;
    const double a = m.a_mps2 + v * (m.b_ps + v * m.c_pm);
    d = {1.0 / a, v / a};
  };
  const auto end = integrate_ode<2>(system, {0.0, 0.0}, 0.0, v1 - v0);
  return {end[0], end[1]};
}

// dv/dt = a, ds/dt = v: the speed and distance after the time that the closed form gives.
std::array<double, 2> over_time(const QuadraticMotion& m, double v0, double time_s) {
  auto system = [&](const std::array<double, 2>& x, std::array<double, 2>& d, double) {
    d = {m.a_mps2 + x[0] * (m.b_ps + x[0] * m.c_pm), x[0]};
  };
  return integrate_ode<2>(system, {v0, 0.0}, 0.0, time_s);
}

// True when a(v) keeps the sign of a(v0) on the whole way, with room.
bool passable(const QuadraticMotion& m, double v0, double v1) {
  auto a = [&](double v) { return m.a_mps2 + v * (m.b_ps + v * m.c_pm); };
  const double direction = v1 > v0 ? 1.0 : -1.0;
  double least = std::min(direction * a(v0), direction * a(v1));
  const double turning = m.c_pm != 0.0 ? -m.b_ps / (2.0 * m.c_pm) : v0;
  if (turning > std::min(v0, v1) && turning < std::max(v0, v1))
    least = std::min(least, direction * a(turning));
  return least > 0.0;
}

enum class Stratum {
  Accelerate,
  Decelerate,
  FlatQuadratic,  // C from 1e-20 to 1e-6
  NearTerminal,
  NoTerminal,  // D < 0
  NearDouble,  // D next to zero, on both sides
  FromRest,
  ToRest,
  ShortStep,
  Count
};

constexpr const char* kStrata[] = {
    "accelerating",
    "decelerating",
    "next to no quadratic term",
    "terminal speed just above the target",
    "no terminal speed",
    "discriminant near zero",
    "from a standstill",
    "to a standstill",
    "short step",
};

struct Case {
  QuadraticMotion motion;
  double v0, v1;
};

Case draw_case(Draws& draws, Stratum stratum) {
  for (;;) {
    Case c{{draws.between(0.005, 0.4), -draws.by_size(1e-5, 1e-2), -draws.by_size(1e-6, 1e-3)},
           draws.between(0.0, 6.0),
           draws.between(2.0, 25.0)};
    switch (stratum) {
      case Stratum::Accelerate:
        c.motion.c_pm *= draws.sign();
        break;
      case Stratum::Decelerate:
        c.motion.a_mps2 = -draws.between(0.005, 1.5);
        c.motion.b_ps *= draws.sign();
        c.motion.c_pm *= draws.sign();
        std::swap(c.v0, c.v1);
        if (draws.below(4) == 0) c.v1 = 0.0;
        break;
      case Stratum::FlatQuadratic:
        c.motion.c_pm = draws.sign() * draws.by_size(1e-20, 1e-6);
        if (draws.below(8) == 0) c.motion.c_pm = 0.0;
        if (draws.below(8) == 0) c.motion.b_ps = 0.0;
        break;
      case Stratum::NearTerminal: {
        const TerminalSpeed terminal = terminal_speed(c.motion, c.v0);
        if (!terminal.exists || terminal.speed_mps < c.v0 + 0.5) continue;
        c.v1 = c.v0 + (terminal.speed_mps - c.v0) * (1.0 - draws.by_size(1e-6, 1e-1));
        break;
      }
      case Stratum::NoTerminal:
        c.motion.c_pm = draws.by_size(1e-4, 1e-2);
        c.motion.b_ps = draws.between(-1.9, 1.9) * std::sqrt(c.motion.a_mps2 * c.motion.c_pm);
        c.v1 = draws.between(5.0, 60.0);
        break;
      case Stratum::NearDouble: {
        const double middle = draws.sign() * draws.between(3.0, 40.0);
        c.motion.a_mps2 = draws.between(0.005, 0.4);
        c.motion.c_pm = c.motion.a_mps2 / (middle * middle);
        c.motion.b_ps = -2.0 * c.motion.a_mps2 / middle;
        c.motion.b_ps *= 1.0 + draws.sign() * draws.by_size(1e-16, 1e-3);
        if (middle > 0.0) {
          c.v0 = middle * draws.between(0.0, 0.4);
          c.v1 = middle * draws.between(0.5, 0.9);
        }
        break;
      }
      case Stratum::FromRest:
        c.motion.c_pm *= draws.sign();
        c.v0 = 0.0;
        break;
      case Stratum::ToRest:
        c.motion.a_mps2 = -draws.by_size(1e-4, 1.5);
        c.motion.b_ps *= draws.sign();
        c.motion.c_pm *= draws.sign();
        c.v0 = draws.by_size(1e-3, 25.0);
        c.v1 = 0.0;
        break;
      case Stratum::ShortStep:
        c.v1 = c.v0 + draws.by_size(1e-7, 1e-2);
        break;
      case Stratum::Count:
        break;
    }
    if (passable(c.motion, c.v0, c.v1)) return c;
  }
}

double condition(const QuadraticMotion& m, double v0, double v1) {
  const double a0 = std::abs(acceleration_mps2(m, v0));
  const double a1 = std::abs(acceleration_mps2(m, v1));
  return 1.0 + a0 / a1 + a1 / a0;
}

}  // namespace

TEST_CASE("quadratic motion: time and distance agree with the ODE solver") {
  Draws draws(20260101);
  for (int s = 0; s < static_cast<int>(Stratum::Count); ++s) {
    CAPTURE(s);
    Worst time, distance, arrival, travelled;
    for (int i = 0; i < kDraws; ++i) {
      const Case c = draw_case(draws, static_cast<Stratum>(s));
      const Passage passed = passage(c.motion, c.v0, c.v1);
      CHECK(passed.reached);
      const double scale = condition(c.motion, c.v0, c.v1);
      const Reference reference = over_speed(c.motion, c.v0, c.v1);
      time.note((passed.time_s / reference.time_s - 1.0) / scale, i);
      distance.note((passed.distance_m / reference.distance_m - 1.0) / scale, i);
      const auto end = over_time(c.motion, c.v0, passed.time_s);
      arrival.note((end[0] - c.v1) / std::abs(c.v1 - c.v0), i);
      travelled.note((end[1] - passed.distance_m) / passed.distance_m, i);
    }
    agree_within_1e9(kStrata[s], {time, distance});
    // Over time the error of the solver, 1e-12 of the speed, stands against the whole step; a short
    // step is a ten-millionth of the speed.
    const double of_step = s == static_cast<int>(Stratum::ShortStep) ? 1e-5 : kTolerance;
    CHECK(arrival.error < of_step);
    CHECK(travelled.error < of_step);
  }
}

TEST_CASE("quadratic motion: a speed behind a terminal speed is never reached") {
  Draws draws(20260102);
  int behind = 0;
  for (int i = 0; i < kDraws; ++i) {
    const QuadraticMotion m{draws.between(-0.2, 0.4), draws.between(-1e-2, 1e-2),
                            draws.between(-1e-3, 1e-3)};
    const double v0 = draws.between(0.0, 15.0);
    const double v1 = draws.between(0.0, 30.0);
    CAPTURE(i);
    CHECK(passage(m, v0, v1).reached == passable(m, v0, v1));
    if (!passable(m, v0, v1)) ++behind;
  }
  CHECK(behind > kDraws / 4);  // the draw is not all of one kind
}

TEST_CASE("quadratic motion: the terminal speed is where the solver ends up") {
  Draws draws(20260103);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const QuadraticMotion m{draws.between(0.02, 0.4), -draws.between(1e-3, 1e-2),
                            -draws.by_size(1e-6, 1e-3)};
    const double v0 = draws.between(0.0, 10.0);
    const TerminalSpeed terminal = terminal_speed(m, v0);
    REQUIRE(terminal.exists);
    // Forty time constants: the rest is 4e-18 of the way.
    const double rate = -(m.b_ps + 2.0 * m.c_pm * terminal.speed_mps);
    const auto end = over_time(m, v0, 40.0 / rate);
    worst.note(end[0] / terminal.speed_mps - 1.0, i);
  }
  agree_within_1e9("terminal speed", {worst});
}

// --- The roll, written down again from the forces ------------------------------------------------

namespace {

double force_balance_mps2(const RollForces& f, double v) {
  const double weight = f.mass_kg * units::kGravity_mps2;
  const double air_speed = v + f.headwind_mps;
  const double air_drag =
      0.5 * f.air_density_kgpm3 * f.drag_area_m2 * air_speed * std::abs(air_speed);
  const double rolling = f.rolling_resistance * (1.0 + f.rolling_speed_factor_s2pm2 * v * v);
  const double taken_in = air_speed > 0.0 ? air_speed : f.overtaken_thrust_share * air_speed;
  return (f.thrust_n - f.thrust_fall_nspm * taken_in - weight * std::cos(f.slope_rad) * rolling -
          weight * std::sin(f.slope_rad) - air_drag - f.scrub_drag_n) /
         f.mass_kg;
}

RollForces draw_forces(Draws& draws) {
  RollForces f;
  f.mass_kg = draws.between(120e3, 550e3);
  f.thrust_n = f.mass_kg * units::kGravity_mps2 * draws.between(0.005, 0.05);
  f.thrust_fall_nspm = draws.between(0.0, 1500.0);
  f.rolling_resistance = draws.between(0.008, 0.025);
  f.rolling_speed_factor_s2pm2 = draws.coin() ? 0.0 : draws.by_size(1e-6, 1e-4);
  f.slope_rad = draws.between(-0.03, 0.03);
  f.headwind_mps = draws.between(-15.0, 15.0);
  f.overtaken_thrust_share = draws.coin() ? 0.0 : draws.between(0.0, 1.0);
  f.drag_area_m2 = draws.between(5.0, 25.0);
  f.air_density_kgpm3 = draws.between(0.9, 1.4);
  f.scrub_drag_n = draws.coin() ? 0.0 : draws.between(0.0, 0.01) * f.mass_kg * 9.8;
  return f;
}

// Time and distance by the solver, which is told about the kink at v = -headwind (unsplit it loses
// three digits there).
Reference roll_over_speed(const RollForces& f, double v0, double v1) {
  auto system = [&](const std::array<double, 2>&, std::array<double, 2>& d, double v) {
    const double a = force_balance_mps2(f, v);
    d = {1.0 / a, v / a};
  };
  const double kink = -f.headwind_mps;
  std::array<double, 2> state{0.0, 0.0};
  double from = v0;
  if (kink > std::min(v0, v1) && kink < std::max(v0, v1)) {
    state = integrate_ode<2>(system, state, from, kink);
    from = kink;
  }
  state = integrate_ode<2>(system, state, from, v1);
  return {state[0], state[1]};
}

// Over time, told about the kink as well: the speed `towards` only says whether it is passed.
std::array<double, 2> roll_over_time(const RollForces& f, double v0, double time_s,
                                     double towards) {
  auto system = [&](const std::array<double, 2>& x, std::array<double, 2>& d, double) {
    d = {force_balance_mps2(f, x[0]), x[0]};
  };
  std::array<double, 2> state{v0, 0.0};
  double from = 0.0;
  const double kink = -f.headwind_mps;
  if (kink > std::min(v0, towards) && kink < std::max(v0, towards)) {
    from = std::min(time_s, roll_over_speed(f, v0, kink).time_s);
    state = integrate_ode<2>(system, state, 0.0, from);
  }
  return integrate_ode<2>(system, state, from, time_s);
}

// Least acceleration towards v1 on the way, by sampling: only used to keep draws off the
// thresholds.
double least_towards(const RollForces& f, double v0, double v1) {
  const double direction = v1 > v0 ? 1.0 : -1.0;
  double least = direction * force_balance_mps2(f, v0);
  for (int k = 0; k <= 400; ++k)
    least = std::min(least, direction * force_balance_mps2(f, v0 + (v1 - v0) * k / 400.0));
  return least;
}

}  // namespace

TEST_CASE("roll: the law is the balance of forces") {
  Draws draws(20260104);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    const RollForces f = draw_forces(draws);
    const RollLaw law = roll_law(f);
    const double v = draws.between(0.0, 30.0);
    worst.note(acceleration_mps2(law, v) - force_balance_mps2(f, v), i);
  }
  CHECK(worst.error < 1e-14);
}

TEST_CASE("roll: time and distance agree with the ODE solver, across the change of wind") {
  Draws draws(20260105);
  enum { Any, WindTurnsDrag, FromRest, NearTerminal, Count };
  const char* const names[] = {"roll", "roll: wind that turns the drag around on the way",
                               "roll: from a standstill",
                               "roll: terminal speed just above the target"};
  for (int stratum = 0; stratum < Count; ++stratum) {
    CAPTURE(stratum);
    Worst time, distance;
    int accelerated = 0, refused = 0;
    while (time.count < kDraws) {
      RollForces f = draw_forces(draws);
      double v0 = stratum == FromRest ? 0.0 : draws.between(0.0, 10.0);
      double v1 = draws.between(0.5, 15.0);
      if (force_balance_mps2(f, v0) < 0.0) v1 = draws.between(0.0, v0);
      if (stratum == WindTurnsDrag)
        f.headwind_mps = -draws.between(std::min(v0, v1), std::max(v0, v1));
      const RollLaw law = roll_law(f);
      if (stratum == NearTerminal) {
        const TerminalSpeed terminal = terminal_speed(law, v0);
        if (!terminal.exists) continue;
        v1 = v0 + (terminal.speed_mps - v0) * (1.0 - draws.by_size(1e-5, 1e-1));
      }
      const double least = least_towards(f, v0, v1);
      const Passage passed = passage(law, v0, v1);
      CAPTURE(time.count);
      if (std::abs(least) < 1e-6 || std::abs(v1 - v0) < 1e-3) continue;
      CHECK(passed.reached == (least > 0.0));
      if (least < 0.0) {
        ++refused;
        continue;
      }
      const Reference reference = roll_over_speed(f, v0, v1);
      const double a0 = std::abs(force_balance_mps2(f, v0)),
                   a1 = std::abs(force_balance_mps2(f, v1));
      const double condition = 1.0 + std::max(a0, a1) / least;
      time.note((passed.time_s / reference.time_s - 1.0) / condition, time.count);
      distance.note((passed.distance_m / reference.distance_m - 1.0) / condition, distance.count);
      if (v1 > v0) ++accelerated;
    }
    agree_within_1e9(names[stratum], {time, distance});
    CHECK(accelerated > kDraws / 8);
    if (stratum == Any) CHECK(refused > kDraws / 10);
  }
}

TEST_CASE("roll: what a distance does to the speed agrees with the ODE solver") {
  Draws draws(20260106);
  Worst speed, distance;
  int stopped = 0, rolling = 0;
  for (int i = 0; speed.count < kDraws; ++i) {
    const RollForces f = draw_forces(draws);
    const RollLaw law = roll_law(f);
    const double v0 = draws.between(0.3, 12.0);
    const double length = draws.by_size(1.0, 1500.0);
    // Thousandths of a m/s2 at rest are left to the tests of the verdict.
    if (std::abs(force_balance_mps2(f, 0.0)) < 1e-3) continue;
    const RollOut out = roll_over_distance(law, v0, length);
    const auto end = roll_over_time(f, v0, out.time_s, out.speed_mps);
    CAPTURE(i);
    speed.note((end[0] - out.speed_mps) / std::max({1.0, v0, out.speed_mps}), i);
    distance.note((end[1] - out.distance_m) / std::max(1.0, out.distance_m), i);
    if (out.stopped) {
      ++stopped;
      CHECK(out.speed_mps == 0.0);
      CHECK(out.distance_m <= length);
    } else {
      ++rolling;
      CHECK(out.distance_m == doctest::Approx(length).epsilon(1e-12));
    }
  }
  agree_within_1e9("roll: speed after a distance", {speed, distance});
  CHECK(stopped > kDraws / 20);
  CHECK(rolling > kDraws / 4);
}

TEST_CASE("roll: left alone, it settles at the terminal speed") {
  Draws draws(20260107);
  Worst worst;
  int stops = 0, settles = 0;
  for (int i = 0; i < kDraws; ++i) {
    const RollForces f = draw_forces(draws);
    const RollLaw law = roll_law(f);
    const double v0 = draws.between(0.0, 12.0);
    const TerminalSpeed terminal = terminal_speed(law, v0);
    if (std::abs(force_balance_mps2(f, v0)) < 1e-4) continue;
    CAPTURE(i);
    if (!terminal.exists) {
      // It stops, or a tailwind and falling resistance carry it away: no balance on the way.
      const bool slows = force_balance_mps2(f, v0) < 0.0;
      if (slows) ++stops;
      CHECK(least_towards(f, v0, slows ? 0.0 : 300.0) > -1e-9);
      continue;
    }
    ++settles;
    worst.note(force_balance_mps2(f, terminal.speed_mps), i);
    // No other balance on the way.
    const double nearly = v0 + (terminal.speed_mps - v0) * (1.0 - 1e-6);
    CHECK(least_towards(f, v0, nearly) > 0.0);
  }
  CHECK(worst.error < 1e-12);
  CHECK(stops > kDraws / 40);
  CHECK(settles > kDraws / 10);
}

TEST_CASE("roll: the critical slope balances the forces at rest exactly") {
  Draws draws(20260108);
  Worst worst;
  for (int i = 0; i < kDraws; ++i) {
    RollForces f = draw_forces(draws);
    for (const double resistance : {f.rolling_resistance, 1.3 * f.rolling_resistance}) {
      f.slope_rad = critical_slope_rad(f, resistance);
      RollForces at_rest = f;
      at_rest.rolling_resistance = resistance;
      worst.note(force_balance_mps2(at_rest, 0.0), i);
    }
  }
  CHECK(worst.error < 1e-14);
}

#endif  // TILLERLINE_NATIVE
