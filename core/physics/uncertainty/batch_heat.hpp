// The heat packs of heat.hpp for many cases at once, without libm.
//
//   m c_p(T) dT/dt = P - h A (T - T_air) - eps sigma A (T^4 - T_air^4)
// over a stretch of time with an even power P, by classical Runge-Kutta steps of fourth order with
// the same fits of c_p. Time constants are half an hour and more: steps of up to 120 s in which the
// pack warms by no more than about 60 K are good to 1e-3 K against the exact forms
// (tests/physics). Valid where heat.hpp is.
//
// A light pack with a large surface follows its balance in seconds, and long steps of that kind go
// beyond it. So where the quickest lane would go more than 0.8 of its time constant in a step, the
// step is made of eight exponential ones instead,
//   T' = T + dt phi(h dt) dT/dt,  phi(x) = (1 - e^-x)/x,  h = A (h_c + 4 eps sigma T^3)/(m c_p(T))
// which are exact for linear cooling. Cooling bends upwards (T^4), so from above they stop short of
// the balance: no lane gets colder than the colder of its start and the air, however light. Against
// the exact forms they are good to 4 % of the fall (tests/physics).
#pragma once

#include "physics/heat/heat.hpp"
#include "physics/uncertainty/batch.hpp"

namespace tillerline {

struct BatchPack {
  BrakeMaterial material = BrakeMaterial::Carbon;
  Lanes mass_kg;
  Lanes area_m2;
  double emissivity = 0.8;
  double convection_wpm2k = 6.0;
  double air_k = 288.15;
};

// All lanes alike.
BatchPack batch_pack(const HeatPack& pack);

// Carries every lane's temperature on by `time_s` in `steps` equal steps, `power_w` (>= 0) going
// in.
void batch_heat(const BatchPack& pack, const Lanes& power_w, double time_s, int steps,
                Lanes& temperature_k);

}  // namespace tillerline
