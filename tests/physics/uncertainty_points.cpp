// The low-discrepancy points, what is drawn from them, and the indices computed with them.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <vector>

#include "physics/given/taxi_route.hpp"
#include "physics/numerics/low_discrepancy.hpp"
#include "physics/numerics/sobol_index.hpp"
#include "physics/uncertainty/batch_draws.hpp"
#include "stations.hpp"

#ifdef TILLERLINE_NATIVE
#include <boost/random/sobol.hpp>
#endif

using namespace tillerline;
using namespace tillerline::tests;

namespace {

constexpr int kPoints = 1 << kSobolCellBits;

}  // namespace

#ifdef TILLERLINE_NATIVE
TEST_CASE("points: Boost's Sobol' engine gives the same in all dimensions") {
  boost::random::sobol engine(kSobolDimensions);
  // Boost leaves out the first point, the corner, and counts in 64 bits.
  int differences = 0;
  for (std::uint32_t index = 1; index <= 4096; ++index)
    for (int j = 0; j < kSobolDimensions; ++j)
      if (static_cast<std::uint64_t>(engine()) >> 32 != sobol_bits(index, j)) ++differences;
  CHECK(differences == 0);
}
#endif

TEST_CASE("property: every power of two of points has one in each cell, in every dimension") {
  for (int bits : {3, 6, kSobolCellBits}) {
    const int count = 1 << bits;
    for (int j = 0; j < kSobolDimensions; ++j) {
      std::vector<int> plain(static_cast<std::size_t>(count));
      std::vector<int> shifted(static_cast<std::size_t>(count));
      for (int n = 0; n < count; ++n) {
        const auto index = static_cast<std::uint32_t>(n);
        ++plain[sobol_bits(index, j) >> (32 - bits)];
        ++shifted[static_cast<std::size_t>(shifted_sobol(index, j, 5) * count)];
      }
      CHECK(std::count(plain.begin(), plain.end(), 1) == count);
      CHECK(std::count(shifted.begin(), shifted.end(), 1) == count);
    }
  }
}

TEST_CASE("property: the seed shifts, dimension by dimension, and leaves no bias") {
  for (int j = 0; j < kSobolDimensions; ++j) {
    double sum = 0.0;
    int moved = 0;
    for (std::uint32_t n = 0; n < kPoints; ++n) {
      const double x = shifted_sobol(n, j, 1);
      CHECK((x > 0.0 && x < 1.0));
      CHECK(x == shifted_sobol(n, j, 1));
      // The middle of its cell.
      CHECK(x * kPoints - std::floor(x * kPoints) == 0.5);
      if (x != shifted_sobol(n, j, 2)) ++moved;
      sum += x;
    }
    CHECK(sum / kPoints == 0.5);
    CHECK((moved == 0 || moved == kPoints));
  }
  int moved = 0;
  for (int j = 0; j < kSobolDimensions; ++j)
    if (shifted_sobol(0, j, 1) != shifted_sobol(0, j, 2)) ++moved;
  CHECK(moved > kSobolDimensions / 2);
  CHECK(shifted_sobol(0, 0, 1) != shifted_sobol(0, 1, 1));
}

