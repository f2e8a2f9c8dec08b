// Two brakes, the mean working one and the worst one (wheel_brakes.hpp), on their way through steps
// of work, way and time.
//
// Work is that of all brakes together; Aircraft::brake_heat_share of it heats the packs, and a
// brake gets its share of that. A dragging brake takes its force x distance besides. Heating and
// cooling are those of heat.hpp, exact to rounding from step to step. The indication
// (indication.hpp, of the worst brake and of the mean one) takes the pack as going evenly within a
// step of at most 30 s; on a long steady step, of 1/40 of the time passed; an application is taken
// as a whole: within 0.1 K of a continuous one.
#pragma once

#include <cstddef>

#include "physics/heat/heat.hpp"
#include "physics/heat/indication.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

struct HeatPoint {
  double time_s = 0.0;  // from touchdown (or from the begin of the taxi-out)
  double mean_k = 0.0;
  double worst_k = 0.0;
  double indicated_k = 0.0;  // of the worst brake
};

inline constexpr int kHeatPoints = 240;
using HeatPoints = FixedList<HeatPoint, kHeatPoints>;

// What the brakes do in one step: steady power over the time, then energy at once, of all brakes;
// and the way rolled, for a brake that drags.
struct BrakeStep {
  double time_s = 0.0;
  double power_w = 0.0;
  double energy_j = 0.0;
  double way_m = 0.0;

  // A piece of a run: what holds a speed is power, an application is energy at its end.
  static BrakeStep of(const Piece& piece);
};

// The air around a brake: with fans or without.
struct BrakeSurroundings {
  HeatPack pack;
  Probe probe;

  static BrakeSurroundings of(const Today& today, bool fans_on);
};

// One brake on its way.
struct WalkingBrake {
  double heat_share = 0.0;    // of the braking work, in its pack
  double dragging_jpm = 0.0;  // heat of a brake that does not let go
  BrakeState now;

  static WalkingBrake mean(const Today& today, const BrakeState& from);
  static WalkingBrake worst(const Today& today, const BrakeState& from);

  void take(const BrakeSurroundings& around, const BrakeStep& step);
  // The step at once, however long.
  void take_whole(const BrakeSurroundings& around, const BrakeStep& step);
};

struct BrakeWalk {
  double time_s = 0.0;
  WalkingBrake mean;
  WalkingBrake worst;

  // Both brakes in one state.
  static BrakeWalk begin(const Today& today, const BrakeState& from);

  HeatPoint point() const;
  void take(const BrakeSurroundings& around, const BrakeStep& step);
  // A long steady step, with points on its way, evenly in time.
  void take_long(const BrakeSurroundings& around, const BrakeStep& whole, int most_points,
                 HeatPoints& points);
};

// When the next point of a picture is due.
struct HeatSpacing {
  double gap_s = 0.0;  // least between points
  double next_s = 0.0;

  void add_when_due(const HeatPoint& now, HeatPoints& points);
};

}  // namespace tillerline
