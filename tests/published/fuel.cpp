// Taxi fuel and carbon dioxide against published figures.
#include <doctest/doctest.h>

#include <tuple>

#include "physics/card/compute_card.hpp"
#include "physics/numerics/units.hpp"
#include "physics/world/engines.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::check_band;
using published::Origin;

TEST_CASE("fuel: carbon dioxide per fuel") {
  check({.what = "CO2 per fuel, kg/kg",
         .source = "ICAO Carbon Emissions Calculator Methodology, v13.1",
         .place = "3.16",
         .expected = 3.16,
         .got = kCo2PerFuel,
         .tolerance = 0.0});
  check({.what = "CO2 of 5178.6 t of taxi fuel, kt",
         .source = "Waltert, Figuet, Felux, Journal of Open Aviation Science, 2025",
         .place = "taxi fuel and CO2 of one year at one aerodrome: 16.36 kt, 0.1 %",
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
         .origin = Origin::Identity,
         .expected = 454.9,
         .got = card.run.fuel_kg * scale,
         .tolerance = 0.06});
  check({.what = "CO2 of a mean taxi-out, kg",
         .source = "BTS Special Report 2008-008 (mean taxi-out 16.7 min), ICAO Emissions Databank",
         .place = "table 1; 2 x 0.227 kg/s x 3.16",
         .origin = Origin::Identity,
         .expected = 1437.5,
         .got = card.run.co2_kg * scale,
         .tolerance = 0.1});
}

TEST_CASE("fuel: idle flow lies where engines of this size were measured") {
  check_band({.what = "idle fuel flow per engine, kg/s",
              .source = "ICAO Engine Emissions Databank, engines of 220 kN and more",
              .place = "idle mode, 157 engines: 0.163 to 0.341",
              .lowest = 0.163,
              .highest = 0.341,
              .got = Aircraft{}.idle_fuel_flow_kgps});
}

TEST_CASE("fuel: mean taxi times of one year") {
  // Two engines at 0.227 kg/s, the databank's median of large engines, for each mean time.
  Aircraft aircraft;
  aircraft.idle_fuel_flow_kgps = 0.227;
  Condition condition;
  condition.engines_running = 2;
  struct Row {
    const char* what;
    double minutes, fuel_kg, co2_kg;
  };
  for (const Row& row :
       {Row{"taxi-out, large hubs", 18.5, 503.94, 1592.45},
        Row{"taxi-out, small hubs", 12.7, 345.95, 1093.20},
        Row{"taxi-out, other", 12.0, 326.88, 1032.94}, Row{"taxi-in, all", 6.9, 187.96, 593.94},
        Row{"taxi-in, small hubs", 4.7, 128.03, 404.57}}) {
    const double fuel_kg = fuel_flow_kgps(aircraft, condition, 0.0) * 60.0 * row.minutes;
    for (const auto& [what, expected, got] :
         {std::tuple{"fuel, kg", row.fuel_kg, fuel_kg},
          std::tuple{"carbon dioxide, kg", row.co2_kg, fuel_kg * kCo2PerFuel}}) {
      check({.what = what,
             .source = "BTS Special Report 2008-008",
             .place = row.what,
             .origin = Origin::Identity,
             .expected = expected,
             .got = got,
             .tolerance = 0.005,
             .worked = true});
    }
  }
}
