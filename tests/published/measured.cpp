// What instruments, recorders, surveillance and test beds gave, against what the program answers.
//
// Each row takes the conditions of the measurement as far as they are known and the program's
// defaults for the rest. The band is the program's own: P10 to P90 of the inputs whose bands matter
// there, triangular as the draws are. Where the program states no band its number is judged by the
// spread of the measurements.
#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "documents/documents.hpp"
#include "physics/given/bands.hpp"
#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/blast.hpp"
#include "physics/stations.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check_measured;
using published::none_found;
using published::Reads;

namespace {

constexpr const char* kTracks =
    "Surface positions broadcast by taxiing aircraft (sample data of the open air-traffic library "
    "traffic), quadratics over 6 s either way";
constexpr const char* kDatabank = "ICAO Engine Emissions Databank, as carried by OpenAP";
constexpr const char* kSawyer = "Sawyer and Kolnick, NASA TR R-20, 1959";
constexpr const char* kTraction =
    "Navin, Macnabb and Nicolletti, Vehicle Traction Experiments on Snow and Ice, SAE 1996";
constexpr const char* kCoolingNote = "Brake Cooling (post: pilot's record of indications)";
constexpr const char* kLandingNote =
    "Brake Temperature During Landings (post: pilot's record of indications)";

double kelvin(double celsius) { return units::kelvin_from_celsius(celsius); }
double knots(double value) { return units::mps_from_knots(value); }

// How far a band reaches below and above the nominal value, one number standing for both.
struct Sides {
  double below = 0.0, above = 0.0;
};
template <class AnyBand>
Sides sides_of(const AnyBand& band) {
  if constexpr (requires { band.below; })
    return {band.below, band.above};
  else
    return {band, band};
}

// P10 and P90 of a factor that is triangular within such a band, most likely 1.
struct Factors {
  double low = 1.0, high = 1.0;
};
double triangle_end(double this_side, double other_side) {
  const double whole = this_side + other_side;
  if (this_side >= 0.1 * whole) return this_side - std::sqrt(0.1 * this_side * whole);
  return -other_side + std::sqrt(0.9 * other_side * whole);
}
template <class AnyBand>
Factors p10_to_p90(const AnyBand& band) {
  const Sides sides = sides_of(band);
  return {1.0 - triangle_end(sides.below, sides.above),
          1.0 + triangle_end(sides.above, sides.below)};
}
// The same of the product of two, taken in square.
Factors both(const Factors& a, const Factors& b) {
  return {1.0 - std::hypot(1.0 - a.low, 1.0 - b.low), 1.0 + std::hypot(a.high - 1.0, b.high - 1.0)};
}

const Aircraft& steel_braked() {
  for (const AircraftDocument& one : preset_aircraft())
    if (one.aircraft.brake_material == BrakeMaterial::Steel) return one.aircraft;
  FAIL("no preset has steel brakes");
  return preset_aircraft().front().aircraft;
}

}  // namespace

TEST_CASE("measured: cooling of parked brakes") {
  // Four steel brakes of a jet of about 27 t, parking brake off, no fans, an hour and more of
  // indications: T = 12 degC + (T0 - 12) exp(-0.015 t/min) from 170 to 200 degC.
  const Aircraft& aircraft = steel_braked();
  const double air_k = kelvin(12.0);
  const auto rate_pmin = [&](double cooling_factor) {
    HeatPack pack = heat_pack(aircraft, air_k, false);
    pack.area_m2 *= cooling_factor;
    const double left_k = temperature_after_time_k(pack, kelvin(185.0), 3600.0, 0.0) - air_k;
    return std::log(173.0 / left_k) / 60.0;
  };
  const Bands bands;
  const Factors factor =
      both(p10_to_p90(bands.cooling_share), p10_to_p90(bands.heat_capacity_share));
  check_measured(
      {.what = "rate of cooling over an hour from 185 degC, per minute",
       .quantity = "brake cooling",
       .source = kCoolingNote,
       .place = "table and fit: 0.015 per minute, indications in steps of tens of degrees",
       .value = 0.015,
       .from = 0.012,
       .to = 0.018,
       .got = rate_pmin(1.0),
       .band_low = rate_pmin(factor.low),
       .band_high = rate_pmin(factor.high),
       .band_is = "P10 to P90 of cooling and heat capacity",
       .sets_the_band = true});
  check_measured(
      {.what = "still-air convection at a standing brake disc, W/(m2 K)",
       .quantity = "brake cooling",
       .source = "Topouris et al., Strojniski vestnik 66(1) 2020, 15-28",
       .place = "abstract: 3 to 5, rising with temperature",
       .value = 4.0,
       .from = 3.0,
       .to = 5.0,
       .got = Aircraft{}.brake_convection_wpm2k,
       .band_low = Aircraft{}.brake_convection_wpm2k * p10_to_p90(bands.cooling_share).low,
       .band_high = Aircraft{}.brake_convection_wpm2k * p10_to_p90(bands.cooling_share).high,
       .band_is = "P10 to P90 of cooling",
       .sets_the_band = true});
}

