// The functions that put the formulas together to answers, against worked numbers: what a crew is
// told is what the handbook's arithmetic gives.
#include <doctest/doctest.h>

#include <cmath>
#include <memory>

#include "physics/card/cautions.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/heat/indication.hpp"
#include "physics/path/crossing.hpp"
#include "physics/path/taxiway_rules.hpp"
#include "physics/path/turn_axis.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kNewton = "Newton's second law for a rolling body, computed apart";
constexpr const char* kStatics = "Statics of a bogie turned about a circle, computed apart";
constexpr const char* kProfile = "Deceleration that rises and falls evenly, computed apart";
constexpr const char* kDataBook = "Matthews, Aeronautical Engineer's Data Book, 2002";
constexpr const char* kGeometry = "Plane geometry of two crossing lines, computed apart";
constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";

double knots(double value) { return units::mps_from_knots(value); }
double radians(double value) { return units::radians_from_degrees(value); }

Leg straight(double length_m, double slope) {
  Leg leg;
  leg.length_m = length_m;
  leg.slope_rad = std::atan(slope);
  return leg;
}

Leg arc(double radius_m, double turn_deg) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = radians(turn_deg);
  return leg;
}

// Two engines of 15 kN idle, nothing else but rolling resistance, at sea level.
Brief plain(double mass_kg, double idle_n, double rolling) {
  Brief brief;
  brief.aircraft.engine_count = 2;
  brief.aircraft.idle_thrust_n = 0.5 * idle_n;
  brief.aircraft.idle_air_flow_kgps = 0.0;
  brief.aircraft.drag_area_m2 = 0.0;
  brief.aircraft.rolling_resistance = brief.aircraft.breakaway_resistance = rolling;
  brief.condition.engines_running = 2;
  brief.condition.mass_kg = mass_kg;
  brief.route.legs.push(straight(1000.0, 0.0));
  return brief;
}

}  // namespace

TEST_CASE("answers: will it roll, and the picture of weight and slope") {
  const Air air = standard_air(0.0);
  const RollAnswer light = roll_answer(plain(170e3, 30e3, 0.015), air);
  check({.what = "steepest slope at 170 t, 30 kN, %",
         .source = kNewton,
         .place = "F/(m g) - mu",
         .kind = Kind::Own,
         .expected = 0.2995,
         .got = 100.0 * std::tan(light.keeps_rolling_slope_rad),
         .tolerance = 1e-4});
  check({.what = "acceleration on the level, m/s2",
         .source = kNewton,
         .place = "F/m - mu g",
         .kind = Kind::Own,
         .expected = 0.02937,
         .got = light.level_acceleration_mps2,
         .tolerance = 1e-5});
  // 40 kN on 200 t with 0.012: 0.0823202 m/s2 on the level, 10 kt after 62.49 s.
  Brief heavy = plain(200e3, 40e3, 0.012);
  heavy.aircraft.lowest_mass_kg = 200e3;
  const RollMap map = roll_map(heavy, air, knots(10.0));
  check({.what = "200 t on the level, time to 10 kt, s",
         .source = kNewton,
         .place = "v/(F/m - mu g)",
         .kind = Kind::Own,
         .expected = 62.493,
         .got = map.time_s[kMapRows / 2][0],
         .tolerance = 1e-3});
}

TEST_CASE("answers: idle thrust of two engines that falls with speed") {
  // F = 40 000 - 600 V: two engines of 20 kN and 300 kg/s. Closed form of the linear lapse.
  Brief brief = plain(200e3, 40e3, 0.012);
  brief.aircraft.idle_air_flow_kgps = 300.0;
  const RollForces forces =
      idle_forces(brief.aircraft, brief.condition, standard_air(0.0), std::atan(-0.005), 0.0);
  const Passage p = passage(roll_law(forces), knots(10.0), knots(30.0));
  const char* source = "Linear differential equation of first order, solved apart";
  check({.what = "10 to 30 kt, s",
         .source = source,
         .place = "tau ln((V - v0)/(V - v1))",
         .kind = Kind::Own,
         .expected = 103.21,
         .got = p.time_s,
         .tolerance = 0.01});
  check({.what = "10 to 30 kt, m",
         .source = source,
         .place = "V t - tau (v1 - v0)",
         .kind = Kind::Own,
         .expected = 1089.2,
         .got = p.distance_m,
         .tolerance = 0.1});
}

