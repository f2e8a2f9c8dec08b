// Properties of the uncertainty's answer: nothing uncertain, wider bands, monotone inputs, ranking.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "physics/numerics/low_discrepancy.hpp"
#include "physics/run/restart.hpp"
#include "physics/uncertainty/uncertainty.hpp"
#include "physics/world/engines.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

struct Case {
  Brief brief;
  Air air;
  PavementState pavement;
  FixedList<TurnAnswer, kMaxLegs> turns;
  RouteRun run;
};

void prepare(const Brief& brief, Case& out) {
  out.brief = brief;
  out.air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  out.pavement = pavement_state(brief.aircraft, brief.day);
  plan_turns(brief, out.air, out.turns);
  out.run = run_route(brief, out.air, brief.technique.braking, out.turns);
  for (TurnAnswer& turn : out.turns)
    if (static_cast<std::size_t>(turn.leg) < out.run.legs.size())
      turn.planned_entry_mps = out.run.legs[static_cast<std::size_t>(turn.leg)].entry_mps;
}

UncertaintyAnswer answer_of(const Brief& brief, double limit_k = 573.15) {
  static Case c;
  prepare(brief, c);
  return uncertainty_answer(c.brief, c.air, c.pavement, c.turns, c.run, limit_k);
}

Bands no_bands() {
  Bands b;
  b.idle_thrust_share = b.rolling_share = b.breakaway_share = b.slope_rad = b.wind_mps =
      b.mass_share = b.brakes_now_k = b.heat_capacity_share = b.cooling_share = b.brake_heat_share =
          b.scrub_share = b.overtaken_thrust_share = 0.0;
  return b;
}

Brief two_turn_brief() {
  Brief b;
  Leg straight;
  straight.length_m = 700.0;
  straight.slope_rad = -0.002;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = 1.57;
  b.route.legs.push(straight);
  b.route.legs.push(arc);
  b.route.legs.push(straight);
  arc.turn_rad = -1.2;
  b.route.legs.push(arc);
  b.route.legs.push(straight);
  return b;
}

double width(const Spread& s) { return s.p90 - s.p10; }
bool ordered(const Spread& s) { return s.p10 <= s.p50 && s.p50 <= s.p90; }
void is_all(const Spread& s, double value) {
  CHECK(s.p10 == doctest::Approx(value).epsilon(1e-12));
  CHECK(s.p50 == s.p10);
  CHECK(s.p90 == s.p10);
}

const Importance& of(const Importance* ranking, Unknown unknown) {
  return *std::find_if(ranking, ranking + kUnknowns,
                       [&](const Importance& i) { return i.unknown == unknown; });
}

}  // namespace

TEST_CASE("property: bands of zero give the nominal answer") {
  Draws draws(41);
  static Case c;
  for (int n = 0; n < 12; ++n) {
    Brief b = draw_plain_brief(draws);
    b.bands = no_bands();
    if (n % 3 == 0) b.limits.brake_reading = BrakeReading::HeatPack;
    prepare(b, c);
    const double hottest_k = hottest_brake(b, c.air, c.run).highest_k;
    const double limit_k = hottest_k + (n % 2 == 0 ? 1e-6 : -1e-6);
    const UncertaintyAnswer u =
        uncertainty_answer(c.brief, c.air, c.pavement, c.turns, c.run, limit_k);
    const RollAnswer roll = roll_answer(b, c.air);
    CAPTURE(n);
    CHECK(u.draws == 1024);
    CHECK(u.rolls_by_itself == (roll.breakaway_margin_n >= 0.0 ? 1.0 : 0.0));
    CHECK(u.reaches_target == (roll.targets[1].passage.reached ? 1.0 : 0.0));
    CHECK(u.target_mps == roll.targets[1].speed_mps);
    is_all(u.time_to_target_s, roll.targets[1].passage.time_s);
    is_all(u.distance_to_target_m, roll.targets[1].passage.distance_m);
    CHECK(u.keeps_rolling_slope_rad.p10 ==
          doctest::Approx(roll.keeps_rolling_slope_rad).epsilon(1e-11));
    CHECK(u.restarts_slope_rad.p90 == doctest::Approx(roll.restarts_slope_rad).epsilon(1e-11));
    CHECK(u.line_up_k.p10 == c.run.end_brake_k);
    CHECK(u.line_up_k.p90 == c.run.end_brake_k);
    CHECK(u.hottest_k.p10 == hottest_k);
    CHECK(u.hottest_k.p90 == hottest_k);
    CHECK(u.over_brake_limit == (n % 2 == 0 ? 0.0 : 1.0));
    const RestartAnswer restart = restart_answer(b, c.air, c.turns);
    const RestartPoint& worst = *worst_point(restart);
    CHECK(u.restart_extra_n.p50 ==
          doctest::Approx(worst.extra_n).epsilon(1e-9).scale(worst.needed_n));
    CHECK(u.restart_over_limit == (worst.within_limit ? 0.0 : 1.0));
    for (const TurnChance& chance : u.turns) {
      CHECK((chance.runs_away == 0.0 || chance.runs_away == 1.0));
      CHECK((chance.stalls == 0.0 || chance.stalls == 1.0));
      CHECK(chance.runs_away + chance.stalls <= 1.0);
    }
    for (const Importance& i : u.roll_ranking) CHECK(i.total == 0.0);
    for (const Importance& i : u.heat_ranking) CHECK(i.total == 0.0);
  }
}

