// The chance that a wheel passes the pavement's edge, or comes nearer to it than wanted, because
// nobody keeps a line to the centimetre.
//
// The wheels' tracks wander about the planned ones: normally distributed, mean zero, standard
// deviation sigma. The default of 0.775 m is the wander (30.5 in) that pavement tests give taxiing
// aircraft (FAA National Airport Pavement Test Facility, construction cycle 3). It is one number
// for all; laser measurements have larger aircraft wander less, and the tails of the distribution
// are not known: one digit of a chance at best, and none below 1 in 10,000. It is that of the main
// wheels; the nose wheels, nearer to the eye that is kept on the line, are taken to wander as much.
//
// What wanders first is that eye, `a` ahead of the turn axis, keeping to its side for about
// l = 20 m (common practice, no source). The body filters that: the main gear keeps its side for
// sqrt(a l), the standard deviation over that of its slope (small angles, exponential correlation).
//
// Over one turn the margin is m + b s^2 / 2 along the wheel's way s, b its bend. Rice's count of
// passages, by Laplace's method:
//   chance = Q(m / sigma) sqrt(1 + m / (b length^2)),  Q the upper tail of the normal distribution
// never less than the chance at the narrowest place alone, never more than 1, and 0
// below one in a million. Laplace's method
// wants the margin to be a standard deviation at least: the root of a smaller one is that of sigma.
// A margin that hardly bends counts with a bend of 1/1000 m. Against simulated tracks within a
// tenth for margins of 1 to 3.5 sigma, bends of 1/125 to 1/50 m and lengths of 10 to 40 m. The
// wheels of one turn are added, which is on the safe side: those of one side go together.
//
// Wander is all that is uncertain here: no other band moves a planned margin (uncertainty.hpp).
#pragma once

#include "physics/given/aircraft.hpp"
#include "physics/given/limits.hpp"
#include "physics/path/track.hpp"

namespace tillerline {

struct Wander {
  double sigma_m = 0.0;
  double length_m = 0.0;  // for how long a wheel keeps its side
};
Wander wander_of(const Aircraft& aircraft, double turn_axis_ahead_m, double sigma_m);

// Of passing an edge that comes within `margin_m` (negative: is passed already).
double wander_chance(const Wander& wander, double margin_m, double bend_pm);

// Chances over one turn, all wheels together.
struct WanderChance {
  double off_edge = 0.0;         // a wheel leaves the pavement
  double below_clearance = 0.0;  // or comes nearer to the edge than wanted
};
WanderChance wander_in_turn(const Wander& wander, const EdgeMargins& margins, const Limits& limits);

}  // namespace tillerline