TEST_CASE("answers: restart in a tight turn") {
  // 250 t, 93 % on three-axle bogies of 1.5 m, R 30 m, breakaway 0.02: 49.03 kN straight, 69.41 kN
  // in the turn.
  Brief brief = plain(250e3, 30e3, 0.012);
  brief.aircraft.breakaway_resistance = 0.02;
  brief.aircraft.wheelbase_m = 31.0;
  brief.aircraft.bogie_axles = 3;
  brief.aircraft.axle_spacing_m = 1.5;
  brief.aircraft.bogie_track_m = 0.0;
  brief.aircraft.main_gear_load_share = 0.93;
  brief.aircraft.cornering_stiffness_prad = 5.5;  // at this mass
  brief.aircraft.lowest_mass_kg = brief.aircraft.highest_mass_kg = 250e3;
  brief.route.legs.push(arc(30.0, 90.0));
  brief.route.legs.push(straight(200.0, 0.0));
  const Air air = standard_air(0.0);
  FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(brief, air, turns);
  const RestartAnswer answer = restart_answer(brief, air, turns);
  check({.what = "thrust to restart on the straight, kN",
         .source = kStatics,
         .place = "W mu",
         .kind = Kind::Own,
         .expected = 49.03,
         .got = answer.points[0].needed_n / 1e3,
         .tolerance = 0.005});
  check({.what = "thrust to restart in the turn, kN",
         .source = kStatics,
         .place = "W mu + M/R",
         .kind = Kind::Own,
         .expected = 69.41,
         .got = answer.points[1].needed_n / 1e3,
         .tolerance = 0.07});
  check({.what = "worst place is the turn (leg index)",
         .source = kStatics,
         .place = "the larger of the two",
         .kind = Kind::Own,
         .expected = 1.0,
         .got = static_cast<double>(worst_point(answer)->leg),
         .tolerance = 0.0});
}

TEST_CASE("answers: entering a right-angled turn downhill") {
  // 0.05 m/s2 over 78.54 m, not faster than 10 kt at its end: sqrt(v1^2 - 2 a s) = 8.386 kt.
  RollForces forces{.mass_kg = 200e3, .thrust_n = 200e3 * 0.05, .rolling_resistance = 0.0};
  const EntryWindow window = entry_window(forces, 0.5 * units::kPi * 50.0, knots(10.0), knots(3.0));
  check({.what = "fastest entry, kt",
         .source = "Constant deceleration, computed apart",
         .place = "v0^2 = v1^2 - 2 a s",
         .kind = Kind::Own,
         .expected = 8.386,
         .got = units::knots_from_mps(window.upper_mps),
         .tolerance = 1e-3});
  check({.what = "limit in a sharp turn, kt",
         .source = "Operators' manuals quoted by pilots (forum)",
         .place = "10 kt in turns of 60 to 90 degrees",
         .kind = Kind::Formula,
         .expected = 10.0,
         .got = units::knots_from_mps(operator_turn_limit_mps(Limits{}, radians(75.0))),
         .tolerance = 1e-9});
}

TEST_CASE("answers: grip in a turn on a wet taxiway at 20 kt") {
  Aircraft aircraft;
  aircraft.tyre_pressure_pa = 200.0 * 6894.757293168361;
  Day day;
  day.surface = Surface::Wet;
  Limits limits;
  limits.gentle_turn_speed_mps = knots(20.0);
  // 200 psi: 0.5702 of 14 CFR 25.109(c) x 0.8 = 0.4562 against 0.4678 of the cornering form.
  check({.what = "side grip at the operator's limit",
         .source = "14 CFR 25.109(c)",
         .place = "200 psi, 20 kt, fully modulating anti-skid",
         .kind = Kind::Own,
         .expected = 0.45616,
         .got = grip_in_turn(pavement_state(aircraft, day), limits, arc(60.0, 30.0)),
         .tolerance = 1e-4});
}

