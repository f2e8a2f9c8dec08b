// Ways out: what each of them says holds when its brief is computed again, and none that helps is
// missing among those that can be counted.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>

#include "draws.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/card/ways_out.hpp"
#include "physics/heat/heat.hpp"
#include "physics/run/make_today.hpp"
#include "plain_briefs.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

std::uint64_t exceeded(const Card& card) {
  std::uint64_t kinds = 0;
  for (const Caution& caution : card.cautions)
    if (caution.level == CautionLevel::Exceeded) kinds |= bit_of(caution.kind);
  return kinds;
}

Brief hot_brief(Draws& draws) {
  Brief brief = draw_plain_brief(draws);
  brief.condition.brake_temperature_k = units::kelvin_from_celsius(draws.between(150.0, 420.0));
  brief.turnaround.included = false;
  return brief;
}

const WayOut* find(const WaysOut& ways, WayOutChange change) {
  const auto found = std::find_if(ways.begin(), ways.end(),
                                  [&](const WayOut& way) { return way.change == change; });
  return found == ways.end() ? nullptr : &*found;
}

}  // namespace

TEST_CASE("property: a way out does what it says, and nothing is offered where nothing is wrong") {
  Draws draws(20261127);
  const auto card = std::make_unique<Card>();
  const auto again = std::make_unique<Card>();
  int offered = 0;
  int waits = 0;
  for (int i = 0; i < 24; ++i) {
    const Brief brief = hot_brief(draws);
    compute_card(brief, *card);
    const WaysOut ways = ways_out(brief, *card, *again);
    if (sought_kinds(*card) == 0) CHECK(ways.empty());
    bool help_everywhere = true;
    for (const WayOut& way : ways) {
      compute_card(brief_with(brief, way), *again, Uncertainty::LeftOut);
      const std::uint64_t now = sought_kinds(*again);
      CHECK(way.clears != 0);
      CHECK((way.clears & now) == 0);
      CHECK((way.clears & ~sought_kinds(*card)) == 0);
      CHECK(way.leaves == (sought_kinds(*card) & now));
      CHECK(way.adds == (exceeded(*again) & ~exceeded(*card)));
      CHECK(way.hottest_k == again->heat.hottest.highest_k);
      CHECK(way.duration_s == again->run.duration_s);
      // What clears all comes before what leaves something, and that before what breaks a limit.
      const bool clears = way.clears_all();
      CHECK((help_everywhere || !clears));
      help_everywhere = clears;
      ++offered;
      waits += way.change == WayOutChange::WaitOnStand;
    }
  }
  CHECK(offered > 5);
  CHECK(waits > 0);
}

TEST_CASE("property: the wait on the stand is just long enough") {
  Draws draws(77);
  const auto card = std::make_unique<Card>();
  const auto again = std::make_unique<Card>();
  int seen = 0;
  for (int i = 0; i < 30; ++i) {
    const Brief brief = hot_brief(draws);
    compute_card(brief, *card, Uncertainty::LeftOut);
    const WaysOut ways = ways_out(brief, *card, *again);
    const WayOut* const way = find(ways, WayOutChange::WaitOnStand);
    if (way == nullptr) continue;
    ++seen;
    Brief warmer = brief_with(brief, *way);
    compute_card(warmer, *again, Uncertainty::LeftOut);
    CHECK(again->heat.within_limit);
    warmer.condition.brake_temperature_k += 1.0;
    compute_card(warmer, *again, Uncertainty::LeftOut);
    const bool as_hot_as_now =
        warmer.condition.brake_temperature_k >= std::floor(brief.condition.brake_temperature_k);
    CHECK((as_hot_as_now || !again->heat.within_limit));
    // Cooled for that long by small steps, the heat pack is down where such a reading settles.
    const Today today = make_today(brief);
    const BrakeReading reading = brief.limits.brake_reading;
    double pack_k = brake_as_read(today.probe, reading, brief.condition.brake_temperature_k).pack_k;
    double shown_k = settled_indication_k(today.probe, pack_k);
    for (double s = 0.0; s < way->wait_s; s += 1.0) {
      pack_k -= cooling_power_w(today.pack, pack_k) /
                (today.pack.mass_kg * specific_heat_jpkgk(today.pack.material, pack_k));
      shown_k += (settled_indication_k(today.probe, pack_k) - shown_k) / today.probe.lag_s;
    }
    const double reads_k = reading == BrakeReading::Indicated ? shown_k : pack_k;
    CHECK(reads_k <= way->amount + 0.6);
  }
  CHECK(seen > 3);
}

TEST_CASE("ways out: a lower band is the highest that helps, in whole knots") {
  Draws draws(5);
  const auto card = std::make_unique<Card>();
  const auto again = std::make_unique<Card>();
  for (int i = 0; i < 24; ++i) {
    const Brief brief = hot_brief(draws);
    compute_card(brief, *card, Uncertainty::LeftOut);
    const WaysOut ways = ways_out(brief, *card, *again);
    const WayOut* const way = find(ways, WayOutChange::LowerBand);
    if (way == nullptr) continue;
    const double kt = units::knots_from_mps(way->amount);
    CHECK(std::fabs(kt - std::round(kt)) < 1e-9);
    CHECK(way->amount < brief.technique.band_top_mps);
    WayOut higher = *way;
    higher.amount += units::mps_from_knots(1.0);
    if (higher.amount >= brief.technique.band_top_mps) continue;
    compute_card(brief_with(brief, higher), *again, Uncertainty::LeftOut);
    CHECK((sought_kinds(*card) & ~sought_kinds(*again)) == 0);
  }
}

