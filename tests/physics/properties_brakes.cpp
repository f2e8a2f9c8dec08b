// Properties of one brake application, of the stop, and of the heat of a pack.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/heat/heat.hpp"
#include "physics/motion/application.hpp"
#include "physics/path/obscured_ground.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/stop.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

double relative(double a, double b) {
  return (a - b) / std::max({std::abs(a), std::abs(b), 1e-300});
}

RollLaw draw_law(Draws& draws) {
  const RollForces f{.mass_kg = draws.between(60e3, 550e3),
                     .thrust_n = draws.between(0.0, 100e3),
                     .thrust_fall_nspm = draws.between(0.0, 1500.0),
                     .rolling_resistance = draws.between(0.005, 0.025),
                     .slope_rad = draws.between(-0.03, 0.03),
                     .headwind_mps = draws.between(-12.0, 12.0),
                     .drag_area_m2 = draws.between(0.0, 20.0),
                     .displacement_drag_nspm2 = draws.coin() ? 0.0 : draws.between(0.0, 30.0)};
  return roll_law(f);
}

struct Case {
  RollLaw law;
  double v0, v1, a, j;
};

Case draw_case(Draws& draws) {
  Case c{.law = draw_law(draws),
         .v0 = draws.between(0.5, 16.0),
         .v1 = 0.0,
         .a = draws.between(0.2, 2.5),
         .j = draws.by_size(0.1, 5.0)};
  if (draws.below(3) > 0) c.v1 = c.v0 * draws.between(0.0, 0.98);
  return c;
}

HeatPack draw_pack(Draws& draws) {
  return {.material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel,
          .mass_kg = draws.between(20.0, 100.0),
          .area_m2 = draws.between(0.3, 1.5),
          .emissivity = draws.below(5) == 0 ? 0.0 : draws.between(0.1, 1.0),
          .convection_wpm2k = draws.between(1.0, 40.0),
          .air_k = draws.between(245.0, 320.0)};
}

double draw_hot(Draws& draws, const HeatPack& pack) {
  const double highest = pack.material == BrakeMaterial::Carbon ? 1500.0 : 1000.0;
  return draws.between(pack.air_k + 5.0, highest);
}

// One application to rest that neither thrust nor drag nor slope changes.
Application stop_by_itself(double speed_mps, double deceleration_mps2, double jerk_mps3) {
  return plan_application(RollLaw{}, speed_mps, 0.0, deceleration_mps2, jerk_mps3);
}

}  // namespace

// ------------------------------------------------------------------------- application -----------

TEST_CASE("property: an application joins its speeds smoothly and only slows") {
  Draws draws(301);
  Worst ends, joints, jerk;
  int wrong = 0, held = 0, low_peak = 0;
  for (int i = 0; i < 10000; ++i) {
    const Case c = draw_case(draws);
    const Application a = plan_application(c.law, c.v0, c.v1, c.a, c.j);
    const ApplicationState begin = application_state(a, 0.0);
    const ApplicationState end = application_state(a, a.duration_s);
    ends.note(begin.speed_mps - c.v0, i);
    ends.note(begin.distance_m, i);
    ends.note((end.speed_mps - c.v1) / c.v0, i);
    ends.note(relative(end.distance_m, a.length_m), i);
    ends.note(relative(application_state(a, a.duration_s + 5.0).distance_m, a.length_m), i);
    ends.note(application_state(a, -3.0).speed_mps - c.v0, i);
    (a.hold_s > 0.0 ? held : low_peak)++;
    double before = c.v0;
    for (int k = 1; k <= 40; ++k) {
      const ApplicationState s = application_state(a, a.duration_s * k / 40.0);
      if (s.speed_mps > before + 1e-12) ++wrong;
      before = s.speed_mps;
    }
    // No jump where the phases meet.
    for (const double t : {a.rise_s, a.rise_s + a.hold_s}) {
      const ApplicationState left = application_state(a, t * (1.0 - 1e-13));
      const ApplicationState right = application_state(a, t * (1.0 + 1e-13));
      joints.note((left.speed_mps - right.speed_mps) / c.v0, i);
      joints.note((left.distance_m - right.distance_m) / a.length_m, i);
    }
    if (a.rise_s > 0.0) jerk.note((a.peak_mps2 - a.start_mps2) / (a.rise_s * c.j) - 1.0, i);
    if (a.fall_s > 0.0) jerk.note((a.peak_mps2 - a.end_mps2) / (a.fall_s * c.j) - 1.0, i);
    // It begins and ends with what drag and slope do by themselves, and never peaks above what is
    // asked for, except where nature alone asks for more.
    const double natural = std::max(a.start_mps2, a.end_mps2);
    if (a.peak_mps2 > std::max(c.a, natural + 0.1) + 1e-12) ++wrong;
    if (a.peak_mps2 < natural) ++wrong;
    if (a.rise_s > 0.0 && a.fall_s > 0.0 &&
        std::abs(a.start_mps2 - std::max(0.0, -acceleration_mps2(c.law, c.v0))) > 1e-15)
      ++wrong;
  }
  CHECK(held > 2000);
  CHECK(low_peak > 500);
  CHECK(ends.error < 1e-12);
  CHECK(joints.error < 1e-11);
  CHECK(jerk.error < 1e-12);
  CHECK(wrong == 0);
}

