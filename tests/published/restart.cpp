// Stopped anywhere: thrust that starts it again, on slopes, in wind and in a turn.
#include "physics/run/restart.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kBalance = "Force balance at standstill, computed apart";
constexpr const char* kScrub = "Bogie of three axles by the side-force cubic, computed apart";

// A straight and a turn of 30 m for 250 t on three-axle bogies.
struct Taxi {
  Brief brief;
  Air air = standard_air(0.0);
  FixedList<TurnAnswer, kMaxLegs> turns;

  Taxi() {
    brief.condition.mass_kg = 250e3;
    brief.aircraft.lowest_mass_kg = brief.aircraft.highest_mass_kg = 250e3;  // C is of this mass
    Aircraft& aircraft = brief.aircraft;
    aircraft.wheelbase_m = 31.0;
    aircraft.main_gear_load_share = 0.93;
    aircraft.bogie_axles = 3;
    aircraft.axle_spacing_m = 1.5;
    aircraft.bogie_track_m = 0.0;  // left and right bogies at one radius
    aircraft.cornering_stiffness_prad = 5.5;
    aircraft.breakaway_resistance = 0.02;
    Leg straight;
    straight.length_m = 200.0;
    Leg arc;
    arc.kind = LegKind::Arc;
    arc.radius_m = 30.0;
    arc.turn_rad = units::radians_from_degrees(90.0);
    brief.route.legs.push(straight);
    brief.route.legs.push(arc);
  }
  RestartAnswer answer() {
    plan_turns(brief, air, turns);
    return restart_answer(brief, air, turns);
  }
  double needed_n() { return answer().points[0].needed_n; }
};

}  // namespace

TEST_CASE("restart: in a turn of 30 m") {
  Taxi taxi;
  const RestartAnswer got = taxi.answer();
  check({.what = "on the straight, kN",
         .source = kBalance,
         .place = "250 t, breakaway 0.02",
         .kind = Kind::Own,
         .expected = 49.03,
         .got = got.points[0].needed_n / 1e3,
         .tolerance = 0.006});
  // Computed apart along the axles' own, slightly larger circles: cos(1.5/30) of the drag.
  const double to_axle_sum = std::cos(std::atan(1.5 / 30.0));
  const double scrub_n = to_axle_sum * (got.points[1].needed_n - got.points[0].needed_n);
  check({.what = "in the turn, kN",
         .source = kScrub,
         .place = "49.03 + 20.38",
         .kind = Kind::Own,
         .expected = 69.41,
         .got = (got.points[0].needed_n + scrub_n) / 1e3,
         .tolerance = 0.01});
  check({.what = "in the turn over the straight, %",
         .source = kScrub,
         .place = "+42 %",
         .kind = Kind::Own,
         .expected = 42.0,
         .got = 100.0 * (got.points[1].needed_n / got.points[0].needed_n - 1.0),
         .tolerance = 0.5});
  check({.what = "side force of the nose wheels over their load",
         .source = kScrub,
         .place = "28.36 kN of 171.6 kN",
         .kind = Kind::Own,
         .expected = 0.165,
         .got = got.points[1].nose_grip_needed,
         .tolerance = 0.0005});
}

TEST_CASE("restart: slopes on which idle just starts it") {
  // F/(m g) = mu + i with 30 kN and mu 0.015; the slope as an angle would differ in the seventh
  // digit.
  struct Row {
    double mass_kg, slope_percent, tolerance_n;
  };
  for (const Row& row :
       {Row{170e3, 0.2995, 1.0}, Row{250e3, -0.2763, 1.5}, Row{203943.0, 0.0, 0.2}}) {
    Taxi taxi;
    taxi.brief.aircraft.breakaway_resistance = 0.015;
    taxi.brief.condition.mass_kg = row.mass_kg;
    taxi.brief.route.legs[0].slope_rad = std::atan(row.slope_percent / 100.0);
    check({.what = "thrust that starts it on its critical slope, N",
           .source = kBalance,
           .place = "i = F/(m g) - mu, 30 kN, mu 0.015; half of the slope's last digit",
           .kind = Kind::Own,
           .expected = 30e3,
           .got = taxi.needed_n(),
           .tolerance = row.tolerance_n});
  }
  // The steepest taxiway of the larger code letters.
  Taxi taxi;
  const double level_n = taxi.needed_n();
  taxi.brief.route.legs[0].slope_rad = std::atan(0.015);
  check({.what = "what 1.5 % uphill adds for 250 t, kN",
         .source = "ICAO Annex 14 Vol I, 3.9.9 (largest longitudinal slope of a taxiway)",
         .place = "1.5 % for code letters C to F; times the weight",
         .kind = Kind::Own,
         .expected = 36.77,
         .got = (taxi.needed_n() - level_n) / 1e3,
         .tolerance = 0.02});
}

TEST_CASE("restart: wind") {
  for (const auto& [knots, drag_n] : {std::pair{30.0, 17038.1}, std::pair{60.0, 37285.8}}) {
    Taxi taxi;
    taxi.brief.aircraft.drag_area_m2 = 11.0;
    const double calm_n = taxi.needed_n();
    taxi.brief.day.wind_speed_mps = units::mps_from_knots(knots);
    check({.what = "what a headwind adds at standstill, N",
           .source = "Dynamic pressure at 1.225 kg/m3 and momentum drag, computed apart",
           .place = "rho C_D S w^2 / 2, 11 m2: 1604.8 and 6419.2 N; 1000 kg/s taken in at w",
           .kind = Kind::Own,
           .expected = drag_n,
           .got = taxi.needed_n() - calm_n,
           .tolerance = 0.06});
  }
  Leg straight;
  const double south = units::kPi;
  check({.what = "headwind on runway 18 with 220 degrees at 30 kt, kt",
         .source = "FAA private pilot knowledge test, figure 36",
         .place = "answer B: 23 knots",
         .kind = Kind::Worked,
         .expected = 23.0,
         .got = units::knots_from_mps(worst_headwind(straight, south, units::mps_from_knots(30.0),
                                                     units::radians_from_degrees(220.0))
                                          .headwind_mps),
         .tolerance = 0.5});
  // A quarter turn from runway 18 to the west meets the whole 30 kt at 40 degrees of it.
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = 0.5 * units::kPi;
  const WorstHeadwind in_turn =
      worst_headwind(arc, south, units::mps_from_knots(30.0), units::radians_from_degrees(220.0));
  check({.what = "worst headwind in the turn from there to the west, kt",
         .source = "FAA private pilot knowledge test, figure 36",
         .place = "220 degrees at 30 kt, heading 180 to 270",
         .kind = Kind::Formula,
         .expected = 30.0,
         .got = units::knots_from_mps(in_turn.headwind_mps),
         .tolerance = 1e-9});
  check({.what = "where in the turn, degrees",
         .source = "FAA private pilot knowledge test, figure 36",
         .place = "220 - 180",
         .kind = Kind::Formula,
         .expected = 40.0,
         .got = units::degrees_from_radians(in_turn.after_rad),
         .tolerance = 1e-9});
}
