// Motion under an acceleration that is quadratic in speed: exact time and distance.
//
//   dv/dt = A + B v + C v^2
//
// The roll of an aircraft under idle thrust, rolling resistance, slope and air drag has this form
// as long as the air does not change its direction relative to the aircraft (roll.hpp splits
// there).
//
// Method: between v0 and v1 let h = v1 - v0, a0 = a(v0), a1 = a(v1), P = a0 + a1, S = P - C h^2.
// By the addition theorem of artanh the time is
//   t = (2 h / S) Phi(z),  z = 1 - 4 a0 a1 / S^2 = D h^2 / S^2,  D = B^2 - 4 A C,
//   Phi(z) = artanh(sqrt z) / sqrt z, continued through z = 0 by arctan (Carlson's R_C),
// and the distance is s = (v0 + v1)/2 t + K with K written by the divided difference of Phi, so
// that neither C nor D is ever divided by: constant acceleration, pure linear and pure quadratic
// drag are inside the one formula. (Carlson, Numerical Algorithms 10, 1995, for R_C; the sum form
// is derived here and checked in tests/physics against direct integration.)
//
// Error: below 1e-13 relative in t and s for well-conditioned inputs; near a terminal speed the
// answer is as uncertain as the terminal speed itself.
// Degenerate cases: v1 = v0 gives zeros; a speed that is never reached gives reached = false.
#pragma once

namespace tillerline {

struct QuadraticMotion {
  double a_mps2 = 0.0;  // A
  double b_ps = 0.0;    // B
  double c_pm = 0.0;    // C
};

struct Passage {
  bool reached = false;
  double time_s = 0.0;
  double distance_m = 0.0;
};

// Acceleration at speed v, m/s^2.
double acceleration_mps2(const QuadraticMotion& motion, double speed_mps);

// Time and distance from speed v0 to speed v1, in either direction. Not reached when the
// acceleration at v0 does not point towards v1 or vanishes in between.
Passage passage(const QuadraticMotion& motion, double v0_mps, double v1_mps);

// The speed at which a motion that starts from v0 comes to rest with itself: the nearest root of
// a(v) in the direction of a(v0). `exists` is false when there is none.
struct TerminalSpeed {
  bool exists = false;
  double speed_mps = 0.0;
};
TerminalSpeed terminal_speed(const QuadraticMotion& motion, double v0_mps);

// Carlson's degenerate elliptic integral in the form Phi(z) = sum z^n / (2n + 1); pass 1 - z too,
// which callers know without cancellation. Valid for z < 1.
double phi(double z, double one_minus_z);

}  // namespace tillerline
