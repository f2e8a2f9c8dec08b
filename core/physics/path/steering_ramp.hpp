// Nose wheels turned at a constant rate over the way of the nose gear, and what the body does
// meanwhile.
//
// With c = rate / speed of the nose gear (rad per metre), the angle delta going from one value to
// another and no side slip at the turn axis, the heading turns by sin(delta) / L per metre of the
// nose gear and the axis moves cos(delta) along it:
//   heading turned  |cos(from) - cos(to)| / (c L)
//   way of the axis integral of (cos, sin)(heading) cos(delta) / c d delta
// The first is exact, the second Gauss-Legendre's quadrature of an entire function with 16 points
// (32 where it turns far): good to rounding.
#pragma once

#include "physics/path/painted_line.hpp"

namespace tillerline {

struct SteeringRamp {
  double heading_rad = 0.0;  // turned, to the right
  Point axis;                // turn axis at its end, seen from its begin: ahead and to the right
};

// 0 <= angles < pi/2, per_metre > 0.
SteeringRamp steering_ramp(double from_rad, double to_rad, double per_metre, double wheelbase_m);

}  // namespace tillerline
