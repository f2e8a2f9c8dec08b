// The mathematics below the physics against printed constants, tables and worked examples.
#include <doctest/doctest.h>

#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadratic_motion.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/units.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/painted_line.hpp"
#include "physics/path/track.hpp"
#include "physics/uncertainty/batch.hpp"
#include "published.hpp"

using namespace tillerline;
using namespace tillerline::elementary;
using published::check;
using published::Kind;

namespace {

constexpr const char* kBoost = "Boost.Math 1.74, constants.hpp (50 digits)";
constexpr const char* kTextbook =
    "Riley, Hobson and Bence, Mathematical Methods for Physics and Engineering";
constexpr const char* kCarlson = "Carlson, Numerical Algorithms 10, 1995, 13-26";
constexpr const char* kSurveying = "Horizontal Curves 1, surveying course, solutions (homework)";

// Weight that the rule gives to the place `x` (and its mirror image).
template <int N>
double weight_at(const GaussNode (&nodes)[N], double x) {
  const double both = gauss_integral(
      nodes, -1.0, 1.0, [x](double at) { return std::abs(std::abs(at) - x) < 1e-9 ? 1.0 : 0.0; });
  return 0.5 * both;
}

}  // namespace

TEST_CASE("mathematics: constants of the elementary functions") {
  struct Row {
    const char* what;
    const char* place;
    double expected, got;
  };
  const Row rows[] = {
      {"sin 1", "sin_one", 0.8414709848078965, sine(1.0)},
      {"cos 1", "cos_one", 0.5403023058681398, cosine(1.0)},
      {"arcsin 1/2", "sixth_pi", 0.5235987755982989, arcsine(0.5)},
      {"arccos 1/2", "third_pi", 1.0471975511965976, arccosine(0.5)},
      {"arctan of 1 over -1", "three_quarters_pi", 2.3561944901923449, arctangent2(1.0, -1.0)},
      {"exp(-1/2)", "exp_minus_half", 0.6065306597126334, exponential(-0.5)},
      {"exp 1", "e", 2.718281828459045, exponential(1.0)},
      {"ln 2", "ln_two", 0.6931471805599453, natural_log(2.0)},
      {"ln(1 + 9)", "ln_ten", 2.302585092994046, log_one_plus(9.0)},
      {"square root of 2", "root_two", 1.4142135623730951, square_root(2.0)},
      {"hypotenuse of 1 and 1", "root_two", 1.4142135623730951, hypotenuse(1.0, 1.0)},
  };
  for (const Row& row : rows)
    check({.what = row.what,
           .source = kBoost,
           .place = row.place,
           .kind = Kind::Numerics,
           .expected = row.expected,
           .got = row.got,
           .tolerance = 4e-16 * row.expected});
  check({.what = "tan 1",
         .source = kBoost,
         .place = "sin_one / cos_one",
         .kind = Kind::Numerics,
         .expected = 0.8414709848078965 / 0.5403023058681398,
         .got = tangent(1.0),
         .tolerance = 5e-16});
  check({.what = "sinh 1 from exp(x) - 1",
         .source = kBoost,
         .place = "sinh_one",
         .kind = Kind::Numerics,
         .expected = 1.1752011936438014,
         .got = 0.5 * (exponential_minus_one(1.0) - exponential_minus_one(-1.0)),
         .tolerance = 5e-16});
  check({.what = "pi by Machin's formula, 16 arctan(1/5) - 4 arctan(1/239)",
         .source = kBoost,
         .place = "pi",
         .kind = Kind::Numerics,
         .expected = 3.141592653589793,
         .got = 16.0 * arctangent(0.2) - 4.0 * arctangent(1.0 / 239.0),
         .tolerance = 1e-15});
}

TEST_CASE("mathematics: a product and a sum with one rounding") {
  // With two roundings the product is infinite.
  check({.what = "1.2e100 x 2.0e208 - 1.4e308, in units of 1e308",
         .source = "FreeBSD manual, fma(3)",
         .place = "description, example",
         .kind = Kind::Numerics,
         .expected = 1.0,
         .got = fused_multiply_add(1.2e100, 2.0e208, -1.4e308) / 1e308,
         .tolerance = 0.05});
}

