// A taxi route as plain numbers: a chain of straights and arcs along a painted centreline.
//
// Distance along the route is counted for the *main-gear axis*, which starts at 0. A leg has one
// slope (positive: uphill), one pavement width and, for an arc, one radius and one angle. The last
// leg ends at the line to stop at (or at the stop mark of the stand).
//
// An arc may be eased: a clothoid of length `easing_m` leads from the straight to the arc's radius
// and another one back (curvature linear in the distance). The whole turn keeps its angle and the
// circular part its radius, so that it gets shorter by half an easing at each end:
//   length = R |angle| + easing,   circular part R |angle| - easing.
// An easing longer than R |angle| would leave no circular part and is taken as R |angle|: two
// clothoids that just meet at the radius.
//
// How a leg's slope is known decides how far it may be off (slope_errors.hpp): surveyed, unless the
// leg says that it follows from two elevations, or that it is a guess.
//
// Pavement: edges at width/2 on both sides. An arc may have its inner edge moved further in by
// `widening_m`, reached and left by a straight taper of `lead_in_m` along the neighbouring legs.
#pragma once

#include "physics/numerics/fixed_list.hpp"

namespace tillerline {

inline constexpr int kMaxLegs = 40;

// Accuracy (LE90) of elevations that come without one: of a good model from satellites, from
// memory.
inline constexpr double kUsualElevationLe90_m = 1.3;

enum class LegKind { Straight, Arc };
enum class SlopeKnown { Surveyed, Elevations, Guessed };
enum class RouteEnd { HoldingLine, StandMark };

struct Leg {
  LegKind kind = LegKind::Straight;
  double length_m = 100.0;  // straights only; an arc's length follows from radius, angle, easing
  double radius_m = 45.0;   // arcs only, of the centreline
  double turn_rad = 0.0;    // arcs only, positive to the right
  double slope_rad = 0.0;   // angle of the climb, positive uphill
  // Of each of the two elevations that the slope follows from: 9 of 10 are as close as this (LE90).
  double elevation_le90_m = 0.0;  // 0: it does not follow from elevations
  double slope_guess_rad = 0.0;   // a guess, no further off than this; 0: none
  double width_m = 23.0;
  double widening_m = 0.0;  // arcs only, extra pavement inside
  double lead_in_m = 0.0;   // arcs only, length of the taper to that widening
  double easing_m = 0.0;    // arcs only, length of the easing curve (clothoid) at both its ends
  double speed_limit_mps = 0.0;  // 0: none beyond the general limits
};

struct TaxiRoute {
  double start_elevation_m = 0.0;
  double start_heading_rad = 0.0;
  double start_speed_mps = 0.0;  // 0: from rest; larger: rolling off a runway
  RouteEnd end = RouteEnd::HoldingLine;
  bool stop_bar_lit = false;
  double half_turn_width_m = 0.0;  // pavement on which a 180-degree turn is wanted; 0: none wanted
  double parallel_line_m = 0.0;    // to the nearest parallel taxiway's centreline; 0: not given
  double nearest_object_m = 0.0;   // to the nearest object, from the centreline; 0: not given
  FixedList<Leg, kMaxLegs> legs;
};

// Length of the centreline of the leg, m.
double leg_length_m(const Leg& leg);

// Length of each of its two easing curves, m; 0 on a straight and on a plain arc.
double leg_easing_m(const Leg& leg);

// Signed curvature of the centreline, 1/m; positive to the right, 0 on a straight. Of an eased arc
// that of its circular part.
double leg_curvature_pm(const Leg& leg);

// The same at a distance from the leg's begin, with the easing; 0 before its begin and after its
// end.
double leg_curvature_pm(const Leg& leg, double distance_m);

// A slope that is said to be a guess is one, whatever else is said.
SlopeKnown slope_known(const Leg& leg);

// Length of the whole centreline, m.
double route_length_m(const TaxiRoute& route);

// Headwind, m/s (negative: tailwind), met on the leg that starts with `heading_rad`. On an arc it
// is the exact mean over the distance, and so over the headings passed.
double leg_headwind_mps(const Leg& leg, double heading_rad, double wind_speed_mps,
                        double wind_from_rad);

}  // namespace tillerline
