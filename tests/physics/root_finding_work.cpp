// The searches for a zero and for a peak: how much work they take, and what they do at their edges.
#include <doctest/doctest.h>

#include <cmath>
#include <initializer_list>
#include <limits>

#include "physics/numerics/root_finding.hpp"

using namespace tillerline;

TEST_CASE("root finding: a straight line takes one step, and the bracket's ends none") {
  int calls = 0;
  const auto line = [&](double x) {
    ++calls;
    return 3.0 * x - 1.5;
  };
  CHECK(find_zero(0.0, 2.0, line) == 0.5);
  CHECK(calls == 3);
  calls = 0;
  CHECK(find_zero(0.5, 2.0, line) == 0.5);
  CHECK(find_zero(-1.0, 0.5, line) == 0.5);
  CHECK(calls == 4);
}

TEST_CASE("root finding: a value without bounds at either end is stepped over") {
  constexpr double kEndless = std::numeric_limits<double>::infinity();
  const auto pole_at_0 = [&](double x) { return x == 0.0 ? -kEndless : 1.0 - 1.0 / x; };
  CHECK(find_zero(0.0, 4.0, pole_at_0) == doctest::Approx(1.0).epsilon(1e-14));
  const auto pole_at_4 = [&](double x) { return x == 4.0 ? kEndless : 1.0 / (4.0 - x) - 1.0; };
  CHECK(find_zero(0.5, 4.0, pole_at_4) == doctest::Approx(3.0).epsilon(1e-14));
}

TEST_CASE("root finding: a peak is found on either side of zero, with work that its place bounds") {
  for (const double place : {-700.0, -0.3, 0.0, 0.4, 700.0}) {
    int calls = 0;
    const double found = find_peak(place - 300.0, place + 500.0, [&](double x) {
      ++calls;
      return -std::fabs(x - place);
    });
    // Golden section: each call but the first leaves 0.618 of the bracket, down to 1e-9 (1 + |x|).
    const double last = 1e-9 * (1.0 + std::fabs(place));
    const double needed = std::log(800.0 / last) / std::log(1.0 / 0.61803398874989485);
    CHECK(std::fabs(found - place) <= last);
    CHECK(calls <= static_cast<int>(std::ceil(needed)) + 3);
    CHECK(calls >= static_cast<int>(std::floor(needed)));
  }
}
