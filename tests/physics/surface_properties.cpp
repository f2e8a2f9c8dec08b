// What must hold on every surface: worse codes and more speed never grip more, limits only tighten.
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <utility>

#include "physics/world/surface.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kPsi_pa = 6894.757293168361;
constexpr std::initializer_list<Surface> kSurfaces = {
    Surface::Dry,   Surface::Wet,     Surface::Slippery, Surface::StandingWater,
    Surface::Slush, Surface::WetSnow, Surface::DrySnow,  Surface::CompactedSnow,
    Surface::Ice,   Surface::WetIce};
constexpr double kPressures_psi[] = {30.0, 50.0, 75.0, 100.0, 150.0, 200.0, 250.0, 300.0, 330.0};

double knots(double value) { return units::mps_from_knots(value); }

Day day_of(Surface surface, double depth_m = 0.0, int code = kNoReportedCode) {
  Day day;
  day.surface = surface;
  day.contaminant_depth_m = depth_m;
  day.reported_code = code;
  return day;
}

PavementState state_of(Surface surface, double depth_m = 0.0, double psi = 200.0,
                       int code = kNoReportedCode) {
  Aircraft aircraft;
  aircraft.tyre_pressure_pa = psi * kPsi_pa;
  return pavement_state(aircraft, day_of(surface, depth_m, code));
}

Brief brief_on(const Day& day) {
  Brief brief;
  brief.day = day;
  return brief;
}

}  // namespace

TEST_CASE("surface: a worse reported code never grips more, at any pressure and speed") {
  for (const Surface surface : kSurfaces)
    for (const double psi : kPressures_psi)
      for (double kt = 0.0; kt <= 100.0; kt += 5.0) {
        double braking = 1.0;
        double side = 1.0;
        for (int code = 6; code >= 0; --code) {
          const PavementState state = state_of(surface, 0.01, psi, code);
          const double brakes_now = braking_friction(state, knots(kt));
          const double side_now = side_grip(state, knots(kt));
          CHECK(brakes_now <= braking);
          CHECK(side_now <= side);
          CHECK(brakes_now > 0.0);
          CHECK(side_now > 0.0);
          CHECK(side_now <= 0.7);
          braking = brakes_now;
          side = side_now;
        }
      }
}

TEST_CASE("surface: grip falls with speed and with tyre pressure") {
  for (const Surface surface : kSurfaces)
    for (const double psi : kPressures_psi)
      for (double kt = 0.0; kt < 100.0; kt += 2.5) {
        const PavementState state = state_of(surface, 0.01, psi);
        CHECK(braking_friction(state, knots(kt + 2.5)) <= braking_friction(state, knots(kt)));
        CHECK(side_grip(state, knots(kt + 2.5)) <= side_grip(state, knots(kt)));
      }
  for (double kt = 0.0; kt <= 60.0; kt += 10.0)
    for (std::size_t i = 1; i < std::size(kPressures_psi); ++i)
      CHECK(wet_friction(kPressures_psi[i] * kPsi_pa, knots(kt)) <=
            wet_friction(kPressures_psi[i - 1] * kPsi_pa, knots(kt)));
}

TEST_CASE("surface: wet friction is linear between the pressures of the rule and held outside") {
  const double v = knots(17.0);
  const auto at = [v](double psi) { return wet_friction(psi * kPsi_pa, v); };
  for (const auto& [low, high] :
       {std::pair{50.0, 100.0}, std::pair{100.0, 200.0}, std::pair{200.0, 300.0}}) {
    CHECK(at(0.5 * (low + high)) == doctest::Approx(0.5 * (at(low) + at(high))).epsilon(1e-12));
    CHECK(at(0.75 * low + 0.25 * high) ==
          doctest::Approx(0.75 * at(low) + 0.25 * at(high)).epsilon(1e-12));
    CHECK(at(high) < at(low) - 0.01);
  }
  CHECK(at(20.0) == at(50.0));
  CHECK(at(400.0) == at(300.0));
}