TEST_CASE("property: speed with some way left is the inverse of the way") {
  Draws draws(302);
  Worst inverse;
  int wrong = 0;
  for (int i = 0; i < 3000; ++i) {
    const Case c = draw_case(draws);
    const Application a = plan_application(c.law, c.v0, c.v1, c.a, c.j);
    const double t = a.duration_s * draws.between(0.01, 0.95);
    const ApplicationState s = application_state(a, t);
    // Near the stop the speed rises with the root of the way left.
    inverse.note((application_speed_mps(a, a.length_m - s.distance_m) - s.speed_mps) / c.v0, i);
    if (application_speed_mps(a, a.length_m) != c.v0) ++wrong;
    if (application_speed_mps(a, a.length_m + 10.0) != c.v0) ++wrong;
    if (application_speed_mps(a, 0.0) != c.v1) ++wrong;
    if (application_speed_mps(a, -1.0) != c.v1) ++wrong;
    const double x = draws.between(0.0, a.length_m), y = draws.between(0.0, a.length_m);
    if ((x < y) != (application_speed_mps(a, x) < application_speed_mps(a, y))) ++wrong;
  }
  CHECK(inverse.error < 1e-9);
  CHECK(wrong == 0);
}

TEST_CASE("property: firmer is shorter, faster is longer, endless jerk is plain deceleration") {
  Draws draws(303);
  Worst plain;
  int wrong = 0;
  const RollLaw still{};
  for (int i = 0; i < 5000; ++i) {
    const Case c = draw_case(draws);
    const double length = plan_application(still, c.v0, c.v1, c.a, c.j).length_m;
    const double room = length * (1.0 - 1e-12);
    if (plan_application(still, c.v0, c.v1, c.a * 0.9, c.j).length_m < room) ++wrong;
    if (plan_application(still, c.v0, c.v1, c.a, c.j * 0.9).length_m < room) ++wrong;
    if (!(plan_application(still, c.v0 * 1.05, c.v1, c.a, c.j).length_m > length)) ++wrong;
    const Application hard = plan_application(still, c.v0, c.v1, c.a, 1e12);
    // a^2 / (J drop) is left of the ramps.
    const double drop = c.v0 - c.v1;
    plain.note(drop * relative(hard.length_m, (c.v0 * c.v0 - c.v1 * c.v1) / (2.0 * c.a)), i);
    plain.note(drop * relative(hard.duration_s, drop / c.a), i);
    // One that fits into a length does fit, at one deceleration throughout.
    const double d = draws.by_size(1.0, 300.0);
    const Application firm = firm_application(c.v0, c.v1, d);
    plain.note(relative(firm.length_m, d), i);
    plain.note(relative(firm.peak_mps2, firm.start_mps2), i);
    plain.note(relative(firm.end_mps2, firm.start_mps2), i);
    plain.note(relative(firm.start_mps2 * firm.duration_s, c.v0 - c.v1), i);
    if (firm.rise_s != 0.0 || firm.fall_s != 0.0) ++wrong;
  }
  CHECK(plain.error < 2e-11);
  CHECK(wrong == 0);
}

