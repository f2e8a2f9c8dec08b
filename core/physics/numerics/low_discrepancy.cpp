#include "physics/numerics/low_discrepancy.hpp"

#include <cmath>

namespace tillerline {
namespace {

constexpr int kBits = 32;
constexpr int kMostDegree = 7;

// Row of the table: degree s of the primitive polynomial, its inner coefficients a as a number,
// and the first s direction integers m.
struct Polynomial {
  int degree;
  unsigned inner;
  unsigned m[kMostDegree];
};

// Dimensions 2 to 24; the first is van der Corput's sequence in base 2.
constexpr Polynomial kJoeKuo[kSobolDimensions - 1] = {
    {1, 0, {1}},
    {2, 1, {1, 3}},
    {3, 1, {1, 3, 1}},
    {3, 2, {1, 1, 1}},
    {4, 1, {1, 1, 3, 3}},
    {4, 4, {1, 3, 5, 13}},
    {5, 2, {1, 1, 5, 5, 17}},
    {5, 4, {1, 1, 5, 5, 5}},
    {5, 7, {1, 1, 7, 11, 19}},
    {5, 11, {1, 1, 5, 1, 1}},
    {5, 13, {1, 1, 1, 3, 11}},
    {5, 14, {1, 3, 5, 5, 31}},
    {6, 1, {1, 3, 3, 9, 7, 49}},
    {6, 13, {1, 1, 1, 15, 21, 21}},
    {6, 16, {1, 3, 1, 13, 27, 49}},
    {6, 19, {1, 1, 1, 15, 7, 5}},
    {6, 22, {1, 3, 1, 15, 13, 25}},
    {6, 25, {1, 1, 5, 5, 19, 61}},
    {7, 1, {1, 3, 7, 11, 23, 15, 103}},
    {7, 4, {1, 3, 7, 13, 13, 15, 69}},
    {7, 7, {1, 1, 3, 13, 7, 35, 63}},
    {7, 8, {1, 3, 5, 9, 1, 25, 53}},
    {7, 14, {1, 3, 1, 13, 9, 35, 107}},
};

struct Directions {
  std::uint32_t v[kSobolDimensions][kBits] = {};
};

// v_k = m_k 2^(32-k) for the first s; after that the polynomial's recurrence
//   v_k = a_1 v_(k-1) ^ ... ^ a_(s-1) v_(k-s+1) ^ v_(k-s) ^ (v_(k-s) >> s).
consteval Directions directions() {
  Directions d;
  for (int k = 0; k < kBits; ++k) d.v[0][k] = std::uint32_t{1} << (kBits - 1 - k);
  for (int j = 1; j < kSobolDimensions; ++j) {
    const Polynomial& p = kJoeKuo[j - 1];
    for (int k = 0; k < kBits; ++k) {
      if (k < p.degree) {
        d.v[j][k] = std::uint32_t{p.m[k]} << (kBits - 1 - k);
        continue;
      }
      std::uint32_t value = d.v[j][k - p.degree] ^ (d.v[j][k - p.degree] >> p.degree);
      for (int i = 1; i < p.degree; ++i)
        if ((p.inner >> (p.degree - 1 - i) & 1u) != 0) value ^= d.v[j][k - i];
      d.v[j][k] = value;
    }
  }
  return d;
}

constexpr Directions kDirections = directions();

// Steele, Lea and Flood's mixing of a counter (SplitMix64, 2014).
std::uint64_t mixed(std::uint64_t x) {
  x += 0x9e3779b97f4a7c15u;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
  return x ^ (x >> 31);
}

}  // namespace

std::uint32_t sobol_bits(std::uint32_t index, int dimension) {
  std::uint32_t gray = index ^ (index >> 1);
  std::uint32_t bits = 0;
  for (int k = 0; gray != 0; ++k, gray >>= 1)
    if ((gray & 1u) != 0) bits ^= kDirections.v[dimension][k];
  return bits;
}

double shifted_sobol(std::uint32_t index, int dimension, std::uint64_t seed) {
  constexpr int kBelow = kBits - kSobolCellBits;
  const std::uint64_t random = mixed(mixed(seed) + static_cast<std::uint64_t>(dimension));
  const std::uint32_t leading = static_cast<std::uint32_t>(random >> 32) >> kBelow << kBelow;
  constexpr std::uint32_t kMiddle = std::uint32_t{1} << (kBelow - 1);
  return static_cast<double>(sobol_bits(index, dimension) ^ leading ^ kMiddle) * 0x1.0p-32;
}

double latin_draw(std::uint32_t index, int stream, std::uint64_t seed) {
  constexpr std::uint32_t kCells = std::uint32_t{1} << kSobolCellBits;
  std::uint64_t random = mixed(mixed(seed) + static_cast<std::uint64_t>(stream));
  std::uint32_t cell = index;
  // Each step can be undone, so that no two points share a cell: times an odd number, moved on,
  // and the upper half mixed into the lower.
  for (int round = 0; round < 3; ++round) {
    const auto odd = static_cast<std::uint32_t>(random) | 1u;
    const auto on = static_cast<std::uint32_t>(random >> 32);
    cell = (cell * odd + on) % kCells;
    cell ^= cell >> (kSobolCellBits / 2 + 1);
    random = mixed(random);
  }
  return (cell + 0.5) / kCells;
}

double triangular(double even, double below, double above) {
  const double wide = below + above;
  if (!(wide > 0.0)) return 0.0;
  return even * wide < below ? std::sqrt(even * wide * below) - below
                             : above - std::sqrt((1.0 - even) * wide * above);
}

}  // namespace tillerline
