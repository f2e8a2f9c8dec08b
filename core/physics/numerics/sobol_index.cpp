#include "physics/numerics/sobol_index.hpp"

namespace tillerline {
namespace {

struct Moments {
  double mean = 0.0;
  double variance = 0.0;
};

Moments moments(const double* of_a, const double* of_b, int count) {
  Moments m;
  for (int k = 0; k < count; ++k) m.mean += of_a[k] + of_b[k];
  m.mean /= 2.0 * count;
  for (int k = 0; k < count; ++k) {
    const double a = of_a[k] - m.mean;
    const double b = of_b[k] - m.mean;
    m.variance += a * a + b * b;
  }
  m.variance /= 2.0 * count;
  return m;
}

}  // namespace

SobolIndex sobol_index(const double* of_a, const double* of_b, const double* of_ab, int count) {
  const Moments m = moments(of_a, of_b, count);
  // Answers that are equal but for rounding do not vary.
  constexpr double kRounding = 1e-26;
  if (m.variance <= kRounding * m.mean * m.mean) return {};
  double first = 0.0;
  double total = 0.0;
  for (int k = 0; k < count; ++k) {
    const double change = of_ab[k] - of_a[k];
    first += (of_b[k] - m.mean) * change;
    total += change * change;
  }
  return {first / count / m.variance, total / (2.0 * count) / m.variance};
}

}  // namespace tillerline
