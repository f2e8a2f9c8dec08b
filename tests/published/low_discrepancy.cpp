// Sobol' points against the authors' own generator; triangular distributions against handbooks.
#include "physics/numerics/low_discrepancy.hpp"

#include <doctest/doctest.h>

#include <cmath>
#include <cstdint>

#include "published.hpp"

using namespace tillerline;
using published::check;
using published::Kind;

namespace {

constexpr const char* kJoeKuo = "Joe and Kuo, Sobol' generator with new-joe-kuo-6.21201";
constexpr const char* kGum = "JCGM 100:2008 (GUM)";
constexpr const char* kForbes =
    "Forbes, Evans, Hastings, Peacock, Statistical Distributions, 4th ed.";
constexpr const char* kScipy = "SciPy 1.7 documentation and tests, stats.qmc.Sobol unscrambled";

double point(std::uint32_t index, int dimension) { return sobol_bits(index, dimension) * 0x1p-32; }

// Mean and variance of what is drawn from the middles of even cells.
struct Moments {
  double mean = 0.0;
  double variance = 0.0;
};
template <class Draw>
Moments moments(Draw&& draw) {
  constexpr std::uint32_t kCount = 1u << kSobolCellBits;
  Moments m;
  for (std::uint32_t n = 0; n < kCount; ++n) m.mean += draw(shifted_sobol(n, 4, 3)) / kCount;
  for (std::uint32_t n = 0; n < kCount; ++n) {
    const double off = draw(shifted_sobol(n, 4, 3)) - m.mean;
    m.variance += off * off / kCount;
  }
  return m;
}

}  // namespace

TEST_CASE("points: the authors' first ten in three dimensions") {
  constexpr double kRows[10][3] = {{0.0, 0.0, 0.0},          {0.5, 0.5, 0.5},
                                   {0.75, 0.25, 0.25},       {0.25, 0.75, 0.75},
                                   {0.375, 0.375, 0.625},    {0.875, 0.875, 0.125},
                                   {0.625, 0.125, 0.875},    {0.125, 0.625, 0.375},
                                   {0.1875, 0.3125, 0.9375}, {0.6875, 0.8125, 0.4375}};
  for (int n = 4; n < 10; ++n)
    for (int j = 1; j < 3; ++j)
      check({.what = "coordinate of a Sobol' point",
             .source = kJoeKuo,
             .place = "10 points in 3 dimensions, as printed; exact",
             .kind = Kind::Numerics,
             .expected = kRows[n][j],
             .got = point(static_cast<std::uint32_t>(n), j),
             .tolerance = 0.0});
  // The third point in ten dimensions.
  constexpr double kThird[10] = {0.75, 0.25, 0.25, 0.25, 0.75, 0.75, 0.25, 0.75, 0.75, 0.75};
  for (int j = 3; j < 10; ++j)
    check({.what = "coordinate of the third Sobol' point",
           .source = kJoeKuo,
           .place = "3 points in 10 dimensions, as printed; exact",
           .kind = Kind::Numerics,
           .expected = kThird[j],
           .got = point(2, j),
           .tolerance = 0.0});
  check({.what = "first coordinate of the fifth point",
         .source = kScipy,
         .place = "first eight points in two dimensions; exact",
         .kind = Kind::Own,
         .expected = 0.375,
         .got = point(4, 0),
         .tolerance = 0.0});
}

TEST_CASE("triangles: means, variances and quantiles") {
  // 512 even cells stand for the integral: off by less than (1/512)^1.5 at the ends' corners.
  constexpr double kCells = 1e-4;
  check({.what = "standard deviation of a symmetric triangle over its half width",
         .source = kGum,
         .place = "4.3.9, u^2 = a^2/6",
         .kind = Kind::Numerics,
         .expected = 1.0 / std::sqrt(6.0),
         .got = std::sqrt(moments([](double even) { return triangular(even, 1.0, 1.0); }).variance),
         .tolerance = kCells});
  check({.what = "mean of a symmetric triangle",
         .source = kGum,
         .place = "4.3.9",
         .kind = Kind::Numerics,
         .expected = 0.0,
         .got = moments([](double even) { return triangular(even, 1.0, 1.0); }).mean,
         .tolerance = 1e-15});
  const Moments rising = moments([](double even) { return 1.0 + triangular(even, 1.0, 0.0); });
  check({.what = "mean of a triangle that rises from 0 to 1",
         .source = kForbes,
         .place = "triangular: mean (a + b + c)/3",
         .kind = Kind::Own,
         .expected = 2.0 / 3.0,
         .got = rising.mean,
         .tolerance = kCells});
  check({.what = "variance of a triangle that rises from 0 to 1",
         .source = kForbes,
         .place = "triangular: (a^2 + b^2 + c^2 - ab - ac - bc)/18",
         .kind = Kind::Own,
         .expected = 1.0 / 18.0,
         .got = rising.variance,
         .tolerance = kCells});
  check({.what = "median of a triangle that rises from 0 to 1",
         .source = kForbes,
         .place = "triangular: a + sqrt((b - a)(c - a)/2)",
         .kind = Kind::Own,
         .expected = std::sqrt(0.5),
         .got = 1.0 + triangular(0.5, 1.0, 0.0),
         .tolerance = 1e-15});
  check({.what = "80 % of a symmetric triangle lie within this of the middle",
         .source = "Triangular distribution, computed apart",
         .place = "1 - sqrt(0.2)",
         .kind = Kind::Own,
         .expected = 0.5527864045,
         .got = triangular(0.9, 1.0, 1.0),
         .tolerance = 5e-11});
}
