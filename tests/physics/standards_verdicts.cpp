// Verdicts on published rules: which are given, when they turn, and what they compare.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/card/standards.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/fillet.hpp"
#include "physics/path/taxiway_rules.hpp"
#include "physics/path/track.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

using Tracks = FixedList<TrackAnswer, kMaxLegs>;
using Turns = FixedList<TurnAnswer, kMaxLegs>;

// A code E aircraft on a straight, a turn and a straight.
Brief small_route() {
  Brief brief;
  brief.aircraft.wing_span_m = 62.0;
  brief.aircraft.wheel_span_m = 12.6;
  brief.route.legs.clear();
  Leg straight;
  straight.length_m = 300.0;
  straight.width_m = 25.0;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 50.0;
  arc.turn_rad = 1.4;
  arc.width_m = 24.0;
  Leg last = straight;
  last.width_m = 26.0;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc);
  brief.route.legs.push(last);
  return brief;
}

struct Given {
  Tracks tracks;
  Turns turns;
};

const Given& given(const Brief& brief, double speed_mps) {
  static Given g;
  g.tracks.clear();
  g.turns.clear();
  for (std::size_t i = 0; i < brief.route.legs.size(); ++i) {
    if (brief.route.legs[i].kind != LegKind::Arc) continue;
    g.tracks.push(track_answer(brief, static_cast<int>(i), speed_mps));
    TurnAnswer turn;
    turn.leg = static_cast<int>(i);
    turn.planned_entry_mps = speed_mps;
    g.turns.push(turn);
  }
  return g;
}

StandardsAnswer judged(const Brief& brief, double speed_mps = 5.0) {
  const Given& g = given(brief, speed_mps);
  return standards_answer(brief, g.tracks, g.turns);
}

const RuleVerdict* find(const StandardsAnswer& answer, RuleFamily family, RuleKind kind) {
  for (const RuleVerdict& v : answer.verdicts)
    if (v.family == family && v.kind == kind) return &v;
  return nullptr;
}

RuleVerdict icao(const StandardsAnswer& answer, RuleKind kind) {
  const RuleVerdict* v = find(answer, RuleFamily::Icao, kind);
  REQUIRE(v != nullptr);
  return *v;
}

RuleVerdict faa(const StandardsAnswer& answer, RuleKind kind) {
  const RuleVerdict* v = find(answer, RuleFamily::Faa, kind);
  REQUIRE(v != nullptr);
  return *v;
}

}  // namespace

TEST_CASE("standards: which verdicts there are, and who from memory") {
  Brief brief = small_route();
  StandardsAnswer answer = judged(brief);
  CHECK(answer.code_letter == 'E');
  CHECK(answer.design_group == 5);
  // Width, two slopes; for the turn clearance, fillet, two radii, steering.
  CHECK(answer.verdicts.size() == 8);
  brief.route.parallel_line_m = 80.0;
  brief.route.nearest_object_m = 43.0;
  answer = judged(brief);
  CHECK(answer.verdicts.size() == 12);
  CHECK(answer.verdicts.dropped == 0);
  int not_met = 0;
  for (const RuleVerdict& v : answer.verdicts) {
    not_met += v.met ? 0 : 1;
    const bool separation =
        v.kind == RuleKind::ParallelSeparation || v.kind == RuleKind::ObjectSeparation;
    const bool memory =
        v.family == RuleFamily::Icao && (separation || v.kind == RuleKind::CurveRadius);
    CHECK(v.from_memory == memory);
    const bool of_turn = v.kind == RuleKind::EdgeClearance || v.kind == RuleKind::Fillet ||
                         v.kind == RuleKind::CurveRadius || v.kind == RuleKind::SteeringAngle;
    if (of_turn) CHECK(v.leg == 1);
    if (separation) CHECK(v.leg == -1);
  }
  CHECK(answer.not_met == not_met);
  CHECK(not_met > 0);
}

TEST_CASE("standards: width is judged at the narrowest leg") {
  Brief brief = small_route();
  const RuleVerdict met = icao(judged(brief), RuleKind::TaxiwayWidth);
  CHECK(met.leg == 1);
  CHECK(met.actual == 24.0);
  CHECK(met.wanted == 23.0);
  CHECK(met.met);
  brief.route.legs[2].width_m = 23.0;
  CHECK(icao(judged(brief), RuleKind::TaxiwayWidth).met);
  CHECK(icao(judged(brief), RuleKind::TaxiwayWidth).leg == 2);
  brief.route.legs[2].width_m = 22.99;
  const StandardsAnswer narrow = judged(brief);
  CHECK(!icao(narrow, RuleKind::TaxiwayWidth).met);
  CHECK(find(narrow, RuleFamily::Faa, RuleKind::TaxiwayWidth) == nullptr);
}

