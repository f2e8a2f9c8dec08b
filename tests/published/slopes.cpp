// How far slopes may be off: propagation of the elevations' errors, and pavements known to be flat.
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <limits>
#include <vector>

#include "physics/numerics/low_discrepancy.hpp"
#include "physics/stations.hpp"
#include "physics/uncertainty/batch_slopes.hpp"
#include "physics/uncertainty/heat_band.hpp"
#include "physics/uncertainty/slope_errors.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using published::check;
using published::Kind;

namespace {

constexpr const char* kGum = "JCGM 100:2008 (GUM)";
constexpr const char* kSmoother = "Least squares with known variances (Gauss and Markov)";
constexpr const char* kLatin =
    "McKay, Beckman and Conover, Technometrics 21 (1979) 239-245, Latin hypercube sampling";

// Legs between elevations, each as raw as the elevations have it.
TaxiRoute surveyed_line(const std::vector<double>& lengths_m,
                        const std::vector<double>& elevations_m, double le90_m) {
  TaxiRoute route;
  for (std::size_t i = 0; i < lengths_m.size(); ++i) {
    Leg leg;
    leg.length_m = lengths_m[i];
    leg.elevation_le90_m = le90_m;
    leg.slope_rad = std::asin((elevations_m[i + 1] - elevations_m[i]) / lengths_m[i]);
    route.legs.push(leg);
  }
  return route;
}

double variance(double sd) { return sd * sd; }

}  // namespace

TEST_CASE("slopes: variances and covariances from elevations that legs share") {
  // LE90 3 m, 200, 350, 120 and 500 m. In percent squared, three digits.
  const TaxiRoute route = surveyed_line({200, 350, 120, 500}, {0, 0, 0, 0, 0}, 3.0);
  const SlopeLaw law = slope_law(route, 0.0);
  constexpr double kVariances[4] = {1.663, 0.543, 4.620, 0.266};
  constexpr double kCovariances[3] = {-0.475, -0.792, -0.554};
  const auto length_m = [&](int leg) { return law.legs[leg].length_m; };
  for (int i = 0; i < 4; ++i)
    check({.what = "variance of a leg's slope from two elevations, percent squared",
           .source = kGum,
           .place = "5.1.2, (e2 - e1)/l: 2 sigma^2/l^2, sigma = LE90/1.6449; half the last digit",
           .kind = Kind::Numerics,
           .expected = kVariances[i],
           .got = 1e4 * variance(slope_belief(law, i).sd),
           .tolerance = 6e-4});
  for (int i = 0; i < 3; ++i) {
    // What the rise over both lacks of the sum of the two variances.
    const double both = variance(rise_belief(law, i, i + 1).sd);
    const double apart =
        variance(rise_belief(law, i, i).sd) + variance(rise_belief(law, i + 1, i + 1).sd);
    check({.what = "covariance of two neighbouring legs' slopes, percent squared",
           .source = kGum,
           .place = "5.2.2 (13), the elevation between them: -sigma^2/(l1 l2); half the last digit",
           .kind = Kind::Numerics,
           .expected = kCovariances[i],
           .got = 1e4 * 0.5 * (both - apart) / (length_m(i) * length_m(i + 1)),
           .tolerance = 6e-4});
  }
  check({.what = "standard deviation of the climb over four legs, m",
         .source = kGum,
         .place = "5.1.2: sqrt(2) sigma, whatever lies between",
         .kind = Kind::Numerics,
         .expected = std::sqrt(2.0) * 3.0 / 1.6449,
         .got = rise_belief(law, 0, 3).sd,
         .tolerance = 1e-12});
  Leg one;
  one.length_m = 300.0;
  one.elevation_le90_m = 1.3;
  TaxiRoute alone;
  alone.legs.push(one);
  check({.what = "slope over 300 m from elevations of LE90 1.3 m, nine of ten within, %",
         .source = kGum,
         .place = "5.1.2: sqrt(2) 1.3/300; half the last digit",
         .kind = Kind::Numerics,
         .expected = 0.613,
         .got = slope_known(one) == SlopeKnown::Elevations
                    ? 100.0 * 1.6449 * slope_belief(slope_law(alone, 0.0), 0).sd
                    : std::numeric_limits<double>::quiet_NaN(),
         .tolerance = 6e-4});
}

