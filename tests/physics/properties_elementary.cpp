// Properties of the mathematics below the physics: the door to the elementary functions, Carlson's
// Phi, the quadrature, the search for zeros and peaks, units, and the list of fixed size.
#include <doctest/doctest.h>

#include <cmath>
#include <limits>

#include "draws.hpp"
#include "physics/numerics/elementary.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/numerics/quadratic_motion.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/units.hpp"
#include "physics/uncertainty/batch.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;
using namespace tillerline::elementary;

TEST_CASE("property: circular functions add up, mirror and invert") {
  Draws draws(101);
  Worst circle, sum_of_angles, ratio, mirrored, inverse, quadrants;
  for (int i = 0; i < 20000; ++i) {
    const double a = draws.between(-7.0, 7.0);
    const double b = draws.between(-7.0, 7.0);
    circle.note(sine(a) * sine(a) + cosine(a) * cosine(a) - 1.0, i);
    sum_of_angles.note(sine(a + b) - sine(a) * cosine(b) - cosine(a) * sine(b), i);
    sum_of_angles.note(cosine(a + b) - cosine(a) * cosine(b) + sine(a) * sine(b), i);
    ratio.note((tangent(a) * cosine(a) - sine(a)) / (1.0 + std::abs(tangent(a))), i);
    mirrored.note(sine(a) + sine(-a), i);
    mirrored.note(cosine(a) - cosine(-a), i);
    mirrored.note(arctangent(a) + arctangent(-a), i);
    const double small = draws.between(-1.5, 1.5);
    inverse.note(arcsine(sine(small)) - small, i);
    inverse.note(arctangent(tangent(small)) - small, i);
    const double half = draws.between(0.05, 3.09);
    inverse.note(arccosine(cosine(half)) - half, i);
    const double turned = draws.between(-3.14, 3.14);
    const double size = draws.by_size(1e-3, 1e3);
    quadrants.note(arctangent2(size * sine(turned), size * cosine(turned)) - turned, i);
  }
  CHECK(circle.error < 1e-15);
  CHECK(sum_of_angles.error < 5e-15);
  CHECK(ratio.error < 5e-16);
  CHECK(mirrored.error == 0.0);
  CHECK(inverse.error < 1e-13);  // arcsine near its end: condition 14 at 1.5 rad
  CHECK(quadrants.error < 1e-15);
  // What rounding puts outside the range counts as the end of it.
  CHECK(arcsine(1.0 + 1e-15) == arcsine(1.0));
  CHECK(arcsine(-1.0 - 1e-15) == arcsine(-1.0));
  CHECK(arccosine(1.0 + 1e-15) == 0.0);
  CHECK(arccosine(-2.0) == arccosine(-1.0));
}

namespace {

// The upper half of a number's digits (Veltkamp).
double upper_half(double x) {
  const double c = 134217729.0 * x;
  return c - (c - x);
}

// x y less its rounded value, exactly (Dekker, Numerische Mathematik 18, 1971).
double dekker_error(double x, double y) {
  const double x1 = upper_half(x), x2 = x - x1;
  const double y1 = upper_half(y), y2 = y - y1;
  return ((x1 * y1 - x * y) + x1 * y2 + x2 * y1) + x2 * y2;
}

}  // namespace

