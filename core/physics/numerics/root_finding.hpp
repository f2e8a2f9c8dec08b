// The zero of a continuous function between two points where its sign differs.
//
// False position with the Illinois correction, and a bisection whenever a step did not halve the
// bracket or a value is not finite: never leaves the bracket, at most 200 evaluations,
// deterministic.
#pragma once

#include <limits>

namespace tillerline {

// `low` and `high` bracket the zero, with these values there: they have different signs (or one is
// zero). Returns the middle of the bracket once that has shrunk to rounding, or below `within`:
// then no step ends nearer than half of that to an end, so that one step beyond the zero ends the
// search.
template <class Function>
double find_zero_between(double low, double f_low, double high, double f_high, Function&& f,
                         double within = 0.0) {
  if (f_low == 0.0) return low;
  if (f_high == 0.0) return high;
  int last_side = 0;
  const double infinity = std::numeric_limits<double>::infinity();
  for (int i = 0; i < 200; ++i) {
    const double width = high - low;
    if (width <= within) break;
    const double middle = low + 0.5 * width;
    if (middle <= low || middle >= high) break;
    const bool finite =
        f_low > -infinity && f_low < infinity && f_high > -infinity && f_high < infinity;
    double x = finite ? (low * f_high - high * f_low) / (f_high - f_low) : middle;
    if (x < low + 0.5 * within) x = low + 0.5 * within;
    if (x > high - 0.5 * within) x = high - 0.5 * within;
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

// The same where the values at the ends are not known yet, to rounding.
template <class Function>
double find_zero(double low, double high, Function&& f) {
  const double f_low = f(low);
  const double f_high = f(high);
  return find_zero_between(low, f_low, high, f_high, f);
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
