// How far behind the engines a given thrust is still felt: a trend, never a safe distance.
#pragma once

#include "physics/atmosphere.hpp"
#include "physics/brief.hpp"

namespace tillerline {

// Velocities published as limits.
inline constexpr double kBlastGust_mps = 31.0 / 3.6;    // sudden gusts hazardous over 20 mph
inline constexpr double kBlastPeople_mps = 48.0 / 3.6;  // people and loose objects, 30 mph
inline constexpr double kBlastContour_mps =
    56.0 / 3.6;  // lowest contour of planning manuals, 35 mph

// Distance on the axis of a round free jet of momentum flux `thrust_n`.
double free_jet_distance_m(double thrust_n, double air_density_kgpm3, double velocity_mps);
double free_jet_velocity_mps(double thrust_n, double air_density_kgpm3, double distance_m);

struct BlastReach {
  double velocity_mps = 0.0;
  double single_m = 0.0;  // one engine, free jet
  double merged_m = 0.0;  // all running engines merged, free jet
  double ground_m = 0.0;  // the same hugging the ground (mirror image)
};

struct BlastAnswer {
  double idle_n = 0.0;     // all running engines
  double restart_n = 0.0;  // the worst restart of the route
  int restart_leg = -1;
  BlastReach idle[3];  // gust, people, contour
  BlastReach restart[3];
  double growth = 1.0;            // restart reach / idle reach
  double manual_contour_m = 0.0;  // as entered, 0: none
};
BlastAnswer blast_answer(const Brief& brief, const Air& air, double worst_restart_n,
                         int restart_leg);

}  // namespace tillerline
