// The zero of a continuous function between two points where its sign differs.
//
// False position with the Illinois correction, and a bisection whenever a step did not halve the
// bracket or a value is not finite: never leaves the bracket, at most 200 evaluations,
// deterministic.
#pragma once

#include <limits>

namespace tillerline {

// `low` and `high` bracket the zero: f(low) and f(high) have different signs (or one is zero).
// Returns the point where the bracket has shrunk to rounding.
template <class Function>
double find_zero(double low, double high, Function&& f) {
  double f_low = f(low);
  double f_high = f(high);
  if (f_low == 0.0) return low;
  if (f_high == 0.0) return high;
  int last_side = 0;
  const double infinity = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 200; ++i) {
    const double width = high - low;
    const double middle = low + 0.5 * width;
    if (middle <= low || middle >= high) break;
    const bool finite =
        f_low > -infinity && f_low < infinity && f_high > -infinity && f_high < infinity;
    double x = finite ? (low * f_high - high * f_low) / (f_high - f_low) : middle;
    if (!(x > low && x < high) || i % 4 == 3) x = middle;
    const double fx = f(x);
    if (fx == 0.0) return x;
    if ((fx > 0.0) == (f_high > 0.0)) {
      high = x;
      f_high = fx;
      if (last_side == 1) f_low *= 0.5;
      last_side = 1;
    } else {
      low = x;
      f_low = fx;
      if (last_side == -1) f_high *= 0.5;
      last_side = -1;
    }
    const double scale = (low < 0 ? -low : low) + (high < 0 ? -high : high);
    if (high - low <= 4.0 * std::numeric_limits<double>::epsilon() * scale) break;
  }
  return low + 0.5 * (high - low);
}

// Where a smooth function with one peak between the two points is largest (golden section).
template <class Function>
double find_peak(double low, double high, Function&& f) {
  constexpr double kGolden = 0.61803398874989485;
  double a = high - kGolden * (high - low);
  double b = low + kGolden * (high - low);
  double fa = f(a);
  double fb = f(b);
  for (int i = 0; i < 60 && high - low > 1e-9 * (1.0 + (high < 0 ? -high : high)); ++i) {
    if (fa < fb) {
      low = a;
      a = b;
      fa = fb;
      b = low + kGolden * (high - low);
      fb = f(b);
    } else {
      high = b;
      b = a;
      fb = fa;
      a = high - kGolden * (high - low);
      fa = f(a);
    }
  }
  return 0.5 * (low + high);
}

}  // namespace tillerline
