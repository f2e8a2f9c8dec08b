#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"

namespace tillerline {
namespace {

using namespace elementary;

constexpr double kRunUp_m = 10.0;  // shown straight before and after the manoeuvre
constexpr double kNever_m = 1e9;

// What both techniques need of one turn.
struct Setting {
  const Aircraft& aircraft;
  const TaxiRoute& route;
  const Leg& arc;
  PaintedLine line;
  double side;               // +1: the turn goes to the right
  double angle_rad;          // > 0
  double crossing_radius_m;  // of the plain arc between the same ends
  double axis_m;             // turn axis ahead of the main-gear axis
  double wheelbase_m;        // nose gear and eye ahead of the turn axis
  double eye_m;
};

Setting setting_of(const Aircraft& aircraft, const TaxiRoute& route, int leg) {
  const Leg& arc = route.legs[static_cast<std::size_t>(leg)];
  const double axis_m = turn_axis_at_radius_m(aircraft, arc.radius_m);
  return {.aircraft = aircraft,
          .route = route,
          .arc = arc,
          .line = painted_line(route, leg),
          .side = arc.turn_rad < 0.0 ? -1.0 : 1.0,
          .angle_rad = std::abs(arc.turn_rad),
          .crossing_radius_m = crossing_radius_m(arc),
          .axis_m = axis_m,
          .wheelbase_m = aircraft.wheelbase_m - axis_m,
          .eye_m = aircraft.eye_ahead_m - axis_m};
}

// The pose whose turn axis is here.
Pose pose_of_axis(const Setting& setting, Point axis, double heading_rad) {
  return {ahead_of(axis, heading_rad, -setting.axis_m), heading_rad};
}

// Lag of a point `ahead_m` before the turn axis, kept on the line, carried from the begin of the
// route: known at the begin of every piece of the line, one formula from there.
struct CarriedLag {
  double ahead_m = 0.0;
  double at_begin_rad[PaintedLine::kMost + 1] = {};
};

double lag_along_piece_rad(const PaintedLine::Piece& piece, double ahead_m, double lag_rad,
                           double into_m) {
  if (piece.growth_pm2 == 0.0) return lag_after_m(lag_rad, ahead_m, piece.curvature_pm, into_m);
  return lag_after_clothoid_m(lag_rad, ahead_m, piece.curvature_pm,
                              piece.curvature_pm + piece.growth_pm2 * into_m, into_m);
}

CarriedLag carried_lag(const PaintedLine& line, double ahead_m) {
  CarriedLag lag{.ahead_m = ahead_m};
  for (std::size_t i = 0; i < line.pieces.size(); ++i)
    lag.at_begin_rad[i + 1] =
        lag_along_piece_rad(line.pieces[i], ahead_m, lag.at_begin_rad[i], line.pieces[i].length_m);
  return lag;
}

double lag_at_rad(const CarriedLag& lag, const PaintedLine& line, double distance_m) {
  if (distance_m <= line.pieces[0].begin_m) return 0.0;
  std::size_t i = 0;
  while (i + 1 < line.pieces.size() && distance_m > line.pieces[i + 1].begin_m) ++i;
  const PaintedLine::Piece& piece = line.pieces[i];
  const double into_m = distance_m - piece.begin_m;
  if (into_m <= piece.length_m)
    return lag_along_piece_rad(piece, lag.ahead_m, lag.at_begin_rad[i], into_m);
  return lag_after_m(lag.at_begin_rad[i + 1], lag.ahead_m, 0.0, into_m - piece.length_m);
}

// ---------------------------------------------------------------- margins of sampled poses ------

// Samples closer than this are one and the same margin: along a straight they tie to rounding, and
// which of them is the least must not depend on the last bit.
constexpr double kSameMargin_m = 1e-6;

double parabola_minimum(const double* value, int count, int at) {
  if (at == 0 || at == count - 1) return value[at];
  const double left = value[at - 1];
  const double right = value[at + 1];
  // At the edge of a plateau the least is the plateau itself.
  if (std::min(left, right) - value[at] < kSameMargin_m) return value[at];
  const double bend = left - 2.0 * value[at] + right;
  return value[at] - 0.125 * (right - left) * (right - left) / bend;
}

struct Narrowest {
  double margin_m;
  int at;
};

// Least of the sampled margins, refined by the parabola through its neighbours.
Narrowest narrowest(const double* value, int count) {
  int at = 0;
  for (int i = 1; i < count; ++i)
    if (value[i] < value[at] - kSameMargin_m) at = i;
  return {parabola_minimum(value, count, at), at};
}

double edge_margin_m(const LineOffset& line) {
  return std::min(line.left_half_width_m + line.offset_m, line.right_half_width_m - line.offset_m);
}

// The body axes of a pose, so that many points on the body cost one sine and cosine.
struct Body {
  Point gear;
  double cosine;
  double sine;

