// Brakes that are not all alike, and the probe that lags behind them.
#include <doctest/doctest.h>

#include <cmath>
#include <iterator>
#include <utility>

#include "physics/heat/indication.hpp"
#include "physics/heat/indication_to_come.hpp"
#include "physics/heat/wheel_brakes.hpp"
#include "physics/numerics/units.hpp"
#include "physics/run/after_landing.hpp"
#include "physics/run/hottest_brake.hpp"
#include "physics/world/atmosphere.hpp"
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

TEST_CASE("brakes: when an indication is highest after a hard stop") {
  const Aircraft aircraft;
  const double air_k = 288.15;
  for (const double rise_k : {100.0, 250.0, 500.0})
    check_band(
        {.what = "min until a cold brake that is heated at once reads most, defaults",
         .source = "Pilot on brake temperature monitors (post)",
         .place = "not to be read until 10 to 15 minutes after landing",
         .kind = Kind::Formula,
         .lowest = 10.0,
         .highest = 15.0,
         .got = highest_indication(heat_pack(aircraft, air_k, false),
                                   brake_probe(aircraft, air_k, false), {air_k + rise_k, air_k})
                    .after_s /
                60.0});
}

TEST_CASE("brakes: the pack behind an indication") {
  // 15 degC, the default probe: 185 K of excess divided by 0.85, and by 0.6 with fans running.
  Aircraft aircraft;
  aircraft.fan_convection_wpm2k = 40.0;
  const double read_k = units::kelvin_from_celsius(200.0);
  for (const auto& of : {std::pair{false, 232.647}, std::pair{true, 323.333}}) {
    const Probe probe = brake_probe(aircraft, 288.15, of.first);
    const auto row = [&](const char* what, double got_k) {
      check({.what = what,
             .source = "Share of the excess over the air, computed apart",
             .place = "15 + 185 / share",
             .kind = Kind::Own,
             .expected = of.second,
             .got = units::celsius_from_kelvin(got_k),
             .tolerance = 0.001});
    };
    row("heat pack behind 200 degC indicated, degC", pack_behind_indication_k(probe, read_k));
    row("the same from one more degree at a time, degC",
        288.15 + 185.0 * pack_per_reading(probe, BrakeReading::Indicated));
    row("the same as it is entered, degC",
        brake_as_read(probe, BrakeReading::Indicated, read_k).pack_k);
  }
}

TEST_CASE("brakes: what a probe shows of a cooling pack is a Bateman function") {
  // A steel pack a thousandth of a kelvin above air of 15 degC, where EN 1993-1-2 has 436.222
  // J/(kg K), and no radiation: it cools at k_e, and the probe, as cold as the air, follows at k_a.
  // The specific heat changes by 2 millionths on the way.
  constexpr double kExcess_k = 1e-3;
  constexpr double kEliminated_ps = 1.0 / 3600.0;
  HeatPack pack{.material = BrakeMaterial::Steel,
                .area_m2 = 0.9,
                .emissivity = 0.0,
                .convection_wpm2k = 8.0,
                .air_k = 288.15};
  pack.mass_kg = 8.0 * 0.9 / (436.2222 * kEliminated_ps);
  const BrakeState now{pack.air_k + kExcess_k, pack.air_k};
  const auto of_excess = [&](double shown_k) { return (shown_k - pack.air_k) / kExcess_k; };
  constexpr const char* kBateman =
      "Glossary of terms used in toxicology, IUPAC Recommendations 2007, Bateman function";
  for (const double absorbed_ps : {1.0 / 300.0, 1.0 / 900.0, 1.0 / 7200.0}) {
    const Probe probe{.lag_s = 1.0 / absorbed_ps, .share = 1.0, .air_k = pack.air_k};
    const auto bateman = [&](double time_s) {
      return absorbed_ps / (absorbed_ps - kEliminated_ps) *
             (std::exp(-kEliminated_ps * time_s) - std::exp(-absorbed_ps * time_s));
    };
    const auto row = [](const char* what, double expected, double got) {
      check({.what = what,
             .source = kBateman,
             .place = "k_a/(k_a - k_e) (exp(-k_e t) - exp(-k_a t)), its slope zero at the peak",
             .kind = Kind::Formula,
             .expected = expected,
             .got = got,
             .tolerance = 1e-5});
    };
    for (const double time_s : {200.0, 1500.0, 9000.0})
      row("shown of the pack's first excess", bateman(time_s),
          of_excess(brake_left_alone(pack, probe, now, time_s).indicated_k));
    const double peak_s = std::log(absorbed_ps / kEliminated_ps) / (absorbed_ps - kEliminated_ps);
    const HighestReading highest = highest_indication(pack, probe, now);
    row("highest of it", bateman(peak_s), of_excess(highest.read_k));
    // The slope is zero there: a time to 1e-4 of itself is in the peak's ninth digit.
    row("when it is highest, in lags of the pack", kEliminated_ps * peak_s,
        kEliminated_ps * highest.after_s);
  }
  // Both rates alike.
  const Probe alike{.lag_s = 3600.0, .share = 1.0, .air_k = pack.air_k};
  const HighestReading highest = highest_indication(pack, alike, now);
  Brief brief;  // such brakes, at the end of no way at all
  brief.aircraft.brake_material = pack.material;
  brief.aircraft.heat_pack_mass_kg = pack.mass_kg;
  brief.aircraft.brake_area_m2 = pack.area_m2;
  brief.aircraft.brake_emissivity = pack.emissivity;
  brief.aircraft.brake_convection_wpm2k = pack.convection_wpm2k;
  brief.aircraft.probe_lag_s = alike.lag_s;
  brief.aircraft.probe_share = alike.share;
  const Today today = today_as_given(brief, standard_air(0.0));
  const HottestBrake of_taxi = hottest_brake(today, now, {});
  struct Row {
    const char* what;
    double expected, got;
  };
  for (const Row& row :
       {Row{"when it is highest, rates alike: times k", 1.0, highest.after_s / 3600.0},
        Row{"highest of the dose, rates alike: 1/e", 0.36787944, of_excess(highest.read_k)},
        Row{"down at half the highest, t exp(1 - t) = 1/2", 2.678347,
            time_to_indication(pack, alike, now, pack.air_k + 0.5 * 0.36787944 * kExcess_k).time_s /
                3600.0},
        Row{"highest for a taxi's hottest brake: 1/e", 0.36787944, of_excess(of_taxi.highest_k)},
        Row{"the same from its stop: 1/e", 0.36787944,
            of_excess(highest_reading(today, now).read_k)}})
    check({.what = row.what,
           .source = "Bateman function where absorption and elimination are alike (post)",
           .place = "C = F D k t/V exp(-k t): t_max = 1/k, C_max = F D/(V e)",
           .kind = Kind::Formula,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 1e-5});
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
