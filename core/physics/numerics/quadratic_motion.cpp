#include "physics/numerics/quadratic_motion.hpp"

#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// B^2 - 4 A C with one rounding error (Kahan): it decides between artanh and arctan, so it must not
// lose its sign to cancellation. It does not change when the origin of speed is shifted, and is
// never recomputed from shifted coefficients.
double discriminant(const QuadraticMotion& m) {
  const double product = 4.0 * m.a_mps2 * m.c_pm;
  const double product_error = fused_multiply_add(4.0 * m.a_mps2, m.c_pm, -product);
  const double square = m.b_ps * m.b_ps;
  const double square_error = fused_multiply_add(m.b_ps, m.b_ps, -square);
  return (square - product) + (square_error - product_error);
}

double phi_series(double z) {
  double sum = 0.0;
  double power = 1.0;
  for (int n = 0; n < 16; ++n) {
    sum += power / (2.0 * n + 1.0);
    power *= z;
  }
  return sum;
}

// Divided difference (phi(p) - phi(z)) / (p - z) without cancellation. `p_minus_z` is known exactly
// by the caller. It asks only where both are at most a half and z is above -1, or where 1 - z is
// within a tenth of 1 - p: then z is above -0.11, both are near one or neither is, and w below 0.1.
double phi_difference(double p, double one_minus_p, double z, double one_minus_z,
                      double p_minus_z) {
  if (std::abs(p) < 0.06 && std::abs(z) < 0.06) {
    double d = 1.0;
    double z_power = 1.0;
    double sum = 0.0;
    for (int n = 1; n < 18; ++n) {
      sum += d / (2.0 * n + 1.0);
      z_power *= z;
      d = p * d + z_power;
    }
    return sum;
  }
  if (p <= 0.5 && z <= 0.5) {
    double sum = 0.0;
    for (const GaussNode& node : kGauss20) {
      const double x2 = node.x * node.x;
      sum += node.weight * x2 / ((1.0 - p * x2) * (1.0 - z * x2));
    }
    return sum;
  }
  // artanh(p') - artanh(z') = artanh((p' - z') / (1 - p' z')) with p' = sqrt p, z' = sqrt z.
  const double rp = square_root(p);
  const double rz = square_root(z);
  const double difference = p_minus_z / (rp + rz);
  const double one_minus_product = 0.5 * (one_minus_p + one_minus_z + difference * difference);
  const double w = difference / one_minus_product;
  const double w2 = w * w;
  const double joined = phi(w2, 1.0 - w2) / one_minus_product;
  return (joined - phi(z, one_minus_z)) / (rp * (rp + rz));
}

// Time and distance for v1 > v0.
Passage rising_passage(const QuadraticMotion& m, double v0_mps, double v1_mps) {
  const double h = v1_mps - v0_mps;
  const double a0 = acceleration_mps2(m, v0_mps);
  const double a1 = acceleration_mps2(m, v1_mps);
  if (!(a0 > 0.0 && a1 > 0.0)) return {};
  const double middle = 0.5 * (v0_mps + v1_mps);
  const double b_middle = m.b_ps + 2.0 * m.c_pm * middle;
  const double y = a0 * a1;
  const double sum = a0 + a1;
  const double q = m.c_pm * h * h;
  const double d = discriminant(m);
  double s = sum - q;
  const bool s_small = s <= 0.02 * sum;
  if (d >= 0.0 && s <= 0.0) return {};  // a root of a(v) lies inside
  if (d >= 0.0 && s_small) s = square_root(d * h * h + 4.0 * y);
  const double one_minus_p = 4.0 * y / (sum * sum);
  const double p_root = h * b_middle / sum;
  const double p = p_root * p_root;
  Passage result;
  result.reached = true;
  if (d < 0.0 && s_small) {
    const double root = square_root(-d);
    result.time_s = 2.0 / root * arctangent2(h * root, s);
    const double k =
        b_middle / (2.0 * m.c_pm) * (2.0 * h * phi(p, one_minus_p) / sum - result.time_s);
    result.distance_m = middle * result.time_s + k;
    return result;
  }
  const double one_minus_z = 4.0 * y / (s * s);
  const double z = one_minus_z < 0.5 ? 1.0 - one_minus_z : d * h * h / (s * s);
  result.time_s = 2.0 * h / s * phi(z, one_minus_z);
  const bool direct = std::abs(q) > 0.05 * sum && !(p <= 0.5 && z <= 0.5 && z >= -1.0);
  if (direct) {
    const double k =
        b_middle / (2.0 * m.c_pm) * (2.0 * h * phi(p, one_minus_p) / sum - result.time_s);
    result.distance_m = middle * result.time_s + k;
    return result;
  }
  const double p_minus_z = 4.0 * y * q * (sum + s) / (sum * sum * s * s);
  const double difference = phi_difference(p, one_minus_p, z, one_minus_z, p_minus_z);
  const double k = b_middle * h * h * h / (sum * s) *
                   (4.0 * y * (sum + s) / (sum * s * s) * difference - phi(p, one_minus_p));
  result.distance_m = middle * result.time_s + k;
  return result;
}

// The same motion seen with the speed axis reversed: u = -v.
QuadraticMotion reversed(const QuadraticMotion& m) { return {-m.a_mps2, m.b_ps, -m.c_pm}; }

TerminalSpeed terminal_above(const QuadraticMotion& m, double v0_mps, double a0) {
  const double d = discriminant(m);
  if (d < 0.0) return {};
  const double root = square_root(d);
  const double b0 = m.b_ps + 2.0 * m.c_pm * v0_mps;
  if (b0 <= 0.0) {
    const double denominator = root - b0;
    if (denominator <= 0.0) return {};
    return {true, v0_mps + 2.0 * a0 / denominator};
  }
  if (m.c_pm < 0.0) return {true, v0_mps + (b0 + root) / (-2.0 * m.c_pm)};
  return {};
}

}  // namespace

double acceleration_mps2(const QuadraticMotion& motion, double speed_mps) {
  return motion.a_mps2 + speed_mps * (motion.b_ps + speed_mps * motion.c_pm);
}

double phi(double z, double one_minus_z) {
  if (std::abs(z) < 0.06) return phi_series(z);
  if (z > 0.0) {
    const double root = square_root(z);
    return natural_log((1.0 + root) / square_root(one_minus_z)) / root;
  }
  const double root = square_root(-z);
  return arctangent(root) / root;
}

Passage passage(const QuadraticMotion& motion, double v0_mps, double v1_mps) {
  if (v1_mps == v0_mps) return {.reached = true};
  if (v1_mps > v0_mps) return rising_passage(motion, v0_mps, v1_mps);
  Passage mirrored = rising_passage(reversed(motion), -v0_mps, -v1_mps);
  mirrored.distance_m = -mirrored.distance_m;
  return mirrored;
}

TerminalSpeed terminal_speed(const QuadraticMotion& motion, double v0_mps) {
  const double a0 = acceleration_mps2(motion, v0_mps);
  if (a0 == 0.0) return {true, v0_mps};
  if (a0 > 0.0) return terminal_above(motion, v0_mps, a0);
  const TerminalSpeed mirrored = terminal_above(reversed(motion), -v0_mps, -a0);
  return {mirrored.exists, mirrored.exists ? -mirrored.speed_mps : 0.0};
}

}  // namespace tillerline
