// What a turn costs and how fast it may be taken: tyre curve, bogie scrub, side load.
#include <doctest/doctest.h>

#include <cmath>
#include <utility>

#include "physics/numerics/units.hpp"
#include "physics/path/turn.hpp"
#include "physics/world/tyre.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::check_band;
using published::Kind;

namespace {

constexpr const char* kTyreReport = "NASA TR R-64 (Smiley and Horne 1960)";
constexpr const char* kEnergy = "Energy balance of a bogie on a circle, computed apart";
constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";

double kmh(double value) { return value * units::kKilometrePerHour_mps; }
double degrees(double value) { return units::radians_from_degrees(value); }

// A vehicle that is so short that every part of it runs on the radius of its main gear, and that
// nothing limits but the seat's side load.
Aircraft short_vehicle() {
  Aircraft aircraft;
  aircraft.eye_ahead_m = aircraft.cabin_front_ahead_m = aircraft.cabin_rear_behind_m = 0.0;
  return aircraft;
}

Limits seat_limit_only(double side_load_g) {
  Limits limits;
  limits.sharp_turn_speed_mps = limits.gentle_turn_speed_mps = 1000.0;
  limits.straight_speed_mps = 1000.0;
  limits.gear_side_load_g = 1000.0;
  limits.nose_grip_share = 1000.0;
  limits.seat_side_load_g = side_load_g;
  return limits;
}

double speed_at_side_load_mps(double radius_m, double side_load_g) {
  return turn_speed_limit(short_vehicle(), seat_limit_only(side_load_g), 250e3, radius_m,
                          degrees(90.0), 0.0, 0.7)
      .speed_mps;
}

}  // namespace

TEST_CASE("tyre: the side-force cubic") {
  // phi = C alpha / mu; value 1 and slope 0 at phi = 1.5 are exact.
  const double stiffness = 5.5;
  const double grip = 0.7;
  auto g = [&](double phi) {
    return side_force_per_load(phi * grip / stiffness, stiffness, grip) / grip;
  };
  for (const auto& [phi, value] : {std::pair{0.5, 0.481481}, std::pair{1.0, 0.851852},
                                   std::pair{1.5, 1.0}, std::pair{1.7, 1.0}}) {
    check({.what = "side force over grip",
           .source = kTyreReport,
           .place = "phi - (4/27) phi^3, constant from 1.5",
           .kind = Kind::Own,
           .expected = value,
           .got = g(phi),
           .tolerance = 1e-6});
  }
  const double step = 1e-5;
  check({.what = "slope at saturation",
         .source = kTyreReport,
         .place = "phi = 1.5 from below; tolerance is the second derivative times the step",
         .kind = Kind::Own,
         .expected = 0.0,
         .got = (g(1.5) - g(1.5 - step)) / step,
         .tolerance = 1.4 * step});
}

TEST_CASE("tyre: a large bias-ply tyre by yaw angle") {
  // 20 in wide, 50 in across, 205 psi, deflection 3.6 in: C = 5.4450 per radian, grip 0.7045.
  const double stiffness = 5.4450;
  const double grip = 0.7045;
  struct Row {
    double yaw_deg, side, drag, total;
  };
  // Tolerance: half a unit of the last digit.
  for (const Row& row : {Row{1.0, 0.0948, 0.00165, 0.0167}, Row{2.0, 0.1880, 0.00656, 0.0216},
                         Row{4.0, 0.3637, 0.0254, 0.0403}, Row{6.0, 0.5149, 0.0538, 0.0687},
                         Row{8.0, 0.6291, 0.0876, 0.1024}, Row{10.0, 0.6941, 0.1205, 0.1353}}) {
    const double yaw = degrees(row.yaw_deg);
    check({.what = "side force per load",
           .source = kTyreReport,
           .place = "cornering power and cubic, computed apart",
           .kind = Kind::Own,
           .expected = row.side,
           .got = side_force_per_load(yaw, stiffness, grip),
           .tolerance = 0.00005});
  }
  check({.what = "saturation angle, deg",
         .source = kTyreReport,
         .place = "phi = 1.5",
         .kind = Kind::Own,
         .expected = 1.0,
         .got = side_force_per_load(degrees(11.12), stiffness, grip) / grip,
         .tolerance = 1e-12});
  check({.what = "below the saturation angle",
         .source = kTyreReport,
         .place = "phi < 1.5 at 11.0 deg: short of the grip, by the square of the distance",
         .kind = Kind::Own,
         .expected = 0.99979,
         .got = side_force_per_load(degrees(11.0), stiffness, grip) / grip,
         .tolerance = 0.0001});
}