TEST_CASE("property: triangles are symmetric, rise, end at their ends and invert their areas") {
  CHECK(triangular(0.5, 1.0, 1.0) == 0.0);
  CHECK(triangular(0.0, 1.0, 1.0) == -1.0);
  CHECK(triangular(1.0, 1.0, 1.0) == 1.0);
  const auto rising = [](double even) { return 1.0 + triangular(even, 1.0, 0.0); };
  CHECK(rising(0.0) == 0.0);
  CHECK(rising(1.0) == 1.0);
  CHECK(triangular(0.3, 0.0, 0.0) == 0.0);
  for (int i = 1; i < 100; ++i) {
    const double p = i / 100.0;
    const double x = triangular(p, 1.0, 1.0);
    CHECK(x == doctest::Approx(-triangular(1.0 - p, 1.0, 1.0)).epsilon(1e-14));
    CHECK(x > triangular(p - 0.01, 1.0, 1.0));
    // Area of the triangle up to x.
    const double area = x < 0.0 ? 0.5 * (1.0 + x) * (1.0 + x) : 1.0 - 0.5 * (1.0 - x) * (1.0 - x);
    CHECK(area == doctest::Approx(p).epsilon(1e-14));
    // A lopsided one: a quarter of its area lies below the peak where a quarter of its base does.
    const double lopsided = triangular(p, 1.0, 3.0);
    CHECK((lopsided < 0.0) == (p < 0.25));
    const double below = lopsided < 0.0 ? (1.0 + lopsided) * (1.0 + lopsided) / 4.0
                                        : 1.0 - (3.0 - lopsided) * (3.0 - lopsided) / 12.0;
    CHECK(below == doctest::Approx(p).epsilon(1e-14));
    const double risen = rising(p);
    CHECK(risen * risen == doctest::Approx(p).epsilon(1e-14));
    CHECK(risen > rising(p - 0.01));
  }
}

TEST_CASE("property: draws fill each unknown's own band and no other") {
  const Bands bands;
  const DrawBlock nominal = nominal_block();
  for (int u = 0; u < kUnknowns; ++u) {
    const auto unknown = static_cast<Unknown>(u);
    const Band& band = band_of(bands, unknown);
    const double wide = band.below + band.above;
    CHECK(wide > 0.0);
    double least = 1e9, most = -1e9;
    for (int block = 0; block < kPoints / kLanes; ++block) {
      DrawBlock draws;
      draw_block(bands, block, 0, 7, draws);
      for (int i = 0; i < kLanes; ++i) {
        const double off = draws[unknown][i] - nominal[unknown][i];
        least = std::min(least, off);
        most = std::max(most, off);
      }
    }
    // 512 points: the outermost are within a twentieth of the ends, none beyond.
    CHECK(least >= -band.below);
    CHECK(least < -band.below + 0.05 * wide);
    CHECK(most <= band.above);
    CHECK(most > band.above - 0.05 * wide);
  }
  Bands none{};
  none.idle_thrust_share = none.rolling_share = none.breakaway_share = none.slope_rad =
      none.wind_mps = none.mass_share = none.brakes_now_k = none.heat_capacity_share =
          none.cooling_share = none.brake_heat_share = none.scrub_share =
              none.overtaken_thrust_share = 0.0;
  DrawBlock still;
  draw_block(none, 1, 3, 7, still);
  for (int u = 0; u < kUnknowns; ++u)
    for (int i = 0; i < kLanes; ++i) CHECK(still.of[u][i] == nominal.of[u][i]);
}