TEST_CASE("standards: beyond the table of wheel spans there is no word on wheels") {
  Brief brief = small_route();
  brief.aircraft.wheel_span_m = 15.0;
  const StandardsAnswer answer = judged(brief);
  for (const RuleKind kind : {RuleKind::TaxiwayWidth, RuleKind::EdgeClearance, RuleKind::Fillet})
    CHECK(find(answer, RuleFamily::Icao, kind) == nullptr);
  CHECK(answer.verdicts.size() == 5);
  CHECK(taxiway_width_m(15.0) == 0.0);
  CHECK(wheel_clearance_m(15.0, 30.0, true) == 0.0);
}

TEST_CASE("standards: slope is judged at the steepest leg, up or down") {
  Brief brief = small_route();
  CHECK(icao(judged(brief), RuleKind::Slope).met);
  CHECK(icao(judged(brief), RuleKind::Slope).leg == 0);  // the first of equals
  brief.route.legs[0].slope_rad = std::atan(0.010);
  brief.route.legs[2].slope_rad = -std::atan(0.015);
  StandardsAnswer answer = judged(brief);
  CHECK(icao(answer, RuleKind::Slope).leg == 2);
  CHECK(icao(answer, RuleKind::Slope).actual == doctest::Approx(0.015).epsilon(1e-14));
  CHECK(icao(answer, RuleKind::Slope).wanted == 0.015);
  CHECK(icao(answer, RuleKind::Slope).met);
  CHECK(faa(answer, RuleKind::Slope).met);
  brief.route.legs[2].slope_rad = -std::atan(0.0151);
  CHECK(!icao(judged(brief), RuleKind::Slope).met);
  CHECK(!faa(judged(brief), RuleKind::Slope).met);
  // A small aircraft may climb more: 3 % by ICAO, 2 % by the FAA.
  brief.aircraft.wing_span_m = 20.0;
  answer = judged(brief);
  CHECK(answer.code_letter == 'B');
  CHECK(answer.design_group == 2);
  CHECK(icao(answer, RuleKind::Slope).wanted == 0.03);
  CHECK(faa(answer, RuleKind::Slope).wanted == 0.02);
}

TEST_CASE("standards: separations") {
  Brief brief = small_route();
  CHECK(find(judged(brief), RuleFamily::Icao, RuleKind::ParallelSeparation) == nullptr);
  brief.route.parallel_line_m = 76.0;
  StandardsAnswer answer = judged(brief);
  CHECK(icao(answer, RuleKind::ParallelSeparation).met);
  CHECK(icao(answer, RuleKind::ParallelSeparation).actual == 76.0);
  CHECK(faa(answer, RuleKind::ParallelSeparation).wanted ==
        doctest::Approx(249.5 * 0.3048).epsilon(1e-15));
  CHECK(!faa(answer, RuleKind::ParallelSeparation).met);
  CHECK(find(answer, RuleFamily::Icao, RuleKind::ObjectSeparation) == nullptr);
  brief.route.parallel_line_m = 75.9;
  CHECK(!icao(judged(brief), RuleKind::ParallelSeparation).met);
  brief.route.nearest_object_m = 43.5;
  answer = judged(brief);
  CHECK(icao(answer, RuleKind::ObjectSeparation).met);
  CHECK(icao(answer, RuleKind::ObjectSeparation).wanted == 43.5);
  CHECK(faa(answer, RuleKind::ObjectSeparation).wanted ==
        doctest::Approx(142.5 * 0.3048).epsilon(1e-15));
}

TEST_CASE("standards: edge clearance and fillet of a turn") {
  Brief brief = small_route();
  StandardsAnswer answer = judged(brief);
  const EdgeMargins& margins = track_answer(brief, 1, 5.0).eye_on_line.margins;
  const RuleVerdict edge = icao(answer, RuleKind::EdgeClearance);
  CHECK(edge.wanted == 4.0);
  CHECK(edge.actual == std::min(margins.left_main.margin_m, margins.right_main.margin_m));
  CHECK(edge.met == (edge.actual >= 4.0));
  CHECK(!edge.met);
  const RuleVerdict fillet = icao(answer, RuleKind::Fillet);
  const Fillet method = handbook_fillet({.radius_m = 50.0,
                                         .turn_rad = 1.4,
                                         .eye_ahead_m = brief.aircraft.eye_ahead_m,
                                         .wheelbase_m = brief.aircraft.wheelbase_m,
                                         .wheel_span_m = 12.6,
                                         .margin_m = 4.0,
                                         .width_m = 24.0});
  CHECK(fillet.wanted == method.widening_m);
  CHECK(fillet.wanted > 1.0);
  CHECK(!fillet.met);
  // With that widening, more for the way out of the turn, and a long lead-in both are met, to the
  // left as well.
  brief.route.legs[1].turn_rad = -1.4;
  brief.route.legs[1].widening_m = method.widening_m + 2.0;
  brief.route.legs[1].lead_in_m = 100.0;
  answer = judged(brief);
  CHECK(icao(answer, RuleKind::Fillet).wanted == method.widening_m);
  CHECK(icao(answer, RuleKind::Fillet).met);
  CHECK(icao(answer, RuleKind::EdgeClearance).met);
}

