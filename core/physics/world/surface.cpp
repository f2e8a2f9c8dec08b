#include "physics/world/surface.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

constexpr double kPsi_pa = 6894.757293168361;  // lbf/in^2, from the exact pound, inch and g
constexpr double kLooseAbove_m = 0.003;
constexpr double kColdSnow_k = units::kelvin_from_celsius(-15.0);
constexpr double kAntiSkid = 0.8;
constexpr double kDryGrip = 0.7;
constexpr double kDisplacementDrag = 0.75;
constexpr double kSnowTests_mps = 65.0 / 3.6;  // middle of the tests of rolling through dry snow
constexpr int kNoseWheels = 2;
constexpr int kWinterCode = 3;        // speeds are cut on this code and worse
constexpr double kBrakingKept = 0.8;  // of what the surface gives, for the planned deceleration

double psi_from_pascal(double pressure_pa) { return pressure_pa / kPsi_pa; }

struct WetCubic {
  double pressure_psi;
  double cube, square, linear, constant;

  double at(double x) const { return constant + x * (linear + x * (square + x * cube)); }
};

constexpr WetCubic kWet[] = {{50.0, -0.0350, 0.306, -0.851, 0.883},
                             {100.0, -0.0437, 0.320, -0.805, 0.804},
                             {200.0, -0.0331, 0.252, -0.658, 0.692},
                             {300.0, -0.0401, 0.263, -0.611, 0.614}};

// Of a contaminant that can lie deep; 0 for all else.
double density_of_kgpm3(Surface surface) {
  switch (surface) {
    case Surface::StandingWater:
      return 1000.0;
    case Surface::Slush:
      return 850.0;
    case Surface::WetSnow:
      return 500.0;
    case Surface::DrySnow:
      return 80.0;
    default:
      return 0.0;
  }
}

// Drag of the rows of a bogie behind its first, over that of the first.
double rear_rows(int axles) {
  if (axles <= 1) return 0.0;
  return axles == 2 ? 1.0 : 1.1;
}

double dry_friction(double pressure_psi, double speed_kt) {
  return 0.912 * (1.0 - 0.0011 * pressure_psi) - 0.00079 * speed_kt;
}

// By condition code alone, the lower of a code's own value and that of every better code.
double friction_of_code(int code, double pressure_pa, double speed_mps) {
  const double speed_kt = units::knots_from_mps(speed_mps);
  double friction =
      std::min(kDryGrip, kAntiSkid * dry_friction(psi_from_pascal(pressure_pa), speed_kt));
  if (code > 5) return friction;
  const double wet = kAntiSkid * wet_friction(pressure_pa, speed_mps);
  friction = std::min(friction, wet);
  if (code <= 4) friction = std::min(friction, 0.20);
  if (code <= 3) friction = std::min(friction, 0.16);
  if (code <= 2) {
    const bool floats = speed_mps > 0.85 * aquaplaning_speed_mps(pressure_pa);
    friction = std::min(friction, floats ? 0.05 : 0.5 * wet);
  }
  if (code <= 1) friction = std::min(friction, 0.07);
  if (code <= 0) friction = std::min(friction, 0.03);
  return friction;
}

// Largest side force per load of a yawed tyre on a wet pavement.
double wet_cornering(double pressure_pa, double speed_mps) {
  const double wet = (0.91 - 0.001 * psi_from_pascal(pressure_pa)) *
                     (1.0 - 0.0052 * units::knots_from_mps(speed_mps));
  return wet * (0.64 + 0.15 * wet);
}

}  // namespace

int condition_code(Surface surface, double depth_m, double temperature_k) {
  const bool deep = depth_m > kLooseAbove_m;
  switch (surface) {
    case Surface::Dry:
      return 6;
    case Surface::Wet:
      return 5;
    case Surface::StandingWater:
    case Surface::Slush:
      return deep ? 2 : 5;
    case Surface::WetSnow:
    case Surface::DrySnow:
      return deep ? 3 : 5;
    case Surface::CompactedSnow:
      return temperature_k <= kColdSnow_k ? 4 : 3;
    case Surface::Slippery:
      return 3;
    case Surface::Ice:
      return 1;
    default:  // wet ice
      return 0;
  }
}

double wet_friction(double tyre_pressure_pa, double ground_speed_mps) {
  const double x = units::knots_from_mps(ground_speed_mps) / 100.0;
  const double psi = psi_from_pascal(tyre_pressure_pa);
  int i = 0;
  while (i < 2 && psi > kWet[i + 1].pressure_psi) ++i;
  const WetCubic& low = kWet[i];
  const WetCubic& high = kWet[i + 1];
  const double share =
      std::clamp((psi - low.pressure_psi) / (high.pressure_psi - low.pressure_psi), 0.0, 1.0);
  return low.at(x) + share * (high.at(x) - low.at(x));
}

double aquaplaning_speed_mps(double tyre_pressure_pa) {
  return units::mps_from_knots(9.0 * elementary::square_root(psi_from_pascal(tyre_pressure_pa)));
}

double tyre_displacement_drag_nspm2(double tyre_width_m, double tyre_deflection_m, double depth_m,
                                    double density_kgpm3) {
  const double sunk = std::min(0.5, (tyre_deflection_m + depth_m) / tyre_width_m);
  const double chord_m = 2.0 * tyre_width_m * elementary::square_root(sunk - sunk * sunk);
  return 0.5 * density_kgpm3 * chord_m * depth_m * kDisplacementDrag;
}

