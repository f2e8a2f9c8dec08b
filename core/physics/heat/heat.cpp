#include "physics/heat/heat.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "physics/heat/specific_heat_fit.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline {
namespace {

using namespace elementary;

using namespace specific_heat_fit;

template <int count>
double polynomial(const double (&coefficient)[count], double x) {
  double value = 0.0;
  for (int i = count - 1; i >= 0; --i) value = value * x + coefficient[i];
  return value;
}

template <int count>
double polynomial_integral(const double (&coefficient)[count], double x) {
  double value = 0.0;
  for (int i = count - 1; i >= 0; --i) value = value * x + coefficient[i] / (i + 1);
  return value * x;
}

double carbon_heat_content(double temperature_k) {
  constexpr double kScale = kGasConstant_jpmolk / kCarbonMolarMass_kgpmol;
  const double low = std::min(temperature_k, kSplit_k);
  double sum = polynomial_integral(kLow, low) - polynomial_integral(kLow, units::kZeroCelsius_k);
  const double high = std::min(temperature_k, kHottest_k);
  if (high > kSplit_k)
    sum += polynomial_integral(kHigh, high) - polynomial_integral(kHigh, kSplit_k);
  if (temperature_k > kHottest_k)
    sum += polynomial(kHigh, kHottest_k) * (temperature_k - kHottest_k);
  return kScale * sum;
}

double steel_heat_content(double temperature_k) {
  const double celsius = units::celsius_from_kelvin(temperature_k);
  const double low = std::min(celsius, kSteelTop_c);
  double sum = polynomial_integral(kSteel, low);
  if (celsius > kSteelTop_c) sum += polynomial(kSteel, kSteelTop_c) * (celsius - kSteelTop_c);
  return sum;
}

double heat_capacity_jpk(const HeatPack& pack, double temperature_k) {
  return pack.mass_kg * specific_heat_jpkgk(pack.material, temperature_k);
}

double radiation_factor(const HeatPack& pack) {
  return pack.emissivity * units::kStefanBoltzmann_wpm2k4 * pack.area_m2;
}

double fourth_power(double x) { return x * x * x * x; }

// Time from one temperature to another on one smooth piece, the balance temperature not between.
double quadrature_time_s(const HeatPack& pack, double from_k, double to_k, double power_w) {
  return gauss_integral(kGauss8, from_k, to_k, [&](double t_k) {
    return heat_capacity_jpk(pack, t_k) / (power_w - cooling_power_w(pack, t_k));
  });
}

// The integrand grows like 1/(T - balance): equal ratios of the distance to it per piece, and a
// break where the specific heat changes its polynomial.
double split_time_s(const HeatPack& pack, double from_k, double to_k, double power_w,
                    double balance_k) {
  constexpr double kRatio = 1.6;
  const double low = std::min(from_k, to_k);
  const double high = std::max(from_k, to_k);
  const double knot_k =
      pack.material == BrakeMaterial::Carbon ? kSplit_k : units::kelvin_from_celsius(kSteelTop_c);
  double time_s = 0.0;
  double t_k = from_k;
  const bool upward = to_k > from_k;
  while (t_k != to_k) {
    const double away = t_k - balance_k;
    double next = balance_k + away / kRatio;
    if (knot_k > low && knot_k < high && (t_k < knot_k) != (next < knot_k) && t_k != knot_k)
      next = knot_k;
    if ((next - to_k) * (upward ? 1.0 : -1.0) >= 0.0) next = to_k;
    time_s += quadrature_time_s(pack, t_k, next, power_w);
    t_k = next;
  }
  return time_s;
}

// Warming (negative: cooling), K/s.
double warming_kps(const HeatPack& pack, double temperature_k, double power_w) {
  return (power_w - cooling_power_w(pack, temperature_k)) / heat_capacity_jpk(pack, temperature_k);
}

// Where it is after `time_s`, nearly: one classical Runge-Kutta step for a time that is short
// against the time constant, else the exponential approach with the rate of the start.
double first_guess_k(const HeatPack& pack, double from_k, double time_s, double power_w,
                     double balance_k) {
  const double away = from_k - balance_k;
  const double k1 = warming_kps(pack, from_k, power_w);
  if (std::abs(k1 * time_s) > 0.2 * std::abs(away))
    return balance_k + away * exponential(k1 / away * time_s);
  const double k2 = warming_kps(pack, from_k + 0.5 * time_s * k1, power_w);
  const double k3 = warming_kps(pack, from_k + 0.5 * time_s * k2, power_w);
  const double k4 = warming_kps(pack, from_k + time_s * k3, power_w);
  return from_k + time_s / 6.0 * (k1 + 2.0 * (k2 + k3) + k4);
}

}  // namespace

HeatPack heat_pack(const Aircraft& aircraft, double air_k, bool fans_on) {
  const bool fans = fans_on && aircraft.fan_convection_wpm2k > 0.0;
  return {
      .material = aircraft.brake_material,
      .mass_kg = aircraft.heat_pack_mass_kg,
      .area_m2 = aircraft.brake_area_m2,
      .emissivity = aircraft.brake_emissivity,
      .convection_wpm2k = fans ? aircraft.fan_convection_wpm2k : aircraft.brake_convection_wpm2k,
      .air_k = air_k};
}

