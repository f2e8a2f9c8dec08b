#include "physics/path/steering_ramp.hpp"

#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"

namespace tillerline {

using namespace elementary;

SteeringRamp steering_ramp(double from_rad, double to_rad, double per_metre, double wheelbase_m) {
  const double turns = 1.0 / (per_metre * wheelbase_m);
  const double change_rad = std::abs(to_rad - from_rad);
  const double sense = to_rad < from_rad ? -1.0 : 1.0;
  const double from_cosine = cosine(from_rad);
  SteeringRamp ramp;
  ramp.heading_rad = 2.0 * sine(0.5 * (from_rad + to_rad)) * sine(0.5 * change_rad) * turns;
  const int panels = change_rad + ramp.heading_rad < 1.0 ? 1 : 2;
  const double half_panel_rad = 0.5 * change_rad / panels;
  for (int panel = 0; panel < panels; ++panel) {
    const double middle_rad = (2 * panel + 1) * half_panel_rad;
    for (const GaussNode& node : kGauss8) {
      for (const double side : {-1.0, 1.0}) {
        const double into_rad = middle_rad + side * half_panel_rad * node.x;
        const double along = cosine(from_rad + sense * into_rad);
        const double heading_rad = sense * (from_cosine - along) * turns;
        const double weight = half_panel_rad * node.weight * along;
        ramp.axis.x_m += weight * cosine(heading_rad);
        ramp.axis.y_m += weight * sine(heading_rad);
      }
    }
  }
  ramp.axis.x_m /= per_metre;
  ramp.axis.y_m /= per_metre;
  return ramp;
}

}  // namespace tillerline
