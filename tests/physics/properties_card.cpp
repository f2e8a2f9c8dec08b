// Properties of the whole card: it does not depend on the units a brief was thought in, its
// cautions are in order and follow from its answers, and what limits nothing changes nothing.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <string_view>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "physics/card/cautions.hpp"
#include "physics/card/compute_card.hpp"
#include "plain_briefs.hpp"
#include "stations.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// Definitions of the other units, written down apart from the program: NIST SP 811, appendix B.
constexpr double kPound_kg = 0.45359237;
constexpr double kPoundForce_n = 4.4482216152605;
constexpr double kInch_m = 0.0254;
constexpr double kFoot_m = 0.3048;
constexpr double kPsi_pa = 6894.757293168361;
constexpr double kInchOfMercury_pa = 3386.389;
constexpr double kNauticalMile_km = 1.852;

double kelvin_of_fahrenheit(double f) { return (f + 459.67) / 1.8; }
double celsius_of_fahrenheit(double f) { return (f - 32.0) / 1.8; }

void set(Brief& brief, std::string_view key, double value) {
  const Field* field = find_field(key);
  REQUIRE(field != nullptr);
  field->set(brief, value);
}

// The same taxi, thought in pounds, feet, inches, degrees Fahrenheit and km/h: once through the
// fields (kt, t, degC, hPa, m), once as SI numbers.
void enter_both(Brief& by_field, Brief& by_si) {
  const auto both = [&](std::string_view key, double field_value, double& target, double si) {
    set(by_field, key, field_value);
    target = si;
  };
  const auto kmh = [&](std::string_view key, double v, double& target) {
    both(key, v / kNauticalMile_km, target, v / 3.6);
  };
  const auto feet = [&](std::string_view key, double ft, double& target) {
    both(key, ft * kFoot_m, target, ft * 12.0 * kInch_m);
  };
  const auto fahrenheit = [&](std::string_view key, double f, double& target) {
    both(key, celsius_of_fahrenheit(f), target, kelvin_of_fahrenheit(f));
  };
  Brief& b = by_si;
  both("mass_t", 640e3 * kPound_kg / 1000.0, b.condition.mass_kg, 640e3 * kPound_kg);
  kmh("wind_kt", 21.0, b.day.wind_speed_mps);
  both("wind_from_deg", 0.9 * 311.0, b.day.wind_from_rad, 311.0 * std::acos(-1.0) / 200.0);
  fahrenheit("temperature_c", 41.0, b.day.temperature_k);
  both("qnh_hpa", 30.05 * kInchOfMercury_pa / 100.0, b.day.qnh_pa, 30.05 * kInchOfMercury_pa);
  both("contaminant_depth_mm", 0.45 * 25.4, b.day.contaminant_depth_m, 0.45 * kInch_m);
  fahrenheit("brake_temperature_c", 210.0, b.condition.brake_temperature_k);
  both("dragging_brake_kn", 300.0 * kPoundForce_n / 1000.0, b.condition.dragging_brake_n,
       300.0 * kPoundForce_n);
  kmh("band_top_kt", 35.0, b.technique.band_top_mps);
  kmh("band_bottom_kt", 17.0, b.technique.band_bottom_mps);
  kmh("short_drop_kt", 6.0, b.technique.short_drop_mps);
  both("deceleration_mps2", 3.1 * kFoot_m, b.technique.deceleration_mps2, 3.1 * 12.0 * kInch_m);
  kmh("straight_speed_kt", 37.0, b.limits.straight_speed_mps);
  kmh("sharp_turn_speed_kt", 18.0, b.limits.sharp_turn_speed_mps);
  kmh("gentle_turn_speed_kt", 27.0, b.limits.gentle_turn_speed_mps);
  kmh("walking_pace_kt", 5.0, b.limits.walking_pace_mps);
  fahrenheit("departure_brake_c", 560.0, b.limits.departure_brake_k);
  feet("edge_clearance_m", 13.0, b.limits.edge_clearance_m);
  feet("stop_short_m", 9.0, b.limits.stop_short_m);
  both("idle_thrust_kn", 3100.0 * kPoundForce_n / 1000.0, b.aircraft.idle_thrust_n,
       3100.0 * kPoundForce_n);
  both("taxi_thrust_limit_kn", 13.5e3 * kPoundForce_n / 1000.0, b.aircraft.taxi_thrust_limit_n,
       13.5e3 * kPoundForce_n);
  both("idle_fuel_flow_kgps", 1560.0 * kPound_kg / 3600.0, b.aircraft.idle_fuel_flow_kgps,
       26.0 * kPound_kg / 60.0);
  both("drag_area_m2", 125.0 * kFoot_m * kFoot_m, b.aircraft.drag_area_m2,
       125.0 * 144.0 * kInch_m * kInch_m);
  feet("wheelbase_m", 105.0, b.aircraft.wheelbase_m);
  both("tyre_pressure_bar", 200.0 * kPsi_pa / 1e5, b.aircraft.tyre_pressure_pa, 200.0 * kPsi_pa);
  both("view_cutoff_deg", 20.0, b.aircraft.view_cutoff_rad, std::acos(-1.0) / 9.0);
  both("steering_rate_degps", 2.0 * 6.0, b.aircraft.steering_rate_radps,
       2.0 * 2.0 * std::acos(-1.0) / 60.0);  // two turns a minute
  both("heat_pack_mass_kg", 130.0 * kPound_kg, b.aircraft.heat_pack_mass_kg, 130.0 * kPound_kg);
  feet("start_elevation_m", 1275.0, b.route.start_elevation_m);
  both("start_heading_deg", 0.9 * 300.0, b.route.start_heading_rad, 1.5 * std::acos(-1.0));
}

