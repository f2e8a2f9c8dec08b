#include "documents/shown_units.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace tillerline {
namespace {

double power_of_ten(int exponent) {
  double power = 1.0;
  for (int i = 0; i < std::abs(exponent); ++i) power *= 10.0;
  return exponent < 0 ? 1.0 / power : power;
}

// The nearest of 1, 2 and 5 times a power of ten, by ratio.
double round_step(double step) {
  const double power = std::pow(10.0, std::floor(std::log10(step)));
  double best = power;
  for (const double factor : {2.0, 5.0, 10.0}) {
    const double candidate = factor * power;
    const auto off = [step](double s) { return std::fabs(std::log(s / step)); };
    if (off(candidate) < off(best)) best = candidate;
  }
  return best;
}

}  // namespace

ShownNumber shown_number(const NumberAsKept& kept, const ShownUnits& units) {
  const NumberSpec& spec = kept.spec;
  const UnitConversion to =
      spec.difference ? difference_conversion(spec.unit, units) : conversion(spec.unit, units);
  ShownNumber number{to.unit,       kept.range, kept.value, spec.fine_step, spec.coarse_step,
                     spec.decimals, 0.0,        to,         kept.value};
  number.resolution = power_of_ten(to.fewer_decimals - spec.decimals);
  if (to.same()) return number;
  // What arithmetic leaves on a bound that is round in the unit shown must not push it inward.
  constexpr double kSlack = 1e-6;
  const double grid = number.resolution;
  const FieldRange inside{std::ceil(to.shown(kept.range.minimum) / grid - kSlack) * grid,
                          std::floor(to.shown(kept.range.maximum) / grid + kSlack) * grid};
  const FieldRange whole{to.shown(kept.range.minimum), to.shown(kept.range.maximum)};
  number.range = inside.minimum <= inside.maximum ? inside : whole;
  number.value = std::round(to.shown(kept.value) / grid) * grid;
  number.fine_step = std::max(grid, round_step(to.factor * spec.fine_step));
  number.coarse_step = std::max(number.fine_step, round_step(to.factor * spec.coarse_step));
  number.decimals = std::max(0, spec.decimals - to.fewer_decimals);
  return number;
}

double field_value(const ShownNumber& number, double shown) {
  if (number.conversion.same()) return shown;
  if (std::fabs(shown - number.value) < 1e-6 * number.resolution) return number.field_value;
  return number.conversion.original(shown);
}

std::string shown_text(const ShownNumber& number, double shown) {
  if (number.conversion.same()) return format_number(shown, number.decimals);
  return grouped_number(shown, number.decimals);
}

}  // namespace tillerline
