// Properties of the view from the pilot's eye: mirrors, scales, edges, and agreement with the stop.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/eye_view.hpp"
#include "physics/path/obscured_ground.hpp"
#include "physics/path/track.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Aircraft random_aircraft(Draws& draws) {
  Aircraft a;
  a.eye_ahead_m = draws.between(4.0, 36.0);
  a.eye_side_m = draws.between(0.0, 1.2);
  a.eye_height_m = draws.between(1.8, 10.0);
  a.view_cutoff_rad = draws.between(0.15, 0.6);
  a.middle_post_rad = draws.between(0.1, 0.7);
  a.outer_post_rad = draws.between(0.3, 1.2);
  a.side_sill_rad = draws.between(0.1, 1.0);
  a.view_back_rad = draws.between(1.4, 2.6);
  return a;
}

Seat other(Seat seat) { return seat == Seat::Left ? Seat::Right : Seat::Left; }
Point mirrored(Point p) { return {p.x_m, -p.y_m}; }

Leg arc_leg(double radius_m, double turn_rad) {
  Leg leg;
  leg.kind = LegKind::Arc;
  leg.radius_m = radius_m;
  leg.turn_rad = turn_rad;
  return leg;
}

Brief turn_brief(double radius_m, double turn_rad) {
  Brief brief;
  Leg straight;
  straight.length_m = 400.0;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc_leg(radius_m, turn_rad));
  brief.route.legs.push(straight);
  return brief;
}

}  // namespace

TEST_CASE("property: the right seat sees the mirrored world as the left seat sees the world") {
  Draws draws(901);
  Worst worst;
  int wrong = 0, seen = 0;
  for (int i = 0; i < scaled_draws(4000); ++i) {
    const Aircraft a = random_aircraft(draws);
    const Pose pose{{draws.between(-50.0, 50.0), draws.between(-50.0, 50.0)},
                    draws.between(-3.0, 3.0)};
    const Pose mirror{mirrored(pose.gear), -pose.heading_rad};
    const Seat seat = draws.coin() ? Seat::Left : Seat::Right;
    const Eye eye = eye_at(a, pose, seat), twin = eye_at(a, mirror, other(seat));
    const Point p{draws.between(-90.0, 90.0), draws.between(-90.0, 90.0)};
    const Sight one = sight_of(a, eye, p), two = sight_of(a, twin, mirrored(p));
    worst.note(one.azimuth_rad + two.azimuth_rad, i);
    worst.note(one.below_rad - two.below_rad, i);
    worst.note(one.distance_m - two.distance_m, i);
    if (one.in_view != two.in_view || one.window != two.window) ++wrong;
    if (one.in_view) ++seen;
    const double z = draws.between(-3.1, 3.1);
    worst.note(lowest_view_rad(a, seat, z) - lowest_view_rad(a, other(seat), -z), i);
    if (window_at(a, seat, z) != window_at(a, other(seat), -z)) ++wrong;
    const double look = draws.between(-1.0, 1.0);
    const CameraPoint c = camera_point({eye, look}, p),
                      d = camera_point({twin, -look}, mirrored(p));
    worst.note(c.right_m + d.right_m, i);
    worst.note(c.deep_m - d.deep_m, i);
    const LinePoint end{p, z}, end_twin{mirrored(p), -z};
    const TurnCue cue = turn_cue(a, eye, end), cue_twin = turn_cue(a, twin, end_twin);
    worst.note(cue.past_bend_m - cue_twin.past_bend_m, i);
    worst.note(cue.sight.azimuth_rad + cue_twin.sight.azimuth_rad, i);
  }
  CHECK(worst.error < 1e-9);
  CHECK(wrong == 0);
  CHECK(seen > worst.count / 100);
}