double default_friction(Surface surface, double ground_speed_mps) {
  const double x = units::knots_from_mps(ground_speed_mps) / 100.0;
  switch (surface) {
    case Surface::StandingWater:
    case Surface::Slush:
      return 0.3485 + x * (-0.4321 + x * (0.2683 - x * 0.0632));
    case Surface::WetSnow:
    case Surface::DrySnow:
      return 0.17;
    case Surface::CompactedSnow:
      return 0.20;
    case Surface::Ice:
    case Surface::WetIce:
      return 0.05;
    default:
      return 1.0;
  }
}

PavementState pavement_state(const Aircraft& aircraft, const Day& day) {
  PavementState state;
  state.surface = day.surface;
  state.surface_code = condition_code(day.surface, day.contaminant_depth_m, day.temperature_k);
  state.reported_worse =
      day.reported_code != kNoReportedCode && day.reported_code < state.surface_code;
  state.condition_code = state.reported_worse ? day.reported_code : state.surface_code;
  state.tyre_pressure_pa = aircraft.tyre_pressure_pa;
  state.density_kgpm3 = density_of_kgpm3(day.surface);
  if (state.density_kgpm3 <= 0.0) return state;
  state.depth_m = day.contaminant_depth_m;
  state.loose = state.depth_m > kLooseAbove_m;
  if (!state.loose) return state;
  const double first_row = static_cast<double>(aircraft.main_wheel_count) / aircraft.bogie_axles;
  const double behind = first_row * rear_rows(aircraft.bogie_axles);
  const double wheels = first_row + behind + kNoseWheels;
  state.rear_rows_share = behind / wheels;
  const double square_nspm2 =
      wheels * tyre_displacement_drag_nspm2(aircraft.tyre_width_m, aircraft.tyre_deflection_m,
                                            state.depth_m, state.density_kgpm3);
  if (day.surface == Surface::DrySnow)
    state.snow_drag_nspm = square_nspm2 * kSnowTests_mps;
  else
    state.displacement_drag_nspm2 = square_nspm2;
  state.start_modelled = day.surface == Surface::StandingWater;
  return state;
}

double braking_friction(const PavementState& pavement, double ground_speed_mps) {
  const double by_code =
      friction_of_code(pavement.condition_code, pavement.tyre_pressure_pa, ground_speed_mps);
  // A thin layer of what can lie deep counts as wet.
  const bool thin = pavement.density_kgpm3 > 0.0 && !pavement.loose;
  return thin ? by_code : std::min(by_code, default_friction(pavement.surface, ground_speed_mps));
}

double side_grip(const PavementState& pavement, double ground_speed_mps) {
  if (pavement.condition_code > 5) return kDryGrip;
  return std::min(wet_cornering(pavement.tyre_pressure_pa, ground_speed_mps),
                  braking_friction(pavement, ground_speed_mps));
}

double grip_in_turn(const PavementState& pavement, const Limits& limits, const Leg& arc) {
  double fastest_mps = operator_turn_limit_mps(limits, arc.turn_rad);
  if (arc.speed_limit_mps > 0.0) fastest_mps = std::min(fastest_mps, arc.speed_limit_mps);
  return side_grip(pavement, fastest_mps);
}

double braked_load_share(const Aircraft& aircraft, const Condition& condition) {
  const double working = aircraft.brake_count - condition.brakes_inoperative;
  return aircraft.main_gear_load_share * std::min(1.0, working / aircraft.main_wheel_count);
}

SurfaceLimits limits_on_surface(const Aircraft& aircraft, const Condition& condition,
                                const Limits& given, const Technique& technique,
                                const PavementState& pavement) {
  const bool winter = pavement.condition_code <= kWinterCode;
  const auto cut = [winter](double speed_mps, double winter_mps) {
    return winter ? std::min(speed_mps, winter_mps) : speed_mps;
  };
  SurfaceLimits limits;
  limits.straight_speed_mps = cut(given.straight_speed_mps, given.winter_straight_speed_mps);
  limits.sharp_turn_speed_mps = cut(given.sharp_turn_speed_mps, given.winter_turn_speed_mps);
  limits.gentle_turn_speed_mps = cut(given.gentle_turn_speed_mps, given.winter_turn_speed_mps);
  limits.speeds_cut = limits.straight_speed_mps < given.straight_speed_mps ||
                      limits.sharp_turn_speed_mps < given.sharp_turn_speed_mps ||
                      limits.gentle_turn_speed_mps < given.gentle_turn_speed_mps;
  const double top_mps = std::min(technique.band_top_mps, limits.straight_speed_mps);
  limits.planned_deceleration_mps2 = technique.deceleration_mps2;
  limits.braking_friction = braking_friction(pavement, top_mps);
  limits.most_deceleration_mps2 =
      limits.braking_friction * braked_load_share(aircraft, condition) * units::kGravity_mps2;
  limits.deceleration_mps2 =
      std::min(limits.planned_deceleration_mps2, kBrakingKept * limits.most_deceleration_mps2);
  limits.braking_cut = limits.deceleration_mps2 < limits.planned_deceleration_mps2;
  return limits;
}

void tighten_for_surface(const SurfaceLimits& by, Limits& limits, Technique& technique) {
  limits.straight_speed_mps = by.straight_speed_mps;
  limits.sharp_turn_speed_mps = by.sharp_turn_speed_mps;
  limits.gentle_turn_speed_mps = by.gentle_turn_speed_mps;
  technique.deceleration_mps2 = by.deceleration_mps2;
}

}  // namespace tillerline
