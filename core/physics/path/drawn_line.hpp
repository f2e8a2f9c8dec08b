// A measured line (many points, noisy and closely spaced) as a drawn route: a few corners with
// turns.
//
// simplify_line: Ramer (1972), Douglas and Peucker (1973). The point furthest from the stretch
// between two that are kept is kept too, until none is further than the tolerance; the distance is
// that to the stretch, not to the endless line, so that the bound holds for lines that turn back.
//
// line_corners takes what is left and looks for turns: neighbouring corners to the same side that
// one arc between the first and the last straight replaces, with no point of the line further from
// it than the tolerance (the radius is the one with the least greatest distance, by golden
// section). What remains a single corner gets the radius that is wished for, or the largest one
// that fits. A bend of less than kLeastDrawnTurn_rad is none that a route can have: such points are
// left out, the slightest first, which may take the line further off than the tolerance;
// deviation_m says how far the points are off in the end (at a single corner: off its two
// straights, since the arc's cutting of the corner is wished for).
#pragma once

#include <span>

#include "physics/path/drawn_route.hpp"

namespace tillerline {

// Sets kept[i] to 1 for the points that stay (the first and the last always) and to 0 for others.
// `kept` is as long as `points`. Returns how many stay.
std::size_t simplify_line(std::span<const PlanePoint> points, double tolerance_m,
                          std::span<unsigned char> kept);

struct LineCorners {
  DrawnRoute drawn;  // level
  // For each drawn point where its arc begins and ends along the measured line, m from its begin.
  struct Reach {
    double begin_m = 0.0;
    double end_m = 0.0;
  };
  FixedList<Reach, kMaxDrawnPoints> reaches;
  std::size_t simplified_to = 0;  // points after the simplification
  int recognised = 0;             // turns whose radius was seen in the line
  int tightened = 0;              // turns for whose wished radius there was no room
  int straightened = 0;           // bends too slight for a turn
  double deviation_m = 0.0;
  std::size_t corners_needed = 0;
  bool too_many = false;  // more corners than a route has room for: nothing else counts
};

// `kept` is room to work in, as long as `points`. At least two points.
LineCorners line_corners(std::span<const PlanePoint> points, double tolerance_m, double radius_m,
                         std::span<unsigned char> kept);

}  // namespace tillerline
