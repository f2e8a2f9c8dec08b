// A route drawn as corner points on a plane, and the legs that follow from it; and back.
//
// Metres on a local plane, east and north; headings clockwise from north. Between two straights
// that cross at a corner with the change of heading t lies an arc of radius R. Both straights end a
// tangent length short of the corner, and the arc is R |t| long:
//   T = R tan(|t| / 2)                       (plain arc)
// An arc with easing curves ends where a plain arc of the radius crossing_radius_m (painted_line)
// would; its T is that one's. Between two corners the straight is what their two tangents leave.
// Two arcs may meet without a straight; a straight that is left is at least kLeastStraight_m.
// The slope of a turn is the one that carries the heights of the two stretches on (so that the rise
// from corner to corner stays what was drawn), unless the point says that it has its own; it is
// known no better than the worse of theirs. Slopes that follow from elevations say so.
// Exact to rounding; angles above kMostDrawnTurn_rad have no corner within reach and are refused,
// and from an existing route are drawn as two halves.
#pragma once

#include "physics/given/taxi_route.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {

inline constexpr std::size_t kMaxDrawnPoints = kMaxLegs + 1;
inline constexpr double kLeastStraight_m = 5.0;
inline constexpr double kMostStraight_m = 5000.0;  // a longer stretch becomes several legs
inline constexpr double kLeastDrawnRadius_m = 10.0;
inline constexpr double kMostDrawnRadius_m = 1000.0;
inline constexpr double kLeastDrawnTurn_rad = 5.0 * units::kDegree_rad;
inline constexpr double kMostDrawnTurn_rad = 170.0 * units::kDegree_rad;
inline constexpr double kLongestDrawnRoute_m = 20e3;
inline constexpr double kUsualDrawnRadius_m = 45.0;

struct PlanePoint {
  double east_m = 0.0;
  double north_m = 0.0;
};

// A corner, a start, an end, or a place where only the slope changes.
struct DrawnPoint {
  PlanePoint at;
  double elevation_m = 0.0;                                         // where elevations are given
  Leg turn{.kind = LegKind::Arc, .radius_m = kUsualDrawnRadius_m};  // all but its angle
  Leg stretch;  // the straight that begins here: all but its length
  bool own_turn_slope = false;
};

struct DrawnRoute {
  FixedList<DrawnPoint, kMaxDrawnPoints> points;
  bool elevations_given = false;  // slopes follow from them; else from the stretches
};

enum class DrawnFault {
  TooFewPoints,     // value: points, allowed: at least
  TooManyLegs,      // value: legs needed (or points given), allowed: at most
  StretchTooShort,  // of the stretch that begins at the point; lengths in m
  RadiusTooSmall,   // in m
  RadiusTooLarge,   // in m; allowed: the largest that fits with the neighbours as they are
  TurnTooSlight,    // in rad
  TurnTooSharp,     // in rad
  TooLong           // in m, whole route
};

struct DrawnError {
  DrawnFault fault = DrawnFault::TooFewPoints;
  std::size_t point = 0;
  double value = 0.0;
  double allowed = 0.0;
};

// What becomes of one drawn point.
struct DrawnCorner {
  double turn_rad =
      0.0;  // positive to the right; 0 at both ends and where the way goes straight on
  double tangent_m = 0.0;
};

struct DrawnLegs {
  FixedList<DrawnError, kMaxDrawnPoints> errors;  // any: the legs do not count
  FixedList<DrawnCorner, kMaxDrawnPoints> corners;
  double start_heading_rad = 0.0;  // from 0 up to a full circle
  FixedList<Leg, kMaxLegs> legs;
  std::array<std::size_t, kMaxLegs> point_of_leg{};  // the turn's, or where the stretch begins
};

DrawnLegs drawn_legs(const DrawnRoute& drawn);

// From the end of the straight to the corner, m.
double tangent_length_m(const Leg& arc);

// The largest radius with which the tangent is no longer than that; 0 where none is.
double largest_radius_m(const Leg& arc, double tangent_m);

// The points of an existing route, from the plane's origin; its start heading counts. Good when
// `errors` is empty: an eased arc of more than kMostDrawnTurn_rad can't be drawn as corners.
struct DrawnFromRoute {
  DrawnRoute drawn;
  FixedList<DrawnError, kMaxDrawnPoints> errors;
};
DrawnFromRoute drawn_from_route(const TaxiRoute& route);

// A place on the way and the one `distance_m` further along the leg that begins there.
struct RoutePlace {
  PlanePoint at;
  double heading_rad = 0.0;
  double elevation_m = 0.0;
};
RoutePlace place_on_leg(const Leg& leg, const RoutePlace& begin, double distance_m);

// Into how many equal chords the leg is to be cut so that none is further than that from it; 1 on a
// straight.
int chords_of_leg(const Leg& leg, double tolerance_m);

// Plane geometry in small.
double distance_between_m(PlanePoint a, PlanePoint b);
double heading_to_rad(PlanePoint from, PlanePoint to);
PlanePoint moved(PlanePoint from, double heading_rad, double by_m);
double distance_to_stretch_m(PlanePoint point, PlanePoint begin, PlanePoint end);

}  // namespace tillerline
