// Surfaces: condition codes, friction, side grip and the drag of contaminants against the rules and
// measurements they come from.
//
// Tolerances. A number worked out from a formula's own coefficients: half a unit of the last digit
// given here. A printed number: half a unit of its last digit. Where the formula itself is believed
// to stand in a document that was not at hand, the origin says so.
#include "physics/world/surface.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/motion/application.hpp"
#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::check_band;
using published::Kind;

namespace {

constexpr double kPsi_pa = 6894.757293168361;
constexpr const char* kCfr109 = "14 CFR 25.109(c)";
constexpr const char* kAmc1591 = "EASA AMC 25.1591, ED Decision 2021/015/R";
constexpr const char* kAgard = "Barnes and Yager, AGARD-AG-333, 1998";
constexpr const char* kMatrix = "ICAO Doc 9981 and FAA AC 150/5200-30D, assessment matrix";
constexpr const char* kSafo = "FAA SAFO 16009, Runway Assessment and Condition Reporting, 2016";
constexpr const char* kAim = "FAA Aeronautical Information Manual, 4-3-9";
constexpr const char* kAc2531 = "FAA AC 25-31, 2015, wheel braking by condition code";

double knots(double value) { return units::mps_from_knots(value); }

// A pavement of a code of its own, under tyres of 200 psi.
PavementState pavement(Surface surface, double depth_m = 0.0, double temperature_k = 270.0,
                       double pressure_psi = 200.0) {
  Aircraft aircraft;
  aircraft.tyre_pressure_pa = pressure_psi * kPsi_pa;
  Day day;
  day.surface = surface;
  day.contaminant_depth_m = depth_m;
  day.temperature_k = temperature_k;
  return pavement_state(aircraft, day);
}

PavementState reported(int code) {
  Aircraft aircraft;
  aircraft.tyre_pressure_pa = 200.0 * kPsi_pa;
  Day day;
  day.reported_code = code;
  return pavement_state(aircraft, day);
}

}  // namespace

TEST_CASE("surface: condition code by surface, depth and temperature") {
  struct Row {
    const char* what;
    Surface surface;
    double depth_mm, celsius;
    int code;
    const char* source;
    const char* place;
    Kind kind;
  };
  const auto memory = Kind::Own;
  const auto seen = Kind::Worked;
  const char* const rows = "row of the matrix";
  const char* const quoted =
      "matrix, as quoted: 1/8 in of slush is good, compacted snow at -15 degC "
      "and below good to medium";
  for (const Row& row :
       {Row{"dry", Surface::Dry, 0.0, 10.0, 6, kAim, "6: dry", seen},
        Row{"wet", Surface::Wet, 0.0, 10.0, 5, kMatrix, rows, memory},
        Row{"3 mm of slush (1/8 in)", Surface::Slush, 3.0, -1.0, 5, kSafo, quoted, seen},
        Row{"3 mm of water", Surface::StandingWater, 3.0, 10.0, 5, kMatrix, rows, memory},
        Row{"3 mm of wet snow", Surface::WetSnow, 3.0, 0.0, 5, kMatrix, rows, memory},
        Row{"3 mm of dry snow", Surface::DrySnow, 3.0, -5.0, 5, kMatrix, rows, memory},
        Row{"compacted snow at -15 degC", Surface::CompactedSnow, 0.0, -15.0, 4, kSafo, quoted,
            seen},
        Row{"compacted snow at -14.9 degC", Surface::CompactedSnow, 0.0, -14.9, 3, kMatrix, rows,
            memory},
        Row{"slippery when wet", Surface::Slippery, 0.0, 10.0, 3, kMatrix, rows, memory},
        Row{"3.1 mm of dry snow", Surface::DrySnow, 3.1, -5.0, 3, kMatrix, rows, memory},
        Row{"3.1 mm of wet snow", Surface::WetSnow, 3.1, 0.0, 3, kMatrix, rows, memory},
        Row{"3.1 mm of water", Surface::StandingWater, 3.1, 10.0, 2, kMatrix, rows, memory},
        Row{"3.1 mm of slush", Surface::Slush, 3.1, 0.0, 2, kMatrix, rows, memory},
        Row{"ice", Surface::Ice, 0.0, -5.0, 1, kMatrix, rows, memory},
        Row{"wet ice", Surface::WetIce, 0.0, 0.0, 0, kMatrix, rows, memory}}) {
    check({.what = row.what,
           .source = row.source,
           .place = row.place,
           .kind = row.kind,
           .expected = static_cast<double>(row.code),
           .got = static_cast<double>(condition_code(row.surface, row.depth_mm / 1000.0,
                                                     units::kelvin_from_celsius(row.celsius))),
           .tolerance = 0.0});
  }
}

