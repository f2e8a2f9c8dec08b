// A 180-degree turn on a given width of pavement, and what the ends of the aircraft sweep.
#pragma once

#include "physics/brief.hpp"

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
  double wing_beyond_edge_m = 0.0;  // how far a wing tip sweeps beyond the pavement's edge
  double tail_beyond_edge_m = 0.0;
};
HalfTurn half_turn(const Aircraft& aircraft, const Limits& limits, double width_m);

}  // namespace tillerline
