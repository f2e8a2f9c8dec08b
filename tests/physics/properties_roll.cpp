// Properties of the air, of motion under a quadratic law, and of the roll: what must hold for every
// input, whatever the numbers are.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/motion/roll.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/make_today.hpp"
#include "physics/world/tyre.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kNever = HUGE_VAL;

double time_or_never(const Passage& p) { return p.reached ? p.time_s : kNever; }

double relative(double a, double b) {
  return (a - b) / std::max({std::abs(a), std::abs(b), 1e-300});
}

QuadraticMotion draw_motion(Draws& draws) {
  return {.a_mps2 = draws.sign() * draws.by_size(1e-3, 2.0),
          .b_ps = draws.below(4) == 0 ? 0.0 : draws.sign() * draws.by_size(1e-5, 0.05),
          .c_pm = draws.below(4) == 0 ? 0.0 : draws.sign() * draws.by_size(1e-7, 5e-3)};
}

RollForces draw_forces(Draws& draws) {
  return {.mass_kg = draws.between(60e3, 550e3),
          .thrust_n = draws.between(5e3, 120e3),
          .thrust_fall_nspm = draws.between(0.0, 1500.0),
          .rolling_resistance = draws.between(0.005, 0.025),
          .breakaway_resistance = draws.between(0.025, 0.035),
          .rolling_speed_factor_s2pm2 = draws.coin() ? 0.0 : draws.between(0.0, 2e-3),
          .slope_rad = draws.between(-0.03, 0.02),
          .headwind_mps = draws.below(5) == 0 ? 0.0 : draws.between(-15.0, 15.0),
          .drag_area_m2 = draws.between(0.0, 20.0),
          .air_density_kgpm3 = draws.between(0.8, 1.4),
          .scrub_drag_n = draws.coin() ? 0.0 : draws.between(0.0, 20e3),
          .displacement_drag_nspm2 = draws.coin() ? 0.0 : draws.between(0.0, 30.0),
          .snow_drag_nspm = draws.coin() ? 0.0 : draws.between(0.0, 300.0),
          .dragging_brake_n = draws.coin() ? 0.0 : draws.between(0.0, 5e3)};
}

// All forces and the mass times `k`: the same motion.
RollForces times(RollForces f, double k) {
  f.mass_kg *= k;
  f.thrust_n *= k;
  f.thrust_fall_nspm *= k;
  f.drag_area_m2 *= k;
  f.scrub_drag_n *= k;
  f.displacement_drag_nspm2 *= k;
  f.snow_drag_nspm *= k;
  f.dragging_brake_n *= k;
  return f;
}

// The same seen on a scale `k` in length and sqrt(k) in time, which leaves gravity as it is.
RollForces on_scale(RollForces f, double k) {
  f.thrust_fall_nspm /= std::sqrt(k);
  f.rolling_speed_factor_s2pm2 /= k;
  f.headwind_mps *= std::sqrt(k);
  f.drag_area_m2 /= k;
  f.displacement_drag_nspm2 /= k;
  f.snow_drag_nspm /= std::sqrt(k);
  return f;
}

}  // namespace

// ------------------------------------------------------------------------------- air -------------

TEST_CASE("property: the standard atmosphere is in balance and thins upwards") {
  Worst balance, gas, sound;
  double pressure = standard_air(-501.0).pressure_pa;
  int wrong = 0;
  for (int h = -500; h <= 11000; h += 25) {
    const Air air = standard_air(h);
    const Air above = standard_air(h + 1.0), below = standard_air(h - 1.0);
    // dp/dh = -rho g, by central differences over 2 m: error p'''/6, some 1e-9 of p'.
    const double gradient = 0.5 * (above.pressure_pa - below.pressure_pa);
    balance.note(gradient / (air.density_kgpm3 * 9.80665) + 1.0, h);
    gas.note(air.pressure_pa / (air.density_kgpm3 * air.temperature_k * 287.05287) - 1.0, h);
    sound.note(
        air.sound_speed_mps * air.sound_speed_mps / (1.4 * 287.05287 * air.temperature_k) - 1.0, h);
    if (!(air.pressure_pa < pressure)) ++wrong;
    if (!(above.density_kgpm3 < air.density_kgpm3)) ++wrong;
    if (std::abs(above.temperature_k - below.temperature_k + 0.013) > 1e-12) ++wrong;
    pressure = air.pressure_pa;
  }
  CHECK(balance.error < 1e-8);
  CHECK(gas.error < 1e-14);
  CHECK(sound.error < 1e-14);
  CHECK(wrong == 0);
}