TEST_CASE("surface: deeper never means a better code, and thin layers are wet") {
  for (const Surface surface : kSurfaces) {
    CHECK(condition_code(surface, 0.02, 260.0) <= condition_code(surface, 0.002, 260.0));
    CHECK(condition_code(surface, 0.02, 270.0) <= condition_code(surface, 0.02, 250.0));
  }
  for (const Surface surface :
       {Surface::StandingWater, Surface::Slush, Surface::WetSnow, Surface::DrySnow}) {
    const PavementState thin = state_of(surface, 0.003);
    const PavementState deep = state_of(surface, 0.0031);
    CHECK(!thin.loose);
    CHECK(deep.loose);
    CHECK(thin.displacement_drag_nspm2 == 0.0);
    CHECK(thin.snow_drag_nspm == 0.0);
    // Dry snow resists with the speed, all else that is loose with its square.
    CHECK((deep.snow_drag_nspm > 0.0) == (surface == Surface::DrySnow));
    CHECK((deep.displacement_drag_nspm2 > 0.0) == (surface != Surface::DrySnow));
    // Water is not packed under a standing wheel; slush and snow are.
    CHECK(thin.start_modelled);
    CHECK(deep.start_modelled == (surface == Surface::StandingWater));
    CHECK(thin.depth_m == 0.003);
    CHECK(thin.density_kgpm3 == deep.density_kgpm3);
    for (const double kt : {0.0, 10.0, 30.0}) {
      CHECK(braking_friction(thin, knots(kt)) ==
            braking_friction(state_of(Surface::Wet), knots(kt)));
      CHECK(side_grip(thin, knots(kt)) == side_grip(state_of(Surface::Wet), knots(kt)));
      CHECK(braking_friction(deep, knots(kt)) <= default_friction(surface, knots(kt)));
    }
  }
  // Depth means nothing on what can't be deep.
  for (const Surface surface : {Surface::Dry, Surface::Wet, Surface::Slippery,
                                Surface::CompactedSnow, Surface::Ice, Surface::WetIce}) {
    const PavementState state = state_of(surface, 0.02);
    CHECK(state.depth_m == 0.0);
    CHECK(state.density_kgpm3 == 0.0);
    CHECK(!state.loose);
    CHECK(state.displacement_drag_nspm2 == 0.0);
    CHECK(state.snow_drag_nspm == 0.0);
    CHECK(state.start_modelled);
    CHECK(condition_code(surface, 0.02, 270.0) == condition_code(surface, 0.0, 270.0));
  }
}

TEST_CASE("surface: a reported code counts only when it is worse") {
  for (const Surface surface : kSurfaces) {
    const PavementState own = state_of(surface, 0.01);
    CHECK(own.condition_code == own.surface_code);
    CHECK(!own.reported_worse);
    CHECK(own.surface == surface);
    for (int code = 0; code <= 6; ++code) {
      const PavementState told = state_of(surface, 0.01, 200.0, code);
      CHECK(told.surface_code == own.surface_code);
      CHECK(told.condition_code == std::min(code, own.surface_code));
      CHECK(told.reported_worse == (code < own.surface_code));
    }
  }
}

TEST_CASE("surface: displacement drag scales as its formula says") {
  const double drag = tyre_displacement_drag_nspm2(0.48, 0.09, 0.012, 850.0);
  CHECK(tyre_displacement_drag_nspm2(0.48, 0.09, 0.012, 425.0) == doctest::Approx(0.5 * drag));
  // All lengths doubled: the area is four times as large.
  CHECK(tyre_displacement_drag_nspm2(0.96, 0.18, 0.024, 850.0) == doctest::Approx(4.0 * drag));
  CHECK(tyre_displacement_drag_nspm2(0.48, 0.09, 0.0, 850.0) == 0.0);
  double last = 0.0;
  for (double depth = 0.004; depth < 0.3; depth += 0.004) {
    const double now = tyre_displacement_drag_nspm2(0.48, 0.09, depth, 850.0);
    CHECK(now > last);
    last = now;
  }
  // Sunk by half of the width and more it cuts a swath of its whole width.
  for (const double depth : {0.15, 0.2, 0.6})
    CHECK(tyre_displacement_drag_nspm2(0.48, 0.09, depth, 850.0) ==
          doctest::Approx(0.5 * 850.0 * 0.48 * depth * 0.75));
}

