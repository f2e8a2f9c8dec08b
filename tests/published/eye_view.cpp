// The view from the pilot's eye against perspective geometry: the obscured segment, ranging by the
// horizon, cross-ratio and vanishing points.
#include "physics/path/eye_view.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/units.hpp"
#include "physics/path/obscured_ground.hpp"
#include "physics/stations.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";
constexpr const char* kVision =
    "Hartley and Zisserman, Multiple View Geometry in Computer Vision, 2nd ed. 2004";
constexpr const char* kRanging =
    "Stein, Mano and Shashua, Vision-based ACC with a Single Camera, IEEE Intelligent Vehicles "
    "2003";
constexpr const char* kApart = "Plane trigonometry, computed apart";

double radians(double value) { return units::radians_from_degrees(value); }
double degrees(double value) { return units::degrees_from_radians(value); }

Aircraft aircraft_with(double eye_height_m, double cutoff_deg) {
  Aircraft a;
  a.eye_height_m = eye_height_m;
  a.view_cutoff_rad = radians(cutoff_deg);
  return a;
}

// A camera at the origin that looks along x.
Camera camera_at(double height_m, double look_rad = 0.0) {
  Camera camera;
  camera.eye.height_m = height_m;
  camera.look_rad = look_rad;
  return camera;
}

ImagePoint image(const Camera& camera, Point point, double height_m = 0.0) {
  return image_of(camera_point(camera, point, height_m));
}

double cross_ratio(double a, double b, double c, double d) {
  return (a - c) * (b - d) / ((b - c) * (a - d));
}

}  // namespace

TEST_CASE("eye: where paint goes out of sight") {
  struct Row {
    double eye_m, cutoff_deg, hidden_m;
  };
  for (const Row& row : {Row{5.7, 20.0, 15.66}, Row{6.0, 20.0, 16.48}, Row{8.7, 18.4, 26.15}}) {
    const Aircraft a = aircraft_with(row.eye_m, row.cutoff_deg);
    const Eye eye{{}, 0.0, row.eye_m, Seat::Left};
    double in_m = 100.0;
    double out_m = 1.0;
    while (in_m - out_m > 1e-9) {
      const double middle_m = 0.5 * (in_m + out_m);
      (sight_of(a, eye, {middle_m, 2.0}).in_view ? in_m : out_m) = middle_m;
    }
    check({.what = "nearest paint in view over the glareshield, m",
           .source = "Line of sight over the nose, computed apart",
           .place = "h / tan(cut-off)",
           .kind = Kind::Own,
           .expected = row.hidden_m,
           .got = in_m,
           .tolerance = 0.006});
  }
  // Feet: 100 ft over the threshold, 15 degrees of view below the horizontal, a segment of 660 ft.
  const double range_ft = std::hypot(660.0 + 100.0 / std::tan(radians(15.0)), 100.0);
  const Sight far = sight_of(aircraft_with(100.0, 15.0), {{}, 0.0, 100.0, Seat::Left},
                             {std::sqrt(range_ft * range_ft - 1e4), 0.0});
  check({.what = "sine of the angle below the horizon at the end of the visible segment",
         .source = kHandbook,
         .place = "ch. 8, eqs 8-1 and 8-2: sin(theta) = h / VR",
         .kind = Kind::Formula,
         .expected = 100.0 / range_ft,
         .got = std::sin(far.below_rad),
         .tolerance = 1e-12});
  // 0.3 m high lamp 14.5 m to the side, just where it is lost (eye 6 m, 20 degrees).
  const double lost_m = obscured_ahead_m(6.0, radians(20.0), 0.3);
  const Eye eye{{}, 0.0, 6.0, Seat::Left};
  check({.what = "azimuth of a lamp at the edge of a taxiway when it is lost, deg",
         .source = kApart,
         .place = "atan(14.5 / 15.66)",
         .kind = Kind::Own,
         .expected = 42.8,
         .got = degrees(sight_of(aircraft_with(6.0, 20.0), eye, {lost_m, 14.5}, 0.3).azimuth_rad),
         .tolerance = 0.05});
}