TEST_CASE("mathematics: nodes and weights of Gauss and Legendre") {
  struct Row {
    const char* what;
    double node, printed_node, weight, printed_weight;
  };
  const Row rows[] = {
      {"4 points, 1st", kGauss4[0].x, 0.3399810436, weight_at(kGauss4, kGauss4[0].x), 0.6521451549},
      {"4 points, 2nd", kGauss4[1].x, 0.8611363116, weight_at(kGauss4, kGauss4[1].x), 0.3478548451},
      {"8 points, 1st", kGauss8[0].x, 0.1834346425, weight_at(kGauss8, kGauss8[0].x), 0.3626837834},
      {"8 points, 2nd", kGauss8[1].x, 0.5255324099, weight_at(kGauss8, kGauss8[1].x), 0.3137066459},
      {"8 points, 3rd", kGauss8[2].x, 0.7966664774, weight_at(kGauss8, kGauss8[2].x), 0.2223810345},
      {"8 points, 4th", kGauss8[3].x, 0.9602898565, weight_at(kGauss8, kGauss8[3].x), 0.1012285363},
      {"20 points, 1st", kGauss20[0].x, 0.0765265211, weight_at(kGauss20, kGauss20[0].x),
       0.1527533871},
      {"20 points, 5th", kGauss20[4].x, 0.6360536807, weight_at(kGauss20, kGauss20[4].x),
       0.1181945320},
      {"20 points, 10th", kGauss20[9].x, 0.9931285992, weight_at(kGauss20, kGauss20[9].x),
       0.0176140071},
  };
  for (const Row& row : rows) {
    check({.what = row.what,
           .source = kTextbook,
           .place = "Table 27.8, p. 1008, integration points",
           .kind = Kind::Numerics,
           .expected = row.printed_node,
           .got = row.node,
           .tolerance = 0.6e-10});
    check({.what = row.what,
           .source = kTextbook,
           .place = "Table 27.8, p. 1008, weights",
           .kind = Kind::Numerics,
           .expected = row.printed_weight,
           .got = row.weight,
           .tolerance = 0.6e-10});
  }
}

TEST_CASE("mathematics: Carlson's degenerate integral") {
  // R_C(x, y) = Phi(1 - y/x) / sqrt(x): it is homogeneous of degree -1/2.
  check({.what = "R_C(9/4, 2) = ln 2",
         .source = kCarlson,
         .place = "section 5, test values",
         .kind = Kind::Numerics,
         .expected = 0.69314718055995,
         .got = phi(1.0 / 9.0, 8.0 / 9.0) / 1.5,
         .tolerance = 1e-14});
  // R_C(1/4, -2), a principal value: by Carlson's equation for y < 0, sqrt(x / (x - y)) R_C(x - y,
  // -y) with x - y = 9/4, -y = 2.
  check({.what = "R_C(1/4, -2) = (ln 2) / 3",
         .source = kCarlson,
         .place = "section 5, test values",
         .kind = Kind::Numerics,
         .expected = 0.23104906018665,
         .got = phi(1.0 / 9.0, 8.0 / 9.0) / 1.5 * square_root(0.25 / 2.25),
         .tolerance = 1e-14});
  // Its value at 0 is a limit: R_C(x, y) for x -> 0 is pi / (2 sqrt y) - sqrt(x)/y.
  const double x = 1e-14;
  check({.what = "R_C(0, 1/4) = pi",
         .source = kCarlson,
         .place = "section 5, test values",
         .kind = Kind::Numerics,
         .expected = 3.1415926535898,
         .got = phi(1.0 - 0.25 / x, 0.25 / x) / square_root(x) + 4.0 * square_root(x),
         .tolerance = 1e-12});
}

TEST_CASE("mathematics: the short series of Phi and of its difference") {
  // x Phi(x^2) = artanh x, x Phi(-x^2) = arctan x.
  const auto artanh = [](double x) { return x * lane::phi_sum(x * x); };
  const auto arctan = [](double x) { return x * lane::phi_sum(-x * x); };
  check({.what = "ln 2 = 18 artanh(1/26) - 2 artanh(1/4801) + 8 artanh(1/8749)",
         .source = kBoost,
         .place = "ln_two",
         .kind = Kind::Numerics,
         .expected = 0.6931471805599453,
         .got = 18.0 * artanh(1.0 / 26.0) - 2.0 * artanh(1.0 / 4801.0) + 8.0 * artanh(1.0 / 8749.0),
         .tolerance = 4e-16});
  check({.what = "pi = 20 arctan(1/7) + 8 arctan(3/79), Euler",
         .source = kBoost,
         .place = "pi",
         .kind = Kind::Numerics,
         .expected = 3.141592653589793,
         .got = 20.0 * arctan(1.0 / 7.0) + 8.0 * arctan(3.0 / 79.0),
         .tolerance = 1e-15});
  // artanh(1/9) = (ln 10 - 3 ln 2)/2; the difference from Phi(0) = 1, 81 times as large.
  check({.what = "(Phi(1/81) - Phi(0)) x 81 by artanh(1/9)",
         .source = kBoost,
         .place = "ln_ten, ln_two",
         .kind = Kind::Numerics,
         .expected = 81.0 * (4.5 * (2.302585092994046 - 3.0 * 0.6931471805599453) - 1.0),
         .got = lane::phi_difference_sum(1.0 / 81.0, 0.0),
         .tolerance = 2e-13});
}

