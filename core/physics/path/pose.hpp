// Where the aircraft is and which way it points.
#pragma once

#include "physics/path/painted_line.hpp"

namespace tillerline {

// Position of the main-gear axis and direction of the nose.
struct Pose {
  Point gear;
  double heading_rad = 0.0;
};

// The point that lies `ahead_m` before and `right_m` beside the main-gear axis.
Point point_on_body(const Pose& pose, double ahead_m, double right_m);

}  // namespace tillerline
