// The preset aircraft against the rule that they were made by (presets/README.md): its choices are
// read from there, every number of every file is worked out from them. And what the rule itself has
// to keep, seen without it.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "documents/json_schema.hpp"
#include "documents/json_text.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/taxiway_rules.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// ------------------------------------------------------------------------------ the choices ----

struct Choices {
  std::string id;
  double mass_t = 0.0;
  int engines = 0;
  double wing_slenderness = 0.0;
  double body_slenderness = 0.0;
  int legs = 0;
  int axles = 0;
  int brakes = 0;
  bool steel = false;
  bool fans = false;
  bool long_nose = false;
};

std::vector<std::string> cells_of(const std::string& row) {
  std::vector<std::string> cells;
  std::istringstream stream(row.substr(1));
  for (std::string cell; std::getline(stream, cell, '|');) {
    const std::size_t first = cell.find_first_not_of(' ');
    const std::size_t last = cell.find_last_not_of(' ');
    cells.push_back(first == std::string::npos ? "" : cell.substr(first, last - first + 1));
  }
  return cells;
}

bool either(const std::string& cell, const std::string& yes, const std::string& no) {
  const bool one_of_both = cell == yes || cell == no;
  REQUIRE_MESSAGE(one_of_both, cell);
  return cell == yes;
}

// The rows of the first table, below its head and its rule.
std::vector<Choices> read_choices() {
  std::vector<Choices> all;
  std::istringstream page(file_text(std::string(TILLERLINE_PRESETS_DIR) + "/README.md"));
  int row = 0;
  for (std::string line; std::getline(page, line);) {
    const bool in_table = !line.empty() && line[0] == '|';
    if (!in_table && row > 0) break;
    if (!in_table || ++row <= 2) continue;
    const std::vector<std::string> c = cells_of(line);
    REQUIRE(c.size() == 11);
    all.push_back({.id = c[0],
                   .mass_t = std::stod(c[1]),
                   .engines = std::stoi(c[2]),
                   .wing_slenderness = std::stod(c[3]),
                   .body_slenderness = std::stod(c[4]),
                   .legs = std::stoi(c[5]),
                   .axles = std::stoi(c[6]),
                   .brakes = std::stoi(c[7]),
                   .steel = either(c[8], "steel", "carbon"),
                   .fans = either(c[9], "yes", "no"),
                   .long_nose = either(c[10], "long", "short")});
  }
  return all;
}

// --------------------------------------------------------------------------------- the rule ----

// Halves go up, those too that arithmetic leaves a hair below.
double rounded(double value, double step) {
  return std::round(std::floor(value / step + 0.5 + 1e-9) * step * 1e6) / 1e6;
}

struct Number {
  double value = 0.0;
  double step = 1.0;  // what it is rounded to

  double in_file() const { return rounded(value, step); }
};

using Numbers = std::map<std::string, Number>;

double size_of(const Choices& c) { return std::cbrt(c.mass_t); }  // what all lengths grow by
double wing_area_m2(const Choices& c) { return 1000.0 * c.mass_t / (120.0 * size_of(c)); }
double wing_span_m(const Choices& c) { return std::sqrt(c.wing_slenderness * wing_area_m2(c)); }
double body_width_m(const Choices& c) { return 0.85 * size_of(c); }
double body_length_m(const Choices& c) { return c.body_slenderness * body_width_m(c); }

void size_body(const Choices& c, Numbers& out) {
  const double width_m = body_width_m(c);
  const double length_m = body_length_m(c);
  const double nose_m = (c.long_nose ? 0.58 : 0.51) * length_m;
  const double eye_m = nose_m - (c.long_nose ? 0.20 * length_m : 0.8 + 0.3 * width_m);
  const double tail_m = length_m - nose_m;
  out["wheelbase_m"] = {0.39 * length_m, 0.1};
  out["nose_tip_ahead_m"] = {nose_m, 0.1};
  out["eye_ahead_m"] = {eye_m, 0.1};
  out["cabin_front_ahead_m"] = {eye_m - 0.5 * width_m, 0.1};
  out["cabin_rear_behind_m"] = {0.82 * tail_m, 0.1};
  out["tail_behind_m"] = {tail_m, 0.1};
  out["eye_side_m"] = {0.40 + 0.02 * width_m, 0.01};
  out["eye_height_m"] = {1.7 + 0.7 * width_m, 0.1};
  out["view_cutoff_deg"] = {c.long_nose ? 11.0 : 12.0 + 0.5 * width_m, 0.5};
  out["middle_post_deg"] = {20.0};
  out["outer_post_deg"] = {38.0};
  out["side_sill_deg"] = {25.0};
  out["view_back_deg"] = {120.0};
}

