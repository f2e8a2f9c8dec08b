// A turn where two straight centrelines cross and no arc is painted.
//
// The main-gear axis comes along one line, runs on an arc of radius R that touches both lines, and
// leaves along the other; steering at once. With turn angle D and a point x ahead of that axis:
//   it begins R tan(D/2) before the crossing, when the point is x - R tan(D/2) past it
//   (negative: still before it);
//   furthest past the new centreline the point gets  sqrt(R^2 + x^2) - R   if D >= atan(x/R),
//                                                    x sin D - R (1 - cos D)  otherwise;
//   the smallest radius for an allowed excursion e:  R = (x^2 - e^2) / (2 e), or
//                                                    (x sin D - e) / (1 - cos D) in the second
//                                                    case.
// Where nose and main gear are to stray equally, nose out and main gear in by e, the axis runs on
// R - e and the nose gear on R + e about a line of radius R: e = x^2 / (4 R).
// Exact for a rigid body without side slip (plane geometry). The limited rate of steering makes the
// start a few metres earlier (track.hpp, ramps). 0 < D <= pi.
#pragma once

#include "physics/given/aircraft.hpp"

namespace tillerline {

// From where an arc begins to the crossing of the two straights that it joins, R tan(D/2). Where
// they run within 5 degrees of parallel (a turn above 175 degrees, as a half turn) they do not
// cross anywhere near: not a number.
inline constexpr double kLargestThatCrosses_rad = 3.0543261909900763;
double way_to_crossing_m(double radius_m, double turn_rad);

// Furthest past the new centreline of a point `ahead_m` before the axis that turns on `radius_m`.
double crossing_excursion_m(double radius_m, double turn_rad, double ahead_m);

// Smallest radius that keeps that excursion to `excursion_m` (> 0); 0 when any radius does.
double radius_for_excursion_m(double excursion_m, double turn_rad, double ahead_m);

// By how much nose gear and main gear stray from a circle of `radius_m` when they share alike.
double equal_split_m(double radius_m, double wheelbase_m);

struct CrossingTurn {
  bool possible = false;          // the steering limit reaches the radius
  bool nose_on_pavement = false;  // with the clearance wanted
  double radius_m = 0.0;          // of the turn axis
  double steering_rad = 0.0;
  double allowed_excursion_m = 0.0;  // nose gear past the new centreline: half width less half the
                                     // nose wheels and the clearance
  // Not a number where the lines do not cross.
  double gear_before_crossing_m = 0.0;  // turn axis when the turn is started
  double nose_past_crossing_m = 0.0;    // nose gear then; negative: before it
  double eye_past_crossing_m = 0.0;
  double nose_excursion_m = 0.0;  // furthest past the new centreline
  double eye_excursion_m = 0.0;
  double equal_split_m = 0.0;  // nose out and main gear in, sharing alike on that radius
};

// The turn on the smallest radius that keeps the nose wheels on a pavement of that half width with
// the clearance, or the tightest that the steering reaches where that is wider. Where the pavement
// is too narrow for any, `painted_radius_m` is taken and `nose_on_pavement` is false. The pavement
// is that of the leg being entered, without fillets.
CrossingTurn crossing_turn(const Aircraft& aircraft, double turn_rad, double half_width_m,
                           double nose_clearance_m, double painted_radius_m);

}  // namespace tillerline
