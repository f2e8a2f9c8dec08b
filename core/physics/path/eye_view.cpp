#include "physics/path/eye_view.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/path/obscured_ground.hpp"

namespace tillerline {
namespace {

using namespace elementary;

constexpr double kOtherSillFactor = 3.0;  // how much further away the other side's sill is
constexpr int kLookAlong_m = 200;         // in steps of a metre
constexpr double kGroundAlong_m = 400.0;

double outboard(Seat seat) { return seat == Seat::Left ? -1.0 : 1.0; }

struct Offset {
  double ahead_m;
  double right_m;
};

Offset seen_along(Point from, double heading_rad, Point point) {
  const double x = point.x_m - from.x_m;
  const double y = point.y_m - from.y_m;
  const double c = cosine(heading_rad);
  const double s = sine(heading_rad);
  return {x * c + y * s, y * c - x * s};
}

bool front(WindowPlace window) {
  return window == WindowPlace::OwnFront || window == WindowPlace::OtherFront;
}

// The border between two places of which only the first passes the test, come upon from inside:
// what holds at the place returned, such as the window it is seen in, is then what holds just
// inside of it, and does not hang on the last bit.
template <class Test>
double border(double inside, double outside, Test&& is_inside) {
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (inside + outside);
    (is_inside(middle) ? inside : outside) = middle;
  }
  return inside;
}

Point between(Point a, Point b, double part) {
  return {a.x_m + part * (b.x_m - a.x_m), a.y_m + part * (b.y_m - a.y_m)};
}

struct Foot {
  int segment = 0;
  double part = 0.0;
};

// The place on the centreline that is nearest to a point.
Foot nearest_on_centre(const EyeGround& ground, Point to) {
  Foot best;
  double least_m2 = -1.0;
  for (int i = 0; i + 1 < ground.samples; ++i) {
    const Point a = ground.centre[i];
    const Point b = ground.centre[i + 1];
    const double x = b.x_m - a.x_m;
    const double y = b.y_m - a.y_m;
    const double along = (to.x_m - a.x_m) * x + (to.y_m - a.y_m) * y;
    const double part = std::clamp(along / (x * x + y * y), 0.0, 1.0);
    const Point on = between(a, b, part);
    const double away_x = on.x_m - to.x_m;
    const double away_y = on.y_m - to.y_m;
    const double away_m2 = away_x * away_x + away_y * away_y;
    if (least_m2 >= 0.0 && away_m2 >= least_m2) continue;
    least_m2 = away_m2;
    best = {i, part};
  }
  return best;
}

CameraPoint at_nearest(const CameraPoint& a, const CameraPoint& b) {
  const double part = (kNearest_m - a.deep_m) / (b.deep_m - a.deep_m);
  return {kNearest_m, a.right_m + part * (b.right_m - a.right_m),
          a.up_m + part * (b.up_m - a.up_m)};
}

}  // namespace

Eye eye_at(const Aircraft& aircraft, const Pose& pose, Seat seat) {
  const double right_m = outboard(seat) * aircraft.eye_side_m;
  return {point_on_body(pose, aircraft.eye_ahead_m, right_m), pose.heading_rad,
          aircraft.eye_height_m, seat};
}

double far_post_rad(const Aircraft& aircraft) {
  return arctangent(2.0 * tangent(aircraft.middle_post_rad) + tangent(aircraft.outer_post_rad));
}

WindowPlace window_at(const Aircraft& aircraft, Seat seat, double azimuth_rad) {
  const double out_rad = outboard(seat) * azimuth_rad;
  if (std::abs(out_rad) > aircraft.view_back_rad) return WindowPlace::Behind;
  if (out_rad > aircraft.outer_post_rad) return WindowPlace::OwnSide;
  if (out_rad >= -aircraft.middle_post_rad) return WindowPlace::OwnFront;
  return out_rad >= -far_post_rad(aircraft) ? WindowPlace::OtherFront : WindowPlace::OtherSide;
}

double lowest_view_rad(const Aircraft& aircraft, Seat seat, double azimuth_rad) {
  const WindowPlace window = window_at(aircraft, seat, azimuth_rad);
  if (window == WindowPlace::Behind) return 0.0;
  if (front(window)) return arctangent(tangent(aircraft.view_cutoff_rad) * cosine(azimuth_rad));
  const double far = window == WindowPlace::OtherSide ? kOtherSillFactor : 1.0;
  return arctangent(tangent(aircraft.side_sill_rad) * std::abs(sine(azimuth_rad)) / far);
}

Sight sight_of(const Aircraft& aircraft, const Eye& eye, Point point, double target_height_m) {
  const Offset offset = seen_along(eye.at, eye.heading_rad, point);
  Sight sight;
  sight.azimuth_rad = arctangent2(offset.right_m, offset.ahead_m);
  sight.distance_m = hypotenuse(offset.ahead_m, offset.right_m);
  sight.below_rad = arctangent2(eye.height_m - target_height_m, sight.distance_m);
  sight.window = window_at(aircraft, eye.seat, sight.azimuth_rad);
  if (sight.window == WindowPlace::Behind) return sight;
  if (front(sight.window)) {
    sight.in_view =
        offset.ahead_m > obscured_ahead_m(eye.height_m, aircraft.view_cutoff_rad, target_height_m);
    return sight;
  }
  const double beside_m = obscured_ahead_m(eye.height_m, aircraft.side_sill_rad, target_height_m);
  const double far = sight.window == WindowPlace::OtherSide ? kOtherSillFactor : 1.0;
  sight.in_view = std::abs(offset.right_m) > far * beside_m;
  return sight;
}