TEST_CASE("standards: curve radius by the planned speed, steering by the lag") {
  Brief brief = small_route();
  const double fast = std::sqrt(0.1315 * units::kGravity_mps2 * 50.0);  // between both loads
  StandardsAnswer answer = judged(brief, fast);
  CHECK(icao(answer, RuleKind::CurveRadius).met);
  CHECK(!faa(answer, RuleKind::CurveRadius).met);
  CHECK(faa(answer, RuleKind::CurveRadius).actual == 50.0);
  CHECK(faa(answer, RuleKind::CurveRadius).wanted ==
        doctest::Approx(50.0 * 0.1315 / 0.13).epsilon(1e-12));
  answer = judged(brief, std::sqrt(0.1335 * units::kGravity_mps2 * 50.0));
  CHECK(!icao(answer, RuleKind::CurveRadius).met);
  CHECK(faa(answer, RuleKind::SteeringAngle).met);
  CHECK(find(answer, RuleFamily::Icao, RuleKind::SteeringAngle) == nullptr);
  brief.route.legs[1].radius_m = 30.0;
  brief.route.legs[1].turn_rad = 2.8;
  answer = judged(brief, 3.0);
  const RuleVerdict steering = faa(answer, RuleKind::SteeringAngle);
  CHECK(steering.actual == track_answer(brief, 1, 3.0).eye_on_line.steering_rad);
  CHECK(steering.actual > kDesignSteering_rad);
  CHECK(!steering.met);
}

TEST_CASE("standards: the longest chain of turns fits into the list") {
  Brief brief = small_route();
  brief.route.legs.clear();
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = 60.0;
  arc.turn_rad = 0.2;
  for (int i = 0; i < kMaxLegs; ++i) brief.route.legs.push(arc);
  brief.route.parallel_line_m = 80.0;
  brief.route.nearest_object_m = 45.0;
  const StandardsAnswer answer = judged(brief);
  CHECK(answer.verdicts.dropped == 0);
  CHECK(answer.verdicts.size() == 3 + 4 + 5 * kMaxLegs);
}

TEST_CASE("standards: a fillet grows with the turn, the length and the wheel span") {
  const FilletInputs usual;
  const Fillet fillet = handbook_fillet(usual);
  FilletInputs more = usual;
  more.turn_rad = 2.0;
  CHECK(handbook_fillet(more).widening_m > fillet.widening_m);
  CHECK(handbook_fillet(more).lead_in_m > fillet.lead_in_m);
  more = usual;
  more.eye_ahead_m += 2.0;
  CHECK(handbook_fillet(more).widening_m > fillet.widening_m);
  more = usual;
  more.wheel_span_m += 1.0;
  CHECK(handbook_fillet(more).widening_m ==
        doctest::Approx(fillet.widening_m + 0.5).epsilon(1e-13));
  more = usual;
  more.margin_m += 0.5;
  CHECK(handbook_fillet(more).radius_m == doctest::Approx(fillet.radius_m - 0.5).epsilon(1e-13));
  more = usual;
  more.width_m += 1.0;
  CHECK(handbook_fillet(more).widening_m ==
        doctest::Approx(fillet.widening_m - 0.5).epsilon(1e-13));
  // Where the straight leaves nothing over, no lead-in is long enough; where it leaves plenty, none
  // is needed, nor a widening.
  more = usual;
  more.width_m = usual.wheel_span_m + 2.0 * usual.margin_m;
  CHECK(handbook_fillet(more).lead_in_m == 1e9);
  more.width_m = 200.0;
  CHECK(handbook_fillet(more).lead_in_m == 0.0);
  CHECK(handbook_fillet(more).widening_m == 0.0);
  // In proportion.
  FilletInputs twice = usual;
  for (double* length : {&twice.radius_m, &twice.eye_ahead_m, &twice.wheelbase_m,
                         &twice.wheel_span_m, &twice.margin_m, &twice.width_m})
    *length *= 2.0;
  CHECK(handbook_fillet(twice).widening_m ==
        doctest::Approx(2.0 * fillet.widening_m).epsilon(1e-13));
  CHECK(handbook_fillet(twice).lead_in_m == doctest::Approx(2.0 * fillet.lead_in_m).epsilon(1e-12));
  CHECK(handbook_fillet(twice).steering_rad == doctest::Approx(fillet.steering_rad).epsilon(1e-14));
}