TEST_CASE("surface: a contaminant counts as loose above 3 mm") {
  for (const auto& [depth_mm, loose] : {std::pair{3.0, 0.0}, std::pair{3.01, 1.0}}) {
    check({.what = "slush of that depth is loose (1) or not (0)",
           .source = kAmc1591,
           .place = "2.0: a depth of more than 3 mm for loose contaminant accountability",
           .kind = Kind::Formula,
           .expected = loose,
           .got = pavement(Surface::Slush, depth_mm / 1000.0).loose ? 1.0 : 0.0,
           .tolerance = 0.0});
  }
  struct Row {
    Surface surface;
    double gravity;
    const char* because;
  };
  for (const Row& row : {Row{Surface::StandingWater, 1.0, ""}, Row{Surface::Slush, 0.85, ""},
                         Row{Surface::WetSnow, 0.5, ""},
                         Row{Surface::DrySnow, 0.2,
                             "dry snow was measured at 0.03 to 0.13, which the program takes"}}) {
    check({.what = "specific gravity",
           .source = kAmc1591,
           .place = "6: standing water, slush, wet snow, dry snow",
           .kind = Kind::Own,
           .expected = row.gravity,
           .got = pavement(row.surface, 0.01).density_kgpm3 / 1000.0,
           .tolerance = 0.0,
           .differs_because = row.because});
  }
}

TEST_CASE("surface: friction of a wet smooth pavement by tyre pressure and speed") {
  struct Row {
    double psi, speed_kt, friction;
  };
  for (const Row& row :
       {Row{50.0, 0.0, 0.8830}, Row{50.0, 20.0, 0.7248}, Row{50.0, 100.0, 0.3030},
        Row{100.0, 0.0, 0.8040}, Row{100.0, 20.0, 0.6555}, Row{100.0, 100.0, 0.2753},
        Row{200.0, 0.0, 0.6920}, Row{200.0, 20.0, 0.5702}, Row{200.0, 30.0, 0.5164},
        Row{200.0, 100.0, 0.2529}, Row{300.0, 0.0, 0.6140}, Row{300.0, 20.0, 0.5020},
        Row{300.0, 100.0, 0.2259}, Row{220.0, 20.0, 0.5566}}) {
    check({.what = "largest friction, smooth wet pavement",
           .source = kCfr109,
           .place = "(1), cubic in V/100 kt for 50, 100, 200, 300 psi; 220 psi interpolated",
           .kind = Kind::Own,
           .expected = row.friction,
           .got = wet_friction(row.psi * kPsi_pa, knots(row.speed_kt)),
           .tolerance = 0.00005});
  }
  check({.what = "efficiency of a fully modulating anti-skid system",
         .source = kCfr109,
         .place = "(2): 0.80",
         .kind = Kind::Formula,
         .expected = 0.80,
         .got = braking_friction(pavement(Surface::Wet), knots(20.0)) /
                wet_friction(200.0 * kPsi_pa, knots(20.0)),
         .tolerance = 1e-12});
  check({.what = "wet braking at 220 psi and 20 kt",
         .source = kCfr109,
         .place = "(1) interpolated, times (2)",
         .kind = Kind::Own,
         .expected = 0.44526,
         .got = braking_friction(pavement(Surface::Wet, 0.0, 280.0, 220.0), knots(20.0)),
         .tolerance = 1e-5});
}

