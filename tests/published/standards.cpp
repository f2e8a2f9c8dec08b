// Taxiway rules: bands, widths, clearances, separations, curve radii, slopes.
#include "physics/card/standards.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <tuple>
#include <utility>

#include "physics/numerics/units.hpp"
#include "physics/path/fillet.hpp"
#include "physics/path/taxiway_rules.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kHandbook =
    "Horonjeff, McKelvey et al., Planning and Design of Airports, 5th ed. 2010";
constexpr const char* kAnnex = "ICAO Annex 14 Vol I, 8th ed. 2018";
constexpr const char* kCs = "EASA CS-ADR-DSN Issue 6";
constexpr const char* kFaa = "FAA AC 150/5300-13, edition B";
constexpr double kFoot = units::kFoot_m;

void row(const char* what, const char* source, const char* place, double expected, double got,
         double tolerance = 1e-9, Kind kind = Kind::Worked) {
  check({.what = what,
         .source = source,
         .place = place,
         .kind = kind,
         .expected = expected,
         .got = got,
         .tolerance = tolerance});
}

}  // namespace

TEST_CASE("standards: code letter by wing span") {
  // Closed below, open above; A is 1 and F is 6.
  struct Row {
    double upper_m;
    char below;
  };
  for (const Row& r :
       {Row{15.0, 'A'}, Row{24.0, 'B'}, Row{36.0, 'C'}, Row{52.0, 'D'}, Row{65.0, 'E'}}) {
    row("code letter at the end of a band", kHandbook, "Table 6-3: Annex 14, Table 1-1",
        r.below + 1 - 'A', code_letter(r.upper_m) - 'A');
  }
  row("code letter just below 80 m", kHandbook, "Table 6-3: Annex 14, Table 1-1", 'F' - 'A',
      code_letter(79.99) - 'A');
}

TEST_CASE("standards: airplane design group by wing span") {
  struct Row {
    double upper_ft;
    int below;
  };
  for (const Row& r : {Row{49.0, 1}, Row{79.0, 2}, Row{118.0, 3}, Row{171.0, 4}, Row{214.0, 5}}) {
    row("design group at the end of a band", "FAA AC 150/5300-13, change 10", "Table 1-1",
        r.below + 1, design_group((r.upper_ft + 1e-6) * kFoot));
  }
  row("design group just below 262 ft", "FAA AC 150/5300-13, change 10", "Table 1-1", 6,
      design_group(261.99 * kFoot));
}

TEST_CASE("standards: wheel clearance and taxiway width by wheel span") {
  struct Row {
    double span_m, wheelbase_m;
    bool curve;
    double clearance_m;
  };
  for (const Row& r :
       {Row{4.49, 20.0, true, 1.5}, Row{4.5, 20.0, true, 2.25}, Row{5.99, 20.0, true, 2.25},
        Row{6.0, 20.0, false, 3.0}, Row{6.0, 17.99, true, 3.0}, Row{6.0, 18.0, true, 4.0},
        Row{8.99, 25.0, true, 4.0}, Row{9.0, 10.0, false, 4.0}, Row{12.9, 25.3, true, 4.0},
        Row{14.99, 30.0, false, 4.0}}) {
    row("outer main wheel to edge, m", kCs, "D.240(a)", r.clearance_m,
        wheel_clearance_m(r.span_m, r.wheelbase_m, r.curve));
  }
  // Widths from memory, closed on the clearances read: upper end of the band and twice them.
  for (const auto& [span_m, width_m] :
       {std::pair{4.4, 7.5}, std::pair{5.9, 10.5}, std::pair{8.9, 15.0}, std::pair{12.9, 23.0}}) {
    row("width of a straight taxiway, m", kAnnex, "3.9.5; CS ADR-DSN.D.245", width_m,
        taxiway_width_m(span_m), 1e-12, Kind::Formula);
  }
  row("margin on the straight of a span of 12.9 m", kCs, "D.240 and D.245, (23 - 12.9)/2", 5.05,
      0.5 * (taxiway_width_m(12.9) - 12.9), 1e-12, Kind::Formula);
}

TEST_CASE("standards: separations") {
  // Current edition, from memory; each closes on the wing-span band and one increment.
  struct Icao {
    char letter;
    double parallel_m, object_m, span_m, increment_m;
  };
  for (const Icao& r : {Icao{'C', 44.0, 26.0, 36.0, 8.0}, Icao{'D', 63.0, 37.0, 52.0, 11.0},
                        Icao{'E', 76.0, 43.5, 65.0, 11.0}, Icao{'F', 91.0, 51.0, 80.0, 11.0}}) {
    row("parallel taxiways, m", kAnnex, "Table 3-1", r.parallel_m,
        icao_parallel_separation_m(r.letter), 0.0, Kind::Own);
    row("taxiway to object, m", kAnnex, "Table 3-1", r.object_m, icao_object_separation_m(r.letter),
        0.0, Kind::Own);
    row("parallel taxiways by parts, m", kAnnex, "span band and increment",
        r.span_m + r.increment_m, icao_parallel_separation_m(r.letter), 1e-12, Kind::Formula);
    row("taxiway to object by parts, m", kAnnex, "span band and increment",
        0.5 * r.span_m + r.increment_m, icao_object_separation_m(r.letter), 1e-12, Kind::Formula);
  }
  for (const auto& [letter, parallel_m, object_m] :
       {std::tuple{'A', 23.0, 15.5}, std::tuple{'B', 32.0, 20.0}}) {
    row("parallel taxiways, m", kAnnex, "Table 3-1", parallel_m, icao_parallel_separation_m(letter),
        0.0, Kind::Own);
    row("taxiway to object, m", kAnnex, "Table 3-1", object_m, icao_object_separation_m(letter),
        0.0, Kind::Own);
  }
  constexpr double kParallel_ft[] = {70.0, 101.5, 144.5, 207.0, 249.5, 298.5};
  constexpr double kObject_ft[] = {44.5, 62.0, 85.5, 121.5, 142.5, 167.5};
  for (int group = 1; group <= 6; ++group) {
    row("parallel taxiways, ft", kFaa, "change 1, separations by design group",
        kParallel_ft[group - 1], faa_parallel_separation_m(group) / kFoot);
    row("taxiway to object, ft", kFaa, "change 1, separations by design group",
        kObject_ft[group - 1], faa_object_separation_m(group) / kFoot);
  }
}