TEST_CASE("property: the same brief, the same answer to the last bit") {
  const UncertaintyAnswer one = answer_of(two_turn_brief());
  const UncertaintyAnswer two = answer_of(two_turn_brief());
  CHECK(one.time_to_target_s.p50 == two.time_to_target_s.p50);
  CHECK(one.line_up_k.p90 == two.line_up_k.p90);
  for (int i = 0; i < kUnknowns; ++i) {
    CHECK(one.heat_ranking[i].unknown == two.heat_ranking[i].unknown);
    CHECK(one.heat_ranking[i].total == two.heat_ranking[i].total);
    CHECK(one.roll_ranking[i].first == two.roll_ranking[i].first);
  }
}

TEST_CASE("property: quantiles are in order, a wider band never gives a narrower spread") {
  using Member = Band Bands::*;
  constexpr Member kAll[] = {&Bands::idle_thrust_share, &Bands::rolling_share,
                             &Bands::breakaway_share,   &Bands::slope_rad,
                             &Bands::wind_mps,          &Bands::mass_share,
                             &Bands::brakes_now_k,      &Bands::heat_capacity_share,
                             &Bands::cooling_share,     &Bands::brake_heat_share,
                             &Bands::scrub_share};
  for (const Member member : kAll) {
    Brief b = two_turn_brief();
    const Band full = b.bands.*member;
    b.bands = no_bands();
    UncertaintyAnswer before = answer_of(b);
    bool anything = false;
    for (const double share : {0.25, 0.5, 1.0}) {
      b.bands.*member = {share * full.below, share * full.above};
      const UncertaintyAnswer now = answer_of(b);
      for (const Spread* s :
           {&now.time_to_target_s, &now.distance_to_target_m, &now.keeps_rolling_slope_rad,
            &now.restarts_slope_rad, &now.line_up_k, &now.restart_extra_n})
        CHECK(ordered(*s));
      CHECK(width(now.time_to_target_s) >= width(before.time_to_target_s));
      CHECK(width(now.distance_to_target_m) >= width(before.distance_to_target_m));
      CHECK(width(now.keeps_rolling_slope_rad) >= width(before.keeps_rolling_slope_rad));
      CHECK(width(now.restarts_slope_rad) >= width(before.restarts_slope_rad));
      CHECK(width(now.line_up_k) >= width(before.line_up_k) - 1e-9);
      CHECK(width(now.restart_extra_n) >= width(before.restart_extra_n));
      anything = anything || width(now.time_to_target_s) > 0.0 || width(now.line_up_k) > 0.0 ||
                 width(now.restarts_slope_rad) > 0.0;
      before = now;
    }
    CHECK(anything);  // every band is honoured
  }
}

