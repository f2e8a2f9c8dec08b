#include "physics/numerics/quantile.hpp"

#include <algorithm>

namespace tillerline {

Spread spread_of(double* values, int count) {
  if (count == 0) return {};
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
