#include "physics/path/wander.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using namespace elementary;

constexpr double kEyeKeepsItsSide_m = 20.0;
constexpr double kNearestEye_m = 1.0;  // of no real aircraft
constexpr double kLeastBend_pm = 1e-3;

double normal_tail(double z) { return 0.5 * error_complement(z / square_root(2.0)); }

// What is no number stays none; less than one in a million is said to be nothing, since so far out
// the tail is a guess.
double as_share(double chance) {
  constexpr double kLeast = 1e-6;
  if (chance < kLeast) return 0.0;
  return chance > 1.0 ? 1.0 : chance;
}

// With one clearance for the main wheels and one for the nose wheels.
double chance_beyond(const Wander& wander, const EdgeMargins& margins, double main_m,
                     double nose_m) {
  const auto chance = [&](const EdgeMargin& edge, double clearance_m) {
    return wander_chance(wander, edge.margin_m - clearance_m, edge.bend_pm);
  };
  return as_share(chance(margins.left_main, main_m) + chance(margins.right_main, main_m) +
                  chance(margins.nose, nose_m));
}

}  // namespace

Wander wander_of(const Aircraft& aircraft, double turn_axis_ahead_m, double sigma_m) {
  const double eye_m = std::max(kNearestEye_m, aircraft.eye_ahead_m - turn_axis_ahead_m);
  return {.sigma_m = sigma_m, .length_m = square_root(eye_m * kEyeKeepsItsSide_m)};
}

double wander_chance(const Wander& wander, double margin_m, double bend_pm) {
  if (wander.sigma_m <= 0.0) return margin_m < 0.0 ? 1.0 : 0.0;
  const double bend = std::max(bend_pm, kLeastBend_pm) * wander.length_m * wander.length_m;
  const double longer = square_root(1.0 + std::max(wander.sigma_m, margin_m) / bend);
  return as_share(normal_tail(margin_m / wander.sigma_m) * longer);
}

WanderChance wander_in_turn(const Wander& wander, const EdgeMargins& margins,
                            const Limits& limits) {
  return {.off_edge = chance_beyond(wander, margins, 0.0, 0.0),
          .below_clearance =
              chance_beyond(wander, margins, limits.edge_clearance_m, limits.nose_clearance_m)};
}

}  // namespace tillerline
