// Properties that every card must have: it is made of finite numbers, the same inputs give the same
// bytes, the mirrored taxi gives the mirrored card, heavier is never quicker.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "physics/card/compute_card.hpp"
#include "scenarios.hpp"
#include "sheet/sheet.hpp"
#include "stations.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

Card& card() {
  static Card one;
  return one;
}
Card& other_card() {
  static Card one;
  return one;
}

// Every number of the card, by hand: none may be forgotten silently, so they are grouped as the
// structs are.
template <class F>
void every_number(const Card& c, F f) {
  for (double x :
       {c.air.temperature_k, c.air.pressure_pa, c.air.density_kgpm3, c.air.sound_speed_mps})
    f("air", x);
  const RollAnswer& r = c.roll;
  for (double x :
       {r.idle_thrust_n, r.idle_thrust_per_weight, r.breakaway_margin_n, r.acceleration_mps2,
        r.terminal.speed_mps, r.keeps_rolling_slope_rad, r.restarts_slope_rad, r.start_thrust_n,
        r.extra_thrust_n, r.slope_rad, r.headwind_mps, r.level_acceleration_mps2})
    f("roll", x);
  for (const RollTarget& t : r.targets)
    for (double x : {t.speed_mps, t.passage.time_s, t.passage.distance_m}) f("roll target", x);
  for (const TurnAnswer& t : c.turns)
    for (double x : {t.turn_rad,
                     t.radius_m,
                     t.rolling_radius_m,
                     t.loads.scrub_drag_n,
                     t.loads.scrub_moment_nm,
                     t.loads.nose_side_force_n,
                     t.loads.nose_grip_needed,
                     t.loads.nose_angle_rad,
                     t.limit.speed_mps,
                     t.window.lower_mps,
                     t.window.upper_mps,
                     t.window.opening_thrust_n,
                     t.planned_entry_mps,
                     t.exit_mps,
                     t.peak_mps,
                     t.cockpit_side_g,
                     t.cabin_side_g,
                     t.gear_side_g,
                     t.idle_acceleration_mps2,
                     t.restart_thrust_n,
                     t.restart_extra_thrust_n})
      f("turn", x);
  for (const TrackAnswer& t : c.tracks) {
    for (double x : {t.radius_m, t.turn_rad, t.eye_side_m, t.steering_limit_rad}) f("track", x);
    for (const TrackPlan* p : {&t.eye_on_line, &t.gear_on_line}) {
      for (double x : {p->steering_rad, p->steering_rate_radps, p->shift_m, p->start_before_arc_m,
                       p->eye_past_arc_begin_m, p->eye_past_crossing_m, p->nose_overshoot_m,
                       p->eye_overshoot_m, p->nose_off_line_m, p->gear_off_line_m,
                       p->smallest_gear_radius_m, p->wing_reach_m, p->tail_reach_m,
                       p->margins.left_main_m, p->margins.right_main_m, p->margins.nose_m})
        f("track plan", x);
      for (int i = 0; i < p->samples; ++i)
        for (double x : {p->pose[i].gear.x_m, p->pose[i].gear.y_m, p->pose[i].heading_rad,
                         p->nose_wheel_rad[i]})
          f("pose", x);
    }
  }
  const HeatAnswer& h = c.heat;
  for (double x : {h.start_k, h.end_k, h.peak_k, h.rise_k, h.energy_j, h.limit_k, h.wait_s})
    f("heat", x);
  for (const TechniqueCost& t : h.techniques)
    for (double x : {t.energy_j, t.peak_k, t.end_k, t.time_s, t.fuel_kg, t.wear_cost})
      f("technique", x);
  const StopAnswer& s = c.stop;
  for (double x :
       {s.obscured_m, s.nose_ahead_of_eye_m, s.eye_before_line_m, s.nose_before_line_m,
        s.nose_gear_before_line_m, s.gear_before_line_m, s.tail_before_line_m,
        s.nose_before_line_when_lost_m, s.left_when_lost_m, s.left_when_lost_s, s.approach_mps,
        s.speed_when_lost_mps, s.brake_distance_m, s.brake_time_s, s.eye_before_line_at_brake_m})
    f("stop", x);
  const RouteRun& run = c.run;
  for (double x : {run.length_m, run.duration_s, run.fuel_kg, run.co2_kg, run.brake_energy_j,
                   run.peak_brake_k, run.end_brake_k})
    f("run", x);
  for (const LegResult& l : run.legs)
    for (double x :
         {l.start_m, l.length_m, l.entry_mps, l.exit_mps, l.peak_mps, l.start_s, l.duration_s,
          l.brake_end_k, l.first_application_m, l.first_application_to_mps, l.extra_thrust_n,
          l.allowed_exit_mps, l.limit_mps, l.headwind_mps, l.idle_acceleration_mps2})
      f("leg", x);
  for (const Piece& p : run.pieces)
    for (double x : {p.start_m, p.start_s, p.length_m, p.duration_s, p.v0_mps, p.v1_mps,
                     p.brake_energy_j, p.brake_start_k, p.brake_end_k, p.extra_thrust_n, p.fuel_kg})
      f("piece", x);
  for (const Caution& w : c.cautions)
    for (double x : {w.value, w.limit}) f("caution", x);
}