TEST_CASE("mathematics: zeros and peaks") {
  check({.what = "root of x^3 + 2 x = 5 cos x",
         .source = "Math Help Forum, thread 218462 (forum)",
         .place = "answer",
         .kind = Kind::Numerics,
         .expected = 0.96707029542400250809,
         .got = find_zero(0.0, 2.0, [](double x) { return x * x * x + 2.0 * x - 5.0 * cosine(x); }),
         .tolerance = 3e-16});
  check({.what = "root of x^3 = arctan x",
         .source = "Newton's method on x^3 = arctan x (homework)",
         .place = "answer, six decimals",
         .kind = Kind::Numerics,
         .expected = 0.902025,
         .got = find_zero(0.1, 3.0, [](double x) { return x * x * x - arctangent(x); }),
         .tolerance = 0.5e-6});
  // Planck's law over the wavelength in metres, at 1 K. A peak's place is good to half the digits.
  const double second_radiation_constant_mk = 6.62607015e-34 * 299792458.0 / 1.380649e-23;
  const double peak = find_peak(1e-3, 1e-2, [&](double wavelength_m) {
    const double x = wavelength_m * 1e3;
    return 1.0 /
           (x * x * x * x * x * exponential_minus_one(second_radiation_constant_mk / wavelength_m));
  });
  check({.what = "Wien's displacement constant, m K: where Planck's law peaks",
         .source = "CODATA 2018",
         .place = "Wien wavelength displacement law constant",
         .kind = Kind::Numerics,
         .expected = 2.897771955e-3,
         .got = peak,
         .tolerance = 1e-9});
}

TEST_CASE("mathematics: a circular curve between two tangents") {
  // Tangents N 65 deg 30' E and S 85 deg 10' E: intersection angle 29 deg 20', radius 249.17 m.
  const double angle = units::radians_from_degrees(29.0 + 20.0 / 60.0);
  const double radius = 249.17;
  TaxiRoute route;
  Leg straight, arc;
  arc.kind = LegKind::Arc;
  arc.radius_m = radius;
  arc.turn_rad = angle;
  route.legs.push(straight);
  route.legs.push(arc);
  route.legs.push(straight);
  const PaintedLine line = painted_line(route, 1);
  const LinePoint end = line_at(line, radius * angle);
  const LinePoint middle = line_at(line, 0.5 * radius * angle);
  const double chord = hypotenuse(end.point.x_m, end.point.y_m);
  check({.what = "long chord, m",
         .source = kSurveying,
         .place = "situation 1, 2",
         .kind = Kind::Numerics,
         .expected = 126.1773,
         .got = chord,
         .tolerance = 0.5e-4});
  // The middle of the chord, seen from the curve: along its normal at the middle.
  const Point half_chord = ahead_of({0.0, 0.0}, 0.5 * angle, 0.5 * chord);
  const Point ordinate = beside(middle.point, middle.heading_rad, 8.119);
  check({.what = "middle ordinate 8.119 m leads from the curve to the chord, m left over",
         .source = kSurveying,
         .place = "situation 1, 3",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = hypotenuse(ordinate.x_m - half_chord.x_m, ordinate.y_m - half_chord.y_m),
         .tolerance = 0.5e-3});
  // The crossing of the tangents lies T ahead of the begin, on the outbound tangent produced.
  const Point crossing = point_on_body({{0.0, 0.0}, 0.0}, 65.2136, 0.0);
  check({.what = "tangent distance 65.2136 m leads to the outbound tangent, m past it",
         .source = kSurveying,
         .place = "situation 1, 1",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = past_outbound_m(radius, angle, crossing),
         .tolerance = 0.5e-4});
  // External distance, R (sec(I/2) - 1): from the crossing to the curve.
  check({.what = "external distance, m",
         .source = kSurveying,
         .place = "situation 1, 4, E = R (sec(I/2) - 1)",
         .kind = Kind::Numerics,
         .expected = radius * (1.0 / std::cos(0.5 * angle) - 1.0),
         .got = -offset_from_line(line, crossing).offset_m,
         .tolerance = 1e-4});
  check({.what = "curvature along the curve, 1/m",
         .source = kSurveying,
         .place = "situation 1, radius",
         .kind = Kind::Numerics,
         .expected = 1.0 / 249.17,
         .got = line_curvature_pm(line, 60.0),
         .tolerance = 1e-12});
  // Bearings: from N 65 deg 30' E round by 330 deg 40' to the other side is 29 deg 20' back.
  check({.what = "330 deg 40' wrapped, deg",
         .source = kSurveying,
         .place = "situation 1, angle of intersection",
         .kind = Kind::Numerics,
         .expected = -(29.0 + 20.0 / 60.0),
         .got = units::degrees_from_radians(
             wrapped_rad(units::radians_from_degrees(330.0 + 40.0 / 60.0))),
         .tolerance = 1e-12});
  // In the triangle of sides 3, 4 and 5 the tangent of half the angle is 4 / (5 + 3).
  check({.what = "angle of the half angle with tangent 1/2, deg",
         .source = "Triangle of sides 3, 4 and 5, computed apart",
         .place = "sine 4/5",
         .kind = Kind::Own,
         .expected = 53.13010235415598,
         .got = units::degrees_from_radians(angle_of_half_rad(1.0, 2.0)),
         .tolerance = 1e-12});
}