TEST_CASE("property: quantiles of one triangular unknown are exact through a monotone answer") {
  Brief b = two_turn_brief();
  b.bands = no_bands();
  b.bands.breakaway_share = 0.3;
  const UncertaintyAnswer u = answer_of(b);
  static Case c;
  prepare(b, c);
  for (const auto& [share, got] :
       {std::pair{0.9, u.restarts_slope_rad.p10}, std::pair{0.5, u.restarts_slope_rad.p50},
        std::pair{0.1, u.restarts_slope_rad.p90}}) {
    Brief one = b;
    one.aircraft.breakaway_resistance *= 1.0 + triangular(share, 0.3, 0.3);
    CHECK(got == doctest::Approx(roll_answer(one, c.air).restarts_slope_rad).epsilon(1e-3));
  }
  // Only the share of the heat: it goes one way.
  b.bands = no_bands();
  b.bands.brake_heat_share = {0.3, 0.0};
  const UncertaintyAnswer down = answer_of(b);
  CHECK(down.line_up_k.p90 < c.run.end_brake_k);
  const double rise_k = c.run.end_brake_k - brakes_now(b, c.air).pack_k;
  CHECK(c.run.end_brake_k - down.line_up_k.p10 < 0.3 * rise_k);
  // Brakes now: hotter now is hotter then, by a little less.
  b.bands = no_bands();
  b.bands.brakes_now_k = 20.0;
  const UncertaintyAnswer now = answer_of(b);
  CHECK(width(now.hottest_k) < triangular(0.9, 40.0, 40.0));
  CHECK(width(now.hottest_k) > triangular(0.9, 28.0, 28.0));
  // It is read, so a pack is off by more.
  CHECK(width(now.line_up_k) < triangular(0.9, 40.0, 40.0) / b.aircraft.probe_share);
  CHECK(width(now.line_up_k) > width(now.hottest_k));
}

TEST_CASE("property: chances fall from one to zero with the limit") {
  Brief b = two_turn_brief();
  double before = 1.0;
  for (const double limit_k : {300.0, 380.0, 390.0, 400.0, 410.0, 420.0, 700.0}) {
    const double over = answer_of(b, limit_k).over_brake_limit;
    CHECK(over <= before);
    before = over;
  }
  CHECK(answer_of(b, 300.0).over_brake_limit == 1.0);
  CHECK(answer_of(b, 700.0).over_brake_limit == 0.0);
  const UncertaintyAnswer u = answer_of(b);
  CHECK(answer_of(b, u.hottest_k.p50).over_brake_limit == doctest::Approx(0.5).epsilon(2e-3));
  CHECK(answer_of(b, u.hottest_k.p90).over_brake_limit == doctest::Approx(0.1).epsilon(2e-2));
}

TEST_CASE("property: turns run away on thrust and slope, stall on scrub and resistance") {
  Brief b = two_turn_brief();
  b.bands = no_bands();
  b.bands.idle_thrust_share = 0.3;
  const auto chances = [&] {
    const UncertaintyAnswer u = answer_of(b);
    REQUIRE(u.turns.size() == 2);
    CHECK(u.turns[0].leg == 1);
    CHECK(u.turns[1].leg == 3);
    return u.turns[0];
  };
  b.route.legs[1].slope_rad = -0.03;  // runs away whatever is drawn
  TurnChance turn = chances();
  CHECK(turn.runs_away == 1.0);
  CHECK(turn.stalls == 0.0);
  b.route.legs[1].slope_rad = 0.03;
  turn = chances();
  CHECK(turn.runs_away == 0.0);
  CHECK(turn.stalls == 1.0);
  // In between some of each; by thrust alone the chance is where the thrust passes.
  double before = 1.0;
  bool between = false;
  for (double slope = -0.02; slope < 0.012; slope += 0.001) {
    b.route.legs[1].slope_rad = slope;
    turn = chances();
    CHECK(turn.runs_away <= before + 0.25);  // the planned entry moves with the slope, too
    between = between || (turn.runs_away > 0.05 && turn.runs_away < 0.95);
    before = turn.runs_away;
  }
  CHECK(between);
  // A run that gets stuck before the second turn says nothing about it.
  b.route.legs[2].slope_rad = 0.2;
  CHECK(answer_of(b).turns.size() == 1);
}

// Uphill every draw slows down, yet in a turn of a few metres none comes down to walking pace.
TEST_CASE("property: a turn that is left while it still moves well is no stall") {
  Brief b = two_turn_brief();
  b.route.legs[1].turn_rad = 0.1;
  b.route.legs[1].slope_rad = 0.02;
  b.route.legs[0].slope_rad = -0.01;
  const UncertaintyAnswer answer = answer_of(b);
  CHECK(answer.turns[0].runs_away == 0.0);
  CHECK(answer.turns[0].stalls == 0.0);
}

