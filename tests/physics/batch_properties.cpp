// Properties of the batch kernels: limits, symmetry, scaling, conservation, and the very same bits
// on every machine.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/batch_draws.hpp"
#include "physics/uncertainty/batch_heat.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

RollForces plain_forces() {
  return {.mass_kg = 300e3,
          .thrust_n = 60e3,
          .thrust_fall_nspm = 900.0,
          .rolling_resistance = 0.012,
          .breakaway_resistance = 0.016,
          .drag_area_m2 = 11.0};
}

// FNV-1a over the bits of the lanes.
std::uint64_t digest(std::uint64_t hash, const Lanes& lanes) {
  for (const double value : lanes.at) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    hash ^= bits;
    hash *= 0x100000001b3u;
  }
  return hash;
}

// An even spread over lanes without a random generator.
double along(int i, double from, double to) { return from + (to - from) * i / (kLanes - 1.0); }

}  // namespace

TEST_CASE("property: Carlson's R_C is homogeneous, falls in both arguments and has its limits") {
  Draws draws(11);
  Worst scaling, ends, slope, arcs;
  for (int i = 0; i < 2000; ++i) {
    const double y = draws.by_size(1e-3, 1e3);
    const double x = y * draws.by_size(1e-4, 1e4);
    const double rc = lane::carlson_rc(x, y);
    const double factor = draws.by_size(1e-3, 1e3);
    scaling.note(lane::carlson_rc(factor * x, factor * y) * factor / rc - 1.0, i);
    CHECK(lane::carlson_rc(1.01 * x, y) < rc);
    CHECK(lane::carlson_rc(x, 1.01 * y) < rc);
    ends.note(lane::carlson_rc(y, y) * y - 1.0, i);
    ends.note(lane::carlson_rc(0.0, y) * y / (0.5 * units::kPi) - 1.0, i);
    // Behind the right angle: the angle of (X, Y) is acos(X / Y), R_C that over sqrt(Y^2 - X^2).
    const double back = -draws.between(0.0, 0.99) * y;
    const double angle = std::acos(back / y) / std::sqrt(y * y - back * back);
    arcs.note(lane::carlson_rc(back, y) / angle - 1.0, i);
    const lane::CarlsonPair pair = lane::carlson_pair(1.5 * x, x, y);
    slope.note(pair.value / rc - 1.0, i);
    slope.note(pair.slope * 0.5 * x / (lane::carlson_rc(1.5 * x, y) - rc) - 1.0, i);
  }
  CHECK(scaling.error < 1e-14);
  CHECK(ends.error < 1e-14);
  CHECK(arcs.error < 1e-12);
  // The plain difference cancels where R_C hardly changes.
  CHECK(slope.error < 1e-8);
}

TEST_CASE("property: a step keeps Carlson's integral, and blocks are made of single ones") {
  Draws draws(13);
  Lanes z, x, y;
  for (int i = 0; i < kLanes; ++i) {
    y[i] = draws.by_size(0.01, 10.0);
    x[i] = y[i] * draws.by_size(0.05, 20.0);
    z[i] = y[i] * draws.by_size(0.05, 20.0);
  }
  lane::CarlsonPairs pairs;
  lane::carlson_pairs(z, x, y, pairs);
  for (int i = 0; i < kLanes; ++i) {
    const lane::CarlsonPair one = lane::carlson_pair(z[i], x[i], y[i]);
    CHECK(pairs.value[i] == one.value);
    CHECK(pairs.slope[i] == one.slope);
    // (X, Y) -> ((X + Y)/2, sqrt(X' Y)) is what leaves R_C as it is; the means close in.
    lane::CarlsonState state{z[i], y[i], x[i], y[i], 1.0, 0.0};
    for (int k = 0; k < 3; ++k) {
      const double before = std::abs(state.x - state.y);
      lane::carlson_step(state);
      CHECK(lane::carlson_rc(state.x, state.y) ==
            doctest::Approx(lane::carlson_rc(x[i], y[i])).epsilon(1e-14));
      CHECK(lane::carlson_rc(state.z, state.zy) ==
            doctest::Approx(lane::carlson_rc(z[i], y[i])).epsilon(1e-14));
      CHECK(std::abs(state.x - state.y) < 0.51 * before);
      // The differences that are carried along are those of the two sequences.
      CHECK(state.dx * (z[i] - x[i]) == doctest::Approx(state.z - state.x).epsilon(1e-9));
      CHECK(state.dy * (z[i] - x[i]) == doctest::Approx(state.zy - state.y).epsilon(1e-9));
    }
    // At the end of the sequence value and slope are the limit's: 1/X and -dX/X^2.
    const lane::CarlsonPair end = lane::carlson_end({2.0, 2.0, 2.0, 2.0, 0.4, 0.4});
    CHECK(end.value == 0.5);
    CHECK(end.slope == doctest::Approx(-0.1).epsilon(1e-15));
  }
}

