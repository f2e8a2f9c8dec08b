// Easing curves: Fresnel's integrals, worked examples of road design, and where an eased turn ends.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/clothoid.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/painted_line.hpp"
#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr double kPi = units::kPi;

double radians(double value) { return units::radians_from_degrees(value); }

Leg eased_arc(double radius_m, double turn_deg, double easing_m) {
  Leg arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = radius_m;
  arc.turn_rad = radians(turn_deg);
  arc.easing_m = easing_m;
  return arc;
}

// From the crossing of the two straights to where the curve begins.
double tangent_length_m(const Leg& arc) {
  return crossing_radius_m(arc) * std::tan(0.5 * arc.turn_rad);
}

}  // namespace

TEST_CASE("easing: Fresnel's integrals") {
  // C(z) + i S(z) = integral of exp(i pi t^2 / 2): a clothoid whose curvature grows by pi.
  constexpr const char* kSource = "NIST Digital Library of Mathematical Functions, chapter 7";
  struct Row {
    double z, c, s;
  };
  for (const Row& row : {Row{0.5, 0.4923442258714464, 0.0647324328599993},
                         Row{1.0, 0.7798934003768228, 0.4382591473903548}}) {
    const ClothoidStep step = clothoid_step(0.0, kPi, row.z);
    check({.what = "C(z)",
           .source = kSource,
           .place = "values of C and S, 7.2.7 and 7.2.8",
           .kind = Kind::Numerics,
           .expected = row.c,
           .got = step.forward_m,
           .tolerance = 5e-15});
    check({.what = "S(z)",
           .source = kSource,
           .place = "values of C and S, 7.2.7 and 7.2.8",
           .kind = Kind::Numerics,
           .expected = row.s,
           .got = step.right_m,
           .tolerance = 5e-15});
  }
}

TEST_CASE("easing: spiral example of a road design manual") {
  // R 3000 ft, spirals of 210 ft, deflection 15 deg. Feet all through.
  constexpr const char* kSource = "Montana DOT, Road Design Manual, appendix K (example)";
  constexpr const char* kPlace = "p. 17, R 3000 ft, Ls 210 ft, 15 deg";
  const Leg arc = eased_arc(3000.0, 15.0, 210.0);
  const ClothoidStep end = clothoid_step(0.0, 1.0 / (3000.0 * 210.0), 210.0);
  const double tangent_ft = tangent_length_m(arc);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row :
       {Row{"shift p, ft", 0.612, end.right_m - 3000.0 * (1.0 - end.cosine), 0.0006},
        Row{"abscissa k of the shifted circle, ft", 104.996, end.forward_m - 3000.0 * end.sine,
            0.0011},
        Row{"tangent length, ft", 500.034, tangent_ft, 0.0011},
        Row{"length of the circular part, ft", 575.40, leg_length_m(arc) - 2.0 * 210.0, 0.0051},
        Row{"external distance, ft", 26.50,
            (3000.0 + 0.612) * (1.0 / std::cos(radians(7.5)) - 1.0) +
                (end.right_m - 3000.0 * (1.0 - end.cosine)),
            0.0051}}) {
    check({.what = row.what,
           .source = kSource,
           .place = kPlace,
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
  }
}

TEST_CASE("easing: end of a transition of a surveyor's manual") {
  // Parameter A = 80 m, length 64 m: radius A^2 / L = 100 m, turned 0.32 rad.
  constexpr const char* kSource = "User guide of a total station, road alignment";
  const ClothoidStep end = clothoid_step(0.0, 1.0 / (80.0 * 80.0), 64.0);
  struct Row {
    const char* what;
    double expected, got, tolerance;
  };
  for (const Row& row : {Row{"turned, rad", 0.32, end.turned_rad, 1e-12},
                         Row{"along the tangent, m", 63.348, end.forward_m, 0.0006},
                         Row{"beside the tangent, m", 6.777, end.right_m, 0.0006}}) {
    check({.what = row.what,
           .source = kSource,
           .place = "appendix B, p. 154, example A 80 m, L 64 m",
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = row.tolerance});
  }
}

TEST_CASE("easing: setting-out example of a road curve") {
  // R 1000 m, deflection 32 deg 24 min, transition 95.093 m. The page takes p = L^2/(24 R) and k =
  // L/2, which is 5 mm more than k itself.
  constexpr const char* kSource = "Horizontal curves, setting-out sheet (post)";
  const Leg arc = eased_arc(1000.0, 32.4, 95.093);
  const ClothoidStep end = clothoid_step(0.0, 1.0 / (1000.0 * 95.093), 95.093);
  check({.what = "shift, m",
         .source = kSource,
         .place = "example, R 1000 m",
         .kind = Kind::Numerics,
         .expected = 0.377,
         .got = end.right_m - 1000.0 * (1.0 - end.cosine),
         .tolerance = 0.0006});
  check({.what = "length of the main tangent, m",
         .source = kSource,
         .place = "example, R 1000 m",
         .kind = Kind::Numerics,
         .expected = 338.183,
         .got = tangent_length_m(arc),
         .tolerance = 0.006});
}
