// What must hold of any first-order lag, and of a probe with fans.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/heat/indication.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

const Probe kProbe{.lag_s = 300.0, .share = 0.8, .air_k = 290.0};

}  // namespace

TEST_CASE("indication: a settled probe stays, and stands for the pack it settled at") {
  CHECK(settled_indication_k(kProbe, 490.0) == doctest::Approx(450.0).epsilon(1e-14));
  CHECK(settled_indication_k(kProbe, 290.0) == 290.0);
  Draws draws(20261103);
  for (int i = 0; i < 500; ++i) {
    const Probe probe{draws.between(20.0, 900.0), draws.between(0.3, 1.0),
                      draws.between(230.0, 320.0)};
    const double pack = draws.between(230.0, 1200.0);
    const double settled = settled_indication_k(probe, pack);
    CHECK(probe.air_k + (settled - probe.air_k) / probe.share ==
          doctest::Approx(pack).epsilon(1e-13));
    CHECK(indication_after_k(probe, settled, pack, pack, draws.by_size(1e-3, 1e5)) ==
          doctest::Approx(settled).epsilon(1e-14));
  }
}

TEST_CASE("indication: after one lag 63.2 % of the way to a steady pack is done") {
  const double shown = indication_after_k(kProbe, 290.0, 490.0, 490.0, 300.0);
  CHECK((shown - 290.0) / 160.0 == doctest::Approx(1.0 - 1.0 / std::exp(1.0)).epsilon(1e-14));
}

TEST_CASE("indication: no time, no change; for ever, a lag's worth behind an even climb") {
  CHECK(indication_after_k(kProbe, 333.0, 400.0, 600.0, 0.0) == 333.0);
  CHECK(indication_after_k(kProbe, 333.0, 400.0, 600.0, -1.0) == 333.0);
  // 0.1 K/s of pack is 0.08 K/s of goal: 24 K behind with 300 s of lag.
  const double shown = indication_after_k(kProbe, 290.0, 290.0, 290.0 + 3000.0, 30000.0);
  CHECK(settled_indication_k(kProbe, 3290.0) - shown == doctest::Approx(24.0).epsilon(1e-12));
}

TEST_CASE("indication: two halves make the whole, and time counts only by lags") {
  Draws draws(20261104);
  for (int i = 0; i < 500; ++i) {
    const double from = draws.between(290.0, 900.0);
    const double to = draws.between(290.0, 900.0);
    const double start = draws.between(290.0, 700.0);
    const double time = draws.by_size(0.1, 3000.0);
    const double cut = draws.between(0.05, 0.95);
    const double between = from + cut * (to - from);
    const double whole = indication_after_k(kProbe, start, from, to, time);
    const double first = indication_after_k(kProbe, start, from, between, cut * time);
    CHECK(indication_after_k(kProbe, first, between, to, (1.0 - cut) * time) ==
          doctest::Approx(whole).epsilon(1e-13));
    Probe slow = kProbe;
    slow.lag_s *= 3.0;
    CHECK(indication_after_k(slow, start, from, to, 3.0 * time) ==
          doctest::Approx(whole).epsilon(1e-13));
    // A hotter pack never shows less.
    CHECK(indication_after_k(kProbe, start, from + 1.0, to, time) > whole);
    CHECK(indication_after_k(kProbe, start, from, to + 1.0, time) > whole);
  }
}

TEST_CASE("indication: fans change the probe only where they are fitted") {
  Aircraft aircraft;
  aircraft.probe_lag_s = 240.0;
  aircraft.probe_share = 0.9;
  aircraft.probe_share_fans = 0.5;
  aircraft.fan_convection_wpm2k = 20.0;
  const Probe still = brake_probe(aircraft, 280.0, false);
  CHECK(still.lag_s == 240.0);
  CHECK(still.share == 0.9);
  CHECK(still.air_k == 280.0);
  CHECK(brake_probe(aircraft, 280.0, true).share == 0.5);
  aircraft.fan_convection_wpm2k = 0.5;  // however weak
  CHECK(brake_probe(aircraft, 280.0, true).share == 0.5);
  aircraft.fan_convection_wpm2k = 0.0;
  CHECK(brake_probe(aircraft, 280.0, true).share == 0.9);
}
