// Numbers as they stand in documents: the shortest form that reads back to the same bits.
#pragma once

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <type_traits>

#include "documents/json_text.hpp"
#include "documents/number_spec.hpp"

namespace tillerline {

inline Json json_number(double value) {
  if (value == std::floor(value) && std::fabs(value) < 1e15) {
    return static_cast<std::int64_t>(value);
  }
  return value;
}

// A field's value went through SI, so that 20 kt may have become 19.999999999999996 kt. Of all
// numbers that give the same bits in SI, the one with the fewest digits is written.
template <class Holder>
Json number_json(const NumberOf<Holder>& field, const Holder& holder) {
  static_assert(std::is_trivially_copyable_v<Holder>);
  Holder trial;
  // A copy of all bytes, so that padding between members does not disturb the comparison.
  std::memcpy(static_cast<void*>(&trial), &holder, sizeof holder);
  const auto same = [&](double candidate) {
    field.set(trial, candidate);
    // The same bits are what is asked for, not equal values.
    // NOLINTNEXTLINE(bugprone-suspicious-memory-comparison)
    return std::memcmp(&trial, &holder, sizeof holder) == 0;
  };
  const double value = field.get(holder);
  char text[40];
  for (int digits = 1; digits <= 17; ++digits) {
    std::snprintf(text, sizeof text, "%.*g", digits, value);
    const double candidate = std::strtod(text, nullptr);
    if (same(candidate)) return json_number(candidate);
  }
  double above = value;
  double below = value;
  for (int step = 0; step < 4; ++step) {
    above = std::nextafter(above, HUGE_VAL);
    below = std::nextafter(below, -HUGE_VAL);
    if (same(above)) return above;
    if (same(below)) return below;
  }
  return value;
}

}  // namespace tillerline
