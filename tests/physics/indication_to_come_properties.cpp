// What must hold of a brake that is left alone, and of what its probe still shows.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "physics/numerics/units.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

struct Alone {
  HeatPack pack;
  Probe probe;
  BrakeState now;
};

// Any brake, its probe anywhere between the air and beyond the pack. Light packs with large
// surfaces follow the air in minutes or less.
Alone draw_alone(Draws& draws, bool light) {
  Alone one;
  one.pack.material = draws.coin() ? BrakeMaterial::Carbon : BrakeMaterial::Steel;
  one.pack.mass_kg = light ? draws.by_size(0.1, 5.0) : draws.between(30.0, 120.0);
  one.pack.area_m2 = draws.between(0.4, 1.3);
  one.pack.convection_wpm2k = draws.between(3.0, 40.0);
  one.pack.air_k = draws.between(255.0, 315.0);
  one.probe = {.lag_s = draws.by_size(1.0, 1800.0),
               .share = draws.between(0.2, 1.0),
               .air_k = one.pack.air_k};
  one.now.pack_k = one.pack.air_k + draws.by_size(0.1, 600.0);
  one.now.indicated_k = draws.between(one.pack.air_k - 10.0, one.now.pack_k + 10.0);
  return one;
}

BrakeState after(const Alone& one, double time_s) {
  return brake_left_alone(one.pack, one.probe, one.now, time_s);
}

}  // namespace

TEST_CASE("indication: what is read tells the pack, and the pack what is read") {
  Draws draws(20261201);
  for (int i = 0; i < 500; ++i) {
    const Probe probe{draws.between(20.0, 900.0), draws.between(0.1, 1.0),
                      draws.between(230.0, 320.0)};
    const double hot_k = probe.air_k + draws.by_size(1e-3, 600.0);
    const double pack_k = pack_behind_indication_k(probe, hot_k);
    CHECK(pack_k >= hot_k);
    CHECK(settled_indication_k(probe, pack_k) == doctest::Approx(hot_k).epsilon(1e-14));
    CHECK(pack_behind_indication_k(probe, hot_k + 1.0) - pack_k ==
          doctest::Approx(pack_per_reading(probe, BrakeReading::Indicated)).epsilon(1e-9));
    const double cold_k = probe.air_k - draws.by_size(1e-3, 60.0);
    CHECK(pack_behind_indication_k(probe, cold_k) == cold_k);
    CHECK(pack_per_reading(probe, BrakeReading::HeatPack) == 1.0);
    for (const double read_k : {hot_k, cold_k}) {
      const BrakeState shown = brake_as_read(probe, BrakeReading::Indicated, read_k);
      CHECK(shown.read_k(BrakeReading::Indicated) == read_k);
      CHECK(shown.pack_k == pack_behind_indication_k(probe, read_k));
      const BrakeState told = brake_as_read(probe, BrakeReading::HeatPack, read_k);
      CHECK(told.read_k(BrakeReading::HeatPack) == read_k);
      CHECK(told.indicated_k == settled_indication_k(probe, read_k));
    }
  }
}

TEST_CASE("indication: left alone, the pack is heat's, and two times make one") {
  Draws draws(20261202);
  Worst pack, apart;
  for (int i = 0; i < 400; ++i) {
    const Alone one = draw_alone(draws, i % 4 == 0);
    const double time_s = draws.by_size(1.0, 20000.0);
    const BrakeState whole = after(one, time_s);
    pack.note(whole.pack_k - temperature_after_time_k(one.pack, one.now.pack_k, time_s, 0.0), i);
    const BrakeState first = after(one, 0.4 * time_s);
    const BrakeState then = brake_left_alone(one.pack, one.probe, first, 0.6 * time_s);
    apart.note(then.indicated_k - whole.indicated_k, i);
    CHECK(after(one, 0.0).indicated_k == one.now.indicated_k);
    CHECK(after(one, -1.0).pack_k == one.now.pack_k);
    // Between the air, where it began and the hottest it may stand for.
    const double high_k =
        std::max(one.now.indicated_k, settled_indication_k(one.probe, one.now.pack_k));
    CHECK(whole.indicated_k <= high_k + 1e-9);
    CHECK(whole.indicated_k >= std::min(one.now.indicated_k, one.pack.air_k) - 1e-9);
  }
  CAPTURE(apart.at);
  CHECK(pack.error < 1e-6);
  CHECK(apart.error < 2e-3);
}

