// Side force of a tyre, and what a bogie costs in a turn.
//
// Side force per load at slip angle alpha (normal to the wheel plane):
//   F / F_z = mu g(phi),  phi = C alpha / mu,  g = phi - (4/27) phi^3 up to phi = 1.5, then 1
// (cubic of NASA TR R-64, Smiley and Horne 1960; form from memory, its value and slope at 1.5 are
// exact by construction). C is the normalised cornering stiffness per radian: 5.5 for a large
// bias-ply tyre, range 4 to 7.
//
// C falls with the load: the same report has the cornering power N = C F_z in proportion to
// 1.2 x - 8.8 x^2 up to x = 0.0875 and to 0.0674 - 0.34 x beyond, x deflection over diameter (from
// memory; the branches meet to 0.1 %). That is level about x = 0.068, where such tyres work: so N
// hardly changes with the load and C goes about with 1 / F_z. There x = 0.012 + 0.060 F_z / F_m
// (the report's vertical load, (x d / w - 0.03) in proportion, on a tyre whose width w is 0.4 of
// its diameter d; from memory). In slow towing the side force per load fell with the load and did
// not depend on the pressure (measured, abstract read; NASA, free-swivelling nose gear). The
// aircraft's C is taken as that at the load F_m which it has at the middle of its taxi masses.
//
// A bogie whose middle runs on a circle of radius R forces its axles, at distances x_i before and
// behind the middle, to slip by atan(x_i / R). Their side forces resist the turn with the moment
//   M = sum F_i x_i  and cost the drag  D = M / R  exactly (the power M omega = D V).
// Count it once: it is the nose gear that pulls it. (Summing F_i sin(alpha_i) gives D cos(alpha):
// the drags of the axles along their own, slightly larger circles; 0.1 % less at 30 m.)
//
// At a standstill the tyres keep their wound-up side force, so a restart in the turn meets the
// whole drag from the first metre. Valid for R larger than about one bogie length. The tyre numbers
// are uncertain by 15 %.
#pragma once

#include "physics/given/brief.hpp"

namespace tillerline {

// Side force per load, dimensionless, for one wheel.
double side_force_per_load(double slip_rad, double cornering_stiffness_prad, double grip);

// Slip angle, rad (>= 0), at which the wheel gives that side force per load: the cubic inverted,
// phi = 3 sin(asin(F / (mu F_z)) / 3). The angle of most side force where the grip does not
// suffice.
double slip_for_side_force_rad(double force_per_load, double cornering_stiffness_prad, double grip);

// C of the main tyres at this mass, from the aircraft's own at the middle of its taxi masses.
double stiffness_at_mass_prad(const Aircraft& aircraft, double mass_kg);

// How the resistance to rolling, and to start rolling, changes with the tyres' pressure, given as a
// share of the right one: 1 at 1. It goes in a straight line with 1 / pressure (drum tests:
// "Rolling resistance of pneumatic tires", Tire Science and Technology 6(3), 1978, abstract); how
// much of it does so is not in the abstract: three quarters, between half and all, from memory.
double pressure_factor(double pressure_share);

struct Bogie {
  int axles = 2;
  double axle_spacing_m = 1.5;
  double cornering_stiffness_prad = 5.5;
};

struct BogieScrub {
  double moment_m = 0.0;       // moment per load on the bogie, N m per N
  double drag = 0.0;           // moment / radius, N per N
  double axle_drag_sum = 0.0;  // mean of F sin(alpha) over the axles, N per N
};

// Scrub of one bogie whose middle runs on a circle of the given radius (> 0), on this grip.
BogieScrub bogie_scrub(const Bogie& bogie, double radius_m, double grip);

// Mean square distance of the axles from the bogie's middle, m^2: on a large radius and dry
// pavement the scrub's moment is the cornering stiffness times it over the radius, a reference that
// `bogie_scrub` is held against.
double axle_spread_m2(const Bogie& bogie);

// What a stand before the start makes of the resistance to start rolling, as a factor: 1, 4/3, 5/3.
// Common practice, no source; published values for starting to roll are 0.015 to 0.035 of the
// weight, so 0.015 becomes 0.020 or 0.025. In deep cold no number holds (frozen tyres, stiff
// grease). Counts for the first start only: rolling works the tyres warm.
double stood_factor(Stood stood);

}  // namespace tillerline