TEST_CASE("property: the brakes take what is left over, no more, and the worst of it is named") {
  Draws draws(304);
  Worst balance, halves, most_force;
  int split = 0;
  for (int i = 0; i < 5000; ++i) {
    const Case c = draw_case(draws);
    const double mass_kg = draws.between(60e3, 500e3);
    const Application a = plan_application(c.law, c.v0, c.v1, c.a, c.j);
    const double energy_j = application_energy_j(a, c.law, mass_kg);
    if (c.law.split_mps > c.v1 && c.law.split_mps < c.v0) ++split;
    // Twice the mass under the same law: twice the energy.
    halves.note(relative(application_energy_j(a, c.law, 2.0 * mass_kg), 2.0 * energy_j), i);
    // Where idle, slope and drag do nothing, all that was kinetic goes into the brakes.
    const Application alone = plan_application(RollLaw{}, c.v0, c.v1, c.a, c.j);
    balance.note(relative(application_energy_j(alone, RollLaw{}, mass_kg),
                          0.5 * mass_kg * (c.v0 * c.v0 - c.v1 * c.v1)),
                 i);
    // A steady pull more takes pull x way more.
    RollLaw pulled = c.law;
    pulled.below.a_mps2 += 0.05;
    pulled.above.a_mps2 += 0.05;
    balance.note(
        (application_energy_j(a, pulled, mass_kg) - energy_j) / (mass_kg * 0.05 * a.length_m) - 1.0,
        i);
    double most = 0.0;
    for (int k = 0; k <= 400; ++k) {
      const double t = a.duration_s * k / 400.0;
      const double deceleration =
          t < a.rise_s ? a.start_mps2 + (a.peak_mps2 - a.start_mps2) * t / a.rise_s
          : t <= a.rise_s + a.hold_s
              ? a.peak_mps2
              : a.peak_mps2 - (a.peak_mps2 - a.end_mps2) * (t - a.rise_s - a.hold_s) / a.fall_s;
      most = std::max(most,
                      deceleration + acceleration_mps2(c.law, application_state(a, t).speed_mps));
    }
    // The corners are where it is largest but for the curvature of drag within a phase.
    most_force.note((application_brakes_mps2(a, c.law) - most) / (0.1 + most), i);
  }
  CHECK(split > 500);
  CHECK(halves.error < 1e-13);
  CHECK(balance.error < 1e-8);  // the difference of two energies: 1e-13 of a much larger number
  CHECK(most_force.error < 0.02);
}

// ------------------------------------------------------------------------------- stop ------------

