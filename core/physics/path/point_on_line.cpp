#include "physics/path/point_on_line.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/units.hpp"
#include "physics/path/steering_ramp.hpp"

namespace tillerline {
namespace {

using namespace elementary;

enum PointPart : std::size_t { kBefore, kEntryRamp, kCircle, kChord, kExitRamp, kAfter };

constexpr double kRight_rad = 0.5 * units::kPi;

// The two lags between which the nose wheels cannot go back as fast as the straight asks for.
struct ExitBand {
  double low_rad = kRight_rad;
  double high_rad = kRight_rad;
};

// How the nose wheels are asked to move, and what the limited rate makes of it.
struct Asked {
  double radius_m;
  double ahead_m;
  double wheelbase_m;
  double per_metre;

  double ratio() const { return wheelbase_m / ahead_m; }
  // The rate, at this lag, in the units of what a curvature asks for.
  double allowed(double lag_rad) const {
    const double along = cosine(lag_rad);
    const double across = ratio() * sine(lag_rad);
    const double square = along * along + across * across;
    return per_metre * square * square_root(square);
  }
  double steering_rad(double lag_rad) const {
    return nose_wheel_angle_rad(lag_rad, ahead_m, wheelbase_m);
  }
  double lag_rad(double steering_rad) const { return arctangent(tangent(steering_rad) / ratio()); }
  double turned_rad(double from_rad, double to_rad) const {
    return 2.0 * sine(0.5 * (from_rad + to_rad)) * sine(0.5 * std::abs(to_rad - from_rad)) /
           (per_metre * wheelbase_m);
  }

  // Lag from which on the circle can be followed; 0: from the begin. Not a number: never.
  double entry_lag_rad() const {
    const auto too_fast = [&](double lag) {
      return ratio() * (1.0 / radius_m - sine(lag) / ahead_m) - allowed(lag);
    };
    if (too_fast(0.0) <= 0.0) return 0.0;
    const double steady_rad = ahead_m < radius_m ? arcsine(ahead_m / radius_m) : kRight_rad;
    return too_fast(steady_rad) < 0.0 ? find_zero(0.0, steady_rad, too_fast) : NAN;
  }

  ExitBand exit_band() const {
    const auto too_fast = [&](double lag) { return ratio() * sine(lag) / ahead_m - allowed(lag); };
    const double square = ratio() * ratio();
    const double peak_rad = square > 1.5 ? arcsine(square_root(0.5 / (square - 1.0))) : kRight_rad;
    if (too_fast(peak_rad) <= 0.0) return {};
    ExitBand band;
    band.low_rad = find_zero(0.0, peak_rad, too_fast);
    if (peak_rad < kRight_rad && too_fast(kRight_rad) < 0.0)
      band.high_rad = find_zero(peak_rad, kRight_rad, too_fast);
    return band;
  }