TEST_CASE("answers: one smooth application from 10 kt") {
  // a 1.0, J 0.5: rises for 2 s to 4.144 m/s after 9.622 m, 18.377 m in all.
  const Application a = plan_application(RollLaw{}, knots(10.0), 0.0, 1.0, 0.5);
  check({.what = "speed when the full deceleration is reached, 8.755 m before the stop, m/s",
         .source = kProfile,
         .place = "v0 - a^2/(2 J)",
         .kind = Kind::Own,
         .expected = knots(10.0) - 1.0,
         .got = application_speed_mps(a, 18.3773 - 9.6222),
         .tolerance = 1e-4});
  RollLaw pulled;
  pulled.above.a_mps2 = pulled.below.a_mps2 = 0.08;
  check(
      {.what = "most that the brakes give with 0.08 m/s2 of idle thrust, m/s2",
       .source = kProfile,
       .place = "a + T/m",
       .kind = Kind::Own,
       .expected = 1.08,
       .got = application_brakes_mps2(plan_application(pulled, knots(10.0), 0.0, 1.0, 0.5), pulled),
       .tolerance = 1e-12});
}

TEST_CASE("answers: where it stops") {
  const Brief brief = plain(200e3, 40e3, 0.012);
  check({.what = "foremost point short of the line, m",
         .source = "FAA Aeronautical Information Manual, 2-3-5",
         .place = "no part of the aircraft beyond the line; 2.5 m kept besides",
         .kind = Kind::Formula,
         .expected = 2.5,
         .got = 1000.0 - stop_position_m(brief) - brief.aircraft.nose_tip_ahead_m,
         .tolerance = 1e-9});
}

TEST_CASE("answers: the hill under the run") {
  Brief brief = plain(200e3, 60e3, 0.012);
  brief.route.legs.clear();
  brief.route.legs.push(straight(1000.0, 0.005));
  brief.route.start_elevation_m = 100.0;
  const Air air = standard_air(100.0);
  FixedList<TurnAnswer, kMaxLegs> turns;
  plan_turns(brief, air, turns);
  const RouteTrace trace =
      route_trace(brief, run_route(brief, air, brief.technique.braking, turns));
  const TracePoint& last = trace.points.back();
  check({.what = "climb over the way at 0.5 %, m per km",
         .source = "Trigonometry of a slope, computed apart",
         .place = "sin(atan(0.005))",
         .kind = Kind::Own,
         .expected = 4.99994,
         .got = 1000.0 * (last.elevation_m - 100.0) / last.distance_m,
         .tolerance = 1e-5});
}

TEST_CASE("answers: wind along the way") {
  Leg leg = straight(100.0, 0.0);
  check({.what = "20 kt from 60 degrees off, headwind, kt",
         .source = "ATPL question on wind limits (homework)",
         .place = "least wind for 10 kt of headwind",
         .kind = Kind::Worked,
         .expected = 10.0,
         .got = leg_headwind_mps(leg, radians(0.0), 20.0, radians(60.0)),
         .tolerance = 0.5});
  check({.what = "40 kt from 60 degrees off, across: what is ahead on the way turned by 90, kt",
         .source = "ATPL question on wind limits (homework)",
         .place = "most wind for 35 kt of crosswind",
         .kind = Kind::Worked,
         .expected = 35.0,
         .got = leg_headwind_mps(leg, radians(90.0), 40.0, radians(60.0)),
         .tolerance = 0.5});
}

