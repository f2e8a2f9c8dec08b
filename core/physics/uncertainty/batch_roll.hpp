// The roll of roll.hpp for many cases at once, without libm.
//
// Same model, same law, same formulas as roll.hpp and quadratic_motion.hpp, in the form that needs
// neither a branch nor a logarithm: with a0 = a(v0), a1 = a(v1), h = v1 - v0, P = a0 + a1,
// S = P - C h^2, Y = sqrt(a0 a1), v_m = (v0 + v1)/2, b_m = B + 2 C v_m
//   t = h R_C(S^2/4, Y^2)
//   s = v_m t + (b_m h^3 / 4) [R_C(P^2/4, Y^2) - R_C(S^2/4, Y^2)] / (P/2 - S/2)
// by batch.hpp. It gets there when a0 > 0, a1 > 0 and S > -2 Y. Slowing down is the same with speed
// and acceleration reversed. Agrees with the scalar forms to 1e-11 (time, distance) short of 1e-9
// of a terminal speed.
#pragma once

#include "physics/motion/roll.hpp"
#include "physics/uncertainty/batch.hpp"

namespace tillerline {

// What differs from lane to lane, and what does not.
struct BatchForces {
  Lanes mass_kg;
  Lanes thrust_n;
  Lanes rolling_resistance;
  Lanes slope_rad;
  Lanes headwind_mps;
  Lanes scrub_drag_n;
  Lanes overtaken_thrust_share;
  double thrust_fall_nspm = 0.0;
  double rolling_speed_factor_s2pm2 = 0.0;
  double drag_area_m2 = 0.0;
  double air_density_kgpm3 = 1.225;
  double displacement_drag_nspm2 = 0.0;
  double snow_drag_nspm = 0.0;
  double cornering_offset_n = 0.0;
  double cornering_drag_nspm2 = 0.0;
  double dragging_brake_n = 0.0;
};

// All lanes alike.
BatchForces batch_forces(const RollForces& forces);

struct BatchLaw {
  Lanes below_a, below_b, below_c;  // A, B, C while the air blows from behind
  Lanes above_a, above_b, above_c;
  Lanes split_mps;
  bool any_split = false;
};
void batch_roll_law(const BatchForces& forces, BatchLaw& law);

struct BatchPassage {
  Lanes reached;  // 1 or 0; where 0 the others are 0
  Lanes time_s;
  Lanes distance_m;
};
// From v0 to v1, either way.
void batch_passage(const BatchLaw& law, const Lanes& v0_mps, const Lanes& v1_mps,
                   BatchPassage& passage);

void batch_acceleration(const BatchLaw& law, const Lanes& speed_mps, Lanes& acceleration_mps2);

// Force left for starting to move against that resistance, N.
void batch_margin(const BatchForces& forces, const Lanes& resistance, Lanes& margin_n);

// Steepest slope on which the forces at standstill balance with that resistance:
//   sin(theta) = (r - mu sqrt(1 + mu^2 - r^2)) / (1 + mu^2),  r force per weight.
void batch_critical_slope(const BatchForces& forces, const Lanes& resistance, Lanes& slope_rad);

}  // namespace tillerline