void size_wing(const Choices& c, Numbers& out) {
  const double span_m = wing_span_m(c);
  out["wing_span_m"] = {span_m, 0.1};
  out["wing_tip_behind_m"] = {0.11 * span_m, 0.1};
  out["tailplane_span_m"] = {0.35 * span_m, 0.1};
  out["inner_engine_arm_m"] = {0.15 * span_m, 0.1};
  out["outer_engine_arm_m"] = {(c.engines > 2 ? 0.32 : 0.15) * span_m, 0.1};
  out["drag_area_m2"] = {0.032 * wing_area_m2(c), 0.1};
}

void size_engines(const Choices& c, Numbers& out) {
  const double rated_kn = 0.285 * c.mass_t * units::kGravity_mps2 / c.engines;
  const double idle_kn = 0.05 * rated_kn;
  const bool small = rated_kn < 50.0;
  out["engine_count"] = {static_cast<double>(c.engines)};
  out["idle_thrust_kn"] = {idle_kn, 0.1};
  out["idle_air_flow_kgps"] = {1000.0 * idle_kn / 60.0, 1.0};
  out["idle_fuel_flow_kgps"] = {0.030 + 0.00051 * rated_kn, 0.001};
  out["fuel_per_extra_thrust_gpkns"] = {rated_kn < 200.0 ? 7.6 : 5.9, 0.1};
  out["taxi_thrust_limit_kn"] = {rated_kn / 8.0 + 2.0, 1.0};
  out["engine_start_s"] = {30.0 + rated_kn / 10.0, 5.0};
  out["engine_warm_up_s"] = {small ? 120.0 : 180.0};
  out["anti_ice_thrust_percent"] = {small ? 20.0 : 15.0};
  out["anti_ice_fuel_percent"] = {small ? 12.0 : 10.0};
  out["blast_contour_m"] = {0.0};
}

void size_wheels(const Choices& c, Numbers& out) {
  const int wheels = 2 * c.legs * c.axles;
  const bool four_legs = c.legs == 4;
  const double load_t = 0.93 * c.mass_t / wheels;
  const double width_m = 0.165 * std::cbrt(load_t);
  const double span_m = (four_legs ? 1.60 : 1.76) * size_of(c);
  const double outer_track_m = span_m - 3.4 * width_m;
  const double spacing_m = 3.1 * width_m;
  const bool inner_legs_steer = four_legs && c.axles == 3;
  out["main_wheel_count"] = {static_cast<double>(wheels)};
  out["main_gear_load_percent"] = {93.0};
  out["tyre_width_m"] = {width_m, 0.01};
  out["tyre_pressure_bar"] = {5.0 * std::cbrt(load_t), 0.1};
  out["tyre_deflection_m"] = {0.19 * width_m, 0.005};
  out["wheel_span_m"] = {span_m, 0.1};
  out["bogie_track_m"] = {four_legs ? 0.70 * outer_track_m : outer_track_m, 0.1};
  out["bogie_axles"] = {static_cast<double>(c.axles)};
  out["axle_spacing_m"] = {spacing_m, 0.05};
  out["cornering_stiffness_prad"] = {7.0 - load_t / 15.0, 0.1};
  out["nose_wheel_span_m"] = {0.16 * body_width_m(c), 0.05};
  out["steering_limit_deg"] = {70.0};
  out["steering_rate_degps"] = {15.0 - 0.75 * body_width_m(c), 0.5};
  out["turn_axis_ahead_m"] = {0.0};
  out["body_gear_steer_percent"] = {inner_legs_steer ? 20.0 : 0.0};
  out["body_gear_behind_m"] = {inner_legs_steer ? 1.5 * spacing_m : 0.0, 0.1};
}

void size_brakes(const Choices& c, Numbers& out) {
  const double energy_j = 0.5 * 1000.0 * c.mass_t * 70.0 * 70.0;
  const double pack_kg = energy_j / c.brakes / (c.steel ? 0.245e6 : 1.15e6);
  out["brake_count"] = {static_cast<double>(c.brakes)};
  out["heat_pack_mass_kg"] = {pack_kg, 1.0};
  out["brake_area_m2"] = {pack_kg * (c.steel ? 0.62 / 70.0 : 0.0155), 0.01};
  out["brake_emissivity"] = {c.steel ? 0.7 : 0.8, 0.1};
  out["brake_convection_wpm2k"] = {c.steel ? 8.0 : 6.0};
  out["fan_convection_wpm2k"] = {c.fans ? 45.0 : 0.0};
  out["brake_heat_percent"] = {100.0};
  out["probe_lag_s"] = {c.steel ? 240.0 : 300.0};
  out["probe_share_percent"] = {85.0};
  out["probe_share_fans_percent"] = {60.0};
}

