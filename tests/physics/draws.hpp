// Random inputs that are the same on every machine: a fixed seed and plain arithmetic.
//
// (The distributions of the standard library may differ from one library to the next.)
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <random>

namespace tillerline::tests {

// How many draws a property is tried on: as usual, or in proportion to TILLERLINE_DRAWS, of which
// 2000 is usual. (Where every draw is slow, by sanitizers or for each of many mutants.)
inline int scaled_draws(int usual) {
  const char* const text = std::getenv("TILLERLINE_DRAWS");
  const int wanted = text == nullptr ? 0 : std::atoi(text);
  return wanted > 0 && wanted < 2000 ? std::max(10, usual * wanted / 2000) : usual;
}

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
