// Random cases against an outside solver: how many, and how far off at the worst, in one place.
//
//   const int draws = draw_count(2000);          // or as many as TILLERLINE_DRAWS says
//   Worst time, distance;
//   for (int i = 0; i < draws; ++i) …
//   agree_within_1e9("roll: time and distance", {time, distance});
//
// A program that ran such tests says at its very end
//
//   random: N draws, worst error E
//
// N sums the draws that were compared, E is the largest error of all formulas (relative, or against
// the condition of the case, as each test says). tests/run random=all asks for 10 000 draws.
#pragma once

#include <doctest/doctest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <initializer_list>
#include <limits>

#include "worst.hpp"

namespace tillerline::tests {

inline constexpr double kRandomTolerance = 1e-9;

// The usual number of draws of a formula or of one of its strata, unless TILLERLINE_DRAWS sets it.
inline int draw_count(int usual) {
  const char* const text = std::getenv("TILLERLINE_DRAWS");
  const int wanted = text == nullptr ? 0 : std::atoi(text);
  return wanted > 0 ? wanted : usual;
}

// Sums up over the program and prints at its end. With TILLERLINE_DRAWS_LOG set, a line a formula.
class RandomLine {
 public:
  static RandomLine& one() {
    static RandomLine line;
    return line;
  }
  void add(const char* formula, int draws, double error) {
    draws_ += draws;
    error_ = std::max(error_, error);
    if (std::getenv("TILLERLINE_DRAWS_LOG") != nullptr)
      std::printf("  %8d draws, worst error %.1e: %s\n", draws, error, formula);
  }
  RandomLine(const RandomLine&) = delete;
  RandomLine& operator=(const RandomLine&) = delete;

 private:
  RandomLine() = default;
  ~RandomLine() {
    if (draws_ > 0) std::printf("random: %d draws, worst error %.1e\n", draws_, error_);
  }
  int draws_ = 0;
  double error_ = 0.0;
};

// Fails where one of the errors is above 1e-9, or where nothing was drawn. Each draw counts once,
// however many numbers were compared in it.
inline void agree_within_1e9(const char* formula, std::initializer_list<Worst> errors) {
  int draws = std::numeric_limits<int>::max();
  double error = 0.0;
  for (const Worst& worst : errors) {
    CAPTURE(formula);
    CAPTURE(worst.at);
    CHECK(worst.count > 0);
    CHECK(worst.error <= kRandomTolerance);
    draws = std::min(draws, worst.count);
    error = std::max(error, worst.error);
  }
  RandomLine::one().add(formula, draws, error);
}

}  // namespace tillerline::tests
