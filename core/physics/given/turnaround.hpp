// A short turnaround: landing, taxi-in and time on the stand before this taxi-out, as plain
// numbers.
#pragma once

#include "physics/numerics/units.hpp"

namespace tillerline {

struct Turnaround {
  bool included = false;  // the taxi-out begins with what landing and stand time left in the brakes
  double landing_mass_kg = 250e3;
  double touchdown_mps = units::mps_from_knots(140.0);
  double turn_off_mps = units::mps_from_knots(30.0);
  double reverse_share = 0.3;  // of the landing's kinetic energy, taken by reverse thrust and air
  double brakes_at_touchdown_k = units::kelvin_from_celsius(40.0);  // as Limits::brake_reading
  double taxi_in_m = 2000.0;                                        // distance, on the level
  double taxi_in_s = 360.0;                                         // time, stops included
  double stand_s = 45.0 * 60.0;
  bool fans_at_stand = false;
};

}  // namespace tillerline