TEST_CASE("property: the air of the day agrees with the standard and follows QNH, height, heat") {
  Draws draws(201);
  Worst standard, sea_level, stacked, thinner;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const double h = draws.between(-400.0, 4000.0);
    const double qnh = draws.between(94e3, 106e3);
    const double t = draws.between(230.0, 325.0);
    const Air normal = standard_air(h);
    const Air same = day_air(h, 101325.0, normal.temperature_k);
    standard.note(same.density_kgpm3 / normal.density_kgpm3 - 1.0, i);
    standard.note(same.pressure_pa / normal.pressure_pa - 1.0, i);
    standard.note(same.sound_speed_mps / normal.sound_speed_mps - 1.0, i);
    sea_level.note(day_air(0.0, qnh, t).pressure_pa / qnh - 1.0, i);
    // Up in two steps is up in one: the station's pressure is the QNH of a datum moved there only
    // in the standard column, so go down again by the same height.
    const Air air = day_air(h, qnh, t);
    stacked.note(day_air(h + 100.0, qnh, t).pressure_pa /
                         day_air(100.0, day_air(h, qnh, t).pressure_pa, t).pressure_pa -
                     1.0,
                 i);
    thinner.note(day_air(h, qnh, 1.1 * t).density_kgpm3 * 1.1 / air.density_kgpm3 - 1.0, i);
    if (!(day_air(h + 10.0, qnh, t).pressure_pa < air.pressure_pa)) ++wrong;
    if (!(day_air(h, qnh + 100.0, t).density_kgpm3 > air.density_kgpm3)) ++wrong;
    if (air.temperature_k != t) ++wrong;
  }
  CHECK(standard.error < 2e-14);
  CHECK(sea_level.error < 1e-14);
  CHECK(stacked.error < 1e-14);
  CHECK(thinner.error < 1e-14);
  CHECK(wrong == 0);
}

// ------------------------------------------------------------------- quadratic motion ------------

TEST_CASE("property: a passage in two parts adds up to the whole") {
  Draws draws(202);
  Worst time, way;
  int reached = 0;
  for (int i = 0; i < 20000; ++i) {
    const QuadraticMotion motion = draw_motion(draws);
    const double v0 = draws.between(0.0, 20.0), v2 = draws.between(0.0, 20.0);
    const double v1 = v0 + draws.between(0.0, 1.0) * (v2 - v0);
    const Passage whole = passage(motion, v0, v2);
    const Passage first = passage(motion, v0, v1), second = passage(motion, v1, v2);
    CHECK(whole.reached == (first.reached && second.reached));
    if (!whole.reached) continue;
    ++reached;
    time.note(relative(first.time_s + second.time_s, whole.time_s), i);
    way.note((first.distance_m + second.distance_m - whole.distance_m) /
                 (whole.time_s * std::max(v0, v2)),
             i);
  }
  CHECK(reached > 5000);
  CHECK(time.error < 3e-12);
  CHECK(way.error < 3e-12);
}

TEST_CASE("property: a passage scales with the units of length and time, and runs backwards") {
  Draws draws(203);
  Worst scaled, backwards, shifted;
  for (int i = 0; i < 20000; ++i) {
    const QuadraticMotion m = draw_motion(draws);
    const double v0 = draws.between(0.0, 20.0), v1 = draws.between(0.0, 20.0);
    const Passage p = passage(m, v0, v1);
    // Other units: lengths count l times, times t times as much.
    const double l = draws.by_size(0.1, 10.0), t = draws.by_size(0.1, 10.0);
    const QuadraticMotion other{m.a_mps2 * l / (t * t), m.b_ps / t, m.c_pm / l};
    const Passage q = passage(other, v0 * l / t, v1 * l / t);
    CHECK(p.reached == q.reached);
    // With all accelerations turned round it goes the way back in the same time.
    const Passage back = passage(QuadraticMotion{-m.a_mps2, -m.b_ps, -m.c_pm}, v1, v0);
    CHECK(p.reached == back.reached);
    // Seen from a carriage that runs at u.
    const double u = draws.between(-5.0, 5.0);
    const QuadraticMotion carriage{m.a_mps2 + u * (m.b_ps + u * m.c_pm), m.b_ps + 2.0 * u * m.c_pm,
                                   m.c_pm};
    const Passage seen = passage(carriage, v0 - u, v1 - u);
    if (!p.reached || !seen.reached) continue;
    const double scale = p.time_s * std::max(v0, v1);
    scaled.note(relative(q.time_s, p.time_s * t), i);
    scaled.note((q.distance_m - p.distance_m * l) / (scale * l), i);
    backwards.note(relative(back.time_s, p.time_s), i);
    backwards.note((back.distance_m - p.distance_m) / scale, i);
    // The coefficients round when they are shifted: well conditioned cases only.
    const double slowest =
        std::min(std::abs(acceleration_mps2(m, v0)), std::abs(acceleration_mps2(m, v1)));
    if (slowest < 1e-3) continue;
    shifted.note(relative(seen.time_s, p.time_s), i);
    shifted.note((seen.distance_m + u * p.time_s - p.distance_m) / (scale + 5.0 * p.time_s), i);
  }
  CHECK(scaled.error < 1e-11);
  CHECK(backwards.error < 1e-11);
  CHECK(shifted.error < 1e-10);
  const Passage none = passage(QuadraticMotion{0.1, 0.0, 0.0}, 3.0, 3.0);
  CHECK(none.reached);
  CHECK(none.time_s == 0.0);
  CHECK(none.distance_m == 0.0);
}

