// The highest indication to come, and when it is down at a limit, against Boost's ODE solver.
#ifdef TILLERLINE_NATIVE

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "pack_and_probe_ode.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

TEST_CASE("indication to come: it agrees with the ODE solver") {
  Draws draws(20261205);
  enum { Usual, Light, Quick, Count };
  for (int stratum = 0; stratum < Count; ++stratum) {
    CAPTURE(stratum);
    Worst left, highest_k, higher_k, down_k;
    for (int i = 0; i < 300; ++i) {
      HeatPack pack;
      pack.mass_kg = stratum == Light ? draws.between(1.0, 10.0) : draws.between(45.0, 120.0);
      pack.area_m2 = draws.between(0.4, 1.2);
      pack.convection_wpm2k = draws.between(3.0, 30.0);
      pack.air_k = draws.between(250.0, 315.0);
      const Probe probe{
          .lag_s = stratum == Quick ? draws.between(2.0, 30.0) : draws.between(60.0, 900.0),
          .share = draws.between(0.3, 1.0),
          .air_k = pack.air_k};
      const BrakeState now{draws.between(pack.air_k + 20.0, 800.0),
                           draws.between(pack.air_k, pack.air_k + 30.0)};
      const double time_s = draws.by_size(1.0, 10000.0);
      left.note(brake_left_alone(pack, probe, now, time_s).indicated_k -
                    pack_and_probe(pack, probe, now, time_s)[1],
                i);
      const HighestReading highest = highest_indication(pack, probe, now);
      highest_k.note(highest.read_k - pack_and_probe(pack, probe, now, highest.after_s)[1], i);
      for (int k = 1; k < 20; ++k)
        higher_k.note(
            std::max(0.0, pack_and_probe(pack, probe, now, 0.15 * k * highest.after_s)[1] -
                              highest.read_k),
            i);
      const double limit_k = pack.air_k + draws.between(0.05, 0.95) * (highest.read_k - pack.air_k);
      const CoolingTime down = time_to_indication(pack, probe, now, limit_k);
      REQUIRE(down.reached);
      CHECK(time_to_reading(pack, probe, now, BrakeReading::Indicated, limit_k).time_s ==
            down.time_s);
      if (limit_k > now.indicated_k)
        down_k.note(pack_and_probe(pack, probe, now, down.time_s)[1] - limit_k, i);
    }
    MESSAGE("indication to come, ", stratum, ": ", left.error, " ", highest_k.error, " ",
            down_k.error, " K");
    CHECK(left.error < 1e-3);
    CHECK(highest_k.error < 1e-3);
    CHECK(higher_k.error < 1e-3);
    CHECK(down_k.error < 1e-3);
    CHECK(down_k.count > 30);
  }
}

#endif  // TILLERLINE_NATIVE