TEST_CASE("property: a point is in view exactly where it stands over the window's lower edge") {
  Draws draws(902);
  int wrong = 0;
  int windows[5] = {};
  for (int i = 0; i < scaled_draws(6000); ++i) {
    const Aircraft a = random_aircraft(draws);
    const Seat seat = draws.coin() ? Seat::Left : Seat::Right;
    const Eye eye = eye_at(a, {}, seat);
    const Point p{draws.between(-60.0, 120.0), draws.between(-60.0, 60.0)};
    const Sight sight = sight_of(a, eye, p);
    ++windows[static_cast<int>(sight.window)];
    const double low = lowest_view_rad(a, seat, sight.azimuth_rad);
    if (std::abs(low - sight.below_rad) < 1e-9) continue;
    if (sight.in_view != (sight.below_rad < low)) ++wrong;
    // Further out in the same direction more is seen, and it stands nearer to the horizon.
    const Point out{eye.at.x_m + 2.0 * (p.x_m - eye.at.x_m),
                    eye.at.y_m + 2.0 * (p.y_m - eye.at.y_m)};
    const Sight further = sight_of(a, eye, out);
    if (further.below_rad >= sight.below_rad) ++wrong;
    if (sight.in_view && !further.in_view) ++wrong;
    // What stands up is seen from nearer.
    if (sight.in_view && !sight_of(a, eye, p, 0.5 * a.eye_height_m).in_view) ++wrong;
    if (sight.window == WindowPlace::Behind && sight.in_view) ++wrong;
  }
  CHECK(wrong == 0);
  for (const int count : windows) CHECK(count > 2);
}

TEST_CASE("property: windows follow one another outwards from straight ahead") {
  Draws draws(903);
  for (int i = 0; i < scaled_draws(500); ++i) {
    Aircraft a = random_aircraft(draws);
    const double far_rad = far_post_rad(a);
    CHECK(far_rad > a.outer_post_rad);
    a.view_back_rad = std::max(far_rad, a.outer_post_rad) + 0.2;
    const double e = 1e-6;
    const auto left = [&](double out_rad) { return window_at(a, Seat::Left, -out_rad); };
    CHECK(left(0.0) == WindowPlace::OwnFront);
    CHECK(left(a.outer_post_rad - e) == WindowPlace::OwnFront);
    CHECK(left(a.outer_post_rad + e) == WindowPlace::OwnSide);
    CHECK(left(a.view_back_rad + e) == WindowPlace::Behind);
    CHECK(left(-a.middle_post_rad + e) == WindowPlace::OwnFront);
    CHECK(left(-a.middle_post_rad - e) == WindowPlace::OtherFront);
    CHECK(left(-far_rad + e) == WindowPlace::OtherFront);
    CHECK(left(-far_rad - e) == WindowPlace::OtherSide);
    CHECK(left(-a.view_back_rad - e) == WindowPlace::Behind);
    CHECK(lowest_view_rad(a, Seat::Left, 0.0) == doctest::Approx(a.view_cutoff_rad));
    CHECK(lowest_view_rad(a, Seat::Left, a.view_back_rad + e) == 0.0);
    // The other side's sill is three times as far away.
    const double across_rad = far_rad + 0.1;
    CHECK(std::tan(lowest_view_rad(a, Seat::Left, -across_rad)) ==
          doctest::Approx(3.0 * std::tan(lowest_view_rad(a, Seat::Left, across_rad))));
  }
}

TEST_CASE("property: the line to stop at vanishes where the stop says, all across") {
  Draws draws(904);
  int wrong = 0;
  for (int i = 0; i < scaled_draws(3000); ++i) {
    Aircraft a = random_aircraft(draws);
    a.outer_post_rad = 1.2;
    const double lost_m = obscured_ahead_m(a.eye_height_m, a.view_cutoff_rad, 0.0);
    for (const double eye_m : {lost_m - 1e-9, lost_m + 1e-9}) {
      const Eye eye{{-eye_m, draws.between(-1.0, 1.0)}, 0.0, a.eye_height_m, Seat::Left};
      for (const double y_m : {-0.5 * eye_m, 0.0, 0.3 * eye_m})
        if (sight_of(a, eye, {0.0, y_m}).in_view != (eye_m > lost_m)) ++wrong;
    }
    // Exactly there it is hidden, as `line_visible_at_stop` has it.
    if (sight_of(a, {{-lost_m, 0.0}, 0.0, a.eye_height_m, Seat::Left}, {}).in_view) ++wrong;
  }
  CHECK(wrong == 0);
}

