#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/path/plan_motion.hpp"
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

double lag_at_rad(const CarriedLag& lag, const PaintedLine& line, double distance_m) {
  if (distance_m <= line.pieces[0].begin_m) return 0.0;
  std::size_t i = 0;
  while (i + 1 < line.pieces.size() && distance_m > line.pieces[i + 1].begin_m) ++i;
  return lag.on_piece_rad(line, i, distance_m - line.pieces[i].begin_m);
}

// ------------------------------------------------------------ margins and reach, by events ------

// Widens the swing to either side of the line, inside and outside of the turn.
void swing(const Setting& setting, const SweptPoint& point, double& most_inside_m,
           double& most_outside_m) {
  const bool right = setting.side > 0.0;
  most_inside_m = std::max(most_inside_m, right ? point.most_right_m : point.most_left_m);
  most_outside_m = std::max(most_outside_m, right ? point.most_left_m : point.most_right_m);
}

// The narrower of the two edges of a wheel.
EdgeMargin nearer(const NarrowestEdge& left, const NarrowestEdge& right) {
  const NarrowestEdge& least = left.margin_m <= right.margin_m ? left : right;
  return {least.margin_m, least.bend_pm, least.wheel, least.edge};
}

// Everything that follows from how the body moves: margins and reach.
template <class Motion>
void measure_plan(const Setting& setting, const Motion& motion, const MotionPhases& phases,
                  TrackPlan& plan) {
  const Aircraft& aircraft = setting.aircraft;
  const auto plan_swept = plan_sweep(motion, phases);
  const auto sweep = [&](double ahead_m, double right_m, Sought sought) {
    return plan_swept.of_point(setting.line, {ahead_m - setting.axis_m, right_m}, sought);
  };
  double unused_m = 0.0;
  for (const double side : {-1.0, 1.0}) {
    const SweptPoint main = sweep(0.0, 0.5 * side * aircraft.wheel_span_m, Sought::Both);
    swing(setting, main, plan.main_inside_m, plan.main_outside_m);
    (side < 0.0 ? plan.margins.left_main : plan.margins.right_main) = nearer(main.left, main.right);
    const SweptPoint nose =
        sweep(aircraft.wheelbase_m, 0.5 * side * aircraft.nose_wheel_span_m, Sought::Edges);
    const EdgeMargin of_nose = nearer(nose.left, nose.right);
    if (side < 0.0 || of_nose.margin_m < plan.margins.nose.margin_m) plan.margins.nose = of_nose;
    const SweptPoint wing =
        sweep(-aircraft.wing_tip_behind_m, 0.5 * side * aircraft.wing_span_m, Sought::Swing);
    swing(setting, wing, plan.wing_inside_m, plan.wing_outside_m);
    const SweptPoint tail =
        sweep(-aircraft.tail_behind_m, 0.5 * side * aircraft.tailplane_span_m, Sought::Swing);
    double tail_inside_m = 0.0;
    swing(setting, tail, tail_inside_m, plan.tail_swing_m);
    plan.tail_reach_m = std::max({plan.tail_reach_m, tail_inside_m, plan.tail_swing_m});
  }
  plan.wing_reach_m = std::max(plan.wing_inside_m, plan.wing_outside_m);
  swing(setting, sweep(aircraft.wheelbase_m, 0.0, Sought::Swing), unused_m, plan.nose_off_line_m);
  swing(setting, sweep(0.0, 0.0, Sought::Swing), plan.gear_off_line_m, unused_m);
}