TEST_CASE("property: the stop's places add up, and what is hidden grows with the eye's height") {
  Draws draws(305);
  int wrong = 0, hidden = 0;
  for (int i = 0; i < 5000; ++i) {
    Brief brief = draw_plain_brief(draws);
    brief.limits.stop_short_m = draws.between(0.0, 5.0);
    const double v0 = draws.between(0.5, 10.0);
    const Application a = plan_application(RollLaw{}, v0, 0.0, 0.9, 0.3);
    const StopAnswer s = stop_answer(brief, a);
    const Aircraft& aircraft = brief.aircraft;
    CHECK(s.gear_before_line_m + stop_position_m(brief) ==
          doctest::Approx(route_length_m(brief.route)).epsilon(1e-12));
    CHECK(s.eye_before_line_m - s.nose_before_line_m ==
          doctest::Approx(aircraft.nose_tip_ahead_m - aircraft.eye_ahead_m).epsilon(1e-12));
    CHECK(s.tail_before_line_m - s.gear_before_line_m ==
          doctest::Approx(aircraft.tail_behind_m).epsilon(1e-12));
    CHECK(s.gear_before_line_m - s.nose_gear_before_line_m ==
          doctest::Approx(aircraft.wheelbase_m).epsilon(1e-12));
    if (brief.route.end == RouteEnd::StandMark) {
      if (std::abs(s.nose_gear_before_line_m) > 1e-12) ++wrong;  // the nose gear is on its mark
    } else {
      if (s.nose_before_line_m < brief.limits.stop_short_m - 1e-12) ++wrong;
      if (brief.route.stop_bar_lit && !s.line_visible_at_stop) ++wrong;
    }
    const double unseen_m = obscured_ahead_m(aircraft.eye_height_m, aircraft.view_cutoff_rad, 0.0);
    CHECK(s.obscured_m == unseen_m);
    CHECK(s.left_when_lost_m == doctest::Approx(unseen_m - s.eye_before_line_m).epsilon(1e-12));
    CHECK(s.line_visible_at_stop == (s.left_when_lost_m < 0.0));
    CHECK(s.eye_before_line_m - s.nose_before_line_m ==
          doctest::Approx(unseen_m - s.nose_before_line_when_lost_m).epsilon(1e-12));
    CHECK(s.approach_mps == v0);
    CHECK(s.brake_distance_m == a.length_m);
    CHECK(s.brake_time_s == a.duration_s);
    CHECK(s.eye_before_line_at_brake_m == s.eye_before_line_m + a.length_m);
    CHECK(s.line_visible_at_brake == (s.eye_before_line_at_brake_m > unseen_m));
    if (s.left_when_lost_m > 0.0) {
      ++hidden;
      if (!(s.speed_when_lost_mps > 0.0 && s.speed_when_lost_mps <= v0)) ++wrong;
      if (std::abs(s.left_when_lost_s * s.speed_when_lost_mps - s.left_when_lost_m) > 1e-9) ++wrong;
    } else if (s.speed_when_lost_mps != 0.0 || s.left_when_lost_s != 0.0) {
      ++wrong;
    }
    const double h = aircraft.eye_height_m, down = aircraft.view_cutoff_rad;
    if (!(obscured_ahead_m(h + 0.1, down, 0.0) > obscured_ahead_m(h, down, 0.0))) ++wrong;
    if (!(obscured_ahead_m(h, down + 0.01, 0.0) < obscured_ahead_m(h, down, 0.0))) ++wrong;
    // A lamp stays in view until nearer than paint; one above the eye for ever.
    if (!(obscured_ahead_m(h, down, 0.3) < obscured_ahead_m(h, down, 0.0))) ++wrong;
    if (obscured_ahead_m(h, down, h + 1.0) != 0.0) ++wrong;
    if (std::abs(obscured_ahead_m(2.0 * h, down, 0.6) - 2.0 * obscured_ahead_m(h, down, 0.3)) >
        1e-12)
      ++wrong;
  }
  CHECK(hidden > 500);
  CHECK(wrong == 0);
}

TEST_CASE("property: the smooth stop scales, and with the line in view longest it is not hidden") {
  Draws draws(306);
  Worst scaled, whole;
  for (int i = 0; i < 5000; ++i) {
    const double v = draws.between(0.2, 15.0), a = draws.between(0.2, 3.0);
    const double j = draws.by_size(0.05, 10.0);
    const Application stop = stop_by_itself(v, a, j);
    const double l = draws.by_size(0.1, 10.0), t = draws.by_size(0.1, 10.0);
    // Not below a = 0.1, where an application must add something: kept away by the draw of a.
    const double a2 = a * l / (t * t);
    if (a2 < 0.15) continue;
    const Application other = stop_by_itself(v * l / t, a2, j * l / (t * t * t));
    scaled.note(relative(other.length_m, stop.length_m * l), i);
    scaled.note(relative(other.duration_s, stop.duration_s * t), i);
    scaled.note(relative(other.peak_mps2, stop.peak_mps2 * l / (t * t)), i);
    // The mean speed of a symmetric profile is half the speed.
    whole.note(relative(stop.length_m, 0.5 * v * stop.duration_s), i);
    CHECK(stop.peak_mps2 <= a);
  }
  CHECK(scaled.error < 1e-12);
  CHECK(whole.error < 1e-12);
}

// ------------------------------------------------------------------------------- heat ------------