TEST_CASE("eye: range by the distance below the horizon") {
  // y = f H / Z: with f = 740 pixels and H = 1.2 m an error of one pixel is one of about 10 % at
  // 90 m and of 5 % at 44 m. (The error to first order is the range over f H.)
  struct Row {
    double range_m, error;
  };
  for (const Row& row : {Row{90.0, 0.10}, Row{44.0, 0.05}}) {
    const double y_pixels = -740.0 * image(camera_at(1.2), {row.range_m, 0.0}).up;
    check({.what = "relative error of the range for one pixel",
           .source = kRanging,
           .place = "section 3: 10 % at 90 m, 5 % at 44 m; f and H from memory",
           .kind = Kind::Numerics,
           .expected = row.error,
           .got = 1.0 / y_pixels,
           .tolerance = 0.005});
  }
}

TEST_CASE("eye: what a projection keeps") {
  const Camera camera = camera_at(6.0, radians(35.0));
  // Four points on a line of the ground; the cross-ratio of 0, 1, 3 and 7 is 9/7.
  const double at_m[] = {0.0, 1.0, 3.0, 7.0};
  ImagePoint p[4];
  for (int i = 0; i < 4; ++i) p[i] = image(camera, {20.0 + 4.0 * at_m[i], 5.0 + 3.0 * at_m[i]});
  check({.what = "cross-ratio of four points on a line, across",
         .source = kVision,
         .place = "section 2.5: invariant under projective maps of a line",
         .kind = Kind::Numerics,
         .expected = cross_ratio(0.0, 1.0, 3.0, 7.0),
         .got = cross_ratio(p[0].right, p[1].right, p[2].right, p[3].right),
         .tolerance = 1e-12});
  check({.what = "the same, up",
         .source = kVision,
         .place = "section 2.5",
         .kind = Kind::Numerics,
         .expected = 9.0 / 7.0,
         .got = cross_ratio(p[0].up, p[1].up, p[2].up, p[3].up),
         .tolerance = 1e-12});
  check({.what = "area between three points of a straight line, focal lengths squared",
         .source = kVision,
         .place = "section 2.3: a projective map takes lines to lines",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = (p[1].right - p[0].right) * (p[3].up - p[0].up) -
                (p[3].right - p[0].right) * (p[1].up - p[0].up),
         .tolerance = 1e-15});
  // Parallel lines run to the vanishing point of their direction: v = K d.
  const ImagePoint vanishing = image_of_direction(camera, radians(60.0), 0.0);
  for (const double beside_m : {-11.5, 0.0, 11.5}) {
    const Point far = ahead_of(beside({}, radians(60.0), beside_m), radians(60.0), 1e9);
    check({.what = "far end of a line towards 60 deg, focal lengths right of the axis at 35 deg",
           .source = kVision,
           .place = "section 8.6.1: vanishing point, tan(25 deg)",
           .kind = Kind::Numerics,
           .expected = 0.46630766,
           .got = image(camera, far).right,
           .tolerance = 1e-7});
    check({.what = "its height over the horizon",
           .source = kVision,
           .place = "section 8.6.2: the ground's vanishing line",
           .kind = Kind::Numerics,
           .expected = vanishing.up,
           .got = image(camera, far).up,
           .tolerance = 1e-7});
  }
  // Height from the horizon: what stands as high as the eye reaches it at every range.
  check({.what = "top of a post as high as the eye, over the horizon",
         .source = kVision,
         .place = "section 8.6: the horizon cuts all at the camera's height",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = image(camera, {40.0, 7.0}, 6.0).up,
         .tolerance = 1e-15});
}

