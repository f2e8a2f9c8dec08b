// What must hold of a free jet, and what the answer compares.
#include <doctest/doctest.h>

#include <cmath>

#include "draws.hpp"
#include "physics/run/blast.hpp"
#include "physics/world/engines.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// On the axis, at that distance: velocity x distance is the same all along.
double free_jet_velocity_mps(double thrust_n, double air_density_kgpm3, double distance_m) {
  return free_jet_distance_m(thrust_n, air_density_kgpm3, 1.0) / distance_m;
}

}  // namespace

TEST_CASE("blast: reach grows with the root of the thrust, falls with the velocity") {
  Draws draws(20261140);
  for (int i = 0; i < 500; ++i) {
    const double thrust = draws.by_size(1e3, 5e5);
    const double density = draws.between(0.8, 1.5);
    const double velocity = draws.between(3.0, 60.0);
    const double reach = free_jet_distance_m(thrust, density, velocity);
    CHECK(free_jet_velocity_mps(thrust, density, reach) ==
          doctest::Approx(velocity).epsilon(1e-13));
    CHECK(free_jet_distance_m(4.0 * thrust, density, velocity) ==
          doctest::Approx(2.0 * reach).epsilon(1e-13));
    CHECK(free_jet_distance_m(thrust, 4.0 * density, velocity) ==
          doctest::Approx(0.5 * reach).epsilon(1e-13));
    CHECK(free_jet_distance_m(thrust, density, 2.0 * velocity) ==
          doctest::Approx(0.5 * reach).epsilon(1e-13));
    CHECK(free_jet_velocity_mps(thrust, density, 2.0 * reach) ==
          doctest::Approx(0.5 * velocity).epsilon(1e-13));
    const int engines = 1 + draws.below(6);
    const BlastReach all = blast_reach(thrust, engines, density, velocity);
    CHECK(all.velocity_mps == velocity);
    CHECK(all.merged_m == doctest::Approx(reach).epsilon(1e-14));
    CHECK(all.single_m * std::sqrt(engines) == doctest::Approx(reach).epsilon(1e-13));
    CHECK(all.ground_m == doctest::Approx(reach * std::sqrt(2.0)).epsilon(1e-13));
  }
}

TEST_CASE("blast: a jet keeps its momentum") {
  // A Gaussian profile of half width S x carries pi/(2 ln 2) rho u^2 (S x)^2; the same share of the
  // thrust at every distance, which is (B S)^2 over ln(2)/2.
  const double thrust = 40e3, density = 1.2, spread = 0.094;
  for (const double x : {30.0, 60.0, 240.0}) {
    const double u = free_jet_velocity_mps(thrust, density, x);
    const double momentum =
        units::kPi / (2.0 * std::log(2.0)) * density * u * u * spread * x * spread * x;
    CHECK(momentum / thrust ==
          doctest::Approx(kJetDecay * spread * kJetDecay * spread / (0.5 * std::log(2.0)))
              .epsilon(1e-12));
  }
}

TEST_CASE("blast: the answer sets idle beside the worst restart") {
  Brief brief;
  brief.condition.engines_running = 3;
  brief.aircraft.blast_contour_m = 120.0;
  const Air air = day_air(0.0, 101325.0, 288.15);
  const double idle = idle_thrust(brief.aircraft, brief.condition, air).standing_n;
  const BlastAnswer got = blast_answer(brief, air, 2.25 * idle, 4);
  CHECK(got.idle_n == idle);
  CHECK(got.restart_n == 2.25 * idle);
  CHECK(got.restart_leg == 4);
  CHECK(got.growth == doctest::Approx(1.5).epsilon(1e-14));
  CHECK(got.manual_contour_m == 120.0);
  const double velocities[3] = {kBlastGust_mps, kBlastPeople_mps, kBlastContour_mps};
  for (int i = 0; i < 3; ++i) {
    CHECK(got.idle[i].velocity_mps == velocities[i]);
    CHECK(got.restart[i].velocity_mps == velocities[i]);
    CHECK(got.idle[i].merged_m == free_jet_distance_m(idle, air.density_kgpm3, velocities[i]));
    CHECK(got.idle[i].single_m ==
          doctest::Approx(free_jet_distance_m(idle / 3.0, air.density_kgpm3, velocities[i])));
    CHECK(got.restart[i].merged_m / got.idle[i].merged_m ==
          doctest::Approx(got.growth).epsilon(1e-13));
    CHECK(got.restart[i].ground_m / got.idle[i].ground_m ==
          doctest::Approx(got.growth).epsilon(1e-13));
    if (i > 0) CHECK(got.idle[i].ground_m < got.idle[i - 1].ground_m);
  }
  // Where idle does it the restart is idle.
  const BlastAnswer easy = blast_answer(brief, air, 0.4 * idle, 0);
  CHECK(easy.restart_n == idle);
  CHECK(easy.growth == 1.0);
}
