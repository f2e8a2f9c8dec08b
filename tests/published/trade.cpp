// Published statements about technique that the numbers must bear out.
#include <doctest/doctest.h>

#include "physics/card.hpp"
#include "physics/units.hpp"
#include "published.hpp"

using namespace tillerline;
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
