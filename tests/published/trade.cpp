// Published statements about technique that the numbers must bear out.
#include <doctest/doctest.h>

#include <algorithm>

#include "physics/card/compute_card.hpp"
#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"
#include "physics/numerics/units.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

TEST_CASE("trade: brake temperatures for departure, indicated") {
  Brief brief;
  const auto limit_is = [&brief](const char* what, double expected_c) {
    check({.what = what,
           .source = "Pilots on brake temperature limits (forum)",
           .place = "300 without fans, 150 with fans running",
           .kind = Kind::Formula,
           .expected = expected_c,
           .got = units::celsius_from_kelvin(departure_limit_k(brief)),
           .tolerance = 1e-9});
  };
  brief.aircraft.fan_convection_wpm2k = 40.0;
  limit_is("departure limit, fans off, degC", 300.0);
  brief.condition.fans_on = true;
  limit_is("departure limit, fans on, degC", 150.0);
}

TEST_CASE("trade: the speed band under a limit") {
  // Band from 20 to 10 kt, short ones take 3 kt off. Under 15 kt: 15 to 7.5, and 15 to 12.
  const auto bottom_kt = [](BrakeTechnique braking, double limit_kt) {
    return units::knots_from_mps(
        speed_band(Technique{}, braking, units::mps_from_knots(limit_kt)).bottom_mps);
  };
  const auto bottom_is = [](const char* what, double expected_kt, double got_kt) {
    check({.what = what,
           .source = "Speed band of the default technique, computed apart",
           .place = "bottom cut as the top is, between 0.5 and 0.9 of it",
           .kind = Kind::Own,
           .expected = expected_kt,
           .got = got_kt,
           .tolerance = 1e-9});
  };
  bottom_is("few long under 20 kt, kt", 10.0, bottom_kt(BrakeTechnique::FewLong, 20.0));
  bottom_is("few long under 15 kt, kt", 7.5, bottom_kt(BrakeTechnique::FewLong, 15.0));
  bottom_is("few long under 8 kt, kt", 4.0, bottom_kt(BrakeTechnique::FewLong, 8.0));
  bottom_is("many short under 15 kt, kt", 12.0, bottom_kt(BrakeTechnique::ManyShort, 15.0));
  bottom_is("many short under 5 kt, kt", 2.5, bottom_kt(BrakeTechnique::ManyShort, 5.0));
}

TEST_CASE("trade: defaults beside what is printed") {
  const Aircraft aircraft;
  check({.what = "rolling resistance, force per weight, dry concrete",
         .source = "Mason, TAKEOFF2, input of a worked take-off",
         .place = "design value for dry concrete and asphalt",
         .kind = Kind::Formula,
         .expected = 0.02,
         .got = aircraft.rolling_resistance,
         .tolerance = 0.0025,
         .differs_because = "a design value, on the safe side for a take-off; the band of rolling "
                            "resistance does not reach it"});
  check({.what = "rolling resistance, force per weight, dry asphalt, small aircraft",
         .source = "Gudmundsson, General Aviation Aircraft Design, 1st ed. 2014",
         .place = "p. 938, brakes off",
         .kind = Kind::Formula,
         .expected = 0.04,
         .got = aircraft.rolling_resistance,
         .tolerance = 0.005,
         .differs_because = "tyres of low pressure; the tyres of heavy aircraft roll easier"});
  check({.what = "cut-off of the view over the nose, deg",
         .source = "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010",
         .place = "p. 295: 11 to 16 typically",
         .kind = Kind::Formula,
         .expected = 13.5,
         .got = units::degrees_from_radians(aircraft.view_cutoff_rad),
         .tolerance = 2.5});
  check({.what = "departure limit, indicated, small steel brakes, degC",
         .source = "Brake Cooling (post: pilot's record of indications)",
         .place = "below 230",
         .kind = Kind::Formula,
         .expected = 230.0,
         .got = units::celsius_from_kelvin(Limits{}.departure_brake_k),
         .tolerance = 5.0,
         .differs_because = "limits go by type; it is an input"});
  check({.what = "velocity of the idle exhaust, m/s",
         .source = "Engine Thrust Hazards in the Airport Environment (post: trade article)",
         .place = "wake of an idling aircraft approaching 120 mph; 15 %",
         .kind = Kind::Formula,
         .expected = 53.6,
         .got = aircraft.idle_thrust_n / aircraft.idle_air_flow_kgps,
         .tolerance = 0.15 * 53.6});
}

TEST_CASE("trade: what many short applications cost") {
  // Life of carbon brakes 20 to 30 % shorter where fleets make many applications in taxi: 1.25 to
  // 1.43 times the wear. How many more applications those fleets made is not said.
  Brief brief;
  Leg leg;
  leg.length_m = 3500.0;
  leg.slope_rad = -0.004;
  brief.route.legs.push(leg);
  static Card card;
  compute_card(brief, card);
  REQUIRE(card.run.status == RunStatus::Complete);
  const TechniqueCost& few = card.heat.techniques[static_cast<int>(BrakeTechnique::FewLong)];
  const TechniqueCost& many = card.heat.techniques[static_cast<int>(BrakeTechnique::ManyShort)];
  check({.what = "wear of many short applications over that of few long ones",
         .source = "Carbon brake wear, article on fleet experience, 2014 (post: copy)",
         .place = "2.1: life 20 to 30 % shorter",
         .kind = Kind::Formula,
         .expected = 1.34,
         .got = many.wear_cost / few.wear_cost,
         .tolerance = 0.09,
         .differs_because = "fleets mix both ways of braking; a route braked in one way only shows "
                            "the whole difference of the counts"});
}

TEST_CASE("trade: heat comes out of a brake long after a hard stop") {
  // Fuse plugs let go 20 to 30 minutes after a high-energy stop. The default brake's indication,
  // from 60 degC before a stop that leaves its pack at 700 degC.
  const double air_k = 288.15;
  const HeatPack pack = heat_pack(Aircraft{}, air_k, false);
  const Probe probe = brake_probe(Aircraft{}, air_k, false);
  double pack_k = units::kelvin_from_celsius(700.0);
  double shown_k = units::kelvin_from_celsius(60.0);
  double highest_k = shown_k;
  double highest_min = 0.0;
  for (int minute = 1; minute <= 60; ++minute) {
    const double later_k = temperature_after_time_k(pack, pack_k, 60.0, 0.0);
    shown_k = indication_after_k(probe, shown_k, pack_k, later_k, 60.0);
    pack_k = later_k;
    if (shown_k > highest_k) highest_min = minute;
    highest_k = std::max(highest_k, shown_k);
  }
  check({.what = "highest indication after a hard stop, min",
         .source = "Pilots on fuse plugs after a hard stop (forum)",
         .place = "release about 20 to 30 min after the stop",
         .kind = Kind::Formula,
         .expected = 25.0,
         .got = highest_min,
         .tolerance = 5.0,
         .differs_because = "plugs sit in the wheel, which the heat reaches after the probe; the "
                            "wheel is not in the model"});
}
