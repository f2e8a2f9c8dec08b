// Where everything runs in a turn: how far past the line the nose goes, when to start turning, and
// what is left to the edges.
//
// Rigid body in the plane, no side slip at the main-gear axis M (tyre slip there is a few tenths of
// a degree on a dry surface). A point P on the body axis, L ahead of M, on a path of curvature
// kappa(s): the lag beta between path tangent and body axis obeys
//   d beta / ds = kappa - sin(beta) / L,   M = P - L (body axis)
// (exact; Sayers, Vehicle System Dynamics 20(5), 1991). With u = tan(beta/2) this is linear in
// projective coordinates and has one closed form for every R against L (lag_after_m below).
//
// Techniques over the same painted line, any chain of straights and arcs:
//   EyeOnLine        the eye follows the line, the main gear cuts the corner;
//   PointOnLine      a point between eye and main gear follows it (point_on_line.hpp), given or
//                    the best of the turn (followed_point.hpp);
//   MainGearOnLine   the main-gear axis follows the line, the nose goes past it. Steering moves at
//   a
//                    limited rate, so the turn is started a little early: with c = rate / speed the
//                    heading turned while the nose wheels go from 0 to delta is
//                    (1 - cos delta) / (c L), and the ramp is a quadrature of smooth functions.
//                    The main-gear axis then runs on the arc's radius, shifted inwards by a few
//                    centimetres (`shift_m`), and leaves by the mirrored ramp.
// Where the ramps do not fit into the straights beside the arc (or the arc meets another arc, as in
// an S), the steering is taken as instantaneous and `ramps_fit` is false.
//
// An arc painted with easing curves needs no ramps: a main gear kept on it asks for tan(delta) =
// L kappa(s), at the rate L |kappa'| v / (1 + (L kappa)^2), greatest where the easing begins. There
// `ramps_fit` says whether the nose wheels are fast enough for it. An S of two eased arcs swings
// them through at that same rate.
//
// Everywhere the point without side slip is the effective turn axis (turn_axis.hpp), taken for the
// steady part of the turn; it is what follows the line where the main gear is said to. Poses are
// those of the main-gear axis all the same, and wheels, tips and tail are at their true places.
//
// Coordinates of a picture: x along the incoming straight, y to its right, origin where the painted
// arc begins, angles clockwise. Mirrored turns give mirrored pictures exactly.
#pragma once

#include <algorithm>

#include "physics/given/brief.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/crossing.hpp"
#include "physics/path/eye_view.hpp"
#include "physics/path/followed_point.hpp"
#include "physics/path/gear_on_line.hpp"
#include "physics/path/lag.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/pose.hpp"

namespace tillerline {

// Largest lag, to either side, in the arc at `leg` of a point kept on the painted line, carried
// through the route: at the end of a plain arc, within the last easing curve of an eased one, or at
// its begin when it comes from a tighter arc or swings over from one to the other side.
double largest_lag_in_turn_rad(const TaxiRoute& route, int leg, double ahead_m);

// A reference that the sampled plans below are held against:
// largest inward distance of the main-gear axis from a centreline straight - arc - straight whose
// leading point, `length_m` ahead, is kept on the line, entered without lag. The greatest value
// comes after the leading point has left the arc.
// Valid while the lag stays below about 80 degrees (radius above 0.72 of the length, or turns below
// 155 degrees); no nose wheel turns as far as beyond it.
double largest_off_tracking_m(double radius_m, double turn_rad, double length_m);

// Tightest turn at full steering, no side slip: radii about the turn's centre, m.
struct TightestTurn {
  double turn_axis_ahead_m = 0.0;  // of the main-gear axis
  double turn_radius_m = 0.0;      // of the turn axis
  double gear_axis_m = 0.0;
  double outer_main_wheel_m = 0.0;
  double inner_main_wheel_m = 0.0;  // negative: the centre lies between the main wheels
  double nose_gear_m = 0.0;
  double nose_tip_m = 0.0;
  double wing_tip_m = 0.0;
  double tail_m = 0.0;
  double half_circle_width_m = 0.0;  // pavement for 180 degrees, outer wheel to nose wheels
};
TightestTurn tightest_turn(const Aircraft& aircraft, double steering_rad);

inline constexpr int kPlanSamples = 121;

// Least distance of a wheel from its nearer pavement edge, m; negative: off the pavement.
struct EdgeMargin {
  double margin_m = 0.0;
  double bend_pm = 0.0;  // near there it is margin + bend x way^2 / 2, along the wheel's way
  Point wheel;           // where it is least
  Point edge;
};

struct EdgeMargins {
  EdgeMargin left_main;  // outer faces of the outer main wheels
  EdgeMargin right_main;
  EdgeMargin nose;  // the nearer of the nose wheels