TEST_CASE("surface: braking by condition code") {
  for (const auto& [code, friction] :
       {std::pair{4, 0.20}, std::pair{3, 0.16}, std::pair{1, 0.07}}) {
    check({.what = "wheel braking by code",
           .source = kAc2531,
           .place = "codes 4, 3, 1 (1: 0.07 to 0.08)",
           .kind = Kind::Own,
           .expected = friction,
           .got = braking_friction(reported(code), knots(15.0)),
           .tolerance = 0.0});
  }
  check({.what = "code 2 at 15 kt: the cap",
         .source = kAc2531,
         .place = "code 2: half of 25.109(c), at most 0.16",
         .kind = Kind::Own,
         .expected = 0.16,
         .got = braking_friction(reported(2), knots(15.0)),
         .tolerance = 0.0});
  check({.what = "code 2 at 80 kt: half of the wet braking",
         .source = kAc2531,
         .place = "code 2: half of 25.109(c); 200 psi, 0.8 x 0.30993 / 2",
         .kind = Kind::Own,
         .expected = 0.12397,
         .got = braking_friction(reported(2), knots(80.0)),
         .tolerance = 0.00001});
  // 85 % of 9 sqrt(200) kt is 108.19 kt.
  for (const auto& [speed_kt, friction] : {std::pair{108.1, 0.09335}, std::pair{108.3, 0.05}}) {
    check({.what = "code 2 on both sides of 85 % of the aquaplaning speed",
           .source = kAc2531,
           .place = "code 2: 0.05 above 85 %",
           .kind = Kind::Own,
           .expected = friction,
           .got = braking_friction(reported(2), knots(speed_kt)),
           .tolerance = 0.00001});
  }
}

TEST_CASE("surface: default friction of contaminants") {
  struct Row {
    double speed_kt, friction;
  };
  for (const Row& row : {Row{0.0, 0.3485}, Row{10.0, 0.30791}, Row{20.0, 0.27231},
                         Row{30.0, 0.24131}, Row{100.0, 0.1215}}) {
    for (const Surface surface : {Surface::StandingWater}) {
      check({.what = "default friction in water and slush",
             .source = kAmc1591,
             .place = "7.3.1: -0.0632 x^3 + 0.2683 x^2 - 0.4321 x + 0.3485",
             .kind = Kind::Own,
             .expected = row.friction,
             .got = default_friction(surface, knots(row.speed_kt)),
             .tolerance = 0.000005});
    }
  }
  for (const auto& [surface, friction] :
       {std::pair{Surface::WetSnow, 0.17}, std::pair{Surface::DrySnow, 0.17},
        std::pair{Surface::CompactedSnow, 0.20}, std::pair{Surface::Ice, 0.05}}) {
    check({.what = "default friction: wet snow, dry snow, compacted snow, ice",
           .source = kAmc1591,
           .place = "7.3.1",
           .kind = Kind::Own,
           .expected = friction,
           .got = default_friction(surface, knots(20.0)),
           .tolerance = 0.0});
  }
  check({.what = "braking on ice, the lower of code 1 and the default",
         .source = kAmc1591,
         .place = "7.3.1: ice 0.05",
         .kind = Kind::Own,
         .expected = 0.05,
         .got = braking_friction(pavement(Surface::Ice), knots(10.0)),
         .tolerance = 0.0});
}