TEST_CASE("property: exponential, logarithm and roots undo each other") {
  Draws draws(102);
  Worst product, inverse, small, roots, fused, fused_share;
  for (int i = 0; i < 20000; ++i) {
    const double a = draws.between(-20.0, 20.0);
    const double b = draws.between(-20.0, 20.0);
    product.note(exponential(a + b) / (exponential(a) * exponential(b)) - 1.0, i);
    inverse.note(natural_log(exponential(a)) - a, i);
    const double x = draws.by_size(1e-12, 1e6);
    const double y = draws.by_size(1e-6, 1e6);
    product.note((natural_log(x * y) - natural_log(x) - natural_log(y)) / 60.0, i);
    // log(1 + x) keeps what 1 + x would lose: its series for small x, the logarithm for the rest.
    if (x < 1e-5)
      small.note(log_one_plus(x) / (x - 0.5 * x * x + x * x * x / 3.0) - 1.0, i);
    else if (x > 1.0)
      small.note(log_one_plus(x) / natural_log(1.0 + x) - 1.0, i);
    // exp(x) - 1 likewise: each undoes the other, and the negative is the ratio of both.
    const double y20 = std::min(x, 20.0);
    small.note((log_one_plus(exponential_minus_one(y20)) / y20 - 1.0) * 0.2, i);
    small.note(
        (exponential_minus_one(-y20) * exponential(y20) / exponential_minus_one(y20) + 1.0) * 0.2,
        i);
    roots.note(square_root(x) * square_root(x) / x - 1.0, i);
    roots.note(hypotenuse(3.0 * x, 4.0 * x) / (5.0 * x) - 1.0, i);
    roots.note(hypotenuse(x, -y) - hypotenuse(y, x), i);
    product.note(error_complement(0.2 * a) + error_complement(-0.2 * a) - 2.0, i);
    // One rounding: what (x y) lost to its own rounding comes back exactly (Dekker's product).
    const double lost = fused_multiply_add(x, y, -(x * y));
    fused.note((dekker_error(x, y) - lost) / (x * y), i);
    fused_share.note(lost / (x * y), i);
  }
  CHECK(product.error < 1e-14);
  CHECK(inverse.error < 1e-14);
  CHECK(small.error < 5e-16);
  CHECK(roots.error < 1e-15);
  CHECK(fused.error == 0.0);
  CHECK(fused_share.error > 1.0e-16);
  CHECK(fused_share.error < 1.2e-16);
  const double e = 0x1.0p-30;
  CHECK(fused_multiply_add(1.0 + e, 1.0 - e, -1.0) == -0x1.0p-60);
}

TEST_CASE("property: Phi is one growing function across its three forms") {
  Draws draws(103);
  Worst halved, arctan_form;
  for (int i = 0; i < 20000; ++i) {
    const double one_minus_z = draws.coin() ? draws.by_size(1e-9, 1.0) : draws.between(0.9, 1.1);
    const double z = 1.0 - one_minus_z;
    // Landen's step: artanh x = 2 artanh(x / (1 + r)), r = sqrt(1 - x^2).
    const double r = square_root(one_minus_z);
    const double next = (1.0 - r) / (1.0 + r);
    const double by_half = 2.0 / (1.0 + r) * phi(next, 2.0 * r / (1.0 + r));
    halved.note(phi(z, one_minus_z) / by_half - 1.0, i);
    const double x = draws.by_size(0.01, 30.0);
    arctan_form.note(tangent(x * phi(-x * x, 1.0 + x * x)) / x - 1.0, i);
  }
  CHECK(halved.error < 2e-14);
  CHECK(arctan_form.error < 2e-13);  // the tangent near a right angle: condition up to 50
  CHECK(phi(0.0, 1.0) == 1.0);
  double before = phi(-3.0, 4.0);
  for (double z = -2.999; z < 0.999; z += 0.001) {
    const double here = phi(z, 1.0 - z);
    CHECK(here > before);
    before = here;
  }
  // At the changes of form, +-0.06, both forms give the same.
  for (const double z : {0.06, -0.06})
    for (const double step : {1e-12, -1e-12})
      CHECK(phi(z + step, 1.0 - z - step) == doctest::Approx(phi(z, 1.0 - z)).epsilon(1e-12));
}

TEST_CASE("property: the short series of Phi is Phi, and its difference is symmetric") {
  Draws draws(107);
  Worst same, difference, symmetric;
  for (int i = 0; i < 20000; ++i) {
    const double p = draws.between(-0.039, 0.039), z = draws.between(-0.039, 0.039);
    same.note(lane::phi_sum(z) / phi(z, 1.0 - z) - 1.0, i);
    const double d = lane::phi_difference_sum(p, z);
    symmetric.note(lane::phi_difference_sum(z, p) / d - 1.0, i);
    difference.note(lane::phi_sum(z) + d * (p - z) - lane::phi_sum(p), i);
  }
  CHECK(same.error < 1e-15);
  CHECK(symmetric.error < 1e-15);
  CHECK(difference.error < 1e-15);
  // A difference of nothing is the slope: sum n z^(n-1) / (2n + 1).
  CHECK(lane::phi_difference_sum(0.0, 0.0) == 1.0 / 3.0);
  CHECK(lane::phi_sum(0.0) == 1.0);
}

