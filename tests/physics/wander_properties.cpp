// Wander at the edges: chances keep their order, simulated tracks agree, and the bend of a margin
// is that of its neighbourhood.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "draws.hpp"
#include "made_card.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/wander.hpp"
#include "scenarios.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kTwoPi = 6.283185307179586;

// Share of smooth normal tracks (squared-exponential correlation, so of that Rice length) that pass
// a margin m + b s^2 / 2 somewhere.
double simulated_chance(double margin_m, double bend_pm, double sigma_m, double length_m,
                        int tracks, Draws& draws) {
  constexpr int kWaves = 32;
  constexpr double kReach_m = 60.0;
  const auto normal = [&draws] {
    return std::sqrt(-2.0 * std::log(draws.between(1e-12, 1.0))) *
           std::cos(draws.between(0.0, kTwoPi));
  };
  int passed = 0;
  for (int track = 0; track < tracks; ++track) {
    double per_m[kWaves], phase[kWaves];
    for (int k = 0; k < kWaves; ++k) {
      per_m[k] = normal() / length_m;
      phase[k] = draws.between(0.0, kTwoPi);
    }
    bool beyond = false;
    for (double s_m = -kReach_m; s_m <= kReach_m && !beyond; s_m += 1.5) {
      double y = 0.0;
      for (int k = 0; k < kWaves; ++k) y += std::cos(per_m[k] * s_m + phase[k]);
      beyond = sigma_m * std::sqrt(2.0 / kWaves) * y > margin_m + 0.5 * bend_pm * s_m * s_m;
    }
    if (beyond) ++passed;
  }
  return static_cast<double>(passed) / tracks;
}

}  // namespace

TEST_CASE("wander: simulated tracks pass the edge as often as said") {
  Draws draws(20261127);
  const int tracks = scaled_draws(6000);
  struct Row {
    double margin_m, bend_pm, length_m;
  };
  for (const Row& row : {Row{1.0, 0.01, 30.0}, Row{1.0, 0.02, 15.0}, Row{1.2, 0.015, 25.0}}) {
    const double said =
        wander_chance({.sigma_m = 0.775, .length_m = row.length_m}, row.margin_m, row.bend_pm);
    const double seen =
        simulated_chance(row.margin_m, row.bend_pm, 0.775, row.length_m, tracks, draws);
    // The formula's own tenth, and four standard errors of the count.
    CHECK(std::abs(seen - said) < 0.1 * said + 4.0 * std::sqrt(said / tracks));
  }
}

TEST_CASE("wander: chances are shares, fall with the margin and the bend, rise with the wander") {
  Draws draws(7);
  int bad = 0;
  for (int i = 0; i < scaled_draws(2000); ++i) {
    const Wander wander{draws.between(0.05, 2.0), draws.between(5.0, 40.0)};
    const double margin_m = draws.between(-3.0, 8.0);
    const double bend_pm = draws.between(-0.01, 0.1);
    const double chance = wander_chance(wander, margin_m, bend_pm);
    if (!(chance >= 0.0 && chance <= 1.0)) ++bad;
    if (wander_chance(wander, margin_m + 0.01, bend_pm) > chance) ++bad;
    if (wander_chance(wander, margin_m, bend_pm + 0.01) > chance) ++bad;
    if (margin_m > 0.0 &&
        wander_chance({1.1 * wander.sigma_m, wander.length_m}, margin_m, bend_pm) < chance)
      ++bad;
    if (margin_m < 0.0 && chance < 0.5) ++bad;
  }
  CHECK(bad == 0);
  // Nobody wanders: it is on the pavement or off it.
  const Wander none{0.0, 20.0};
  CHECK(wander_chance(none, 0.0, 0.01) == 0.0);
  CHECK(wander_chance(none, -0.001, 0.01) == 1.0);
  // A chance from no number is none.
  CHECK(std::isnan(wander_chance({0.775, 20.0}, std::numeric_limits<double>::quiet_NaN(), 0.01)));
}

