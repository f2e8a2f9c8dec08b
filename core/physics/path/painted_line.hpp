// The painted centreline and the pavement near one turn of the route.
//
// Coordinates: origin where the turn's painted arc begins, x along the line's direction there, y to
// its right, angles clockwise. The whole chain of legs is laid out once; after that a point on the
// line, and the distance of any point from the line, cost a few operations.
// Beyond the ends of the route the line goes straight on.
//
// An eased arc is three pieces: clothoid, circle, clothoid. Points on a clothoid come from its
// power series (clothoid.hpp), the foot of a point on it from Newton's method inside a bracket;
// both are good to about 1e-13 m. A foot is sought where the tangent turns from before the point to
// behind it. A point that lies beyond the centre of curvature may have none on a clothoid: then the
// nearer end of the clothoid stands for it.
#pragma once

#include "physics/given/brief.hpp"
#include "physics/numerics/clothoid.hpp"
#include "physics/numerics/fixed_list.hpp"

namespace tillerline {

struct Point {
  double x_m = 0.0;
  double y_m = 0.0;
};

// A point `distance_m` along the heading, and one `right_m` to its right.
Point ahead_of(Point from, double heading_rad, double distance_m);
Point beside(Point from, double heading_rad, double right_m);

struct LinePoint {
  Point point;
  double heading_rad = 0.0;
};

struct PaintedLine {
  struct Piece {
    LinePoint begin;
    double cosine = 1.0;  // of the heading at its begin
    double sine = 0.0;
    double begin_m = 0.0;  // along the line, 0 at the turn's begin
    double length_m = 0.0;
    double curvature_pm = 0.0;  // at its begin
    double growth_pm2 = 0.0;    // of the curvature along it, easing curves only
    ClothoidStep end;           // its end seen from its begin, easing curves only
    double side = 0.0;          // +1, -1: part of an arc to the right, left; 0: straight
    double half_width_m = 0.0;
    double widening_m = 0.0;  // arcs
    double lead_in_m = 0.0;   // arcs
  };
  std::size_t turn = 0;        // index of the piece that begins at the origin
  std::size_t first_near = 0;  // pieces of the turn and of two legs on either side, up to straights
  std::size_t last_near = 0;
  // A route that begins or ends in an arc has a straight of no length before or behind it.
  static constexpr std::size_t kMost = 3 * kMaxLegs + 2;
  FixedList<Piece, kMost> pieces;
};

PaintedLine painted_line(const TaxiRoute& route, int turn_leg);

// The line at a distance along it, counted from the begin of the turn (negative: before it).
LinePoint line_at(const PaintedLine& line, double distance_m);

// Its curvature there, 1/m, positive to the right; 0 beyond the ends of the route. At a joint that
// of the piece before it.
double line_curvature_pm(const PaintedLine& line, double distance_m);

// Radius of the plain arc that would join the same two straights at the same ends as this arc with
// its easing (the same radius when there is none): the straights cross at its tan(angle/2) from
// both ends.
double crossing_radius_m(const Leg& arc);

// Signed distance of a point from the line near the turn (positive: to the right of the direction
// of travel) and the pavement's half widths at its foot. Looks at the turn and two legs on either
// side, and on to the next straight where that ends with an arc.
struct LineOffset {
  double offset_m = 0.0;
  double left_half_width_m = 0.0;
  double right_half_width_m = 0.0;
};
LineOffset offset_from_line(const PaintedLine& line, Point point);

// The piece on which the foot of a point lies, as `offset_from_line` looks for it.
std::size_t piece_beside(const PaintedLine& line, Point point);

// A point seen from one piece, wherever its foot lies: what is smooth as long as the foot stays on
// that piece. Where the foot lies on a joint, each of the two pieces answers with its own width.
struct PlaceBeside {
  LineOffset from;
  double left_growth = 0.0;  // of the half widths per metre along the line
  double right_growth = 0.0;
  double cosine = 1.0;  // of the line's direction at the foot
  double sine = 0.0;
  // On a straight: how far along it the foot lies, and where the lead-ins of the arcs before and
  // after it end, in the order of the way; 0 where there is none.
  double along_m = 0.0;
  double lead_in_ends_m[2] = {0.0, 0.0};
};
PlaceBeside place_beside(const PaintedLine& line, std::size_t piece, Point point);

// The line on one piece of it, `into_m` from that piece's begin, and its direction there.
struct LineCourse {
  Point point;
  double cosine = 1.0;
  double sine = 0.0;
};
LineCourse course_on_piece(const PaintedLine& line, std::size_t piece, double into_m);

}  // namespace tillerline
