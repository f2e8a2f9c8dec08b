#include "physics/world/tyre.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using namespace elementary;

double axle_position_m(const Bogie& bogie, int axle) {
  return bogie.axle_spacing_m * (axle - 0.5 * (bogie.axles - 1));
}

// Deflection over diameter at `load` times the middle load.
double deflection_over_diameter(double load) { return 0.012 + 0.060 * load; }

// In proportion to the cornering power; no tyre is pressed flatter than to where it ends.
double cornering_power(double deflection) {
  const double x = std::min(deflection, 0.15);
  return x <= 0.0875 ? x * (1.2 - 8.8 * x) : 0.0674 - 0.34 * x;
}

}  // namespace

double stiffness_at_mass_prad(const Aircraft& aircraft, double mass_kg) {
  const double middle_kg = 0.5 * (aircraft.lowest_mass_kg + aircraft.highest_mass_kg);
  const double load = mass_kg / middle_kg;
  return aircraft.cornering_stiffness_prad * cornering_power(deflection_over_diameter(load)) /
         (cornering_power(deflection_over_diameter(1.0)) * load);
}

double pressure_factor(double pressure_share) {
  constexpr double kWithPressure = 0.75;
  return 1.0 - kWithPressure + kWithPressure / pressure_share;
}

double side_force_per_load(double slip_rad, double cornering_stiffness_prad, double grip) {
  if (grip <= 0.0) return 0.0;
  const double scaled = std::abs(cornering_stiffness_prad * slip_rad / grip);
  const double shape = scaled < 1.5 ? scaled * (1.0 - 4.0 / 27.0 * scaled * scaled) : 1.0;
  return slip_rad < 0.0 ? -grip * shape : grip * shape;
}

double slip_for_side_force_rad(double force_per_load, double cornering_stiffness_prad,
                               double grip) {
  const double scaled = 3.0 * sine(arcsine(force_per_load / grip) / 3.0);
  return scaled * grip / cornering_stiffness_prad;
}

BogieScrub bogie_scrub(const Bogie& bogie, double radius_m, double grip) {
  BogieScrub scrub;
  for (int axle = 0; axle < bogie.axles; ++axle) {
    const double x_m = axle_position_m(bogie, axle);
    const double slip_rad = arctangent(x_m / radius_m);
    const double force = side_force_per_load(slip_rad, bogie.cornering_stiffness_prad, grip);
    scrub.moment_m += force * x_m / bogie.axles;
    scrub.axle_drag_sum += force * sine(slip_rad) / bogie.axles;
  }
  scrub.drag = scrub.moment_m / radius_m;
  return scrub;
}

double axle_spread_m2(const Bogie& bogie) {
  double sum = 0.0;
  for (int axle = 0; axle < bogie.axles; ++axle) {
    const double x_m = axle_position_m(bogie, axle);
    sum += x_m * x_m;
  }
  return sum / bogie.axles;
}

double stood_factor(Stood stood) {
  constexpr double kFactor[] = {1.0, 4.0 / 3.0, 5.0 / 3.0};
  return kFactor[static_cast<int>(stood)];
}

}  // namespace tillerline