double relative(double a, double b) {
  return (a - b) / std::max({std::abs(a), std::abs(b), 1e-300});
}

}  // namespace

TEST_CASE(
    "property: a brief in pounds, feet, km/h and Fahrenheit gives the card of the same in kt") {
  Brief by_field = default_brief().brief;
  Brief by_si = by_field;
  for (Brief* brief : {&by_field, &by_si}) {
    brief->day.surface = Surface::StandingWater;
    brief->condition.engine_anti_ice = true;
    brief->turnaround.included = false;
  }
  enter_both(by_field, by_si);
  const auto first = std::make_unique<Card>(), second = std::make_unique<Card>();
  compute_card(by_field, *first);
  compute_card(by_si, *second);
  const Card& a = *first;
  const Card& b = *second;
  Worst apart;
  int number = 0;
  const auto same = [&](double x, double y) { apart.note(relative(x, y), number++); };
  same(a.air.density_kgpm3, b.air.density_kgpm3);
  same(a.roll.breakaway_margin_n, b.roll.breakaway_margin_n);
  same(a.roll.terminal.speed_mps, b.roll.terminal.speed_mps);
  same(a.pavement.displacement_drag_nspm2, b.pavement.displacement_drag_nspm2);
  same(a.surface_limits.braking_friction, b.surface_limits.braking_friction);
  same(a.run.duration_s, b.run.duration_s);
  same(a.run.fuel_kg, b.run.fuel_kg);
  same(a.run.brake_energy_j, b.run.brake_energy_j);
  same(a.heat.end_k, b.heat.end_k);
  same(a.heat.limit_k, b.heat.limit_k);
  same(a.stop.eye_before_line_m, b.stop.eye_before_line_m);
  same(a.restart.points[0].needed_n, b.restart.points[0].needed_n);
  same(a.blast.idle[1].merged_m, b.blast.idle[1].merged_m);
  REQUIRE(a.turns.size() == b.turns.size());
  for (std::size_t i = 0; i < a.turns.size(); ++i) {
    same(a.turns[i].limit.speed_mps, b.turns[i].limit.speed_mps);
    same(a.turns[i].window.upper_mps, b.turns[i].window.upper_mps);
    same(a.tracks[i].gear_on_line.start_before_arc_m, b.tracks[i].gear_on_line.start_before_arc_m);
    same(a.tracks[i].gear_on_line.margins.left_main.margin_m,
         b.tracks[i].gear_on_line.margins.left_main.margin_m);
  }
  CAPTURE(apart.at);
  CHECK(a.run.pieces.size() == b.run.pieces.size());
  CHECK(a.cautions.size() == b.cautions.size());
  CHECK(apart.error < 1e-10);
}

