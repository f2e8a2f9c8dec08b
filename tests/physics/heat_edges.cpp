// The packs' heat at its corners: beyond the fitted polynomials, with hardly any energy or fan.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/heat/heat.hpp"
#include "physics/heat/specific_heat_fit.hpp"
#include "physics/numerics/units.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

TEST_CASE("heat: its content rises by the specific heat everywhere, also beyond the fits") {
  struct Range {
    BrakeMaterial material;
    double from_k, to_k;
  };
  using namespace specific_heat_fit;
  const double steel_top_k = units::kelvin_from_celsius(kSteelTop_c);
  for (const Range& range : {Range{BrakeMaterial::Carbon, 250.0, kSplit_k},
                             Range{BrakeMaterial::Carbon, kSplit_k, kHottest_k},
                             Range{BrakeMaterial::Carbon, kHottest_k, kHottest_k + 3000.0},
                             Range{BrakeMaterial::Steel, 250.0, steel_top_k},
                             Range{BrakeMaterial::Steel, steel_top_k, steel_top_k + 2000.0}}) {
    // Simpson's rule over many short steps.
    constexpr int kSteps = 200;
    const double step_k = (range.to_k - range.from_k) / kSteps;
    double sum = 0.0;
    for (int i = 0; i < kSteps; ++i) {
      const double t_k = range.from_k + i * step_k;
      const auto c = [&](double share) {
        return specific_heat_jpkgk(range.material, t_k + share * step_k);
      };
      sum += step_k / 6.0 * (c(1e-9) + 4.0 * c(0.5) + c(1.0 - 1e-9));
    }
    const double rise = heat_content_jpkg(range.material, range.to_k) -
                        heat_content_jpkg(range.material, range.from_k);
    CAPTURE(range.from_k);
    CHECK(rise == doctest::Approx(sum).epsilon(1e-8));
  }
  // Held where the fits end.
  CHECK(specific_heat_jpkgk(BrakeMaterial::Carbon, kHottest_k + 500.0) ==
        specific_heat_jpkgk(BrakeMaterial::Carbon, kHottest_k));
  CHECK(specific_heat_jpkgk(BrakeMaterial::Steel, steel_top_k + 500.0) ==
        specific_heat_jpkgk(BrakeMaterial::Steel, steel_top_k));
}

TEST_CASE("heat: half a joule warms a little pack, none and less warm none") {
  const HeatPack pack{.mass_kg = 1.0, .area_m2 = 0.1};
  const double c = specific_heat_jpkgk(pack.material, 300.0);
  for (const double energy_j : {0.5, 1.0, 2.0})
    CHECK(temperature_after_energy_k(pack, 300.0, energy_j) - 300.0 ==
          doctest::Approx(energy_j / c).epsilon(1e-4));
  CHECK(temperature_after_energy_k(pack, 300.0, 0.0) == 300.0);
  CHECK(temperature_after_energy_k(pack, 300.0, -5.0) == 300.0);
}

TEST_CASE("heat: the weakest fan counts as one, none does not") {
  Brief brief;
  brief.condition.fans_on = true;
  for (const double fan : {0.5, 0.0}) {
    brief.aircraft.fan_convection_wpm2k = fan;
    CHECK(heat_pack(brief.aircraft, 288.0, true).convection_wpm2k ==
          (fan > 0.0 ? fan : brief.aircraft.brake_convection_wpm2k));
    CHECK(departure_limit_k(brief) ==
          (fan > 0.0 ? brief.limits.departure_brake_fans_k : brief.limits.departure_brake_k));
  }
  brief.aircraft.fan_convection_wpm2k = 0.5;
  CHECK(heat_pack(brief.aircraft, 288.0, false).convection_wpm2k ==
        brief.aircraft.brake_convection_wpm2k);
}
