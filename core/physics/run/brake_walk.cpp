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

BrakeWalk BrakeWalk::begin(const Today& today, const Probe& probe, double brakes_k) {
  const BrakeShares& shares = today.shares;
  const double indicated_k = settled_indication_k(probe, brakes_k);
  BrakeWalk walk;
  walk.heat_share = today.aircraft.brake_heat_share;
  walk.mean = {.share = shares.mean_share};
  walk.worst = {.share = shares.worst_share, .dragging_n = shares.dragging_force_n};
  walk.now = {.time_s = 0.0, .mean_k = brakes_k, .worst_k = brakes_k, .indicated_k = indicated_k};
  walk.mean_indicated_k = indicated_k;
  return walk;
}

double BrakeWalk::after_k(const HeatPack& pack, const BrakeLoad& load, const BrakeStep& step,
                          double from_k) const {
  if (step.time_s > 0.0) {
    const double own_w = load.dragging_n * step.way_m / step.time_s;
    const double power_w = heat_share * (load.share * step.power_w + own_w);
    from_k = temperature_after_time_k(pack, from_k, step.time_s, power_w);
  }
  return temperature_after_energy_k(pack, from_k, heat_share * load.share * step.energy_j);
}

void BrakeWalk::take_short(const BrakeSurroundings& around, const BrakeStep& step) {
  const HeatPoint before = now;
  now.mean_k = after_k(around.pack, mean, step, now.mean_k);
  now.worst_k = after_k(around.pack, worst, step, now.worst_k);
  now.indicated_k =
      indication_after_k(around.probe, now.indicated_k, before.worst_k, now.worst_k, step.time_s);
  mean_indicated_k =
      indication_after_k(around.probe, mean_indicated_k, before.mean_k, now.mean_k, step.time_s);
  now.time_s += step.time_s;
}

void BrakeWalk::take(const BrakeSurroundings& around, const BrakeStep& step) {
  const int count = short_steps(step);
  const BrakeStep part{.time_s = step.time_s / count,
                       .power_w = step.power_w,
                       .energy_j = step.energy_j,
                       .way_m = step.way_m / count};
  for (int i = 0; i < count; ++i) take_short(around, part);
}

// The short steps grow with the time passed: the longer it lasts the more evenly the pack goes.
void BrakeWalk::take_long(const BrakeSurroundings& around, const BrakeStep& whole, int most_points,
                          HeatPoints& points) {
  constexpr double kGrowth = 1.0 / 40.0;
  const double gap_s = whole.time_s / most_points;
  HeatSpacing spacing{gap_s, now.time_s + gap_s};
  double left_s = whole.time_s;
  while (left_s > 0.0) {
    const double passed_s = whole.time_s - left_s;
    const double time_s = std::min(left_s, std::max(kLongestStep_s, kGrowth * passed_s));
    take_short(around, {.time_s = time_s,
                        .power_w = whole.power_w,
                        .energy_j = 0.0,
                        .way_m = whole.way_m * time_s / whole.time_s});
    spacing.add_when_due(now, points);
    left_s -= time_s;
  }
}

void HeatSpacing::add_when_due(const HeatPoint& now, HeatPoints& points) {
  if (now.time_s < next_s) return;
  points.push(now);
  next_s = now.time_s + gap_s;
}

}  // namespace tillerline
