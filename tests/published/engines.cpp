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
using published::check_band;
using published::Origin;

namespace {

constexpr const char* kAtmosphere = "ISO 2533:1975 (ICAO Doc 7488), standard atmosphere";
constexpr const char* kDatabank = "ICAO Engine Emissions Databank";
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
           .origin = Origin::Identity,
           .expected = row.ratio,
           .got = idle_thrust(Aircraft{}, running(4), standard_air(row.altitude_m)).standing_n /
                  idle_thrust(Aircraft{}, running(4), standard_air(0.0)).standing_n,
           .tolerance = 0.000005,
           .worked = true});
  }
  // The flow goes with p / sqrt(T): at 2000 m 0.78456 / sqrt(275.15 / 288.15).
  check({.what = "idle air flow at 2000 m over that at sea level",
         .source = kAtmosphere,
         .place = "pressure and temperature table; flow ~ p / sqrt(T) (similarity)",
         .origin = Origin::Identity,
         .expected = 0.80288,
         .got = idle_thrust(Aircraft{}, running(4), standard_air(2000.0)).fall_nspm /
                idle_thrust(Aircraft{}, running(4), standard_air(0.0)).fall_nspm,
         .tolerance = 0.000005,
         .worked = true});
}

TEST_CASE("engines: idle thrust falls with speed by the momentum of the air taken on board") {
  Aircraft aircraft = twin(0.2);
  aircraft.idle_thrust_n = 15e3;
  aircraft.idle_air_flow_kgps = 300.0;
  const IdleThrust idle = idle_thrust(aircraft, running(1), standard_air(0.0));
  check({.what = "thrust lost per m/s by one engine of 300 kg/s, N",
         .source = "Momentum theorem F = m (V_jet - V), computed apart",
         .place = "300 kg/s",
         .origin = Origin::Derived,
         .expected = 300.0,
         .got = idle.fall_nspm,
         .tolerance = 1e-9});
  check({.what = "share of 15 kN lost at 10 kt, %",
         .source = "Momentum theorem F = m (V_jet - V), computed apart",
         .place = "300 x 5.1444 / 15 000",
         .origin = Origin::Derived,
         .expected = 10.29,
         .got = 100.0 * idle.fall_nspm * units::mps_from_knots(10.0) / idle.standing_n,
         .tolerance = 0.005,
         .worked = true});
}

TEST_CASE("engines: thrust over the taxi") {
  constexpr const char* kTaxi = "Nikoleris, Gupta and Kistler, Transportation Research D 16, 2011";
  check_band({.what = "default idle thrust over the rating that the default fuel flow implies",
              .source = kTaxi,
              .place = "stop 4 %, constant speed 5 %, turn 7 %",
              .origin = Origin::FromMemory,
              .lowest = 0.04,
              .highest = 0.07,
              // Databank regression for high bypass ratios: 0.0367 kg/s + 6.074e-4 kg/s per kN.
              .got = Aircraft{}.idle_thrust_n /
                     (1000.0 * (Aircraft{}.idle_fuel_flow_kgps - 0.0367) / 6.074e-4)});
}

TEST_CASE("engines: fuel of the landing and take-off cycle") {
  // 60 (0.7 take-off + 2.2 climb + 4 approach + 26 idle), minutes and kg/s. The flows are printed
  // to 0.001 kg/s: 60 x 0.0005 x 32.9 is 1 kg.
  struct Row {
    double take_off, climb, approach, idle, cycle_kg;
  };
  for (const Row& row :
       {Row{2.819, 2.306, 0.801, 0.291, 1069.0}, Row{4.600, 3.566, 1.073, 0.341, 1453.392}}) {
    const double other_kg = 60.0 * (0.7 * row.take_off + 2.2 * row.climb + 4.0 * row.approach);
    const double idle_kg = 60.0 * 26.0 * fuel_flow_kgps(twin(row.idle), running(1), 0.0);
    check({.what = "fuel of one engine in the cycle, 26 min of it at idle, kg",
           .source = kDatabank,
           .place = "LTO fuel of two engines; modes 0.7, 2.2, 4.0 and 26.0 min",
           .expected = row.cycle_kg,
           .got = other_kg + idle_kg,
           .tolerance = 1.0,
           .worked = true});
  }
  for (const auto& [rated_kn, flow] : {std::pair{320.0, 0.2311}, std::pair{380.0, 0.2675}}) {
    const double four_kgps = fuel_flow_kgps(twin(0.0367 + 6.074e-4 * rated_kn), running(4), 0.0);
    check({.what = "idle flow of an engine of that rating, from four of them, kg/s",
           .source = kDatabank,
           .place = "regression over 68 engines of high bypass ratio, residual 0.0145 kg/s",
           .origin = Origin::Identity,
           .expected = flow,
           .got = four_kgps / 4.0,
           .tolerance = 5e-5,
           .worked = true});
  }
  check_band({.what = "default idle flow, kg/s",
              .source = kDatabank,
              .place = "68 engines of high bypass ratio rated 230 to 514 kN",
              .origin = Origin::Identity,
              .lowest = 0.0367 + 6.074e-4 * 230.0,
              .highest = 0.0367 + 6.074e-4 * 514.0,
              .got = fuel_flow_kgps(Aircraft{}, running(1), 0.0)});
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
           .origin = Origin::Derived,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance,
           .worked = true});
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
           .origin = Origin::FromMemory,
           .expected = row.phi,
           .got = slip_for_side_force_rad(row.share * 0.6, 5.5, 0.6) * 5.5 / 0.6,
           .tolerance = row.share < 1.0 ? 4e-6 : 2e-4,
           .worked = true});
  }
}