TEST_CASE("property: the picture of a scene twice as large from twice as high is the same") {
  Draws draws(905);
  Worst worst;
  for (int i = 0; i < scaled_draws(4000); ++i) {
    const double k = draws.by_size(0.1, 10.0);
    Camera camera{{{draws.between(-9.0, 9.0), draws.between(-9.0, 9.0)},
                   draws.between(-3.0, 3.0),
                   draws.between(2.0, 9.0),
                   Seat::Left},
                  draws.between(-1.0, 1.0)};
    const Point p{draws.between(-80.0, 80.0), draws.between(-80.0, 80.0)};
    const double top_m = draws.between(0.0, 3.0);
    const CameraPoint seen = camera_point(camera, p, top_m);
    if (seen.deep_m < 1.0) continue;
    Camera larger = camera;
    larger.eye.at = {k * camera.eye.at.x_m, k * camera.eye.at.y_m};
    larger.eye.height_m *= k;
    const ImagePoint one = image_of(seen);
    const ImagePoint two = image_of(camera_point(larger, {k * p.x_m, k * p.y_m}, k * top_m));
    worst.note(one.right - two.right, i);
    worst.note(one.up - two.up, i);
    // Where its direction stands is where it stands.
    Aircraft a;
    const Sight sight = sight_of(a, camera.eye, p, top_m);
    const ImagePoint by_angles = image_of_direction(camera, sight.azimuth_rad, sight.below_rad);
    worst.note(one.right - by_angles.right, i);
    worst.note(one.up - by_angles.up, i);
  }
  CHECK(worst.error < 1e-10);
}

TEST_CASE("property: clipping keeps what lies before the eye, and nothing else") {
  Draws draws(906);
  int none = 0, cut = 0, whole = 0, wrong = 0;
  std::size_t corners[6] = {};
  for (int i = 0; i < scaled_draws(3000); ++i) {
    const auto point = [&] {
      return CameraPoint{draws.between(-10.0, 12.0), draws.between(-9.0, 9.0), -6.0};
    };
    CameraPoint a = point(), b = point();
    const CameraPoint a0 = a, b0 = b;
    if (!clip_segment(a, b)) {
      ++none;
      if (a0.deep_m >= kNearest_m || b0.deep_m >= kNearest_m) ++wrong;
    } else {
      ++(a.deep_m == a0.deep_m && b.deep_m == b0.deep_m ? whole : cut);
      for (const CameraPoint& c : {a, b}) {
        if (c.deep_m < kNearest_m) ++wrong;
        // On the segment still.
        const double off = (c.deep_m - a0.deep_m) * (b0.right_m - a0.right_m) -
                           (c.right_m - a0.right_m) * (b0.deep_m - a0.deep_m);
        if (std::abs(off) > 1e-9) ++wrong;
      }
    }
    // A rectangle turned at will: three to five corners, or none.
    const CameraPoint middle = point();
    const double turned = draws.between(0.0, 6.28);
    CameraPoint quad[4];
    for (int k = 0; k < 4; ++k) {
      const double angle = turned + k * units::kPi / 2.0;
      quad[k] = {middle.deep_m + 4.0 * std::cos(angle), middle.right_m + 4.0 * std::sin(angle),
                 -6.0};
    }
    const ClippedQuad clipped = clip_quad(quad);
    ++corners[clipped.size()];
    if (clipped.dropped != 0) ++wrong;
    for (const CameraPoint& c : clipped)
      if (c.deep_m < kNearest_m) ++wrong;
  }
  CHECK(wrong == 0);
  CHECK(none > 2);
  CHECK(cut > 2);
  CHECK(whole > 2);
  CHECK(corners[1] + corners[2] == 0);
  for (const int k : {0, 3, 4, 5}) CHECK(corners[k] > 2);
}

