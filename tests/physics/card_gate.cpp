// The gate of the card: over random briefs and corners of what a document may hold, every number is
// finite or taken back with a reason, percentiles rise, chances are shares, brakes keep within
// physics. What it looks at is listed here anew (every_number.hpp), not asked of the gate.
#include "physics/card/card_gate.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <memory>
#include <string>

#include "documents/fields.hpp"
#include "every_number.hpp"
#include "made_card.hpp"
#include "physics/card/compute_card.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/make_today.hpp"
#include "physics/run/roll_answer.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "scenarios.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

Card& card() {
  static Card one;
  return one;
}

bool withheld_for(const Card& c, WithheldReason reason) {
  return std::any_of(c.withheld.begin(), c.withheld.end(),
                     [reason](const Withheld& item) { return item.reason == reason; });
}

template <class F>
void every_brake_temperature(const Card& c, F f) {
  for (const double k :
       {c.heat.start_k, c.heat.end_k, c.heat.peak_k, c.heat.hottest.start.pack_k,
        c.heat.hottest.start.indicated_k, c.heat.hottest.at_stop.pack_k,
        c.heat.hottest.at_stop.indicated_k, c.heat.hottest.on_way_k, c.heat.hottest.highest_k,
        c.run.peak_brake_k, c.run.end_brake_k, c.uncertainty.line_up_k.p10,
        c.uncertainty.line_up_k.p50, c.uncertainty.line_up_k.p90})
    f(k);
  for (const TechniqueCost& t : c.heat.techniques) f(t.peak_k), f(t.end_k), f(t.hottest_k);
  for (const LegResult& leg : c.run.legs) f(leg.brake_end_k);
  for (const Piece& piece : c.run.pieces) f(piece.brake_start_k), f(piece.brake_end_k);
  for (const EngineChoice& row : c.engines.rows) f(row.peak_k), f(row.end_k), f(row.hottest_k);
  for (const BrakeTimes* b : {&c.after_landing.mean, &c.after_landing.worst})
    for (const double k : {b->after_stop_k, b->at_stand_k, b->off_stand_k, b->line_up_k, b->peak_k,
                           b->off_stand_indicated_k, b->line_up_indicated_k})
      f(k);
  for (const HeatPoint& point : c.after_landing.points)
    f(point.mean_k), f(point.worst_k), f(point.indicated_k);
}

struct Tally {
  int briefs = 0;
  int drawn = 0;
  int withheld[kWithheldReasons] = {};  // cards, by reason
  std::string wrong;                    // the first thing that is
};