TEST_CASE("tyre: stiffness from a light to a heavy aircraft") {
  // A tyre 20 in wide, 50 in across at 205 psi by the report's formulas, from memory, worked out
  // apart: at 3.6 in of deflection it carries 224.2 kN with 5.445 per radian, at 155 kN the
  // deflection is 2.674 in, at 263 kN 4.119 in. Tolerance: the last digit's.
  Aircraft aircraft;
  aircraft.lowest_mass_kg = aircraft.highest_mass_kg = 224.2e3;
  aircraft.cornering_stiffness_prad = 5.445;
  struct Row {
    double load_kn, stiffness;
  };
  for (const Row& row : {Row{155.0, 7.534}, Row{263.0, 4.455}, Row{300.0, 3.595}})
    check({.what = "cornering stiffness per load, 1/rad",
           .source = kTyreReport,
           .place = "cornering power over load, from memory",
           .kind = Kind::Own,
           .expected = row.stiffness,
           .got = stiffness_at_mass_prad(aircraft, row.load_kn * 1e3),
           .tolerance = 0.0015});
  check_band({.what = "resistance to rolling at nine tenths of the pressure",
              .source =
                  "\"Rolling resistance of pneumatic tires\", Tire Science and Technology 6(3), "
                  "1978",
              .place = "abstract: straight in 1 / pressure; half to all of it, from memory",
              .kind = Kind::Own,
              .lowest = 1.05,
              .highest = 1.12,
              .got = pressure_factor(0.9)});
}

TEST_CASE("turn: what the centripetal force costs") {
  // At 5 m/s on 40 m with C 5.5 per radian: 0.0637 of the weight to the side, 0.0116 rad of slip,
  // 0.074 % of the weight along the path.
  Aircraft aircraft;
  const double mass_kg = 0.5 * (aircraft.lowest_mass_kg + aircraft.highest_mass_kg);
  check({.what = "cornering drag, % of the weight",
         .source = "Induced drag of a cornering tyre, F sin(slip), computed apart",
         .place = "5 m/s, 40 m, C 5.5 per radian",
         .kind = Kind::Own,
         .expected = 0.0738,
         .got = 100.0 * cornering_drag(aircraft, mass_kg, 40.0, 5.0, 0.7).at_limit_n /
                (mass_kg * units::kGravity_mps2),
         .tolerance = 0.0003});
}

TEST_CASE("bogie: scrub by radius") {
  // Sum of F sin(alpha) over the axles, per load on the bogie; C 5.5 per radian, grip 0.7.
  struct Row {
    int axles;
    double radius_m, drag;
  };
  for (const Row& row : {Row{2, 20.0, 0.007626}, Row{2, 30.0, 0.003416}, Row{2, 45.0, 0.001524},
                         Row{2, 60.0, 0.000858}, Row{2, 100.0, 0.000309}, Row{3, 20.0, 0.019477},
                         Row{3, 30.0, 0.008939}, Row{3, 45.0, 0.004029}, Row{3, 60.0, 0.002277},
                         Row{3, 100.0, 0.000823}}) {
    const Bogie bogie{.axles = row.axles, .axle_spacing_m = 1.5, .cornering_stiffness_prad = 5.5};
    const BogieScrub scrub = bogie_scrub(bogie, row.radius_m, 0.7);
    check({.what = "sum of the axles' drags per load",
           .source = kEnergy,
           .place = "sum of F sin(alpha)",
           .kind = Kind::Own,
           .expected = row.drag,
           .got = scrub.axle_drag_sum,
           .tolerance = 2e-6});
    // The power M omega that the turn takes is D V with V = omega R: D R = M, exactly.
    // Both outer axles slip by the same angle and the middle one by none.
    const double furthest = row.axles == 2 ? 0.75 : 1.5;
    check({.what = "axles' drags against drag on the bogie's own circle",
           .source = kEnergy,
           .place = "cos(alpha)",
           .kind = Kind::Own,
           .expected = std::cos(std::atan(furthest / row.radius_m)),
           .got = scrub.axle_drag_sum / scrub.drag,
           .tolerance = 1e-12});
  }
  const Bogie three{.axles = 3, .axle_spacing_m = 1.5, .cornering_stiffness_prad = 5.5};
  check({.what = "linear tyre over this one, three axles, 30 m",
         .source = kEnergy,
         .place = "C T / R^2 with T = 2 s^2 / 3",
         .kind = Kind::Own,
         .expected = 5.5 * 1.5 / 900.0 / 0.008939,
         .got = 5.5 * axle_spread_m2(three) / 900.0 / bogie_scrub(three, 30.0, 0.7).axle_drag_sum,
         .tolerance = 1.03 * 2e-6 / 0.008939});
  check({.what = "spread of two axles, m2",
         .source = kEnergy,
         .place = "s^2 / 4",
         .kind = Kind::Own,
         .expected = 0.5625,
         .got = axle_spread_m2({.axles = 2, .axle_spacing_m = 1.5}),
         .tolerance = 1e-15});
}

