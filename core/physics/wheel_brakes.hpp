// When the brakes are not all alike: inoperative, uneven and dragging ones.
#pragma once

#include "physics/brief.hpp"

namespace tillerline {

// Which share of all braking work the mean working brake and the worst brake take.
struct BrakeShares {
  int working = 0;
  double mean_share = 0.0;        // 1 / working
  double worst_share = 0.0;       // (1 + worst_brake_extra) / working
  double dragging_force_n = 0.0;  // steady, on the worst brake
};
BrakeShares brake_shares(const Aircraft& aircraft, const Condition& condition);

}  // namespace tillerline
