// What a way out promises, worked out apart.
#include "physics/card/ways_out.hpp"

#include <doctest/doctest.h>

#include <bit>
#include <cmath>
#include <memory>

#include "physics/card/compute_card.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

// One straight; hot brakes that lose heat by convection alone, with a specific heat that hardly
// changes: the cooling is then an exponential.
Brief hot_taxi() {
  Brief brief;
  Leg leg;
  leg.length_m = 600.0;
  brief.route.legs.push(leg);
  brief.aircraft.brake_emissivity = 0.0;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.condition.brake_temperature_k = units::kelvin_from_celsius(330.0);
  return brief;
}

}  // namespace

TEST_CASE("ways out: the wait is an exponential where only air cools the brakes") {
  const Brief brief = hot_taxi();
  const auto card = std::make_unique<Card>();
  const auto scratch = std::make_unique<Card>();
  compute_card(brief, *card, Uncertainty::LeftOut);
  CHECK(sought_kinds(*card) == bit_of(CautionKind::BrakesTooHot));
  CHECK(std::popcount(bit_of(CautionKind::BrakesTooHot)) == 1);
  const WaysOut ways = ways_out(brief, *card, *scratch);
  const WayOut* wait = nullptr;
  for (const WayOut& way : ways)
    if (way.change == WayOutChange::WaitOnStand) wait = &way;
  REQUIRE(wait != nullptr);
  // m c dT/dt = -h A (T - air), with the mean specific heat between both ends.
  const HeatPack pack = heat_pack(brief.aircraft, brief.day.temperature_k, false);
  const double from_k = brief.condition.brake_temperature_k;
  const double mean_jpkgk =
      (heat_content_jpkg(pack.material, from_k) - heat_content_jpkg(pack.material, wait->amount)) /
      (from_k - wait->amount);
  const double expected_s = pack.mass_kg * mean_jpkgk / (pack.convection_wpm2k * pack.area_m2) *
                            std::log((from_k - pack.air_k) / (wait->amount - pack.air_k));
  check({.what = "wait on the stand, brakes cooled by air alone, min (up to whole ones)",
         .source = "Newton's law of cooling, worked out apart",
         .place = "m c / (h A) ln((T - air) / (Te - air))",
         .kind = Kind::Own,
         .expected = std::ceil(expected_s / 60.0),
         .got = wait->wait_s / 60.0,
         .tolerance = 1.0});
  compute_card(brief_with(brief, *wait), *scratch, Uncertainty::LeftOut);
  check({.what = "after that wait the hottest brake is at its limit, degC below it",
         .source = "the limit of the brief",
         .place = "300 degC",
         .kind = Kind::Own,
         .expected = 0.5,
         .got = scratch->heat.limit_k - scratch->heat.hottest.highest_k,
         .tolerance = 0.6});
}