TEST_CASE("slopes: elevations with the knowledge that pavements are flat") {
  // Solved apart with dense matrices: slopes normal about level with 0.5 %.
  struct Line {
    std::vector<double> elevations_m, lengths_m;
    double le90_m;
    std::vector<double> smoothed, sd;  // percent
    double climb_m, climb_sd_m;
  };
  const Line lines[] = {{{10, 11, 9, 12},
                         {200, 100, 300},
                         3.0,
                         {0.0424, -0.0264, 0.2232},
                         {0.4540, 0.4849, 0.4101},
                         0.728,
                         1.4995},
                        {{84, 83.3, 83.6, 81, 81.2},
                         {360, 80, 900, 250},
                         2.0,
                         {-0.1042, -0.0024, -0.2527, 0.0047},
                         {0.3194, 0.4848, 0.1385, 0.4021},
                         -2.6399,
                         1.4335}};
  for (const Line& line : lines) {
    const TaxiRoute route = surveyed_line(line.lengths_m, line.elevations_m, line.le90_m);
    const SlopeLaw law = slope_law(route);
    for (std::size_t i = 0; i < line.lengths_m.size(); ++i) {
      const Belief slope = slope_belief(law, static_cast<int>(i));
      const double given = (line.elevations_m[i + 1] - line.elevations_m[i]) / line.lengths_m[i];
      check({.what = "slope from elevations, pavements being flat, %",
             .source = kSmoother,
             .place = "sum (d/sigma)^2 + sum (slope/tau)^2 least, tau 0.5 %; half the last digit",
             .kind = Kind::Own,
             .expected = line.smoothed[i],
             .got = 100.0 * (given + slope.off),
             .tolerance = 6e-5});
      check({.what = "its standard deviation, %",
             .source = kSmoother,
             .place = "from the inverse of the normal equations; half the last digit",
             .kind = Kind::Own,
             .expected = line.sd[i],
             .got = 100.0 * slope.sd,
             .tolerance = 6e-5});
    }
    const int last = static_cast<int>(line.lengths_m.size()) - 1;
    const Belief climb = rise_belief(law, 0, last);
    check({.what = "climb from elevations, pavements being flat, m",
           .source = kSmoother,
           .place = "likewise; half the last digit, at most four",
           .kind = Kind::Own,
           .expected = line.climb_m,
           .got = line.elevations_m.back() - line.elevations_m.front() + climb.off,
           .tolerance = 6e-4});
    check({.what = "standard deviation of that climb, m",
           .source = kSmoother,
           .place = "likewise",
           .kind = Kind::Own,
           .expected = line.climb_sd_m,
           .got = climb.sd,
           .tolerance = 6e-5});
  }
}

TEST_CASE("slopes: what is drawn has the law's spread") {
  int cells[1 << kSobolCellBits] = {};
  for (std::uint32_t n = 0; n < 1u << kSobolCellBits; ++n)
    ++cells[static_cast<int>(latin_draw(n, 57, 3) * (1 << kSobolCellBits))];
  int ones = 0;
  for (const int count : cells) ones += count == 1 ? 1 : 0;
  check({.what = "cells of a stream with one point",
         .source = kLatin,
         .place = "section 2.3: each stratum of every variable once",
         .kind = Kind::Numerics,
         .expected = 512.0,
         .got = static_cast<double>(ones),
         .tolerance = 0.0});
  // A slope is made of two triangles, so that 512 strata of each leave their variance as it is;
  // what they have in common is as if random, 1/sqrt(512) of it.
  TaxiRoute route = surveyed_line({200, 350, 120, 500}, {0, 0, 0, 0, 0}, 3.0);
  Leg guessed;
  guessed.slope_guess_rad = 0.01;
  route.legs.push(guessed);
  const SlopeLaw law = slope_law(route, 0.0);
  double squares[5] = {};
  for (int block = 0; block < kDrawBlocks; ++block) {
    OwnSlopes slopes;
    own_slopes(law, block, slopes);
    for (int leg = 0; leg < 5; ++leg)
      for (int i = 0; i < kLanes; ++i)
        squares[leg] += slopes.off_rad[leg][i] * slopes.off_rad[leg][i] / kDraws;
  }
  constexpr double kVariances[5] = {1.663, 0.543, 4.620, 0.266, 1.0 / 6.0};
  for (int leg = 0; leg < 5; ++leg)
    check({.what = leg < 4 ? "variance of drawn slopes, percent squared"
                           : "variance of drawn slopes where 1 % is guessed, percent squared",
           .source = kGum,
           .place = leg < 4 ? "5.1.2: 2 sigma^2/l^2; 3/sqrt(1024) of it" : "4.3.9: a^2/6",
           .kind = Kind::Numerics,
           .expected = kVariances[leg],
           .got = 1e4 * squares[leg],
           .tolerance = 0.1 * kVariances[leg]});
  // Into the draws of an answer: the same, and what a leg has of it.
  AnswerSlopes slopes;
  DrawBlock draws = nominal_block();
  give_slopes(law, 3, slopes, draws);
  OwnSlopes third;
  own_slopes(law, 3, third);
  check({.what = "slope of a leg in a draw of the answer",
         .source = kLatin,
         .place = "the same stream",
         .kind = Kind::Numerics,
         .expected = third.off_rad[2][11],
         .got = draws.slope_on(2)[11],
         .tolerance = 0.0});
}

