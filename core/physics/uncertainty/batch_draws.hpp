// One block of draws: the uncertain inputs of 64 taxis, and the forces they give.
//
// Each unknown is drawn within its band (bands.hpp) from one coordinate of a low-discrepancy point:
// triangular, most likely at the nominal value.
#pragma once

#include <cstdint>

#include "physics/given/bands.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/today.hpp"
#include "physics/uncertainty/batch_roll.hpp"
#include "physics/uncertainty/batch_slopes.hpp"

namespace tillerline {

// Factors of the nominal value; for slope, wind, brakes now and overtaken thrust what is added, SI.
struct DrawBlock {
  Lanes of[kUnknowns];
  const OwnSlopes* slopes = nullptr;  // null: the slope of every leg is surveyed

  const Lanes& operator[](Unknown unknown) const { return of[static_cast<int>(unknown)]; }
  // What is added to the slope of a leg.
  const Lanes& slope_on(int leg) const {
    const bool own = slopes != nullptr && slopes->own[leg];
    return own ? slopes->off_rad[leg] : (*this)[Unknown::Slope];
  }
};

const Band& band_of(const Bands& bands, Unknown unknown);

// Points 64 block to 64 block + 63, coordinates from `first_dimension` on, with that seed.
void draw_block(const Bands& bands, int block, int first_dimension, std::uint64_t seed,
                DrawBlock& draws);

// The draws from which every answer is made: samples A and B of sobol_index.hpp in turn.
inline constexpr int kDraws = 1024;
inline constexpr int kDrawBlocks = kDraws / kLanes;

// Block `block` of them, 0 to kDrawBlocks - 1: the same for the same bands, whoever asks. Without
// slopes of their own.
void answer_block(const Bands& bands, int block, DrawBlock& draws);

// All that the draws of an answer take of the slopes that are not surveyed.
struct AnswerSlopes {
  OwnSlopes blocks[kDrawBlocks];
};
// Fills it and puts it into the draws, where some leg is not surveyed.
void give_slopes(const SlopeLaw& law, int block, AnswerSlopes& slopes, DrawBlock& draws);

// Every lane the nominal taxi.
DrawBlock nominal_block();

// Drag of a turn over the factor by which the cornering stiffness is off: the parabola through the
// nominal one and the ends of the band. Grows with the mass besides.
struct Scrub {
  double nominal_n = 0.0;
  double slope_n = 0.0;
  double curve_n = 0.0;

  double at(double factor) const {
    const double e = factor - 1.0;
    return nominal_n + e * (slope_n + e * curve_n);
  }
};

// The scrub of every leg; zero on straights.
struct Scrubs {
  Scrub of[kMaxLegs];
};
Scrubs scrubs_of(const Today& today, const Bands& bands, const Turns& turns);

// The nominal forces on a leg as drawn.
BatchForces forces_in(const RollForces& nominal, const Scrub& scrub, const DrawBlock& draws,
                      int leg);

}  // namespace tillerline
