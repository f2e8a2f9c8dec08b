// A general ODE solver from outside: Boost.Numeric.Odeint's Dormand-Prince 5(4), adaptive, with
// relative and absolute tolerance 1e-12. Native builds only.
#pragma once

#ifdef TILLERLINE_NATIVE

#include <array>
#include <boost/numeric/odeint.hpp>
#include <cmath>
#include <cstddef>

namespace tillerline::tests {

inline constexpr double kOdeTolerance = 1e-12;

// Integrates the state from `from` to `to` (either direction) and returns it.
template <std::size_t N, class System>
std::array<double, N> integrate_ode(System&& system, std::array<double, N> state, double from,
                                    double to) {
  if (from == to) return state;
  namespace odeint = boost::numeric::odeint;
  auto stepper = odeint::make_controlled(kOdeTolerance, kOdeTolerance,
                                         odeint::runge_kutta_dopri5<std::array<double, N>>());
  odeint::integrate_adaptive(stepper, system, state, from, to, (to - from) / 64.0);
  return state;
}

}  // namespace tillerline::tests

#endif  // TILLERLINE_NATIVE
