#include "physics/numerics/quantile.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace tillerline {

Spread spread_of(double* values, int count) {
  if (count == 0) return {};
  // Sorting needs an order, which what is not a number has not.
  constexpr double kNone = std::numeric_limits<double>::quiet_NaN();
  if (!std::all_of(values, values + count, [](double x) { return std::isfinite(x); }))
    return {kNone, kNone, kNone};
  std::sort(values, values + count);
  const auto quantile = [&](double share) {
    const double at = std::clamp(share * count - 0.5, 0.0, count - 1.0);
    const int below = std::min(static_cast<int>(at), std::max(0, count - 2));
    const int above = std::min(below + 1, count - 1);
    return values[below] + (at - below) * (values[above] - values[below]);
  };
  return {quantile(0.1), quantile(0.5), quantile(0.9)};
}

}  // namespace tillerline
