// Which inputs are uncertain and by how much: the bands from which is drawn.
//
// A value is taken to lie between (nominal - below) and (nominal + above), most likely at the
// nominal one (triangular). What was measured or published need not lie as far to one side as to
// the other, so a band may be lopsided. A share multiplies the nominal value. The reason for each
// default stands beside it; all are inputs, and calibration.hpp narrows some of them.
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
  Scrub,
  OvertakenThrust
};
inline constexpr int kUnknowns = 12;

// How far a value may lie below and above its most likely one; neither is negative.
struct Band {
  double below = 0.0;
  double above = 0.0;

  constexpr Band() = default;
  // A plain number is a band as wide to either side.
  constexpr Band(double either_side)  // NOLINT(google-explicit-constructor)
      : below(either_side), above(either_side) {}
  constexpr Band(double below_it, double above_it) : below(below_it), above(above_it) {}

  friend constexpr bool operator==(const Band&, const Band&) = default;
};

struct Bands {
  // Real idle schedules hold speed or bleed pressure: F ~ delta to within about 15 % (similarity).
  Band idle_thrust_share = 0.15;
  // Downwards as wheels on hard pavement scatter; upwards to 0.019, just short of the 0.02 that
  // take-off calculations use (Mason, TAKEOFF2, design value): cold, soft or loaded tyres.
  Band rolling_share = {0.25, 0.60};
  // Published for starting to roll: 0.015 to 0.035 of the weight (from memory). Most aircraft
  // presets stand at the bottom of it.
  Band breakaway_share = {0.10, 1.33};
  // Whole-foot end elevations and local grades hide about a tenth of a percent.
  Band slope_rad = 0.001;
  Band wind_mps = 2.0;     // mean wind at the aircraft against the reported one
  Band mass_share = 0.01;  // standard weights
  Band brakes_now_k = 10.0;
  Band heat_capacity_share = 0.10;  // carbon-carbon against graphite
  // Area, emissivity and still-air convection; further downwards, since 3 to 5 W/m2K were measured
  // at a standing disc (Topouris et al., Strojniski vestnik 66(1) 2020) where most presets have 6.
  Band cooling_share = {0.55, 0.30};
  Band brake_heat_share = {0.15, 0.0};  // 85 to 100 % of the work ends in the packs
  Band scrub_share = 0.15;              // leading constant of the tyre's cornering stiffness
  // Of the thrust that the momentum balance gives back where the wind overtakes the aircraft
  // (roll.hpp): none is most likely, all of it is the bound; nothing measured was found.
  Band overtaken_thrust_share = {0.0, 1.0};
  // Standard deviation of the wheels' tracks about the planned ones (wander.hpp): measured.
  double wander_sigma_m = 0.775;
};

}  // namespace tillerline