TEST_CASE("property: a vanishing coefficient changes nothing by a jump") {
  Draws draws(204);
  Worst linear, square, small_way;
  for (int i = 0; i < 5000; ++i) {
    const QuadraticMotion m{draws.by_size(0.01, 2.0), draws.sign() * draws.by_size(1e-4, 0.002),
                            -draws.by_size(1e-6, 1e-5)};
    const double v0 = draws.between(0.0, 10.0), v1 = draws.between(0.0, 10.0);
    const QuadraticMotion signed_m = v1 > v0 ? m : QuadraticMotion{-m.a_mps2, m.b_ps, m.c_pm};
    QuadraticMotion no_b = signed_m, tiny_b = signed_m, no_c = signed_m, tiny_c = signed_m;
    no_b.b_ps = 0.0;
    tiny_b.b_ps = 1e-18;
    no_c.c_pm = 0.0;
    tiny_c.c_pm = 1e-19;
    const Passage b0 = passage(no_b, v0, v1), b1 = passage(tiny_b, v0, v1);
    const Passage c0 = passage(no_c, v0, v1), c1 = passage(tiny_c, v0, v1);
    CHECK(b0.reached == b1.reached);
    CHECK(c0.reached == c1.reached);
    linear.note(relative(b0.time_s, b1.time_s), i);
    linear.note(relative(b0.distance_m, b1.distance_m), i);
    square.note(relative(c0.time_s, c1.time_s), i);
    square.note(relative(c0.distance_m, c1.distance_m), i);
    // A step of speed that vanishes: uniform motion.
    const Passage step = passage(signed_m, 5.0, v1 > v0 ? 5.0 + 1e-7 : 5.0 - 1e-7);
    if (step.reached) small_way.note(step.distance_m / (5.0 * step.time_s) - 1.0, i);
  }
  CHECK(linear.error < 1e-12);
  CHECK(square.error < 1e-12);
  CHECK(small_way.error < 1.1e-8);
}

TEST_CASE("property: a terminal speed is at rest with itself and is approached, not passed") {
  Draws draws(205);
  Worst balance;
  int found = 0, short_of_it = 0;
  for (int i = 0; i < 20000; ++i) {
    const QuadraticMotion m = draw_motion(draws);
    const double v0 = draws.between(-10.0, 30.0);
    const TerminalSpeed terminal = terminal_speed(m, v0);
    const double a0 = acceleration_mps2(m, v0);
    if (!terminal.exists) {
      // Then any speed in the direction of the acceleration is reached.
      CHECK(passage(m, v0, v0 + (a0 > 0.0 ? 1e3 : -1e3)).reached);
      continue;
    }
    ++found;
    const double v = terminal.speed_mps;
    const double size =
        std::abs(m.a_mps2) + std::abs(m.b_ps * v) + std::abs(m.c_pm * v * v) + std::abs(a0);
    balance.note(acceleration_mps2(m, v) / size, i);
    CHECK((v - v0) * a0 >= 0.0);
    if (passage(m, v0, v0 + 0.99 * (v - v0)).reached) ++short_of_it;
    CHECK_FALSE(passage(m, v0, v0 + 1.01 * (v - v0)).reached);
    CHECK(terminal_speed(m, v0 + 0.5 * (v - v0)).speed_mps == doctest::Approx(v).epsilon(1e-9));
  }
  CHECK(found > 5000);
  CHECK(short_of_it == found);
  CHECK(balance.error < 1e-13);
}

