// Which inputs are uncertain and by how much: half widths of the bands from which is drawn.
//
// A value is taken to lie between (nominal - band) and (nominal + band), most likely in the middle
// (triangular). A share multiplies the nominal value. The reason for each default stands beside it;
// all are inputs, and calibration.hpp narrows some of them.
#pragma once

namespace tillerline {

// The uncertain inputs, in the order of the bands.
enum class Unknown {
  IdleThrust,
  Rolling,
  Breakaway,
  Slope,
  Wind,
  Mass,
  BrakesNow,
  HeatCapacity,
  Cooling,
  BrakeHeat,
  Scrub
};
inline constexpr int kUnknowns = 11;

struct Bands {
  // Real idle schedules hold speed or bleed pressure: F ~ delta to within about 15 % (similarity).
  double idle_thrust_share = 0.15;
  // Design values for jet transports spread from 0.010 to 0.020 (Torenbeek, Raymer; from memory).
  double rolling_share = 0.25;
  double breakaway_share = 0.30;  // parked tyres, seals: more after a long stop
  // Whole-foot end elevations and local grades hide about a tenth of a percent.
  double slope_rad = 0.001;
  double wind_mps = 2.0;     // mean wind at the aircraft against the reported one
  double mass_share = 0.01;  // standard weights
  double brakes_now_k = 10.0;
  double heat_capacity_share = 0.10;  // carbon-carbon against graphite
  double cooling_share = 0.30;     // area, emissivity and still-air convection (3-5 W/m2K measured)
  double brake_heat_share = 0.15;  // downwards only: 85 to 100 % of the work ends in the packs
  double scrub_share = 0.15;       // leading constant of the tyre's cornering stiffness
};

}  // namespace tillerline
