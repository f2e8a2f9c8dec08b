// The largest error over many draws, so that a test asserts once and can say where it was.
#pragma once

#include <cmath>
#include <limits>

namespace tillerline::tests {

struct Worst {
  double error = 0.0;
  int at = -1;
  int count = 0;

  // A NaN counts as infinitely wrong.
  void note(double value, int draw) {
    ++count;
    if (!(std::abs(value) <= error)) {
      error = std::isnan(value) ? std::numeric_limits<double>::infinity() : std::abs(value);
      at = draw;
    }
  }
};

}  // namespace tillerline::tests