TEST_CASE("measured: brakes and wheels of an aircraft that parked hot") {
  // Four carbon brakes of a narrow twin: 400 and 420 degC indicated 12 min after parking, 320 and
  // 340 when the plug in the first wheel let go, 33 to 36 min after parking. Air of 15 degC
  // assumed: 10 K more or less change the rate by 3 %.
  constexpr const char* kReport = "NASA Aviation Safety Reporting System, report 909113";
  const double air_k = kelvin(15.0);
  const Aircraft aircraft;
  const Probe probe = brake_probe(aircraft, air_k, false);
  const auto rate_pmin = [&](double cooling_factor) {
    HeatPack pack = heat_pack(aircraft, air_k, false);
    pack.area_m2 *= cooling_factor;
    const BrakeState hot = brake_as_read(probe, BrakeReading::Indicated, kelvin(410.0));
    const BrakeState later = brake_left_alone(pack, probe, hot, 22.5 * 60.0);
    return std::log((hot.indicated_k - air_k) / (later.indicated_k - air_k)) / 22.5;
  };
  const Bands bands;
  const Factors factor =
      both(p10_to_p90(bands.cooling_share), p10_to_p90(bands.heat_capacity_share));
  check_measured({.what = "rate of cooling from 410 degC indicated, carbon, per minute",
                  .quantity = "brake cooling",
                  .source = kReport,
                  .place = "narrative: 400, 420 degC at 12 min; 320, 340 degC at 33 to 36 min",
                  .value = 0.0101,
                  .from = 0.0092,
                  .to = 0.0111,
                  .got = rate_pmin(1.0),
                  .band_low = rate_pmin(factor.low),
                  .band_high = rate_pmin(factor.high),
                  .band_is = "P10 to P90 of cooling and heat capacity"});
  // When the indication of a cold brake is highest, heated by so much at once.
  const auto highest_min = [&](double rise_k) {
    const HeatPack pack = heat_pack(aircraft, air_k, false);
    return highest_indication(pack, probe, {air_k + rise_k, air_k}).after_s / 60.0;
  };
  check_measured({.what = "min from parking with hot brakes until a wheel's fuse plug melted",
                  .quantity = "heat soak",
                  .source = kReport,
                  .place = "synopsis and narrative: 33 to 36 min",
                  .value = 36.0,
                  .from = 33.0,
                  .to = 36.0,
                  .got = highest_min(500.0),
                  .band_low = highest_min(700.0),
                  .band_high = highest_min(100.0),
                  .band_is = "highest indication after a stop that heats by 700 to 100 K",
                  .differs_because =
                      "the plug is in the wheel, which heats on when its brake already reads "
                      "less; the wheel is not computed, the card says how long to mind it"});
}

