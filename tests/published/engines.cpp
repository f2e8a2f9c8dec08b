// Engines: idle thrust in other air, momentum drag, uneven thrust and fuel against standards, the
// emissions databank and statics.
#include "physics/world/engines.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/world/tyre.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kAtmosphere = "ISO 2533:1975 (ICAO Doc 7488), standard atmosphere";
constexpr const char* kStatics = "Statics of the nose wheels under a yaw moment, computed apart";

Aircraft twin(double idle_flow_kgps) {
  Aircraft aircraft;
  aircraft.engine_count = 2;
  aircraft.idle_fuel_flow_kgps = idle_flow_kgps;
  return aircraft;
}

Condition running(int engines) {
  Condition condition;
  condition.mass_kg = 250e3;
  condition.engines_running = engines;
  return condition;
}

}  // namespace

TEST_CASE("engines: idle thrust goes with the pressure of the standard atmosphere") {
  struct Row {
    double altitude_m, ratio;
  };
  // 89 874.6, 79 495.2 and 70 108.5 Pa over 101 325 Pa.
  for (const Row& row : {Row{1000.0, 0.88699}, Row{2000.0, 0.78456}, Row{3000.0, 0.69192}}) {
    check({.what = "idle thrust over that at sea level",
           .source = kAtmosphere,
           .place = "pressure table; at a fixed corrected speed F ~ p (similarity)",
           .kind = Kind::Formula,
           .expected = row.ratio,
           .got = idle_thrust(Aircraft{}, running(4), standard_air(row.altitude_m)).standing_n /
                  idle_thrust(Aircraft{}, running(4), standard_air(0.0)).standing_n,
           .tolerance = 0.000005});
  }
  // The flow goes with p / sqrt(T): at 2000 m 0.78456 / sqrt(275.15 / 288.15).
  check({.what = "idle air flow at 2000 m over that at sea level",
         .source = kAtmosphere,
         .place = "pressure and temperature table; flow ~ p / sqrt(T) (similarity)",
         .kind = Kind::Formula,
         .expected = 0.80288,
         .got = idle_thrust(Aircraft{}, running(4), standard_air(2000.0)).fall_nspm /
                idle_thrust(Aircraft{}, running(4), standard_air(0.0)).fall_nspm,
         .tolerance = 0.000005});
}

TEST_CASE("engines: idle thrust falls with speed by the momentum of the air taken on board") {
  Aircraft aircraft = twin(0.2);
  aircraft.idle_thrust_n = 15e3;
  aircraft.idle_air_flow_kgps = 300.0;
  const IdleThrust idle = idle_thrust(aircraft, running(1), standard_air(0.0));
  check({.what = "thrust lost per m/s by one engine of 300 kg/s, N",
         .source = "Momentum theorem F = m (V_jet - V), computed apart",
         .place = "300 kg/s",
         .kind = Kind::Own,
         .expected = 300.0,
         .got = idle.fall_nspm,
         .tolerance = 1e-9});
  check({.what = "share of 15 kN lost at 10 kt, %",
         .source = "Momentum theorem F = m (V_jet - V), computed apart",
         .place = "300 x 5.1444 / 15 000",
         .kind = Kind::Own,
         .expected = 10.29,
         .got = 100.0 * idle.fall_nspm * units::mps_from_knots(10.0) / idle.standing_n,
         .tolerance = 0.005});
}

TEST_CASE("engines: uneven thrust against the nose wheels") {
  Aircraft aircraft = twin(0.2);
  aircraft.wheelbase_m = 31.0;
  aircraft.inner_engine_arm_m = aircraft.outer_engine_arm_m = 10.0;
  aircraft.main_gear_load_share = 0.93;
  const ThrustYaw yaw = thrust_yaw(aircraft, running(1), 15e3, 0.5);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row :
       {Row{"yaw moment, kN m", 150.0, yaw.moment_nm / 1e3, 1e-9},
        Row{"side force on the nose wheels, N", 4838.7, yaw.nose_side_force_n, 0.05},
        Row{"side force per load", 0.028195, yaw.nose_grip_needed, 5e-7},
        // Linear tyre 0.028195 / 5.5, the cubic adds 1 part in 2000.
        Row{"slip angle, deg", 0.2939, units::degrees_from_radians(yaw.steering_rad), 0.0002}}) {
    check({.what = row.what,
           .source = kStatics,
           .place = "one engine of 15 kN 10 m from the middle; 250 t, 7 % on the nose 31 m ahead",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
  }
}

TEST_CASE("engines: the slip angle behind a side force") {
  // phi - 4 phi^3 / 27: 0.5 gives 0.481481, 1 gives 0.851852, 1.5 gives 1.
  struct Row {
    double phi, share;
  };
  for (const Row& row : {Row{0.5, 0.481481}, Row{1.0, 0.851852}, Row{1.4999, 1.0}}) {
    check({.what = "normalised slip angle",
           .source = "NASA TR R-64 (Smiley and Horne 1960), yawed tyre",
           .place = "F / (mu F_z) = phi - 4 phi^3 / 27, inverted",
           .kind = Kind::Own,
           .expected = row.phi,
           .got = slip_for_side_force_rad(row.share * 0.6, 5.5, 0.6) * 5.5 / 0.6,
           .tolerance = row.share < 1.0 ? 4e-6 : 2e-4});
  }
}
