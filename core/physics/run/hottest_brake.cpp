#include "physics/run/hottest_brake.hpp"

#include <algorithm>

#include "physics/run/brake_walk.hpp"

namespace tillerline {

HighestReading highest_reading(const Today& today, const BrakeState& at_stop) {
  if (today.limits.brake_reading == BrakeReading::HeatPack) return {at_stop.pack_k, 0.0};
  return highest_indication(today.pack, today.probe, at_stop);
}

HottestBrake hottest_brake(const Today& today, const BrakeState& start, const RouteRun& run) {
  const BrakeReading reading = today.limits.brake_reading;
  const BrakeSurroundings around{today.pack, today.probe};
  HottestBrake hottest;
  hottest.start = start;
  hottest.on_way_k = start.read_k(reading);
  WalkingBrake brake = WalkingBrake::worst(today, start);
  for (const Piece& piece : run.pieces) {
    brake.take(around, BrakeStep::of(piece));
    hottest.on_way_k = std::max(hottest.on_way_k, brake.now.read_k(reading));
  }
  hottest.at_stop = brake.now;
  const HighestReading highest = highest_reading(today, brake.now);
  hottest.highest_k = highest.read_k;
  hottest.highest_s = highest.after_s;
  return hottest;
}

}  // namespace tillerline
