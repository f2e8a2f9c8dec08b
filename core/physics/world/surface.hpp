// What the pavement's surface does to the taxi: condition code, grip, braking, and the drag of
// loose contaminants.
//
// Condition code. Numbers 6 (dry) to 0 (nil) of the global reporting format, by the runway
// condition assessment matrix: ICAO PANS-Aerodromes (Doc 9981) and FAA AC 150/5200-30D (the wording
// of the codes as published; the rows from memory). Depth matters above 3 mm, the air's temperature
// at -15 degC for compacted snow. A reported code counts when it is worse. The matrix is made for
// runways; for taxiways it is the best there is.
//
// Braking. mu is the brake force per load on the braked wheels with a fully modulating anti-skid
// system, by code (FAA AC 25-31, AMC 25.1592; from memory) and speed V (knots), x = V/100:
//   6  0.8 [0.912 (1 - 0.0011 p) - 0.00079 V], p in psi (Barnes and Yager, AGARD-AG-333, 1998;
//      second-hand), at most 0.7
//   5  0.8 mu_wet, mu_wet(x) the four cubics of 14 CFR / CS 25.109(c)(1), linear in pressure
//   between
//      50, 100, 200 and 300 psi (from memory), held outside; 0.8: 25.109(c)(2), fully modulating
//   4  0.20     3  0.16
//   2  half of code 5, at most 0.16; 0.05 above 85 % of the aquaplaning speed 9 sqrt(p) knots
//   1  0.07     0  0.03: no value is published for "nil"; this one is ours
// and the lower of that and the surface's own default of AMC 25.1591 7.3 (from memory): loose water
// and slush -0.0632 x^3 + 0.2683 x^2 - 0.4321 x + 0.3485, loose wet and dry snow 0.17, compacted
// snow 0.20, ice 0.05. A code never gives more than the next better one.
//
// Side grip. Dry 0.7 (measured braked friction 0.7-0.8, NASA TR R-20, Sawyer and Kolnick).
// Otherwise the lower of the cornering form 0.64 m + 0.15 m^2 with the wet m = (0.91 - 0.001 p)(1 -
// 0.0052 V) (AGARD-AG-333, second-hand) and the braking mu above. No rule gives the side force of
// aircraft tyres on contaminants; the braking value stands for it, which is on the safe side: on
// packed snow and bare ice vehicle tyres were measured to hold more sideways than in braking
// (Navin, Macnabb and Nicolletti, SAE 1996). Grip falls with speed.
//
// Displacement drag. Contaminants deeper than 3 mm: D = 1/2 rho b d C_D v^2 a tyre, C_D 0.75,
// density rho and depth d of the contaminant, chord b = 2 W sqrt(k - k^2), k = (deflection + d)/W,
// W the tyre's width (EASA AMC 25.1591 7.1; formula from memory); b = W once k passes 0.5. Against
// one such wheel a pair side by side has 2, a bogie of four wheels 4 and one of six 4.2 times its
// drag, interference included (the same, 7.1.2; from memory, the text could not be read). So the
// rows behind the first drag as one row more, or 1.1 for three axles; for four, of which nothing is
// known to be published, it is left at that. Were their track clear, a bogie's drag would be half:
// `rear_rows_share` says how much of the whole hangs on it. The nose wheels count as a pair of main
// wheels. A lower bound in slush: spray that strikes the airframe is not in it, and with it a jet
// transport was measured to have much more (full-scale tests of 1962).
//
// Dry snow. Density 80 kg/m^3 (30 to 130 in 180 runs; Lidstrom, VTI Rapport 173 A, 1979). For snow
// van Es (NLR-TP-99240, 1999) found the v^2 law unsatisfactory; in tests from 50 to 80 km/h the
// drag went with the depth and with the first power of the speed (Kihlgren, VTI, 1977). So it does
// here, D = c v, with c such that at 65 km/h, in the middle of those tests, it is the displacement
// drag above: no absolute value could be read. It falls with the tyre's pressure as the deflection
// does.
//
// The start. Wheels that have stood in slush or snow have packed it under them, and ruts freeze:
// no published law was found, so where slush, wet or dry snow lies deeper than 3 mm the start from
// rest is not computed (`start_modelled`); what is said of rolling holds once it rolls.
// No depth is no contaminant: 0 mm of slush is a wet pavement.
//
// Valid for 0 to 100 kt. All friction is a default of rules, not a measurement of today's surface.
#pragma once