TEST_CASE("answers: lag of a long turn") {
  // R 150 ft, 72.1 ft from cockpit to main gear. A turn of 180 degrees is within 0.2 degrees of a
  // long one.
  TaxiRoute route;
  route.legs.push(straight(500.0, 0.0));
  route.legs.push(arc(150.0, 180.0));
  route.legs.push(straight(500.0, 0.0));
  check({.what = "largest lag in half a circle, deg",
         .source = kHandbook,
         .place = "eq. 6-9, asin(d/R)",
         .kind = Kind::Formula,
         .expected = 28.729,
         .got = units::degrees_from_radians(largest_lag_in_turn_rad(route, 1, 72.1)),
         .tolerance = 0.2});
  check({.what = "radius of the main gear with the steady lag, ft",
         .source = kHandbook,
         .place = "pp. 287-288, example 6-3, sqrt(R^2 - d^2)",
         .kind = Kind::Formula,
         .expected = 131.54,
         .got = smallest_gear_radius_m(std::asin(72.1 / 150.0), 72.1),
         .tolerance = 0.01});
}

TEST_CASE("answers: the effective turn axis of a large twin") {
  // Turn axis 0.61 m ahead of the gear, 25.3 m behind the nose gear. R1 + half the wheel span of
  // 12.86 m is the axis's radius.
  Aircraft aircraft;
  aircraft.wheelbase_m = 25.91;
  aircraft.turn_axis_ahead_m = 0.61;
  struct Row {
    double steering_deg, inner_m;
  };
  for (const Row& row : {Row{50.0, 14.8}, Row{60.0, 8.1}}) {
    check(
        {.what = "nose-wheel angle for that radius, deg",
         .source = kDataBook,
         .place = "p. 185, turning radii by nose-wheel angle",
         .kind = Kind::Formula,
         .expected = row.steering_deg,
         .got = units::degrees_from_radians(steering_for_radius_rad(aircraft, row.inner_m + 6.43)),
         .tolerance = 0.5});
  }
  check({.what = "radius of the turn axis at 40 deg, m",
         .source = kHandbook,
         .place = "p. 58, eq. 2-1, w tan(90 - beta) with 25.3 m",
         .kind = Kind::Formula,
         .expected = 30.151,
         .got = turning_radius_m(aircraft, radians(40.0)),
         .tolerance = 0.0006});
  for (const double got :
       {turn_axis_at_steering_m(aircraft, radians(64.0)), turn_axis_at_radius_m(aircraft, 12.2)})
    check({.what = "turn axis ahead of the gear, m",
           .source = kDataBook,
           .place = "p. 185, 2 ft",
           .kind = Kind::Formula,
           .expected = 0.61,
           .got = got,
           .tolerance = 0.005});
}

TEST_CASE("answers: a sharp corner without a painted arc") {
  check({.what = "radius that keeps the nose gear within 12.077 m, m",
         .source = kGeometry,
         .place = "wheelbase 25.9 m, 90 degrees",
         .kind = Kind::Own,
         .expected = 21.733,
         .got = radius_for_excursion_m(12.077, 0.5 * units::kPi, 25.9),
         .tolerance = 2e-3});
}

TEST_CASE("answers: rules on the card, and the pavement's edges") {
  Brief brief = plain(200e3, 40e3, 0.012);
  brief.aircraft.wheel_span_m = 12.9;
  brief.aircraft.wing_span_m = 64.99;
  brief.route.legs.push(arc(60.0, 90.0));
  brief.route.legs.push(straight(300.0, 0.0));
  for (Leg& leg : brief.route.legs) leg.width_m = taxiway_width_m(12.9);
  const StandardsAnswer answer = standards_answer(brief, {}, {});
  check({.what = "width wanted for a wheel span of 12.9 m, m",
         .source = "ICAO Annex 14 Vol I, 3.9.5",
         .place = "9 to 15 m: 23 m (closes on 15 + 2 x 4)",
         .kind = Kind::Formula,
         .expected = 23.0,
         .got = answer.verdicts[0].wanted,
         .tolerance = 1e-9});
  const TurnOutline outline = turn_outline(brief, 1);
  const Point left = outline.left_edge[0], right = outline.right_edge[0];
  check({.what = "edge to edge in the picture, m",
         .source = "ICAO Annex 14 Vol I, 3.9.5",
         .place = "9 to 15 m: 23 m, as the legs have it",
         .kind = Kind::Formula,
         .expected = 23.0,
         .got = std::hypot(left.x_m - right.x_m, left.y_m - right.y_m),
         .tolerance = 1e-9});
}