TEST_CASE("bogie: a large aircraft in a tight turn") {
  // 250 t, 93 % on three-axle bogies, 30 m, wheelbase 31 m. The expected numbers are built on the
  // sum of the axles' drags, with both bogies on the middle's radius; the loads of the core are
  // built on moment over radius, which is larger by 1/cos(alpha) exactly.
  Aircraft aircraft;
  aircraft.wheelbase_m = 31.0;
  aircraft.bogie_axles = 3;
  aircraft.axle_spacing_m = 1.5;
  aircraft.bogie_track_m = 0.0;
  aircraft.main_gear_load_share = 0.93;
  aircraft.cornering_stiffness_prad = 5.5;  // at this mass
  const double mass_kg = 250e3;
  aircraft.lowest_mass_kg = aircraft.highest_mass_kg = mass_kg;
  const double radius_m = 30.0;
  const TurnLoads loads = turn_loads(aircraft, mass_kg, radius_m, 0.7);
  const double to_axle_sum = std::cos(std::atan(1.5 / radius_m));
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row :
       {Row{"scrub drag, kN", 20.38, loads.scrub_drag_n / 1e3, 0.005},
        Row{"scrub moment, kN m", 611.4, loads.scrub_moment_nm / 1e3, 0.05},
        Row{"nose side force across the body, kN", 19.72, loads.scrub_moment_nm / 31.0 / 1e3,
            0.005},
        Row{"nose side force normal to its wheels, kN", 28.36, loads.nose_side_force_n / 1e3,
            0.005},
        Row{"share of the nose load", 0.165, loads.nose_grip_needed, 0.0005},
        Row{"scrub over the design towing load of 0.15 W", 0.055,
            loads.scrub_drag_n / (0.15 * mass_kg * units::kGravity_mps2), 0.0005}}) {
    check({.what = row.what,
           .source = kEnergy,
           .place = "statics of nose gear and bogies",
           .kind = Kind::Own,
           .expected = row.expected,
           .got = row.got * to_axle_sum,
           .tolerance = row.tolerance});
  }
  check({.what = "nose-wheel angle, deg",
         .source = kEnergy,
         .place = "atan(31/30)",
         .kind = Kind::Own,
         .expected = 45.94,
         .got = units::degrees_from_radians(loads.nose_angle_rad),
         .tolerance = 0.005});
  const RollForces restart{.mass_kg = mass_kg,
                           .thrust_n = 0.0,
                           .rolling_resistance = 0.012,
                           .breakaway_resistance = 0.02,
                           .scrub_drag_n = loads.scrub_drag_n * to_axle_sum};
  RollForces straight = restart;
  straight.scrub_drag_n = 0.0;
  check({.what = "thrust to restart in the turn, kN",
         .source = kEnergy,
         .place = "breakaway 0.02 and the whole scrub",
         .kind = Kind::Own,
         .expected = 69.41,
         .got = -breakaway_margin_n(restart) / 1e3,
         .tolerance = 0.005});
  check({.what = "thrust to restart on a straight, kN",
         .source = kEnergy,
         .place = "breakaway 0.02",
         .kind = Kind::Own,
         .expected = 49.03,
         .got = -breakaway_margin_n(straight) / 1e3,
         .tolerance = 0.005});
}

TEST_CASE("bogie: the turn centre is as good as its middle") {
  constexpr const char* kWinkler = "Winkler, Vehicle System Dynamics 29(3) 1998";
  // The core turns about the bogie's middle; the true centre lies T/l behind it.
  check_band({.what = "turn centre behind the bogies, m: small enough to be left out",
              .source = kWinkler,
              .place = "T/l",
              .kind = Kind::Own,
              .lowest = 0.0,
              .highest = 0.05,
              .got = axle_spread_m2({.axles = 3, .axle_spacing_m = 1.5}) / 31.0});
}