#include "physics/given/brief.hpp"

namespace tillerline {

// All that follows from the day's surface, for one aircraft.
struct PavementState {
  Surface surface = Surface::Dry;
  int surface_code = 6;    // condition code that the surface itself has
  int condition_code = 6;  // the worse of that and the reported one
  bool reported_worse = false;
  bool loose = false;    // a contaminant deep enough to be displaced (over 3 mm)
  double depth_m = 0.0;  // of the contaminant, 0 when there is none
  double density_kgpm3 = 0.0;
  double tyre_pressure_pa = 1.4e6;
  double displacement_drag_nspm2 = 0.0;  // N per (m/s)^2 of ground speed, whole aircraft
  double snow_drag_nspm = 0.0;           // N per m/s of ground speed, in loose dry snow
  double rear_rows_share = 0.0;          // of either, from the wheels behind the first row
  bool start_modelled = true;            // false: what the start from rest takes is not known
};
PavementState pavement_state(const Aircraft& aircraft, const Day& day);

// Condition code of a surface.
int condition_code(Surface surface, double depth_m, double temperature_k);

// Largest friction of a wet smooth pavement, 25.109(c)(1), before any anti-skid efficiency.
double wet_friction(double tyre_pressure_pa, double ground_speed_mps);

// Speed at which a rolling tyre floats on deep water: 9 sqrt(p) kt, p in psi (Horne and Dreher,
// NASA TN D-2056, 1963). Modern tyres float sooner (van Es, NLR-TP-2001-242).
double aquaplaning_speed_mps(double tyre_pressure_pa);

// Default friction of AMC 25.1591 7.3 for a loose contaminant, compacted snow or ice; 1 where it
// has none.
double default_friction(Surface surface, double ground_speed_mps);

// Drag of one tyre through a loose contaminant, N per (m/s)^2.
double tyre_displacement_drag_nspm2(double tyre_width_m, double tyre_deflection_m, double depth_m,
                                    double density_kgpm3);

// Wheel-braking coefficient with the anti-skid's efficiency, force per load on the braked wheels.
double braking_friction(const PavementState& pavement, double ground_speed_mps);

// Largest side force per load, main and nose wheels.
double side_grip(const PavementState& pavement, double ground_speed_mps);

// Grip for a turn: at the highest speed that the operator's limits allow on that arc, where it is
// least.
double grip_in_turn(const PavementState& pavement, const Limits& limits, const Leg& arc);

// Share of the aircraft's weight that stands on working brakes: main-gear share x working brakes /
// main wheels.
double braked_load_share(const Aircraft& aircraft, const Condition& condition);

// The speeds and the braking that this surface allows: the technique and limits given, tightened.
// Speeds are cut to the winter speeds on code 3 and worse and under a loose contaminant. The
// planned deceleration is cut to 0.8 of what the braked wheels give on the level at the top of the
// band; the rest is kept for slope and idle thrust.
struct SurfaceLimits {
  bool speeds_cut = false;
  bool braking_cut = false;
  double planned_deceleration_mps2 = 0.0;  // before tightening
  double braking_friction = 0.0;           // at the top of the band
  double most_deceleration_mps2 = 0.0;     // that the braked wheels can give
  double straight_speed_mps = 0.0;         // after tightening
  double sharp_turn_speed_mps = 0.0;
  double gentle_turn_speed_mps = 0.0;
  double deceleration_mps2 = 0.0;
};
SurfaceLimits limits_on_surface(const Aircraft& aircraft, const Condition& condition,
                                const Limits& given, const Technique& technique,
                                const PavementState& pavement);

// Puts those limits in.
void tighten_for_surface(const SurfaceLimits& by, Limits& limits, Technique& technique);

}  // namespace tillerline