TEST_CASE("property: the slope of Carlson's R_C needs no difference of its arguments") {
  // d R_C / dX at Z = X: (2 X R_C - 2) / (2 (Y^2 - X^2)), from its differential equation.
  Worst worst;
  Draws draws(12);
  for (int i = 0; i < 500; ++i) {
    const double y = draws.by_size(0.1, 10.0);
    const double x = y * draws.between(1.3, 8.0);
    const lane::CarlsonPair pair = lane::carlson_pair(x, x, y);
    const double derivative = (x * pair.value - 1.0) / (y * y - x * x);
    worst.note(pair.slope / derivative - 1.0, i);
    const double near = y * (1.0 + 1e-9);
    // Limit at X = Y: -1/(3 Y^2).
    CHECK(lane::carlson_pair(near, y, y).slope * y * y == doctest::Approx(-1.0 / 3.0));
  }
  CHECK(worst.error < 1e-13);
}

TEST_CASE("property: sines and arcsines of slopes are those of the library") {
  Worst worst;
  for (int i = -500; i <= 500; ++i) {
    const double x = i * 1e-3;
    worst.note(lane::sine(x) - std::sin(x), i);
    worst.note(lane::cosine(x) - std::cos(x), i);
    worst.note(lane::arcsine(x) - std::asin(x), i);
    CHECK(lane::sine(-x) == -lane::sine(x));
    CHECK(lane::cosine(-x) == lane::cosine(x));
  }
  CHECK(worst.error < 3e-16);
  CHECK(lane::arcsine(0.0) == 0.0);
  CHECK(lane::cosine(0.0) == 1.0);
}

TEST_CASE("property: all lanes alike give all answers alike, and one lane does not touch another") {
  BatchForces forces = batch_forces(plain_forces());
  BatchLaw law;
  BatchPassage way;
  Lanes a, margin, slope;
  const Lanes rest = same_in_all_lanes(0.0);
  const Lanes target = same_in_all_lanes(5.0);
  const auto run = [&] {
    batch_roll_law(forces, law);
    batch_passage(law, rest, target, way);
    batch_acceleration(law, target, a);
    batch_margin(forces, same_in_all_lanes(0.016), margin);
    batch_critical_slope(forces, same_in_all_lanes(0.016), slope);
  };
  run();
  const double time = way.time_s[0];
  for (int i = 0; i < kLanes; ++i) {
    CHECK(way.time_s[i] == time);
    CHECK(a[i] == a[0]);
    CHECK(margin[i] == margin[0]);
    CHECK(slope[i] == slope[0]);
  }
  CHECK(way.distance_m[0] > 0.0);
  CHECK_FALSE(law.any_split);
  forces.headwind_mps[7] = -3.0;  // one lane with a tailwind
  forces.mass_kg[9] *= 1.5;
  run();
  CHECK(law.any_split);
  for (int i = 0; i < kLanes; ++i) CHECK((way.time_s[i] == time) == (i != 7 && i != 9));
  CHECK(way.time_s[7] < time);  // helped
  CHECK(way.time_s[9] > time);  // heavier
  CHECK(margin[9] < margin[0]);
  CHECK(slope[9] < slope[0]);
}

