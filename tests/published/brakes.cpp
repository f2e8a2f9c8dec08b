// Brakes that are not all alike, and the probe that lags behind them.
#include <doctest/doctest.h>

#include <cmath>
#include <iterator>

#include "physics/heat/indication.hpp"
#include "physics/heat/wheel_brakes.hpp"
#include "physics/numerics/units.hpp"
#include "physics/run/after_landing.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::check_band;
using published::Kind;

namespace {

// Degrees Celsius through a probe that settles at the pack's own temperature.
struct Thermometer {
  Probe probe;
  double after(double seconds, double start_c, double from_c, double to_c) const {
    return units::celsius_from_kelvin(indication_after_k(
        probe, units::kelvin_from_celsius(start_c), units::kelvin_from_celsius(from_c),
        units::kelvin_from_celsius(to_c), seconds));
  }
};

Thermometer thermometer(double lag_s) {
  return {{.lag_s = lag_s, .share = 1.0, .air_k = units::kZeroCelsius_k}};
}

}  // namespace

TEST_CASE("brakes: kinetic energy for each brake") {
  struct Row {
    double pounds, knots;
    int brakes, inoperative;
  };
  for (const Row& row : {Row{500e3, 30.0, 12, 0}, Row{400e3, 140.0, 8, 0}, Row{400e3, 140.0, 8, 1},
                         Row{400e3, 140.0, 8, 2}}) {
    Aircraft aircraft;
    Condition condition;
    aircraft.brake_count = row.brakes;
    condition.brakes_inoperative = row.inoperative;
    const double speed_mps = units::mps_from_knots(row.knots);
    const double energy_j = 0.5 * row.pounds * units::kPound_kg * speed_mps * speed_mps;
    const double foot_pound_j = units::kPound_kg * units::kGravity_mps2 * units::kFoot_m;
    const double expected =
        0.0443 * row.pounds * row.knots * row.knots / (row.brakes - row.inoperative);
    // The rule's constant is 0.0673 % high, by its last digit.
    check({.what = "energy of one brake, ft lb",
           .source = "14 CFR 25.735(f), before amendment 25-107 (KE = 0.0443 W V^2 / N)",
           .place = "N the brakes that work; 0.07 % for the constant's last digit",
           .kind = Kind::Own,
           .expected = expected,
           .got = energy_j * brake_shares(aircraft, condition).mean_share / foot_pound_j,
           .tolerance = 0.0007 * expected});
  }
}

TEST_CASE("brakes: a thermocouple's cooling, from 20 to 0 degC") {
  constexpr const char* kBook =
      "Wheeler and Ganji, Introduction to Engineering Experimentation, problem 11.10";
  const Thermometer couple = thermometer(0.555);
  struct Row {
    double seconds, celsius;
  };
  for (const Row& row :
       {Row{0.1, 16.7}, Row{0.5, 8.1}, Row{1.0, 3.3}, Row{2.0, 0.6}, Row{3.0, 0.1}}) {
    // The solution's two ways to the time constant (0.555 s by two of the points) differ by 3 %.
    const double doubt = 0.03 * row.seconds / 0.555 * row.celsius;
    check({.what = "temperature shown, degC",
           .source = kBook,
           .place = "table of the worked solution; half a digit and 3 % in the time constant",
           .kind = Kind::Numerics,
           .expected = row.celsius,
           .got = couple.after(row.seconds, 20.0, 0.0, 0.0),
           .tolerance = 0.05 + doubt});
  }
}

TEST_CASE("brakes: a rising balloon's thermometer") {
  constexpr const char* kBook = "Morris, Measurement and Instrumentation Principles";
  constexpr const char* kPlace =
      "first-order example: lag 15 s, 10 degC at the ground, -0.01 degC/m, 5 m/s upwards";
  const Thermometer balloon = thermometer(15.0);
  struct Row {
    double seconds, celsius;
  };
  for (const Row& row : {Row{10.0, 9.86}, Row{20.0, 9.55}, Row{30.0, 9.15}, Row{40.0, 8.70},
                         Row{50.0, 8.22}, Row{1000.0, -39.25}}) {
    check({.what = "temperature shown, degC",
           .source = kBook,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = row.celsius,
           .got = balloon.after(row.seconds, 10.0, 10.0, 10.0 - 0.05 * row.seconds),
           .tolerance = 0.0055});
  }
}