TEST_CASE("answers: engines off, carbon dioxide, and tyres on a long way") {
  Brief brief = plain(200e3, 60e3, 0.012);
  check({.what = "idle thrust of one engine, kN",
         .source = "Share of the thrust of all, computed apart",
         .place = "60 kN over two",
         .kind = Kind::Own,
         .expected = 30.0,
         .got = with_engines(today_as_given(brief, standard_air(0.0)), 1).idle.thrust_n / 1e3,
         .tolerance = 1e-12});
  const EngineChoices choices = engine_choices(brief, standard_air(0.0));
  check({.what = "carbon dioxide per fuel in the trade-off table",
         .source = "ICAO Carbon Emissions Calculator Methodology, v13.1",
         .place = "3.16 kg per kg",
         .kind = Kind::Formula,
         .expected = 3.16,
         .got = choices.rows[0].co2_kg / choices.rows[0].fuel_kg,
         .tolerance = 1e-12});
  brief.condition.engines_running = 0;
  check({.what = "two engines one after the other, 60 s each, and 180 s to warm, s",
         .source = "Sum of three times, computed apart",
         .place = "2 x 60 + 180",
         .kind = Kind::Own,
         .expected = 300.0,
         .got = time_to_all_warm_s(brief.aircraft, brief.condition),
         .tolerance = 1e-12});
  const auto card = std::make_unique<Card>();
  card->run.length_m = 10669.0;
  fill_cautions(brief, *card);
  double limit_m = 0.0;
  for (const Caution& caution : card->cautions)
    if (caution.kind == CautionKind::LongTaxiTyres) limit_m = caution.limit;
  check({.what = "way that the tyres are tested for, km",
         .source = "TSO-C62, taxi test of aircraft tyres",
         .place = "35 000 ft",
         .kind = Kind::Formula,
         .expected = 10.668,
         .got = limit_m / 1e3,
         .tolerance = 1e-9});
}

TEST_CASE("answers: brakes after a stop from 30 kt, without cooling") {
  // 29.773 MJ into eight packs of 60 kg: 20 degC become 97.2. The landing's, the slowing's and the
  // last stop's energies add up to the kinetic energy, wherever the turn-off is.
  Brief brief = plain(250e3, 0.0, 0.012);
  brief.aircraft.brake_count = 8;
  brief.aircraft.heat_pack_mass_kg = 60.0;
  brief.aircraft.brake_emissivity = 0.0;
  brief.aircraft.brake_convection_wpm2k = 1e-6;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.turnaround = {.included = true,
                      .landing_mass_kg = 250e3,
                      .touchdown_mps = knots(30.0),
                      .turn_off_mps = knots(20.0),
                      .reverse_share = 0.0,
                      .brakes_at_touchdown_k = units::kelvin_from_celsius(20.0)};
  check({.what = "brakes when the taxi-out begins, degC",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "enthalpy from 20 degC + 62.03 kJ/kg",
         .kind = Kind::Formula,
         .expected = 97.2,
         .got = units::celsius_from_kelvin(brakes_at_taxi_out_k(brief, standard_air(0.0))),
         .tolerance = 0.3});
  const Today today = make_today(brief);
  check({.what = "the same brakes with the day's own air, degC",
         .source = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite",
         .place = "enthalpy from 20 degC + 62.03 kJ/kg",
         .kind = Kind::Formula,
         .expected = 97.2,
         .got = units::celsius_from_kelvin(today.brakes_k),
         .tolerance = 0.3});
  const Probe probe{.lag_s = 300.0, .share = 0.6, .air_k = units::kelvin_from_celsius(20.0)};
  check({.what = "settled indication of a pack of 236.667 degC with fans, degC",
         .source = "Proportion of two temperature excesses, computed apart",
         .place = "20 + 0.6 x 216.667",
         .kind = Kind::Own,
         .expected = 150.0,
         .got = units::celsius_from_kelvin(
             settled_indication_k(probe, units::kelvin_from_celsius(236.667))),
         .tolerance = 1e-3});
}
