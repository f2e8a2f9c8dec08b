// What a pilot's eye sees of the ground: azimuths, what the glareshield hides, and the picture.
//
// The eye sits at its height above level ground, beside the aircraft's middle by the seat's offset,
// and looks along the nose. A point of the ground x ahead and y to the right of it is seen at the
// azimuth atan(y / x) to the right, and below the horizon by atan(h / r), r = hypot(x, y).
//
// The windows are bounded by straight edges, so each hides a half-plane of ground:
//   front   the glareshield, straight across at the cut-off angle c: hidden is x <= h / tan(c), the
//           obscured segment (obscured_ground.hpp) all across the pavement;
//   side    the sill, straight along the fuselage at the angle s below the horizontal square to the
//           side: hidden is |y| <= h / tan(s). Seen across the flight deck the other side's sill
//           is three times as far away (the window as far outboard of its seat as the seat is of
//           the middle), so that there three times as much is hidden.
// Posts: the front panes stand in one plane across. With the middle post at the azimuth m inboard
// and the outer post at o outboard, the other pane's outer post is seen at atan(2 tan m + tan o).
// Behind `view_back_rad` nothing is seen. The post and sill angles are from memory; the pilot's
// head stays where it is, which shows less than a real one does.
//
// The picture is that of a pinhole camera at the eye, its axis level and turned by `look_rad` from
// the nose: right = y' / x', up = z' / x' in the camera's axes, for points at least kNearest_m
// before it (Hartley and Zisserman, Multiple View Geometry, ch. 6). Straight lines stay straight.
//
// Exact plane geometry on level ground; height of the ground, pitch and roll are left out. h > 0.
#pragma once

#include "physics/given/aircraft.hpp"
#include "physics/given/brief.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/pose.hpp"

namespace tillerline {

enum class Seat { Left, Right };

struct Eye {
  Point at;
  double heading_rad = 0.0;
  double height_m = 0.0;
  Seat seat = Seat::Left;
};

Eye eye_at(const Aircraft& aircraft, const Pose& pose, Seat seat);

// Which window a direction goes through; own and other as seen from the seat.
enum class WindowPlace { OwnFront, OtherFront, OwnSide, OtherSide, Behind };

// `azimuth_rad` to the right of straight ahead, in [-pi, pi].
WindowPlace window_at(const Aircraft& aircraft, Seat seat, double azimuth_rad);

// Azimuth, counted to the other side, at which the outer post of the other front pane stands.
double far_post_rad(const Aircraft& aircraft);

// How far below the horizon the view reaches in this direction; 0 where there is none.
double lowest_view_rad(const Aircraft& aircraft, Seat seat, double azimuth_rad);

struct Sight {
  double azimuth_rad = 0.0;  // to the right of straight ahead, in (-pi, pi]
  double below_rad = 0.0;    // below the horizon
  double distance_m = 0.0;   // over the ground
  WindowPlace window = WindowPlace::OwnFront;
  bool in_view = false;
};

// `target_height_m` above the ground, below the eye.
Sight sight_of(const Aircraft& aircraft, const Eye& eye, Point point, double target_height_m = 0.0);

// The new centreline when steering starts: the nearest place of it that is in view, looking along
// it from the end of the bend, or, if none is within 200 m, that end itself.
struct TurnCue {
  Sight sight;
  double past_bend_m = 0.0;  // of that place, along the new centreline
};
TurnCue turn_cue(const Aircraft& aircraft, const Eye& eye, const LinePoint& bend_end);

// The centreline and the edges about the turn at `leg`, for the picture: from well before the place
// where the turn is started to 400 m behind the bend or the end of what is known there.
inline constexpr int kGroundSamples = 241;
struct EyeGround {
  int samples = 0;
  int bend_end = 0;  // sample at the end of the bend
  double at_m[kGroundSamples] = {};
  Point centre[kGroundSamples] = {};
  Point left_edge[kGroundSamples] = {};
  Point right_edge[kGroundSamples] = {};
};
EyeGround eye_ground(const Aircraft& aircraft, const TaxiRoute& route, int leg);

// How much of a centreline the eye has in view, from its own place on: the first stretch in sight.
// Distances along the line, counted from its place nearest to the eye.
struct LineInView {
  bool any = false;
  double from_m = 0.0;
  double to_m = 0.0;
  Sight first;  // where it comes into sight
};
LineInView line_in_view(const Aircraft& aircraft, const Eye& eye, const EyeGround& ground);

// ------------------------------------------------------------------------------ the picture ------

inline constexpr double kNearest_m = 0.5;

struct Camera {
  Eye eye;
  double look_rad = 0.0;  // axis to the right of the nose
};

// From the eye, along and across the camera's axis.
struct CameraPoint {
  double deep_m = 0.0;
  double right_m = 0.0;
  double up_m = 0.0;
};
CameraPoint camera_point(const Camera& camera, Point point, double height_m = 0.0);

// In the picture, in focal lengths from its axis.
struct ImagePoint {
  double right = 0.0;
  double up = 0.0;
};
ImagePoint image_of(const CameraPoint& point);  // deep_m > 0

// Where a direction stands in the picture; within a right angle of the axis.
ImagePoint image_of_direction(const Camera& camera, double azimuth_rad, double below_rad);

// Cuts off what is nearer than kNearest_m. False when nothing is left.
bool clip_segment(CameraPoint& a, CameraPoint& b);
using ClippedQuad = FixedList<CameraPoint, 5>;
ClippedQuad clip_quad(const CameraPoint (&corners)[4]);

}  // namespace tillerline