TEST_CASE("slopes: the brakes take what the net climb may be off by, however many legs") {
  // 300 t and elevations of LE90 3 m: all work beyond rolling resistance ends in twelve packs, so
  // that E is off by m g times the climb's error, 7.6 MJ.
  Brief b;
  b.limits.brake_reading = BrakeReading::HeatPack;
  b.aircraft.drag_area_m2 = 0.0;
  b.aircraft.idle_air_flow_kgps = 0.0;
  b.aircraft.brake_area_m2 = 1e-9;
  // Firm: in long gentle applications the reduced taxi of the draws loses up to an eighth of it.
  b.technique.deceleration_mps2 = 0.93;
  b.bands = Bands{};
  for (Band* band :
       {&b.bands.idle_thrust_share, &b.bands.rolling_share, &b.bands.breakaway_share,
        &b.bands.slope_rad, &b.bands.wind_mps, &b.bands.mass_share, &b.bands.brakes_now_k,
        &b.bands.heat_capacity_share, &b.bands.cooling_share, &b.bands.brake_heat_share,
        &b.bands.scrub_share, &b.bands.overtaken_thrust_share})
    *band = 0.0;
  const Air air = standard_air(0.0);
  const FixedList<TurnAnswer, kMaxLegs> turns;
  for (const int legs : {1, 2, 8}) {
    b.route.legs.clear();
    Leg leg;
    leg.length_m = 2400.0 / legs;
    leg.elevation_le90_m = 3.0;
    for (int i = 0; i < legs; ++i) b.route.legs.push(leg);
    const RouteRun run = run_route(b, air, BrakeTechnique::FewLong, turns);
    const HeatBand band = heat_band(b, air, turns, run);
    const HeatPack pack = heat_pack(b.aircraft, air.temperature_k, false);
    // Its standard deviation by the same least squares over this many legs, solved apart.
    const double climb_sd_m = legs == 1 ? 2.5217 : legs == 2 ? 2.4678 : 1.9124;
    const double sd_j = b.condition.mass_kg * units::kGravity_mps2 * climb_sd_m;
    const auto end_k = [&](double sds) {
      return temperature_after_energy_k(pack, b.condition.brake_temperature_k,
                                        (run.brake_energy_j + sds * sd_j) / b.aircraft.brake_count);
    };
    check({.what = "brakes at the line, P90 less P10 by the climb alone, K",
           .source = "Energy balance of a taxi, computed apart",
           .place = "1.2816 m g sd(climb) into the packs; 1.7 % by the triangles, twice 2.8 % by "
                    "1024 draws",
           .kind = Kind::Own,
           .expected = end_k(1.2816) - end_k(-1.2816),
           .got = band.back().pack_k.p90 - band.back().pack_k.p10,
           .tolerance = 0.073 * (end_k(1.2816) - end_k(-1.2816))});
  }
}