// Furthest past the outbound centreline: nose gear and eye.
template <class Motion>
void measure_overshoot(const Setting& setting, const Motion& motion, const MotionPhases& phases,
                       TrackPlan& plan) {
  const auto sweep = plan_sweep(motion, phases);
  const LinePoint outbound = line_at(setting.line, leg_length_m(setting.arc));
  const auto past_m = [&](double ahead_m) {
    return sweep.furthest_past_m(outbound, setting.side, {.ahead_m = ahead_m});
  };
  plan.nose_overshoot_m = past_m(setting.wheelbase_m);
  plan.eye_overshoot_m = past_m(setting.eye_m);
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

// How far beside the manoeuvre, which has taken `taken_m` of it already, the straight still belongs
// to this turn: as far as its extra pavement leads in, ten metres at least, and no farther than a
// ramp might reach.
double straight_beside_m(const Setting& setting, int leg, int direction, double taken_m) {
  const double wanted_m =
      std::max(kRunUp_m, setting.arc.lead_in_m + std::abs(setting.axis_m) - taken_m);
  return std::clamp(ramp_room_m(setting.route, leg, direction) - taken_m, 0.0, wanted_m);
}

MotionPhases phases_on_line(const Setting& setting, int leg) {
  // Where another arc follows at once the main gear goes on along the line, into it.
  const auto beside_m = [&](int direction) {
    return std::max(kRunUp_m, straight_beside_m(setting, leg, direction, 0.0));
  };
  return phases_along_line(setting.line, -beside_m(-1), leg_length_m(setting.arc) + beside_m(1));
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

TrackPlan gear_on_eased_line_plan(const Setting& setting, int leg, double speed_mps) {
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
  const double length_m = leg_length_m(setting.arc);
  const OnLineMotion motion{setting.line};
  measure_plan(setting, motion, phases_on_line(setting, leg), plan);
  measure_overshoot(setting, motion, phases_along_line(setting.line, 0.0, length_m), plan);
  see_start(setting, pose_of_axis(setting, {}, 0.0), plan);
  return plan;
}

TrackPlan gear_on_line_plan(const Setting& setting, int leg, double speed_mps) {
  if (leg_easing_m(setting.arc) > 0.0) return gear_on_eased_line_plan(setting, leg, speed_mps);
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
  if (plan.ramps_fit) {
    sample_ramped_turn(setting, turn, plan);
    const RampedMotion motion{turn, radius_m, setting.angle_rad, setting.wheelbase_m, setting.side};
    const auto beside_m = [&](int direction) {
      return straight_beside_m(setting, leg, direction, turn.start_before_arc_m);
    };
    measure_plan(setting, motion, phases_of_ramps(turn, beside_m(-1), beside_m(1)), plan);
  } else {
    sample_gear_on_painted_line(setting, plan);
    measure_plan(setting, OnLineMotion{setting.line}, phases_on_line(setting, leg), plan);
  }
  see_start(setting, pose_of_axis(setting, {-turn.start_before_arc_m, 0.0}, 0.0), plan);
  plan.nose_overshoot_m = turn.nose_overshoot_m;
  plan.eye_overshoot_m = turn.eye_overshoot_m;
  return plan;
}

// ------------------------------------------------------------------------ eye on the line -------

// How far behind the arc a turn still counts: `wanted_m`, or until the next arc begins.
double run_out_m(const TaxiRoute& route, int leg, double wanted_m) {
  const std::size_t next = static_cast<std::size_t>(leg) + 1;
  if (next + 1 >= route.legs.size()) return wanted_m;
  return std::min(wanted_m, leg_length_m(route.legs[next]));
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

// The pose whose eye stands on the line here, with that lag.
Pose pose_of_eye(const Setting& setting, double lag_rad, double at_m) {
  const LinePoint line = line_at(setting.line, at_m);
  const double heading_rad = line.heading_rad - lag_rad;
  return {ahead_of(line.point, heading_rad, -setting.aircraft.eye_ahead_m), heading_rad};
}

TrackPlan eye_on_line_plan(const Setting& setting, int leg, double speed_mps) {
  const Aircraft& aircraft = setting.aircraft;
  const double eye_m = setting.eye_m;
  const double arc_m = leg_length_m(setting.arc);
  const double died_out_m = 3.5 * eye_m;  // 3 % of the lag
  const double end_m = arc_m + run_out_m(setting.route, leg, died_out_m);
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
    plan.pose[i] = pose_of_eye(setting, lag_rad, at_m);
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
  const FollowedMotion motion{setting.line, carried};
  // From the main gear's coming on to the turn's extra pavement until its leaving that.
  const double lead_in_m = setting.arc.lead_in_m;
  const double on_m =
      std::min(lead_in_m, ramp_room_m(setting.route, leg, -1)) - aircraft.eye_ahead_m;
  const double off_m =
      run_out_m(setting.route, leg, std::max(died_out_m, lead_in_m + aircraft.eye_ahead_m));
  const MotionPhases phases =
      phases_along_line(setting.line, -std::max(kRunUp_m, on_m), arc_m + off_m);
  measure_plan(setting, motion, phases, plan);
  measure_overshoot(setting, motion, phases, plan);
  see_start(setting, pose_of_eye(setting, carried.at_begin_rad[setting.line.turn], 0.0), plan);
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