  double least_main_m() const { return std::min(left_main.margin_m, right_main.margin_m); }
  double least_m() const { return std::min(least_main_m(), nose.margin_m); }
};

// One technique flown through one turn of the route, sampled for a picture and its margins.
struct TrackPlan {
  TurnTechnique technique = TurnTechnique::MainGearOnLine;
  double followed_ahead_m = 0.0;  // what is kept on the line, ahead of the turn axis
  double followed_behind_eye_m = 0.0;
  bool possible = false;  // the steering limit allows it
  bool ramps_fit = true;
  double steering_rad = 0.0;         // greatest nose-wheel angle
  double steering_rate_radps = 0.0;  // greatest, at the planned speed
  double shift_m = 0.0;
  double start_before_arc_m = 0.0;    // turn axis before the arc's begin when steering starts
  double eye_past_arc_begin_m = 0.0;  // the cue: eye past the place where the line bends
  // Eye past the crossing of the two straight centrelines; not a number where they do not cross.
  double eye_past_crossing_m = 0.0;
  double nose_overshoot_m = 0.0;  // furthest past the outbound centreline
  double eye_overshoot_m = 0.0;
  double nose_off_line_m = 0.0;  // furthest outside the painted line
  double gear_off_line_m = 0.0;  // main-gear axis furthest inside the painted line
  double smallest_gear_radius_m = 0.0;
  double wing_reach_m = 0.0;  // furthest of a wing tip from the painted line
  double tail_reach_m = 0.0;  // furthest of the tail(plane tips) from the painted line
  // Swing to either side of the painted line, outside and inside of the turn.
  double main_outside_m = 0.0;  // outer faces of the main wheels
  double main_inside_m = 0.0;
  double wing_outside_m = 0.0;  // wing tips
  double wing_inside_m = 0.0;
  double tail_swing_m = 0.0;  // tailplane tips, outside
  EdgeMargins margins;
  Pose start;         // where steering starts
  TurnCue from_left;  // the new centreline then, from either seat
  TurnCue from_right;
  int samples = 0;
  Pose pose[kPlanSamples] = {};
  double nose_wheel_rad[kPlanSamples] = {};
};

struct TrackAnswer {
  int leg = 0;
  double radius_m = 0.0;
  double turn_rad = 0.0;
  double eye_side_m = 0.0;  // the seat beside the middle: the small thing it is
  double steering_limit_rad = 0.0;
  bool radius_reachable = false;
  double turn_axis_ahead_m = 0.0;  // of the main-gear axis, in the steady turn
  CrossingTurn crossing;           // as if no arc were painted where the two straights cross
  TrackPlan eye_on_line;
  TrackPlan gear_on_line;
  // Where the technique keeps a point between them on the line: that plan, and what the turn would
  // have with others. No samples otherwise.
  TrackPlan point_on_line;
  FollowedPoint followed;

  const TrackPlan& plan(TurnTechnique technique) const {
    return ByPoint<TrackPlan>{eye_on_line, gear_on_line, point_on_line}.of(technique);
  }
};

// Both techniques for the turn at leg `leg` (an arc) at the given speed of the main-gear axis. The
// lag from earlier turns is carried along. The clearance is that of the nose wheels where the two
// straights cross without an arc (crossing.hpp).
TrackAnswer track_answer(const Aircraft& aircraft, const TaxiRoute& route, double nose_clearance_m,
                         int leg, double speed_mps);

// The same turn with the point `ahead_m` before the turn axis kept on the line, 0 <= ahead_m <= the
// eye's place (point_way.hpp).
TrackPlan plan_with_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                          double speed_mps, double ahead_m);

// The painted line and both edges as polylines for the picture of the turn at `leg`.
inline constexpr int kEdgeSamples = 97;
struct TurnOutline {
  int samples = 0;
  Point centre[kEdgeSamples] = {};
  Point left_edge[kEdgeSamples] = {};
  Point right_edge[kEdgeSamples] = {};
};
TurnOutline turn_outline(const Aircraft& aircraft, const TaxiRoute& route, int leg);

}  // namespace tillerline
