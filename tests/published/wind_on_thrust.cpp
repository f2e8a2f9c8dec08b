// Idle thrust in wind: momentum drag goes with airspeed. Rows against 30-digit quadrature of the
// force balance, made apart from this program.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/motion/roll.hpp"
#include "physics/world/tyre.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kBalance = "Force balance of a roll in wind, computed apart";
constexpr const char* kMomentum = "Momentum theorem for an engine that moves, computed apart";

struct Row {
  double mass_t, thrust_kn, fall_nspm, rolling, breakaway, slope, headwind_mps, drag_area_m2,
      density_kgpm3, speed_factor, displacement_nspm2, scrub_n;
  // Thrust T0 - k max(u, 0): force left at rest, time and way to 10 kt, the speed it settles at.
  double margin_n, time_s, distance_m, terminal_mps;
  // The same where the wind from behind gives all of k |u| as thrust.
  double gained_margin_n, gained_time_s, gained_distance_m;
};

constexpr Row kRows[] = {
    {300, 56, 1000, 0.012, 0.015, 0, 0, 11, 1.225, 0, 0, 0, 11870.075, 86.0626847, 232.321998,
     18.41202864, 11870.075, 86.0626847, 232.321998},
    {300, 56, 1000, 0.012, 0.015, 0, 5, 11, 1.225, 0, 0, 0, 6701.6375, 123.3813707, 341.301065,
     13.41202864, 6701.6375, 123.3813707, 341.301065},
    {300, 56, 1000, 0.012, 0.015, 0, 10, 11, 1.225, 0, 0, 0, 1196.325, 234.1847780, 693.087211,
     8.41202864, 1196.325, 234.184778, 693.087211},
    {220, 56, 1000, 0.012, 0.015, 0, 10, 11, 1.225, 0, 0, 0, 12964.305, 69.5490025, 189.909015,
     15.67057640, 12964.305, 69.5490025, 189.909015},
    {300, 56, 1000, 0.012, 0.015, 0, -5, 11, 1.225, 0, 0, 0, 12038.513, 74.3830372, 191.606563,
     23.41202864, 17038.513, 66.8783693, 178.61412},
    {300, 56, 1000, 0.012, 0.015, 0, -10, 11, 1.225, 0, 0, 0, 12543.825, 73.2076514, 189.072020,
     28.41202864, 22543.825, 54.310851, 144.32965},
    {300, 56, 1000, 0.012, 0.015, 0.004, -8, 11, 1.225, 0, 0, 0, 533.742, 168.8455634, 437.280150,
     16.44764979, 8533.742, 107.2207147, 293.353541},
    {350, 56, 1000, 0.012, 0.016, -0.005, 7, 11, 1.225, 0, 0, 0, 10914.732, 83.2064447, 223.598424,
     20.04572158, 10914.732, 83.2064447, 223.598424},
    {180, 30, 520, 0.013, 0.017, -0.002, -3, 8, 1.1, 0.0002, 120, 0, 3561.698, 102.4651180,
     286.542747, 7.96048467, 5121.698, 98.918925, 282.803271},
    {150, 30, 480, 0.011, 0.014, 0, 4, 7, 1.25, 0, 0, 6000, 1416.035, 178.6930171, 508.529960,
     10.39971535, 1416.035, 178.6930171, 508.52996},
};

RollForces forces_of(const Row& row, double overtaken_share) {
  return {.mass_kg = row.mass_t * 1e3,
          .thrust_n = row.thrust_kn * 1e3,
          .thrust_fall_nspm = row.fall_nspm,
          .overtaken_thrust_share = overtaken_share,
          .rolling_resistance = row.rolling,
          .breakaway_resistance = row.breakaway,
          .rolling_speed_factor_s2pm2 = row.speed_factor,
          .slope_rad = std::atan(row.slope),
          .headwind_mps = row.headwind_mps,
          .drag_area_m2 = row.drag_area_m2,
          .air_density_kgpm3 = row.density_kgpm3,
          .scrub_drag_n = row.scrub_n,
          .displacement_drag_nspm2 = row.displacement_nspm2};
}

void check_row(const RollForces& forces, double margin_n, double time_s, double distance_m) {
  check({.what = "force left for starting in wind, N",
         .source = kBalance,
         .place = "half of the last digit",
         .kind = Kind::Own,
         .expected = margin_n,
         .got = breakaway_margin_n(forces),
         .tolerance = 5e-4});
  const Passage way = passage(roll_law(forces), 0.0, 10.0 * 1852.0 / 3600.0);
  check({.what = "time to 10 kt in wind, s",
         .source = kBalance,
         .place = "half of the last digit",
         .kind = Kind::Own,
         .expected = time_s,
         .got = way.time_s,
         .tolerance = 5e-8});
  check({.what = "way to 10 kt in wind, m",
         .source = kBalance,
         .place = "half of the last digit",
         .kind = Kind::Own,
         .expected = distance_m,
         .got = way.distance_m,
         .tolerance = 5e-7});
}

}  // namespace

TEST_CASE("wind on thrust: force at rest, roll to 10 kt and terminal speed in head and tailwind") {
  for (const Row& row : kRows) {
    const RollForces forces = forces_of(row, 0.0);
    check_row(forces, row.margin_n, row.time_s, row.distance_m);
    check({.what = "speed at which a roll in wind settles, m/s",
           .source = kBalance,
           .place = "half of the last digit",
           .kind = Kind::Own,
           .expected = row.terminal_mps,
           .got = terminal_speed(roll_law(forces), 0.0).speed_mps,
           .tolerance = 5e-9});
    if (row.headwind_mps < 0.0)
      check_row(forces_of(row, 1.0), row.gained_margin_n, row.gained_time_s, row.gained_distance_m);
  }
}

TEST_CASE("wind on thrust: the air that is taken in costs its momentum, and standing still too") {
  // 1000 kg/s of air at rest have to be brought up to the aircraft's airspeed: 1000 N per m/s.
  const RollForces forces = forces_of(kRows[2], 0.0);
  check({.what = "idle thrust at 10 m/s of headwind and 3 m/s of ground speed, N",
         .source = kMomentum,
         .place = "56 kN less 1000 kg/s x 13 m/s",
         .kind = Kind::Own,
         .expected = 43000.0,
         .got = idle_thrust_at_n(forces, 3.0),
         .tolerance = 1e-9});
}

TEST_CASE("breakaway: a stand of hours stays within what is published for starting to roll") {
  for (const Stood stood : {Stood::ForHours, Stood::ForHoursInTheCold})
    published::check_band({.what = "resistance to start rolling after a stand, of the weight",
                           .source = "Airport and towing handbooks, from memory",
                           .place = "to start a large aircraft rolling",
                           .kind = Kind::Own,
                           .lowest = 0.015,
                           .highest = 0.035,
                           .got = 0.015 * stood_factor(stood)});
}
