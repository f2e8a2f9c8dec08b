// When the brakes are not all alike: inoperative, uneven and dragging ones.
//
// All braking work is shared by the brakes that work. One of them, the worst, may take more than
// its even share: (1 + x) / n with n working brakes, never more than all of it. Causes of x are
// uneven wear, tyre pressures and valve settings; no published figure was found, it is an input.
// The others' mean is taken as 1/n still: cautious, by x / (n - 1) of it.
//
// A dragging brake holds its wheel with a steady force F whenever it rolls: F x distance goes into
// it besides, and it is taken to be the worst one. The roll feels F too (roll.hpp).
// Valid for at least one working brake and x >= 0.
#pragma once

#include "physics/given/brief.hpp"

namespace tillerline {

// Which share of all braking work the mean working brake and the worst brake take.
struct BrakeShares {
  int working = 0;
  double mean_share = 0.0;        // 1 / working
  double worst_share = 0.0;       // (1 + worst_brake_extra) / working, at most 1
  double dragging_force_n = 0.0;  // steady, on the worst brake
};
BrakeShares brake_shares(const Aircraft& aircraft, const Condition& condition);

}  // namespace tillerline