  double in_rad(double steering) const { return turned_rad(0.0, steering) + lag_rad(steering); }
  // What the way of P still turns by when it leaves the circle with this lag.
  double out_rad(const ExitBand& band, double lag) const {
    if (lag <= band.low_rad) return 0.0;
    const double back_rad = std::min(lag, band.high_rad);
    return band.low_rad + turned_rad(steering_rad(band.low_rad), steering_rad(back_rad)) - back_rad;
  }
};

// P at the end of the entry ramp, from the axis at its begin.
Point point_after_entry(const PointOnLineTurn& turn) {
  if (turn.entry_rad <= 0.0) return {turn.ahead_m, 0.0};
  const SteeringRamp ramp = steering_ramp(0.0, turn.entry_rad, turn.per_metre, turn.wheelbase_m);
  return ahead_of(ramp.axis, ramp.heading_rad, turn.ahead_m);
}

// P from the begin of the exit ramp to its end, along the heading of the body at its begin.
Point point_over_exit(const PointOnLineTurn& turn) {
  if (turn.exit_nose_m <= 0.0) return {};
  const SteeringRamp ramp =
      steering_ramp(turn.back_rad, turn.exit_rad, turn.per_metre, turn.wheelbase_m);
  const Point end = ahead_of(ramp.axis, ramp.heading_rad, turn.ahead_m);
  return {end.x_m - turn.ahead_m, end.y_m};
}

// P from the circle's end to the new centreline, along that line and to its right.
Point point_after_circle(const PointOnLineTurn& turn, double back_lag_rad) {
  const Point chord = ahead_of({}, -turn.out_rad, turn.chord_m);
  const Point over = point_over_exit(turn);
  const double heading_rad = -turn.out_rad - back_lag_rad;
  return beside(ahead_of(chord, heading_rad, over.x_m), heading_rad, over.y_m);
}

void set_exit(const Asked& asked, const ExitBand& band, double lag_rad, PointOnLineTurn& turn) {
  turn.out_rad = asked.out_rad(band, lag_rad);
  if (lag_rad <= band.low_rad) return;
  const double back_lag_rad = std::min(lag_rad, band.high_rad);
  turn.back_rad = asked.steering_rad(back_lag_rad);
  turn.exit_rad = asked.steering_rad(band.low_rad);
  turn.exit_nose_m = (turn.back_rad - turn.exit_rad) / turn.per_metre;
  if (lag_rad > band.high_rad)
    turn.chord_m = turn.ahead_m * natural_log(tangent(0.5 * lag_rad) / tangent(0.5 * back_lag_rad));
}

// The circle between the ramps, or the joint of the ramps; false where they meet.
bool reach_circle(const Asked& asked, const ExitBand& band, double entry_lag_rad,
                  PointOnLineTurn& turn) {
  const double entry_rad = asked.steering_rad(entry_lag_rad);
  const double in_rad = entry_lag_rad > 0.0 ? asked.in_rad(entry_rad) : 0.0;
  const double rest_rad = turn.turn_rad - in_rad;
  if (rest_rad <= 0.0) return false;
  const auto lag_at_end = [&](double out_rad) {
    return lag_after_m(entry_lag_rad, turn.ahead_m, 1.0 / turn.radius_m,
                       turn.radius_m * (rest_rad - out_rad));
  };
  const auto more = [&](double out_rad) {
    return asked.out_rad(band, lag_at_end(out_rad)) - out_rad;
  };
  if (more(rest_rad) > 0.0) return false;
  const double out_rad = more(0.0) <= 0.0 ? 0.0 : find_zero(0.0, rest_rad, more);
  const double lag_rad = lag_at_end(out_rad);
  turn.entry_rad = entry_lag_rad > 0.0 ? entry_rad : 0.0;
  turn.in_rad = in_rad;
  set_exit(asked, band, lag_rad, turn);
  turn.out_rad = out_rad;
  turn.circle_m = turn.radius_m * (rest_rad - out_rad);
  turn.steering_rad = asked.steering_rad(lag_rad);
  return true;
}

void meet(const Asked& asked, const ExitBand& band, double most_rad, PointOnLineTurn& turn) {
  const double peak_rad = find_zero(0.0, most_rad, [&](double steering) {
    return asked.in_rad(steering) + asked.out_rad(band, asked.lag_rad(steering)) - turn.turn_rad;
  });
  turn.entry_rad = turn.steering_rad = peak_rad;
  turn.in_rad = asked.in_rad(peak_rad);
  set_exit(asked, band, asked.lag_rad(peak_rad), turn);
}

// P moves as this along a line or circle; the body follows with the lag.
SteeredPose led(const PointOnLineTurn& turn, Point point, double path_rad, double lag_rad) {
  SteeredPose pose;
  pose.heading_rad = path_rad - lag_rad;
  pose.axis = ahead_of(point, pose.heading_rad, -turn.ahead_m);
  pose.steering_rad = nose_wheel_angle_rad(lag_rad, turn.ahead_m, turn.wheelbase_m);
  pose.forward = cosine(lag_rad);
  pose.turning = sine(lag_rad) / turn.ahead_m;
  return pose;
}

SteeredPose ramped(const PointOnLineTurn& turn, Point axis, double heading_rad, double from_rad,
                   double to_rad) {
  const SteeringRamp ramp = steering_ramp(from_rad, to_rad, turn.per_metre, turn.wheelbase_m);
  SteeredPose pose;
  pose.axis = beside(ahead_of(axis, heading_rad, ramp.axis.x_m), heading_rad, ramp.axis.y_m);
  pose.heading_rad = heading_rad + ramp.heading_rad;
  pose.steering_rad = to_rad;
  pose.forward = cosine(to_rad);
  pose.turning = sine(to_rad) / turn.wheelbase_m;
  return pose;
}

double entry_lag_rad(const PointOnLineTurn& turn) {
  return arctangent(tangent(turn.entry_rad) * turn.ahead_m / turn.wheelbase_m);
}

SteeredPose on_circle(const PointOnLineTurn& turn, double into_m) {
  const double path_rad = turn.in_rad + into_m / turn.radius_m;
  const Point centre = beside(turn.circle_begin, turn.in_rad, turn.radius_m);
  const double lag_rad =
      lag_after_m(entry_lag_rad(turn), turn.ahead_m, 1.0 / turn.radius_m, into_m);
  return led(turn, beside(centre, path_rad, -turn.radius_m), path_rad, lag_rad);
}

// Straight on from a place of the way.
SteeredPose straight_on(const PointOnLineTurn& turn, const SteeredPose& from, double into_m) {
  const double lag_rad = arctangent(tangent(from.steering_rad) * turn.ahead_m / turn.wheelbase_m);
  const Point point = ahead_of(from.axis, from.heading_rad, turn.ahead_m);
  const double path_rad = from.heading_rad + lag_rad;
  return led(turn, ahead_of(point, path_rad, into_m), path_rad,
             lag_after_m(lag_rad, turn.ahead_m, 0.0, into_m));
}

// Where everything lies: from both straights, which meet at the end of the entry ramp or in the
// circle.
void place(const Asked& asked, PointOnLineTurn& turn) {
  const double radius_m = turn.radius_m;
  const double along = cosine(turn.turn_rad);
  const double across = sine(turn.turn_rad);
  const Point in = point_after_entry(turn);
  const Point out = point_after_circle(turn, asked.lag_rad(turn.back_rad));
  const double beside_old_m = in.y_m;
  const double beside_new_m = 0.0 - out.y_m;
  if (turn.full) {
    const double in_half = sine(0.5 * turn.in_rad);
    const double out_half = sine(0.5 * turn.out_rad);
    turn.shift_in_m = beside_old_m - 2.0 * radius_m * in_half * in_half;
    turn.shift_out_m = beside_new_m - 2.0 * radius_m * out_half * out_half;
    const double centre_m = (turn.shift_in_m * along - turn.shift_out_m) / across;
    const bool shifted = turn.shift_in_m != 0.0 || turn.shift_out_m != 0.0;
    turn.circle_begin = {(shifted ? centre_m : 0.0) + radius_m * sine(turn.in_rad), beside_old_m};
  } else {
    turn.circle_begin = {((beside_old_m - radius_m) * along - (beside_new_m - radius_m)) / across,
                         beside_old_m};
  }
  turn.start_past_arc_m = turn.circle_begin.x_m - (in.x_m - turn.ahead_m);
  const SteeredPose circle_end = on_circle(turn, turn.circle_m);
  turn.back = turn.chord_m > 0.0 ? straight_on(turn, circle_end, turn.chord_m) : circle_end;
  turn.end = turn.exit_nose_m > 0.0
                 ? ramped(turn, turn.back.axis, turn.back.heading_rad, turn.back_rad, turn.exit_rad)
                 : turn.back;
  const Point point = ahead_of(turn.end.axis, turn.end.heading_rad, turn.ahead_m);
  turn.end_past_arc_m =
      (point.x_m - radius_m * across) * along + (point.y_m - radius_m * (1.0 - along)) * across;
}

}  // namespace

PointOnLineTurn point_on_line_turn(double radius_m, double turn_rad, double ahead_m,
                                   double wheelbase_m, double per_metre) {
  PointOnLineTurn turn;
  turn.ahead_m = ahead_m;
  turn.radius_m = radius_m;
  turn.turn_rad = turn_rad;
  turn.wheelbase_m = wheelbase_m;
  turn.per_metre = per_metre;
  const Asked asked{radius_m, ahead_m, wheelbase_m, per_metre};
  const double entry_lag_rad = asked.entry_lag_rad();
  if (std::isnan(entry_lag_rad)) return turn;
  turn.found = true;
  const ExitBand band = asked.exit_band();
  turn.full = reach_circle(asked, band, entry_lag_rad, turn);
  if (!turn.full) meet(asked, band, asked.steering_rad(entry_lag_rad), turn);
  turn.entry_nose_m = turn.entry_rad / per_metre;
  place(asked, turn);
  return turn;
}

SteeredPose SteeredPointMotion::pose(std::size_t part, double at_m) const {
  const double circle_end_m = turn.entry_nose_m + turn.circle_m;
  const double chord_end_m = circle_end_m + turn.chord_m;
  const Point start{turn.start_past_arc_m - turn.ahead_m, 0.0};
  if (part == kBefore) return {.axis = {start.x_m + at_m, 0.0}};
  if (part == kEntryRamp) return ramped(turn, start, 0.0, 0.0, turn.per_metre * at_m);
  if (part == kCircle) return on_circle(turn, at_m - turn.entry_nose_m);
  if (part == kChord) return straight_on(turn, on_circle(turn, turn.circle_m), at_m - circle_end_m);
  if (part == kExitRamp)
    return ramped(turn, turn.back.axis, turn.back.heading_rad, turn.back_rad,
                  turn.back_rad - turn.per_metre * (at_m - chord_end_m));
  return straight_on(turn, turn.end, at_m - turn.way_m());
}

BodyMotion SteeredPointMotion::at(const MotionPhase& phase, double at_m) const {
  const SteeredPose here = pose(phase.part, at_m);
  BodyMotion body;
  body.axis = {here.axis.x_m, side * here.axis.y_m};
  body.cosine = cosine(here.heading_rad);
  body.sine = side * sine(here.heading_rad);
  body.forward = here.forward;
  body.turning = side * here.turning;
  return body;
}

MotionPhases phases_of_point(const PointOnLineTurn& turn, double before_m, double after_m) {
  const double lengths_m[] = {before_m,     turn.entry_nose_m, turn.circle_m,
                              turn.chord_m, turn.exit_nose_m,  after_m};
  MotionPhases phases;
  double begin_m = -before_m;
  for (std::size_t part = kBefore; part <= kAfter; ++part) {
    const double end_m = part == kBefore ? 0.0 : begin_m + lengths_m[part];
    if (end_m > begin_m) phases.push({part, begin_m, end_m});
    begin_m = end_m;
  }
  return phases;
}

}  // namespace tillerline
