// How far behind the engines a given thrust is still felt: a trend, never a safe distance.
//
// Round free jet into still air, far from the nozzle, with the thrust as its momentum flux:
//   u = B' sqrt(T / rho) / x,   B' = B sqrt(4 / pi),   so   x = B' sqrt(T / rho) / u
// from u/U = B d/x and T = rho U^2 pi d^2/4. B is 5.8 (Hussein, Capp and George, J. Fluid Mech.
// 258, 1994, laser) to 6.06 (Panchapakesan and Lumley, J. Fluid Mech. 246, 1993): 5.8 here, the
// other is 4.5 % farther; the values are as textbooks give them (Pope, Turbulent Flows, Table 5.1;
// from memory). The virtual origin and the distance from nozzle to tail are left out.
//   merged   n equal jets become one of n times the momentum: x times sqrt(n)
//   ground   a jet along the ground and its mirror image: half the section for the same momentum,
//            x times sqrt(2) again; friction of the ground is left out
// Not nearer than about 10 nozzle diameters (say 20 m), where the jet is not yet its own likeness.
//
// Known error: it falls short of published areas. At breakaway and take-off thrust those reach 1.5
// to 3.4 times as far as the merged free jet, 1.07 to 2.4 times as far as that along the ground:
// they hold margins, gusts, wind and the offset of the tail. So only growth and order are to be
// read from it (x as sqrt(T), as 1/u). The contour that counts is the one of the aircraft's manual,
// which the user enters.
//
// Limits of velocity: 31 km/h sudden gusts, 48 km/h people and loose objects (FAA AC 150/5300-13,
// chapter 8), 56 km/h the lowest contour of planning manuals (35 mph; ICAO Doc 9157 Part 2, from
// memory).
#pragma once

#include "physics/run/today.hpp"

namespace tillerline {

// Velocities published as limits.
inline constexpr double kBlastGust_mps = 31.0 / 3.6;    // sudden gusts hazardous over 20 mph
inline constexpr double kBlastPeople_mps = 48.0 / 3.6;  // people and loose objects, 30 mph
inline constexpr double kBlastContour_mps =
    56.0 / 3.6;  // lowest contour of planning manuals, 35 mph

// The jet's decay constant B, and the upper end of its published band.
inline constexpr double kJetDecay = 5.8;
inline constexpr double kJetDecayMost = 6.06;

// Distance on the axis of a round free jet of momentum flux `thrust_n` at which it has that
// velocity.
double free_jet_distance_m(double thrust_n, double air_density_kgpm3, double velocity_mps);

struct BlastReach {
  double velocity_mps = 0.0;
  double single_m = 0.0;  // one engine, free jet
  double merged_m = 0.0;  // all running engines merged, free jet
  double ground_m = 0.0;  // the same hugging the ground (mirror image)
};

// Reach of this thrust, shared evenly by so many engines.
BlastReach blast_reach(double thrust_n, int engines, double air_density_kgpm3, double velocity_mps);

struct BlastAnswer {
  double idle_n = 0.0;     // all running engines
  double restart_n = 0.0;  // the worst restart of the route; idle where that does it
  int restart_leg = -1;
  BlastReach idle[3];  // gust, people, contour
  BlastReach restart[3];
  double growth = 1.0;            // restart reach / idle reach
  double manual_contour_m = 0.0;  // as entered, 0: none
};
BlastAnswer blast_answer(const Today& today, double worst_restart_n, int restart_leg);

}  // namespace tillerline
