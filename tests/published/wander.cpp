// Wander about the planned track: the normal tail, Rice's count of passages over a margin that
// bends, and what pavement tests say of its width.
#include "physics/path/wander.hpp"

#include <doctest/doctest.h>

#include <cmath>

#include "physics/given/bands.hpp"
#include "physics/numerics/elementary.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kTables =
    "Abramowitz and Stegun, Handbook of Mathematical Functions (1964), AMS 55";
constexpr const char* kRice = "Rice, Bell System Technical Journal 24 (1945) 46-156";
constexpr double kTwoPi = 6.283185307179586;

double density(double z) { return std::exp(-0.5 * z * z) / std::sqrt(kTwoPi); }
double tail(double z) { return 0.5 * std::erfc(z / std::sqrt(2.0)); }

// First passage of m0 + m2 s^2 / 2 by a smooth normal process, from far before the narrowest place
// to far behind it: the count of passages into the barrier, whose own slope is m2 s.
double rice_count(double margin_m, double bend_pm, double sigma_m, double length_m) {
  constexpr int kSteps = 4000;
  const double reach_m = std::sqrt(2.0 * 8.0 * sigma_m / bend_pm);
  const double step_m = 2.0 * reach_m / kSteps;
  double sum = 0.0;
  for (int i = 0; i <= kSteps; ++i) {
    const double s_m = -reach_m + i * step_m;
    const double eta = bend_pm * s_m * length_m / sigma_m;
    const double barrier = (margin_m + 0.5 * bend_pm * s_m * s_m) / sigma_m;
    const double rate = density(barrier) * (density(eta) - eta * tail(eta)) / length_m;
    sum += (i == 0 || i == kSteps ? 0.5 : 1.0) * rate * step_m;
  }
  return sum + tail((margin_m + 0.5 * bend_pm * reach_m * reach_m) / sigma_m);
}

}  // namespace

TEST_CASE("wander: at one place it is the normal tail") {
  struct Row {
    const char* what;
    double z, expected;
  };
  // A margin that bends sharply has one place only.
  const Row rows[] = {{"normal tail beyond 1 standard deviation", 1.0, 0.158655254},
                      {"normal tail beyond 2 standard deviations", 2.0, 0.022750132},
                      {"normal tail beyond 3 standard deviations", 3.0, 0.001349898}};
  for (const Row& row : rows)
    check({.what = row.what,
           .source = kTables,
           .place = "table 26.1",
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = wander_chance({.sigma_m = 0.5, .length_m = 20.0}, 0.5 * row.z, 1e9),
           .tolerance = 5e-10});
  check({.what = "error function's complement at 1",
         .source = kTables,
         .place = "table 7.1, 1 - erf 1",
         .kind = Kind::Numerics,
         .expected = 0.1572992071,
         .got = elementary::error_complement(1.0),
         .tolerance = 5e-11});
}

TEST_CASE("wander: over a turn it is Rice's count of passages, to Laplace's error") {
  struct Row {
    double margin_m, bend_pm, length_m;
  };
  // Laplace's method leaves out the next order, sigma^2 / (2 m^2) and less.
  for (const Row& row : {Row{1.0, 0.01, 30.0}, Row{1.0, 0.02, 15.0}, Row{1.5, 0.01, 20.0},
                         Row{2.0, 0.01, 20.0}, Row{2.5, 0.02, 10.0}, Row{3.0, 0.01, 30.0}}) {
    constexpr double kSigma_m = 0.775;
    const double expected = rice_count(row.margin_m, row.bend_pm, kSigma_m, row.length_m);
    check({.what = "chance of passing an edge in a turn",
           .source = kRice,
           .place = "expected number of passages of a moving level (formula from memory)",
           .kind = Kind::Formula,
           .expected = expected,
           .got = wander_chance({.sigma_m = kSigma_m, .length_m = row.length_m}, row.margin_m,
                                row.bend_pm),
           .tolerance = 0.05 * expected});
  }
}

TEST_CASE("wander: how wide it is, and what it makes of the wheels of one turn") {
  constexpr double kInch_m = 0.0254;
  const Aircraft aircraft;
  const Wander wander = wander_of(aircraft, 0.0, Bands{}.wander_sigma_m);
  published::check_measured(
      {.what = "wander of taxiing aircraft, standard deviation, m",
       .quantity = "wander",
       .source = "FAA National Airport Pavement Test Facility, construction cycle 3",
       .place = "wander pattern, 30.5 in",
       .value = 30.5 * kInch_m,
       .from = 30.5 * kInch_m,
       .to = 30.5 * kInch_m,
       .got = wander.sigma_m,
       .band_low = 30.0 * kInch_m,
       .band_high = 31.0 * kInch_m,
       .band_is = "the print's last digit",
       .sets_the_band = true});
  // One wheel two standard deviations from the edge, the others far: the length that the eye's
  // distance ahead gives, by Rice's count.
  EdgeMargins margins;
  margins.left_main = {1.55, 0.01, {}, {}};
  margins.right_main = margins.nose = {50.0, 0.01, {}, {}};
  const double expected = rice_count(1.55, 0.01, 0.775, std::sqrt(20.0 * aircraft.eye_ahead_m));
  check({.what = "chance that one wheel of a turn leaves the pavement",
         .source = kRice,
         .place = "expected number of passages of a moving level (formula from memory)",
         .kind = Kind::Formula,
         .expected = expected,
         .got = wander_in_turn(wander, margins, Limits{}).off_edge,
         .tolerance = 0.05 * expected});
}