TEST_CASE("property: heat content is the integral of the specific heat and never falls") {
  Draws draws(307);
  Worst slope;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const BrakeMaterial material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel;
    const bool carbon = material == BrakeMaterial::Carbon;
    const double t = draws.between(carbon ? 205.0 : 260.0, carbon ? 1900.0 : 1000.0);
    const double dt = 0.5;
    const double difference =
        (heat_content_jpkg(material, t + dt) - heat_content_jpkg(material, t - dt)) / (2.0 * dt);
    // Central difference: off by c_p'' dt^2 / 6, and at a knot by the jump of c_p' (steel 600
    // degC).
    slope.note(relative(difference, specific_heat_jpkgk(material, t)), i);
    if (!(heat_content_jpkg(material, t + 1.0) > heat_content_jpkg(material, t))) ++wrong;
  }
  CHECK(slope.error < 1e-3);
  CHECK(wrong == 0);
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel})
    CHECK(heat_content_jpkg(material, 273.15) == doctest::Approx(0.0).epsilon(1e-9));
  // Both polynomials of graphite meet at 1000 K, steel is held above 600 degC.
  CHECK(specific_heat_jpkgk(BrakeMaterial::Carbon, 1000.0) ==
        doctest::Approx(specific_heat_jpkgk(BrakeMaterial::Carbon, 1000.0 + 1e-9)).epsilon(1e-5));
  CHECK(heat_content_jpkg(BrakeMaterial::Carbon, 1000.0) ==
        doctest::Approx(heat_content_jpkg(BrakeMaterial::Carbon, 1000.0 + 1e-9)).epsilon(1e-11));
  CHECK(specific_heat_jpkgk(BrakeMaterial::Steel, 1000.0) ==
        specific_heat_jpkgk(BrakeMaterial::Steel, 900.0));
  CHECK(specific_heat_jpkgk(BrakeMaterial::Steel, 860.0) <
        specific_heat_jpkgk(BrakeMaterial::Steel, 873.15));
  CHECK(specific_heat_jpkgk(BrakeMaterial::Carbon, 150.0) ==
        specific_heat_jpkgk(BrakeMaterial::Carbon, 200.0));
}

TEST_CASE("property: energy put in adds up, in parts and over packs") {
  Draws draws(308);
  Worst parts, shared, conserved;
  int wrong = 0;
  for (int i = 0; i < 5000; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double t0 = draws.between(pack.air_k, 700.0);
    const double e1 = draws.by_size(1e3, 2e7), e2 = draws.by_size(1e3, 2e7);
    const double once = temperature_after_energy_k(pack, t0, e1 + e2);
    const double twice =
        temperature_after_energy_k(pack, temperature_after_energy_k(pack, t0, e1), e2);
    parts.note(relative(once, twice), i);
    conserved.note(
        pack.mass_kg *
                (heat_content_jpkg(pack.material, once) - heat_content_jpkg(pack.material, t0)) /
                (e1 + e2) -
            1.0,
        i);
    HeatPack heavier = pack;
    heavier.mass_kg *= 3.0;
    shared.note(relative(temperature_after_energy_k(heavier, t0, 3.0 * (e1 + e2)), once), i);
    if (!(once > twice - 1e-9 && once > t0)) ++wrong;
    // The same energy raises a cold pack by more, as long as the specific heat grows.
    const double rise_cold = temperature_after_energy_k(pack, 300.0, e1) - 300.0;
    const double rise_warm = temperature_after_energy_k(pack, 500.0, e1) - 500.0;
    const double hottest = std::max(rise_cold, rise_warm) + 500.0;
    if (hottest < 800.0 && !(rise_cold > rise_warm)) ++wrong;
    if (temperature_after_energy_k(pack, t0, 0.0) != t0) ++wrong;
    if (temperature_after_energy_k(pack, t0, -5.0) != t0) ++wrong;
  }
  CHECK(parts.error < 1e-12);
  CHECK(conserved.error < 1e-9);
  CHECK(shared.error < 1e-12);
  CHECK(wrong == 0);
}

TEST_CASE("property: cooling in two times is cooling in their sum, and the time leads back") {
  Draws draws(309);
  Worst parts, inverse, added;
  int warmed = 0;
  for (int i = 0; i < 3000; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double power_w = draws.below(3) == 0 ? draws.by_size(100.0, 8000.0) : 0.0;
    const double t0 = draw_hot(draws, pack);
    const double s1 = draws.by_size(1.0, 3000.0), s2 = draws.by_size(1.0, 3000.0);
    const double middle = temperature_after_time_k(pack, t0, s1, power_w);
    const double end = temperature_after_time_k(pack, t0, s1 + s2, power_w);
    parts.note(relative(temperature_after_time_k(pack, middle, s2, power_w), end), i);
    const double balance_k = balance_temperature_k(pack, power_w);
    if (balance_k > t0) ++warmed;
    if (std::abs(end - balance_k) < 0.5) continue;  // nothing left to measure time by
    const CoolingTime whole = time_between_temperatures(pack, t0, end, power_w);
    REQUIRE(whole.reached);
    inverse.note(relative(whole.time_s, s1 + s2), i);
    const CoolingTime first = time_between_temperatures(pack, t0, middle, power_w);
    const CoolingTime second = time_between_temperatures(pack, middle, end, power_w);
    REQUIRE(first.reached);
    REQUIRE(second.reached);
    added.note(relative(first.time_s + second.time_s, whole.time_s), i);
    // Not back again: the other way round is never reached by itself.
    CHECK_FALSE(time_between_temperatures(pack, end, t0, power_w).reached);
    CHECK_FALSE(time_between_temperatures(pack, t0, balance_k, power_w).reached);
  }
  CHECK(warmed > 100);
  CHECK(parts.error < 1e-11);
  CHECK(inverse.error < 1e-8);
  CHECK(added.error < 1e-9);
}