void look_at(const Brief& brief, const Card& c, Tally& tally) {
  const auto wrong = [&](const std::string& what) {
    if (tally.wrong.empty()) tally.wrong = what + " in brief " + std::to_string(tally.briefs);
  };
  bool missing = false;
  every_number(c, [&](const char*, double x) { missing = missing || !std::isfinite(x); });
  if (missing && c.withheld.empty()) wrong("a number is missing without a reason");
  for (int reason = 0; reason < kWithheldReasons; ++reason)
    if (withheld_for(c, static_cast<WithheldReason>(reason))) ++tally.withheld[reason];
  // A wheelbase of a few metres with a turn axis further ahead than that: such an aircraft cannot
  // turn, and the card says that it is not computed.
  const bool no_aircraft =
      std::any_of(c.tracks.begin(), c.tracks.end(), [&](const TrackAnswer& track) {
        return track.turn_axis_ahead_m >=
               std::min(brief.aircraft.wheelbase_m, brief.aircraft.eye_ahead_m);
      });
  for (const Withheld& item : c.withheld)
    if (item.reason == WithheldReason::NotFinite && !(no_aircraft && item.what[0] == 't'))
      wrong(item.what);
  if (withheld_for(c, WithheldReason::TooCold)) wrong("a brake colder than air and start");
  if (withheld_for(c, WithheldReason::OutOfOrder)) wrong("percentiles out of order");

  const double began_k = brief.turnaround.included
                             ? std::min(c.air.temperature_k, brief.turnaround.brakes_at_touchdown_k)
                             : brief.condition.brake_temperature_k;
  // Above the air a pack is hotter than it reads, and its band as much wider.
  const double probe_share = brief.limits.brake_reading == BrakeReading::HeatPack ? 1.0
                             : brief.condition.fans_on && brief.aircraft.fan_convection_wpm2k > 0.0
                                 ? brief.aircraft.probe_share_fans
                                 : brief.aircraft.probe_share;
  const double coldest_k =
      std::min(c.air.temperature_k, began_k - brief.bands.brakes_now_k.below / probe_share) - 1e-6;
  const bool carbon = brief.aircraft.brake_material == BrakeMaterial::Carbon;
  const double hottest_k = 273.15 + (carbon ? 2000.0 : 1200.0);
  int hidden = 0;
  if (c.uncertainty.draws > 0) {
    every_brake_temperature(c, [&](double k) {
      if (std::isnan(k)) ++hidden;
      if (k < coldest_k || k > hottest_k) wrong("a brake out of physics");
    });
    const UncertaintyAnswer& u = c.uncertainty;
    for (const Spread* s :
         {&u.time_to_target_s, &u.distance_to_target_m, &u.keeps_rolling_slope_rad,
          &u.restarts_slope_rad, &u.line_up_k, &u.restart_extra_n})
      if (s->p10 > s->p50 || s->p50 > s->p90) wrong("percentiles out of order");
    for (const double share :
         {u.rolls_by_itself, u.reaches_target, u.over_brake_limit, u.restart_over_limit})
      if (share < 0.0 || share > 1.0) wrong("a chance that is none");
  }
  if (hidden > 0 && !withheld_for(c, WithheldReason::TooHot)) wrong("a brake without a reason");
  ++tally.briefs;
  if (c.uncertainty.draws > 0) ++tally.drawn;
}

bool within(double value, FieldRange range) {
  return value >= range.minimum - 1e-9 && value <= range.maximum + 1e-9;
}

void set_at_random(Draws& draws, const Field& field, Brief& brief) {
  const FieldRange range = field_range(field, brief);
  const int kind = draws.below(4);
  double value = kind == 0   ? range.minimum
                 : kind == 1 ? range.maximum
                             : draws.between(range.minimum, range.maximum);
  if (field.spec.whole) value = std::clamp(std::round(value), range.minimum, range.maximum);
  field.set(brief, value);
}

// A brief beside one that documents hold: a dozen fields anew, each as often as not at an end of
// its range. False where others then leave theirs, so that documents would not hold it.
bool varied(Draws& draws, Brief& brief) {
  const auto fields = brief_fields();
  for (int i = 0; i < 12; ++i)
    set_at_random(draws,
                  fields[static_cast<std::size_t>(draws.below(static_cast<int>(fields.size())))],
                  brief);
  return std::all_of(fields.begin(), fields.end(), [&](const Field& field) {
    return within(field.get(brief), field_range(field, brief));
  });
}

Leg leg_of(Draws& draws, LegKind kind) {
  Leg leg;
  leg.kind = kind;
  leg.slope_rad = draws.between(-0.03, 0.03);
  if (kind == LegKind::Straight) {
    leg.length_m = draws.by_size(10.0, 3000.0);
    return leg;
  }
  leg.radius_m = draws.by_size(10.0, 1000.0);
  const double turn_deg = draws.below(8) == 0 ? 180.0 : draws.between(kSmallestTurn_deg, 180.0);
  leg.turn_rad = draws.sign() * units::radians_from_degrees(turn_deg);
  return leg;
}

// Mostly short, so that many can be looked at.
void short_route(Draws& draws, TaxiRoute& route) {
  route.legs.clear();
  route.legs.push(leg_of(draws, LegKind::Straight));
  if (draws.below(6) != 0) return;
  route.legs.push(leg_of(draws, LegKind::Arc));
  route.legs.push(leg_of(draws, LegKind::Straight));
}