TEST_CASE("indication: highest where it meets what the pack stands for, and nowhere higher") {
  Draws draws(20261203);
  int rising = 0;
  for (int i = 0; i < 400; ++i) {
    const Alone one = draw_alone(draws, i % 4 == 0);
    CAPTURE(i);
    const HighestReading highest = highest_indication(one.pack, one.probe, one.now);
    CHECK(highest.read_k >= one.now.indicated_k);
    if (settled_indication_k(one.probe, one.now.pack_k) <= one.now.indicated_k) {
      CHECK(highest.read_k == one.now.indicated_k);
      CHECK(highest.after_s == 0.0);
      continue;
    }
    ++rising;
    CHECK(highest.after_s > 0.0);
    const BrakeState there = after(one, highest.after_s);
    CHECK(there.indicated_k == doctest::Approx(highest.read_k).epsilon(1e-6));
    CHECK(settled_indication_k(one.probe, there.pack_k) ==
          doctest::Approx(highest.read_k).epsilon(1e-6));
    for (const double share : {0.1, 0.5, 0.9, 0.99, 1.01, 1.1, 1.5, 2.0, 5.0})
      CHECK(after(one, share * highest.after_s).indicated_k <= highest.read_k + 1e-3);
    // A hotter pack and a probe that shows more already show more; beside a light pack, which is
    // soon as cold as the air, no less.
    BrakeState more = one.now;
    more.pack_k += 5.0;
    const double hotter_k = highest_indication(one.pack, one.probe, more).read_k;
    CHECK(hotter_k > highest.read_k - 1e-9);
    if (i % 4 != 0 && one.now.indicated_k > one.pack.air_k) CHECK(hotter_k > highest.read_k);
    more = one.now;
    more.indicated_k += 0.5;
    CHECK(highest_indication(one.pack, one.probe, more).read_k >= highest.read_k);
    // A slower probe misses more of it.
    Probe slow = one.probe;
    slow.lag_s *= 2.0;
    if (one.now.indicated_k >= one.pack.air_k)
      CHECK(highest_indication(one.pack, slow, one.now).read_k <= highest.read_k + 1e-9);
  }
  CHECK(rising > 100);
}

TEST_CASE("indication: beside a pack as cold as the air or colder nothing rises above the air") {
  const HeatPack pack{.air_k = 290.0};
  const Probe probe{.lag_s = 300.0, .share = 0.8, .air_k = 290.0};
  CHECK(highest_indication(pack, probe, {290.0, 290.0}).read_k == 290.0);
  CHECK(highest_indication(pack, probe, {260.0, 270.0}).read_k == 290.0);
  CHECK(highest_indication(pack, probe, {260.0, 270.0}).after_s == 0.0);
  CHECK(highest_indication(pack, probe, {290.0, 310.0}).read_k == 310.0);
}

TEST_CASE("indication: down at the limit after the time said, and for good") {
  Draws draws(20261204);
  int waited = 0, long_waits = 0;
  for (int i = 0; i < 400; ++i) {
    const Alone one = draw_alone(draws, i % 4 == 0);
    CAPTURE(i);
    const double highest_k = highest_indication(one.pack, one.probe, one.now).read_k;
    const double excess_k = highest_k - one.pack.air_k;
    if (excess_k < 1e-2) continue;
    CHECK(time_to_indication(one.pack, one.probe, one.now, highest_k).time_s == 0.0);
    CHECK(time_to_indication(one.pack, one.probe, one.now, highest_k).reached);
    CHECK(!time_to_indication(one.pack, one.probe, one.now, one.pack.air_k).reached);
    CHECK(!time_to_indication(one.pack, one.probe, one.now, one.pack.air_k - 5.0).reached);
    const double limit_k = one.pack.air_k + excess_k * draws.by_size(1e-4, 0.999);
    const CoolingTime down = time_to_indication(one.pack, one.probe, one.now, limit_k);
    REQUIRE(down.reached);
    CHECK(down.time_s > 0.0);
    // A heat pack's own reading does not lag.
    const CoolingTime of_pack =
        time_to_reading(one.pack, one.probe, one.now, BrakeReading::HeatPack, limit_k);
    if (of_pack.reached)
      CHECK(after(one, of_pack.time_s).pack_k == doctest::Approx(limit_k).epsilon(1e-6));
    CHECK(time_to_reading(one.pack, one.probe, one.now, BrakeReading::Indicated, limit_k).time_s ==
          down.time_s);
    ++waited;
    long_waits += down.time_s > 60.0 * one.probe.lag_s;
    // Relative to what there was: the way there is walked in other steps.
    CHECK((after(one, down.time_s).indicated_k - limit_k) / excess_k ==
          doctest::Approx(0.0).epsilon(1e-4));
    CHECK(after(one, 1.1 * down.time_s).indicated_k < limit_k);
    // A lower limit takes longer.
    CHECK(time_to_indication(one.pack, one.probe, one.now,
                             limit_k - 0.01 * (limit_k - one.pack.air_k))
              .time_s > down.time_s);
  }
  CHECK(waited > 300);
  CHECK(long_waits > 30);
}
