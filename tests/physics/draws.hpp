// Random inputs that are the same on every machine: a fixed seed and plain arithmetic.
//
// (The distributions of the standard library may differ from one library to the next.)
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

namespace tillerline::tests {

class Draws {
 public:
  explicit Draws(std::uint64_t seed) : engine_(seed) {}

  // Evenly between the two.
  double between(double lowest, double highest) {
    const double unit = static_cast<double>(engine_() >> 11) * 0x1.0p-53;
    return lowest + (highest - lowest) * unit;
  }
  // Evenly in the logarithm; both positive.
  double by_size(double lowest, double highest) {
    return std::exp(between(std::log(lowest), std::log(highest)));
  }
  // 0 to count - 1.
  int below(int count) { return static_cast<int>(engine_() % static_cast<std::uint64_t>(count)); }
  bool coin() { return (engine_() >> 40 & 1u) != 0; }
  double sign() { return coin() ? 1.0 : -1.0; }

 private:
  std::mt19937_64 engine_;
};

}  // namespace tillerline::tests
