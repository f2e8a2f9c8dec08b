#include "physics/uncertainty/batch_heat.hpp"

#include <algorithm>

#include "physics/heat/specific_heat_fit.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

using namespace specific_heat_fit;

inline double carbon_jpkgk(double t_k) {
  const double t = std::min(std::max(t_k, kColdest_k), kHottest_k);
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

// The greatest rate at which any lane may go towards its balance, 1/s: the slope of what cools it,
// at the hottest that it gets in `time_s`, over the least that warms it.
template <double (*heat_jpkgk)(double)>
double stiffness_ps(const BatchPack& pack, const Lanes& power_w, double time_s,
                    const Lanes& temperature_k) {
  double most = 0.0;
  for (int i = 0; i < kLanes; ++i) {
    const double cold_k = std::min(temperature_k[i], pack.air_k);
    const double capacity_jpk = pack.mass_kg[i] * heat_jpkgk(cold_k);
    const double hot_k =
        std::max(temperature_k[i], pack.air_k) + power_w[i] * time_s / capacity_jpk;
    const double radiation =
        4.0 * pack.emissivity * units::kStefanBoltzmann_wpm2k4 * hot_k * hot_k * hot_k;
    most = std::max(most, pack.area_m2[i] * (pack.convection_wpm2k + radiation) / capacity_jpk);
  }
  return most;
}

// (1 - e^-x) / x for x >= 0, from the 1024th part of x: good to 1e-9.
inline double phi_of_fall(double x) {
  constexpr int kHalvings = 10;
  const double least = std::max(x, 1e-9);
  const double y = least / (1 << kHalvings);
  double grown = 1.0 + y * (1.0 + y / 2.0 * (1.0 + y / 3.0 * (1.0 + y / 4.0)));
  for (int k = 0; k < kHalvings; ++k) grown *= grown;
  return (1.0 - 1.0 / grown) / least;
}

// One exponential step (Rosenbrock and Euler's): exact where the cooling is linear.
template <double (*heat_jpkgk)(double)>
void exponential_step(const BatchPack& pack, const Lanes& power_w, double dt,
                      Lanes& temperature_k) {
  for (int i = 0; i < kLanes; ++i) {
    const double t = temperature_k[i];
    const double rate = rate_kps<heat_jpkgk>(pack, pack.mass_kg[i], pack.area_m2[i], power_w[i], t);
    const double slope = pack.area_m2[i] *
                         (pack.convection_wpm2k +
                          4.0 * pack.emissivity * units::kStefanBoltzmann_wpm2k4 * t * t * t) /
                         (pack.mass_kg[i] * heat_jpkgk(t));
    temperature_k[i] = t + dt * rate * phi_of_fall(slope * dt);
  }
}

template <double (*heat_jpkgk)(double)>
void carry_on(const BatchPack& pack, const Lanes& power_w, double dt, int steps,
              Lanes& temperature_k) {
  constexpr double kMostOfRate = 0.8;
  constexpr int kParts = 8;
  const auto short_enough = [&](double time_s) {
    return dt * stiffness_ps<heat_jpkgk>(pack, power_w, time_s, temperature_k) <= kMostOfRate;
  };
  const bool all_short = short_enough(dt * steps);  // then each of them is
  for (int n = 0; n < steps; ++n) {
    if (all_short || short_enough(dt)) {
      step<heat_jpkgk>(pack, power_w, dt, temperature_k);
      continue;
    }
    for (int part = 0; part < kParts; ++part)
      exponential_step<heat_jpkgk>(pack, power_w, dt / kParts, temperature_k);
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
  if (pack.material == BrakeMaterial::Carbon)
    carry_on<carbon_jpkgk>(pack, power_w, dt, steps, temperature_k);
  else
    carry_on<steel_jpkgk>(pack, power_w, dt, steps, temperature_k);
}

}  // namespace tillerline
