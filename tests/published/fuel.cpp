// Taxi fuel and carbon dioxide against published figures.
#include <doctest/doctest.h>

#include <tuple>

#include "physics/card/compute_card.hpp"
#include "physics/numerics/units.hpp"
#include "physics/world/engines.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

TEST_CASE("fuel: carbon dioxide per fuel") {
  check({.what = "CO2 per fuel, kg/kg",
         .source = "ICAO Carbon Emissions Calculator Methodology, v13.1",
         .place = "3.16",
         .kind = Kind::Formula,
         .expected = 3.16,
         .got = kCo2PerFuel,
         .tolerance = 0.0});
  check({.what = "CO2 of 5178.6 t of taxi fuel, kt",
         .source = "Waltert, Figuet, Felux, Journal of Open Aviation Science, 2025",
         .place = "taxi fuel and CO2 of one year at one aerodrome: 16.36 kt, 0.1 %",
         .kind = Kind::Worked,
         .expected = 16.36,
         .got = 5178.6 * kCo2PerFuel / 1000.0,
         .tolerance = 0.016});
}

TEST_CASE("fuel: a whole taxi at idle burns idle flow times time") {
  // Two engines at 0.227 kg/s (the median of large engines in the ICAO databank) for the mean US
  // taxi-out time of 16.7 min are 454.9 kg of fuel and 1437.5 kg of CO2. The run's own time is
  // scaled to that; all of it must be at idle.
  Brief brief;
  brief.aircraft.engine_count = 2;
  brief.aircraft.idle_thrust_n = 32e3;
  brief.aircraft.idle_fuel_flow_kgps = 0.227;
  brief.condition.engines_running = 2;
  brief.condition.mass_kg = 200e3;
  Leg leg;
  leg.length_m = 3000.0;
  leg.slope_rad = -0.002;
  brief.route.legs.push(leg);
  static Card card;
  compute_card(brief, card);
  CHECK(card.run.status == RunStatus::Complete);
  double extra_thrust_n = 0.0;
  for (const Piece& piece : card.run.pieces) extra_thrust_n += piece.extra_thrust_n;
  CHECK(extra_thrust_n == 0.0);  // exactly: no piece asks for any
  const double scale = 16.7 * 60.0 / card.run.duration_s;
  check({.what = "fuel of a mean taxi-out, kg",
         .source = "BTS Special Report 2008-008 (mean taxi-out 16.7 min), ICAO Emissions Databank",
         .place = "table 1; 2 x 0.227 kg/s",
         .kind = Kind::Formula,
         .expected = 454.9,
         .got = card.run.fuel_kg * scale,
         .tolerance = 0.06});
  check({.what = "CO2 of a mean taxi-out, kg",
         .source = "BTS Special Report 2008-008 (mean taxi-out 16.7 min), ICAO Emissions Databank",
         .place = "table 1; 2 x 0.227 kg/s x 3.16",
         .kind = Kind::Formula,
         .expected = 1437.5,
         .got = card.run.co2_kg * scale,
         .tolerance = 0.1});
}

TEST_CASE("fuel: flow above idle") {
  Aircraft aircraft;
  aircraft.idle_fuel_flow_kgps = 0.227;
  aircraft.fuel_per_extra_thrust_kgpns = 7.6e-6;
  Condition condition;
  condition.engines_running = 2;
  check({.what = "two engines with 30 kN above idle, kg/s",
         .source = "Sum of idle and added flow, computed apart",
         .place = "2 x 0.227 + 30 x 0.0076",
         .kind = Kind::Own,
         .expected = 0.682,
         .got = fuel_flow_kgps(aircraft, condition, 30e3),
         .tolerance = 1e-12});
}
