#include "physics/motion/roll.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/world/engines.hpp"

namespace tillerline {
namespace {

using namespace elementary;

double weight_n(const RollForces& forces) { return forces.mass_kg * units::kGravity_mps2; }

double drag_factor(const RollForces& forces) {
  return 0.5 * forces.air_density_kgpm3 * forces.drag_area_m2;
}

// Air drag at standstill, N: positive with a headwind, negative (pushing) with a tailwind.
double standing_air_drag_n(const RollForces& forces) {
  return drag_factor(forces) * forces.headwind_mps * std::abs(forces.headwind_mps);
}

double constant_drag_n(const RollForces& forces) {
  return forces.scrub_drag_n + forces.dragging_brake_n;
}

// N lost per m/s of airspeed; `sign` is that of the airspeed.
double thrust_fall_nspm(const RollForces& forces, double sign) {
  return forces.thrust_fall_nspm * (sign > 0.0 ? 1.0 : forces.overtaken_thrust_share);
}

// What is left at standstill, before any resistance of the ground, N.
double standing_force_n(const RollForces& forces) {
  return idle_thrust_at_n(forces, 0.0) - standing_air_drag_n(forces) - constant_drag_n(forces);
}

// One branch of the law; `sign` is the sign of v + w.
QuadraticMotion branch(const RollForces& f, double sign) {
  const double weight = weight_n(f);
  const double rolling = weight * cosine(f.slope_rad) * f.rolling_resistance;
  const double q = drag_factor(f);
  const double w = f.headwind_mps;
  const double fall = thrust_fall_nspm(f, sign);
  const double constant = f.thrust_n - fall * w - rolling - weight * sine(f.slope_rad) -
                          constant_drag_n(f) - f.cornering_offset_n - sign * q * w * w;
  const double linear = -fall - f.snow_drag_nspm - 2.0 * sign * q * w;
  const double square = -rolling * f.rolling_speed_factor_s2pm2 - f.displacement_drag_nspm2 -
                        f.cornering_drag_nspm2 - sign * q;
  return {constant / f.mass_kg, linear / f.mass_kg, square / f.mass_kg};
}

const QuadraticMotion& branch_at(const RollLaw& law, double speed_mps) {
  return speed_mps < law.split_mps ? law.below : law.above;
}

Passage joined(const Passage& first, const Passage& second) {
  if (!first.reached || !second.reached) return {};
  return {true, first.time_s + second.time_s, first.distance_m + second.distance_m};
}

}  // namespace

RollForces idle_forces(const Aircraft& aircraft, const Condition& condition, const Air& air,
                       double slope_rad, double headwind_mps, double displacement_drag_nspm2,
                       double snow_drag_nspm) {
  const IdleThrust thrust = idle_thrust(aircraft, condition, air);
  return {.mass_kg = condition.mass_kg,
          .thrust_n = thrust.standing_n,
          .thrust_fall_nspm = thrust.fall_nspm,
          .rolling_resistance = aircraft.rolling_resistance,
          .breakaway_resistance = aircraft.breakaway_resistance,
          .rolling_speed_factor_s2pm2 = aircraft.rolling_speed_factor_s2pm2,
          .slope_rad = slope_rad,
          .headwind_mps = headwind_mps,
          .drag_area_m2 = aircraft.drag_area_m2,
          .air_density_kgpm3 = air.density_kgpm3,
          .displacement_drag_nspm2 = displacement_drag_nspm2,
          .snow_drag_nspm = snow_drag_nspm,
          .dragging_brake_n = condition.dragging_brake_n};
}

double idle_thrust_at_n(const RollForces& forces, double speed_mps) {
  const double airspeed_mps = speed_mps + forces.headwind_mps;
  return forces.thrust_n - thrust_fall_nspm(forces, airspeed_mps) * airspeed_mps;
}

RollLaw roll_law(const RollForces& forces) {
  RollLaw law;
  law.above = branch(forces, 1.0);
  law.split_mps = std::max(0.0, -forces.headwind_mps);
  law.below = law.split_mps > 0.0 ? branch(forces, -1.0) : law.above;
  return law;
}

double acceleration_mps2(const RollLaw& law, double speed_mps) {
  return acceleration_mps2(branch_at(law, speed_mps), speed_mps);
}

Passage passage(const RollLaw& law, double v0_mps, double v1_mps) {
  const double low = std::min(v0_mps, v1_mps);
  const double high = std::max(v0_mps, v1_mps);
  if (high <= law.split_mps) return passage(law.below, v0_mps, v1_mps);
  if (low >= law.split_mps) return passage(law.above, v0_mps, v1_mps);
  if (v1_mps > v0_mps)
    return joined(passage(law.below, v0_mps, law.split_mps),
                  passage(law.above, law.split_mps, v1_mps));
  return joined(passage(law.above, v0_mps, law.split_mps),
                passage(law.below, law.split_mps, v1_mps));
}

TerminalSpeed terminal_speed(const RollLaw& law, double v0_mps) {
  const double a0 = acceleration_mps2(law, v0_mps);
  const double split = law.split_mps;
  TerminalSpeed found;
  if (a0 >= 0.0) {
    if (v0_mps < split) {
      found = terminal_speed(law.below, v0_mps);
      if (found.exists && found.speed_mps <= split) return found;
      return terminal_speed(law.above, split);
    }
    return terminal_speed(law.above, v0_mps);
  }
  if (v0_mps > split) {
    found = terminal_speed(law.above, v0_mps);
    if (found.exists && found.speed_mps >= split) return found;
    if (split <= 0.0) return {};
    found = terminal_speed(law.below, split);
  } else {
    found = terminal_speed(law.below, v0_mps);
  }
  if (found.exists && found.speed_mps > 0.0) return found;
  return {};
}

RollOut roll_over_distance(const RollLaw& law, double v0_mps, double distance_m) {
  const double a0 = acceleration_mps2(law, v0_mps);
  if (distance_m <= 0.0) return {false, v0_mps, 0.0, 0.0};
  if (v0_mps <= 0.0 && a0 <= 0.0) return {true, 0.0, 0.0, 0.0};
  if (a0 == 0.0) return {false, v0_mps, distance_m / v0_mps, distance_m};

  double low = v0_mps;
  double high = v0_mps;
  const TerminalSpeed terminal = terminal_speed(law, v0_mps);
  if (a0 > 0.0) {
    const double ballistic = square_root(v0_mps * v0_mps + 2.0 * a0 * distance_m);
    // Resistance never falls with speed: the ballistic speed is not exceeded.
    high = terminal.exists ? terminal.speed_mps : 2.0 * ballistic;
  } else {
    if (!terminal.exists) {
      const Passage to_rest = passage(law, v0_mps, 0.0);
      if (to_rest.reached && to_rest.distance_m <= distance_m)
        return {true, 0.0, to_rest.time_s, to_rest.distance_m};
    }
    low = terminal.exists ? terminal.speed_mps : 0.0;
  }
  // In w = v^2 / 2 the distance is nearly linear: dw/ds = a. Newton there, kept inside the bracket.
  double v = square_root(std::max(0.0, v0_mps * v0_mps + 2.0 * a0 * distance_m));
  if (!(v > low && v < high)) v = 0.5 * (low + high);
  Passage p;
  for (int i = 0; i < 200; ++i) {
    p = passage(law, v0_mps, v);
    const double missing = p.reached ? distance_m - p.distance_m : -1.0;
    const bool v_is_too_far = !p.reached || missing < 0.0;
    if ((a0 > 0.0) == v_is_too_far)
      high = v;
    else
      low = v;
    if (p.reached && std::abs(missing) <= 1e-14 * distance_m) break;
    const double square = v * v + 2.0 * acceleration_mps2(law, v) * missing;
    double next = p.reached && square > 0.0 ? square_root(square) : -1.0;
    if (!(next > low && next < high)) next = low + 0.5 * (high - low);
    if (next == v || next <= low || next >= high) break;
    v = next;
  }
  // Near a terminal speed many distances share one speed: the rest of the way goes at that speed.
  const double rest_m = p.reached ? distance_m - p.distance_m : 0.0;
  return {false, v, p.time_s + rest_m / std::max(v, 1e-9), distance_m};
}

double breakaway_margin_n(const RollForces& forces) {
  const double weight = weight_n(forces);
  return standing_force_n(forces) -
         weight * (forces.breakaway_resistance * cosine(forces.slope_rad) + sine(forces.slope_rad));
}

double critical_slope_rad(const RollForces& forces, double resistance) {
  const double ratio = standing_force_n(forces) / weight_n(forces);
  // sin + mu cos = sqrt(1 + mu^2) sin(theta + atan mu)
  return arcsine(ratio / square_root(1.0 + resistance * resistance)) - arctangent(resistance);
}

}  // namespace tillerline