// ------------------------------------------------------------------------------ roll -------------

TEST_CASE("property: the roll law is continuous where the wind changes its side") {
  Draws draws(206);
  Worst value, slope;
  for (int i = 0; i < 5000; ++i) {
    RollForces f = draw_forces(draws);
    f.headwind_mps = -draws.between(0.1, 15.0);
    const RollLaw law = roll_law(f);
    const double w = law.split_mps;
    CHECK(w == -f.headwind_mps);
    value.note(acceleration_mps2(law.below, w) - acceleration_mps2(law.above, w), i);
    // Its slope has a step there: the momentum drag that begins.
    slope.note(law.below.b_ps + 2.0 * law.below.c_pm * w - law.above.b_ps -
                   2.0 * law.above.c_pm * w - f.thrust_fall_nspm / f.mass_kg,
               i);
    // A wind from behind pushes until it is outrun, then holds.
    RollForces calm = f;
    calm.drag_area_m2 = 0.0;
    const RollLaw airless = roll_law(calm);
    CHECK(acceleration_mps2(law, 0.5 * w) >= acceleration_mps2(airless, 0.5 * w) - 1e-15);
    CHECK(acceleration_mps2(law, 1.5 * w) <= acceleration_mps2(airless, 1.5 * w) + 1e-15);
  }
  CHECK(value.error < 1e-15);
  CHECK(slope.error < 1e-16);
}

TEST_CASE("property: mass and all forces times k, and lengths times k, give the same roll") {
  Draws draws(207);
  Worst same, scaled;
  int reached = 0;
  for (int i = 0; i < 10000; ++i) {
    const RollForces f = draw_forces(draws);
    const double v0 = draws.between(0.0, 12.0), v1 = draws.between(0.0, 12.0);
    const Passage p = passage(roll_law(f), v0, v1);
    const double k = draws.by_size(0.2, 5.0);
    const Passage q = passage(roll_law(times(f, k)), v0, v1);
    const double root = std::sqrt(k);
    const Passage r = passage(roll_law(on_scale(f, k)), v0 * root, v1 * root);
    const double a_least = std::min(std::abs(acceleration_mps2(roll_law(f), v0)),
                                    std::abs(acceleration_mps2(roll_law(f), v1)));
    if (a_least < 1e-4) continue;  // rounding decides whether it just gets there
    CHECK(p.reached == q.reached);
    CHECK(p.reached == r.reached);
    if (!p.reached) continue;
    ++reached;
    same.note(relative(p.time_s, q.time_s), i);
    same.note(relative(p.distance_m, q.distance_m), i);
    scaled.note(relative(p.time_s * root, r.time_s), i);
    scaled.note(relative(p.distance_m * k, r.distance_m), i);
    CHECK(breakaway_margin_n(times(f, k)) ==
          doctest::Approx(k * breakaway_margin_n(f)).epsilon(1e-9));
    CHECK(critical_slope_rad(on_scale(f, k), 0.01) ==
          doctest::Approx(critical_slope_rad(f, 0.01)).epsilon(1e-12));
  }
  CHECK(reached > 2000);
  CHECK(same.error < 1e-10);
  CHECK(scaled.error < 1e-10);
}