namespace {

Brief long_straight(double length_m) {
  Brief brief;
  Leg leg;
  leg.length_m = length_m;
  brief.route.legs.push(leg);
  return brief;
}

WaysOut ways_of(const Brief& brief, std::uint64_t& sought) {
  const auto card = std::make_unique<Card>();
  const auto scratch = std::make_unique<Card>();
  compute_card(brief, *card, Uncertainty::LeftOut);
  sought = sought_kinds(*card);
  return ways_out(brief, *card, *scratch);
}

double hottest_k(const Brief& brief) {
  const auto card = std::make_unique<Card>();
  compute_card(brief, *card, Uncertainty::LeftOut);
  return card->heat.hottest.highest_k;
}

}  // namespace

TEST_CASE("ways out: brakes a little too hot are cooler in a lower band") {
  Brief brief = long_straight(4000.0);
  brief.route.legs[0].slope_rad = -0.012;
  std::uint64_t sought = 0;
  brief.limits.departure_brake_k = hottest_k(brief) - 0.3;
  const WaysOut ways = ways_of(brief, sought);
  CHECK(sought == bit_of(CautionKind::BrakesTooHot));
  CHECK(!ways.empty());
  for (const WayOut& way : ways) CHECK(way.clears == bit_of(CautionKind::BrakesTooHot));
}

TEST_CASE("ways out: no wait where none helps, where there is a landing, or where it never ends") {
  Brief brief = long_straight(3000.0);
  brief.route.legs[0].slope_rad = -0.01;
  brief.condition.brake_temperature_k = units::kelvin_from_celsius(320.0);
  std::uint64_t sought = 0;
  CHECK(find(ways_of(brief, sought), WayOutChange::WaitOnStand) != nullptr);
  Brief landed = brief;
  landed.turnaround.included = true;
  landed.turnaround.brakes_at_touchdown_k = units::kelvin_from_celsius(500.0);
  CHECK(find(ways_of(landed, sought), WayOutChange::WaitOnStand) == nullptr);
  Brief hopeless = brief;  // hot from cold already
  hopeless.limits.departure_brake_k = brief.day.temperature_k + 2.0;
  CHECK(find(ways_of(hopeless, sought), WayOutChange::WaitOnStand) == nullptr);
  Brief cold = hopeless;  // colder than the air: nothing to wait for
  cold.condition.brake_temperature_k = brief.day.temperature_k - 8.0;
  CHECK(find(ways_of(cold, sought), WayOutChange::WaitOnStand) == nullptr);
  CHECK((sought & bit_of(CautionKind::BrakesTooHot)) != 0);
  Brief endless = brief;
  endless.aircraft.heat_pack_mass_kg = 5000.0;
  CHECK(find(ways_of(endless, sought), WayOutChange::WaitOnStand) == nullptr);
  CHECK((sought & bit_of(CautionKind::BrakesTooHot)) != 0);
}

TEST_CASE("ways out: what exceeds another limit instead comes last") {
  // Down a slope that keeps it rolling, then up one that a single engine does not manage.
  Brief brief = long_straight(2500.0);
  brief.route.legs[0].slope_rad = -0.012;
  Leg up;
  up.length_m = 400.0;
  up.slope_rad = 0.02;
  brief.route.legs.push(up);
  brief.condition.mass_kg = brief.aircraft.highest_mass_kg;
  brief.limits.departure_brake_k = hottest_k(brief) - 0.3;
  std::uint64_t sought = 0;
  const WaysOut ways = ways_of(brief, sought);
  bool added = false;
  for (const WayOut& way : ways) {
    CHECK((!added || way.adds != 0));
    added = added || way.adds != 0;
  }
  CHECK(added);
}

TEST_CASE("ways out: where brakes cool quickly a lower band is one, and the highest that helps") {
  Brief brief = long_straight(4500.0);
  brief.route.legs[0].slope_rad = -0.008;
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.aircraft.heat_pack_mass_kg = 15.0;
  brief.aircraft.brake_convection_wpm2k = 60.0;
  Brief slower = brief;
  slower.technique.band_top_mps = units::mps_from_knots(15.0);
  const double fast_k = hottest_k(brief);
  const double slow_k = hottest_k(slower);
  REQUIRE(slow_k < fast_k - 1.0);
  brief.limits.departure_brake_k = 0.5 * (fast_k + slow_k);
  std::uint64_t sought = 0;
  const WaysOut ways = ways_of(brief, sought);
  const WayOut* const way = find(ways, WayOutChange::LowerBand);
  REQUIRE(way != nullptr);
  CHECK(way->amount >= units::mps_from_knots(15.0) - 1e-9);
  CHECK(way->amount < brief.technique.band_top_mps);
  CHECK(way->hottest_k <= brief.limits.departure_brake_k);
}

TEST_CASE("ways out: brakes are not waited for down to the air's own temperature") {
  Brief brief = long_straight(1500.0);
  brief.limits.brake_reading = BrakeReading::HeatPack;
  brief.day.temperature_k = units::kelvin_from_celsius(15.0);
  brief.condition.brake_temperature_k = units::kelvin_from_celsius(15.5);
  brief.limits.departure_brake_k = hottest_k(brief);
  brief.condition.brake_temperature_k = units::kelvin_from_celsius(60.0);
  std::uint64_t sought = 0;
  CHECK(find(ways_of(brief, sought), WayOutChange::WaitOnStand) == nullptr);
  CHECK((sought & bit_of(CautionKind::BrakesTooHot)) != 0);
}

TEST_CASE("ways out: one that exceeds another limit does not clear all") {
  WayOut way;
  CHECK(way.clears_all());
  way.adds = bit_of(CautionKind::CannotMove);
  CHECK_FALSE(way.clears_all());
  way.adds = 0;
  way.leaves = bit_of(CautionKind::BrakesTooHot);
  CHECK_FALSE(way.clears_all());
}