TEST_CASE("surface: dry braking and wet cornering at 200 psi") {
  check({.what = "dry friction at 20 kt",
         .source = kAgard,
         .place = "0.912 (1 - 0.0011 p) - 0.00079 V, second-hand; anti-skid 0.8 taken out",
         .kind = Kind::Formula,
         .expected = 0.69556,
         .got = braking_friction(pavement(Surface::Dry), knots(20.0)) / 0.8,
         .tolerance = 1e-5});
  struct Row {
    double speed_kt, grip;
  };
  for (const Row& row : {Row{0.0, 0.530015}, Row{10.0, 0.498727}}) {
    check({.what = "side grip, wet",
           .source = kAgard,
           .place = "0.64 m + 0.15 m^2, m = (0.91 - 0.001 p)(1 - 0.0052 V), second-hand",
           .kind = Kind::Formula,
           .expected = row.grip,
           .got = side_grip(pavement(Surface::Wet), knots(row.speed_kt)),
           .tolerance = 1e-6});
  }
  check({.what = "side grip at 20 kt, wet: the lower wet braking",
         .source = kCfr109,
         .place = "0.8 x 0.5702 below the 0.46785 of AGARD-AG-333",
         .kind = Kind::Own,
         .expected = 0.45617,
         .got = side_grip(pavement(Surface::Wet), knots(20.0)),
         .tolerance = 1e-5});
}

TEST_CASE("surface: aquaplaning") {
  constexpr const char* kHorne = "Horne and Dreher, NASA TN D-2056, 1963";
  struct Row {
    double psi, speed_kt, tolerance;
  };
  for (const Row& row : {Row{36.0, 54.0, 0.5}, Row{200.0, 127.0, 0.5}}) {
    check({.what = "speed at which a rolling tyre floats, kt",
           .source = kHorne,
           .place = "9 sqrt(p), as quoted with the examples 36 psi: 54 kt and 200 psi: 127 kt",
           .kind = Kind::Worked,
           .expected = row.speed_kt,
           .got = units::knots_from_mps(aquaplaning_speed_mps(row.psi * kPsi_pa)),
           .tolerance = row.tolerance});
  }
  check({.what = "speed at which a tyre of 24 psi floats, kt",
         .source = "FAA Airplane Flying Handbook, dynamic hydroplaning",
         .place = "8.6 sqrt(p): about 42 kt",
         .kind = Kind::Worked,
         .expected = 42.0,
         .got = units::knots_from_mps(aquaplaning_speed_mps(24.0 * kPsi_pa)),
         .tolerance = 0.5,
         .differs_because = "the handbook has 8.6 for the 9 of the tests"});
}

TEST_CASE("surface: displacement drag of slush on one tyre") {
  const double drag = tyre_displacement_drag_nspm2(0.50, 0.10, 0.012, 850.0);
  constexpr const char* kPlace =
      "7.1: D = 1/2 rho v^2 b d C_D, C_D 0.75; tyre 0.50 m, deflection 0.10 m, 12 mm of slush";
  check({.what = "width of the tyre's cut, m",
         .source = kAmc1591,
         .place = kPlace,
         .kind = Kind::Own,
         .expected = 0.41692,
         .got = drag / (0.5 * 850.0 * 0.75 * 0.012),
         .tolerance = 5e-6});
  struct Row {
    double speed_mps, drag_n, tolerance;
  };
  for (const Row& row :
       {Row{knots(20.0), 168.8, 0.05}, Row{knots(30.0), 379.8, 0.05}, Row{10.0, 159.47, 0.005}}) {
    check({.what = "drag of one tyre, N",
           .source = kAmc1591,
           .place = kPlace,
           .kind = Kind::Own,
           .expected = row.drag_n,
           .got = drag * row.speed_mps * row.speed_mps,
           .tolerance = row.tolerance});
  }
  // One leg's drag over that of one wheel: of two aircraft with as many nose wheels, what the legs
  // take that one has more.
  struct Leg {
    const char* what;
    int axles;
    double times;
  };
  for (const Leg& leg : {Leg{"drag of a pair of wheels over that of one", 1, 2.0},
                         Leg{"drag of a bogie of four wheels over that of one", 2, 4.0},
                         Leg{"drag of a bogie of six wheels over that of one", 3, 4.2}}) {
    const auto of_legs = [&](int legs) {
      Aircraft aircraft;
      aircraft.tyre_width_m = 0.50;
      aircraft.tyre_deflection_m = 0.10;
      aircraft.bogie_axles = leg.axles;
      aircraft.main_wheel_count = 2 * leg.axles * legs;
      Day day;
      day.surface = Surface::Slush;
      day.contaminant_depth_m = 0.012;
      return pavement_state(aircraft, day).displacement_drag_nspm2;
    };
    check({.what = leg.what,
           .source = kAmc1591,
           .place = "7.1.2, interference included (from memory: the text could not be read)",
           .kind = Kind::Own,
           .expected = leg.times,
           .got = (of_legs(4) - of_legs(2)) / 2.0 / drag,
           .tolerance = 1e-9});
  }
}