namespace {

// Largest error over the monomials up to `degree`, and the error of the next even one.
template <int N>
void check_degree(const GaussNode (&nodes)[N], double beyond) {
  const int exact_to = 4 * N - 1;
  Worst exact;
  for (int degree = 0; degree <= exact_to; ++degree) {
    const double got =
        gauss_integral(nodes, -0.4, 1.0, [&](double x) { return std::pow(x, degree); });
    const double whole = (1.0 - std::pow(-0.4, degree + 1)) / (degree + 1);
    exact.note(got - whole, degree);
  }
  CAPTURE(exact.at);
  CHECK(exact.error < 1e-15);
  // Remainder for degree 2n: (b - a)^(2n+1) (n!)^4 / ((2n + 1) (2n)!^2), Abramowitz and Stegun
  // 25.4.30.
  const double got =
      gauss_integral(nodes, -1.0, 1.0, [&](double x) { return std::pow(x, exact_to + 1); });
  CHECK(2.0 / (exact_to + 2) - got == doctest::Approx(beyond).epsilon(1e-5));
}

double remainder(int points) {
  double value = std::pow(2.0, 2 * points + 1) / (2 * points + 1);
  for (int i = 1; i <= points; ++i) value *= std::pow(static_cast<double>(i) / (points + i), 2);
  return value;
}

}  // namespace

TEST_CASE("property: quadrature is exact up to its degree and no further") {
  check_degree(kGauss4, remainder(4));
  check_degree(kGauss8, remainder(8));
  Worst twenty;
  for (int degree = 0; degree < 40; ++degree) {
    const double got =
        gauss_integral(kGauss20, -0.5, 1.0, [&](double x) { return std::pow(x, degree); });
    twenty.note(got - (1.0 - std::pow(-0.5, degree + 1)) / (degree + 1), degree);
  }
  CHECK(twenty.error < 2e-15);
  // Turned round it changes sign; two parts make the whole.
  const auto f = [](double x) { return std::exp(x); };
  CHECK(gauss_integral(kGauss8, 2.0, -1.0, f) == -gauss_integral(kGauss8, -1.0, 2.0, f));
  CHECK(gauss_integral(kGauss8, -1.0, 0.3, f) + gauss_integral(kGauss8, 0.3, 2.0, f) ==
        doctest::Approx(std::exp(2.0) - std::exp(-1.0)).epsilon(1e-14));
  CHECK(gauss_integral(kGauss4, 1.5, 1.5, f) == 0.0);
}

TEST_CASE("property: a zero is found inside its bracket whatever the function's shape") {
  Draws draws(104);
  Worst smooth, flat, cliff;
  int most = 0;
  for (int i = 0; i < 2000; ++i) {
    const double zero = draws.between(-5.0, 5.0);
    const double low = zero - draws.by_size(1e-3, 1e3);
    const double high = zero + draws.by_size(1e-3, 1e3);
    const double sign = draws.sign();
    const double curve = draws.by_size(0.01, 10.0);
    int calls = 0;
    const double found = find_zero(low, high, [&](double x) {
      ++calls;
      return sign * std::expm1(std::min(curve * (x - zero), 300.0));
    });
    most = std::max(most, calls);
    smooth.note((found - zero) / std::max(1.0, std::abs(zero)), i);
    // A triple zero: the function itself vanishes to rounding within 1e-5 of it.
    const double triple = find_zero(low, high, [&](double x) {
      const double d = x - zero;
      return sign * d * d * d;
    });
    flat.note((triple - zero) / (high - low), i);
    // A step, infinite on one side.
    const double step = find_zero(low, high, [&](double x) {
      return x < zero ? -1.0 : std::numeric_limits<double>::infinity();
    });
    cliff.note((step - zero) / std::max(1.0, std::abs(zero)), i);
  }
  CHECK(smooth.error < 2e-15);
  CHECK(flat.error < 1e-9);
  CHECK(cliff.error < 2e-15);
  CHECK(most <= 202);
  // An end that is the zero is returned as it is.
  CHECK(find_zero(1.0, 2.0, [](double x) { return x - 1.0; }) == 1.0);
  CHECK(find_zero(1.0, 2.0, [](double x) { return x - 2.0; }) == 2.0);
  CHECK(find_zero(-1.0, 1.0, [](double x) { return x; }) == 0.0);
  CHECK(find_zero(1.0, std::nextafter(1.0, 2.0), [](double x) { return x > 1.0 ? 1.0 : -1.0; }) ==
        1.0);
  // Between neighbours there is nothing: the even one of the two, whichever side it is on.
  const double one_up = std::nextafter(1.0, 2.0);
  const double two_up = std::nextafter(one_up, 2.0);
  CHECK(find_zero(one_up, two_up, [&](double x) { return x > one_up ? 1.0 : -1.0; }) == two_up);
}

