// What a probe shows of a brake that is left alone: it still rises while it catches up with a pack
// that already cools, then it falls with it.
//
//   tau d(theta)/dt = T_air + k (T_pack - T_air) - theta,   the pack as heat.hpp cools it
// The highest indication is where it meets what the pack stands for, theta = T_air + k (T_pack -
// T_air): before, that is more, after, less. With a pack that cools in proportion to its excess it
// is a Bateman function (IUPAC Recommendations 2007, "Bateman function"), whose peak comes at
// ln(a/b) / (a - b), a = 1/tau, b the pack's rate; heat.hpp's pack bends that a little.
//
// The pack is heat.hpp's, exact; the indication is its integral,
//   theta(t) = theta_0 e^(-t/tau) + integral of e^(-(t-s)/tau) (T_air + k (T_pack(s) - T_air))
//   ds/tau
// by Gauss-Legendre of 4 points on stretches no longer than the lag and the pack's own time
// constant (later an eighth of the time passed): within 1e-3 K of an ODE solver (tests/physics).
// Temperatures in K, times in s from now. Fans, where they run, run on. Valid where heat.hpp and
// indication.hpp are.
#pragma once

#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"

namespace tillerline {

// The brake after that time.
BrakeState brake_left_alone(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                            double time_s);

// The highest indication from now on, and when it comes. Beside a pack that is no warmer than the
// air nothing rises above the air's temperature, and that is said without a time (0).
struct HighestReading {
  double read_k = 0.0;
  double after_s = 0.0;
};
HighestReading highest_indication(const HeatPack& pack, const Probe& probe, const BrakeState& now);

// When the indication is down at `limit_k` for good: 0 where it never is above. Not reached where
// the limit is no warmer than the air.
CoolingTime time_to_indication(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                               double limit_k);

// When what is read of the brake, its indication or its heat pack, is down at `limit_k`.
CoolingTime time_to_reading(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                            BrakeReading reading, double limit_k);

}  // namespace tillerline
