// How the body moves along the plans that follow the painted line (plan_events.hpp asks for it).
//
//   FollowedMotion   a point ahead of the turn axis is kept on the painted line: with the lag beta
//                    between line and body the axis moves cos(beta) along the heading per metre of
//                    that point, and the heading turns by sin(beta)/ahead
//   OnLineMotion     the turn axis itself is kept on the painted line
// Coordinates are those of the painted line, lengths count from the turn axis.
#pragma once

#include "physics/path/lag.hpp"
#include "physics/path/plan_events.hpp"

namespace tillerline {

// Lag of a point `ahead_m` before the turn axis, kept on the line, carried from the begin of the
// route: known at the begin of every piece of the line, one formula from there.
struct CarriedLag {
  double ahead_m = 0.0;
  double at_begin_rad[PaintedLine::kMost + 1] = {};
  HalfLag half_at_begin[PaintedLine::kMost + 1] = {};

  double on_piece_rad(const PaintedLine& line, std::size_t piece, double into_m) const;
  // At a distance along the line, 0 at the turn's begin.
  double at_rad(const PaintedLine& line, double distance_m) const;
  // The largest, to either side, in the arc that begins at 0.
  double largest_rad(const PaintedLine& line, const Leg& arc) const;
  // Whether the turn is entered with no lag left of an earlier one, to a tenth of a degree.
  bool none_at_turn(const PaintedLine& line) const;
};
CarriedLag carried_lag(const PaintedLine& line, double ahead_m);

// The stretches of the way from `begin_m` to `end_m` along the line, 0 at the turn's begin, that
// lie on one piece each: the phases of the two motions that follow the line.
MotionPhases phases_along_line(const PaintedLine& line, double begin_m, double end_m);

struct FollowedMotion {
  const PaintedLine& line;
  const CarriedLag& lag;

  BodyMotion at(const MotionPhase& phase, double at_m) const;
};

struct OnLineMotion {
  const PaintedLine& line;

  BodyMotion at(const MotionPhase& phase, double at_m) const;
};

}  // namespace tillerline
