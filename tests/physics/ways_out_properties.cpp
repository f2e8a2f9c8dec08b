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
  for (int i = 0; i < scaled_draws(60); ++i) {
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
  for (int i = 0; i < scaled_draws(80); ++i) {
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
  for (int i = 0; i < scaled_draws(60); ++i) {
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
