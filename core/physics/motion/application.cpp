#include "physics/motion/application.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"

namespace tillerline {
namespace {

struct Phase {
  double start_s;
  double duration_s;
  double v_mps;      // speed at its begin
  double a_mps2;     // deceleration at its begin
  double jerk_mps3;  // growth of the deceleration

  double speed(double t) const { return v_mps - t * (a_mps2 + 0.5 * jerk_mps3 * t); }
  double distance(double t) const { return t * (v_mps - t * (0.5 * a_mps2 + jerk_mps3 * t / 6.0)); }
  double deceleration(double t) const { return a_mps2 + jerk_mps3 * t; }
};

struct Phases {
  Phase phase[3];
};

double slope_of(double from, double to, double duration_s) {
  return duration_s > 0.0 ? (to - from) / duration_s : 0.0;
}

Phases phases_of(const Application& a) {
  Phases p;
  p.phase[0] = {0.0, a.rise_s, a.v0_mps, a.start_mps2,
                slope_of(a.start_mps2, a.peak_mps2, a.rise_s)};
  p.phase[1] = {a.rise_s, a.hold_s, p.phase[0].speed(a.rise_s), a.peak_mps2, 0.0};
  p.phase[2] = {a.rise_s + a.hold_s, a.fall_s, p.phase[1].speed(a.hold_s), a.peak_mps2,
                slope_of(a.peak_mps2, a.end_mps2, a.fall_s)};
  return p;
}

void finish(Application& a) {
  const Phases p = phases_of(a);
  a.duration_s = a.rise_s + a.hold_s + a.fall_s;
  a.length_m =
      p.phase[0].distance(a.rise_s) + p.phase[1].distance(a.hold_s) + p.phase[2].distance(a.fall_s);
}

double natural_deceleration(const RollLaw& law, double speed_mps) {
  return std::max(0.0, -acceleration_mps2(law, speed_mps));
}

// Energy over a part of a phase on which the idle law is one quadratic.
double part_energy_j(const Phase& phase, const QuadraticMotion& motion, double from_s, double to_s,
                     double mass_kg) {
  return gauss_integral(kGauss4, from_s, to_s, [&](double t) {
    const double v = phase.speed(t);
    return mass_kg * (phase.deceleration(t) + acceleration_mps2(motion, v)) * v;
  });
}

}  // namespace

Application plan_application(const RollLaw& law, double v0_mps, double v1_mps,
                             double deceleration_mps2, double jerk_mps3) {
  Application a;
  a.v0_mps = v0_mps;
  a.v1_mps = v1_mps;
  a.start_mps2 = natural_deceleration(law, v0_mps);
  a.end_mps2 = natural_deceleration(law, v1_mps);
  // Brakes must add something even where the slope already slows it hard.
  const double wanted = std::max(deceleration_mps2, 0.1 + std::max(a.start_mps2, a.end_mps2));
  const double drop = v0_mps - v1_mps;
  const double squares = 0.5 * (a.start_mps2 * a.start_mps2 + a.end_mps2 * a.end_mps2);
  const double ramp_drop = (wanted * wanted - squares) / jerk_mps3;
  if (ramp_drop <= drop) {
    a.peak_mps2 = wanted;
    a.hold_s = (drop - ramp_drop) / wanted;
  } else {
    a.peak_mps2 = elementary::square_root(jerk_mps3 * drop + squares);
    const double least = std::max(a.start_mps2, a.end_mps2);
    if (a.peak_mps2 < least) {  // a drop so small that no ramp fits: constant deceleration
      a.start_mps2 = a.peak_mps2 = a.end_mps2 = least;
      a.hold_s = drop / least;
    }
  }
  a.rise_s = (a.peak_mps2 - a.start_mps2) / jerk_mps3;
  a.fall_s = (a.peak_mps2 - a.end_mps2) / jerk_mps3;
  finish(a);
  return a;
}

Application firm_application(double v0_mps, double v1_mps, double length_m) {
  Application a;
  a.v0_mps = v0_mps;
  a.v1_mps = v1_mps;
  const double deceleration = (v0_mps * v0_mps - v1_mps * v1_mps) / (2.0 * length_m);
  a.start_mps2 = a.peak_mps2 = a.end_mps2 = deceleration;
  a.hold_s = (v0_mps - v1_mps) / deceleration;
  finish(a);
  return a;
}

ApplicationState application_state(const Application& application, double time_s) {
  const Phases p = phases_of(application);
  const double clamped = std::clamp(time_s, 0.0, application.duration_s);
  double distance_m = 0.0;
  int i = 0;
  for (; i < 2 && clamped > p.phase[i].start_s + p.phase[i].duration_s; ++i)
    distance_m += p.phase[i].distance(p.phase[i].duration_s);
  const Phase& phase = p.phase[i];
  const double local_s = std::min(clamped - phase.start_s, phase.duration_s);
  return {phase.speed(local_s), distance_m + phase.distance(local_s)};
}

double application_speed_mps(const Application& application, double remaining_m) {
  const double target_m = application.length_m - remaining_m;
  if (target_m <= 0.0) return application.v0_mps;
  if (remaining_m <= 0.0) return application.v1_mps;
  const double time_s = find_zero(0.0, application.duration_s, [&](double t) {
    return application_state(application, t).distance_m - target_m;
  });
  return application_state(application, time_s).speed_mps;
}

double application_brakes_mps2(const Application& application, const RollLaw& law) {
  double most = 0.0;
  for (const Phase& phase : phases_of(application).phase)
    for (const double t : {0.0, phase.duration_s})
      most = std::max(most, phase.deceleration(t) + acceleration_mps2(law, phase.speed(t)));
  return most;
}

double application_energy_j(const Application& application, const RollLaw& law, double mass_kg) {
  const Phases p = phases_of(application);
  double energy_j = 0.0;
  for (const Phase& phase : p.phase) {
    const double first = phase.speed(0.0);
    const double last = phase.speed(phase.duration_s);
    if (first > law.split_mps && last < law.split_mps) {
      const double crossing_s = find_zero(0.0, phase.duration_s,
                                          [&](double t) { return phase.speed(t) - law.split_mps; });
      energy_j += part_energy_j(phase, law.above, 0.0, crossing_s, mass_kg);
      energy_j += part_energy_j(phase, law.below, crossing_s, phase.duration_s, mass_kg);
    } else {
      const QuadraticMotion& motion = first > law.split_mps ? law.above : law.below;
      energy_j += part_energy_j(phase, motion, 0.0, phase.duration_s, mass_kg);
    }
  }
  return energy_j;
}

}  // namespace tillerline