TEST_CASE("property: work and energy of a batch passage balance") {
  // Constant forces: v^2 = 2 a s and v = a t exactly.
  RollForces f = plain_forces();
  f.thrust_fall_nspm = 0.0;
  f.drag_area_m2 = 0.0;
  BatchForces forces = batch_forces(f);
  for (int i = 0; i < kLanes; ++i) forces.thrust_n[i] = along(i, 20e3, 90e3);
  BatchLaw law;
  BatchPassage way;
  Lanes v0, v1;
  batch_roll_law(forces, law);
  for (int i = 0; i < kLanes; ++i) {
    const double a = law.above_a[i];
    v0[i] = a > 0.0 ? 1.0 : 8.0;
    v1[i] = a > 0.0 ? 8.0 : 1.0;
  }
  batch_passage(law, v0, v1, way);
  for (int i = 0; i < kLanes; ++i) {
    const double a = law.above_a[i];
    CHECK(way.reached[i] == 1.0);
    CHECK(a * way.time_s[i] == doctest::Approx(v1[i] - v0[i]).epsilon(1e-13));
    CHECK(2.0 * a * way.distance_m[i] ==
          doctest::Approx(v1[i] * v1[i] - v0[i] * v0[i]).epsilon(1e-13));
  }
  // No way at all costs nothing; the way that forces do not take is refused.
  batch_passage(law, v0, v0, way);
  for (int i = 0; i < kLanes; ++i) {
    CHECK(way.reached[i] == 1.0);
    CHECK(way.time_s[i] == 0.0);
    CHECK(way.distance_m[i] == 0.0);
  }
  batch_passage(law, v1, v0, way);
  for (int i = 0; i < kLanes; ++i) CHECK(way.reached[i] == 0.0);
}

TEST_CASE("property: a passage is the sum of its parts, also across the change of wind") {
  BatchForces forces = batch_forces(plain_forces());
  for (int i = 0; i < kLanes; ++i) forces.headwind_mps[i] = along(i, -9.0, 9.0);
  BatchLaw law;
  batch_roll_law(forces, law);
  BatchPassage whole, first, second;
  const Lanes v0 = same_in_all_lanes(0.5);
  const Lanes middle = same_in_all_lanes(3.7);
  const Lanes v1 = same_in_all_lanes(6.0);
  batch_passage(law, v0, v1, whole);
  batch_passage(law, v0, middle, first);
  batch_passage(law, middle, v1, second);
  for (int i = 0; i < kLanes; ++i) {
    CHECK(whole.time_s[i] == doctest::Approx(first.time_s[i] + second.time_s[i]).epsilon(1e-13));
    CHECK(whole.distance_m[i] ==
          doctest::Approx(first.distance_m[i] + second.distance_m[i]).epsilon(1e-13));
    if (i > 0) CHECK(whole.time_s[i] > whole.time_s[i - 1]);  // more headwind
  }
}