  Point at(double ahead_m, double right_m) const {
    return {gear.x_m + ahead_m * cosine - right_m * sine,
            gear.y_m + ahead_m * sine + right_m * cosine};
  }
};

// Widens the swing by a point that lies this far inside of the turn.
void swing(double inside_m, double& most_inside_m, double& most_outside_m) {
  most_inside_m = std::max(most_inside_m, inside_m);
  most_outside_m = std::max(most_outside_m, -inside_m);
}

// Everything that follows from the sampled poses: margins, overshoot, reach.
void measure_plan(const Setting& setting, TrackPlan& plan) {
  const Aircraft& aircraft = setting.aircraft;
  double left[kPlanSamples] = {};
  double right[kPlanSamples] = {};
  double nose[kPlanSamples] = {};
  for (int i = 0; i < plan.samples; ++i) {
    const Pose& pose = plan.pose[i];
    const Body body{pose.gear, cosine(pose.heading_rad), sine(pose.heading_rad)};
    const auto offset = [&](double ahead_m, double right_m) {
      return offset_from_line(setting.line, body.at(ahead_m, right_m));
    };
    const auto past_outbound = [&](double ahead_m) {
      const Point point = body.at(ahead_m, 0.0);
      return past_outbound_m(setting.crossing_radius_m, setting.angle_rad,
                             {point.x_m, setting.side * point.y_m});
    };
    const LineOffset left_main = offset(0.0, -0.5 * aircraft.wheel_span_m);
    const LineOffset right_main = offset(0.0, 0.5 * aircraft.wheel_span_m);
    left[i] = edge_margin_m(left_main);
    right[i] = edge_margin_m(right_main);
    for (const double main_m : {left_main.offset_m, right_main.offset_m})
      swing(setting.side * main_m, plan.main_inside_m, plan.main_outside_m);
    const double half_nose_m = 0.5 * aircraft.nose_wheel_span_m;
    nose[i] = std::min(edge_margin_m(offset(aircraft.wheelbase_m, -half_nose_m)),
                       edge_margin_m(offset(aircraft.wheelbase_m, half_nose_m)));
    const double nose_outside_m = -setting.side * offset(aircraft.wheelbase_m, 0.0).offset_m;
    const double gear_inside_m = setting.side * offset(0.0, 0.0).offset_m;
    plan.nose_off_line_m = std::max(plan.nose_off_line_m, nose_outside_m);
    plan.gear_off_line_m = std::max(plan.gear_off_line_m, gear_inside_m);
    plan.nose_overshoot_m = std::max(plan.nose_overshoot_m, past_outbound(aircraft.wheelbase_m));
    plan.eye_overshoot_m = std::max(plan.eye_overshoot_m, past_outbound(aircraft.eye_ahead_m));
    for (const double half : {-0.5, 0.5}) {
      const double wing_m =
          offset(-aircraft.wing_tip_behind_m, half * aircraft.wing_span_m).offset_m;
      const double tail_m =
          offset(-aircraft.tail_behind_m, half * aircraft.tailplane_span_m).offset_m;
      swing(setting.side * wing_m, plan.wing_inside_m, plan.wing_outside_m);
      plan.tail_swing_m = std::max(plan.tail_swing_m, -setting.side * tail_m);
      plan.wing_reach_m = std::max(plan.wing_reach_m, std::abs(wing_m));
      plan.tail_reach_m = std::max(plan.tail_reach_m, std::abs(tail_m));
    }
  }
  const Narrowest of_left = narrowest(left, plan.samples);
  const Narrowest of_right = narrowest(right, plan.samples);
  const Narrowest of_nose = narrowest(nose, plan.samples);
  plan.margins = {.left_main_m = of_left.margin_m,
                  .right_main_m = of_right.margin_m,
                  .nose_m = of_nose.margin_m,
                  .left_main_at = of_left.at,
                  .right_main_at = of_right.at,
                  .nose_at = of_nose.at};
}

// The view at the place where steering starts.
void see_start(const Setting& setting, const Pose& start, TrackPlan& plan) {
  const LinePoint bend_end = line_at(setting.line, leg_length_m(setting.arc));
  const Aircraft& aircraft = setting.aircraft;
  plan.start = start;
  plan.from_left = turn_cue(aircraft, eye_at(aircraft, start, Seat::Left), bend_end);
  plan.from_right = turn_cue(aircraft, eye_at(aircraft, start, Seat::Right), bend_end);
}

// ------------------------------------------------------------------ main gear on the line -------

// How much of the straight beside the arc its steering ramp may use: all of it, or half when
// another arc wants the other half.
double ramp_room_m(const TaxiRoute& route, int leg, int direction) {
  const int beside_index = leg + direction;
  const int beyond_index = leg + 2 * direction;
  const int count = static_cast<int>(route.legs.size());
  if (beside_index < 0 || beside_index >= count) return kNever_m;
  const Leg& straight = route.legs[static_cast<std::size_t>(beside_index)];
  if (straight.kind != LegKind::Straight) return 0.0;
  const bool shared = beyond_index >= 0 && beyond_index < count;
  return shared ? 0.5 * straight.length_m : straight.length_m;
}

void sample_ramped_turn(const Setting& setting, const GearOnLineTurn& turn, TrackPlan& plan) {
  const double span_m = turn.nose_path_m + 2.0 * kRunUp_m;
  for (int i = 0; i < kPlanSamples; ++i) {
    const double nose_m = span_m * i / (kPlanSamples - 1) - kRunUp_m;
    const double inside_m = std::clamp(nose_m, 0.0, turn.nose_path_m);
    Pose pose = gear_on_line_pose(turn, setting.arc.radius_m, setting.angle_rad,
                                  setting.wheelbase_m, inside_m);
    pose = pose_of_axis(setting, ahead_of(pose.gear, pose.heading_rad, nose_m - inside_m),
                        pose.heading_rad);
    plan.pose[i] = {{pose.gear.x_m, setting.side * pose.gear.y_m}, setting.side * pose.heading_rad};
    const double to_end = std::min(inside_m, turn.nose_path_m - inside_m);
    const double share = turn.ramp_nose_m > 0.0 ? std::min(1.0, to_end / turn.ramp_nose_m) : 1.0;
    plan.nose_wheel_rad[i] = setting.side * share * turn.steering_rad;
  }
}

void sample_gear_on_painted_line(const Setting& setting, TrackPlan& plan) {
  const double length_m = leg_length_m(setting.arc);
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = (length_m + 2.0 * kRunUp_m) * i / (kPlanSamples - 1) - kRunUp_m;
    const LinePoint line = line_at(setting.line, at_m);
    plan.pose[i] = pose_of_axis(setting, line.point, line.heading_rad);
    plan.nose_wheel_rad[i] =
        arctangent(setting.wheelbase_m * line_curvature_pm(setting.line, at_m));
  }
}

// Furthest past the outbound centreline of a point `ahead_m` before the turn axis, which follows
// the painted line through the turn.
double furthest_past_on_line_m(const Setting& setting, double ahead_m) {
  const auto past = [&](double at_m) {
    const LinePoint line = line_at(setting.line, at_m);
    const Point point = ahead_of(line.point, line.heading_rad, ahead_m);
    return past_outbound_m(setting.crossing_radius_m, setting.angle_rad,
                           {point.x_m, setting.side * point.y_m});
  };
  constexpr int kScan = 48;
  const double step_m = leg_length_m(setting.arc) / kScan;
  int best = 0;
  for (int i = 1; i <= kScan; ++i)
    if (past(i * step_m) > past(best * step_m)) best = i;
  const double low_m = std::max(0, best - 1) * step_m;
  const double high_m = std::min(kScan, best + 1) * step_m;
  return std::max({0.0, past(best * step_m), past(find_peak(low_m, high_m, past))});
}

TrackPlan gear_on_eased_line_plan(const Setting& setting, double speed_mps) {
  const Aircraft& aircraft = setting.aircraft;
  TrackPlan plan;
  plan.technique = TurnTechnique::MainGearOnLine;
  plan.steering_rad = arctangent(setting.wheelbase_m / setting.arc.radius_m);
  plan.possible = plan.steering_rad <= aircraft.steering_limit_rad;
  plan.steering_rate_radps =
      setting.wheelbase_m * speed_mps / (setting.arc.radius_m * leg_easing_m(setting.arc));
  plan.ramps_fit = plan.steering_rate_radps <= aircraft.steering_rate_radps;
  plan.eye_past_arc_begin_m = setting.eye_m;
  plan.eye_past_crossing_m =
      setting.eye_m - way_to_crossing_m(setting.crossing_radius_m, setting.angle_rad);
  plan.smallest_gear_radius_m = setting.arc.radius_m;
  plan.samples = kPlanSamples;
  sample_gear_on_painted_line(setting, plan);
  measure_plan(setting, plan);
  see_start(setting, pose_of_axis(setting, {}, 0.0), plan);
  plan.nose_overshoot_m = furthest_past_on_line_m(setting, setting.wheelbase_m);
  plan.eye_overshoot_m = furthest_past_on_line_m(setting, setting.eye_m);
  return plan;
}

TrackPlan gear_on_line_plan(const Setting& setting, int leg, double speed_mps) {
  if (leg_easing_m(setting.arc) > 0.0) return gear_on_eased_line_plan(setting, speed_mps);
  const Aircraft& aircraft = setting.aircraft;
  const double radius_m = setting.arc.radius_m;
  const double nose_speed_mps = speed_mps * hypotenuse(radius_m, setting.wheelbase_m) / radius_m;
  const auto turn_at_rate = [&](double rate_radps) {
    return gear_on_line_turn(radius_m, setting.angle_rad, setting.wheelbase_m, setting.eye_m,
                             aircraft.steering_limit_rad, rate_radps, nose_speed_mps);
  };
  TrackPlan plan;
  plan.technique = TurnTechnique::MainGearOnLine;
  GearOnLineTurn turn = turn_at_rate(aircraft.steering_rate_radps);
  const double room_m =
      std::min(ramp_room_m(setting.route, leg, -1), ramp_room_m(setting.route, leg, 1));
  plan.ramps_fit = turn.start_before_arc_m <= room_m;
  if (!plan.ramps_fit) turn = turn_at_rate(0.0);
  plan.possible = turn.possible;
  plan.steering_rad = turn.steering_rad;
  plan.steering_rate_radps = plan.ramps_fit ? aircraft.steering_rate_radps : 0.0;
  plan.shift_m = turn.shift_m;
  plan.start_before_arc_m = turn.start_before_arc_m;
  plan.eye_past_arc_begin_m = turn.eye_past_arc_begin_m;
  plan.eye_past_crossing_m = turn.eye_past_crossing_m;
  plan.smallest_gear_radius_m = setting.wheelbase_m / tangent(turn.steering_rad);
  plan.samples = kPlanSamples;
  if (plan.ramps_fit)
    sample_ramped_turn(setting, turn, plan);
  else
    sample_gear_on_painted_line(setting, plan);
  measure_plan(setting, plan);
  see_start(setting, pose_of_axis(setting, {-turn.start_before_arc_m, 0.0}, 0.0), plan);
  plan.nose_overshoot_m = turn.nose_overshoot_m;
  plan.eye_overshoot_m = turn.eye_overshoot_m;
  return plan;
}

// ------------------------------------------------------------------------ eye on the line -------

// How far behind the arc the lag is still shown: until it has died out, or the next arc begins.
double run_out_m(const TaxiRoute& route, int leg, double eye_ahead_m) {
  const double died_out_m = 3.5 * eye_ahead_m;
  const std::size_t next = static_cast<std::size_t>(leg) + 1;
  if (next + 1 >= route.legs.size()) return died_out_m;
  return std::min(died_out_m, leg_length_m(route.legs[next]));
}

// Rate at which the nose wheels turn while the lag grows by `lag_growth_pm` per metre.
double nose_wheel_rate_radps(const Setting& setting, double lag_rad, double lag_growth_pm,
                             double gear_speed_mps) {
  const double along = setting.eye_m * cosine(lag_rad);
  const double across = setting.wheelbase_m * sine(lag_rad);
  const double angle_per_lag =
      setting.eye_m * setting.wheelbase_m / (along * along + across * across);
  // The turn axis moves at the cosine of the lag times the eye's speed.
  const double eye_speed_mps = gear_speed_mps / std::max(0.2, cosine(lag_rad));
  return std::abs(angle_per_lag * lag_growth_pm * eye_speed_mps);
}

// Within a plain arc the lag goes one way, so it is largest at its end, or at its begin when it
// comes from a tighter arc just before. Easing out the curvature falls, and it is largest where the
// lag ceases to grow; where it does not grow even before, it was largest at the begin.
double largest_lag_rad(const PaintedLine& line, const CarriedLag& carried, const Leg& arc) {
  const double at_begin_rad = std::abs(carried.at_begin_rad[line.turn]);
  const double length_m = leg_length_m(arc);
  const double easing_m = leg_easing_m(arc);
  if (easing_m <= 0.0) return std::max(at_begin_rad, std::abs(carried.at_begin_rad[line.turn + 1]));
  const double side = arc.turn_rad < 0.0 ? -1.0 : 1.0;
  const auto growth_pm = [&](double at_m) {
    const double lag_rad = lag_at_rad(carried, line, at_m);
    return side * (leg_curvature_pm(arc, at_m) - sine(lag_rad) / carried.ahead_m);
  };
  const double eases_out_m = length_m - easing_m;
  if (growth_pm(eases_out_m) <= 0.0 || growth_pm(length_m) >= 0.0) return at_begin_rad;
  const double peaks_m = find_zero(eases_out_m, length_m, growth_pm);
  return std::max(at_begin_rad, std::abs(lag_at_rad(carried, line, peaks_m)));
}

// The pose whose eye stands on the line here.
Pose pose_of_eye(const Setting& setting, const CarriedLag& carried, double at_m) {
  const LinePoint line = line_at(setting.line, at_m);
  const double heading_rad = line.heading_rad - lag_at_rad(carried, setting.line, at_m);
  return {ahead_of(line.point, heading_rad, -setting.aircraft.eye_ahead_m), heading_rad};
}

TrackPlan eye_on_line_plan(const Setting& setting, int leg, double speed_mps) {
  const Aircraft& aircraft = setting.aircraft;
  const double eye_m = setting.eye_m;
  const double end_m = leg_length_m(setting.arc) + run_out_m(setting.route, leg, eye_m);
  const CarriedLag carried = carried_lag(setting.line, eye_m);
  TrackPlan plan;
  plan.technique = TurnTechnique::EyeOnLine;
  plan.samples = kPlanSamples;
  // Of the turn itself, not of its neighbours in the picture; and exact, since the lag peaks with a
  // corner where an arc ends, between two samples.
  const double largest_rad = largest_lag_rad(setting.line, carried, setting.arc);
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = (end_m + kRunUp_m) * i / (kPlanSamples - 1) - kRunUp_m;
    const double lag_rad = lag_at_rad(carried, setting.line, at_m);
    plan.pose[i] = pose_of_eye(setting, carried, at_m);
    plan.nose_wheel_rad[i] = nose_wheel_angle_rad(lag_rad, eye_m, setting.wheelbase_m);
    const double lag_growth_pm = leg_curvature_pm(setting.arc, at_m) - sine(lag_rad) / eye_m;
    plan.steering_rate_radps =
        std::max(plan.steering_rate_radps,
                 nose_wheel_rate_radps(setting, lag_rad, lag_growth_pm, speed_mps));
  }
  plan.steering_rad = nose_wheel_angle_rad(largest_rad, eye_m, setting.wheelbase_m);
  plan.possible = plan.steering_rad <= aircraft.steering_limit_rad;
  plan.ramps_fit = plan.steering_rate_radps <= aircraft.steering_rate_radps;
  plan.start_before_arc_m = eye_m;
  plan.eye_past_crossing_m = -way_to_crossing_m(setting.crossing_radius_m, setting.angle_rad);
  plan.smallest_gear_radius_m = smallest_gear_radius_m(largest_rad, eye_m);
  measure_plan(setting, plan);
  see_start(setting, pose_of_eye(setting, carried, 0.0), plan);
  return plan;
}

}  // namespace