TEST_CASE("surface: holding against one engine at take-off thrust") {
  // 14 CFR 25.735(d): the parking brake holds most thrust on one engine and idle on the others on a
  // dry level pavement. 320 kN + 22.4 kN against 250 t, 92 % of them on braked wheels.
  Aircraft aircraft;
  aircraft.main_gear_load_share = 0.92;
  aircraft.main_wheel_count = aircraft.brake_count = 12;
  Condition condition;
  condition.mass_kg = 250e3;
  const double needed = (320e3 + 22.4e3) / (braked_load_share(aircraft, condition) *
                                            condition.mass_kg * units::kGravity_mps2);
  constexpr const char* kRule = "14 CFR 25.735(d)";
  check({.what = "friction that holds it",
         .source = "Parking brake against one engine, computed apart",
         .place = "F / (0.92 m g)",
         .kind = Kind::Own,
         .expected = 0.1518,
         .got = needed,
         .tolerance = 0.00005});
  check_band({.what = "what dry pavement gives against it",
              .source = kRule,
              .place = "must hold when dry",
              .kind = Kind::Formula,
              .lowest = 0.1518,
              .highest = 0.8,
              .got = braking_friction(pavement(Surface::Dry), 0.0)});
}

TEST_CASE("surface: where the energy of a taxi stop goes") {
  // The brakes' share of the kinetic energy is 1 - C_r g / a + T / (m a) at constant deceleration.
  struct Row {
    double deceleration, thrust_mps2, share, tolerance;
  };
  for (const Row& row :
       {Row{1.0, 0.0, 0.88232, 5e-6}, Row{1.0, 0.08, 0.96232, 5e-6}, Row{0.5, 0.0, 0.76, 0.005},
        Row{1.5, 0.0, 0.92, 0.005}, Row{0.5, 0.08, 0.92, 0.005}, Row{1.5, 0.08, 0.97, 0.005}}) {
    const double mass_kg = 250e3;
    const double v0 = knots(30.0);
    const RollLaw law = roll_law(
        {.mass_kg = mass_kg, .thrust_n = row.thrust_mps2 * mass_kg, .rolling_resistance = 0.012});
    const Application stop = firm_application(v0, 0.0, v0 * v0 / (2.0 * row.deceleration));
    check({.what = "brakes' share of the kinetic energy",
           .source = "Energy balance of a braked roll, computed apart",
           .place = "1 - C_r g / a + T / (m a), C_r 0.012",
           .kind = Kind::Own,
           .expected = row.share,
           .got = application_energy_j(stop, law, mass_kg) / (0.5 * mass_kg * v0 * v0),
           .tolerance = row.tolerance});
  }
  const double v0 = knots(30.0);
  const RollLaw no_thrust = roll_law({.mass_kg = 250e3, .thrust_n = 0.0});
  const Application stop = firm_application(v0, 0.0, v0 * v0 / 2.0);
  check_band({.what = "brakes' share without thrust at 1 m/s2, near the trade's figure",
              .source = "Retired brake engineer's answer (post)",
              .place = "about 85 % in normal braking",
              .kind = Kind::Formula,
              .lowest = 0.80,
              .highest = 0.90,
              .got = application_energy_j(stop, no_thrust, 250e3) / (0.5 * 250e3 * v0 * v0)});
}