TEST_CASE("property: forces as drawn, and the scrub's parabola through the band") {
  Brief brief;
  brief.bands.scrub_share = 0.2;
  Leg straight;
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.turn_rad = 1.2;
  brief.route.legs.push(straight);
  brief.route.legs.push(arc);
  FixedList<TurnAnswer, kMaxLegs> turns;
  TurnAnswer turn;
  turn.leg = 1;
  turn.rolling_radius_m = 40.0;
  turn.grip = 0.7;
  turn.loads = turn_loads(brief.aircraft, brief.condition.mass_kg, 40.0, 0.7);
  turns.push(turn);
  const Scrubs scrubs = scrubs_of(brief, turns);
  CHECK(scrubs.of[0].at(1.1) == 0.0);
  CHECK(scrubs.of[1].at(1.0) == turn.loads.scrub_drag_n);
  for (const double factor : {0.8, 0.87, 0.95, 1.08, 1.2}) {
    Aircraft other = brief.aircraft;
    other.cornering_stiffness_prad *= factor;
    const double drag = turn_loads(other, brief.condition.mass_kg, 40.0, 0.7).scrub_drag_n;
    CHECK(scrubs.of[1].at(factor) == doctest::Approx(drag).epsilon(1e-4));
  }
  brief.bands.scrub_share = 0.0;
  CHECK(scrubs_of(brief, turns).of[1].at(1.3) == turn.loads.scrub_drag_n);

  DrawBlock draws = nominal_block();
  const RollForces nominal{.slope_rad = 0.01, .headwind_mps = 2.0};
  const auto forces = [&] { return forces_in(nominal, scrubs.of[1], draws, 1); };
  CHECK(forces().mass_kg[5] == nominal.mass_kg);
  CHECK(forces().scrub_drag_n[5] == turn.loads.scrub_drag_n);
  draws.of[static_cast<int>(Unknown::Mass)][5] = 1.1;
  draws.of[static_cast<int>(Unknown::IdleThrust)][5] = 1.2;
  draws.of[static_cast<int>(Unknown::Rolling)][5] = 0.7;
  draws.of[static_cast<int>(Unknown::Slope)][5] = 0.002;
  draws.of[static_cast<int>(Unknown::Wind)][5] = -5.0;
  draws.of[static_cast<int>(Unknown::Scrub)][5] = 1.2;
  const BatchForces drawn = forces();
  CHECK(drawn.mass_kg[5] == nominal.mass_kg * 1.1);
  CHECK(drawn.thrust_n[5] == nominal.thrust_n * 1.2);
  CHECK(drawn.rolling_resistance[5] == nominal.rolling_resistance * 0.7);
  CHECK(drawn.slope_rad[5] == 0.01 + 0.002);
  CHECK(drawn.headwind_mps[5] == 2.0 - 5.0);
  CHECK(drawn.scrub_drag_n[5] == 1.1 * scrubs.of[1].at(1.2));
  CHECK(drawn.mass_kg[6] == nominal.mass_kg);
}

TEST_CASE("property: indices of a sum are the shares of its variances, and add up to one") {
  std::vector<double> a(kPoints), b(kPoints), ab(kPoints);
  double sum = 0.0;
  constexpr double kWeight[3] = {1.0, 2.0, 0.5};
  const auto value = [&](std::uint32_t n, int swapped, int all) {
    double total = 10.0;
    for (int u = 0; u < 3; ++u)
      total += kWeight[u] * shifted_sobol(n, u + (u == swapped ? 3 : all), 9);
    return total;
  };
  for (std::uint32_t n = 0; n < kPoints; ++n) {
    a[n] = value(n, -1, 0);
    b[n] = value(n, -1, 3);
  }
  for (int u = 0; u < 3; ++u) {
    for (std::uint32_t n = 0; n < kPoints; ++n) ab[n] = value(n, u, 0);
    const SobolIndex index = sobol_index(a.data(), b.data(), ab.data(), kPoints);
    const double share = kWeight[u] * kWeight[u] / 5.25;
    CHECK(std::abs(index.first - share) < 0.02);
    CHECK(std::abs(index.total - share) < 0.02);
    sum += index.first;
    // Indices do not change with the unit or the origin.
    for (std::vector<double>* list : {&a, &b, &ab})
      for (double& x : *list) x = 7.0 * x - 40.0;
    const SobolIndex other = sobol_index(a.data(), b.data(), ab.data(), kPoints);
    CHECK(other.first == doctest::Approx(index.first).epsilon(1e-9));
    CHECK(other.total == doctest::Approx(index.total).epsilon(1e-9));
    for (std::vector<double>* list : {&a, &b})
      for (double& x : *list) x = (x + 40.0) / 7.0;
  }
  CHECK(std::abs(sum - 1.0) < 0.02);
  // Nothing varies: no index.
  std::fill(a.begin(), a.end(), 3.0);
  const SobolIndex none = sobol_index(a.data(), a.data(), a.data(), kPoints);
  CHECK(none.first == 0.0);
  CHECK(none.total == 0.0);
  // An input that changes nothing explains nothing.
  for (std::uint32_t n = 0; n < kPoints; ++n) a[n] = value(n, -1, 0);
  const SobolIndex idle = sobol_index(a.data(), b.data(), a.data(), kPoints);
  CHECK(idle.first == 0.0);
  CHECK(idle.total == 0.0);
}