TEST_CASE("eye: windows and the new centreline in a drawing") {
  Aircraft a = aircraft_with(6.0, 20.0);
  a.middle_post_rad = radians(20.0);
  a.outer_post_rad = radians(38.0);
  a.side_sill_rad = radians(25.0);
  check({.what = "far post, deg",
         .source = kApart,
         .place = "atan(2 tan 20 + tan 38)",
         .kind = Kind::Own,
         .expected = 56.4719,
         .got = degrees(far_post_rad(a)),
         .tolerance = 5e-4});
  check({.what = "lowest view square to the side, deg",
         .source = kApart,
         .place = "the sill's own angle",
         .kind = Kind::Own,
         .expected = 25.0,
         .got = degrees(lowest_view_rad(a, Seat::Right, radians(90.0))),
         .tolerance = 1e-9});
  // Eye over the begin of a bend of 90 degrees and 45 m: its end stands at half the turn, a chord
  // of 45 sqrt(2) away.
  a.eye_side_m = 0.0;
  a.eye_ahead_m = 30.0;
  const Eye eye = eye_at(a, {{-30.0, 0.0}, 0.0}, Seat::Left);
  const TurnCue cue = turn_cue(a, eye, {{45.0, 45.0}, radians(90.0)});
  check({.what = "azimuth of the end of a quarter circle from its begin, deg",
         .source = "Euclid, Elements, III.32 (tangent and chord)",
         .place = "half the angle turned",
         .kind = Kind::Numerics,
         .expected = 45.0,
         .got = degrees(cue.sight.azimuth_rad),
         .tolerance = 1e-9});
  check({.what = "its distance, m",
         .source = kApart,
         .place = "45 sqrt(2)",
         .kind = Kind::Own,
         .expected = 63.63961,
         .got = cue.sight.distance_m,
         .tolerance = 1e-5});
  check({.what = "window it is seen in, 1: the other front pane",
         .source = kApart,
         .place = "between 20 and 56.5 deg inboard",
         .kind = Kind::Own,
         .expected = static_cast<double>(WindowPlace::OtherFront),
         .got = static_cast<double>(window_at(a, Seat::Left, cue.sight.azimuth_rad)),
         .tolerance = 0.0});
  // A straight taxiway: the line comes into sight at the obscured segment.
  Brief brief;
  brief.aircraft = a;
  for (const double turn_deg : {0.0, 90.0, 0.0}) {
    Leg leg;
    leg.kind = turn_deg > 0.0 ? LegKind::Arc : LegKind::Straight;
    leg.turn_rad = radians(turn_deg);
    leg.length_m = 300.0;
    brief.route.legs.push(leg);
  }
  const EyeGround ground = eye_ground(brief, 1);
  const LineInView view = line_in_view(a, eye_at(a, {{-90.0, 0.0}, 0.0}, Seat::Left), ground);
  check({.what = "line hidden ahead of an eye 60 m before a bend, m",
         .source = "Line of sight over the nose, computed apart",
         .place = "6 / tan 20",
         .kind = Kind::Own,
         .expected = 16.485,
         .got = view.from_m,
         .tolerance = 0.0005});
  // Clipped to what lies before the eye: half a metre.
  CameraPoint near{-1.5, 0.0, -6.0}, ahead{2.5, 8.0, -6.0};
  CHECK(clip_segment(near, ahead));
  check({.what = "place across where a segment is cut, m",
         .source = kApart,
         .place = "two parts of four of 8 m",
         .kind = Kind::Own,
         .expected = 4.0,
         .got = near.right_m,
         .tolerance = 1e-12});
  const CameraPoint square[] = {
      {-1.5, -1.0, -6.0}, {2.5, -1.0, -6.0}, {2.5, 1.0, -6.0}, {-1.5, 1.0, -6.0}};
  const ClippedQuad clipped = clip_quad(square);
  double area_m2 = 0.0;
  for (std::size_t i = 0; i < clipped.size(); ++i) {
    const CameraPoint& p = clipped[i];
    const CameraPoint& q = clipped[(i + 1) % clipped.size()];
    area_m2 += 0.5 * (p.deep_m * q.right_m - q.deep_m * p.right_m);
  }
  check({.what = "area left of a square of 8 m2, m2",
         .source = kApart,
         .place = "2 m by 2 m",
         .kind = Kind::Own,
         .expected = 4.0,
         .got = area_m2,
         .tolerance = 1e-12});
  check({.what = "point on the body, m to the right",
         .source = kApart,
         .place = "heading 90 deg, 3 m ahead",
         .kind = Kind::Own,
         .expected = 3.0,
         .got = point_on_body({{0.0, 0.0}, radians(90.0)}, 3.0, 0.0).y_m,
         .tolerance = 1e-12});
}