TEST_CASE("property: packs cool towards the air, sooner with area, wind and blackness") {
  Draws draws(310);
  Worst balance, mirror;
  int wrong = 0;
  for (int i = 0; i < 3000; ++i) {
    const HeatPack pack = draw_pack(draws);
    const double t0 = draw_hot(draws, pack);
    const double s = draws.by_size(10.0, 3000.0);
    const double cooled = temperature_after_time_k(pack, t0, s, 0.0);
    if (!(cooled < t0 && cooled > pack.air_k)) ++wrong;
    if (!(temperature_after_time_k(pack, t0 + 1.0, s, 0.0) > cooled)) ++wrong;
    if (!(temperature_after_time_k(pack, t0, 1.1 * s, 0.0) < cooled)) ++wrong;
    if (!(temperature_after_time_k(pack, t0, s, 100.0) > cooled)) ++wrong;
    const auto sooner = [&](HeatPack other) {
      if (!(temperature_after_time_k(other, t0, s, 0.0) < cooled)) ++wrong;
      if (!(cooling_power_w(other, t0) >= cooling_power_w(pack, t0))) ++wrong;
    };
    HeatPack other = pack;
    other.area_m2 *= 1.05;
    sooner(other);
    other = pack;
    other.convection_wpm2k += 1.0;
    sooner(other);
    other = pack;
    other.emissivity += 0.05;
    sooner(other);
    other = pack;
    other.mass_kg *= 0.95;
    sooner(other);
    other = pack;
    other.air_k -= 5.0;
    sooner(other);
    // Heat flows both ways by one law: what a pack at T loses to air at A, one at A gains from T.
    HeatPack swapped = pack;
    swapped.air_k = t0;
    mirror.note(relative(cooling_power_w(swapped, pack.air_k), -cooling_power_w(pack, t0)), i);
    if (cooling_power_w(pack, pack.air_k) != 0.0) ++wrong;
    const double power_w = draws.by_size(1.0, 20e3);
    const double balance_k = balance_temperature_k(pack, power_w);
    balance.note(relative(cooling_power_w(pack, balance_k), power_w), i);
    if (!(balance_temperature_k(pack, 1.01 * power_w) > balance_k)) ++wrong;
    if (balance_temperature_k(pack, 0.0) != pack.air_k) ++wrong;
    // It stays at its balance, and at no time nothing happens.
    if (std::abs(temperature_after_time_k(pack, balance_k, s, power_w) - balance_k) > 1e-9) ++wrong;
    if (temperature_after_time_k(pack, t0, 0.0, power_w) != t0) ++wrong;
    const CoolingTime none = time_between_temperatures(pack, t0, t0, power_w);
    if (!none.reached || none.time_s != 0.0) ++wrong;
  }
  CHECK(balance.error < 1e-11);
  CHECK(mirror.error < 1e-14);
  CHECK(wrong == 0);
}