void look_over(int bases, int each, Uncertainty uncertainty, std::uint64_t seed, Tally& tally) {
  Draws draws(seed);
  for (int i = 0; i < bases; ++i) {
    const Brief base = random_brief(draws).brief;
    compute_card(base, card(), uncertainty);
    look_at(base, card(), tally);
    for (int k = 1; k < each; ++k) {
      Brief brief;
      do {
        brief = base;
        short_route(draws, brief.route);
      } while (!varied(draws, brief));
      // Few of its variants, too.
      if (k % 16 != 0 && Technique::is_between(brief.technique.turning))
        brief.technique.turning = static_cast<TurnTechnique>(draws.below(2));
      compute_card(brief, card(), uncertainty);
      look_at(brief, card(), tally);
    }
  }
}

Brief one_turn() {
  Brief brief;
  Leg straight;
  straight.length_m = 600.0;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 60.0;
  arc.turn_rad = 1.2;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc);
  brief.route.legs.push(straight);
  return brief;
}

bool says(const Card& c, CautionKind kind) {
  return std::any_of(c.cautions.begin(), c.cautions.end(),
                     [kind](const Caution& caution) { return caution.kind == kind; });
}

}  // namespace

TEST_CASE("gate: random and corner briefs give nothing that cannot be so") {
  Tally tally;
  look_over(scaled_draws(1000), 100, Uncertainty::LeftOut, 20261127, tally);
  look_over(scaled_draws(200), 10, Uncertainty::Drawn, 20261128, tally);
  CHECK(tally.wrong == "");
  CHECK(tally.withheld[static_cast<int>(WithheldReason::NoCrossing)] > 0);
  CHECK(tally.withheld[static_cast<int>(WithheldReason::TooHot)] > 0);
  std::printf(
      "gate: %d random and corner briefs, %d of them with all draws; withheld: %d too hot, "
      "%d without a crossing, %d else\n",
      tally.briefs, tally.drawn, tally.withheld[static_cast<int>(WithheldReason::TooHot)],
      tally.withheld[static_cast<int>(WithheldReason::NoCrossing)],
      tally.withheld[static_cast<int>(WithheldReason::NotFinite)] +
          tally.withheld[static_cast<int>(WithheldReason::OutOfOrder)] +
          tally.withheld[static_cast<int>(WithheldReason::TooCold)]);
}

TEST_CASE("gate: a sound card passes as it is") {
  const MadeCard made(one_turn());
  CHECK(made.card->withheld.empty());
  const auto again_card = std::make_unique<Card>(*made.card);
  Card& again = *again_card;
  gate_card(one_turn(), again);
  CHECK(again.withheld.empty());
  CHECK(again.heat.end_k == made.card->heat.end_k);
  CHECK(again.uncertainty.over_brake_limit == made.card->uncertainty.over_brake_limit);
}

TEST_CASE("gate: brakes beyond what a pack bears are not computed, and the card says so") {
  for (const BrakeMaterial material : {BrakeMaterial::Carbon, BrakeMaterial::Steel}) {
    const double hottest_k = 273.15 + (material == BrakeMaterial::Carbon ? 2000.0 : 1200.0);
    const MadeCard made(one_turn());
    Brief brief = one_turn();
    brief.aircraft.brake_material = material;
    const auto one_card = std::make_unique<Card>(*made.card);
    Card& one = *one_card;
    one.heat.peak_k = one.heat.hottest.highest_k = hottest_k;  // that is borne yet
    gate_card(brief, one);
    CHECK(one.withheld.empty());
    one.heat.peak_k = std::nextafter(hottest_k, 1e9);
    gate_card(brief, one);
    CHECK(std::isnan(one.heat.peak_k));
    CHECK(std::isnan(one.heat.rise_k));
    CHECK(one.heat.hottest.highest_k == hottest_k);
    CHECK(std::isfinite(one.heat.wait_s));
    REQUIRE(one.withheld.size() == 1);
    CHECK(one.withheld[0].reason == WithheldReason::TooHot);
    CHECK(withheld_for(one, WithheldReason::TooHot));
    CHECK(!withheld_for(one, WithheldReason::TooCold));
  }
  // Light packs on a long way down.
  Brief hot = one_turn();
  hot.aircraft.heat_pack_mass_kg = 3.0;
  hot.aircraft.brake_area_m2 = 0.05;
  hot.aircraft.brake_emissivity = 0.1;
  for (Leg& leg : hot.route.legs) leg.slope_rad = -0.03;
  hot.route.legs[0].length_m = 3000.0;
  const MadeCard made(hot);
  CHECK(says(*made.card, CautionKind::BrakesBeyondModel));
  CHECK(!says(*made.card, CautionKind::BrakesTooHot));
  CHECK(!made.card->possible);
  CHECK(!made.card->heat.within_limit);
  CHECK(std::isnan(made.card->heat.wait_s));
  CHECK(heat_band(make_today(hot), hot.route, hot.bands, made.card->turns, made.card->run).empty());
}

