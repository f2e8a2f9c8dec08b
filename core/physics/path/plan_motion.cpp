#include "physics/path/plan_motion.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"

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

double CarriedLag::at_rad(const PaintedLine& line, double distance_m) const {
  if (distance_m <= line.pieces[0].begin_m) return 0.0;
  std::size_t i = 0;
  while (i + 1 < line.pieces.size() && distance_m > line.pieces[i + 1].begin_m) ++i;
  return on_piece_rad(line, i, distance_m - line.pieces[i].begin_m);
}

// Within a plain arc the lag goes one way, so it is largest at its end, or at its begin when it
// comes from a tighter arc just before. Easing out the curvature falls, and it is largest where the
// lag ceases to grow; where it does not grow even before, it was largest at the begin.
double CarriedLag::largest_rad(const PaintedLine& line, const Leg& arc) const {
  const double at_start_rad = std::abs(at_begin_rad[line.turn]);
  const double length_m = leg_length_m(arc);
  const double easing_m = leg_easing_m(arc);
  if (easing_m <= 0.0) return std::max(at_start_rad, std::abs(at_begin_rad[line.turn + 1]));
  const double side = arc.turn_rad < 0.0 ? -1.0 : 1.0;
  const auto growth_pm = [&](double at_m) {
    const double lag_rad = at_rad(line, at_m);
    return side * (leg_curvature_pm(arc, at_m) - sine(lag_rad) / ahead_m);
  };
  const double eases_out_m = length_m - easing_m;
  if (growth_pm(eases_out_m) <= 0.0 || growth_pm(length_m) >= 0.0) return at_start_rad;
  const double peaks_m = find_zero(eases_out_m, length_m, growth_pm);
  return std::max(at_start_rad, std::abs(at_rad(line, peaks_m)));
}

bool CarriedLag::none_at_turn(const PaintedLine& line) const {
  constexpr double kNone_rad = 0.00175;
  return std::abs(at_begin_rad[line.turn]) < kNone_rad;
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
