#include "physics/world/atmosphere.hpp"

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

constexpr double kSeaLevelTemperature_k = 288.15;
constexpr double kSeaLevelPressure_pa = 101325.0;
constexpr double kLapse_kpm = 0.0065;
constexpr double kGasConstant_jpkgk = 287.05287;
constexpr double kHeatCapacityRatio = 1.4;

double pressure_ratio(double altitude_m) {
  const double exponent = units::kGravity_mps2 / (kLapse_kpm * kGasConstant_jpkgk);
  const double temperature_drop = -kLapse_kpm * altitude_m / kSeaLevelTemperature_k;
  return elementary::exponential(exponent * elementary::log_one_plus(temperature_drop));
}

Air air_from(double pressure_pa, double temperature_k) {
  return {.temperature_k = temperature_k,
          .pressure_pa = pressure_pa,
          .density_kgpm3 = pressure_pa / (kGasConstant_jpkgk * temperature_k),
          .sound_speed_mps =
              elementary::square_root(kHeatCapacityRatio * kGasConstant_jpkgk * temperature_k)};
}

}  // namespace

Air standard_air(double altitude_m) {
  return air_from(kSeaLevelPressure_pa * pressure_ratio(altitude_m),
                  kSeaLevelTemperature_k - kLapse_kpm * altitude_m);
}

Air day_air(double elevation_m, double qnh_pa, double temperature_k) {
  // QNH is the sea-level pressure of the standard-shaped column that has the station's pressure at
  // the station: shift the altitude by the pressure altitude of the QNH itself.
  const double inverse_exponent = kLapse_kpm * kGasConstant_jpkgk / units::kGravity_mps2;
  const double qnh_temperature_ratio = elementary::exponential(
      inverse_exponent * elementary::natural_log(qnh_pa / kSeaLevelPressure_pa));
  const double qnh_altitude_m = kSeaLevelTemperature_k / kLapse_kpm * (1.0 - qnh_temperature_ratio);
  const double pressure_pa = kSeaLevelPressure_pa * pressure_ratio(qnh_altitude_m + elevation_m);
  return air_from(pressure_pa, temperature_k);
}

}  // namespace tillerline