TEST_CASE("property: the new centreline first comes into sight at the edge of what is hidden") {
  Draws draws(907);
  int at_end = 0, later = 0, never = 0, wrong = 0;
  for (int i = 0; i < scaled_draws(3000); ++i) {
    const Aircraft a = random_aircraft(draws);
    const Seat seat = draws.coin() ? Seat::Left : Seat::Right;
    const Eye eye = eye_at(a, {{-a.eye_ahead_m, 0.0}, 0.0}, seat);
    const LinePoint end{{draws.between(-40.0, 60.0), draws.between(-60.0, 60.0)},
                        draws.between(-3.1, 3.1)};
    const TurnCue cue = turn_cue(a, eye, end);
    const auto seen = [&](double along_m) {
      return sight_of(a, eye, ahead_of(end.point, end.heading_rad, along_m)).in_view;
    };
    if (!cue.sight.in_view) {
      ++never;
      if (cue.past_bend_m != 0.0 || seen(0.0)) ++wrong;
    } else if (cue.past_bend_m == 0.0) {
      ++at_end;
      if (!seen(0.0)) ++wrong;
    } else {
      ++later;
      if (seen(0.0) || seen(cue.past_bend_m - 1e-7) || !seen(cue.past_bend_m + 1e-7)) ++wrong;
    }
  }
  CHECK(wrong == 0);
  CHECK(at_end > 2);
  CHECK(later > 2);
  CHECK(never > 2);
}

TEST_CASE("property: the ground before the eye is the outline of the turn, and mirrors with it") {
  Draws draws(908);
  Worst worst;
  for (int i = 0; i < scaled_draws(200); ++i) {
    const double radius_m = draws.between(25.0, 90.0), turn_rad = draws.between(0.2, 3.14);
    Brief brief = turn_brief(radius_m, turn_rad);
    const bool next = draws.coin();
    if (next) {
      // The route goes on beyond what is near: the picture ends there.
      brief.route.legs[2].length_m = draws.between(20.0, 60.0);
      for (int k = 0; k < 4; ++k) {
        Leg more;
        more.length_m = 50.0;
        brief.route.legs.push(arc_leg(60.0, -0.5));
        brief.route.legs.push(more);
      }
    }
    const EyeGround ground = eye_ground(brief, 1);
    CHECK(ground.samples == kGroundSamples);
    CHECK(ground.at_m[ground.bend_end] == doctest::Approx(radius_m * turn_rad));
    if (!next) CHECK(ground.at_m[ground.samples - 1] == doctest::Approx(radius_m * turn_rad + 400));
    if (next) CHECK(ground.at_m[ground.samples - 1] < radius_m * turn_rad + 250.0);
    for (int k = 1; k < ground.samples; ++k) CHECK(ground.at_m[k] > ground.at_m[k - 1]);
    // The end of the bend, by the circle.
    const Point end = ground.centre[ground.bend_end];
    worst.note(end.x_m - radius_m * std::sin(turn_rad), i);
    worst.note(end.y_m - radius_m * (1.0 - std::cos(turn_rad)), i);
    const double width_m = std::hypot(ground.left_edge[0].x_m - ground.right_edge[0].x_m,
                                      ground.left_edge[0].y_m - ground.right_edge[0].y_m);
    worst.note(width_m - brief.route.legs[0].width_m, i);
    for (Leg& leg : brief.route.legs) leg.turn_rad = -leg.turn_rad;
    const EyeGround twin = eye_ground(brief, 1);
    for (int k = 0; k < ground.samples; ++k) {
      worst.note(ground.left_edge[k].y_m + twin.right_edge[k].y_m, i);
      worst.note(ground.centre[k].x_m - twin.centre[k].x_m, i);
    }
  }
  CHECK(worst.error < 1e-9);
}