void check_finite(const Card& c) {
  std::string first_bad;
  every_number(c, [&](const char* where, double x) {
    if (!std::isfinite(x) && first_bad.empty()) first_bad = where;
  });
  CHECK(first_bad == "");
}

// Pieces follow one another without a gap in place, time, speed and temperature.
void check_continuous(const Brief& brief, const RouteRun& run) {
  double at_m = 0.0;
  double at_s = 0.0;
  double v = brief.route.start_speed_mps;
  // After a turnaround the brakes begin with what it left in them.
  double brake_k = card().heat.start_k;
  if (!brief.turnaround.included) CHECK(brake_k == brief.condition.brake_temperature_k);
  double energy_j = 0.0;
  double fuel_kg = 0.0;
  int bad = 0;
  for (const Piece& piece : run.pieces) {
    // Places snap to the end of a leg within a millionth of a metre.
    if (std::abs(piece.start_m - at_m) > 2e-6) ++bad;
    if (std::abs(piece.start_s - at_s) > 1e-9 * (1.0 + at_s)) ++bad;
    if (std::abs(piece.v0_mps - v) > 1e-9) ++bad;
    if (piece.brake_start_k != brake_k) ++bad;
    if (piece.length_m < 0.0 || piece.duration_s < 0.0 || piece.v1_mps < 0.0) ++bad;
    // The brakes only ever take energy; rounding may leave a thousandth of a joule.
    if (piece.brake_energy_j < -1e-3) ++bad;
    at_m = piece.start_m + piece.length_m;
    at_s = piece.start_s + piece.duration_s;
    v = piece.v1_mps;
    brake_k = piece.brake_end_k;
    energy_j += piece.brake_energy_j;
    fuel_kg += piece.fuel_kg;
  }
  CHECK(bad == 0);
  CHECK(std::abs(run.length_m - at_m) <= 2e-6);
  CHECK(run.duration_s == doctest::Approx(at_s).epsilon(1e-12));
  CHECK(run.end_brake_k == brake_k);
  CHECK(run.brake_energy_j == doctest::Approx(energy_j).epsilon(1e-12));
  CHECK(run.fuel_kg == doctest::Approx(fuel_kg).epsilon(1e-12));
  if (run.status == RunStatus::Complete) CHECK(v == doctest::Approx(0.0).epsilon(1e-9));
}

}  // namespace

TEST_CASE("card: presets give finite numbers and complete runs without gaps") {
  for (const BriefDocument& document : preset_briefs()) {
    CAPTURE(document.aircraft.id);
    CAPTURE(document.route.id);
    CAPTURE(document.brief.condition.mass_kg);
    compute_card(document.brief, card());
    check_finite(card());
    CHECK(card().run.status == RunStatus::Complete);
    CHECK(card().cautions.dropped == 0);
    check_continuous(document.brief, card().run);
    // It stops where the stop is.
    CHECK(card().run.length_m == doctest::Approx(stop_position_m(document.brief)).epsilon(1e-9));
  }
}

TEST_CASE("card: two thousand random briefs give finite numbers without gaps") {
  Draws draws(20260401);
  int complete = 0;
  const int tried = scaled_draws(2000);
  for (int i = 0; i < tried; ++i) {
    const BriefDocument document = random_brief(draws);
    CAPTURE(i);
    compute_card(document.brief, card());
    check_finite(card());
    check_continuous(document.brief, card().run);
    CHECK(card().cautions.dropped == 0);
    CHECK(card().possible == (card().possible && card().run.status == RunStatus::Complete));
    if (card().run.status == RunStatus::Complete) ++complete;
  }
  CHECK(complete > tried / 10);
}

TEST_CASE("card: the same brief gives the same bytes") {
  Draws draws(20260402);
  std::vector<BriefDocument> briefs = preset_briefs();
  for (int i = 0; i < scaled_draws(100); ++i) briefs.push_back(random_brief(draws));
  for (const BriefDocument& document : briefs) {
    compute_card(document.brief, card());
    const std::string once = card_json(document, card(), true);
    other_card() = card();  // something else in between
    compute_card(default_brief().brief, other_card());
    compute_card(document.brief, other_card());
    CHECK(once == card_json(document, other_card(), true));
    // Every number too: the text leaves some out.
    std::vector<double> numbers;
    every_number(card(), [&](const char*, double x) { numbers.push_back(x); });
    std::size_t k = 0;
    bool same = true;
    every_number(other_card(), [&](const char*, double x) { same = same && numbers[k++] == x; });
    CHECK(same);
  }
}

