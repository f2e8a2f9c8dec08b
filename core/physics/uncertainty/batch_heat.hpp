// The heat packs of heat.hpp for many cases at once, without libm.
//
//   m c_p(T) dT/dt = P - h A (T - T_air) - eps sigma A (T^4 - T_air^4)
// over a stretch of time with an even power P, by classical Runge-Kutta steps of fourth order with
// the same fits of c_p. Time constants are half an hour and more: steps of up to 120 s in which the
// pack warms by no more than about 60 K are good to 1e-3 K against the exact forms
// (tests/physics). Valid where heat.hpp is.
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

// Carries every lane's temperature on by `time_s` in `steps` equal steps, `power_w` going in.
void batch_heat(const BatchPack& pack, const Lanes& power_w, double time_s, int steps,
                Lanes& temperature_k);

}  // namespace tillerline