TEST_CASE("surface: all rows of main wheels and the nose wheels meet the contaminant") {
  Aircraft aircraft;
  const Day day = day_of(Surface::Slush, 0.01);
  const double one =
      tyre_displacement_drag_nspm2(aircraft.tyre_width_m, aircraft.tyre_deflection_m, 0.01, 850.0);
  struct Row {
    int wheels, axles;
    double count, behind;
  };
  for (const Row& row : {Row{12, 2, 14.0, 6.0}, Row{12, 3, 10.4, 4.4}, Row{4, 1, 6.0, 0.0},
                         Row{20, 2, 22.0, 10.0}, Row{16, 4, 10.4, 4.4}}) {
    aircraft.main_wheel_count = row.wheels;
    aircraft.bogie_axles = row.axles;
    const PavementState state = pavement_state(aircraft, day);
    CHECK(state.displacement_drag_nspm2 == doctest::Approx(row.count * one));
    CHECK(state.rear_rows_share == doctest::Approx(row.behind / row.count));
    CHECK(pavement_state(aircraft, day_of(Surface::Slush, 0.003)).rear_rows_share == 0.0);
  }
  // More wheels on as many legs never take less.
  double last = 0.0;
  for (int axles = 1; axles <= 4; ++axles) {
    aircraft.bogie_axles = axles;
    aircraft.main_wheel_count = 4 * axles;
    const double now = pavement_state(aircraft, day).displacement_drag_nspm2;
    CHECK(now >= last);
    last = now;
  }
}

TEST_CASE("surface: dry snow drags as its displacement would in the middle of its tests") {
  const Aircraft aircraft;
  const double square = 14.0 * tyre_displacement_drag_nspm2(aircraft.tyre_width_m,
                                                            aircraft.tyre_deflection_m, 0.03, 80.0);
  const double middle_mps = 65.0 / 3.6;
  CHECK(pavement_state(aircraft, day_of(Surface::DrySnow, 0.03)).snow_drag_nspm * middle_mps ==
        doctest::Approx(square * middle_mps * middle_mps));
}

TEST_CASE("surface: aquaplaning speed goes with the root of the pressure") {
  const double one = aquaplaning_speed_mps(100.0 * kPsi_pa);
  CHECK(aquaplaning_speed_mps(400.0 * kPsi_pa) == doctest::Approx(2.0 * one));
  CHECK(one == doctest::Approx(knots(90.0)).epsilon(1e-12));
}

TEST_CASE("surface: grip in a turn is that at the operator's limit") {
  const PavementState wet = state_of(Surface::Wet);
  Limits limits;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = limits.sharp_turn_rad;
  CHECK(grip_in_turn(wet, limits, arc) == side_grip(wet, limits.sharp_turn_speed_mps));
  arc.turn_rad = -0.99 * limits.sharp_turn_rad;
  CHECK(grip_in_turn(wet, limits, arc) == side_grip(wet, limits.gentle_turn_speed_mps));
  arc.speed_limit_mps = knots(5.0);
  CHECK(grip_in_turn(wet, limits, arc) == side_grip(wet, knots(5.0)));
  arc.speed_limit_mps = knots(50.0);
  CHECK(grip_in_turn(wet, limits, arc) == side_grip(wet, limits.gentle_turn_speed_mps));
}

TEST_CASE("surface: weight on working brakes") {
  Aircraft aircraft;
  aircraft.main_wheel_count = 12;
  aircraft.brake_count = 12;
  aircraft.main_gear_load_share = 0.93;
  Condition condition;
  CHECK(braked_load_share(aircraft, condition) == doctest::Approx(0.93));
  condition.brakes_inoperative = 3;
  CHECK(braked_load_share(aircraft, condition) == doctest::Approx(0.93 * 0.75));
  aircraft.brake_count = 8;
  CHECK(braked_load_share(aircraft, condition) == doctest::Approx(0.93 * 5.0 / 12.0));
  aircraft.brake_count = 16;  // more brakes than wheels brake no more than all of them
  CHECK(braked_load_share(aircraft, condition) == doctest::Approx(0.93));
}