TEST_CASE("property: ranking is sorted, within its bounds, and names what was made uncertain") {
  Draws draws(42);
  for (int n = 0; n < 10; ++n) {
    const UncertaintyAnswer u = answer_of(draw_plain_brief(draws));
    for (const Importance* ranking : {u.roll_ranking, u.heat_ranking}) {
      double sum = 0.0;
      bool seen[kUnknowns] = {};
      for (int i = 0; i < kUnknowns; ++i) {
        if (i > 0) CHECK(ranking[i].total <= ranking[i - 1].total);
        CHECK((ranking[i].first >= 0.0 && ranking[i].first <= 1.0));
        CHECK((ranking[i].total >= 0.0 && ranking[i].total <= 1.0));
        CHECK(ranking[i].first <= ranking[i].total + 0.1);
        seen[static_cast<int>(ranking[i].unknown)] = true;
        sum += ranking[i].first;
      }
      CHECK(std::count(seen, seen + kUnknowns, true) == kUnknowns);
      CHECK(sum < 1.15);
    }
  }
  using Member = Band Bands::*;
  constexpr std::pair<Unknown, Member> kRoll[] = {{Unknown::IdleThrust, &Bands::idle_thrust_share},
                                                  {Unknown::Rolling, &Bands::rolling_share},
                                                  {Unknown::Slope, &Bands::slope_rad},
                                                  {Unknown::Wind, &Bands::wind_mps},
                                                  {Unknown::Mass, &Bands::mass_share}};
  constexpr std::pair<Unknown, Member> kHeatOnly[] = {
      {Unknown::BrakesNow, &Bands::brakes_now_k},
      {Unknown::HeatCapacity, &Bands::heat_capacity_share},
      {Unknown::Cooling, &Bands::cooling_share},
      {Unknown::BrakeHeat, &Bands::brake_heat_share},
      {Unknown::Scrub, &Bands::scrub_share}};
  for (const auto& [unknown, member] : kRoll) {
    Brief b = two_turn_brief();
    const Band band = b.bands.*member;
    b.bands = no_bands();
    b.bands.*member = band;
    const UncertaintyAnswer u = answer_of(b);
    CHECK(u.roll_ranking[0].unknown == unknown);
    CHECK(u.roll_ranking[0].first == doctest::Approx(1.0).epsilon(0.02));
    CHECK(u.heat_ranking[0].unknown == unknown);
    CHECK(u.heat_ranking[0].total == doctest::Approx(1.0).epsilon(0.02));
    CHECK(u.heat_ranking[1].total == 0.0);
  }
  for (const auto& [unknown, member] : kHeatOnly) {
    Brief b = two_turn_brief();
    const Band band = b.bands.*member;
    b.bands = no_bands();
    b.bands.*member = band;
    const UncertaintyAnswer u = answer_of(b);
    CHECK(u.roll_ranking[0].total == 0.0);
    CHECK(u.heat_ranking[0].unknown == unknown);
    CHECK(u.heat_ranking[0].first == doctest::Approx(1.0).epsilon(0.02));
  }
  // Two that add up: shares by the square of what each does by itself.
  Brief b = two_turn_brief();
  b.bands = no_bands();
  b.bands.brakes_now_k = 30.0;
  b.bands.brake_heat_share = 0.5;
  const UncertaintyAnswer u = answer_of(b);
  CHECK(of(u.heat_ranking, Unknown::BrakesNow).total +
            of(u.heat_ranking, Unknown::BrakeHeat).total ==
        doctest::Approx(1.0).epsilon(0.03));
}

TEST_CASE("property: what the roll is ranked by where few draws get to the target") {
  Brief b = two_turn_brief();
  CHECK_FALSE(answer_of(b).ranked_at_rest);
  b.condition.mass_kg = 345e3;
  b.route.legs[0].slope_rad = 0.004;
  const UncertaintyAnswer u = answer_of(b);
  CHECK(u.reaches_target < 0.9);
  CHECK(u.ranked_at_rest);
  CHECK(u.roll_ranking[0].total > 0.3);
  CHECK(of(u.roll_ranking, Unknown::Slope).total > 0.0);
  b.route.legs[0].slope_rad = 0.08;  // none gets there
  const UncertaintyAnswer none = answer_of(b);
  CHECK(none.reaches_target == 0.0);
  CHECK(none.time_to_target_s.p50 == 0.0);
  CHECK(none.rolls_by_itself == 0.0);
  CHECK(none.restart_extra_n.p10 > 0.0);
  CHECK(none.restart_over_limit == 1.0);
}