TEST_CASE("card: a mirrored taxi gives exactly the mirrored card") {
  Draws draws(20260403);
  std::vector<BriefDocument> briefs = preset_briefs();
  for (int i = 0; i < scaled_draws(300); ++i) briefs.push_back(random_brief(draws));
  for (const BriefDocument& document : briefs) {
    CAPTURE(document.aircraft.id);
    CAPTURE(document.route.id);
    compute_card(document.brief, card());
    compute_card(mirrored(document.brief), other_card());
    const Card& a = card();
    const Card& b = other_card();
    CHECK(a.run.duration_s == b.run.duration_s);
    CHECK(a.run.fuel_kg == b.run.fuel_kg);
    CHECK(a.heat.peak_k == b.heat.peak_k);
    CHECK(a.cautions.size() == b.cautions.size());
    REQUIRE(a.tracks.size() == b.tracks.size());
    int differences = 0;
    for (std::size_t i = 0; i < a.tracks.size(); ++i) {
      CHECK(a.turns[i].window.lower_mps == b.turns[i].window.lower_mps);
      CHECK(a.turns[i].window.upper_mps == b.turns[i].window.upper_mps);
      for (const auto& [p, q] : {std::pair{&a.tracks[i].eye_on_line, &b.tracks[i].eye_on_line},
                                 std::pair{&a.tracks[i].gear_on_line, &b.tracks[i].gear_on_line}}) {
        differences += p->samples != q->samples;
        differences += p->margins.left_main_m != q->margins.right_main_m;
        differences += p->margins.right_main_m != q->margins.left_main_m;
        differences += p->margins.nose_m != q->margins.nose_m;
        differences += p->nose_overshoot_m != q->nose_overshoot_m;
        differences += p->start_before_arc_m != q->start_before_arc_m;
        differences += p->steering_rad != q->steering_rad;
        for (int k = 0; k < p->samples; ++k) {
          differences += p->pose[k].gear.x_m != q->pose[k].gear.x_m;
          differences += p->pose[k].gear.y_m != -q->pose[k].gear.y_m;
          differences += p->pose[k].heading_rad != -q->pose[k].heading_rad;
        }
      }
    }
    CHECK(differences == 0);
  }
}

TEST_CASE("card: headwind on an arc is the mean over its headings") {
  Draws draws(20260404);
  for (int i = 0; i < scaled_draws(300); ++i) {
    Leg arc;
    arc.kind = LegKind::Arc;
    arc.turn_rad = draws.sign() * draws.between(0.09, 3.1);
    const double heading = draws.between(0.0, 6.3);
    const double from = draws.between(0.0, 6.3);
    double sum = 0.0;
    constexpr int kParts = 2000;  // midpoint rule: good to (turn / parts)^2 / 24
    for (int k = 0; k < kParts; ++k)
      sum += std::cos(heading + arc.turn_rad * (k + 0.5) / kParts - from);
    CHECK(leg_headwind_mps(arc, heading, 10.0, from) ==
          doctest::Approx(10.0 * sum / kParts).epsilon(1e-6));
  }
}

TEST_CASE("roll: heavier is never quicker, downhill never slower") {
  for (const BriefDocument& document : preset_briefs()) {
    CAPTURE(document.aircraft.id);
    CAPTURE(document.route.id);
    const Brief& brief = document.brief;
    const Air air =
        day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
    for (const double target_kt : {5.0, 10.0, 15.0, 20.0}) {
      const RollMap map = roll_map(brief, air, units::mps_from_knots(target_kt));
      auto time = [&](int row, int column) {
        return map.time_s[row][column] < 0.0 ? HUGE_VAL : map.time_s[row][column];
      };
      // Equal but for rounding where thrust and drag cancel.
      const double room = 1.0 + 1e-12;
      int wrong = 0;
      for (int row = 0; row < kMapRows; ++row) {
        for (int column = 0; column < kMapColumns; ++column) {
          if (column > 0 && time(row, column - 1) > time(row, column) * room) ++wrong;
          if (row > 0 && time(row - 1, column) > time(row, column) * room) ++wrong;
        }
      }
      CHECK(wrong == 0);
      for (int column = 1; column < kMapColumns; ++column) {
        CHECK(map.keeps_rolling_slope_rad[column] <= map.keeps_rolling_slope_rad[column - 1]);
        CHECK(map.restarts_slope_rad[column] <= map.restarts_slope_rad[column - 1]);
      }
    }
  }
}
