// A heat pack that cools and the probe beside it, by the solver, the equations written down again.
#pragma once

#include <array>
#include <cmath>

#include "odeint.hpp"
#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"

namespace tillerline::tests {

// Pack and indication after that time.
inline std::array<double, 2> pack_and_probe(const HeatPack& pack, const Probe& probe,
                                            const BrakeState& from, double time_s) {
  auto system = [&](const std::array<double, 2>& x, std::array<double, 2>& d, double) {
    const double out = pack.convection_wpm2k * pack.area_m2 * (x[0] - pack.air_k) +
                       pack.emissivity * 5.670374419e-8 * pack.area_m2 *
                           (std::pow(x[0], 4) - std::pow(pack.air_k, 4));
    const double goal = pack.air_k + probe.share * (x[0] - pack.air_k);
    d = {-out / (pack.mass_kg * specific_heat_jpkgk(pack.material, x[0])),
         (goal - x[1]) / probe.lag_s};
  };
  return integrate_ode<2>(system, {from.pack_k, from.indicated_k}, 0.0, time_s);
}

}  // namespace tillerline::tests
