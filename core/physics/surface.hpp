// What the pavement's surface does to the taxi: condition code, grip, braking, and the drag of
// loose contaminants.
#pragma once

#include "physics/brief.hpp"

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
};
PavementState pavement_state(const Aircraft& aircraft, const Day& day);

// Condition code of a surface (ICAO Doc 9981 / FAA matrix; from memory).
int condition_code(Surface surface, double depth_m, double temperature_k);

// Wheel-braking coefficient with the anti-skid's efficiency, force per load on the braked wheels.
double braking_friction(const PavementState& pavement, double ground_speed_mps);

// Largest side force per load, main and nose wheels.
double side_grip(const PavementState& pavement, double ground_speed_mps);

// The speeds and the braking that this surface allows: the technique and limits given, tightened.
struct SurfaceLimits {
  bool speeds_cut = false;
  bool braking_cut = false;
  double planned_deceleration_mps2 = 0.0;  // before tightening
  double braking_friction = 0.0;        // at the top of the band
  double most_deceleration_mps2 = 0.0;  // that the braked wheels can give
  double straight_speed_mps = 0.0;      // after tightening
  double sharp_turn_speed_mps = 0.0;
  double gentle_turn_speed_mps = 0.0;
  double deceleration_mps2 = 0.0;
};
SurfaceLimits limits_on_surface(const Brief& brief, const PavementState& pavement);

// The brief with those limits put in. What the run, the turns and the stop are computed from.
Brief tightened_for_surface(const Brief& brief, const SurfaceLimits& limits);

}  // namespace tillerline
