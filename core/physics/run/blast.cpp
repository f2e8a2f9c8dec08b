#include "physics/run/blast.hpp"

#include <algorithm>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using elementary::square_root;

// Velocity x distance on the axis, m^2/s.
double strength_m2ps(double thrust_n, double air_density_kgpm3) {
  return kJetDecay * square_root(4.0 / units::kPi * thrust_n / air_density_kgpm3);
}

}  // namespace

double free_jet_distance_m(double thrust_n, double air_density_kgpm3, double velocity_mps) {
  return strength_m2ps(thrust_n, air_density_kgpm3) / velocity_mps;
}

BlastReach blast_reach(double thrust_n, int engines, double air_density_kgpm3,
                       double velocity_mps) {
  BlastReach reach;
  reach.velocity_mps = velocity_mps;
  reach.single_m = free_jet_distance_m(thrust_n / engines, air_density_kgpm3, velocity_mps);
  reach.merged_m = free_jet_distance_m(thrust_n, air_density_kgpm3, velocity_mps);
  reach.ground_m = square_root(2.0) * reach.merged_m;
  return reach;
}

BlastAnswer blast_answer(const Today& today, double worst_restart_n, int restart_leg) {
  constexpr double kVelocities_mps[3] = {kBlastGust_mps, kBlastPeople_mps, kBlastContour_mps};
  const int engines = today.condition.engines_running;
  const double density_kgpm3 = today.air.density_kgpm3;
  BlastAnswer answer;
  answer.idle_n = today.idle.thrust_n;
  answer.restart_n = std::max(answer.idle_n, worst_restart_n);
  answer.restart_leg = restart_leg;
  for (int i = 0; i < 3; ++i) {
    const double velocity_mps = kVelocities_mps[i];
    answer.idle[i] = blast_reach(answer.idle_n, engines, density_kgpm3, velocity_mps);
    answer.restart[i] = blast_reach(answer.restart_n, engines, density_kgpm3, velocity_mps);
  }
  answer.growth = square_root(answer.restart_n / answer.idle_n);
  answer.manual_contour_m = today.aircraft.blast_contour_m;
  return answer;
}

}  // namespace tillerline