TEST_CASE("measured: rise of the brakes by a landing") {
  // 27.2 t from 46.3 m/s; idle reverse and air drag not taken off: half to all of it is braked. The
  // indication within a quarter of an hour was 100 to 150 degC; 15 degC before.
  const Aircraft& aircraft = steel_braked();
  const double air_k = kelvin(15.0);
  const double energy_j = 0.5 * 27.2e3 * 46.3 * 46.3 / 4.0;
  const auto indicated_k = [&](double share) {
    const HeatPack pack = heat_pack(aircraft, air_k, false);
    const Probe probe = brake_probe(aircraft, air_k, false);
    const double hot_k = temperature_after_energy_k(pack, air_k, share * energy_j);
    const double later_k = temperature_after_time_k(pack, hot_k, 900.0, 0.0);
    return indication_after_k(probe, air_k, hot_k, later_k, 900.0);
  };
  check_measured({.what = "indicated rise by a landing of 28.9 MJ on four steel brakes, K",
                  .quantity = "brake rise",
                  .source = kLandingNote,
                  .place = "100 to 150 degC within 15 minutes",
                  .value = 110.0,
                  .from = 85.0,
                  .to = 135.0,
                  .got = indicated_k(0.75) - air_k,
                  .band_low = indicated_k(0.5) - air_k,
                  .band_high = indicated_k(1.0) - air_k,
                  .band_is = "half to all of the energy braked",
                  .sets_the_band = true});
}

TEST_CASE("measured: specific heat of graphite") {
  // The program takes carbon brakes for graphite, 10 % either way.
  const Factors factor = p10_to_p90(Bands{}.heat_capacity_share);
  struct Row {
    const char* source;
    double kelvin, jpmolk;
  };
  for (const Row& row :
       {Row{"Yin et al. 1991, as in the NIST Chemistry WebBook", 298.0, 8.23},
        Row{"Taylor and Groot 1980, as in the NIST Chemistry WebBook", 300.0, 8.43},
        Row{"Markelov et al. 1973, as in the NIST Chemistry WebBook", 298.15, 8.11},
        Row{"Lutcov et al. 1970, as in the NIST Chemistry WebBook", 298.15, 8.979},
        Row{"DeSorbo and Tyler 1957, as in the NIST Chemistry WebBook", 300.0, 8.937}}) {
    const double got = specific_heat_jpkgk(BrakeMaterial::Carbon, row.kelvin) * 12.011e-3;
    check_measured({.what = "specific heat near 25 degC, J/(mol K)",
                    .quantity = "specific heat of graphite",
                    .source = row.source,
                    .place = "graphite, condensed phase: heat capacity of the solid",
                    .value = row.jpmolk,
                    .from = row.jpmolk,
                    .to = row.jpmolk,
                    .got = got,
                    .band_low = got * factor.low,
                    .band_high = got * factor.high,
                    .band_is = "P10 to P90 of the heat capacity"});
  }
}