TEST_CASE("property: heavier, uphill, into the wind, through slush or dragging is never quicker") {
  Draws draws(208);
  int wrong = 0, strictly = 0, checked = 0;
  for (int i = 0; i < 20000; ++i) {
    const RollForces f = draw_forces(draws);
    const double v1 = draws.between(0.5, 12.0);
    const double before = time_or_never(passage(roll_law(f), 0.0, v1));
    const auto never_quicker = [&](const RollForces& g) {
      const double after = time_or_never(passage(roll_law(g), 0.0, v1));
      ++checked;
      if (after < before * (1.0 - 1e-12)) ++wrong;
      if (after > before) ++strictly;
    };
    RollForces g = f;
    g.slope_rad += draws.between(0.0, 0.005);
    never_quicker(g);
    g = f;
    g.headwind_mps += draws.between(0.0, 5.0);
    never_quicker(g);
    g = f;
    g.displacement_drag_nspm2 += draws.between(0.0, 20.0);
    never_quicker(g);
    g = f;
    g.snow_drag_nspm += draws.between(0.0, 200.0);
    never_quicker(g);
    g = f;
    g.dragging_brake_n += draws.between(0.0, 5e3);
    never_quicker(g);
    g = f;
    g.scrub_drag_n += draws.between(0.0, 5e3);
    never_quicker(g);
    g = f;
    g.rolling_resistance += draws.between(0.0, 0.005);
    never_quicker(g);
    g = f;
    g.rolling_speed_factor_s2pm2 += draws.between(0.0, 1e-3);
    never_quicker(g);
    g = f;
    g.thrust_fall_nspm += draws.between(0.0, 500.0);
    never_quicker(g);
    g = f;
    g.thrust_n -= draws.between(0.0, 5e3);
    never_quicker(g);
    // Heavier: as long as what pulls besides the weight pulls forward all the way (in a gale from
    // ahead a heavier aircraft is held back less, and that is true).
    const double q = 0.5 * f.air_density_kgpm3 * f.drag_area_m2;
    const auto pull_n = [&](double v) {
      const double air = v + f.headwind_mps;
      return f.thrust_n - f.thrust_fall_nspm * std::max(air, 0.0) - q * air * std::abs(air) -
             f.scrub_drag_n - f.dragging_brake_n - f.snow_drag_nspm * v -
             f.displacement_drag_nspm2 * v * v;
    };
    if (pull_n(0.0) > 0.0 && pull_n(v1) > 0.0) {  // falls steadily with speed
      g = f;
      g.mass_kg *= 1.0 + draws.between(0.0, 0.5);
      never_quicker(g);
    }
  }
  CHECK(checked > 180000);
  CHECK(strictly > 50000);
  CHECK(wrong == 0);
}

TEST_CASE("property: cornering drag is taken off the law in v^2, and off nothing at standstill") {
  Draws draws(219);
  Worst off;
  for (int i = 0; i < 2000; ++i) {
    const RollForces straight = draw_forces(draws);
    RollForces turning = straight;
    turning.cornering_offset_n = draws.between(-300.0, 0.0);
    turning.cornering_drag_nspm2 = draws.between(0.0, 100.0);
    const double v = draws.between(0.0, 10.0);
    const double less_n = turning.cornering_offset_n + turning.cornering_drag_nspm2 * v * v;
    off.note((acceleration_mps2(roll_law(straight), v) - acceleration_mps2(roll_law(turning), v)) *
                     straight.mass_kg -
                 less_n,
             i);
    CHECK(breakaway_margin_n(turning) == breakaway_margin_n(straight));
  }
  CHECK(off.error < 1e-8);
}

TEST_CASE("property: slope, margin and resistance agree on whether it moves") {
  Draws draws(209);
  Worst consistent;
  int wrong = 0;
  for (int i = 0; i < 20000; ++i) {
    RollForces f = draw_forces(draws);
    const double steepest = critical_slope_rad(f, f.breakaway_resistance);
    const double rolling = critical_slope_rad(f, f.rolling_resistance);
    if (!(steepest < rolling)) ++wrong;  // the breakaway resistance is drawn larger
    f.slope_rad = steepest;
    const double weight = f.mass_kg * 9.80665;
    consistent.note(breakaway_margin_n(f) / weight, i);
    f.slope_rad = rolling;
    consistent.note(acceleration_mps2(roll_law(f), 0.0) / 9.80665, i);
    f.slope_rad = steepest - 1e-6;
    if (!(breakaway_margin_n(f) > 0.0)) ++wrong;
    f.slope_rad = steepest + 1e-6;
    if (!(breakaway_margin_n(f) < 0.0)) ++wrong;
    RollForces more = f;
    more.thrust_n += 1e3;
    if (!(critical_slope_rad(more, 0.015) > critical_slope_rad(f, 0.015))) ++wrong;
    if (!(breakaway_margin_n(more) > breakaway_margin_n(f))) ++wrong;
  }
  CHECK(consistent.error < 1e-15);
  CHECK(wrong == 0);
}