TEST_CASE("property: a speed beyond a terminal speed, or with a root inside, is never reached") {
  BatchForces forces = batch_forces(plain_forces());
  for (int i = 0; i < kLanes; ++i) forces.thrust_n[i] = along(i, 36e3, 60e3);
  BatchLaw law;
  BatchPassage way;
  batch_roll_law(forces, law);
  Lanes below, above;
  for (int i = 0; i < kLanes; ++i) {
    const double b = law.above_b[i];
    const double c = law.above_c[i];
    const double end = 2.0 * law.above_a[i] / (-b + std::sqrt(b * b - 4.0 * law.above_a[i] * c));
    below[i] = end * (1.0 - 1e-6);
    above[i] = end * (1.0 + 1e-6);
  }
  batch_passage(law, same_in_all_lanes(0.0), below, way);
  for (const double reached : way.reached.at) CHECK(reached == 1.0);
  batch_passage(law, same_in_all_lanes(0.0), above, way);
  for (int i = 0; i < kLanes; ++i) {
    CHECK(way.reached[i] == 0.0);
    CHECK(way.time_s[i] == 0.0);
    CHECK(way.distance_m[i] == 0.0);
  }
  // Both ends accelerate, the middle does not: a = (v - 3)(v - 4)/100.
  BatchLaw dip;
  dip.above_a = same_in_all_lanes(0.12);
  dip.above_b = same_in_all_lanes(-0.07);
  dip.above_c = same_in_all_lanes(0.01);
  batch_passage(dip, same_in_all_lanes(0.0), same_in_all_lanes(7.0), way);
  CHECK(way.reached[0] == 0.0);
  batch_passage(dip, same_in_all_lanes(0.0), same_in_all_lanes(2.9), way);
  CHECK(way.reached[0] == 1.0);
  // The middle nearly stops, but does not: a = ((v - 3.5)^2 + 0.01)/100, an arctan over more than
  // a right angle. t = 1000 [atan(10 (v1 - 3.5)) + atan(35)].
  dip.above_a = same_in_all_lanes(0.1226);
  batch_passage(dip, same_in_all_lanes(0.0), same_in_all_lanes(9.0), way);
  CHECK(way.reached[0] == 1.0);
  CHECK(way.time_s[0] == doctest::Approx(1e3 * (std::atan(55.0) + std::atan(35.0))).epsilon(1e-9));
  const double log_part = 50.0 * std::log((5.5 * 5.5 + 0.01) / (3.5 * 3.5 + 0.01));
  CHECK(way.distance_m[0] == doctest::Approx(3.5 * way.time_s[0] + log_part).epsilon(1e-9));
}

// Slowing towards the higher of the two speeds that hold, a = c (v - v_l) (v - v_h): partial
// fractions, t = ln[(v0 - v_h) (v1 - v_l) / ((v1 - v_h) (v0 - v_l))] / (-c (v_h - v_l)).
TEST_CASE("property: close above a terminal speed no digits are lost") {
  struct Case {
    double lower, from, to;  // the lower speed that holds, the higher one in the first to last lane
    double curve;
    double close;
    double tolerance;
  };
  // Apart; nearly one; and apart by a quarter, which is next to nothing beside the way slowed down.
  for (const Case& c :
       {Case{3.0, 5.0, 9.0, -0.02, 1e-6, 1e-8}, Case{3.0, 3.005, 3.05, -0.02, 1e-4, 1e-6},
        Case{0.10, 0.125, 0.13, -2.0, 1e-4, 1e-8}}) {
    BatchLaw law;
    BatchPassage way;
    Lanes v0, v1;
    for (int i = 0; i < kLanes; ++i) {
      const double hold = along(i, c.from, c.to);
      law.above_a[i] = c.curve * c.lower * hold;
      law.above_b[i] = -c.curve * (c.lower + hold);
      law.above_c[i] = c.curve;
      v0[i] = hold + along(i, 1.0, 4.0);
      v1[i] = hold * (1.0 + c.close);
    }
    batch_passage(law, v0, v1, way);
    for (int i = 0; i < kLanes; ++i) {
      const double hold = along(i, c.from, c.to);
      const double ratio =
          (v0[i] - hold) * (v1[i] - c.lower) / ((v1[i] - hold) * (v0[i] - c.lower));
      CHECK(way.reached[i] == 1.0);
      CHECK(way.time_s[i] ==
            doctest::Approx(std::log(ratio) / (-c.curve * (hold - c.lower))).epsilon(c.tolerance));
    }
  }
}

TEST_CASE("property: margin and critical slope meet where the margin is zero") {
  BatchForces forces = batch_forces(plain_forces());
  for (int i = 0; i < kLanes; ++i) {
    forces.thrust_n[i] = along(i, -20e3, 90e3);
    forces.headwind_mps[i] = along(i, 12.0, -12.0);
  }
  forces.dragging_brake_n = 1500.0;
  Lanes slope, margin;
  const Lanes resistance = same_in_all_lanes(0.018);
  batch_critical_slope(forces, resistance, slope);
  forces.slope_rad = slope;
  batch_margin(forces, resistance, margin);
  for (int i = 0; i < kLanes; ++i) CHECK(std::abs(margin[i]) < 1e-9 * 300e3 * 9.8);
  for (int i = 1; i < kLanes; ++i) CHECK(slope[i] > slope[i - 1]);
}