Numbers sized(const Choices& c) {
  Numbers out;
  out["highest_mass_t"] = {c.mass_t, 1.0};
  out["lowest_mass_t"] = {0.5 * c.mass_t, 1.0};
  out["rolling_resistance_percent"] = {1.2, 0.1};
  out["breakaway_resistance_percent"] = {1.5, 0.1};
  out["rolling_speed_factor_s2pm2"] = {0.0};
  size_body(c, out);
  size_wing(c, out);
  size_engines(c, out);
  size_wheels(c, out);
  size_brakes(c, out);
  return out;
}

// -------------------------------------------------------------------------------- the files ----

std::string path_of(const std::string& id) {
  return std::string(TILLERLINE_PRESETS_DIR) + "/aircraft/" + id + ".json";
}

void record(const std::string& path, const Numbers& numbers, bool steel) {
  Json file = Json::parse(file_text(path));
  for (const auto& [key, number] : numbers) {
    const double value = number.in_file();
    if (value == std::round(value) && number.step >= 1.0) {
      file[key] = static_cast<long>(value);
    } else {
      file[key] = value;
    }
  }
  file["brake_material"] = steel ? "steel" : "carbon";
  std::ofstream(path) << file.dump(2) << '\n';
}

const Aircraft& aircraft_named(const std::string& id) {
  for (const AircraftDocument& document : preset_aircraft())
    if (document.facts.id == id) return document.aircraft;
  FAIL("no aircraft ", id);
  return preset_aircraft().front().aircraft;
}

double length_m(const Aircraft& aircraft) {
  return aircraft.nose_tip_ahead_m + aircraft.tail_behind_m;
}

}  // namespace

TEST_CASE("sizing rule: every number of every preset aircraft follows from its choices") {
  const std::vector<Choices> choices = read_choices();
  CHECK(choices.size() == preset_aircraft().size());
  for (const Choices& c : choices) {
    CAPTURE(c.id);
    const Numbers numbers = sized(c);
    if (std::getenv("TILLERLINE_RECORD") != nullptr) record(path_of(c.id), numbers, c.steel);
    const Json file = Json::parse(file_text(path_of(c.id)));
    std::size_t compared = 0;
    for (const auto& item : file.items()) {
      const std::string& key = item.key();
      const Json& value = item.value();
      if (!value.is_number() || key == "version") continue;
      CAPTURE(key);
      REQUIRE(numbers.count(key) == 1);
      CHECK(std::abs(value.get<double>() - numbers.at(key).in_file()) < 1e-9);
      ++compared;
    }
    CHECK(compared == numbers.size());
    CHECK(file["brake_material"] == (c.steel ? "steel" : "carbon"));
    // The program holds what the file says.
    CHECK(aircraft_named(c.id).wing_span_m == doctest::Approx(file["wing_span_m"].get<double>()));
  }
}

TEST_CASE("sizing rule: a worked example, by hand") {
  // The long four: 400^(1/3) is 7.3681. Wing 400e3 / (120 x 7.3681) = 452.4 m2, span
  // sqrt(8 x 452.4) = 60.16 m. Body 0.85 x 7.3681 = 6.263 m wide, 12.6 x 6.263 = 78.91 m long.
  // Wheels 16, each 0.93 x 400 / 16 = 23.25 t. Rated 0.285 x 400 x 9.80665 / 4 = 279.5 kN.
  // Brakes 400e3 x 2450 J / 16 / 1.15e6 = 53.3 kg.
  const Aircraft& a = aircraft_named("long-four");
  CHECK(a.wing_span_m == doctest::Approx(60.2));
  CHECK(length_m(a) == doctest::Approx(78.9));
  CHECK(a.wheelbase_m == doctest::Approx(30.8));
  CHECK(a.wheel_span_m == doctest::Approx(11.8));
  CHECK(a.idle_thrust_n == doctest::Approx(14.0e3));
  CHECK(a.taxi_thrust_limit_n == doctest::Approx(37.0e3));
  CHECK(a.heat_pack_mass_kg == doctest::Approx(53.0));
  CHECK(a.tyre_pressure_pa == doctest::Approx(14.3e5));
}

