// The day: air, wind and pavement, as plain numbers.
//
// Wind is the mean wind at the height of the aircraft, constant along a leg; gusts are not
// modelled. `wind_from_rad` and all headings are counted clockwise from the same north (true or
// magnetic, as long as it is one of them).
// What the surface gives is worked out in surface.hpp.
#pragma once

namespace tillerline {

enum class Surface {
  Dry,
  Wet,
  Slippery,  // slippery when wet
  StandingWater,
  Slush,
  WetSnow,
  DrySnow,
  CompactedSnow,
  Ice,
  WetIce
};

// A runway condition code reported by number (ICAO global reporting format), or none.
inline constexpr int kNoReportedCode = -1;

struct Day {
  double temperature_k = 288.15;
  double qnh_pa = 101325.0;
  double wind_speed_mps = 0.0;
  double wind_from_rad = 0.0;
  Surface surface = Surface::Dry;
  double contaminant_depth_m = 0.0;  // of water, slush or snow
  int reported_code =
      kNoReportedCode;  // 0 to 6, as reported; the worse of it and the surface counts
};

}  // namespace tillerline