TEST_CASE("turn speed: ICAO radii for taxi speeds") {
  // Printed speeds are rounded to 16 km/h steps: tolerance half a km/h. Side load 0.133 g.
  constexpr const char* kIcao = "ICAO Doc 9157 Part 2, radii for taxi speeds";
  struct Row {
    double radius_m, speed_kmh;
  };
  for (const Row& row : {Row{15.0, 16.0}, Row{60.0, 32.0}, Row{135.0, 48.0}, Row{240.0, 64.0},
                         Row{375.0, 80.0}, Row{540.0, 96.0}}) {
    check({.what = "taxi speed, km/h",
           .source = kIcao,
           .place = "as Table 6-22 of Horonjeff et al., p. 237",
           .kind = Kind::Worked,
           .expected = row.speed_kmh,
           .got = speed_at_side_load_mps(row.radius_m, 0.133) / units::kKilometrePerHour_mps,
           .tolerance = 0.5});
  }
}

TEST_CASE("turn speed: rapid exits are accepted at 0.133 g") {
  constexpr const char* kAnnex14 = "ICAO Annex 14 Vol I, 3.9.17 and 3.9.18";
  struct Row {
    double radius_m, speed_kmh, side_load_g;
  };
  for (const Row& row : {Row{550.0, 93.0, 0.1237}, Row{275.0, 65.0, 0.1209}}) {
    check({.what = "side load on a rapid exit, g",
           .source = kAnnex14,
           .place = "as Horonjeff et al., p. 237",
           .kind = Kind::Formula,
           .expected = row.side_load_g,
           .got = centripetal_acceleration_mps2(kmh(row.speed_kmh), row.radius_m, 0.0) /
                  units::kGravity_mps2,
           .tolerance = 5e-5});
    check_band({.what = "speed that the limiter allows on a rapid exit, km/h",
                .source = kAnnex14,
                .place = "as Horonjeff et al., p. 237",
                .kind = Kind::Formula,
                .lowest = row.speed_kmh,
                .highest = 1.1 * row.speed_kmh,
                .got = speed_at_side_load_mps(row.radius_m, 0.133) / units::kKilometrePerHour_mps});
  }
}

TEST_CASE("turn speed: comfortable side load") {
  struct Row {
    double radius_m, speed_kt;
  };
  for (const Row& row : {Row{30.0, 12.02}, Row{45.0, 14.72}, Row{60.0, 17.00}}) {
    check({.what = "speed at 0.13 g, kt",
           .source = kHandbook,
           .place = "p. 235, f = 0.13 smooth and comfortable wet or dry; V^2 = g f R",
           .kind = Kind::Formula,
           .expected = row.speed_kt,
           .got = units::knots_from_mps(speed_at_side_load_mps(row.radius_m, 0.13)),
           .tolerance = 0.005});
  }
  check({.what = "side load that the seat's default limit takes, g",
         .source = kHandbook,
         .place = "p. 235, f = 0.13",
         .kind = Kind::Formula,
         .expected = 0.13,
         .got = Limits{}.seat_side_load_g,
         .tolerance = 0.0});
  check({.what = "speed at 0.133 g on 21.73 m, kt",
         .source = "ICAO Doc 9157 Part 2, radii for taxi speeds",
         .place = "0.133 g",
         .kind = Kind::Own,
         .expected = 10.35,
         .got = units::knots_from_mps(speed_at_side_load_mps(21.73, 0.133)),
         .tolerance = 0.01});
  check({.what = "speed at 0.1 g on 60 m, kt",
         .source = "ASME JRC2011 paper on ride comfort (0.1 g lateral as maximum desirable)",
         .place = "abstract",
         .kind = Kind::Formula,
         .expected = 14.91,
         .got = units::knots_from_mps(speed_at_side_load_mps(60.0, 0.1)),
         .tolerance = 0.01});
  for (const auto& [speed_kt, side_load] : {std::pair{10.0, 0.08996}, std::pair{20.0, 0.35983}}) {
    check({.what = "side load on 30 m, g",
           .source = "Centripetal acceleration v^2/R, computed apart",
           .place = "30 m",
           .kind = Kind::Own,
           .expected = side_load,
           .got = centripetal_acceleration_mps2(units::mps_from_knots(speed_kt), 30.0, 0.0) /
                  units::kGravity_mps2,
           .tolerance = 0.00001});
  }
}
