// Air: the standard atmosphere and the air of the day on the aerodrome.
//
// Model: ICAO standard atmosphere (ISO 2533:1975, ICAO Doc 7488), troposphere only: temperature
// falls by 0.0065 K per geopotential metre from 288.15 K; pressure by hydrostatic balance from
// 101 325 Pa. The air of the day has the station pressure that the QNH gives at the elevation (by
// the standard atmosphere, as QNH is defined) and the measured temperature; it is taken as dry
// (water vapour at 30 degC and full humidity lowers density by 1.6 %: left out).
//
// Valid from -500 m to 11 000 m.
#pragma once

namespace tillerline {

struct Air {
  double temperature_k = 288.15;
  double pressure_pa = 101325.0;
  double density_kgpm3 = 1.225;
  double sound_speed_mps = 340.294;
};

// Standard atmosphere at a geopotential altitude: the reference that the day's air is held against.
Air standard_air(double altitude_m);

// Air at an aerodrome of the given elevation under the given QNH and temperature.
Air day_air(double elevation_m, double qnh_pa, double temperature_k);

}  // namespace tillerline
