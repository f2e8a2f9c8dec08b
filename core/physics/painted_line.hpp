// The painted centreline and the pavement near one turn of the route.
//
// Coordinates: origin where the turn's painted arc begins, x along the line's direction there, y to
// its right, angles clockwise. The whole chain of legs is laid out once; after that a point on the
// line, and the distance of any point from the line, cost a few operations.
// Beyond the ends of the route the line goes straight on.
#pragma once

#include "physics/brief.hpp"
#include "physics/fixed_list.hpp"

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
    double curvature_pm = 0.0;
    double half_width_m = 0.0;
    double widening_m = 0.0;  // arcs
    double lead_in_m = 0.0;   // arcs
  };
  int turn = 0;  // index of the turn that holds the origin
  FixedList<Piece, kMaxLegs> pieces;
};

PaintedLine painted_line(const TaxiRoute& route, int turn_leg);

// The line at a distance along it, counted from the begin of the turn (negative: before it).
LinePoint line_at(const PaintedLine& line, double distance_m);

// Signed distance of a point from the line near the turn (positive: to the right of the direction
// of travel) and the pavement's half widths at its foot. Looks at the turn and two legs on either
// side.
struct LineOffset {
  double offset_m = 0.0;
  double left_half_width_m = 0.0;
  double right_half_width_m = 0.0;
};
LineOffset offset_from_line(const PaintedLine& line, Point point);

}  // namespace tillerline
