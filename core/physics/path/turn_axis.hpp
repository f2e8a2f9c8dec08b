// The effective turn axis: the point of the body axis about which a turning aircraft rolls without
// side slip.
//
// With all bogies at one place it is the main-gear axis, from which every distance of aircraft.hpp
// is counted. Two inputs move it: the place that a manual gives (`turn_axis_ahead_m`), and body
// gear that is steered against the nose wheels.
//
// Model. Half of the bogies stand `body_gear_behind_m` = b behind the main-gear axis and turn by
// k delta (k = `body_gear_steer_share`) against the nose wheels' angle delta, the other half stand
// as far ahead and do not turn. All carry equal loads on equal, linear tyres. In a slow, steady
// turn of radius R about an axis x ahead of the main-gear axis a bogie at x_i slips by
// (x_i - x)/R - tan(gamma_i). The side forces of bogies and nose gear (w ahead) have no sum and no
// moment, from which the nose gear's stiffness drops out:
//   x = x_0 + h R tan(k delta),   x_0 = turn_axis_ahead_m - b^2 / w,   h = (1 + b / w) / 2
// The second term of x_0 is the stretch that unsteered axles one behind the other cost (Winkler,
// Vehicle System Dynamics 29(3), 1998: l T / l^2 with T = b^2), the term with h what steering
// gives. With R tan(delta) = w - x, the nose wheels rolling without slip,
//   R = (w - x_0) / (tan(delta) + h tan(k delta)).
// Slip angles are taken as their tangents: good to 1 % up to 10 degrees of slip. All inputs 0 give
// x = 0 exactly.
#pragma once

#include "physics/given/aircraft.hpp"

namespace tillerline {

// Where the axis lies ahead of the main-gear axis (negative: behind it) with the nose wheels at
// this angle, m. 0 <= steering_rad < pi/2; at 0 the limit of ever wider turns.
double turn_axis_at_steering_m(const Aircraft& aircraft, double steering_rad);

// Radius on which the axis then runs, m. steering_rad > 0.
double turning_radius_m(const Aircraft& aircraft, double steering_rad);

// The nose-wheel angle that makes the axis run on this radius (> 0), rad.
double steering_for_radius_rad(const Aircraft& aircraft, double radius_m);

// Where the axis lies when it runs on this radius, m.
double turn_axis_at_radius_m(const Aircraft& aircraft, double radius_m);

}  // namespace tillerline
