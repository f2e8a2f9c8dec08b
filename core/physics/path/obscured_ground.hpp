// The ground that the aircraft itself hides from its pilot's eye.
//
// An edge that cuts the view off at the angle c below the horizontal hides the level ground nearer
// than h / tan(c) from an eye of height h; of what stands t above the ground, (h - t) / tan(c).
// 0 < c < pi/2.
#pragma once

namespace tillerline {

// Ground hidden ahead of the eye, m, for a target of the given height (0: paint).
double obscured_ahead_m(double eye_height_m, double view_cutoff_rad, double target_height_m);

}  // namespace tillerline