TEST_CASE("measured: idle fuel, fuel for thrust and idle thrust") {
  // The default aircraft's engines are of this class; on the line through 172 engines they burn
  // 0.080 kg/s + 5.05e-7 F at 7 % thrust.
  const Aircraft aircraft;
  constexpr double kRated_n = 280e3;
  Condition one_engine;
  one_engine.engines_running = 1;
  const double at_seven_kgps =
      fuel_flow_kgps(aircraft, one_engine, 0.07 * kRated_n - aircraft.idle_thrust_n);
  check_measured({.what = "idle fuel flow at 7 % thrust, engines of 260 to 340 kN, kg/s",
                  .quantity = "idle fuel",
                  .source = kDatabank,
                  .place = "idle mode, by-pass ratio 4 and more: median, 5 to 95 %",
                  .value = 0.226,
                  .from = 0.203,
                  .to = 0.259,
                  .got = at_seven_kgps,
                  .band_low = at_seven_kgps,
                  .band_high = at_seven_kgps,
                  .band_is = "none stated",
                  .sets_the_band = true});
  check_measured({.what = "fuel flow in taxi over the databank's at 7 % thrust",
                  .quantity = "idle fuel",
                  .source = "Empirical Method for Estimating Aircraft Fuel Consumption in Ground "
                            "Operations, Transp. Res. Record 2674(12), 2020, 385-394",
                  .place = "surface surveillance of one day: about 17 % lower; 8 points either way",
                  .value = 0.83,
                  .from = 0.75,
                  .to = 0.91,
                  .got = aircraft.idle_fuel_flow_kgps / (0.080 + 5.05e-7 * kRated_n),
                  .band_low = aircraft.idle_fuel_flow_kgps / (0.080 + 5.05e-7 * kRated_n),
                  .band_high = aircraft.idle_fuel_flow_kgps / (0.080 + 5.05e-7 * kRated_n),
                  .band_is = "none stated",
                  .sets_the_band = true});
  const double slope_gpkns = 1e6 * aircraft.fuel_per_extra_thrust_kgpns;
  check_measured({.what = "fuel per added thrust, 7 to 30 %, all engines, g/s per kN",
                  .quantity = "fuel per thrust",
                  .source = kDatabank,
                  .place = "342 engines from 60 kN, by-pass ratio 4 and more: median, 5 to 95 %",
                  .value = 7.6,
                  .from = 5.4,
                  .to = 9.2,
                  .got = slope_gpkns,
                  .band_low = slope_gpkns,
                  .band_high = slope_gpkns,
                  .band_is = "none stated",
                  .sets_the_band = true});
  check_measured({.what = "fuel per added thrust, 7 to 30 %, modern large engines, g/s per kN",
                  .quantity = "fuel per thrust",
                  .source = kDatabank,
                  .place = "73 engines from 180 kN, by-pass ratio 7 and more: median, 5 to 95 %",
                  .value = 5.9,
                  .from = 5.3,
                  .to = 6.3,
                  .got = slope_gpkns,
                  .band_low = slope_gpkns,
                  .band_high = slope_gpkns,
                  .band_is = "none stated",
                  .sets_the_band = true});
  const Factors thrust = p10_to_p90(Bands{}.idle_thrust_share);
  const double share = 100.0 * aircraft.idle_thrust_n / kRated_n;
  check_measured({.what = "idle thrust while taxiing, % of rated",
                  .quantity = "idle thrust",
                  .source = "Herndon et al., ACRP Report 63, 2012",
                  .place = "p. 2: plumes of engines in use show a state below 7 %",
                  .value = 7.0,
                  .from = 7.0,
                  .to = 7.0,
                  .reads = Reads::AtMost,
                  .got = share,
                  .band_low = share * thrust.low,
                  .band_high = share * thrust.high,
                  .band_is = "P10 to P90 of idle thrust"});
}

TEST_CASE("measured: starting and rolling at idle") {
  // A default aircraft at the middle of its masses, level, calm: the aircraft are not known.
  const Aircraft aircraft;
  Condition condition;
  condition.mass_kg = 0.5 * (aircraft.lowest_mass_kg + aircraft.highest_mass_kg);
  const Bands bands;
  const auto idle = [&](double thrust_factor, double rolling_factor) {
    RollForces forces = idle_forces(aircraft, condition, standard_air(0.0), 0.0, 0.0);
    forces.thrust_n *= thrust_factor;
    forces.rolling_resistance *= rolling_factor;
    return roll_law(forces);
  };
  // Thrust and rolling resistance move the difference of the two; their P10 and P90 in square.
  const Factors thrust = p10_to_p90(bands.idle_thrust_share);
  const Factors rolling = p10_to_p90(bands.rolling_share);
  const auto low_of = [&](const auto& answer) {
    const double middle = answer(1.0, 1.0);
    return middle -
           std::hypot(middle - answer(thrust.low, 1.0), middle - answer(1.0, rolling.high));
  };
  const auto high_of = [&](const auto& answer) {
    const double middle = answer(1.0, 1.0);
    return middle +
           std::hypot(answer(thrust.high, 1.0) - middle, answer(1.0, rolling.low) - middle);
  };
  const auto mean_mps2 = [&](double thrust_factor, double rolling_factor) {
    const Passage way = passage(idle(thrust_factor, rolling_factor), 1.0, 5.0);
    return way.reached ? 4.0 / way.time_s : 0.0;
  };
  const double start = mean_mps2(1.0, 1.0);
  check_measured({.what = "mean acceleration from 1 to 5 m/s after a stop, m/s2",
                  .quantity = "roll",
                  .source = kTracks,
                  .place = "two clean starts: 4 m/s in 39 and 29 s",
                  .value = 0.12,
                  .from = 0.103,
                  .to = 0.138,
                  .got = start,
                  .band_low = low_of(mean_mps2),
                  .band_high = high_of(mean_mps2),
                  .band_is = "P10 to P90 of idle thrust and rolling, middle mass"});
  const auto balance_kt = [&](double thrust_factor, double rolling_factor) {
    return units::knots_from_mps(
        terminal_speed(idle(thrust_factor, rolling_factor), 5.0).speed_mps);
  };
  const double speed = balance_kt(1.0, 1.0);
  check_measured({.what = "speed that ground idle holds, kt",
                  .quantity = "roll",
                  .source = "ACRP Web-Only Document 9, 2009",
                  .place = "ch. 2, p. 4, flight recorders: constant 15 to 20 kt at ground idle",
                  .value = 15.0,
                  .from = 15.0,
                  .to = 20.0,
                  .reads = Reads::AtLeast,
                  .got = speed,
                  .band_low = low_of(balance_kt),
                  .band_high = high_of(balance_kt),
                  .band_is = "P10 to P90 of idle thrust and rolling, middle mass"});
}