TEST_CASE("property: a way in two parts is the whole way, and the passage leads back") {
  Draws draws(210);
  Worst speed, time, inverse;
  int moving = 0, stopped = 0;
  for (int i = 0; i < 20000; ++i) {
    const RollForces f = draw_forces(draws);
    const RollLaw law = roll_law(f);
    const double v0 = draws.coin() ? draws.between(0.0, 12.0) : 0.0;
    const double s1 = draws.by_size(0.1, 1000.0), s2 = draws.by_size(0.1, 1000.0);
    const RollOut first = roll_over_distance(law, v0, s1);
    const RollOut whole = roll_over_distance(law, v0, s1 + s2);
    if (first.stopped) {
      ++stopped;
      CHECK(whole.stopped);
      CHECK(whole.distance_m == doctest::Approx(first.distance_m).epsilon(1e-12));
      CHECK(first.speed_mps == 0.0);
      CHECK(first.distance_m <= s1);
      continue;
    }
    const RollOut second = roll_over_distance(law, first.speed_mps, s2);
    CHECK(second.stopped == whole.stopped);
    ++moving;
    if (whole.stopped) {
      CHECK(second.distance_m + s1 == doctest::Approx(whole.distance_m).epsilon(1e-9));
      continue;
    }
    // Slow and slowing the speed hangs on every digit of the way: v dv = a ds.
    const double v = std::max(whole.speed_mps, 1e-3);
    const double sensitivity = std::abs(acceleration_mps2(law, v)) / (v * v) * (s1 + s2) + 1.0;
    speed.note((second.speed_mps - whole.speed_mps) / (v * sensitivity), i);
    time.note(relative(first.time_s + second.time_s, whole.time_s) / sensitivity, i);
    const double a = acceleration_mps2(law, whole.speed_mps);
    if (std::abs(a) < 1e-4 || std::abs(acceleration_mps2(law, v0)) < 1e-4) continue;
    const Passage p = passage(law, v0, whole.speed_mps);
    REQUIRE(p.reached);
    inverse.note(relative(p.distance_m, s1 + s2), i);
    inverse.note(relative(p.time_s, whole.time_s), i);
  }
  CHECK(moving > 10000);
  CHECK(stopped > 500);
  CHECK(speed.error < 1e-10);
  CHECK(time.error < 1e-9);
  CHECK(inverse.error < 1e-10);
}

TEST_CASE("property: over a long way it comes to its terminal speed, over none it does nothing") {
  Draws draws(211);
  Worst settled;
  int found = 0;
  for (int i = 0; i < 5000; ++i) {
    const RollForces f = draw_forces(draws);
    const RollLaw law = roll_law(f);
    const double v0 = draws.between(0.0, 12.0);
    const TerminalSpeed terminal = terminal_speed(law, v0);
    const RollOut none = roll_over_distance(law, v0, 0.0);
    CHECK(none.speed_mps == v0);
    CHECK(none.time_s == 0.0);
    CHECK_FALSE(none.stopped);
    const RollOut far = roll_over_distance(law, v0, 1e8);
    if (!terminal.exists) {
      CHECK((far.stopped || far.speed_mps > 100.0));
      continue;
    }
    ++found;
    CHECK(std::abs(acceleration_mps2(law, terminal.speed_mps)) < 1e-12);
    settled.note(relative(far.speed_mps, terminal.speed_mps), i);
  }
  CHECK(found > 1000);
  CHECK(settled.error < 1e-9);
}

TEST_CASE("property: idle thrust counts its engines; the forces carry the day on") {
  Draws draws(212);
  for (int i = 0; i < 500; ++i) {
    const Brief brief = draw_plain_brief(draws);
    const Air air =
        day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
    const RollForces f = idle_forces(brief.aircraft, brief.condition, air, 0.004, -3.0, 7.0, 11.0);
    Condition one = brief.condition;
    one.engines_running = 1;
    const RollForces single = idle_forces(brief.aircraft, one, air, 0.004, -3.0, 7.0);
    const double engines = brief.condition.engines_running;
    CHECK(f.thrust_n == doctest::Approx(engines * single.thrust_n).epsilon(1e-14));
    CHECK(f.thrust_fall_nspm == doctest::Approx(engines * single.thrust_fall_nspm).epsilon(1e-14));
    CHECK(f.slope_rad == 0.004);
    CHECK(f.headwind_mps == -3.0);
    CHECK(f.displacement_drag_nspm2 == 7.0);
    CHECK(f.snow_drag_nspm == 11.0);
    CHECK(f.mass_kg == brief.condition.mass_kg);
    CHECK(f.air_density_kgpm3 == air.density_kgpm3);
    CHECK(f.dragging_brake_n == brief.condition.dragging_brake_n);
    CHECK(f.scrub_drag_n == 0.0);
  }
}