TEST_CASE("gate: what is not a number is named, with what hangs on it") {
  const MadeCard made(one_turn());
  const auto one_card = std::make_unique<Card>(*made.card);
  Card& one = *one_card;
  one.uncertainty.line_up_k.p10 = kNone;
  one.uncertainty.restart_extra_n.p90 = HUGE_VAL;
  one.turns[0].peak_mps = HUGE_VAL;
  gate_card(one_turn(), one);
  CHECK(std::isnan(one.uncertainty.line_up_k.p90));
  CHECK(std::isnan(one.uncertainty.over_brake_limit));
  CHECK(std::isnan(one.uncertainty.restart_over_limit));
  CHECK(std::isnan(one.turns[0].peak_mps));
  CHECK(one.uncertainty.rolls_by_itself == made.card->uncertainty.rolls_by_itself);
  CHECK(withheld_for(one, WithheldReason::NotFinite));
  REQUIRE(one.withheld.size() == 5);
  CHECK(one.withheld[0].leg == 1);

  const auto order_card = std::make_unique<Card>(*made.card);
  Card& order = *order_card;
  std::swap(order.uncertainty.keeps_rolling_slope_rad.p10,
            order.uncertainty.keeps_rolling_slope_rad.p90);
  order.uncertainty.over_brake_limit = 1.5;
  gate_card(one_turn(), order);
  CHECK(std::isnan(order.uncertainty.rolls_by_itself));
  CHECK(std::isnan(order.uncertainty.turns[0].stalls));
  CHECK(std::isnan(order.uncertainty.over_brake_limit));
  CHECK(withheld_for(order, WithheldReason::OutOfOrder));
}

TEST_CASE("gate: one number that is none takes back its kind and what hangs on it, no more") {
  const MadeCard made(one_turn());
  const auto gated = [&](auto damage) {
    auto one = std::make_unique<Card>(*made.card);
    damage(*one);
    gate_card(one_turn(), *one);
    return one;
  };
  const auto middle = gated([](Card& c) { c.uncertainty.line_up_k.p50 = kNone; });
  CHECK(std::isnan(middle->uncertainty.line_up_k.p10));
  CHECK(std::isnan(middle->uncertainty.over_brake_limit));
  CHECK(!std::isnan(middle->uncertainty.rolls_by_itself));
  const auto hottest = gated([](Card& c) { c.uncertainty.hottest_k.p50 = kNone; });
  CHECK(std::isnan(hottest->uncertainty.over_brake_limit));
  CHECK(!std::isnan(hottest->uncertainty.line_up_k.p10));
  CHECK(withheld_for(*hottest, WithheldReason::NotFinite));
  const auto upper = gated([](Card& c) {
    std::swap(c.uncertainty.restart_extra_n.p50, c.uncertainty.restart_extra_n.p90);
  });
  CHECK(std::isnan(upper->uncertainty.restart_extra_n.p10));
  CHECK(withheld_for(*upper, WithheldReason::OutOfOrder));
  const auto starts = gated([](Card& c) { c.uncertainty.restarts_slope_rad.p10 = -HUGE_VAL; });
  CHECK(std::isnan(starts->uncertainty.rolls_by_itself));
  CHECK(!std::isnan(starts->uncertainty.over_brake_limit));
  const auto negative = gated([](Card& c) { c.uncertainty.over_brake_limit = -0.1; });
  CHECK(std::isnan(negative->uncertainty.over_brake_limit));
  CHECK(withheld_for(*negative, WithheldReason::OutOfOrder));
  const auto none = gated([](Card& c) { c.uncertainty.over_brake_limit = kNone; });
  CHECK(withheld_for(*none, WithheldReason::NotFinite));
  CHECK(!withheld_for(*none, WithheldReason::OutOfOrder));
  const auto edge = gated([](Card& c) { c.tracks[0].eye_on_line.margins.nose.margin_m = kNone; });
  CHECK(std::isnan(edge->wander[0].eye_on_line.off_edge));
  CHECK(std::isnan(edge->wander[0].eye_on_line.below_clearance));
  CHECK(!std::isnan(edge->wander[0].gear_on_line.off_edge));
  const auto wander = gated([](Card& c) { c.wander[0].gear_on_line.off_edge = 1.1; });
  CHECK(withheld_for(*wander, WithheldReason::OutOfOrder));
  const auto brakes = gated([](Card& c) { c.heat.hottest.highest_k = HUGE_VAL; });
  CHECK(std::isnan(brakes->heat.hottest.highest_k));
  CHECK(std::isnan(brakes->heat.hottest.highest_s));
  CHECK(std::isnan(brakes->heat.wait_s));
  CHECK(brakes->heat.peak_k == made.card->heat.peak_k);
  CHECK(withheld_for(*brakes, WithheldReason::NotFinite));
}

