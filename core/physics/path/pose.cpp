#include "physics/path/pose.hpp"

namespace tillerline {

Point point_on_body(const Pose& pose, double ahead_m, double right_m) {
  return beside(ahead_of(pose.gear, pose.heading_rad, ahead_m), pose.heading_rad, right_m);
}

}  // namespace tillerline