double departure_limit_k(const Aircraft& aircraft, const Condition& condition,
                         const Limits& limits) {
  const bool fans = condition.fans_on && aircraft.fan_convection_wpm2k > 0.0;
  return fans ? limits.departure_brake_fans_k : limits.departure_brake_k;
}

double specific_heat_jpkgk(BrakeMaterial material, double temperature_k) {
  if (material == BrakeMaterial::Steel) {
    const double celsius = units::celsius_from_kelvin(temperature_k);
    return polynomial(kSteel, std::min(celsius, kSteelTop_c));
  }
  const double t_k = std::clamp(temperature_k, kColdest_k, kHottest_k);
  return kGasConstant_jpmolk / kCarbonMolarMass_kgpmol *
         polynomial(t_k <= kSplit_k ? kLow : kHigh, t_k);
}

double heat_content_jpkg(BrakeMaterial material, double temperature_k) {
  return material == BrakeMaterial::Steel ? steel_heat_content(temperature_k)
                                          : carbon_heat_content(temperature_k);
}

double temperature_after_energy_k(const HeatPack& pack, double temperature_k, double energy_j) {
  if (energy_j <= 0.0) return temperature_k;
  const double target = heat_content_jpkg(pack.material, temperature_k) + energy_j / pack.mass_kg;
  double t_k = temperature_k + energy_j / heat_capacity_jpk(pack, temperature_k);
  double step = t_k;
  while (std::abs(step) > 1e-13 * t_k) {
    step =
        (heat_content_jpkg(pack.material, t_k) - target) / specific_heat_jpkgk(pack.material, t_k);
    t_k -= step;
  }
  return t_k;
}

double cooling_power_w(const HeatPack& pack, double temperature_k) {
  // T^4 - T_a^4 as a product: exact zero at the air's temperature and no cancellation near it.
  const double difference = temperature_k - pack.air_k;
  const double sum = temperature_k + pack.air_k;
  const double squares = temperature_k * temperature_k + pack.air_k * pack.air_k;
  return difference *
         (pack.convection_wpm2k * pack.area_m2 + radiation_factor(pack) * sum * squares);
}

double balance_temperature_k(const HeatPack& pack, double power_w) {
  if (power_w <= 0.0) return pack.air_k;
  const double conduction = pack.convection_wpm2k * pack.area_m2;
  const double radiation = radiation_factor(pack);
  // Each mechanism alone gives an upper bound; from above Newton falls until it has arrived.
  double t_k = 1e9;
  if (conduction > 0.0) t_k = pack.air_k + power_w / conduction;
  if (radiation > 0.0)
    t_k = std::min(t_k, square_root(square_root(fourth_power(pack.air_k) + power_w / radiation)));
  double before_k = std::numeric_limits<double>::infinity();
  while (t_k < before_k) {
    before_k = t_k;
    const double slope = conduction + 4.0 * radiation * t_k * t_k * t_k;
    t_k -= (cooling_power_w(pack, t_k) - power_w) / slope;
  }
  return before_k;
}

CoolingTime time_between_temperatures(const HeatPack& pack, double from_k, double to_k,
                                      double power_w) {
  if (from_k == to_k) return {true, 0.0};
  const double balance_k = balance_temperature_k(pack, power_w);
  const bool moves_up = from_k < balance_k;
  const bool wants_up = to_k > from_k;
  const bool beyond = moves_up ? to_k >= balance_k : to_k <= balance_k;
  if (moves_up != wants_up || beyond) return {};
  return {true, split_time_s(pack, from_k, to_k, power_w, balance_k)};
}

double temperature_after_time_k(const HeatPack& pack, double from_k, double time_s,
                                double power_w) {
  if (time_s <= 0.0) return from_k;
  const double balance_k = balance_temperature_k(pack, power_w);
  if (std::abs(from_k - balance_k) < 1e-9) return balance_k;
  double near_k = balance_k;  // the answer lies between `near_k` and `far_k`
  double far_k = from_k;
  double t_k = first_guess_k(pack, from_k, time_s, power_w, balance_k);
  if (t_k == from_k || t_k == balance_k) t_k = 0.5 * (from_k + balance_k);
  for (int i = 0; i < 100; ++i) {
    const double error_s = split_time_s(pack, from_k, t_k, power_w, balance_k) - time_s;
    if (error_s > 0.0)
      near_k = t_k;
    else
      far_k = t_k;
    // Newton in the logarithm of the distance to balance, in which the time is nearly linear: plain
    // Newton creeps, and seems to have arrived, when the guess is too close to balance.
    const double gap_k = t_k - balance_k;
    const double step = -error_s * warming_kps(pack, t_k, power_w) / gap_k;
    double next = balance_k + gap_k * exponential(step);
    // Before the bracket is asked: arrived, the last digit of `next` may lie outside it.
    if (std::abs(next - t_k) <= 1e-13 * t_k) return next;
    const double low = std::min(near_k, far_k);
    const double high = std::max(near_k, far_k);
    if (!(next > low && next < high)) next = 0.5 * (low + high);
    // It converges with the square of the step: one this small leaves the last digit only.
    else if (std::abs(step) < 1e-8)
      return next;
    t_k = next;
  }
  return t_k;
}

}  // namespace tillerline
