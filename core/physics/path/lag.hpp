// How a rolling body lags behind a point of it that is led along a path: the law stands at the head
// of track.hpp. With u = tan(lag/2) it is linear in projective coordinates and has one closed form
// for every radius against the length.
#pragma once

namespace tillerline {

// Sine and cosine of half a lag, up to a common factor.
struct HalfLag {
  double sine = 0.0;
  double cosine = 1.0;
};

// Lag after the leading point has moved `distance_m` along a path of constant curvature, starting
// with lag `lag_rad`. Exact, every ratio of radius to length. lag in (-pi, pi).
double lag_after_m(double lag_rad, double length_m, double curvature_pm, double distance_m);
HalfLag half_lag_after_m(HalfLag lag, double length_m, double curvature_pm, double distance_m);

// Nose-wheel angle when a point `ahead_m` before the main-gear axis lags by `lag_rad`.
double nose_wheel_angle_rad(double lag_rad, double ahead_m, double wheelbase_m);

// Radius of the main-gear axis when a point `ahead_m` before it lags by this much, m.
double smallest_gear_radius_m(double largest_lag_rad, double ahead_m);

}  // namespace tillerline