TurnCue turn_cue(const Aircraft& aircraft, const Eye& eye, const LinePoint& bend_end) {
  const auto seen = [&](double along_m) {
    return sight_of(aircraft, eye, ahead_of(bend_end.point, bend_end.heading_rad, along_m));
  };
  const TurnCue at_end{seen(0.0), 0.0};
  if (at_end.sight.in_view) return at_end;
  for (int along_m = 1; along_m <= kLookAlong_m; ++along_m) {
    if (!seen(along_m).in_view) continue;
    const double from_m =
        border(along_m, along_m - 1.0, [&](double at_m) { return seen(at_m).in_view; });
    return {seen(from_m), from_m};
  }
  return at_end;
}

EyeGround eye_ground(const Aircraft& aircraft, const TaxiRoute& route, int leg) {
  const PaintedLine line = painted_line(route, leg);
  const double bend_m = leg_length_m(route.legs[static_cast<std::size_t>(leg)]);
  const PaintedLine::Piece& last = line.pieces[line.last_near];
  // Beyond the last leg the line goes straight on for ever.
  const double known_m = line.last_near + 1 == line.pieces.size() ? bend_m + kGroundAlong_m
                                                                  : last.begin_m + last.length_m;
  const double from_m = -aircraft.eye_ahead_m - 40.0;
  const double to_m = std::min(bend_m + kGroundAlong_m, known_m);
  // A third of the samples before the bend, a third in it and a third behind it.
  constexpr int kThird = kGroundSamples / 3;
  EyeGround ground;
  ground.samples = kGroundSamples;
  ground.bend_end = 2 * kThird;
  for (int i = 0; i < kGroundSamples; ++i) {
    double at_m = bend_m * (i - kThird) / kThird;
    if (i < kThird) at_m = from_m * (kThird - i) / kThird;
    if (i > ground.bend_end)
      at_m =
          bend_m + (to_m - bend_m) * (i - ground.bend_end) / (kGroundSamples - 1 - ground.bend_end);
    const LinePoint here = line_at(line, at_m);
    const LineOffset width = offset_from_line(line, here.point);
    ground.at_m[i] = at_m;
    ground.centre[i] = here.point;
    ground.left_edge[i] = beside(here.point, here.heading_rad, -width.left_half_width_m);
    ground.right_edge[i] = beside(here.point, here.heading_rad, width.right_half_width_m);
  }
  return ground;
}

LineInView line_in_view(const Aircraft& aircraft, const Eye& eye, const EyeGround& ground) {
  const Foot foot = nearest_on_centre(ground, eye.at);
  const auto seen = [&](int segment, double part) {
    return sight_of(aircraft, eye,
                    between(ground.centre[segment], ground.centre[segment + 1], part));
  };
  const auto along_m = [&](int segment, double part) {
    return ground.at_m[segment] + part * (ground.at_m[segment + 1] - ground.at_m[segment]);
  };
  const double foot_m = along_m(foot.segment, foot.part);
  LineInView view;
  view.first = seen(foot.segment, foot.part);
  view.any = view.first.in_view;
  bool was_in = view.any;
  double was_part = foot.part;
  for (int i = foot.segment; i + 1 < ground.samples; ++i, was_part = 0.0) {
    const bool in = seen(i, 1.0).in_view;
    if (in == was_in) continue;
    const double part =
        border(was_part, 1.0, [&](double at) { return seen(i, at).in_view == was_in; });
    if (!in) {
      view.to_m = along_m(i, part) - foot_m;
      return view;
    }
    was_in = true;
    view.any = true;
    view.from_m = along_m(i, part) - foot_m;
    view.first = seen(i, part);
    view.first.in_view = true;
  }
  if (view.any) view.to_m = ground.at_m[ground.samples - 1] - foot_m;
  return view;
}

CameraPoint camera_point(const Camera& camera, Point point, double height_m) {
  const Offset offset = seen_along(camera.eye.at, camera.eye.heading_rad + camera.look_rad, point);
  return {offset.ahead_m, offset.right_m, height_m - camera.eye.height_m};
}

ImagePoint image_of(const CameraPoint& point) {
  return {point.right_m / point.deep_m, point.up_m / point.deep_m};
}

ImagePoint image_of_direction(const Camera& camera, double azimuth_rad, double below_rad) {
  const double off_axis_rad = azimuth_rad - camera.look_rad;
  return {tangent(off_axis_rad), -tangent(below_rad) / cosine(off_axis_rad)};
}

bool clip_segment(CameraPoint& a, CameraPoint& b) {
  const bool a_near = a.deep_m < kNearest_m;
  const bool b_near = b.deep_m < kNearest_m;
  if (a_near && b_near) return false;
  if (a_near) a = at_nearest(a, b);
  if (b_near) b = at_nearest(b, a);
  return true;
}

ClippedQuad clip_quad(const CameraPoint (&corners)[4]) {
  ClippedQuad clipped;
  for (int i = 0; i < 4; ++i) {
    const CameraPoint& from = corners[i];
    const CameraPoint& to = corners[(i + 1) % 4];
    const bool from_kept = from.deep_m >= kNearest_m;
    const bool to_kept = to.deep_m >= kNearest_m;
    if (from_kept) clipped.push(from);
    if (from_kept != to_kept) clipped.push(at_nearest(from, to));
  }
  return clipped;
}

}  // namespace tillerline
