#include "physics/world/engines.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"
#include "physics/world/tyre.hpp"

namespace tillerline {
namespace {

using elementary::square_root;

constexpr double kStandardPressure_pa = 101325.0;
constexpr double kStandardTemperature_k = 288.15;

int engines_off(const Aircraft& aircraft, const Condition& condition) {
  return aircraft.engine_count - condition.engines_running;
}

// Arm of a pair, counted from the innermost, 0.
double pair_arm_m(const Aircraft& aircraft, int pair) {
  const int steps = std::max(1, aircraft.engine_count / 2 - 1);
  return aircraft.inner_engine_arm_m +
         (aircraft.outer_engine_arm_m - aircraft.inner_engine_arm_m) * pair / steps;
}

}  // namespace

IdleThrust idle_thrust(const Aircraft& aircraft, const Condition& condition, const Air& air) {
  const double delta = air.pressure_pa / kStandardPressure_pa;
  const double theta = air.temperature_k / kStandardTemperature_k;
  const double engines = condition.engines_running;
  const double raised = condition.engine_anti_ice ? 1.0 + aircraft.anti_ice_thrust_share : 1.0;
  return {.standing_n = engines * delta * raised * aircraft.idle_thrust_n,
          .fall_nspm = engines * delta * square_root(raised / theta) * aircraft.idle_air_flow_kgps};
}

ThrustYaw thrust_yaw(const Aircraft& aircraft, const Condition& condition, double thrust_n,
                     double grip) {
  const int off = engines_off(aircraft, condition);
  ThrustYaw yaw;
  yaw.even = aircraft.engine_count % 2 == 1 || off % 2 == 0;
  if (yaw.even) return yaw;
  const int broken_pair = aircraft.engine_count / 2 - 1 - off / 2;
  yaw.arm_m = pair_arm_m(aircraft, broken_pair);
  yaw.moment_nm = thrust_n / condition.engines_running * yaw.arm_m;
  yaw.nose_side_force_n = yaw.moment_nm / aircraft.wheelbase_m;
  const double nose_load_n =
      (1.0 - aircraft.main_gear_load_share) * condition.mass_kg * units::kGravity_mps2;
  yaw.nose_grip_needed = yaw.nose_side_force_n / nose_load_n;
  yaw.steering_rad =
      slip_for_side_force_rad(yaw.nose_grip_needed, aircraft.cornering_stiffness_prad, grip);
  return yaw;
}

double fuel_flow_kgps(const Aircraft& aircraft, const Condition& condition, double extra_thrust_n) {
  const double raised = condition.engine_anti_ice ? 1.0 + aircraft.anti_ice_fuel_share : 1.0;
  return condition.engines_running * raised * aircraft.idle_fuel_flow_kgps +
         extra_thrust_n * aircraft.fuel_per_extra_thrust_kgpns;
}

double time_to_all_warm_s(const Aircraft& aircraft, const Condition& condition) {
  const int off = engines_off(aircraft, condition);
  return off > 0 ? off * aircraft.engine_start_s + aircraft.engine_warm_up_s : 0.0;
}

}  // namespace tillerline