double largest_lag_in_turn_rad(const TaxiRoute& route, int leg, double ahead_m) {
  const PaintedLine line = painted_line(route, leg);
  return largest_lag_rad(line, carried_lag(line, ahead_m),
                         route.legs[static_cast<std::size_t>(leg)]);
}

TrackAnswer track_answer(const Aircraft& aircraft, const TaxiRoute& route, double nose_clearance_m,
                         int leg, double speed_mps) {
  const Setting setting = setting_of(aircraft, route, leg);
  TrackAnswer answer;
  answer.leg = leg;
  answer.radius_m = setting.arc.radius_m;
  answer.turn_rad = setting.arc.turn_rad;
  answer.eye_side_m = aircraft.eye_side_m;
  answer.steering_limit_rad = aircraft.steering_limit_rad;
  answer.turn_axis_ahead_m = setting.axis_m;
  answer.radius_reachable =
      arctangent(setting.wheelbase_m / setting.arc.radius_m) <= aircraft.steering_limit_rad;
  const bool more_follows = leg + 1 < static_cast<int>(route.legs.size());
  const Leg& entered = route.legs[static_cast<std::size_t>(more_follows ? leg + 1 : leg)];
  answer.crossing = crossing_turn(aircraft, setting.angle_rad, 0.5 * entered.width_m,
                                  nose_clearance_m, setting.arc.radius_m);
  answer.eye_on_line = eye_on_line_plan(setting, leg, speed_mps);
  answer.gear_on_line = gear_on_line_plan(setting, leg, speed_mps);
  return answer;
}

TurnOutline turn_outline(const Aircraft& aircraft, const TaxiRoute& route, int leg) {
  const PaintedLine line = painted_line(route, leg);
  const double length_m = leg_length_m(route.legs[static_cast<std::size_t>(leg)]);
  const double reach_m = aircraft.eye_ahead_m + 30.0;
  TurnOutline outline;
  outline.samples = kEdgeSamples;
  for (int i = 0; i < kEdgeSamples; ++i) {
    const double at_m = (length_m + 2.0 * reach_m) * i / (kEdgeSamples - 1) - reach_m;
    const LinePoint here = line_at(line, at_m);
    const LineOffset width = offset_from_line(line, here.point);
    outline.centre[i] = here.point;
    outline.left_edge[i] = beside(here.point, here.heading_rad, -width.left_half_width_m);
    outline.right_edge[i] = beside(here.point, here.heading_rad, width.right_half_width_m);
  }
  return outline;
}

}  // namespace tillerline