TEST_CASE("sizing rule: body, wing and gear of an aircraft fit together") {
  for (const AircraftDocument& document : preset_aircraft()) {
    CAPTURE(document.facts.id);
    const Aircraft& a = document.aircraft;
    CHECK(a.nose_tip_ahead_m > a.eye_ahead_m + 1.0);
    CHECK(a.nose_tip_ahead_m > a.wheelbase_m + 1.0);
    CHECK(a.eye_ahead_m > a.cabin_front_ahead_m);
    CHECK(a.cabin_front_ahead_m > 0.0);
    CHECK(a.tail_behind_m > a.cabin_rear_behind_m + 1.0);
    CHECK(a.wheelbase_m / length_m(a) > 0.35);
    CHECK(a.wheelbase_m / length_m(a) < 0.45);
    CHECK(length_m(a) / a.wing_span_m > 0.9);
    CHECK(length_m(a) / a.wing_span_m < 1.5);
    CHECK(a.tailplane_span_m < a.wing_span_m / 2.0);
    CHECK(a.wing_tip_behind_m < a.tail_behind_m);
    CHECK(a.wheel_span_m < 0.25 * a.wing_span_m);
    CHECK(a.bogie_track_m < a.wheel_span_m - 2.0 * a.tyre_width_m);
    CHECK(a.inner_engine_arm_m > a.bogie_track_m / 2.0);
    CHECK(a.outer_engine_arm_m < a.wing_span_m / 2.0);
    CHECK((a.outer_engine_arm_m > a.inner_engine_arm_m) == (a.engine_count > 2));
    CHECK(a.eye_side_m < a.eye_height_m / 4.0);
    // Eleven to sixteen degrees are typical (Horonjeff et al., Planning and Design of Airports).
    CHECK(units::degrees_from_radians(a.view_cutoff_rad) >= 11.0 - 1e-9);
    CHECK(units::degrees_from_radians(a.view_cutoff_rad) <= 16.0 + 1e-9);
  }
}

TEST_CASE("sizing rule: loads, thrust and brakes of an aircraft fit its mass") {
  for (const AircraftDocument& document : preset_aircraft()) {
    CAPTURE(document.facts.id);
    const Aircraft& a = document.aircraft;
    const double weight_n = a.highest_mass_kg * units::kGravity_mps2;
    const double idle = a.engine_count * a.idle_thrust_n / weight_n;
    CHECK(idle > 0.0138);
    CHECK(idle < 0.0147);
    // Two to four times idle is what a taxiway sees (aircraft.hpp).
    CHECK(a.taxi_thrust_limit_n > 2.3 * a.idle_thrust_n);
    CHECK(a.taxi_thrust_limit_n < 3.7 * a.idle_thrust_n);
    CHECK(a.idle_thrust_n / a.idle_air_flow_kgps == doctest::Approx(60.0).epsilon(0.02));
    // The tyre's print is what carries: load over pressure, no wider than the tyre.
    const double wheel_n = a.main_gear_load_share * weight_n / a.main_wheel_count;
    const double print_m2 = wheel_n / a.tyre_pressure_pa;
    CHECK(print_m2 / a.tyre_width_m > 0.5 * a.tyre_width_m);
    CHECK(print_m2 / a.tyre_width_m < 1.5 * a.tyre_width_m);
    CHECK(a.tyre_deflection_m < 0.25 * a.tyre_width_m);
    CHECK(a.main_wheel_count % (4 * a.bogie_axles) == 0);
    CHECK(a.brake_count <= a.main_wheel_count);
    CHECK(a.brake_count >= a.main_wheel_count / 2);
    // A stop from 70 m/s, in all packs together; half a kilogram is what a pack is rounded by.
    const bool steel = a.brake_material == BrakeMaterial::Steel;
    const double packs_kg = a.brake_count * a.heat_pack_mass_kg;
    const double work_jpkg = 0.5 * a.highest_mass_kg * 70.0 * 70.0 / packs_kg;
    CHECK(work_jpkg == doctest::Approx(steel ? 0.245e6 : 1.15e6).epsilon(0.015));
    CHECK(a.brake_area_m2 / a.heat_pack_mass_kg ==
          doctest::Approx(steel ? 0.62 / 70.0 : 0.0155).epsilon(0.015));
  }
}

TEST_CASE("sizing rule: the classes keep their order, and no two aircraft are alike") {
  struct Letter {
    const char* id;
    char letter;
  };
  for (const Letter& expected :
       {Letter{"regional-twin", 'C'}, Letter{"narrow-twin", 'C'}, Letter{"long-narrow-twin", 'D'},
        Letter{"long-nosed-twin", 'D'}, Letter{"medium-twin", 'E'}, Letter{"large-twin", 'E'},
        Letter{"long-four", 'E'}, Letter{"very-large-four", 'F'}}) {
    CAPTURE(expected.id);
    CHECK(code_letter(aircraft_named(expected.id).wing_span_m) == expected.letter);
  }
  const auto& all = preset_aircraft();
  for (std::size_t i = 0; i + 1 < all.size(); ++i) {
    const Aircraft& lighter = all[i].aircraft;
    const Aircraft& heavier = all[i + 1].aircraft;
    CAPTURE(all[i].facts.id);
    CHECK(heavier.highest_mass_kg > 1.05 * lighter.highest_mass_kg);
    CHECK(heavier.wing_span_m > lighter.wing_span_m);
    CHECK(heavier.wheel_span_m < 15.0);  // the widest main gear of any code
  }
}
