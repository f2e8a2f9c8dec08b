// A property of the draws as a whole: no draw starts to roll where it could not keep rolling.
#include <doctest/doctest.h>

#include <memory>

#include "physics/card/compute_card.hpp"
#include "plain_briefs.hpp"

using namespace tillerline;
using namespace tillerline::tests;

TEST_CASE("property: starting never takes less than rolling, however wide the bands") {
  Draws draws(801);
  const auto card = std::make_unique<Card>();
  int rolling_with_slope_band = 0;
  for (int i = 0; i < 12; ++i) {
    Brief brief = draw_plain_brief(draws);
    brief.bands.rolling_share = 0.6;
    brief.bands.breakaway_share = 0.6;
    compute_card(brief, *card);
    const UncertaintyAnswer& u = card->uncertainty;
    // Draw by draw the slope of a restart lies below that of rolling on, and so do the quantiles.
    CHECK(u.restarts_slope_rad.p10 <= u.keeps_rolling_slope_rad.p10);
    CHECK(u.restarts_slope_rad.p50 <= u.keeps_rolling_slope_rad.p50);
    CHECK(u.restarts_slope_rad.p90 <= u.keeps_rolling_slope_rad.p90);
    // With rolling never less than 0.6 times as hard, a breakaway band that reaches down to a tenth
    // gives no easier start than the rolling resistance itself.
    brief.bands.breakaway_share = 0.9;
    brief.aircraft.breakaway_resistance = brief.aircraft.rolling_resistance;
    brief.bands.rolling_share = 0.0;
    compute_card(brief, *card);
    const double slope_band = brief.bands.slope_rad.above;
    CHECK(card->uncertainty.restarts_slope_rad.p90 <=
          card->uncertainty.keeps_rolling_slope_rad.p90 + 1e-12);
    if (slope_band > 0.0 && card->uncertainty.rolls_by_itself > 0.0) ++rolling_with_slope_band;
  }
  CHECK(rolling_with_slope_band > 2);
}