TEST_CASE("brakes: thermometers in problems") {
  constexpr const char* kProblems =
      "Problems with solutions on first-order thermometers (homework)";
  check({.what = "reading 300 s after 100 to 110 K, lag 60 s, K",
         .source = kProblems,
         .place = "part b: 109.93 K",
         .kind = Kind::Numerics,
         .expected = 109.93,
         .got = thermometer(60.0).after(300.0, 100.0, 110.0, 110.0),
         .tolerance = 0.005});
  check({.what = "reading 5 s after 20 to 100 degC, lag 5 s, degC",
         .source = kProblems,
         .place = "100 - 80 x 0.3679 = 70.568",
         .kind = Kind::Numerics,
         .expected = 70.568,
         .got = thermometer(5.0).after(5.0, 20.0, 100.0, 100.0),
         .tolerance = 0.004});  // of the rounded 0.3679
  // A step to 100 degC held for 0.6 s, then evenly down to 25 degC at 30 s; lag 0.3 s.
  const Thermometer quick = thermometer(0.3);
  const double at_first = quick.after(0.6, 0.0, 100.0, 100.0);
  check({.what = "thermocouple 0.6 s after a step of 100 degC, mV",
         .source = kProblems,
         .place = "0.04 mV/degC, lag 0.3 s: 4 (1 - e^-2)",
         .kind = Kind::Numerics,
         .expected = 3.4587,
         .got = 0.04 * at_first,
         .tolerance = 0.00006});
  check({.what = "thermocouple after the fall from 100 to 25 degC in 29.4 s, mV",
         .source = kProblems,
         .place = "0.04 (25 + 75/29.4 x 0.3)",
         .kind = Kind::Numerics,
         .expected = 1.0306,
         .got = 0.04 * quick.after(29.4, at_first, 100.0, 25.0),
         .tolerance = 0.00006});
}

TEST_CASE("brakes: how far a probe has come") {
  constexpr const char* kNotes = "Thermocouple response notes (post: instrument makers)";
  const Thermometer one = thermometer(1.0);
  struct Row {
    double lags, percent, digit;
  };
  for (const Row& row :
       {Row{1.0, 63.2, 0.05}, Row{3.0, 95.0, 0.05}, Row{5.0, 99.3, 0.05}, Row{2.303, 90.0, 0.02}}) {
    check({.what = "response after so many time constants, %",
           .source = kNotes,
           .place = "63.2 % after one, 95.0 after three, 99.3 after five; 90 % after 2.303",
           .kind = Kind::Numerics,
           .expected = row.percent,
           .got = one.after(row.lags, 0.0, 100.0, 100.0),
           .tolerance = row.digit});
  }
  const Aircraft aircraft;
  const Probe probe = brake_probe(aircraft, 288.15, false);
  const double pack_k = 500.0;
  const double goal_k = settled_indication_k(probe, pack_k);
  check_band({.what = "share of the way shown 15 minutes after the stop, defaults",
              .source = "Pilots on brake temperature indication (forum)",
              .place = "taken as accurate some 15 minutes after the stop",
              .kind = Kind::Formula,
              .lowest = 0.9,
              .highest = 1.0,
              .got = (indication_after_k(probe, 288.15, pack_k, pack_k, 900.0) - 288.15) /
                     (goal_k - 288.15)});
}

TEST_CASE("brakes: cooling with one time constant") {
  // Newton's law with 60 min, 20 degC air, from 400 degC: the lag's own equation.
  const Thermometer brake = thermometer(3600.0);
  struct Row {
    double minutes, celsius, tolerance;
  };
  // 0.01 min at the slope there.
  for (const Row& row :
       {Row{18.32, 300.0, 0.05}, Row{30.0, 250.5, 0.05}, Row{64.36, 150.0, 0.02}}) {
    check({.what = "temperature, degC",
           .source = "Newton's law of cooling, computed apart",
           .place = "400 degC, air 20 degC, 60 min",
           .kind = Kind::Own,
           .expected = row.celsius,
           .got = brake.after(60.0 * row.minutes, 400.0, 20.0, 20.0),
           .tolerance = row.tolerance});
  }
}
