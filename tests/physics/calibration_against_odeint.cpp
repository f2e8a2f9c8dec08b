// The calibration's closed form of speed over time against Boost's ODE solver.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>

#include "draws.hpp"
#include "odeint.hpp"
#include "physics/motion/roll.hpp"
#include "physics/uncertainty/calibration.hpp"
#include "random_draws.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Observation speed_after(double time_s, double mass_kg, double slope_rad, double headwind_mps) {
  Observation o;
  o.kind = ObservationKind::SpeedAfterTime;
  o.given = time_s;
  o.mass_kg = mass_kg;
  o.slope_rad = slope_rad;
  o.headwind_mps = headwind_mps;
  o.engines_running = 4;
  return o;
}

}  // namespace

TEST_CASE("calibration: speed after a time is what the ODE solver gets to") {
  Draws draws(20261111);
  Worst worst;
  int with_tailwind = 0, still = 0;
  const int count = draw_count(2000);
  for (int n = 0; n < count; ++n) {
    Aircraft a;
    a.drag_area_m2 = n % 9 == 0 ? 0.0 : draws.between(4.0, 20.0);
    a.idle_air_flow_kgps = n % 18 == 0 ? 0.0 : draws.between(100.0, 300.0);
    a.rolling_speed_factor_s2pm2 = n % 4 == 0 ? draws.between(0.0, 1e-4) : 0.0;
    Observation o = speed_after(draws.by_size(0.5, 120.0), draws.between(130e3, 350e3),
                                draws.between(-0.02, 0.008),
                                n % 3 == 0 ? draws.between(-12.0, 0.0) : draws.between(-1.0, 10.0));
    o.air_k = draws.between(255.0, 315.0);
    Condition condition;
    condition.mass_kg = o.mass_kg;
    const RollLaw law = roll_law(
        idle_forces(a, condition, day_air(0.0, 101325.0, o.air_k), o.slope_rad, o.headwind_mps));
    const double got = predicted(a, o);
    if (acceleration_mps2(law, 0.0) <= 0.0) {
      CHECK(got == 0.0);
      ++still;
      continue;
    }
    auto system = [&](const std::array<double, 1>& v, std::array<double, 1>& d, double) {
      d = {acceleration_mps2(law, v[0])};
    };
    double from_s = 0.0, v = 0.0;
    if (law.split_mps > 0.0) {  // the kink, told to the solver
      const Passage to_split = passage(law, 0.0, law.split_mps);
      if (to_split.reached && to_split.time_s < o.given) {
        from_s = to_split.time_s;
        v = law.split_mps;
        ++with_tailwind;
      }
    }
    const double end = integrate_ode<1>(system, {v}, from_s, o.given)[0];
    worst.note((got - end) / std::max(0.1, end), n);
    // And the time of that speed is the time given, where it is not at its end already.
    const Passage back = passage(law, 0.0, got);
    if (back.reached && acceleration_mps2(law, got) > 1e-2)
      CHECK(back.time_s == doctest::Approx(o.given).epsilon(1e-9));
  }
  agree_within_1e9("calibration: speed after a time", {worst});
  CHECK(with_tailwind * 12 > count);
  CHECK(still > 0);
}

#endif  // TILLERLINE_NATIVE