TEST_CASE("property: of a straight line all beyond the obscured stretch is in view") {
  Draws draws(909);
  Worst worst;
  for (int i = 0; i < scaled_draws(300); ++i) {
    Brief brief = turn_brief(60.0, 0.02);
    brief.aircraft = random_aircraft(draws);
    brief.aircraft.view_cutoff_rad = draws.between(0.25, 0.6);
    const Aircraft& a = brief.aircraft;
    const EyeGround ground = eye_ground(brief, 1);
    const double back_m = draws.between(0.0, 10.0);
    const LineInView view = line_in_view(
        a, eye_at(a, {{ground.at_m[0] + back_m - a.eye_ahead_m, 0.0}, 0.0}, Seat::Left), ground);
    const double hidden_m = obscured_ahead_m(a.eye_height_m, a.view_cutoff_rad, 0.0);
    if (hidden_m + back_m > 40.0) continue;  // not straight there any more
    CHECK(view.any);
    CHECK(view.first.in_view);
    worst.note(view.from_m - hidden_m, i);
    worst.note(view.to_m - (ground.at_m[ground.samples - 1] - ground.at_m[0] - back_m), i);
  }
  CHECK(worst.error < 1e-8);
  CHECK(worst.count > 10);
}

TEST_CASE(
    "property: behind a bend the line is hidden as far as the glareshield hides it anywhere") {
  Draws draws(911);
  Worst worst;
  for (int i = 0; i < 200; ++i) {
    Brief brief = turn_brief(60.0, draws.sign() * draws.between(0.5, 2.6));
    brief.aircraft = random_aircraft(draws);
    brief.aircraft.eye_side_m = 0.0;
    brief.aircraft.view_cutoff_rad = draws.between(0.3, 0.6);
    brief.aircraft.eye_height_m = draws.between(1.8, 6.0);
    const Aircraft& a = brief.aircraft;
    const double hidden_m = obscured_ahead_m(a.eye_height_m, a.view_cutoff_rad, 0.0);
    const EyeGround ground = eye_ground(brief, 1);
    const double on_m = draws.between(1.0, 8.0);
    if (on_m + hidden_m > ground.at_m[ground.samples - 1] - ground.at_m[ground.bend_end]) continue;
    // With the eye over the line, along it.
    const double heading_rad = brief.route.legs[1].turn_rad;
    const Point eye = ahead_of(ground.centre[ground.bend_end], heading_rad, on_m);
    const Pose pose{ahead_of(eye, heading_rad, -a.eye_ahead_m), heading_rad};
    const LineInView view = line_in_view(a, eye_at(a, pose, Seat::Left), ground);
    CHECK(view.any);
    worst.note(view.from_m - hidden_m, i);
  }
  CHECK(worst.error < 1e-6);
  CHECK(worst.count > 40);
}

TEST_CASE(
    "property: a window goes as far as its posts, and a sill hides what lies just behind it") {
  Aircraft a;
  a.middle_post_rad = 0.5;
  a.outer_post_rad = 0.75;
  a.view_back_rad = 2.0;
  a.eye_side_m = 0.0;
  for (const Seat seat : {Seat::Left, Seat::Right}) {
    const double out = seat == Seat::Left ? -1.0 : 1.0;
    CHECK(window_at(a, seat, -out * 0.5) == WindowPlace::OwnFront);
    CHECK(window_at(a, seat, -out * std::nextafter(0.5, 1.0)) == WindowPlace::OtherFront);
    CHECK(window_at(a, seat, out * 0.75) == WindowPlace::OwnFront);
    CHECK(window_at(a, seat, out * std::nextafter(0.75, 1.0)) == WindowPlace::OwnSide);
    CHECK(window_at(a, seat, out * 2.0) == WindowPlace::OwnSide);
    CHECK(window_at(a, seat, out * std::nextafter(2.0, 3.0)) == WindowPlace::Behind);
    // Square to the left or right, just under the sill and just over it.
    const double beside_m = obscured_ahead_m(a.eye_height_m, a.side_sill_rad, 0.0);
    const Eye eye{{}, 0.0, a.eye_height_m, seat};
    CHECK_FALSE(sight_of(a, eye, {0.0, out * beside_m}).in_view);
    CHECK(sight_of(a, eye, {0.0, out * std::nextafter(beside_m, 100.0)}).in_view);
  }
}

