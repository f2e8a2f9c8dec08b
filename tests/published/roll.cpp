// Rolling: force balance, exact motion, slopes and resistance against handbooks and standards.
#include "physics/motion/roll.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kNewton = "Newton's second law for a rolling body, computed apart";
constexpr const char* kAnnex14 = "ICAO Annex 14 Vol I, 5th ed. 2009";

RollForces constant_forces(double mass_kg, double thrust_n, double rolling) {
  return {.mass_kg = mass_kg,
          .thrust_n = thrust_n,
          .rolling_resistance = rolling,
          .breakaway_resistance = rolling};
}

double knots(double value) { return units::mps_from_knots(value); }

}  // namespace

TEST_CASE("roll: steepest slope and level acceleration at idle") {
  // 30 kN of idle thrust, resistance 0.015. i* = F/(m g) - mu; the exact angle differs from it by
  // less than the last digit.
  struct Row {
    double mass_kg, slope_percent, acceleration_mps2;
  };
  for (const Row& row : {Row{170e3, 0.2995, 0.02937}, Row{250e3, -0.2763, -0.02710}}) {
    const RollForces forces = constant_forces(row.mass_kg, 30e3, 0.015);
    check({.what = "slope of balance at idle, %",
           .source = kNewton,
           .place = "F/(m g) - mu",
           .kind = Kind::Own,
           .expected = row.slope_percent,
           .got = 100.0 * std::tan(critical_slope_rad(forces, 0.015)),
           .tolerance = 1e-4});
    check({.what = "acceleration on the level, m/s2",
           .source = kNewton,
           .place = "F/m - mu g",
           .kind = Kind::Own,
           .expected = row.acceleration_mps2,
           .got = acceleration_mps2(roll_law(forces), 0.0),
           .tolerance = 1e-5});
  }
  const RollForces balanced = constant_forces(203943.0, 30e3, 0.015);
  check({.what = "level acceleration at 203 943 kg, m/s2",
         .source = kNewton,
         .place = "F/m - mu g, tolerance is 1 kg of mass",
         .kind = Kind::Own,
         .expected = 0.0,
         .got = acceleration_mps2(roll_law(balanced), 0.0),
         .tolerance = 0.015 * units::kGravity_mps2 / 203943.0});
}

TEST_CASE("roll: idle roll downhill under a constant force") {
  RollForces forces = constant_forces(200e3, 40e3, 0.012);
  forces.slope_rad = std::atan(-0.005);
  const RollLaw law = roll_law(forces);
  const Passage passed = passage(law, knots(10.0), knots(30.0));
  CHECK(passed.reached);
  check({.what = "acceleration, m/s2",
         .source = kNewton,
         .place = "200 t, 40 kN, 0.012, 0.5 % down",
         .kind = Kind::Own,
         .expected = 0.131354,
         .got = acceleration_mps2(law, 0.0),
         .tolerance = 1e-6});
  check({.what = "time from 10 to 30 kt, s",
         .source = kNewton,
         .place = "200 t, 40 kN, 0.012, 0.5 % down",
         .kind = Kind::Own,
         .expected = 78.33,
         .got = passed.time_s,
         .tolerance = 0.005});
  check({.what = "distance from 10 to 30 kt, m",
         .source = kNewton,
         .place = "200 t, 40 kN, 0.012, 0.5 % down",
         .kind = Kind::Own,
         .expected = 805.9,
         .got = passed.distance_m,
         .tolerance = 0.05});
}

TEST_CASE("roll: idle thrust that falls with speed (exponential approach)") {
  RollForces forces = constant_forces(200e3, 40e3, 0.012);
  forces.slope_rad = std::atan(-0.005);
  forces.thrust_fall_nspm = 600.0;
  const RollLaw law = roll_law(forces);
  const Passage passed = passage(law, knots(10.0), knots(30.0));
  const TerminalSpeed terminal = terminal_speed(law, knots(10.0));
  CHECK(passed.reached);
  CHECK(terminal.exists);
  const char* const place = "v = V (1 - exp(-t/tau)), V 43.784 m/s, tau 333.33 s";
  check({.what = "terminal speed, m/s",
         .source = kNewton,
         .place = place,
         .kind = Kind::Own,
         .expected = 43.784,
         .got = terminal.speed_mps,
         .tolerance = 0.001});
  check({.what = "time from 10 to 30 kt, s",
         .source = kNewton,
         .place = place,
         .kind = Kind::Own,
         .expected = 103.21,
         .got = passed.time_s,
         .tolerance = 0.005});
  check({.what = "distance from 10 to 30 kt, m",
         .source = kNewton,
         .place = place,
         .kind = Kind::Own,
         .expected = 1089.2,
         .got = passed.distance_m,
         .tolerance = 0.05});
}

TEST_CASE("roll: air drag of a wind from ahead") {
  // rho/2 V^2 C_D S with 11 m2 at sea level.
  for (const auto& [wind_kt, drag_n] : {std::pair{30.0, 1604.8}, std::pair{60.0, 6419.2}}) {
    RollForces calm = constant_forces(250e3, 40e3, 0.012);
    calm.drag_area_m2 = 11.0;
    RollForces windy = calm;
    windy.headwind_mps = knots(wind_kt);
    const double lost_n =
        250e3 * (acceleration_mps2(roll_law(calm), 0.0) - acceleration_mps2(roll_law(windy), 0.0));
    check({.what = "air drag at standstill, N",
           .source = "Drag equation with the sea-level density of ISO 2533, computed apart",
           .place = "11 m2",
           .kind = Kind::Own,
           .expected = drag_n,
           .got = lost_n,
           .tolerance = 0.05});
  }
}

TEST_CASE("roll: the steepest taxiway of the standard") {
  RollForces forces = constant_forces(250e3, 0.0, 0.0);
  forces.slope_rad = std::atan(0.015);
  check({.what = "pull of a 1.5 % slope, m/s2",
         .source = kAnnex14,
         .place = "3.9.9, code letters C to F: 1.5 %",
         .kind = Kind::Formula,
         .expected = -0.147,
         .got = acceleration_mps2(roll_law(forces), 0.0),
         .tolerance = 0.0005});
}

TEST_CASE("roll: units") {
  check({.what = "kinetic energy of 1 lb at 1 kt, ft lb",
         .source = "14 CFR 25.735(f), before amendment 25-107 (KE = 0.0443 W V^2 / N)",
         .place = "constant; half a unit of its last digit",
         .kind = Kind::Own,
         .expected = 0.0443,
         .got = 0.5 * units::kPound_kg * units::kKnot_mps * units::kKnot_mps /
                (units::kPound_kg * units::kGravity_mps2 * units::kFoot_m),
         .tolerance = 0.00005});
}
