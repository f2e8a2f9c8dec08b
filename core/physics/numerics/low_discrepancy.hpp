// Points that fill a cube evenly: a Sobol' sequence with a fixed seed, and what is drawn with it.
//
// Sobol' (1967) in the order of Gray codes (Antonov and Saleev, 1979) with the primitive
// polynomials and direction numbers of Joe and Kuo (SIAM Journal on Scientific Computing 30, 2008,
// 2635-2654, the set "new-joe-kuo-6"), as far as 24 dimensions: point n, coordinate j, is the
// exclusive or of the direction numbers v_jk over the bits k of n xor n/2. The first 2^m points
// have one coordinate in each of 2^m equal cells, in every dimension.
//
// The seed is a digital shift: every coordinate's leading 9 bits are flipped alike, and what is
// below is put in the middle of the cell. It keeps that property for 2^m points up to 2^9, takes
// away the corner point, and leaves 2^9 points without bias along any axis.
//
// Where more unknowns are drawn than the sequence has dimensions: a Latin hypercube (McKay, Beckman
// and Conover, Technometrics 21, 1979, 239-245) of 2^9 points, each stream a permutation of the
// cells of its own. One point in each cell of every stream; pairs of streams are as if random.
//
// Integers only: the same on every machine.
#pragma once

#include <cstdint>

namespace tillerline {

inline constexpr int kSobolDimensions = 24;
inline constexpr int kSobolCellBits = 9;

// Coordinate 0 <= dimension < kSobolDimensions of a point of the plain sequence, times 2^32.
std::uint32_t sobol_bits(std::uint32_t index, int dimension);

// The same with the shift of a seed, in the open interval (0, 1); index < 2^kSobolCellBits.
double shifted_sobol(std::uint32_t index, int dimension, std::uint64_t seed);

// The middle of the cell that point `index` < 2^kSobolCellBits has in a stream, in (0, 1).
double latin_draw(std::uint32_t index, int stream, std::uint64_t seed);

// From an even draw p in (0, 1) to one from a triangle on [-b, a] with its peak at 0, b and a not
// negative: with c = a + b it lies below the peak for p < b/c, at sqrt(p c b) - b; else at
// a - sqrt((1 - p) c a). 0 where c is 0.
double triangular(double even, double below, double above);

}  // namespace tillerline