TEST_CASE("property: a zero is found also where the function is infinite at an end") {
  const double infinity = std::numeric_limits<double>::infinity();
  for (const double sign : {1.0, -1.0}) {
    CAPTURE(sign);
    const auto from_pole = [&](double x) {
      return x == 0.0 ? sign * infinity : sign * (1.0 / x - 2.0);
    };
    CHECK(find_zero(0.0, 3.0, from_pole) == doctest::Approx(0.5).epsilon(1e-15));
    const auto to_pole = [&](double x) { return from_pole(3.0 - x); };
    CHECK(find_zero(0.0, 3.0, to_pole) == doctest::Approx(2.5).epsilon(1e-15));
  }
}

TEST_CASE("property: a peak at the end of a wide range is found to the sixty steps it is given") {
  // 0.618^60 of the width.
  CHECK(std::abs(find_peak(0.0, 1e6, [](double x) { return -x; })) < 1e6 * 3e-13);
}

TEST_CASE("property: a peak moves with its function") {
  Draws draws(105);
  Worst inside, ends;
  for (int i = 0; i < 2000; ++i) {
    const double peak = draws.between(-50.0, 50.0);
    const double low = peak - draws.by_size(0.1, 100.0);
    const double high = peak + draws.by_size(0.1, 100.0);
    const double width = draws.by_size(0.1, 100.0);
    const double height = draws.between(-10.0, 10.0);
    // A peak is flat: half the digits of the value are all that its place has.
    const double found = find_peak(low, high, [&](double x) {
      const double d = (x - peak) / width;
      return height - d * d;
    });
    inside.note((found - peak) / (width * std::sqrt(1.0 + std::abs(height)) + 1.0 + std::abs(high)),
                i);
    ends.note((find_peak(low, high, [](double x) { return x; }) - high) / (1.0 + std::abs(high)),
              i);
    ends.note((find_peak(low, high, [](double x) { return -x; }) - low) / (1.0 + std::abs(high)),
              i);
  }
  CHECK(inside.error < 1e-7);
  CHECK(ends.error < 1e-7);  // the kept points drift from the golden section
}

TEST_CASE("property: units there and back, and by their definitions") {
  Draws draws(106);
  Worst back;
  for (int i = 0; i < 1000; ++i) {
    const double x = draws.between(-400.0, 400.0);
    back.note(units::celsius_from_kelvin(units::kelvin_from_celsius(x)) - x, i);
    back.note((units::knots_from_mps(units::mps_from_knots(x)) - x) / 400.0, i);
    back.note((units::degrees_from_radians(units::radians_from_degrees(x)) - x) / 400.0, i);
  }
  CHECK(back.error < 1e-13);
  CHECK(units::mps_from_knots(3600.0) == doctest::Approx(1852.0).epsilon(1e-15));
  CHECK(units::radians_from_degrees(180.0) == doctest::Approx(std::acos(-1.0)).epsilon(1e-15));
  CHECK(units::kelvin_from_celsius(-273.15) == 0.0);
}

TEST_CASE("property: a full list keeps what it has and counts what it drops") {
  FixedList<int, 3> list;
  CHECK(list.empty());
  for (int i = 0; i < 5; ++i) list.push(i);
  CHECK(list.full());
  CHECK(list.size() == 3);
  CHECK(list.dropped == 2);
  CHECK(list.back() == 2);
  int sum = 0;
  for (const int item : list) sum += item;
  CHECK(sum == 3);
  list.clear();
  CHECK(list.empty());
  CHECK(list.dropped == 0);
}

// a = (8 - v)^2 / 64, a double root, all of it exact in binary: t = 64 [1/(8 - v1) - 1/8] and
// s = 64 [8/(8 - v) + ln(8 - v)] between the two. Close to the root, where S cancels.
TEST_CASE("property: up to a double root, where the discriminant is nothing at all") {
  const QuadraticMotion m{.a_mps2 = 1.0, .b_ps = -0.25, .c_pm = 1.0 / 64.0};
  for (const double short_mps : {4.0, 0.5, 0.125, 0x1p-7, 0x1p-12}) {
    CAPTURE(short_mps);
    const Passage p = passage(m, 0.0, 8.0 - short_mps);
    REQUIRE(p.reached);
    CHECK(p.time_s == doctest::Approx(64.0 * (1.0 / short_mps - 0.125)).epsilon(1e-12));
    CHECK(
        p.distance_m ==
        doctest::Approx(64.0 * (8.0 / short_mps - 1.0 + std::log(short_mps / 8.0))).epsilon(1e-11));
  }
  CHECK_FALSE(passage(m, 0.0, 8.0).reached);
}
