// Brakes: heat content of graphite and steel, heating by a stop, cooling by radiation and air.
#include "physics/heat/heat.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <memory>
#include <utility>

#include "physics/card/card_gate.hpp"
#include "physics/numerics/units.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::check_band;
using published::Kind;

namespace {

constexpr const char* kNasa = "NASA TM-4513 (McBride, Gordon, Reno 1993), graphite";
constexpr const char* kNist = "Butland and Maddison 1973, as in the NIST Chemistry WebBook";
constexpr const char* kJanaf = "NIST-JANAF Thermochemical Tables, 4th ed., C(ref)";
constexpr const char* kEurocode = "EN 1993-1-2, 3.4.1.2";
constexpr double kMolarMass_kg = 0.012011;
constexpr double kCalorie_j = 4.184;

double kelvin(double celsius) { return units::kelvin_from_celsius(celsius); }

double carbon_heat_jpkgk(double celsius) {
  return specific_heat_jpkgk(BrakeMaterial::Carbon, kelvin(celsius));
}
double carbon_content_kjpkg(double from_c, double to_c) {
  return (heat_content_jpkg(BrakeMaterial::Carbon, kelvin(to_c)) -
          heat_content_jpkg(BrakeMaterial::Carbon, kelvin(from_c))) /
         1e3;
}

// The fit as the WebBook quotes it, 250 to 3000 K, cal/(g K).
double butland_maddison_jpkgk(double t) {
  return 1e3 * kCalorie_j *
         (0.538657 + 9.11129e-6 * t - 90.2725 / t - 43449.3 / (t * t) + 1.59309e7 / (t * t * t) -
          1.43688e9 / (t * t * t * t));
}

HeatPack radiating_pack(double emissivity, double area_m2) {
  return {.material = BrakeMaterial::Carbon,
          .mass_kg = 50.0,
          .area_m2 = area_m2,
          .emissivity = emissivity,
          .convection_wpm2k = 0.0,
          .air_k = kelvin(20.0)};
}

}  // namespace

TEST_CASE("heat: specific heat of graphite") {
  struct Row {
    double celsius, nasa_jpkgk, butland_jpkgk;
  };
  for (const Row& row :
       {Row{20.0, 695.6, 692.9}, Row{100.0, 916.2, 923.0}, Row{200.0, 1157.7, 1170.8},
        Row{300.0, 1356.0, 1361.5}, Row{500.0, 1626.0, 1618.0}, Row{1000.0, 1913.9, 1923.5}}) {
    check({.what = "specific heat by the polynomials, J/(kg K)",
           .source = kNasa,
           .place = "7-coefficient polynomials, evaluated apart",
           .kind = Kind::Formula,
           .expected = row.nasa_jpkgk,
           .got = carbon_heat_jpkgk(row.celsius),
           .tolerance = 0.05});
    // The two fits agree within 1.3 %.
    check({.what = "specific heat against another fit, J/(kg K)",
           .source = kNist,
           .place = "condensed phase, fit from 250 to 3000 K",
           .kind = Kind::Formula,
           .expected = butland_maddison_jpkgk(kelvin(row.celsius)),
           .got = carbon_heat_jpkgk(row.celsius),
           .tolerance = 0.013 * row.butland_jpkgk});
    // The fit itself, typed in above, gives the numbers computed from it apart.
  }
  // The polynomials' own distance from the table, computed apart: 0.47 % at 1200 K, less elsewhere.
  struct Janaf {
    double kelvin, jpmolk;
  };
  for (const Janaf& row : {Janaf{298.15, 8.517}, Janaf{400.0, 11.817}, Janaf{500.0, 14.623},
                           Janaf{600.0, 16.844}, Janaf{800.0, 19.827}, Janaf{1000.0, 21.610},
                           Janaf{1200.0, 22.766}, Janaf{1500.0, 23.904}}) {
    check({.what = "specific heat, J/(mol K)",
           .source = kJanaf,
           .place = "C_p column; the polynomials are off by up to 0.47 %, at 1200 K",
           .kind = Kind::Own,
           .expected = row.jpmolk,
           .got = specific_heat_jpkgk(BrakeMaterial::Carbon, row.kelvin) * kMolarMass_kg,
           .tolerance = 0.005 * row.jpmolk});
  }
  check_band({.what = "specific heat at 25 degC, kJ/(kg K)",
              .source = "Pierson, Handbook of Carbon, Graphite, Diamond and Fullerenes",
              .place = "thermal properties of graphite: 0.690 to 0.719",
              .kind = Kind::Formula,
              .lowest = 0.690,
              .highest = 0.719,
              .got = carbon_heat_jpkgk(25.0) / 1e3});
}

