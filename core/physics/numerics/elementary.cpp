#include "physics/numerics/elementary.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline::elementary {

double sine(double angle_rad) { return std::sin(angle_rad); }
double cosine(double angle_rad) { return std::cos(angle_rad); }
double tangent(double angle_rad) { return std::tan(angle_rad); }
double arcsine(double x) { return std::asin(std::clamp(x, -1.0, 1.0)); }
double arccosine(double x) { return std::acos(std::clamp(x, -1.0, 1.0)); }
double arctangent(double x) { return std::atan(x); }
double arctangent2(double y, double x) { return std::atan2(y, x); }
double exponential(double x) { return std::exp(x); }
double exponential_minus_one(double x) { return std::expm1(x); }
double natural_log(double x) { return std::log(x); }
double log_one_plus(double x) { return std::log1p(x); }
double error_complement(double x) { return std::erfc(x); }
double square_root(double x) { return std::sqrt(x); }
// Not std::hypot: its last bit differs between C libraries, this form does not.
double hypotenuse(double x, double y) { return std::sqrt(x * x + y * y); }
double fused_multiply_add(double a, double b, double c) { return std::fma(a, b, c); }

}  // namespace tillerline::elementary