TEST_CASE("property: a pack warms with power, cools to the air and does neither in balance") {
  HeatPack one;
  one.air_k = 290.0;
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel}) {
    one.material = material;
    const BatchPack pack = batch_pack(one);
    Lanes power;
    Lanes t = same_in_all_lanes(500.0);
    for (int i = 0; i < kLanes; ++i) power[i] = along(i, 0.0, 40e3);
    batch_heat(pack, power, 60.0, 2, t);
    CHECK(t[0] < 500.0);
    for (int i = 1; i < kLanes; ++i) CHECK(t[i] > t[i - 1]);
    Lanes still = same_in_all_lanes(290.0);
    batch_heat(pack, same_in_all_lanes(0.0), 600.0, 5, still);
    CHECK(still[3] == 290.0);
    // At the balance temperature nothing moves.
    Lanes balance = same_in_all_lanes(balance_temperature_k(one, 3000.0));
    const double before = balance[0];
    batch_heat(pack, same_in_all_lanes(3000.0), 100.0, 1, balance);
    CHECK(balance[0] == doctest::Approx(before).epsilon(1e-12));
    // Fourth order: half the step, a sixteenth of the error.
    const double exact = temperature_after_time_k(one, 700.0, 2000.0, 0.0);
    const auto error = [&](int steps) {
      Lanes x = same_in_all_lanes(700.0);
      batch_heat(pack, same_in_all_lanes(0.0), 2000.0, steps, x);
      return std::abs(x[0] - exact);
    };
    CHECK(error(40) < error(20) / 12.0);
    CHECK(error(80) < error(40) / 12.0);
  }
  // Hotter than where the specific heats change their fits.
  one.material = BrakeMaterial::Carbon;
  Lanes hot;
  for (int i = 0; i < kLanes; ++i) hot[i] = along(i, 150.0, 1500.0);
  const Lanes start = hot;
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel}) {
    one.material = material;
    one.air_k = 200.0;
    hot = start;
    batch_heat(batch_pack(one), same_in_all_lanes(5e3), 1e-4, 1, hot);
    for (int i = 0; i < kLanes; ++i) {
      const double rate = (5e3 - cooling_power_w(one, start[i])) /
                          (one.mass_kg * specific_heat_jpkgk(material, start[i]));
      CHECK((hot[i] - start[i]) / 1e-4 == doctest::Approx(rate).epsilon(1e-6));
    }
  }
}

TEST_CASE("property: however light the pack, it is not colder than the colder of start and air") {
  Draws draws(20261130);
  Worst of_fall;
  double coldest_k = 0.0;
  for (int i = 0; i < 5000; ++i) {
    HeatPack one;
    one.material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel;
    one.mass_kg = draws.by_size(3.0, 150.0);
    one.area_m2 = draws.between(0.05, 4.0);
    one.emissivity = draws.between(0.05, 1.0);
    one.convection_wpm2k = draws.between(0.5, 300.0);
    one.air_k = draws.between(230.0, 320.0);
    const double from_k = draws.between(230.0, 1400.0);
    const double time_s = draws.between(1.0, 120.0);
    Lanes t = same_in_all_lanes(from_k);
    batch_heat(batch_pack(one), same_in_all_lanes(0.0), time_s, 1, t);
    const double exact_k = temperature_after_time_k(one, from_k, time_s, 0.0);
    coldest_k = std::min(coldest_k, t[0] - std::min(from_k, one.air_k));
    if (std::abs(from_k - one.air_k) > 1.0)
      of_fall.note((t[0] - exact_k) / std::abs(from_k - one.air_k), i);
  }
  CHECK(coldest_k >= 0.0);
  CHECK(of_fall.error < 0.04);
}