TEST_CASE("property: the roll's verdict follows from its numbers, and the map shows the same") {
  Draws draws(213);
  int verdicts[4] = {};
  for (int i = 0; i < 600; ++i) {
    Brief brief = draw_plain_brief(draws);
    // The range of the fields seldom comes near the limits of motion.
    brief.aircraft.idle_thrust_n = draws.by_size(300.0, 30e3);
    brief.route.legs[0].slope_rad = draws.between(-0.02, 0.03);
    if (draws.coin()) brief.aircraft.taxi_thrust_limit_n = draws.by_size(300.0, 30e3);
    const Air air =
        day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
    const RollAnswer r = roll_answer(brief, air);
    ++verdicts[static_cast<int>(r.verdict)];
    const bool starts = r.breakaway_margin_n >= 0.0;
    CHECK((r.verdict == RollVerdict::RollsByItself) == starts);
    const double most_n = brief.condition.engines_running * brief.aircraft.taxi_thrust_limit_n;
    CHECK((r.verdict == RollVerdict::CannotMove) == (!starts && r.start_thrust_n > most_n));
    if (r.verdict == RollVerdict::KeepsRolling) CHECK(r.acceleration_mps2 > 0.0);
    if (r.verdict == RollVerdict::NeedsThrust) CHECK(r.acceleration_mps2 <= 0.0);
    CHECK(r.start_thrust_n - r.extra_thrust_n == doctest::Approx(r.idle_thrust_n).epsilon(1e-12));
    CHECK((r.extra_thrust_n > 0.0) == !starts);
    CHECK(r.idle_thrust_per_weight * brief.condition.mass_kg * 9.80665 ==
          doctest::Approx(r.idle_thrust_n).epsilon(1e-12));
    CHECK(r.terminal.exists == (r.terminal.speed_mps > 0.0));
    const RollForces forces =
        idle_forces(brief.aircraft, brief.condition, air, r.slope_rad, r.headwind_mps);
    const TerminalSpeed holds = terminal_speed(roll_law(forces), 0.0);
    CHECK(r.terminal.speed_mps == (r.acceleration_mps2 > 0.0 ? holds.speed_mps : 0.0));
    // Faster targets come later and further on.
    for (int k = 1; k < kRollTargets; ++k) {
      CHECK(time_or_never(r.targets[k].passage) >= time_or_never(r.targets[k - 1].passage));
      CHECK(r.targets[k].speed_mps > r.targets[k - 1].speed_mps);
    }
    // The map's corner of this mass: the same aircraft at the lightest and heaviest.
    for (const int column : {0, kMapColumns - 1}) {
      const RollMap map = roll_map(brief, air, r.targets[1].speed_mps);
      Brief there = brief;
      there.condition.mass_kg = map.mass_kg[column];
      for (const int row : {0, kMapRows / 2, kMapRows - 1}) {
        there.route.legs[0].slope_rad = map.slope_rad[row];
        const RollAnswer answer = roll_answer(there, air);
        const bool gets_there =
            answer.breakaway_margin_n >= 0.0 && answer.targets[1].passage.reached;
        CHECK(map.time_s[row][column] == (gets_there ? answer.targets[1].passage.time_s : -1.0));
        CHECK(map.keeps_rolling_slope_rad[column] == answer.keeps_rolling_slope_rad);
        CHECK(map.restarts_slope_rad[column] == answer.restarts_slope_rad);
      }
    }
  }
  for (const int count : verdicts) CHECK(count > 10);
}

// Nothing but a drag that grows with the square: v = v0 exp(-c s), which never comes to rest.
TEST_CASE("property: with drag alone it slows for ever, as the exponential says") {
  Draws draws(212);
  Worst speed, time;
  for (int i = 0; i < 1000; ++i) {
    const double c_pm = draws.by_size(1e-5, 1e-2);
    const double v0 = draws.between(0.5, 40.0);
    const double way_m = draws.by_size(1.0, 5.0 / c_pm);
    RollLaw law;
    law.above.c_pm = -c_pm;
    const RollOut out = roll_over_distance(law, v0, way_m);
    CHECK_FALSE(out.stopped);
    const double v1 = v0 * std::exp(-c_pm * way_m);
    speed.note(relative(out.speed_mps, v1), i);
    time.note(relative(out.time_s, (1.0 / v1 - 1.0 / v0) / c_pm), i);
  }
  CHECK(speed.error < 1e-12);
  CHECK(time.error < 1e-11);
}

