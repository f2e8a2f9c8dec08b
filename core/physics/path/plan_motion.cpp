#include "physics/path/plan_motion.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"

namespace tillerline {

using namespace elementary;

CarriedLag carried_lag(const PaintedLine& line, double ahead_m) {
  CarriedLag lag;
  lag.ahead_m = ahead_m;
  for (std::size_t i = 0; i < line.pieces.size(); ++i) {
    const double end_rad = lag.on_piece_rad(line, i, line.pieces[i].length_m);
    lag.at_begin_rad[i + 1] = end_rad;
    lag.half_at_begin[i + 1] = {sine(0.5 * end_rad), cosine(0.5 * end_rad)};
  }
  return lag;
}

double CarriedLag::on_piece_rad(const PaintedLine& line, std::size_t piece_index,
                                double into_m) const {
  const PaintedLine::Piece& piece = line.pieces[piece_index];
  const double begin_rad = at_begin_rad[piece_index];
  if (piece.growth_pm2 == 0.0) return lag_after_m(begin_rad, ahead_m, piece.curvature_pm, into_m);
  return lag_after_clothoid_m(begin_rad, ahead_m, piece.curvature_pm,
                              piece.curvature_pm + piece.growth_pm2 * into_m, into_m);
}

MotionPhases phases_along_line(const PaintedLine& line, double begin_m, double end_m) {
  MotionPhases phases;
  const std::size_t last = line.pieces.size() - 1;
  for (std::size_t i = 0; i <= last; ++i) {
    const PaintedLine::Piece& piece = line.pieces[i];
    // The straights at the ends go on for ever.
    const double from_m = i == 0 ? begin_m : std::max(begin_m, piece.begin_m);
    const double to_m = i == last ? end_m : std::min(end_m, piece.begin_m + piece.length_m);
    if (from_m < to_m) phases.push({i, from_m, to_m});
  }
  return phases;
}

BodyMotion FollowedMotion::at(const MotionPhase& phase, double at_m) const {
  const PaintedLine::Piece& piece = line.pieces[phase.part];
  const double into_m = at_m - piece.begin_m;
  HalfLag half;
  if (piece.growth_pm2 == 0.0) {
    half = half_lag_after_m(lag.half_at_begin[phase.part], lag.ahead_m, piece.curvature_pm, into_m);
  } else {
    const double lag_rad = lag.on_piece_rad(line, phase.part, into_m);
    half = {sine(0.5 * lag_rad), cosine(0.5 * lag_rad)};
  }
  const double square = half.sine * half.sine + half.cosine * half.cosine;
  const double lag_sine = 2.0 * half.sine * half.cosine / square;
  const double lag_cosine = (half.cosine * half.cosine - half.sine * half.sine) / square;
  const LineCourse here = course_on_piece(line, phase.part, into_m);
  BodyMotion body;
  body.cosine = here.cosine * lag_cosine + here.sine * lag_sine;
  body.sine = here.sine * lag_cosine - here.cosine * lag_sine;
  body.axis = {here.point.x_m - lag.ahead_m * body.cosine,
               here.point.y_m - lag.ahead_m * body.sine};
  body.forward = lag_cosine;
  body.turning = lag_sine / lag.ahead_m;
  return body;
}

BodyMotion OnLineMotion::at(const MotionPhase& phase, double at_m) const {
  const PaintedLine::Piece& piece = line.pieces[phase.part];
  const double into_m = at_m - piece.begin_m;
  const LineCourse here = course_on_piece(line, phase.part, into_m);
  BodyMotion body;
  body.axis = here.point;
  body.cosine = here.cosine;
  body.sine = here.sine;
  body.turning = piece.curvature_pm + piece.growth_pm2 * into_m;
  return body;
}

}  // namespace tillerline
