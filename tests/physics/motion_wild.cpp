// The quadratic motion far outside what an aircraft does, so that every form of its one formula is
// used: two parts of a way take as long, and are as long, as the way in one.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "draws.hpp"
#include "physics/numerics/quadratic_motion.hpp"
#include "worst.hpp"

using namespace tillerline;
using namespace tillerline::tests;

namespace {

// Largest over smallest acceleration on the way; what the result may lose of its digits.
double spread(const QuadraticMotion& m, double v0, double v1) {
  double least = HUGE_VAL, most = 0.0;
  for (int k = 0; k <= 200; ++k) {
    const double a = std::abs(acceleration_mps2(m, v0 + (v1 - v0) * k / 200.0));
    least = std::min(least, a);
    most = std::max(most, a);
  }
  return most / least;
}

}  // namespace

TEST_CASE("quadratic motion: a way in two parts is the way in one, whatever the coefficients") {
  Draws draws(20260110);
  Worst time, distance;
  for (int i = 0; i < 40000; ++i) {
    const QuadraticMotion m{draws.sign() * draws.by_size(1e-3, 10.0),
                            draws.coin() ? 0.0 : draws.sign() * draws.by_size(1e-4, 10.0),
                            draws.sign() * draws.by_size(1e-5, 1.0)};
    const double v0 = draws.below(4) == 0 ? 0.0 : draws.between(0.0, 60.0);
    const double v2 = draws.below(4) == 0 ? 0.0 : draws.between(0.0, 60.0);
    const double v1 = v0 + (v2 - v0) * draws.between(0.1, 0.9);
    const Passage whole = passage(m, v0, v2);
    if (!whole.reached || std::abs(v2 - v0) < 1e-3) continue;
    const double loss = spread(m, v0, v2);
    if (loss > 1e4) continue;
    const Passage first = passage(m, v0, v1), second = passage(m, v1, v2);
    CHECK(first.reached);
    CHECK(second.reached);
    time.note(((first.time_s + second.time_s) / whole.time_s - 1.0) / loss, i);
    distance.note(((first.distance_m + second.distance_m) / whole.distance_m - 1.0) / loss, i);
  }
  CAPTURE(time.at);
  CHECK(time.error < 1e-12);
  CAPTURE(distance.at);
  CHECK(distance.error < 1e-12);
  CHECK(time.count > 8000);
}
