// The point on the line as a technique: the card follows it everywhere, chosen turn by turn or
// given, and the nose outside least is the end of the band of points.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "made_card.hpp"
#include "physics/path/followed_point.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// Two turns of a narrow taxiway with little extra pavement.
Brief two_turns(double widening_m) {
  Leg straight;
  straight.length_m = 300.0;
  straight.width_m = 23.0;
  Leg right;
  right.kind = LegKind::Arc;
  right.radius_m = 45.0;
  right.turn_rad = 1.5;
  right.width_m = 23.0;
  right.widening_m = widening_m;
  right.lead_in_m = 60.0;
  Leg left = right;
  left.radius_m = 60.0;
  left.turn_rad = -0.9;
  Brief brief;
  brief.route.legs.clear();
  for (const Leg& leg : {straight, right, straight, left, straight}) brief.route.legs.push(leg);
  brief.limits.nose_clearance_m = 2.5;
  return brief;
}

double nose_m(const TrackPlan& plan) { return plan.margins.nose.margin_m; }

bool keeps(const TrackPlan& plan, const Limits& limits) {
  return plan.possible && nose_m(plan) >= limits.nose_clearance_m &&
         plan.margins.least_main_m() >= limits.edge_clearance_m;
}

bool any_edge_caution(const Card& card) {
  return std::any_of(card.cautions.begin(), card.cautions.end(), [](const Caution& c) {
    return c.kind == CautionKind::EdgeMarginSmall || c.kind == CautionKind::NoseMarginSmall ||
           c.kind == CautionKind::WheelOffPavement;
  });
}

}  // namespace

TEST_CASE("point as technique: the point chosen keeps what neither eye nor main gear keep") {
  Brief brief = two_turns(6.0);
  for (const TurnTechnique turning : {TurnTechnique::EyeOnLine, TurnTechnique::MainGearOnLine}) {
    brief.technique.turning = turning;
    const MadeCard made(brief);
    CHECK(any_edge_caution(*made.card));
    for (const TrackAnswer& track : made.card->tracks) CHECK(track.point_on_line.samples == 0);
  }
  brief.technique.turning = TurnTechnique::BestPointOnLine;
  const MadeCard best(brief);
  brief.technique.turning = TurnTechnique::LeastOutside;
  const MadeCard least(brief);
  CHECK_FALSE(any_edge_caution(*best.card));
  CHECK_FALSE(any_edge_caution(*least.card));
  for (std::size_t i = 0; i < best.card->tracks.size(); ++i) {
    const TrackAnswer& track = best.card->tracks[i];
    const TrackPlan& plan = track.plan(TurnTechnique::BestPointOnLine);
    CHECK(plan.technique == TurnTechnique::BestPointOnLine);
    CHECK(keeps(plan, brief.limits));
    CHECK(plan.followed_ahead_m == track.followed.ahead_m);
    CHECK(plan.followed_behind_eye_m ==
          doctest::Approx(track.followed.eye_m - track.followed.ahead_m).epsilon(1e-14));
    CHECK(track.followed.keeps_all);
    const TrackPlan& other = least.card->tracks[i].plan(TurnTechnique::LeastOutside);
    CHECK(keeps(other, brief.limits));
    CHECK(other.nose_overshoot_m < plan.nose_overshoot_m);
    CHECK(other.followed_ahead_m == least.card->tracks[i].followed.high_m);
    // The loads are those of a circle between the line's and the eye's, where the turn is so long
    // that the eye's is tighter.
    const TurnAnswer& turn = best.card->turns[i];
    brief.technique.turning = TurnTechnique::EyeOnLine;
    const MadeCard by_eye(brief);
    CHECK(turn.rolling_radius_m <= turn.radius_m);
    if (i == 0) {
      CHECK(turn.rolling_radius_m > by_eye.card->turns[i].rolling_radius_m);
      CHECK(turn.loads.scrub_drag_n < by_eye.card->turns[i].loads.scrub_drag_n);
    }
    // The chance at the edge is that of this plan.
    CHECK(best.card->wander[i].chance(TurnTechnique::BestPointOnLine).off_edge ==
          best.card->wander[i].point_on_line.off_edge);
    CHECK(best.card->wander[i].point_on_line.off_edge <= best.card->wander[i].eye_on_line.off_edge);
  }
}