TEST_CASE("standards: curve radius for a speed") {
  // V^2/(15 f) in feet and miles an hour: 15 stands for 14.97.
  const double mph_mps = 1609.344 / 3600.0;
  row("radius for 30 mph, f 0.13, ft", kHandbook, "p. 235, R = V^2/(15 f)", 900.0 / (15.0 * 0.13),
      curve_radius_m(30.0 * mph_mps, kFaaCurveLoad_g) / kFoot, 1.5, Kind::Formula);
  // The worked example takes 125 for 127.1: 1.7 % of the radius.
  row("radius for 50 km/h, f 0.15, m",
      "Worked example of an Indian course (homework: turning radius)", "R = V^2/(125 f)", 133.33,
      curve_radius_m(50.0 / 3.6, 0.15), 2.3);
  // Rapid exits at their design speed stay within 0.133 g.
  row("radius for 93 km/h at 0.1237 g, m", kHandbook, "p. 237: 550 m for code number 3 or 4", 550.0,
      curve_radius_m(93.0 / 3.6, 0.1237), 0.5);
  row("radius for 65 km/h at 0.1209 g, m", kHandbook, "p. 237: 275 m for code number 1 or 2", 275.0,
      curve_radius_m(65.0 / 3.6, 0.1209), 0.3);
  CHECK(curve_radius_m(93.0 / 3.6, kIcaoCurveLoad_g) < 550.0);
  CHECK(curve_radius_m(65.0 / 3.6, kIcaoCurveLoad_g) < 275.0);
  row("speed on 21.73 m at 0.133 g, kt", "Side load by v^2/R, computed apart", "10.35 kt", 21.73,
      curve_radius_m(10.35 * 1852.0 / 3600.0, kIcaoCurveLoad_g), 0.05, Kind::Own);
}

TEST_CASE("standards: slopes and steering") {
  row("steepest taxiway, codes A and B", kHandbook, "p. 232, Table 6-21", 0.03,
      icao_slope_limit('B'), 0.0, Kind::Formula);
  row("steepest taxiway, codes C to E", kHandbook, "p. 232, Table 6-21", 0.015,
      icao_slope_limit('C'), 0.0, Kind::Formula);
  row("steepest taxiway, approach categories A and B", kHandbook, "p. 230, Table 6-19", 0.02,
      faa_slope_limit(2), 0.0, Kind::Formula);
  row("steepest taxiway, approach categories C to E", kHandbook, "p. 230, Table 6-19", 0.015,
      faa_slope_limit(3), 0.0, Kind::Formula);
  row("design nose-wheel angle, deg", kHandbook, "p. 249: above 50 deg increase R", 50.0,
      units::degrees_from_radians(kDesignSteering_rad), 1e-12, Kind::Formula);
}

TEST_CASE("standards: fillet example of the handbook") {
  // In feet. A long turn: the lag is the steady one.
  const Fillet f = handbook_fillet({.radius_m = 150.0,
                                    .turn_rad = 20.0,
                                    .eye_ahead_m = 72.1,
                                    .wheelbase_m = 64.6,
                                    .wheel_span_m = 34.25,
                                    .margin_m = 15.0,
                                    .width_m = 75.0});
  const char* const place = "pp. 247-249, eqs 6-9 to 6-12";
  row("greatest lag, deg", kHandbook, place, 29.0, units::degrees_from_radians(f.lag_rad), 0.5);
  check({.what = "fillet radius, ft",
         .source = kHandbook,
         .place = place,
         .kind = Kind::Worked,
         .expected = 100.1,
         .got = f.radius_m,
         .tolerance = 0.05,
         .differs_because = "the print is 0.7 ft off the book's own formula"});
  row("fillet radius, ft, unrounded", kHandbook, "eq. 6-11", 99.41, f.radius_m, 0.01,
      Kind::Formula);
  row("widening, ft", kHandbook, "eq. 6-11: 150 - 37.5 - 99.41", 13.09, f.widening_m, 0.01,
      Kind::Formula);
  row("lead-in, ft, unrounded", kHandbook, "eq. 6-12 with asin(d/R)", 66.85, f.lead_in_m, 0.01,
      Kind::Formula);
  row("nose-wheel angle, deg", kHandbook, "atan((w/d) tan A)",
      units::degrees_from_radians(std::atan(64.6 / 72.1 * std::tan(std::asin(72.1 / 150.0)))),
      units::degrees_from_radians(f.steering_rad), 1e-6, Kind::Formula);
}
