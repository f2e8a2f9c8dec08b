// The brake temperature of the draws along the route, and quantiles: the last place is the card's,
// nothing uncertain is the nominal run, and quantiles are what sorting makes of the draws.
#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "made_card.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "plain_briefs.hpp"
#include "scenarios.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

HeatBand band_of_card(const MadeCard& made) {
  return heat_band(made.today, made.air, made.card->turns, made.card->run);
}

bool ordered(const Spread& s) { return s.p10 <= s.p50 && s.p50 <= s.p90; }

// Whether a piece of the nominal run begins or ends there with that temperature.
bool run_is_at(const RouteRun& run, double distance_m, double brake_k) {
  return std::any_of(run.pieces.begin(), run.pieces.end(), [&](const Piece& piece) {
    return (piece.start_m == distance_m && piece.brake_start_k == brake_k) ||
           (piece.start_m + piece.length_m == distance_m && piece.brake_end_k == brake_k);
  });
}

Bands no_bands() {
  Bands bands;
  for (Band Bands::*band :
       {&Bands::idle_thrust_share, &Bands::rolling_share, &Bands::breakaway_share,
        &Bands::slope_rad, &Bands::wind_mps, &Bands::mass_share, &Bands::brakes_now_k,
        &Bands::heat_capacity_share, &Bands::cooling_share, &Bands::brake_heat_share,
        &Bands::scrub_share, &Bands::overtaken_thrust_share})
    bands.*band = 0.0;
  return bands;
}

}  // namespace

TEST_CASE("property: at the line the band is the card's, for every aircraft on every route") {
  int complete = 0;
  for (const BriefDocument& document : preset_briefs()) {
    const MadeCard made(document.brief);
    const Card& card = *made.card;
    const HeatBand band = band_of_card(made);
    REQUIRE(band.empty() == (card.run.status != RunStatus::Complete));
    if (band.empty()) continue;
    ++complete;
    CHECK(band.dropped == 0);
    CHECK(band[0].distance_m == 0.0);
    CHECK(band[0].nominal_k == card.heat.start_k);
    const HeatBandPoint& last = band.back();
    CHECK(last.distance_m == doctest::Approx(card.run.length_m).epsilon(1e-12));
    CHECK(last.nominal_k == card.run.end_brake_k);
    CHECK(last.pack_k.p10 == card.uncertainty.line_up_k.p10);
    CHECK(last.pack_k.p50 == card.uncertainty.line_up_k.p50);
    CHECK(last.pack_k.p90 == card.uncertainty.line_up_k.p90);
    for (std::size_t i = 0; i < band.size(); ++i) {
      const HeatBandPoint& here = band[i];
      CHECK(ordered(here.pack_k));
      CHECK(run_is_at(card.run, here.distance_m, here.nominal_k));
      if (i > 0) CHECK(here.distance_m >= band[i - 1].distance_m);
    }
  }
  CHECK(complete > 50);
}

TEST_CASE("property: bands of zero give the nominal run all along, few pieces or many") {
  Draws draws(71);
  int grouped = 0;
  for (int n = 0; n < 30; ++n) {
    Brief brief = draw_plain_brief(draws);
    brief.bands = no_bands();
    if (n % 3 == 0) {
      brief.technique.braking = BrakeTechnique::ManyShort;
      for (Leg& leg : brief.route.legs) {
        leg.slope_rad = -0.012;
        leg.length_m *= 4.0;
      }
    }
    CAPTURE(n);
    const MadeCard made(brief);
    const HeatBand band = band_of_card(made);
    for (const HeatBandPoint& here : band) {
      CHECK(here.pack_k.p10 == here.nominal_k);
      CHECK(here.pack_k.p50 == here.nominal_k);
      CHECK(here.pack_k.p90 == here.nominal_k);
      CHECK(run_is_at(made.card->run, here.distance_m, here.nominal_k));
    }
    const auto ends = std::count_if(made.card->run.pieces.begin(), made.card->run.pieces.end(),
                                    [](const Piece& p) { return p.kind != PieceKind::Roll; });
    grouped += ends > static_cast<int>(kMostStretches) ? 1 : 0;
  }
  CHECK(grouped > 0);
}

TEST_CASE("property: a run that does not get to the end has no band") {
  Draws draws(72);
  Brief brief = draw_plain_brief(draws);
  for (Leg& leg : brief.route.legs) leg.slope_rad = 0.2;
  const MadeCard made(brief);
  REQUIRE(made.card->run.status == RunStatus::NotEnoughThrust);
  CHECK(band_of_card(made).empty());
}

