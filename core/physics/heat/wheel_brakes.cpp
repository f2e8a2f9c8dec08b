#include "physics/heat/wheel_brakes.hpp"

#include <algorithm>

namespace tillerline {

BrakeShares brake_shares(const Aircraft& aircraft, const Condition& condition) {
  BrakeShares shares;
  shares.working = aircraft.brake_count - condition.brakes_inoperative;
  shares.mean_share = 1.0 / shares.working;
  shares.worst_share = std::min(1.0, (1.0 + condition.worst_brake_extra) * shares.mean_share);
  shares.dragging_force_n = condition.dragging_brake_n;
  return shares;
}

}  // namespace tillerline
