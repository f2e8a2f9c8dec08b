// A 180-degree turn on a given width of pavement, and what the ends of the aircraft sweep.
//
// The aircraft stands along one edge, its outer main wheel at the clearance from it, and turns to
// the other side at its steering limit, the nose wheels at that angle from the first metre. About
// the turn's centre the outer main wheel runs on r_o = R + span/2 and touches its greatest width at
// the begin and at the end; the nose wheels, ahead of the axis, pass theirs, n + their half span,
// before the end. From edge to edge
//   bare     r_o + max(n, r_o)
//   needed   r_o + main clearance + max(n + nose clearance, r_o + main clearance)
// (Matthews, Aeronautical Engineer's Data Book: minimum pavement for a continuous turn, printed for
// two aircraft and met to 0.15 m.) A point of the body ahead of the turn axis sweeps the full
// radius to the far side only, one behind it to the near side only.
//
// Rigid body without side slip about the effective turn axis (turn_axis.hpp): tyre slip at full
// steering costs some degrees, so the steering limit is the effective one (aircraft.hpp). Valid for
// a slow, continuous turn without differential braking; turning the nose wheels while rolling
// takes more length, not more width.
#pragma once

#include "physics/given/brief.hpp"

namespace tillerline {

struct HalfTurn {
  bool wanted = false;
  bool possible = false;       // on the width, with the clearances of the limits
  double width_m = 0.0;        // available
  double needed_m = 0.0;       // edge to edge, with the clearances
  double bare_m = 0.0;         // outer wheel to nose wheel, no clearance
  double spare_m = 0.0;        // available - needed
  double steering_rad = 0.0;   // used
  double gear_radius_m = 0.0;  // turn axis
  double nose_radius_m = 0.0;
  double wing_tip_radius_m = 0.0;
  double tail_radius_m = 0.0;
  double nose_tip_radius_m = 0.0;
  double gear_from_edge_m = 0.0;    // outer main wheel to the edge when it starts
  double wing_beyond_edge_m = 0.0;  // how far a wing tip sweeps beyond the pavement's edge;
                                    // negative: it stays inside
  double tail_beyond_edge_m = 0.0;
};

// `width_m` 0: no such turn is wanted; radii and the width needed are given all the same.
HalfTurn half_turn(const Aircraft& aircraft, const Limits& limits, double width_m);

}  // namespace tillerline
