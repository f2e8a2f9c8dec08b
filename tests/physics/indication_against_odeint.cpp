// The probe's lag against Boost's ODE solver, alone and together with a cooling pack.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "odeint.hpp"
#include "pack_and_probe_ode.hpp"
#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Probe draw_probe(Draws& draws) {
  return {.lag_s = draws.between(20.0, 900.0),
          .share = draws.between(0.3, 1.0),
          .air_k = draws.between(235.0, 320.0)};
}

}  // namespace

TEST_CASE("indication: beside an evenly changing pack it agrees with the ODE solver") {
  Draws draws(20261101);
  enum { Usual, Short, Long, Sudden, Count };
  for (int stratum = 0; stratum < Count; ++stratum) {
    CAPTURE(stratum);
    Worst worst;
    for (int i = 0; i < 3000; ++i) {
      const Probe probe = draw_probe(draws);
      const double from = draws.between(probe.air_k, 900.0);
      const double to =
          stratum == Sudden ? draws.between(250.0, 1500.0) : from + draws.between(-80.0, 80.0);
      double time = draws.by_size(1.0, 1000.0);
      if (stratum == Short) time = probe.lag_s * draws.by_size(1e-9, 1e-2);
      if (stratum == Long) time = probe.lag_s * draws.between(10.0, 40.0);
      if (stratum == Sudden) time = probe.lag_s * draws.by_size(1e-3, 1.0);
      const double start = draws.between(probe.air_k, 700.0);
      auto system = [&](const std::array<double, 1>& x, std::array<double, 1>& d, double t) {
        const double pack = from + (to - from) * t / time;
        d[0] = (probe.air_k + probe.share * (pack - probe.air_k) - x[0]) / probe.lag_s;
      };
      const double expected = integrate_ode<1>(system, {start}, 0.0, time)[0];
      worst.note(indication_after_k(probe, start, from, to, time) / expected - 1.0, i);
    }
    CAPTURE(worst.at);
    CHECK(worst.error < 1e-10);
  }
}

TEST_CASE("indication: beside a cooling pack, in steps of half a minute, within 0.1 K") {
  Draws draws(20261102);
  Worst worst;
  for (int i = 0; i < 1000; ++i) {
    HeatPack pack;
    pack.mass_kg = draws.between(45.0, 120.0);
    pack.area_m2 = draws.between(0.4, 1.2);
    pack.convection_wpm2k = draws.between(3.0, 30.0);
    pack.air_k = draws.between(250.0, 315.0);
    Probe probe = draw_probe(draws);
    probe.lag_s = draws.between(60.0, 900.0);
    probe.air_k = pack.air_k;
    const double from = draws.between(pack.air_k, 800.0);
    const double start = draws.between(pack.air_k, from);
    const int steps = 1 + draws.below(120);
    const auto expected = pack_and_probe(pack, probe, {from, start}, 30.0 * steps);
    double now = from;
    double shown = start;
    for (int k = 0; k < steps; ++k) {
      const double next = temperature_after_time_k(pack, now, 30.0, 0.0);
      shown = indication_after_k(probe, shown, now, next, 30.0);
      now = next;
    }
    CHECK(now == doctest::Approx(expected[0]).epsilon(1e-9));
    worst.note(shown - expected[1], i);
  }
  CAPTURE(worst.at);
  CHECK(worst.error < 0.1);
  MESSAGE("indication in steps of 30 s: worst ", worst.error, " K");
}

#endif  // TILLERLINE_NATIVE