TEST_CASE("measured: how taxiing aircraft move") {
  // Six tracks, 1374 seconds of motion between 1 m/s and 30 kt; what follows is the median and 5 to
  // 95 % of seconds. "Straight": less than 0.05 m/s2 across, accelerations beyond 0.03 m/s2 only.
  const Technique technique;
  const auto one_number = [](const char* what, const char* quantity, const char* place,
                             double value, double from, double to, double got,
                             const char* because) {
    check_measured({.what = what,
                    .quantity = quantity,
                    .source = kTracks,
                    .place = place,
                    .value = value,
                    .from = from,
                    .to = to,
                    .got = got,
                    .band_low = got,
                    .band_high = got,
                    .band_is = "none stated",
                    .differs_because = because});
  };
  one_number("acceleration on straights, m/s2", "acceleration", "329 s", 0.101, 0.037, 0.290,
             technique.push_acceleration_mps2, "");
  one_number("braking on straights, m/s2", "braking", "336 s", 0.114, 0.037, 0.336,
             technique.deceleration_mps2, "");
  // The speed of the whole taxi: two straights of 1 km and a quarter turn of 80 m.
  Brief brief;
  Leg straight, arc;
  straight.length_m = 1000.0;
  arc.kind = LegKind::Arc;
  arc.radius_m = 80.0;
  arc.turn_rad = 0.5 * units::kPi;
  for (const Leg& leg : {straight, arc, straight}) brief.route.legs.push(leg);
  brief.condition.mass_kg = 240e3;
  const Air air = standard_air(0.0);
  Turns turns;
  plan_turns(brief, air, turns);
  const RouteRun run = run_route(brief, air, brief.technique.braking, turns);
  REQUIRE(run.status == RunStatus::Complete);
  one_number("taxi speed while moving, kt", "taxi speed", "1374 s", 10.4, 3.2, 17.6,
             units::knots_from_mps(run.length_m / run.duration_s), "");
  const double turn_mps = turns[0].limit.speed_mps;
  one_number("speed in turns of 14 to 136 m, kt", "turn speed", "200 s; radius 81 m in the median",
             8.6, 3.5, 12.6, units::knots_from_mps(turn_mps), "");
  one_number("side load in turns of 14 to 136 m, g", "side load in turns",
             "200 s; beyond 0.1 m/s2 only", 0.027, 0.012, 0.088,
             centripetal_acceleration_mps2(turn_mps, 80.0, 0.0) / units::kGravity_mps2, "");
  const Turnaround turn;
  check_measured({.what = "time of the taxi-in, min",
                  .quantity = "taxi time",
                  .source = "BTS Special Report 2008-008",
                  .place = "tables 1 and 4: mean 6.9, means of kinds of aerodrome 4.3 to 7.8",
                  .value = 6.9,
                  .from = 4.3,
                  .to = 7.8,
                  .got = turn.taxi_in_s / 60.0,
                  .band_low = turn.taxi_in_s / 60.0,
                  .band_high = turn.taxi_in_s / 60.0,
                  .band_is = "none stated"});
  check_measured(
      {.what = "share of the engines that run while taxiing",
       .quantity = "engines running",
       .source = "ACRP Web-Only Document 9, 2009",
       .place = "table 2, flight recorders of twins: both 97 % of the time, 4 to 8 % sd",
       .value = 0.97,
       .from = 0.91,
       .to = 1.0,
       .got = static_cast<double>(Condition{}.engines_running) / Aircraft{}.engine_count,
       .band_low = static_cast<double>(Condition{}.engines_running) / Aircraft{}.engine_count,
       .band_high = static_cast<double>(Condition{}.engines_running) / Aircraft{}.engine_count,
       .band_is = "none stated"});
}

