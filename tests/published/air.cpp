// The standard atmosphere and the air of the day against published tables.
#include <doctest/doctest.h>

#include "physics/numerics/units.hpp"
#include "physics/world/atmosphere.hpp"
#include "physics/world/engines.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kIso = "ISO 2533:1975 (ICAO Doc 7488), standard atmosphere";
constexpr const char* kTable = "Engineering Toolbox, International Standard Atmosphere";

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
           .kind = Kind::Formula,
           .expected = row.temperature_k,
           .got = air.temperature_k,
           .tolerance = 1e-9});
    check({.what = "pressure, Pa",
           .source = kIso,
           .place = "troposphere",
           .kind = Kind::Formula,
           .expected = row.pressure_pa,
           .got = air.pressure_pa,
           .tolerance = 0.1});
    check({.what = "density, kg/m3",
           .source = kIso,
           .place = "troposphere",
           .kind = Kind::Formula,
           .expected = row.density_kgpm3,
           .got = air.density_kgpm3,
           .tolerance = 1e-5});
  }
}

TEST_CASE("air: the printed table by geometric height") {
  struct Row {
    double height_m, temperature_k, pressure_bar, density_ratio, sound_mps;
  };
  // Tolerance: half a unit of the last printed digit; a whole one for the density ratio, which the
  // table forms from an already rounded density (0.9093 / 1.225 at 3000 m).
  for (const Row& row :
       {Row{500.0, 284.9, 0.9546, 0.9529, 338.4}, Row{1000.0, 281.7, 0.8988, 0.9075, 336.4},
        Row{1500.0, 278.4, 0.8456, 0.8638, 334.5}, Row{2000.0, 275.2, 0.7950, 0.8217, 332.5},
        Row{2500.0, 271.9, 0.7469, 0.7812, 330.6}, Row{3000.0, 268.7, 0.7012, 0.7423, 328.6}}) {
    const Air air = standard_air(geopotential_m(row.height_m));
    struct Part {
      const char* what;
      double expected, got, tolerance;
    };
    for (const Part& part :
         {Part{"temperature, K", row.temperature_k, air.temperature_k, 0.0501},
          Part{"pressure, bar", row.pressure_bar, air.pressure_pa / 1e5, 0.00005},
          Part{"density ratio", row.density_ratio,
               air.density_kgpm3 / standard_air(0.0).density_kgpm3, 0.0001},
          Part{"speed of sound, m/s", row.sound_mps, air.sound_speed_mps, 0.0501}}) {
      check({.what = part.what,
             .source = kTable,
             .place = "International Standard Atmosphere, by elevation",
             .kind = Kind::Worked,
             .expected = part.expected,
             .got = part.got,
             .tolerance = part.tolerance});
    }
  }
}

TEST_CASE("air: speed of sound, lapse rate and a warm day") {
  check({.what = "speed of sound at sea level, m/s",
         .source = kIso,
         .place = "sea level",
         .kind = Kind::Own,
         .expected = 340.294,
         .got = standard_air(0.0).sound_speed_mps,
         .tolerance = 0.001});
  check({.what = "speed of sound at 2000 m, m/s",
         .source = kIso,
         .place = "2000 m",
         .kind = Kind::Own,
         .expected = 332.529,
         .got = standard_air(2000.0).sound_speed_mps,
         .tolerance = 0.01});
  check(
      {.what = "lapse per 1000 ft, K",
       .source = "Instrument rating ground course, meteorology (post)",
       .place = "lapse rate",
       .kind = Kind::Formula,
       .expected = 1.98,
       .got = standard_air(0.0).temperature_k - standard_air(1000.0 * units::kFoot_m).temperature_k,
       .tolerance = 0.005});
  check({.what = "density at 1000 m, standard QNH, 35 degC, kg/m3",
         .source = kIso,
         .place = "gas law with the standard pressure",
         .kind = Kind::Own,
         .expected = 1.01604,
         .got = day_air(1000.0, 101325.0, units::kelvin_from_celsius(35.0)).density_kgpm3,
         .tolerance = 1e-5});
}

TEST_CASE("air: what QNH means") {
  // By definition: at sea level the pressure is the QNH; at standard QNH it is the standard's.
  check({.what = "pressure at sea level under QNH 1009 hPa, Pa",
         .source = "ICAO Doc 8896 (definition of QNH)",
         .place = "definition",
         .kind = Kind::Formula,
         .expected = 100900.0,
         .got = day_air(0.0, 100900.0, 290.0).pressure_pa,
         .tolerance = 1e-6});
}

TEST_CASE("air: idle thrust follows the pressure") {
  const Aircraft aircraft;
  const double low = idle_thrust(aircraft, {}, standard_air(0.0)).standing_n;
  const double high = idle_thrust(aircraft, {}, standard_air(1000.0)).standing_n;
  check({.what = "idle thrust at 1000 m over that at sea level",
         .source = "Turbomachinery similarity (thrust over pressure ratio at corrected speed)",
         .place = "definition of corrected thrust",
         .kind = Kind::Own,
         .expected = 0.887,
         .got = high / low,
         .tolerance = 0.0005});
}