TEST_CASE("gate: no brake is colder than the air and its start") {
  Brief brief = one_turn();
  brief.condition.brake_temperature_k = 270.0;  // read below the air's: as the pack is
  brief.bands.brakes_now_k.below = 17.0;
  const MadeCard made(brief);
  REQUIRE(made.card->withheld.empty());
  const double coldest_k = 270.0 - 17.0 / brief.aircraft.probe_share;
  const auto one_card = std::make_unique<Card>(*made.card);
  Card& one = *one_card;
  one.engines.rows[0].end_k = coldest_k;
  gate_card(brief, one);
  CHECK(one.withheld.empty());
  one.engines.rows[0].end_k = coldest_k - 0.001;
  gate_card(brief, one);
  CHECK(std::isnan(one.engines.rows[0].end_k));
  CHECK(withheld_for(one, WithheldReason::TooCold));
}

TEST_CASE(
    "gate: the coldest of a turnaround is the air or the brakes at touchdown, less the band") {
  const MadeCard made(one_turn());
  Brief brief = one_turn();
  brief.bands.brakes_now_k.below = 7.0;
  brief.turnaround.included = true;
  for (const double touchdown_k : {260.0, 500.0}) {
    brief.turnaround.brakes_at_touchdown_k = touchdown_k;
    const double coldest_k =
        std::min(touchdown_k, made.card->air.temperature_k) - 7.0 / brief.aircraft.probe_share;
    const auto one_card = std::make_unique<Card>(*made.card);
    Card& one = *one_card;
    one.after_landing.mean.at_stand_k = coldest_k;
    gate_card(brief, one);
    CHECK(one.withheld.empty());
    one.after_landing.mean.at_stand_k = coldest_k - 0.001;
    gate_card(brief, one);
    CHECK(withheld_for(one, WithheldReason::TooCold));
  }
}

TEST_CASE("gate: parallel lines have no crossing, and the card says so") {
  Brief brief = one_turn();
  brief.route.legs[1].turn_rad = units::radians_from_degrees(180.0);
  const MadeCard made(brief);
  const TrackAnswer& track = made.card->tracks[0];
  CHECK(std::isnan(track.eye_on_line.eye_past_crossing_m));
  CHECK(std::isnan(track.gear_on_line.eye_past_crossing_m));
  CHECK(std::isnan(track.crossing.nose_past_crossing_m));
  CHECK(std::isfinite(track.gear_on_line.start_before_arc_m));
  REQUIRE(made.card->withheld.size() == 1);
  CHECK(made.card->withheld[0].reason == WithheldReason::NoCrossing);
  CHECK(made.card->withheld[0].leg == 1);
  CHECK(!says(*made.card, CautionKind::NotComputed));
  brief.route.legs[1].turn_rad = units::radians_from_degrees(174.9);
  CHECK(MadeCard(brief).card->withheld.empty());
}

