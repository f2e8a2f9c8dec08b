#include "physics/path/lag.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/wrapped_angle.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// cosh(r), and sinh(r)/r, both without the common factor exp(r) for r^2 > 0.01; continued to
// cos and sin(r)/r for negative squares.
struct Hyperbolic {
  double cosine_part;
  double sine_over_r;
};

Hyperbolic hyperbolic_pair(double r_squared) {
  if (std::abs(r_squared) < 0.01) {
    const double x = r_squared;
    return {1.0 + x / 2.0 * (1.0 + x / 12.0 * (1.0 + x / 30.0 * (1.0 + x / 56.0))),
            1.0 + x / 6.0 * (1.0 + x / 20.0 * (1.0 + x / 42.0 * (1.0 + x / 72.0)))};
  }
  if (r_squared > 0.0) {
    const double r = square_root(r_squared);
    const double decay = exponential(-2.0 * r);
    return {0.5 * (1.0 + decay), 0.5 * (1.0 - decay) / r};
  }
  const double r = square_root(-r_squared);
  return {cosine(r), sine(r) / r};
}

}  // namespace

HalfLag half_lag_after_m(HalfLag lag, double length_m, double curvature_pm, double distance_m) {
  const double d = 1.0 / (length_m * length_m) - curvature_pm * curvature_pm;
  const double half = 0.5 * distance_m;
  const Hyperbolic pair = hyperbolic_pair(d * half * half);
  const double decay = pair.sine_over_r * half / length_m;
  const double drive = pair.sine_over_r * half * curvature_pm;
  return {(pair.cosine_part - decay) * lag.sine + drive * lag.cosine,
          (pair.cosine_part + decay) * lag.cosine - drive * lag.sine};
}

double lag_after_m(double lag_rad, double length_m, double curvature_pm, double distance_m) {
  const HalfLag half = half_lag_after_m({sine(0.5 * lag_rad), cosine(0.5 * lag_rad)}, length_m,
                                        curvature_pm, distance_m);
  return angle_of_half_rad(half.sine, half.cosine);
}

double nose_wheel_angle_rad(double lag_rad, double ahead_m, double wheelbase_m) {
  // Lags beyond a right angle (a body that turns on the spot and more) keep growing past 90
  // degrees.
  return arctangent2(wheelbase_m * sine(lag_rad), ahead_m * cosine(lag_rad));
}

double smallest_gear_radius_m(double largest_lag_rad, double ahead_m) {
  const double tangent_of_lag = tangent(std::min(largest_lag_rad, 1.56));
  return tangent_of_lag > 0.0 ? ahead_m / tangent_of_lag : 1e9;
}

}  // namespace tillerline