TEST_CASE("heat: heat content of graphite") {
  struct Row {
    double celsius, nasa_kjpkg, butland_kjpkg;
  };
  for (const Row& row :
       {Row{100.0, 64.62, 64.71}, Row{200.0, 168.66, 169.89}, Row{300.0, 294.71, 296.94},
        Row{400.0, 438.39, 440.66}, Row{500.0, 595.52, 597.11}, Row{1000.0, 1493.4, 1494.6}}) {
    check({.what = "heat from 20 degC, kJ/kg",
           .source = kNasa,
           .place = "7-coefficient polynomials, integrated apart; 0.05 %",
           .kind = Kind::Formula,
           .expected = row.nasa_kjpkg,
           .got = carbon_content_kjpkg(20.0, row.celsius),
           .tolerance = 0.0005 * row.nasa_kjpkg});
    check({.what = "heat from 20 degC against another fit, kJ/kg",
           .source = kNist,
           .place = "condensed phase, integrated apart; the fits agree within 1 %",
           .kind = Kind::Formula,
           .expected = row.butland_kjpkg,
           .got = carbon_content_kjpkg(20.0, row.celsius),
           .tolerance = 0.01 * row.butland_kjpkg});
  }
  for (const auto& [temperature_k, kjpmol] : {std::pair{600.0, 3.943}, std::pair{1000.0, 11.795}}) {
    const double content = heat_content_jpkg(BrakeMaterial::Carbon, temperature_k) -
                           heat_content_jpkg(BrakeMaterial::Carbon, 298.15);
    check({.what = "H - H(298.15 K), kJ/mol",
           .source = kJanaf,
           .place = "H column, 0.3 %",
           .kind = Kind::Own,
           .expected = kjpmol,
           .got = content * kMolarMass_kg / 1e3,
           .tolerance = 0.003 * kjpmol});
  }
  // The trade's mean for carbon brakes, 0.31 Btu/(lb degF), is the mean from 20 to about 550 degC.
  check({.what = "mean specific heat from 20 to 550 degC, kJ/(kg K)",
         .source = "Brake maker's brochure (forum)",
         .place = "one unit of the last digit",
         .kind = Kind::Formula,
         .expected = 0.31 * 4.1868,
         .got = carbon_content_kjpkg(20.0, 550.0) / 530.0,
         .tolerance = 0.01 * 4.1868});
}

TEST_CASE("heat: steel") {
  for (const auto& [celsius, jpkgk] :
       {std::pair{20.0, 439.80}, std::pair{100.0, 487.62}, std::pair{200.0, 529.76},
        std::pair{300.0, 564.74}, std::pair{400.0, 605.88}, std::pair{500.0, 666.50},
        std::pair{600.0, 759.92}}) {
    check({.what = "specific heat, J/(kg K)",
           .source = kEurocode,
           .place = "formula for 20 to 600 degC as printed in public, evaluated apart",
           .kind = Kind::Formula,
           .expected = jpkgk,
           .got = specific_heat_jpkgk(BrakeMaterial::Steel, kelvin(celsius)),
           .tolerance = 0.006});
  }
  const double steel_kjpkg = (heat_content_jpkg(BrakeMaterial::Steel, kelvin(300.0)) -
                              heat_content_jpkg(BrakeMaterial::Steel, kelvin(20.0))) /
                             1e3;
  check({.what = "heat from 20 to 300 degC, kJ/kg",
         .source = kEurocode,
         .place = "integrated apart",
         .kind = Kind::Own,
         .expected = 142.92,
         .got = steel_kjpkg,
         .tolerance = 0.005});
  check({.what = "carbon over steel, heat from 20 to 300 degC",
         .source = kNasa,
         .place = "with EN 1993-1-2",
         .kind = Kind::Own,
         .expected = 2.06,
         .got = carbon_content_kjpkg(20.0, 300.0) / steel_kjpkg,
         .tolerance = 0.005});
}