TEST_CASE(
    "property: on its borders the verdict is the better one, but nothing gained is no rolling") {
  Brief brief;
  Aircraft& aircraft = brief.aircraft;
  aircraft.idle_thrust_n = aircraft.idle_air_flow_kgps = aircraft.drag_area_m2 = 0.0;
  aircraft.rolling_resistance = aircraft.breakaway_resistance = 0.0;
  brief.route.legs.push(Leg{});
  const Air air = day_air(0.0, 101325.0, 288.15);
  // No force either way: released it is free, though nothing moves it.
  RollAnswer free = roll_answer(brief, air);
  CHECK(free.breakaway_margin_n == 0.0);
  CHECK(free.verdict == RollVerdict::RollsByItself);
  CHECK_FALSE(free.terminal.exists);
  // Started, it would neither gain nor lose.
  aircraft.breakaway_resistance = 0.01;
  const RollAnswer held = roll_answer(brief, air);
  CHECK(held.acceleration_mps2 == 0.0);
  CHECK(held.verdict == RollVerdict::NeedsThrust);
  // The limit itself may be used.
  brief.condition.engines_running = 1;
  aircraft.taxi_thrust_limit_n = held.start_thrust_n;
  CHECK(roll_answer(brief, air).verdict == RollVerdict::NeedsThrust);
  aircraft.taxi_thrust_limit_n = std::nextafter(held.start_thrust_n, 0.0);
  CHECK(roll_answer(brief, air).verdict == RollVerdict::CannotMove);
}

TEST_CASE("property: idle thrust falls with airspeed, on either side of still air as told") {
  Draws draws(20261127);
  for (int i = 0; i < 2000; ++i) {
    RollForces f = draw_forces(draws);
    f.overtaken_thrust_share = draws.between(0.0, 1.0);
    const double v = draws.between(0.0, 20.0);
    const double calm_n = idle_thrust_at_n(f, -f.headwind_mps);
    CHECK(calm_n == f.thrust_n);  // no airspeed, nothing lost
    // Only the airspeed counts: a metre a second more of wind is a metre a second less of speed.
    RollForces gustier = f;
    gustier.headwind_mps += 1.0;
    CHECK(idle_thrust_at_n(gustier, v) ==
          doctest::Approx(idle_thrust_at_n(f, v + 1.0)).epsilon(1e-12));
    CHECK(idle_thrust_at_n(f, v + 1.0) <= idle_thrust_at_n(f, v));
  }
}

TEST_CASE("property: a headwind moves the terminal speed by itself, for speed counts in the air") {
  // Where neither rolling nor displacement depends on ground speed.
  RollForces f{.thrust_n = 56e3, .thrust_fall_nspm = 1000.0, .drag_area_m2 = 11.0};
  const double calm_mps = terminal_speed(roll_law(f), 0.0).speed_mps;
  for (const double wind_mps : {1.0, 4.0, 9.0, 12.0}) {
    f.headwind_mps = wind_mps;
    CHECK(terminal_speed(roll_law(f), 0.0).speed_mps ==
          doctest::Approx(calm_mps - wind_mps).epsilon(1e-12));
  }
}

TEST_CASE("property: a longer and colder stand takes more to start, once, and nothing to roll on") {
  CHECK(stood_factor(Stood::UpToAnHour) == 1.0);
  CHECK(stood_factor(Stood::ForHours) > stood_factor(Stood::UpToAnHour));
  CHECK(stood_factor(Stood::ForHoursInTheCold) > stood_factor(Stood::ForHours));
  Brief brief;
  Leg leg;
  leg.length_m = 400.0;
  brief.route.legs.push(leg);
  brief.route.legs.push(leg);
  const auto legs_of = [&](Stood stood) {
    brief.condition.stood = stood;
    return make_legs(make_today(brief), brief.route);
  };
  const Legs fresh = legs_of(Stood::UpToAnHour);
  const Legs cold = legs_of(Stood::ForHoursInTheCold);
  CHECK(cold.at[0].forces.breakaway_resistance ==
        fresh.at[0].forces.breakaway_resistance * stood_factor(Stood::ForHoursInTheCold));
  CHECK(cold.at[0].forces.rolling_resistance == fresh.at[0].forces.rolling_resistance);
  CHECK(cold.at[0].at_rest.breakaway_resistance == fresh.at[0].at_rest.breakaway_resistance);
  CHECK(cold.at[1].forces.breakaway_resistance == fresh.at[1].forces.breakaway_resistance);
}