TEST_CASE("property: a pack keeps what it gets less what its hottest moment loses, and scales") {
  Draws draws(311);
  Worst scaled;
  int wrong = 0;
  for (int i = 0; i < 2000; ++i) {
    HeatPack pack = draw_pack(draws);
    pack.emissivity = std::max(pack.emissivity, 0.05);
    const double t0 = draws.between(pack.air_k + 1.0, 600.0);
    const double s = draws.by_size(1.0, 2000.0), power_w = draws.by_size(100.0, 5e3);
    // Mass, area and power times k: the same temperatures.
    const double k = draws.by_size(0.1, 10.0);
    HeatPack larger = pack;
    larger.mass_kg *= k;
    larger.area_m2 *= k;
    const double t = temperature_after_time_k(pack, t0, s, power_w);
    scaled.note(relative(temperature_after_time_k(larger, t0, s, k * power_w), t), i);
    const double all_kept = temperature_after_energy_k(pack, t0, s * power_w);
    if (!(t < all_kept)) ++wrong;
    const double hottest_w = cooling_power_w(pack, std::max(t0, t));
    const double coolest_w = cooling_power_w(pack, std::min(t0, t));
    const auto content_j = [&](double t_k) {
      return pack.mass_kg * heat_content_jpkg(pack.material, t_k);
    };
    const double kept_j = content_j(t) - content_j(t0), room_j = 1e-9 * content_j(1000.0);
    if (kept_j > (power_w - coolest_w) * s + room_j) ++wrong;
    if (kept_j < (power_w - hottest_w) * s - room_j) ++wrong;
  }
  CHECK(scaled.error < 1e-11);
  CHECK(wrong == 0);
}

TEST_CASE("property: a pack is made of the aircraft's numbers, with fans only where fitted") {
  Draws draws(312);
  for (int i = 0; i < 200; ++i) {
    const Aircraft aircraft = draw_aircraft(draws);
    const HeatPack still = heat_pack(aircraft, 300.0, false);
    const HeatPack blown = heat_pack(aircraft, 300.0, true);
    CHECK(still.convection_wpm2k == aircraft.brake_convection_wpm2k);
    CHECK(blown.convection_wpm2k == (aircraft.fan_convection_wpm2k > 0.0
                                         ? aircraft.fan_convection_wpm2k
                                         : aircraft.brake_convection_wpm2k));
    CHECK(still.air_k == 300.0);
    CHECK(still.mass_kg == aircraft.heat_pack_mass_kg);
    CHECK(still.area_m2 == aircraft.brake_area_m2);
    CHECK(still.emissivity == aircraft.brake_emissivity);
    CHECK(still.material == aircraft.brake_material);
  }
}

TEST_CASE("property: fans choose the departure limit only where they are fitted and on") {
  Brief brief;
  brief.limits.departure_brake_k = 560.0;
  brief.limits.departure_brake_fans_k = 430.0;
  for (const double fitted_wpm2k : {0.0, 40.0}) {
    for (const bool on : {false, true}) {
      brief.aircraft.fan_convection_wpm2k = fitted_wpm2k;
      brief.condition.fans_on = on;
      CHECK(departure_limit_k(brief) == (on && fitted_wpm2k > 0.0 ? 430.0 : 560.0));
    }
  }
}

TEST_CASE("property: a speed band stays below its limit, is worth an application, and scales") {
  Draws draws(20261191);
  for (int i = 0; i < 1000; ++i) {
    Technique technique;
    technique.band_top_mps = draws.between(2.0, 20.0);
    technique.band_bottom_mps = draws.between(0.0, 20.0);
    technique.short_drop_mps = draws.between(0.1, 8.0);
    const double limit = draws.between(2.0, 20.0);
    for (const BrakeTechnique braking :
         {BrakeTechnique::FewLong, BrakeTechnique::ManyShort, BrakeTechnique::Dragging}) {
      const SpeedBand band = speed_band(technique, braking, limit);
      CHECK(band.top_mps == std::min(limit, technique.band_top_mps));
      CHECK(band.bottom_mps >= 0.5 * band.top_mps);
      CHECK(band.bottom_mps <= 0.9 * band.top_mps);
      // Cut in proportion where the limit is below it, and as wanted where that is worth it.
      const double wanted = braking == BrakeTechnique::ManyShort
                                ? band.top_mps - technique.short_drop_mps
                                : technique.band_bottom_mps / technique.band_top_mps * band.top_mps;
      if (wanted > 0.5 * band.top_mps && wanted < 0.9 * band.top_mps)
        CHECK(band.bottom_mps == doctest::Approx(wanted).epsilon(1e-14));
      else
        CHECK((band.bottom_mps == 0.5 * band.top_mps || band.bottom_mps == 0.9 * band.top_mps));
      Technique twice = technique;
      for (double* speed : {&twice.band_top_mps, &twice.band_bottom_mps, &twice.short_drop_mps})
        *speed *= 2.0;
      CHECK(speed_band(twice, braking, 2.0 * limit).bottom_mps == 2.0 * band.bottom_mps);
    }
  }
}
