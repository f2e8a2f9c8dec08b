// Properties of the published rules: bands are closed below and open above, numbers only grow with
// size, parts add up, and a verdict is about the fastest place of a turn.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/card/standards.hpp"
#include "physics/path/taxiway_rules.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

TEST_CASE("property: letter and group never fall with span, and change where the tables say") {
  char letter = 'A';
  int group = 1, letters = 0, groups = 0;
  for (double span = 1.0; span < 120.0; span += 0.01) {
    const char next = code_letter(span);
    const int next_group = design_group(span);
    CHECK(next >= letter);
    CHECK(next_group >= group);
    letters += next != letter;
    groups += next_group != group;
    letter = next;
    group = next_group;
  }
  CHECK(letters == 5);
  CHECK(groups == 5);
  CHECK(letter == 'F');
  CHECK(group == 6);
  // At the upper end of a band the next one begins.
  const double ends_m[] = {15.0, 24.0, 36.0, 52.0, 65.0};
  const double ends_ft[] = {49.0, 79.0, 118.0, 171.0, 214.0};
  for (int i = 0; i < 5; ++i) {
    CHECK(code_letter(ends_m[i]) == 'A' + i + 1);
    CHECK(code_letter(ends_m[i] - 1e-9) == 'A' + i);
    CHECK(design_group(ends_ft[i] * 0.3048 + 1e-9) == i + 2);
    CHECK(design_group(ends_ft[i] * 0.3048 - 1e-9) == i + 1);
  }
}

TEST_CASE("property: wider gear asks for wider taxiways, and the clearance fits on both sides") {
  double width = 0.0, clearance = 0.0;
  for (double span = 0.5; span < 15.0; span += 0.01) {
    const double here = taxiway_width_m(span);
    const double straight = wheel_clearance_m(span, 30.0, false);
    CHECK(here >= width);
    CHECK(straight >= clearance);
    CHECK(here - span >= 2.0 * straight - 1e-12);
    // In curves never less; the wheelbase counts for spans of 6 to 9 m only.
    const double curve = wheel_clearance_m(span, 18.0, true);
    const double short_curve = wheel_clearance_m(span, 17.99, true);
    CHECK(curve >= straight);
    CHECK(short_curve == straight);
    CHECK((curve > straight) == (span >= 6.0 && span < 9.0));
    CHECK(wheel_clearance_m(span, 18.0, false) == straight);
    width = here;
    clearance = straight;
  }
  CHECK(taxiway_width_m(15.0) == 0.0);
  CHECK(wheel_clearance_m(15.0, 30.0, true) == 0.0);
}

TEST_CASE("property: separations grow with size, and an object may be nearer than a taxiway") {
  for (char letter = 'A'; letter <= 'F'; ++letter) {
    CHECK(icao_object_separation_m(letter) < icao_parallel_separation_m(letter));
    CHECK(icao_slope_limit(letter) == (letter <= 'B' ? 0.03 : 0.015));
    if (letter == 'A') continue;
    const char smaller = static_cast<char>(letter - 1);
    CHECK(icao_parallel_separation_m(letter) > icao_parallel_separation_m(smaller));
    CHECK(icao_object_separation_m(letter) > icao_object_separation_m(smaller));
    CHECK(icao_slope_limit(letter) <= icao_slope_limit(smaller));
  }
  for (int group = 1; group <= 6; ++group) {
    CHECK(faa_object_separation_m(group) < faa_parallel_separation_m(group));
    if (group == 1) continue;
    CHECK(faa_parallel_separation_m(group) > faa_parallel_separation_m(group - 1));
    CHECK(faa_object_separation_m(group) > faa_object_separation_m(group - 1));
    CHECK(faa_slope_limit(group) <= faa_slope_limit(group - 1));
  }
  CHECK(faa_slope_limit(2) > faa_slope_limit(3));
}

TEST_CASE("property: a curve's radius goes with the square of the speed and against the load") {
  Draws draws(602);
  Worst scaled;
  for (int i = 0; i < 2000; ++i) {
    const double v = draws.between(0.5, 25.0), f = draws.between(0.05, 0.3);
    const double r = curve_radius_m(v, f);
    scaled.note(curve_radius_m(3.0 * v, f) / r - 9.0, i);
    scaled.note(curve_radius_m(v, 2.0 * f) / r - 0.5, i);
    scaled.note(v * v / r / 9.80665 - f, i);
  }
  CHECK(scaled.error < 1e-12);
}

TEST_CASE("property: a verdict on a curve is about its fastest place") {
  Draws draws(603);
  Brief brief = draw_plain_brief(draws);
  while (brief.route.legs.size() < 3) brief = draw_plain_brief(draws);
  FixedList<TurnAnswer, kMaxLegs> turns;
  FixedList<TrackAnswer, kMaxLegs> tracks;
  for (std::size_t i = 0; i < brief.route.legs.size(); ++i) {
    if (brief.route.legs[i].kind != LegKind::Arc) continue;
    TurnAnswer turn;
    turn.leg = static_cast<int>(i);
    turn.planned_entry_mps = 4.0;
    turn.peak_mps = draws.between(3.0, 9.0);
    turns.push(turn);
    tracks.push(track_answer(brief, turn.leg, 4.0));
  }
  REQUIRE(!turns.empty());
  const StandardsAnswer answer = standards_answer(brief, tracks, turns);
  std::size_t seen = 0;
  for (const RuleVerdict& verdict : answer.verdicts) {
    if (verdict.kind != RuleKind::CurveRadius) continue;
    const double fastest = std::max(4.0, turns[seen / 2].peak_mps);
    const double load = verdict.family == RuleFamily::Icao ? kIcaoCurveLoad_g : kFaaCurveLoad_g;
    CHECK(verdict.wanted == doctest::Approx(curve_radius_m(fastest, load)).epsilon(1e-12));
    CHECK(verdict.met == (verdict.actual >= verdict.wanted - 1e-9));
    ++seen;
  }
  CHECK(seen == 2 * turns.size());
}
