// Properties that every card must have: it is made of finite numbers, the same inputs give the same
// bytes, the mirrored taxi gives the mirrored card, heavier is never quicker.
#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "every_number.hpp"
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

// What the gate took back is told apart: nothing is missing without being named there.
void check_finite(const Card& c) {
  std::string first_bad;
  every_number(c, [&](const char* where, double x) {
    if (!std::isfinite(x) && first_bad.empty()) first_bad = where;
  });
  if (c.withheld.empty()) CHECK(first_bad == "");
}

// Pieces follow one another without a gap in place, time, speed and temperature.
void check_continuous(const Brief& brief, const RouteRun& run) {
  double at_m = 0.0;
  double at_s = 0.0;
  double v = brief.route.start_speed_mps;
  // After a turnaround the brakes begin with what it left in them.
  double brake_k = card().heat.start_k;
  if (!brief.turnaround.included && !std::isnan(brake_k))
    CHECK(brake_k == make_today(brief).worst_brake.pack_k);
  double energy_j = 0.0;
  double fuel_kg = 0.0;
  int bad = 0;
  for (const Piece& piece : run.pieces) {
    // Places snap to the end of a leg within a millionth of a metre.
    if (std::abs(piece.start_m - at_m) > 2e-6) ++bad;
    if (std::abs(piece.start_s - at_s) > 1e-9 * (1.0 + at_s)) ++bad;
    if (std::abs(piece.v0_mps - v) > 1e-9) ++bad;
    const bool withheld = std::isnan(piece.brake_start_k) && std::isnan(brake_k);
    if (!withheld && piece.brake_start_k != brake_k) ++bad;
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
  CHECK((run.end_brake_k == brake_k || std::isnan(run.end_brake_k)));
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
    CHECK(card().cautions.dropped == 0);
    check_continuous(document.brief, card().run);
    // Round bends of 18 m the bogies of the heaviest scrub more than a taxiway's thrust overcomes.
    if (card().run.status == RunStatus::NotEnoughThrust) {
      CHECK(document.route.id == "east-hangar-to-f1");
      CHECK(document.brief.condition.mass_kg == document.brief.aircraft.highest_mass_kg);
      CHECK(!card().possible);
      continue;
    }
    CHECK(card().run.status == RunStatus::Complete);
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
    every_number(other_card(), [&](const char*, double x) {
      const double before = numbers[k++];
      same = same && (before == x || (std::isnan(before) && std::isnan(x)));
    });
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
    CHECK((a.heat.peak_k == b.heat.peak_k ||
           (std::isnan(a.heat.peak_k) && std::isnan(b.heat.peak_k))));
    CHECK(a.cautions.size() == b.cautions.size());
    REQUIRE(a.tracks.size() == b.tracks.size());
    int differences = 0;
    for (std::size_t i = 0; i < a.tracks.size(); ++i) {
      CHECK(a.turns[i].window.lower_mps == b.turns[i].window.lower_mps);
      CHECK(a.turns[i].window.upper_mps == b.turns[i].window.upper_mps);
      for (const auto& [p, q] :
           {std::pair{&a.tracks[i].eye_on_line, &b.tracks[i].eye_on_line},
            std::pair{&a.tracks[i].gear_on_line, &b.tracks[i].gear_on_line},
            std::pair{&a.tracks[i].point_on_line, &b.tracks[i].point_on_line}}) {
        differences += p->samples != q->samples;
        differences += p->margins.left_main.margin_m != q->margins.right_main.margin_m;
        differences += p->margins.right_main.margin_m != q->margins.left_main.margin_m;
        differences += p->margins.nose.margin_m != q->margins.nose.margin_m;
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