TEST_CASE("surface: limits only tighten, by the rule, and tightening twice changes nothing") {
  for (const Surface surface : kSurfaces)
    for (const double depth : {0.002, 0.01})
      for (int code = kNoReportedCode; code <= 6; ++code) {
        Brief brief = brief_on(day_of(surface, depth, code));
        brief.technique.deceleration_mps2 = 0.93;  // firm, so that most surfaces cut it
        const PavementState state = pavement_state(brief.aircraft, brief.day);
        const SurfaceLimits cut = limits_on_surface(brief, state);
        const Brief tight = tightened_for_surface(brief, cut);
        const Limits& given = brief.limits;
        const bool winter = state.condition_code <= 3;
        CHECK(cut.speeds_cut == winter);
        CHECK(tight.limits.straight_speed_mps ==
              (winter ? given.winter_straight_speed_mps : given.straight_speed_mps));
        CHECK(tight.limits.sharp_turn_speed_mps ==
              (winter ? given.winter_turn_speed_mps : given.sharp_turn_speed_mps));
        CHECK(tight.limits.gentle_turn_speed_mps ==
              (winter ? given.winter_turn_speed_mps : given.gentle_turn_speed_mps));
        CHECK(cut.planned_deceleration_mps2 == brief.technique.deceleration_mps2);
        CHECK(cut.braking_friction ==
              braking_friction(
                  state, std::min(brief.technique.band_top_mps, tight.limits.straight_speed_mps)));
        CHECK(cut.most_deceleration_mps2 ==
              doctest::Approx(cut.braking_friction * 0.93 * units::kGravity_mps2));
        CHECK(tight.technique.deceleration_mps2 ==
              doctest::Approx(std::min(0.93, 0.8 * cut.most_deceleration_mps2)));
        CHECK(cut.braking_cut == (0.8 * cut.most_deceleration_mps2 < 0.93));
        const Brief again = tightened_for_surface(tight, limits_on_surface(tight, state));
        CHECK(again.limits.straight_speed_mps == tight.limits.straight_speed_mps);
        CHECK(again.limits.sharp_turn_speed_mps == tight.limits.sharp_turn_speed_mps);
        CHECK(again.limits.gentle_turn_speed_mps == tight.limits.gentle_turn_speed_mps);
        CHECK(again.technique.deceleration_mps2 == tight.technique.deceleration_mps2);
      }
}

TEST_CASE("surface: each speed that is cut is said to be") {
  // Two of the three speeds are below the winter speeds already; the third is not.
  for (int which = 0; which < 3; ++which) {
    Brief brief = brief_on(day_of(Surface::Ice));
    brief.limits.straight_speed_mps = which == 0 ? knots(15.0) : knots(2.0);
    brief.limits.sharp_turn_speed_mps = which == 1 ? knots(15.0) : knots(2.0);
    brief.limits.gentle_turn_speed_mps = which == 2 ? knots(15.0) : knots(2.0);
    const PavementState state = pavement_state(brief.aircraft, brief.day);
    CHECK(limits_on_surface(brief, state).speeds_cut);
  }
  Brief slow = brief_on(day_of(Surface::Ice));
  slow.limits.straight_speed_mps = slow.limits.sharp_turn_speed_mps =
      slow.limits.gentle_turn_speed_mps = knots(2.0);
  const PavementState state = pavement_state(slow.aircraft, slow.day);
  CHECK(!limits_on_surface(slow, state).speeds_cut);
  // The winter limits leave slower ones alone.
  CHECK(limits_on_surface(slow, state).straight_speed_mps == knots(2.0));
}

TEST_CASE("surface: the friction for the limits is that at the fastest speed which is used") {
  Brief brief;
  brief.day.surface = Surface::Wet;
  const PavementState pavement = pavement_state(brief.aircraft, brief.day);
  REQUIRE(braking_friction(pavement, 5.0) != braking_friction(pavement, 12.0));
  for (const auto& [band, straight] : {std::pair{5.0, 12.0}, std::pair{12.0, 5.0}}) {
    brief.technique.band_top_mps = band;
    brief.limits.straight_speed_mps = straight;
    CHECK(limits_on_surface(brief, pavement).braking_friction == braking_friction(pavement, 5.0));
  }
}
