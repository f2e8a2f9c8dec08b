// How the body goes through one turn of a route while a point of it is kept on the painted line:
// which of the motions it is, from where to where, and what the nose wheels do.
//
// The point is counted from the turn axis: 0 is the main gear on the line, the eye's place the eye
// on the line. Between long straights the nose wheels turn at their limited rate where the line
// asks for more (gear_on_line.hpp, point_on_line.hpp). On transition curves, where the straights
// beside the arc have no room for the ramps, and where the lag of an earlier turn is more than a
// tenth of a degree still, they turn as the line asks, and `ramps_fit` says whether they are fast
// enough for that.
#pragma once

#include "physics/path/gear_on_line.hpp"
#include "physics/path/plan_motion.hpp"
#include "physics/path/point_on_line.hpp"
#include "physics/path/turn_setting.hpp"

namespace tillerline {

enum class WayKind { GearByRamps, GearOnLine, PointByRamps, PointOnLine };

// Whether the nose wheels' rate bends the way of a point other than the main gear.
enum class NoseRate { Limited, AsAsked };

struct PointWay {
  WayKind kind = WayKind::PointOnLine;
  double ahead_m = 0.0;
  bool ramps_fit = true;
  double steering_rad = 0.0;      // greatest nose-wheel angle
  double rate_radps = 0.0;        // and rate
  double largest_lag_rad = 0.0;   // of the point
  double start_past_arc_m = 0.0;  // the point past the arc's begin when steering starts
  double shift_m = 0.0;           // of the circle, inwards
  GearOnLineTurn gear;            // plain arcs with the main gear on the line
  PointOnLineTurn steered;        // PointByRamps
  CarriedLag carried;             // PointOnLine
  MotionPhases phases;

  // Where the nose wheels turn as the line asks: how fast that is, and whether they are. A look
  // along the way that only a plan needs.
  void judge_rate(const TurnSetting& setting, double speed_mps);

  // Calls `use(motion)` with the motion of this way.
  template <class Use>
  void with_motion(const TurnSetting& setting, Use&& use) const {
    switch (kind) {
      case WayKind::GearByRamps:
        return use(RampedMotion{gear, setting.arc.radius_m, setting.angle_rad, setting.wheelbase_m,
                                setting.side});
      case WayKind::GearOnLine:
        return use(OnLineMotion{setting.line});
      case WayKind::PointByRamps:
        return use(SteeredPointMotion{steered, setting.side});
      case WayKind::PointOnLine:
        return use(FollowedMotion{setting.line, carried});
    }
  }
};

// `speed_mps` of the main-gear axis.
PointWay point_way(const TurnSetting& setting, double ahead_m, double speed_mps, NoseRate rate);

}  // namespace tillerline
