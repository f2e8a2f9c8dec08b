#include "physics/uncertainty/batch_heat.hpp"

#include <algorithm>

#include "physics/heat/specific_heat_fit.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

using namespace specific_heat_fit;

inline double carbon_jpkgk(double t_k) {
  const double t = std::max(t_k, kColdest_k);
  const double low = kLow[0] + t * (kLow[1] + t * (kLow[2] + t * (kLow[3] + t * kLow[4])));
  const double high = kHigh[0] + t * (kHigh[1] + t * (kHigh[2] + t * (kHigh[3] + t * kHigh[4])));
  return kGasConstant_jpmolk / kCarbonMolarMass_kgpmol * (t <= kSplit_k ? low : high);
}

inline double steel_jpkgk(double t_k) {
  const double c = std::min(t_k - units::kZeroCelsius_k, kSteelTop_c);
  return kSteel[0] + c * (kSteel[1] + c * (kSteel[2] + c * kSteel[3]));
}

// dT/dt of one lane.
template <double (*heat_jpkgk)(double)>
inline double rate_kps(const BatchPack& pack, double mass_kg, double area_m2, double power_w,
                       double t_k) {
  const double difference = t_k - pack.air_k;
  const double radiation = pack.emissivity * units::kStefanBoltzmann_wpm2k4 * (t_k + pack.air_k) *
                           (t_k * t_k + pack.air_k * pack.air_k);
  const double cooling_w = area_m2 * difference * (pack.convection_wpm2k + radiation);
  return (power_w - cooling_w) / (mass_kg * heat_jpkgk(t_k));
}

template <double (*heat_jpkgk)(double)>
void step(const BatchPack& pack, const Lanes& power_w, double dt, Lanes& temperature_k) {
  for (int i = 0; i < kLanes; ++i) {
    const double m = pack.mass_kg[i];
    const double area = pack.area_m2[i];
    const double p = power_w[i];
    const double t = temperature_k[i];
    const double k1 = rate_kps<heat_jpkgk>(pack, m, area, p, t);
    const double k2 = rate_kps<heat_jpkgk>(pack, m, area, p, t + 0.5 * dt * k1);
    const double k3 = rate_kps<heat_jpkgk>(pack, m, area, p, t + 0.5 * dt * k2);
    const double k4 = rate_kps<heat_jpkgk>(pack, m, area, p, t + dt * k3);
    temperature_k[i] = t + dt / 6.0 * (k1 + 2.0 * (k2 + k3) + k4);
  }
}

}  // namespace

BatchPack batch_pack(const HeatPack& pack) {
  return {.material = pack.material,
          .mass_kg = same_in_all_lanes(pack.mass_kg),
          .area_m2 = same_in_all_lanes(pack.area_m2),
          .emissivity = pack.emissivity,
          .convection_wpm2k = pack.convection_wpm2k,
          .air_k = pack.air_k};
}

void batch_heat(const BatchPack& pack, const Lanes& power_w, double time_s, int steps,
                Lanes& temperature_k) {
  const double dt = time_s / steps;
  for (int n = 0; n < steps; ++n) {
    if (pack.material == BrakeMaterial::Carbon)
      step<carbon_jpkgk>(pack, power_w, dt, temperature_k);
    else
      step<steel_jpkgk>(pack, power_w, dt, temperature_k);
  }
}

}  // namespace tillerline