TEST_CASE("property: the edges of the view of a line") {
  Brief brief = turn_brief(45.0, 1.5);
  Aircraft& a = brief.aircraft;
  const EyeGround ground = eye_ground(brief, 1);
  // With its back to the line, far beyond the end: none.
  const LineInView none = line_in_view(a, eye_at(a, {{-300.0, 0.0}, 3.1}, Seat::Left), ground);
  CHECK_FALSE(none.any);
  CHECK(none.from_m == 0.0);
  CHECK(none.to_m == 0.0);
  // Square to it and well away: in view from its nearest place on, and lost behind the window.
  const LineInView side =
      line_in_view(a, eye_at(a, {{-30.0 - a.eye_ahead_m, -40.0}, 0.0}, Seat::Right), ground);
  CHECK(side.any);
  CHECK(side.from_m == 0.0);
  CHECK(side.to_m > 0.0);
  // Turned right around there, the line ahead runs out of the window behind.
  const LineInView back =
      line_in_view(a, eye_at(a, {{-30.0 + a.eye_ahead_m, -40.0}, units::kPi}, Seat::Left), ground);
  CHECK(back.any);
  CHECK(back.from_m == 0.0);
  CHECK(back.to_m < 60.0);
  CHECK(back.to_m < side.to_m);
}

TEST_CASE("property: the plans know where steering starts, and what is seen there") {
  Draws draws(910);
  Worst worst;
  for (int i = 0; i < scaled_draws(300); ++i) {
    Brief brief = turn_brief(draws.between(35.0, 90.0), draws.sign() * draws.between(0.3, 3.14));
    if (draws.coin()) brief.route.legs[1].easing_m = draws.between(5.0, 25.0);
    Aircraft& a = brief.aircraft;
    a.wheelbase_m = draws.between(10.0, 32.0);
    a.eye_ahead_m = a.wheelbase_m + draws.between(-3.0, 4.0);
    a.turn_axis_ahead_m = draws.between(-0.5, 0.8);
    const TrackAnswer answer = track_answer(brief, 1, 4.0);
    for (const TrackPlan* plan : {&answer.eye_on_line, &answer.gear_on_line}) {
      // Straight along the incoming line, on it.
      worst.note(plan->start.gear.y_m, i);
      worst.note(plan->start.heading_rad, i);
      const Point eye = point_on_body(plan->start, a.eye_ahead_m, 0.0);
      worst.note(eye.x_m - plan->eye_past_arc_begin_m, i);
      const EyeGround ground = eye_ground(brief, 1);
      const LinePoint end{ground.centre[ground.bend_end], brief.route.legs[1].turn_rad};
      for (const Seat seat : {Seat::Left, Seat::Right}) {
        const TurnCue& cue = seat == Seat::Left ? plan->from_left : plan->from_right;
        const TurnCue again = turn_cue(a, eye_at(a, plan->start, seat), end);
        worst.note(cue.past_bend_m - again.past_bend_m, i);
        worst.note(cue.sight.azimuth_rad - again.sight.azimuth_rad, i);
        // A turn to the right brings its new line to the right.
        CHECK(cue.sight.azimuth_rad * brief.route.legs[1].turn_rad > 0.0);
      }
    }
  }
  CHECK(worst.error < 1e-7);
}