TEST_CASE("measured: friction of braked and of rolling tyres") {
  const auto on = [](Surface surface, double celsius) {
    Day day;
    day.surface = surface;
    day.temperature_k = kelvin(celsius);
    return pavement_state(Aircraft{}, day);
  };
  const auto row = [](const char* what, const char* quantity, const char* source, const char* place,
                      double value, double from, double to, double got, const char* because) {
    check_measured({.what = what,
                    .quantity = quantity,
                    .source = source,
                    .place = place,
                    .value = value,
                    .from = from,
                    .to = to,
                    .got = got,
                    .band_low = got,
                    .band_high = got,
                    .band_is = "none stated",
                    .differs_because = because});
  };
  // Maximum friction, so without the anti-skid's efficiency of 0.8.
  constexpr double kAntiSkid = 0.8;
  row("most friction when braking, dry", "braked friction", kSawyer,
      "summary: mean about 0.8, no effect of speed or load", 0.8, 0.75, 0.85,
      braking_friction(on(Surface::Dry, 15.0), knots(20.0)) / kAntiSkid,
      "the rule's value, lower on purpose");
  row("most friction when braking, wet", "braked friction", kSawyer,
      "summary: 0.05 to over 0.80, by depth of water", 0.42, 0.05, 0.80,
      braking_friction(on(Surface::Wet, 15.0), knots(20.0)) / kAntiSkid, "");
  row("most friction when braking, snow", "braked friction", kSawyer,
      "summary: means of 0.25 to 0.37, -16 to 0 degC; half of the last digit", 0.31, 0.245, 0.375,
      braking_friction(on(Surface::CompactedSnow, -16.0), knots(20.0)) / kAntiSkid, "");
  row("most friction when braking, ice", "braked friction", kSawyer,
      "summary: mean 0.18 at -7 and at 0 degC", 0.18, 0.175, 0.185,
      braking_friction(on(Surface::Ice, -7.0), knots(20.0)) / kAntiSkid,
      "the rule's value, lower on purpose");
  row("most side force on packed snow", "side grip", kTraction, "truck tyres at -6 degC: 0.35",
      0.35, 0.30, 0.40, side_grip(on(Surface::CompactedSnow, -6.0), knots(10.0)),
      "the braking value stands for the side force, lower on purpose");
  row("most side force on bare ice", "side grip", kTraction, "truck tyres at -6 degC: 0.07", 0.07,
      0.05, 0.09, side_grip(on(Surface::Ice, -6.0), knots(10.0)), "");
}