TEST_CASE("heat: a stop from 30 kt") {
  // 250 t, eight brakes of 60 kg, all the energy into the packs.
  const double speed = units::mps_from_knots(30.0);
  const double energy_j = 0.5 * 250e3 * speed * speed;
  check({.what = "energy of 250 t at 30 kt, MJ",
         .source = "Kinetic energy, computed apart",
         .place = "m v^2 / 2",
         .kind = Kind::Own,
         .expected = 29.773,
         .got = energy_j / 1e6,
         .tolerance = 0.0005});
  HeatPack pack;
  pack.mass_kg = 60.0;
  for (const auto& [before_c, after_c] :
       {std::pair{20.0, 97.2}, std::pair{150.0, 206.0}, std::pair{300.0, 344.5}}) {
    check({.what = "pack after the stop, degC",
           .source = kNasa,
           .place = "heat balance solved apart",
           .kind = Kind::Own,
           .expected = after_c,
           .got = units::celsius_from_kelvin(
               temperature_after_energy_k(pack, kelvin(before_c), energy_j / 8.0)),
           .tolerance = 0.06});
  }
}

TEST_CASE("heat: radiation") {
  constexpr const char* kStefan = "Stefan-Boltzmann law, CODATA 2018 constant, computed apart";
  for (const auto& [celsius, coefficient] :
       {std::pair{100.0, 6.81}, std::pair{150.0, 8.61}, std::pair{200.0, 10.77},
        std::pair{300.0, 16.29}, std::pair{400.0, 23.63}, std::pair{500.0, 33.07}}) {
    check({.what = "radiation coefficient, emissivity 0.8, W/(m2 K)",
           .source = kStefan,
           .place = "eps sigma (T^2 + Ta^2)(T + Ta), surroundings 20 degC",
           .kind = Kind::Own,
           .expected = coefficient,
           .got = cooling_power_w(radiating_pack(0.8, 1.0), kelvin(celsius)) / (celsius - 20.0),
           .tolerance = 0.005});
  }
  check({.what = "black surface of 0.5 m2 at 500 degC, kW",
         .source = kStefan,
         .place = "sigma A (T^4 - Ta^4)",
         .kind = Kind::Own,
         .expected = 9.92,
         .got = cooling_power_w(radiating_pack(1.0, 0.5), kelvin(500.0)) / 1e3,
         .tolerance = 0.005});
}

TEST_CASE("heat: cooling in air alone is Newton's law over a small step") {
  // 60 minutes of time constant at 300 degC: from 300.5 to 299.5 degC takes tau ln(280.5/279.5).
  // The specific heat changes by 0.13 % over the step and evenly, which cancels.
  HeatPack pack = radiating_pack(0.0, 1.0);
  pack.convection_wpm2k = pack.mass_kg * carbon_heat_jpkgk(300.0) / 3600.0;
  const CoolingTime step = time_between_temperatures(pack, kelvin(300.5), kelvin(299.5), 0.0);
  CHECK(step.reached);
  check({.what = "time for one degree, s",
         .source = "Newton's law of cooling, computed apart",
         .place = "tau ln((T1 - Ta)/(T2 - Ta))",
         .kind = Kind::Own,
         .expected = 3600.0 * std::log(280.5 / 279.5),
         .got = step.time_s,
         .tolerance = 1e-4});
  // With a constant 1300 J/(kg K), 50 kg, 0.8 m2, 0.8 and 5 W/(m2 K), 400 to 150 degC takes
  // 80.31 min. By the mean value theorem ours must lie between the same time scaled by the least
  // and by the greatest specific heat on the way.
  HeatPack real = radiating_pack(0.8, 0.8);
  real.convection_wpm2k = 5.0;
  const CoolingTime cool = time_between_temperatures(real, kelvin(400.0), kelvin(150.0), 0.0);
  CHECK(cool.reached);
  check_band({.what = "time from 400 to 150 degC, min",
              .source = "Radiation and convection with constant specific heat, integrated apart",
              .place = "80.31 min at 1300 J/(kg K)",
              .kind = Kind::Own,
              .lowest = 80.31 * carbon_heat_jpkgk(150.0) / 1300.0,
              .highest = 80.31 * carbon_heat_jpkgk(400.0) / 1300.0,
              .got = cool.time_s / 60.0});
}

