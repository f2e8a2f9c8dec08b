// Many cases side by side: blocks of lanes and the arithmetic that runs over them.
//
// Structure of arrays, kLanes cases a block, on the stack. Only + - * / and square root, no branch
// that depends on a lane: compilers turn the loops into vector instructions, and the answers are
// the same to the last bit on every machine with IEEE 754 arithmetic (no contraction, no libm).
//
// Carlson's R_C(x, y) with x = X^2, y = Y^2 is the reciprocal limit of the mean of Schwab and
// Borchardt (Carlson, American Mathematical Monthly 78, 1971, 496):
//   X' = (X + Y)/2,  Y' = sqrt(X' Y),  R_C = 1 / lim X
// six steps quarter the distance each; what is left is summed by the series of quadratic_motion's
// Phi, R_C = Phi(1 - Y^2/X^2) / X. X may be negative down to -Y: the arctan then passes a right
// angle. Error below 1e-15 for Y/X from 1e-5 upwards. arcsin x = x R_C(1 - x^2, 1).
#pragma once

#include <cmath>

namespace tillerline {

inline constexpr int kLanes = 64;

struct Lanes {
  alignas(32) double at[kLanes] = {};

  double& operator[](int i) { return at[i]; }
  const double& operator[](int i) const { return at[i]; }
};

Lanes same_in_all_lanes(double value);

namespace lane {

inline constexpr int kCarlsonSteps = 6;

// sum z^n / (2n + 1), |z| < 0.04.
inline double phi_sum(double z) {
  double sum = 1.0 / 21.0;
  for (int odd = 19; odd >= 1; odd -= 2) sum = sum * z + 1.0 / odd;
  return sum;
}

// Its divided difference between p and z: sum d_n / (2n + 1), d_1 = 1, d_(n+1) = p^n + z d_n.
inline double phi_difference_sum(double p, double z) {
  double d = 1.0;
  double power = 1.0;
  double sum = 1.0 / 3.0;
  for (int odd = 5; odd <= 21; odd += 2) {
    power *= p;
    d = power + z * d;
    sum += d / odd;
  }
  return sum;
}

// R_C(X^2, Y^2), Y > 0, X > -Y.
inline double carlson_rc(double x_root, double y_root) {
  for (int i = 0; i < kCarlsonSteps; ++i) {
    x_root = 0.5 * (x_root + y_root);
    y_root = std::sqrt(x_root * y_root);
  }
  const double r = y_root / x_root;
  return phi_sum(1.0 - r * r) / x_root;
}

// R_C(X^2, Y^2) and (R_C(Z^2, Y^2) - R_C(X^2, Y^2)) / (Z - X), the latter without cancellation:
// the differences of both sequences are carried along, all terms positive.
struct CarlsonPair {
  double value;
  double slope;
};
inline CarlsonPair carlson_pair(double z_root, double x_root, double y_root) {
  double z = z_root;
  double zy = y_root;
  double x = x_root;
  double y = y_root;
  double dx = 1.0;
  double dy = 0.0;
  for (int i = 0; i < kCarlsonSteps; ++i) {
    z = 0.5 * (z + zy);
    x = 0.5 * (x + y);
    dx = 0.5 * (dx + dy);
    const double zy_next = std::sqrt(z * zy);
    const double y_next = std::sqrt(x * y);
    dy = (z * dy + y * dx) / (zy_next + y_next);
    zy = zy_next;
    y = y_next;
  }
  const double rz = zy / z;
  const double rx = y / x;
  const double phi_x = phi_sum(1.0 - rx * rx);
  const double scale = 1.0 / (z * x);
  const double turn = (rz + rx) * (y * dx - x * dy) * scale;
  const double difference = phi_difference_sum(1.0 - rz * rz, 1.0 - rx * rx);
  return {phi_x / x, turn * difference / z - phi_x * dx * scale};
}

// Taylor series for angles of slopes, |x| <= 0.5: error below 1e-16.
inline double sine(double x) {
  const double s = x * x;
  double sum = 1.0;
  for (int k = 12; k >= 2; k -= 2) sum = 1.0 - s / (k * (k + 1)) * sum;
  return x * sum;
}
inline double cosine(double x) {
  const double s = x * x;
  double sum = 1.0;
  for (int k = 13; k >= 1; k -= 2) sum = 1.0 - s / (k * (k + 1)) * sum;
  return sum;
}

// |x| < 1.
inline double arcsine(double x) { return x * carlson_rc(std::sqrt(1.0 - x * x), 1.0); }

}  // namespace lane
}  // namespace tillerline
