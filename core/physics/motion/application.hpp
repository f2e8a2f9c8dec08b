// One smooth brake application: its speed history, length, duration and energy.
//
// The deceleration rises with the jerk J from its natural value (what drag and slope do already) to
// the chosen one, holds, and falls again to the natural value at the end speed; the brakes supply
// what is missing to it: F = m (deceleration + a_free(v)). With no natural deceleration the length
// is (v0^2 - v1^2)/(2a) + (v0 + v1) a/(2J) and the time (v0 - v1)/a + a/J, by symmetry of the
// profile. When the speed drop is too small for the chosen deceleration the peak is lower.
// All phases are polynomials in time: lengths are exact, the energy
//   E = integral m (deceleration(t) + a_free(v(t))) v(t) dt
// is a polynomial of degree <= 6 on each side of the wind split, integrated exactly by 4 Gauss
// points.
// Valid for v0 > v1 >= 0.
#pragma once

#include "physics/motion/roll.hpp"

namespace tillerline {

struct Application {
  double v0_mps = 0.0;
  double v1_mps = 0.0;
  double start_mps2 = 0.0;  // deceleration at the begin, at the peak and at the end
  double peak_mps2 = 0.0;
  double end_mps2 = 0.0;
  double rise_s = 0.0;  // the three phases
  double hold_s = 0.0;
  double fall_s = 0.0;
  double length_m = 0.0;
  double duration_s = 0.0;
};

// The application from v0 to v1 with the wanted deceleration and jerk, under the idle law.
Application plan_application(const RollLaw& law, double v0_mps, double v1_mps,
                             double deceleration_mps2, double jerk_mps3);

// One that fits into `length_m` (shorter than the smooth one): constant deceleration v^2/(2 d).
Application firm_application(double v0_mps, double v1_mps, double length_m);

// Speed and distance, `time_s` after the begin.
struct ApplicationState {
  double speed_mps = 0.0;
  double distance_m = 0.0;
};
ApplicationState application_state(const Application& application, double time_s);

// Speed when `remaining_m` (0 to length) are left of the application.
double application_speed_mps(const Application& application, double remaining_m);

// Most that the brakes give to it, m/s^2: deceleration plus what idle thrust and slope put in, at
// the corners of the profile.
double application_brakes_mps2(const Application& application, const RollLaw& law);

// Energy that the brakes take, J, on an aircraft of this mass under this idle law.
double application_energy_j(const Application& application, const RollLaw& law, double mass_kg);

}  // namespace tillerline