TEST_CASE("wander: the wheels of a turn are added, each against its own clearance") {
  const Wander wander = wander_of(Aircraft{}, 0.0, 0.775);
  Limits limits;
  limits.edge_clearance_m = 4.0;
  limits.nose_clearance_m = 1.0;
  EdgeMargins margins;
  margins.left_main = {5.0, 0.01, {}, {}};
  margins.right_main = {6.0, 0.02, {}, {}};
  margins.nose = {2.5, 0.015, {}, {}};
  const WanderChance chance = wander_in_turn(wander, margins, limits);
  CHECK(chance.off_edge ==
        doctest::Approx(wander_chance(wander, 5.0, 0.01) + wander_chance(wander, 6.0, 0.02) +
                        wander_chance(wander, 2.5, 0.015)));
  CHECK(chance.below_clearance ==
        doctest::Approx(wander_chance(wander, 1.0, 0.01) + wander_chance(wander, 2.0, 0.02) +
                        wander_chance(wander, 1.5, 0.015)));
  margins.left_main.margin_m = margins.right_main.margin_m = -1.0;
  CHECK(wander_in_turn(wander, margins, limits).off_edge == 1.0);
  // An eye behind the turn axis (nobody's) counts as a metre before it.
  CHECK(wander_of(Aircraft{}, 1e3, 0.775).length_m == doctest::Approx(std::sqrt(20.0)));
}

TEST_CASE("wander: it is the only unknown of the margins' chances") {
  Brief brief;
  Leg straight;
  straight.length_m = 400.0;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 40.0;
  arc.turn_rad = 1.4;
  for (const Leg& leg : {straight, arc, straight}) brief.route.legs.push(leg);
  const WanderChance given = MadeCard(brief).card->wander[0].gear_on_line;
  REQUIRE(given.below_clearance > 0.0);
  // All bands at once, and none at all: the chances stay to the bit.
  const double widths[] = {0.0, 0.3};
  for (const double width : widths) {
    Brief other = brief;
    Bands& bands = other.bands;
    for (Band* band : {&bands.idle_thrust_share, &bands.rolling_share, &bands.breakaway_share,
                       &bands.slope_rad, &bands.wind_mps, &bands.mass_share, &bands.brakes_now_k,
                       &bands.heat_capacity_share, &bands.cooling_share, &bands.brake_heat_share,
                       &bands.scrub_share, &bands.overtaken_thrust_share})
      *band = width;
    const WanderChance chance = MadeCard(other).card->wander[0].gear_on_line;
    CHECK(chance.off_edge == given.off_edge);
    CHECK(chance.below_clearance == given.below_clearance);
  }
  brief.bands.wander_sigma_m *= 1.2;
  CHECK(MadeCard(brief).card->wander[0].gear_on_line.below_clearance >
        1.02 * given.below_clearance);
}

TEST_CASE("wander: a margin's bend is that of ten metres about its narrowest place") {
  // A plain turn on an even width: from the poses of the plan itself.
  Brief brief;
  Leg straight;
  straight.length_m = 400.0;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 50.0;
  arc.turn_rad = 1.4;
  for (const Leg& leg : {straight, arc, straight}) brief.route.legs.push(leg);
  const MadeCard made(brief);
  const TrackAnswer& track = made.card->tracks[0];
  const PaintedLine line = painted_line(brief.route, 1);
  const TrackPlan& plan = track.eye_on_line;
  const EdgeMargin& inner = plan.margins.right_main;
  double at_8_m = 1e9;
  for (int i = 0; i < plan.samples; ++i) {
    const Point wheel = point_on_body(plan.pose[i], 0.0, 0.5 * brief.aircraft.wheel_span_m);
    const LineOffset offset = offset_from_line(line, wheel);
    const double away_m = std::hypot(wheel.x_m - inner.wheel.x_m, wheel.y_m - inner.wheel.y_m);
    if (away_m < 7.0 || away_m > 11.0) continue;
    const double bend =
        2.0 * (offset.right_half_width_m - offset.offset_m - inner.margin_m) / (away_m * away_m);
    at_8_m = std::min(at_8_m, bend);
    MESSAGE(away_m << " " << bend << " " << inner.bend_pm);
    CHECK(inner.bend_pm == doctest::Approx(bend).epsilon(0.3));
  }
  CHECK(at_8_m < 1.0);
}