TEST_CASE("gate: what a start takes in snow or slush is not computed, and the card says so") {
  for (const Surface surface : {Surface::Slush, Surface::WetSnow, Surface::DrySnow}) {
    Brief brief = one_turn();
    brief.day.surface = surface;
    brief.day.contaminant_depth_m = 0.02;
    const MadeCard made(brief);
    const Card& c = *made.card;
    REQUIRE(c.withheld.size() == 1);
    CHECK(withheld_for(c, WithheldReason::NotModelled));
    CHECK(c.roll.verdict == RollVerdict::StartNotKnown);
    const TurnAnswer& turn = c.turns[0];
    const UncertaintyAnswer& u = c.uncertainty;
    for (const double hidden :
         {c.roll.breakaway_margin_n, c.roll.restarts_slope_rad, c.roll.start_thrust_n,
          c.roll.extra_thrust_n, turn.restart_thrust_n, turn.restart_extra_thrust_n,
          c.engines.rows[0].restart_margin_n, c.blast.restart_n, c.blast.growth,
          c.blast.restart[1].single_m, c.blast.restart[1].merged_m, c.blast.restart[1].ground_m,
          u.restarts_slope_rad.p50, u.restart_extra_n.p50, u.rolls_by_itself, u.restart_over_limit})
      CHECK(std::isnan(hidden));
    CHECK(!turn.restarts_at_idle);
    CHECK(!turn.restarts_at_idle_straight);
    CHECK(!c.restart.idle_everywhere);
    CHECK(c.restart.points.empty());
    CHECK(c.restart.worst == -1);
    // What holds once it rolls stays.
    for (const double known :
         {c.roll.acceleration_mps2, c.roll.keeps_rolling_slope_rad, c.run.duration_s, c.heat.end_k,
          c.blast.idle_n, c.blast.idle[1].ground_m, u.reaches_target})
      CHECK(std::isfinite(known));
    CHECK(says(c, CautionKind::StartNotKnown));
    CHECK(!says(c, CautionKind::NotComputed));
    CHECK(!says(c, CautionKind::NeedsPushToStart));
    CHECK(!says(c, CautionKind::NoRestartInTurn));
    // As it is without any draws.
    const auto plain_card = std::make_unique<Card>();
    Card& plain = *plain_card;
    compute_card(brief, plain, Uncertainty::LeftOut);
    CHECK(plain.withheld.size() == 1);
    // A thin layer is wet, and deep water is not packed.
    brief.day.contaminant_depth_m = 0.003;
    CHECK(MadeCard(brief).card->withheld.empty());
    brief.day.contaminant_depth_m = 0.02;
    brief.day.surface = Surface::StandingWater;
    const MadeCard water(brief);
    CHECK(water.card->withheld.empty());
    CHECK(!says(*water.card, CautionKind::StartNotKnown));
  }
}

TEST_CASE("gate: the map of the roll in slush starts wherever it then keeps rolling") {
  Brief brief = one_turn();
  brief.day.surface = Surface::Slush;
  brief.day.contaminant_depth_m = 0.02;
  const Today today = make_today(brief);
  const RollMap map = roll_map(today, make_legs(today, brief.route), units::mps_from_knots(5.0));
  brief.day.surface = Surface::StandingWater;
  const Today water = make_today(brief);
  const RollMap with_start =
      roll_map(water, make_legs(water, brief.route), units::mps_from_knots(5.0));
  int only_once_moving = 0;
  for (int column = 0; column < kMapColumns; ++column) {
    CHECK(map.restarts_slope_rad[column] == map.keeps_rolling_slope_rad[column]);
    CHECK(with_start.restarts_slope_rad[column] < with_start.keeps_rolling_slope_rad[column]);
    for (int row = 0; row < kMapRows; ++row)
      if (map.time_s[row][column] > 0.0 && with_start.time_s[row][column] < 0.0) ++only_once_moving;
  }
  CHECK(only_once_moving > 0);
}