TEST_CASE("point as technique: a given point is that one, no further ahead than the eye") {
  Brief brief = two_turns(6.0);
  brief.technique.turning = TurnTechnique::PointOnLine;
  for (const double ahead_m : {0.0, 12.0, 90.0}) {
    brief.technique.followed_ahead_m = ahead_m;
    const MadeCard made(brief);
    const double eye_m = brief.aircraft.eye_ahead_m;
    for (const TrackAnswer& track : made.card->tracks) {
      const TrackPlan& plan = track.plan(TurnTechnique::PointOnLine);
      CHECK(plan.followed_ahead_m == std::min(ahead_m, eye_m));
      if (ahead_m == 0.0) CHECK(plan.nose_overshoot_m == track.gear_on_line.nose_overshoot_m);
      if (ahead_m > eye_m) CHECK(plan.gear_off_line_m == track.eye_on_line.gear_off_line_m);
    }
    const TurnAnswer& turn = made.turn();
    CHECK((turn.rolling_radius_m == turn.radius_m) == (ahead_m == 0.0));
  }
  // About a turn axis ahead of the main gear the point counts from the main gear all the same.
  brief.technique.followed_ahead_m = 12.0;
  brief.aircraft.turn_axis_ahead_m = 0.5;
  const MadeCard made(brief);
  CHECK(made.card->tracks[0].point_on_line.followed_ahead_m == 11.5);
}

TEST_CASE("point as technique: where no point keeps what is wanted it is the best one") {
  Brief brief = two_turns(0.0);
  brief.limits.edge_clearance_m = 7.0;  // more than the straight has
  brief.technique.turning = TurnTechnique::LeastOutside;
  const MadeCard made(brief);
  CHECK(any_edge_caution(*made.card));
  for (const TrackAnswer& track : made.card->tracks) {
    CHECK_FALSE(track.followed.keeps_all);
    CHECK(track.point_on_line.followed_ahead_m == track.followed.ahead_m);
  }
}

TEST_CASE("point as technique: with the nose outside least it is the end of each turn's band") {
  Draws draws(20261120);
  int turns = 0;
  for (int i = 0; i < scaled_draws(12); ++i) {
    Brief brief = i == 0 ? two_turns(6.0) : draw_plain_brief(draws);
    brief.technique.turning = TurnTechnique::LeastOutside;
    const MadeCard made(brief);
    CAPTURE(i);
    REQUIRE(made.card->turns.size() == made.card->tracks.size());
    for (std::size_t k = 0; k < made.card->tracks.size(); ++k) {
      const TrackAnswer& track = made.card->tracks[k];
      CHECK(track.leg == made.card->turns[k].leg);
      const double speed_mps = std::max(made.card->turns[k].planned_entry_mps, 1.0);
      const FollowedPoint band = best_followed_point(brief.aircraft, brief.route, track.leg,
                                                     speed_mps, WantedMargins::of(brief.limits));
      const PointMargins margins =
          margins_with_point(brief.aircraft, brief.route, track.leg, speed_mps, band.high_m);
      const TrackPlan alone =
          plan_with_point(brief.aircraft, brief.route, track.leg, speed_mps, band.high_m);
      const TrackPlan& plan = track.point_on_line;
      CHECK(band.high_m == plan.followed_ahead_m);
      CHECK(alone.nose_overshoot_m == plan.nose_overshoot_m);
      CHECK(alone.eye_overshoot_m == plan.eye_overshoot_m);
      CHECK(margins.nose_m == doctest::Approx(nose_m(plan)).epsilon(1e-12));
      CHECK(margins.main_m == doctest::Approx(plan.margins.least_main_m()).epsilon(1e-12));
      if (band.keeps_all) CHECK(keeps(plan, brief.limits));
      ++turns;
    }
  }
  CHECK(turns >= 2);
}