TEST_CASE("measured: drag of slush and of dry snow") {
  // A day's drag over ground speed, at 20 m/s (50 to 80 km/h were the snow tests), whole aircraft.
  const auto drag_n = [](Surface surface, double depth_m, double speed_mps) {
    Day day;
    day.surface = surface;
    day.contaminant_depth_m = depth_m;
    day.temperature_k = kelvin(-5.0);
    const PavementState state = pavement_state(Aircraft{}, day);
    return (state.displacement_drag_nspm2 * speed_mps + state.snow_drag_nspm) * speed_mps;
  };
  const auto exponent = [&](Surface surface, double low_mps, double high_mps) {
    return std::log(drag_n(surface, 0.02, high_mps) / drag_n(surface, 0.02, low_mps)) /
           std::log(high_mps / low_mps);
  };
  const auto doubled = [&](Surface surface) {
    return drag_n(surface, 0.02, 20.0) / drag_n(surface, 0.01, 20.0);
  };
  const auto row = [](const char* what, const char* quantity, const char* source, const char* place,
                      double value, double from, double to, double got, const char* because) {
    check_measured({.what = what,
                    .quantity = quantity,
                    .source = source,
                    .place = place,
                    .value = value,
                    .from = from,
                    .to = to,
                    .got = got,
                    .band_low = got,
                    .band_high = got,
                    .band_is = "none stated",
                    .differs_because = because});
  };
  constexpr const char* kSlush = "NASA TN D-552 (Horne, Joyner and Leland, 1960)";
  constexpr const char* kSnow = "Kihlgren, VTI report on rolling resistance in snow, 1977";
  constexpr const char* kDensity = "Lidström, VTI Rapport 173 A, 1979";
  row("power of the speed with which slush drag grows", "slush drag", kSlush,
      "abstract: parabolic, 59 to 104 kt, 115 and 350 psi", 2.0, 1.8, 2.2,
      exponent(Surface::Slush, knots(59.0), knots(104.0)), "");
  row("slush drag at twice the depth over that at once", "slush drag", kSlush,
      "abstract: approximately linear in the depth", 2.0, 1.6, 2.4, doubled(Surface::Slush), "");
  row("power of the speed with which dry-snow drag grows", "dry-snow drag", kSnow,
      "abstract: in proportion to the speed, 50 to 80 km/h, small tyre", 1.0, 0.8, 1.2,
      exponent(Surface::DrySnow, 50.0 / 3.6, 80.0 / 3.6), "");
  row("dry-snow drag at twice the depth over that at once", "dry-snow drag", kSnow,
      "abstract: in proportion to the depth", 2.0, 1.6, 2.4, doubled(Surface::DrySnow), "");
  Day day;
  day.surface = Surface::DrySnow;
  day.contaminant_depth_m = 0.02;
  day.temperature_k = kelvin(-5.0);
  row("density of dry snow, kg/m3", "dry-snow drag", kDensity,
      "180 runs under 25 conditions: 30 to 130", 80.0, 30.0, 130.0,
      pavement_state(Aircraft{}, day).density_kgpm3, "");
}

TEST_CASE("measured: decay of a round jet") {
  check_measured({.what = "decay constant of a round jet",
                  .quantity = "jet decay",
                  .source = "Abdel-Rahman et al., Mech. Research Comm. 23(3), 1996",
                  .place = "abstract: 6.11 at Re 19 400, to ten diameters",
                  .value = 6.11,
                  .from = 6.11,
                  .to = 6.11,
                  .got = kJetDecay,
                  .band_low = kJetDecay,
                  .band_high = kJetDecayMost,
                  .band_is = "band of the decay constant",
                  .differs_because = "measured in the near field, where the jet is still forming"});
}

TEST_CASE("measured: what was looked for and not found") {
  none_found("rolling force of heavy tyres",
             "NACA Report 583 (abstract only), NASA TM-2003-212415, TP 14289E, SAE AIR1353, tow "
             "tests, drawbar pull, landing-loads track, electric taxiing: no table could be read");
  none_found("breakaway force of parked aircraft",
             "tow-tractor sizing, SAE AIR1353, TRID 664286: no measured force could be read");
  none_found(
      "turn geometry",
      "taxiway deviation studies (laser), recorded nose-wheel angles, NASA CR-165720: no "
      "measured radius by nose-wheel angle could be read; printed tables stand under worked");
}
