// Names of what is drawn, as numbers, so that nothing is built for them in a frame.
#pragma once

#include <string_view>

namespace tillerline {

using Id = unsigned;

// FNV-1a; `seed` tells equal names in different places apart.
constexpr Id make_id(std::string_view name, Id seed = 2166136261u) {
  Id hash = seed;
  for (const char c : name) hash = (hash ^ static_cast<unsigned char>(c)) * 16777619u;
  return hash;
}

// An id from two parts, without building a string.
constexpr Id part_id(std::string_view name, std::string_view detail) {
  return make_id(detail, make_id(name));
}

}  // namespace tillerline
