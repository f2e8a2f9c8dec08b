#include "physics/run/brake_walk.hpp"

#include <algorithm>
#include <cmath>

namespace tillerline {
namespace {

constexpr double kLongestStep_s = 30.0;

// How many equal short steps make this one. With energy at its end it stays whole: the indication
// then rises evenly over its time, as the pack really does in an application.
int short_steps(const BrakeStep& step) {
  if (step.energy_j > 0.0) return 1;
  return std::max(1, static_cast<int>(std::ceil(step.time_s / kLongestStep_s)));
}

}  // namespace

BrakeSurroundings BrakeSurroundings::of(const Today& today, bool fans_on) {
  return {.pack = heat_pack(today.aircraft, today.air.temperature_k, fans_on),
          .probe = brake_probe(today.aircraft, today.air.temperature_k, fans_on)};
}

BrakeStep BrakeStep::of(const Piece& piece) {
  const bool steady = piece.kind == PieceKind::Drag;
  return {.time_s = piece.duration_s,
          .power_w = steady ? piece.brake_energy_j / piece.duration_s : 0.0,
          .energy_j = steady ? 0.0 : piece.brake_energy_j,
          .way_m = piece.length_m};
}

WalkingBrake WalkingBrake::mean(const Today& today, const BrakeState& from) {
  return {.heat_share = today.aircraft.brake_heat_share * today.shares.mean_share, .now = from};
}

WalkingBrake WalkingBrake::worst(const Today& today, const BrakeState& from) {
  const double heats = today.aircraft.brake_heat_share;
  return {.heat_share = heats * today.shares.worst_share,
          .dragging_jpm = heats * today.shares.dragging_force_n,
          .now = from};
}

void WalkingBrake::take_whole(const BrakeSurroundings& around, const BrakeStep& step) {
  double pack_k = now.pack_k;
  if (step.time_s > 0.0) {
    const double power_w = heat_share * step.power_w + dragging_jpm * step.way_m / step.time_s;
    pack_k = temperature_after_time_k(around.pack, pack_k, step.time_s, power_w);
  }
  pack_k = temperature_after_energy_k(around.pack, pack_k, heat_share * step.energy_j);
  now.indicated_k =
      indication_after_k(around.probe, now.indicated_k, now.pack_k, pack_k, step.time_s);
  now.pack_k = pack_k;
}

void WalkingBrake::take(const BrakeSurroundings& around, const BrakeStep& step) {
  const int count = short_steps(step);
  const BrakeStep part{.time_s = step.time_s / count,
                       .power_w = step.power_w,
                       .energy_j = step.energy_j,
                       .way_m = step.way_m / count};
  for (int i = 0; i < count; ++i) take_whole(around, part);
}

BrakeWalk BrakeWalk::begin(const Today& today, const BrakeState& from) {
  return {.mean = WalkingBrake::mean(today, from), .worst = WalkingBrake::worst(today, from)};
}

HeatPoint BrakeWalk::point() const {
  return {.time_s = time_s,
          .mean_k = mean.now.pack_k,
          .worst_k = worst.now.pack_k,
          .indicated_k = worst.now.indicated_k};
}

void BrakeWalk::take(const BrakeSurroundings& around, const BrakeStep& step) {
  mean.take(around, step);
  worst.take(around, step);
  time_s += step.time_s;
}

// The short steps grow with the time passed: the longer it lasts the more evenly the pack goes.
void BrakeWalk::take_long(const BrakeSurroundings& around, const BrakeStep& whole, int most_points,
                          HeatPoints& points) {
  constexpr double kGrowth = 1.0 / 40.0;
  const double gap_s = whole.time_s / most_points;
  HeatSpacing spacing{gap_s, time_s + gap_s};
  double left_s = whole.time_s;
  while (left_s > 0.0) {
    const double passed_s = whole.time_s - left_s;
    const double step_s = std::min(left_s, std::max(kLongestStep_s, kGrowth * passed_s));
    const BrakeStep step{.time_s = step_s,
                         .power_w = whole.power_w,
                         .energy_j = 0.0,
                         .way_m = whole.way_m * step_s / whole.time_s};
    mean.take_whole(around, step);
    worst.take_whole(around, step);
    time_s += step_s;
    spacing.add_when_due(point(), points);
    left_s -= step_s;
  }
}

void HeatSpacing::add_when_due(const HeatPoint& now, HeatPoints& points) {
  if (now.time_s < next_s) return;
  points.push(now);
  next_s = now.time_s + gap_s;
}

}  // namespace tillerline