TEST_CASE("heat: parts of a cooling, with and without radiation") {
  // By the mean value theorem ours lies between the time at 1300 J/(kg K) scaled by the least and
  // by the greatest specific heat on the way.
  struct Row {
    double from_c, to_c, emissivity, minutes;
  };
  for (const Row& row : {Row{400.0, 300.0, 0.8, 16.93}, Row{300.0, 150.0, 0.8, 63.38},
                         Row{400.0, 150.0, 0.0, 290.51}}) {
    HeatPack pack = radiating_pack(row.emissivity, 0.8);
    pack.convection_wpm2k = 5.0;
    const CoolingTime cool =
        time_between_temperatures(pack, kelvin(row.from_c), kelvin(row.to_c), 0.0);
    CHECK(cool.reached);
    check_band({.what = "time of cooling, min",
                .source = "Radiation and convection with constant specific heat, integrated apart",
                .place = "50 kg, 0.8 m2, 5 W/(m2 K), 1300 J/(kg K)",
                .kind = Kind::Own,
                .lowest = row.minutes * carbon_heat_jpkgk(row.to_c) / 1300.0,
                .highest = row.minutes * carbon_heat_jpkgk(row.from_c) / 1300.0,
                .got = cool.time_s / 60.0});
  }
}

TEST_CASE("heat: defaults lie where they were measured") {
  const Aircraft aircraft;
  // Still air 3 to 5 W/(m2 K), rising with temperature; a taxiing aircraft has a little more.
  check_band({.what = "convection coefficient, W/(m2 K)",
              .source = "Topouris et al., Strojniski vestnik 66(1) 2020, 15-28",
              .place = "abstract: 3 to 5 standing in still air; up to twice that on the move",
              .kind = Kind::Formula,
              .lowest = 3.0,
              .highest = 10.0,
              .got = aircraft.brake_convection_wpm2k});
  check({.what = "share of the work that heats the packs: the cautious one",
         .source = "Energy balance of a stop, computed apart",
         .place = "0.88 to 0.97 of the kinetic energy for usual stops; 1 is safe",
         .kind = Kind::Own,
         .expected = 1.0,
         .got = aircraft.brake_heat_share,
         .tolerance = 0.0});
}

TEST_CASE("heat: steel is computed to where its curves end") {
  // The hottest peak that passes the gate of the card, by halving.
  Brief brief;
  brief.aircraft.brake_material = BrakeMaterial::Steel;
  const auto card = std::make_unique<Card>();
  const auto passes = [&](double peak_c) {
    *card = Card{};
    card->air.temperature_k = kelvin(15.0);
    card->heat.start_k = card->heat.end_k = kelvin(60.0);
    card->heat.peak_k = kelvin(peak_c);
    gate_card(brief, *card);
    return !std::isnan(card->heat.peak_k);
  };
  double low_c = 100.0;
  double high_c = 5000.0;
  while (high_c - low_c > 1e-6) {
    const double middle_c = 0.5 * (low_c + high_c);
    (passes(middle_c) ? low_c : high_c) = middle_c;
  }
  check({.what = "hottest steel that a card shows, degC",
         .source = "EN 1993-1-2",
         .place = "3.4.1.2: specific heat from 20 to 1200 degC",
         .kind = Kind::Formula,
         .expected = 1200.0,
         .got = low_c,
         .tolerance = 0.01});
}