TEST_CASE(
    "property: cautions are sorted, follow from the answers, and filling twice is filling once") {
  Draws draws(701);
  const auto held = std::make_unique<Card>();
  Card& card = *held;
  int exceeded = 0;
  for (int i = 0; i < 60; ++i) {
    Brief brief = draw_plain_brief(draws);
    brief.day.surface = static_cast<Surface>(draws.below(10));
    brief.day.contaminant_depth_m = draws.between(0.0, 0.03);
    compute_card(brief, card);
    for (std::size_t k = 1; k < card.cautions.size(); ++k) {
      const Caution& one = card.cautions[k - 1];
      const Caution& next = card.cautions[k];
      CHECK(one.level <= next.level);
      if (one.level == next.level) CHECK(one.kind <= next.kind);
      if (one.level == next.level && one.kind == next.kind) CHECK(one.leg <= next.leg);
    }
    const auto has = [&](CautionKind kind) {
      return std::any_of(card.cautions.begin(), card.cautions.end(),
                         [kind](const Caution& c) { return c.kind == kind; });
    };
    exceeded += !card.cautions.empty() && card.cautions[0].level == CautionLevel::Exceeded;
    CHECK(has(CautionKind::BrakesTooHot) == !card.heat.within_limit);
    CHECK(has(CautionKind::SurfaceTightens) == card.surface_limits.speeds_cut);
    CHECK(has(CautionKind::BrakingPoor) == card.surface_limits.braking_cut);
    CHECK(has(CautionKind::DraggingBrake) == (brief.condition.dragging_brake_n > 0.0));
    if (card.run.status != RunStatus::Complete) CHECK_FALSE(card.possible);
    // Again from the finished answers: the same list, nothing twice. `brief` as tightened.
    const auto before = card.cautions;
    const bool possible = card.possible;
    card.cautions.clear();
    card.possible = true;
    fill_cautions(tightened_for_surface(brief, card.surface_limits), card);
    REQUIRE(card.cautions.size() == before.size());
    CHECK(card.possible == possible);
    for (std::size_t k = 0; k < before.size(); ++k) {
      CHECK(card.cautions[k].kind == before[k].kind);
      CHECK(card.cautions[k].leg == before[k].leg);
      CHECK(card.cautions[k].value == before[k].value);
    }
  }
  CHECK(exceeded > 3);
}

TEST_CASE("property: limits that bind nowhere and bands that nobody draws change no run") {
  Draws draws(702);
  const auto first = std::make_unique<Card>(), second = std::make_unique<Card>();
  for (int i = 0; i < 20; ++i) {
    const Brief brief = draw_plain_brief(draws);
    compute_card(brief, *first);
    Brief other = brief;
    for (Leg& leg : other.route.legs)
      if (leg.speed_limit_mps == 0.0) leg.speed_limit_mps = 50.0;
    other.limits.departure_brake_k = 2000.0;  // judged, not used
    other.limits.edge_clearance_m = 0.1;
    other.route.parallel_line_m = 500.0;
    other.turnaround.landing_mass_kg = 1e5;  // not included
    other.aircraft.blast_contour_m = 100.0;
    other.bands.slope_rad = 0.0;
    compute_card(other, *second);
    CHECK(first->run.duration_s == second->run.duration_s);
    CHECK(first->run.fuel_kg == second->run.fuel_kg);
    CHECK(first->run.end_brake_k == second->run.end_brake_k);
    CHECK(first->run.applications == second->run.applications);
    CHECK(second->blast.manual_contour_m == 100.0);
  }
}

TEST_CASE("property: warmer brakes at the start end warmer, at every technique") {
  Draws draws(703);
  const auto first = std::make_unique<Card>(), second = std::make_unique<Card>();
  int compared = 0;
  for (int i = 0; i < 20; ++i) {
    Brief brief = draw_plain_brief(draws);
    brief.limits.brake_reading = BrakeReading::HeatPack;
    compute_card(brief, *first);
    brief.condition.brake_temperature_k += 20.0;
    compute_card(brief, *second);
    for (int k = 0; k < 3; ++k) {
      CHECK(second->heat.techniques[k].end_k > first->heat.techniques[k].end_k);
      CHECK(second->heat.techniques[k].end_k < first->heat.techniques[k].end_k + 20.0 + 1e-9);
      CHECK(second->heat.techniques[k].peak_k >= first->heat.techniques[k].peak_k);
      CHECK(second->heat.techniques[k].energy_j == first->heat.techniques[k].energy_j);
      ++compared;
    }
  }
  CHECK(compared == 60);
}
