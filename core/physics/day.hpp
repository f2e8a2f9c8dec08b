// The day: air, wind and pavement, as plain numbers.
//
// Wind is the mean wind at the height of the aircraft, constant along a leg; gusts are not
// modelled. `wind_from_rad` and all headings are counted clockwise from the same north (true or
// magnetic, as long as it is one of them).
//
// Grip is the largest side force per load that a tyre can give. Defaults: dry 0.7 (braked friction
// 0.7-0.8, NASA TR R-20, Sawyer and Kolnick), wet 0.4, slippery 0.16 (the wheel-braking value used
// for condition code 3 in FAA AC 25-31; from memory).
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

// Largest side force per load on the surface, dimensionless.
constexpr double side_grip(Surface surface) {
  switch (surface) {
    case Surface::Dry:
      return 0.7;
    case Surface::Wet:
      return 0.4;
    default:
      return 0.16;
  }
  return 0.16;
}

}  // namespace tillerline
