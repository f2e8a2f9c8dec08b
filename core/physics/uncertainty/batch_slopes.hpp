// What the slopes of the legs are off by in one block of draws, where they are not surveyed.
//
// The law of slope_errors.hpp with z_i and the guesses drawn from triangles, each from a stream of
// its own (latin_draw). All of it is the one unknown Slope: samples A and B of sobol_index.hpp each
// have their own, so that its index is that of the group.
#pragma once

#include "physics/given/taxi_route.hpp"
#include "physics/uncertainty/batch.hpp"
#include "physics/uncertainty/slope_errors.hpp"

namespace tillerline {

struct OwnSlopes {
  bool own[kMaxLegs] = {};  // false: surveyed, off by the unknown that all such legs share
  Lanes off_rad[kMaxLegs];
};

// Block `block` of the answer's draws (batch_draws.hpp).
void own_slopes(const SlopeLaw& law, int block, OwnSlopes& slopes);

}  // namespace tillerline
