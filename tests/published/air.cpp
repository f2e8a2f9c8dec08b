// The standard atmosphere and the air of the day against published tables.
#include <doctest/doctest.h>

#include "physics/numerics/units.hpp"
#include "physics/world/atmosphere.hpp"
#include "physics/world/engines.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Origin;

namespace {

constexpr const char* kIso = "ISO 2533:1975 Standard Atmosphere (ICAO Doc 7488)";
constexpr const char* kTable = "Engineering Toolbox, U.S. Standard Atmosphere table";

// The tables of the U.S. Standard Atmosphere count geometric height.
double geopotential_m(double geometric_m) {
  constexpr double kEarthRadius_m = 6356766.0;
  return kEarthRadius_m * geometric_m / (kEarthRadius_m + geometric_m);
}

}  // namespace

TEST_CASE("air: the standard atmosphere by geopotential altitude") {
  struct Row {
    double altitude_m, temperature_k, pressure_pa, density_kgpm3;
  };
  // Computed apart from the constants of the standard; tolerance one unit of the last digit.
  for (const Row& row :
       {Row{0.0, 288.15, 101325.0, 1.22500}, Row{1000.0, 281.65, 89874.6, 1.11164},
        Row{2000.0, 275.15, 79495.2, 1.00649}, Row{3000.0, 268.65, 70108.5, 0.90912}}) {
    const Air air = standard_air(row.altitude_m);
    check({.what = "temperature, K",
           .source = kIso,
           .place = "troposphere",
           .origin = Origin::Identity,
           .expected = row.temperature_k,
           .got = air.temperature_k,
           .tolerance = 1e-9});
    check({.what = "pressure, Pa",
           .source = kIso,
           .place = "troposphere",
           .origin = Origin::Identity,
           .expected = row.pressure_pa,
           .got = air.pressure_pa,
           .tolerance = 0.1});
    check({.what = "density, kg/m3",
           .source = kIso,
           .place = "troposphere",
           .origin = Origin::Identity,
           .expected = row.density_kgpm3,
           .got = air.density_kgpm3,
           .tolerance = 1e-5});
  }
}

TEST_CASE("air: the printed table by geometric height") {
  struct Row {
    double height_m, temperature_k, pressure_bar, density_ratio;
  };
  // Tolerance: half a unit of the last printed digit; a whole one for the density ratio, which the
  // table forms from an already rounded density (0.9093 / 1.225 at 3000 m).
  for (const Row& row : {Row{1000.0, 281.7, 0.8988, 0.9075}, Row{2000.0, 275.2, 0.7950, 0.8217},
                         Row{3000.0, 268.7, 0.7012, 0.7423}}) {
    const Air air = standard_air(geopotential_m(row.height_m));
    check({.what = "temperature, K",
           .source = kTable,
           .place = "SI table",
           .expected = row.temperature_k,
           .got = air.temperature_k,
           .tolerance = 0.05,
           .worked = true});
    check({.what = "pressure, bar",
           .source = kTable,
           .place = "SI table",
           .expected = row.pressure_bar,
           .got = air.pressure_pa / 1e5,
           .tolerance = 0.00005,
           .worked = true});
    check({.what = "density ratio",
           .source = kTable,
           .place = "SI table",
           .expected = row.density_ratio,
           .got = air.density_kgpm3 / standard_air(0.0).density_kgpm3,
           .tolerance = 0.0001,
           .worked = true});
  }
}

TEST_CASE("air: speed of sound, lapse rate and a warm day") {
  check({.what = "speed of sound at sea level, m/s",
         .source = kIso,
         .place = "sea level",
         .origin = Origin::FromMemory,
         .expected = 340.294,
         .got = standard_air(0.0).sound_speed_mps,
         .tolerance = 0.001});
  check({.what = "speed of sound at 2000 m, m/s",
         .source = kIso,
         .place = "2000 m",
         .origin = Origin::FromMemory,
         .expected = 332.529,
         .got = standard_air(2000.0).sound_speed_mps,
         .tolerance = 0.01});
  check(
      {.what = "lapse per 1000 ft, K",
       .source = "Instrument rating ground course, meteorology (1.98 degC per 1000 ft)",
       .place = "lapse rate",
       .expected = 1.98,
       .got = standard_air(0.0).temperature_k - standard_air(1000.0 * units::kFoot_m).temperature_k,
       .tolerance = 0.005});
  check({.what = "density at 1000 m, standard QNH, 35 degC, kg/m3",
         .source = kIso,
         .place = "gas law with the standard pressure",
         .origin = Origin::Derived,
         .expected = 1.01604,
         .got = day_air(1000.0, 101325.0, units::kelvin_from_celsius(35.0)).density_kgpm3,
         .tolerance = 1e-5});
}

TEST_CASE("air: what QNH means") {
  // By definition: at sea level the pressure is the QNH; at standard QNH it is the standard's.
  check({.what = "pressure at sea level under QNH 1009 hPa, Pa",
         .source = "ICAO Doc 7488 and Doc 8896 (definition of QNH)",
         .place = "definition",
         .origin = Origin::Identity,
         .expected = 100900.0,
         .got = day_air(0.0, 100900.0, 290.0).pressure_pa,
         .tolerance = 1e-6});
  check({.what = "pressure at 620 m under QNH 1013.25 hPa, Pa",
         .source = "ICAO Doc 7488 and Doc 8896 (definition of QNH)",
         .place = "definition",
         .origin = Origin::Identity,
         .expected = standard_air(620.0).pressure_pa,
         .got = day_air(620.0, 101325.0, 290.0).pressure_pa,
         .tolerance = 1e-6});
}

TEST_CASE("air: idle thrust follows the pressure") {
  const Aircraft aircraft;
  const double low = idle_thrust(aircraft, {}, standard_air(0.0)).standing_n;
  const double high = idle_thrust(aircraft, {}, standard_air(1000.0)).standing_n;
  check({.what = "idle thrust at 1000 m over that at sea level",
         .source = "Turbomachinery similarity (thrust over pressure ratio at corrected speed)",
         .place = "definition of corrected thrust",
         .origin = Origin::FromMemory,
         .expected = 0.887,
         .got = high / low,
         .tolerance = 0.0005});
}
