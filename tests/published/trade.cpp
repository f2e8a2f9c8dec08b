// Published statements about technique that the numbers must bear out.
#include <doctest/doctest.h>

#include "physics/card/compute_card.hpp"
#include "physics/numerics/units.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::check_band;
using published::Origin;

namespace {

Brief long_straight() {
  Brief brief;
  Leg leg;
  leg.length_m = 3500.0;
  leg.slope_rad = -0.004;
  brief.route.legs.push(leg);
  return brief;
}

}  // namespace

TEST_CASE("trade: carbon wears by the application, and few long ones are fewer") {
  static Card card;
  compute_card(long_straight(), card);
  REQUIRE(card.run.status == RunStatus::Complete);
  const TechniqueCost& few = card.heat.techniques[static_cast<int>(BrakeTechnique::FewLong)];
  const TechniqueCost& many = card.heat.techniques[static_cast<int>(BrakeTechnique::ManyShort)];
  check_band({.what = "applications, many short over few long",
              .source = "Airframe maker's technical magazine, 3rd quarter 2009, on carbon brakes",
              .place = "wear follows the number of applications, not their strength",
              .lowest = 1.5,
              .highest = 20.0,
              .got = static_cast<double>(many.applications) / few.applications});
  check({.what = "wear cost per application, many short over few long",
         .source = "Airframe maker's technical magazine, 3rd quarter 2009, on carbon brakes",
         .place = "wear follows the number of applications, not their strength",
         .origin = Origin::Identity,
         .expected = few.wear_cost / few.applications,
         .got = many.wear_cost / many.applications,
         .tolerance = 1e-9});
}

TEST_CASE("trade: usual straight taxi speed at idle") {
  const Technique technique;
  check_band({.what = "top of the speed band, kt",
              .source = "ACRP Web-Only Document 9, 2009",
              .place = "p. 4: 15 to 20 kt at ground idle",
              .lowest = 15.0,
              .highest = 20.0 + 1e-9,
              .got = units::knots_from_mps(technique.band_top_mps)});
}

TEST_CASE("trade: brake temperatures for departure, indicated") {
  Brief brief;
  const auto limit_is = [&brief](const char* what, double expected_c) {
    check({.what = what,
           .source = "Pilots on brake temperature limits (forum, low authority)",
           .place = "300 without fans, 150 with fans running",
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
           .origin = Origin::Derived,
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