TEST_CASE("property: a thrust above the weight holds on any slope, as the scalar says") {
  RollForces one;
  one.mass_kg = 5e3;
  one.drag_area_m2 = 0.0;
  for (const double share : {0.3, 0.99, 1.0, 1.2, 5.0}) {
    one.thrust_n = share * one.mass_kg * units::kGravity_mps2;
    Lanes slope;
    batch_critical_slope(forces_in(one, {}, nominal_block(), 0), same_in_all_lanes(0.015), slope);
    CHECK(slope[0] == doctest::Approx(critical_slope_rad(one, 0.015)).epsilon(1e-7));
  }
}

TEST_CASE("property: one step from just where the two fits of carbon meet is the scalar's own") {
  HeatPack pack;
  pack.material = BrakeMaterial::Carbon;
  constexpr double kMeet_k = 1000.0;
  const auto rate_kps = [&](double t_k) {
    return -cooling_power_w(pack, t_k) /
           (pack.mass_kg * specific_heat_jpkgk(BrakeMaterial::Carbon, t_k));
  };
  // Classical Runge-Kutta by hand, with the heat capacity that heat.hpp gives.
  constexpr double kStep_s = 20.0;
  const double k1 = rate_kps(kMeet_k);
  const double k2 = rate_kps(kMeet_k + 0.5 * kStep_s * k1);
  const double k3 = rate_kps(kMeet_k + 0.5 * kStep_s * k2);
  const double k4 = rate_kps(kMeet_k + kStep_s * k3);
  const double expected_k = kMeet_k + kStep_s / 6.0 * (k1 + 2.0 * k2 + 2.0 * k3 + k4);
  Lanes lanes = same_in_all_lanes(kMeet_k);
  batch_heat(batch_pack(pack), same_in_all_lanes(0.0), kStep_s, 1, lanes);
  CHECK(std::abs(lanes[0] - expected_k) < 1e-10);
  CHECK(expected_k < kMeet_k - 1.0);
}

TEST_CASE("property: the same bits from the native program and from WebAssembly") {
  // No libm, no contraction: the digest of everything below is one number on all builds.
  std::uint64_t hash = 0xcbf29ce484222325u;
  BatchForces forces = batch_forces(plain_forces());
  forces.displacement_drag_nspm2 = 12.0;
  forces.rolling_speed_factor_s2pm2 = 2e-5;
  Lanes v0, v1;
  for (int i = 0; i < kLanes; ++i) {
    forces.mass_kg[i] = along(i, 150e3, 420e3);
    forces.slope_rad[i] = along((i * 29) % kLanes, -0.02, 0.01);
    forces.headwind_mps[i] = along((i * 13) % kLanes, -10.0, 10.0);
    forces.overtaken_thrust_share[i] = along((i * 3) % kLanes, 0.0, 1.0);
    forces.scrub_drag_n[i] = along((i * 5) % kLanes, 0.0, 4e3);
    v0[i] = along((i * 7) % kLanes, 0.0, 9.0);
    v1[i] = along((i * 11) % kLanes, 0.0, 12.0);
  }
  BatchLaw law;
  BatchPassage way;
  Lanes a, margin, slope;
  batch_roll_law(forces, law);
  batch_passage(law, v0, v1, way);
  batch_acceleration(law, v0, a);
  batch_margin(forces, same_in_all_lanes(0.016), margin);
  batch_critical_slope(forces, same_in_all_lanes(0.016), slope);
  Lanes t = same_in_all_lanes(420.0);
  BatchPack pack;
  pack.mass_kg = same_in_all_lanes(60.0);
  for (int i = 0; i < kLanes; ++i) pack.area_m2[i] = along(i, 0.5, 1.2);
  batch_heat(pack, v1, 90.0, 3, t);
  pack.material = BrakeMaterial::Steel;
  batch_heat(pack, v1, 90.0, 3, t);
  DrawBlock draws;
  draw_block(Bands{}, 3, 11, 42, draws);
  for (const Lanes* lanes : {&law.below_a, &law.above_a, &way.reached, &way.time_s, &way.distance_m,
                             &a, &margin, &slope, &t})
    hash = digest(hash, *lanes);
  for (const Lanes& lanes : draws.of) hash = digest(hash, lanes);
  CHECK(hash == 7142943112339947559u);
}
