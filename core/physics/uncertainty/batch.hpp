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

inline constexpr int kTerms = 10;
inline constexpr double kOdd[kTerms] = {1.0 / 3,  1.0 / 5,  1.0 / 7,  1.0 / 9,  1.0 / 11,
                                        1.0 / 13, 1.0 / 15, 1.0 / 17, 1.0 / 19, 1.0 / 21};

// sum z^n / (2n + 1), |z| < 0.04.
inline double phi_sum(double z) {
  double sum = kOdd[kTerms - 1];
#pragma GCC unroll 10
  for (int n = kTerms - 2; n >= 0; --n) sum = sum * z + kOdd[n];
  return 1.0 + z * sum;
}

// Its divided difference between p and z: sum d_n / (2n + 1), d_1 = 1, d_(n+1) = p^n + z d_n.
inline double phi_difference_sum(double p, double z) {
  double d = 1.0;
  double power = 1.0;
  double sum = kOdd[0];
#pragma GCC unroll 10
  for (int n = 1; n < kTerms; ++n) {
    power *= p;
    d = power + z * d;
    sum += d * kOdd[n];
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
struct CarlsonState {
  double z, zy, x, y, dx, dy;
};
inline void carlson_step(CarlsonState& state) {
  const double z = 0.5 * (state.z + state.zy);
  const double x = 0.5 * (state.x + state.y);
  const double dx = 0.5 * (state.dx + state.dy);
  const double zy = std::sqrt(z * state.zy);
  const double y = std::sqrt(x * state.y);
  state = {z, zy, x, y, dx, (z * state.dy + state.y * dx) / (zy + y)};
}
inline CarlsonPair carlson_end(const CarlsonState& state) {
  const double scale = 1.0 / (state.z * state.x);
  const double z_part = state.x * scale;  // 1/Z
  const double x_part = state.z * scale;
  const double rz = state.zy * z_part;
  const double rx = state.y * x_part;
  const double phi_x = phi_sum(1.0 - rx * rx);
  const double turn = (rz + rx) * (state.y * state.dx - state.x * state.dy) * scale;
  const double difference = phi_difference_sum(1.0 - rz * rz, 1.0 - rx * rx);
  return {phi_x * x_part, turn * difference * z_part - phi_x * state.dx * scale};
}
// One pair by itself: the form that the lanes of carlson_pairs are held against.
inline CarlsonPair carlson_pair(double z_root, double x_root, double y_root) {
  CarlsonState state{z_root, y_root, x_root, y_root, 1.0, 0.0};
  for (int i = 0; i < kCarlsonSteps; ++i) carlson_step(state);
  return carlson_end(state);
}

// The same for a block.
struct CarlsonPairs {
  Lanes value;
  Lanes slope;
};
void carlson_pairs(const Lanes& z_root, const Lanes& x_root, const Lanes& y_root,
                   CarlsonPairs& pairs);

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