TEST_CASE("property: between two places of a band in proportion, beyond its ends as there") {
  HeatBand band;
  band.push({0.0, 300.0, {290.0, 300.0, 312.0}});
  band.push({100.0, 310.0, {296.0, 309.0, 330.0}});
  band.push({100.0, 350.0, {340.0, 352.0, 370.0}});
  band.push({500.0, 340.0, {330.0, 341.0, 358.0}});
  const auto is = [&](double at_m, double nominal_k, const Spread& s) {
    const HeatBandPoint here = heat_band_at(band, at_m);
    CHECK(here.nominal_k == doctest::Approx(nominal_k).epsilon(1e-14));
    CHECK(here.pack_k.p10 == doctest::Approx(s.p10).epsilon(1e-14));
    CHECK(here.pack_k.p50 == doctest::Approx(s.p50).epsilon(1e-14));
    CHECK(here.pack_k.p90 == doctest::Approx(s.p90).epsilon(1e-14));
  };
  is(-5.0, 300.0, band[0].pack_k);
  is(0.0, 300.0, band[0].pack_k);
  is(25.0, 302.5, {291.5, 302.25, 316.5});
  is(100.0, 310.0, band[1].pack_k);
  is(200.0, 347.5, {337.5, 349.25, 367.0});
  is(500.0, 340.0, band[3].pack_k);
  is(501.0, 340.0, band[3].pack_k);
}

TEST_CASE("property: one draw that is not a number leaves no quantile") {
  for (const double none : {std::nan(""), HUGE_VAL, -HUGE_VAL}) {
    double values[] = {1.0, 2.0, none, 4.0};
    const Spread s = spread_of(values, 4);
    CHECK(std::isnan(s.p10));
    CHECK(std::isnan(s.p50));
    CHECK(std::isnan(s.p90));
  }
}

TEST_CASE("property: quantiles do not ask for an order, and go with unit and origin") {
  Draws draws(73);
  for (int n = 1; n < 60; ++n) {
    std::array<double, 60> values{};
    for (int i = 0; i < n; ++i) values[static_cast<std::size_t>(i)] = draws.between(-3.0, 8.0);
    std::array<double, 60> backwards = values;
    std::reverse(backwards.begin(), backwards.begin() + n);
    std::array<double, 60> other = values;
    for (double& x : other) x = 2.0 * x + 32.0;
    const Spread s = spread_of(values.data(), n);
    const Spread same = spread_of(backwards.data(), n);
    const Spread moved = spread_of(other.data(), n);
    CAPTURE(n);
    CHECK(ordered(s));
    CHECK(s.p10 >= values[0]);
    CHECK(s.p90 <= values[static_cast<std::size_t>(n) - 1]);
    CHECK(s.p10 == same.p10);
    CHECK(s.p50 == same.p50);
    CHECK(s.p90 == same.p90);
    CHECK(moved.p10 == doctest::Approx(2.0 * s.p10 + 32.0).epsilon(1e-13));
    CHECK(moved.p90 == doctest::Approx(2.0 * s.p90 + 32.0).epsilon(1e-13));
    if (n == 1) CHECK(s.p10 == s.p90);
  }
  const Spread none = spread_of(nullptr, 0);
  CHECK(none.p10 == 0.0);
  CHECK(none.p50 == 0.0);
  CHECK(none.p90 == 0.0);
}

TEST_CASE("property: all blocks together are the draws of an answer, each point once") {
  const Bands bands;
  double sum = 0.0;
  std::array<double, kDraws> thrust{};
  for (int k = 0; k < kDrawBlocks; ++k) {
    DrawBlock draws, again;
    answer_block(bands, k, draws);
    answer_block(bands, k, again);
    for (int i = 0; i < kLanes; ++i) {
      const double factor = draws[Unknown::IdleThrust][i];
      CHECK(factor == again[Unknown::IdleThrust][i]);
      thrust[static_cast<std::size_t>(k * kLanes + i)] = factor;
      sum += factor;
    }
  }
  CHECK(sum / kDraws == doctest::Approx(1.0).epsilon(1e-6));
  // Two samples of half as many cells each: no value more than twice.
  std::sort(thrust.begin(), thrust.end());
  for (std::size_t i = 2; i < thrust.size(); ++i) CHECK(thrust[i] > thrust[i - 2]);
}

TEST_CASE("property: a block taken along the way ends where it does at once") {
  Draws draws(74);
  for (int n = 0; n < 10; ++n) {
    const MadeCard made(draw_plain_brief(draws));
    const RouteRun& run = made.card->run;
    if (run.status != RunStatus::Complete) continue;
    const RouteHeat heat = route_heat(made.today, made.air, run,
                                      scrubs_of(made.today, made.card->turns), run.legs[0].forces);
    DrawBlock drawn;
    answer_block(made.today.bands, 3, drawn);
    BlockOnWay block = block_at_start(heat, drawn);
    BlockOnWay nominal = block_at_start(heat, nominal_block());
    CHECK(nominal.model_k[0] == heat.start_k);
    for (std::size_t k = 0; k < heat.stretches.size(); ++k) {
      const double before_k = nominal.model_k[5];
      roll_on(heat, k, block);
      roll_on(heat, k, nominal);
      CHECK(nominal.model_k[5] == heat.model_from_k[k]);
      // Above the air a pack only cools while nothing goes in.
      if (before_k > made.air.temperature_k) CHECK(nominal.model_k[5] <= before_k);
      heat_on(heat, k, drawn, block);
      heat_on(heat, k, nominal_block(), nominal);
      CHECK(nominal.model_k[5] == heat.model_k[k]);
    }
    const Lanes end_k = line_up_k(heat, drawn);
    for (int i = 0; i < kLanes; ++i)
      CHECK(end_k[i] == heat.run_end_k + (block.model_k[i] - heat.model_end_k));
  }
}
