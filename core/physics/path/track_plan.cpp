#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/path/point_way.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn_axis.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// ------------------------------------------------------------ margins and reach, by events ------

// Widens the swing to either side of the line, inside and outside of the turn.
void swing(const TurnSetting& setting, const SweptPoint& point, double& most_inside_m,
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
void measure_plan(const TurnSetting& setting, const Motion& motion, const MotionPhases& phases,
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
void measure_overshoot(const TurnSetting& setting, const Motion& motion, const MotionPhases& phases,
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
void see_start(const TurnSetting& setting, const Pose& start, TrackPlan& plan) {
  const LinePoint bend_end = line_at(setting.line, leg_length_m(setting.arc));
  const Aircraft& aircraft = setting.aircraft;
  plan.start = start;
  plan.from_left = turn_cue(aircraft, eye_at(aircraft, start, Seat::Left), bend_end);
  plan.from_right = turn_cue(aircraft, eye_at(aircraft, start, Seat::Right), bend_end);
}

// ------------------------------------------------------------------------------ samples ---------

void sample_ramped_turn(const TurnSetting& setting, const GearOnLineTurn& turn, TrackPlan& plan) {
  const double span_m = turn.nose_path_m + 2.0 * kRunUp_m;
  for (int i = 0; i < kPlanSamples; ++i) {
    const double nose_m = span_m * i / (kPlanSamples - 1) - kRunUp_m;
    const double inside_m = std::clamp(nose_m, 0.0, turn.nose_path_m);
    Pose pose = gear_on_line_pose(turn, setting.arc.radius_m, setting.angle_rad,
                                  setting.wheelbase_m, inside_m);
    pose = setting.pose_of_axis(ahead_of(pose.gear, pose.heading_rad, nose_m - inside_m),
                                pose.heading_rad);
    plan.pose[i] = {{pose.gear.x_m, setting.side * pose.gear.y_m}, setting.side * pose.heading_rad};
    const double to_end = std::min(inside_m, turn.nose_path_m - inside_m);
    const double share = turn.ramp_nose_m > 0.0 ? std::min(1.0, to_end / turn.ramp_nose_m) : 1.0;
    plan.nose_wheel_rad[i] = setting.side * share * turn.steering_rad;
  }
}

void sample_gear_on_painted_line(const TurnSetting& setting, TrackPlan& plan) {
  const double length_m = leg_length_m(setting.arc);
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = (length_m + 2.0 * kRunUp_m) * i / (kPlanSamples - 1) - kRunUp_m;
    const LinePoint line = line_at(setting.line, at_m);
    plan.pose[i] = setting.pose_of_axis(line.point, line.heading_rad);
    plan.nose_wheel_rad[i] =
        arctangent(setting.wheelbase_m * line_curvature_pm(setting.line, at_m));
  }
}

void sample_steered_point(const TurnSetting& setting, const PointWay& way, TrackPlan& plan) {
  const SteeredPointMotion motion{way.steered, setting.side};
  const MotionPhases& phases = way.phases;
  const double begin_m = phases[0].begin_m;
  const double span_m = phases[phases.size() - 1].end_m - begin_m;
  std::size_t phase = 0;
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = begin_m + span_m * i / (kPlanSamples - 1);
    while (phase + 1 < phases.size() && at_m > phases[phase].end_m) ++phase;
    const SteeredPose here = motion.pose(phases[phase].part, at_m);
    const Point axis{here.axis.x_m, setting.side * here.axis.y_m};
    plan.pose[i] = setting.pose_of_axis(axis, setting.side * here.heading_rad);
    plan.nose_wheel_rad[i] = setting.side * here.steering_rad;
  }
}

// The pose whose followed point stands on the line here, with that lag.
Pose pose_of_point(const TurnSetting& setting, double ahead_m, double lag_rad, double at_m) {
  const LinePoint line = line_at(setting.line, at_m);
  const double heading_rad = line.heading_rad - lag_rad;
  return {ahead_of(line.point, heading_rad, -(ahead_m + setting.axis_m)), heading_rad};
}

void sample_followed_point(const TurnSetting& setting, const PointWay& way, TrackPlan& plan) {
  const double shown_m = std::max(3.5 * way.ahead_m, way.ahead_m + kRunUp_m);
  const double end_m = leg_length_m(setting.arc) + setting.run_out_m(shown_m);
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = (end_m + kRunUp_m) * i / (kPlanSamples - 1) - kRunUp_m;
    const double lag_rad = way.carried.at_rad(setting.line, at_m);
    plan.pose[i] = pose_of_point(setting, way.ahead_m, lag_rad, at_m);
    plan.nose_wheel_rad[i] = nose_wheel_angle_rad(lag_rad, way.ahead_m, setting.wheelbase_m);
  }
}

void sample(const TurnSetting& setting, const PointWay& way, TrackPlan& plan) {
  plan.samples = kPlanSamples;
  if (way.kind == WayKind::GearByRamps) return sample_ramped_turn(setting, way.gear, plan);
  if (way.kind == WayKind::GearOnLine) return sample_gear_on_painted_line(setting, plan);
  if (way.kind == WayKind::PointByRamps) return sample_steered_point(setting, way, plan);
  sample_followed_point(setting, way, plan);
}

// --------------------------------------------------------------------------------- plan ---------

double smallest_radius_m(const TurnSetting& setting, const PointWay& way) {
  if (way.kind == WayKind::GearOnLine) return setting.arc.radius_m;
  if (way.kind == WayKind::PointOnLine)
    return smallest_gear_radius_m(way.largest_lag_rad, way.ahead_m);
  return setting.wheelbase_m / tangent(way.steering_rad);
}

Pose start_pose(const TurnSetting& setting, const PointWay& way) {
  if (way.kind == WayKind::PointOnLine)
    return pose_of_point(setting, way.ahead_m, way.carried.at_begin_rad[setting.line.turn], 0.0);
  return setting.pose_of_axis({way.start_past_arc_m - way.ahead_m, 0.0}, 0.0);
}

TrackPlan plan_of_point(const TurnSetting& setting, TurnTechnique technique, double ahead_m,
                        double speed_mps, NoseRate rate) {
  PointWay way = point_way(setting, ahead_m, speed_mps, rate);
  way.judge_rate(setting, speed_mps);
  TrackPlan plan;
  plan.technique = technique;
  plan.followed_ahead_m = way.ahead_m;
  plan.followed_behind_eye_m = setting.eye_m - way.ahead_m;
  plan.ramps_fit = way.ramps_fit;
  plan.steering_rad = way.steering_rad;
  plan.possible = way.steering_rad <= setting.aircraft.steering_limit_rad;
  plan.steering_rate_radps = way.rate_radps;
  plan.shift_m = way.shift_m;
  plan.start_before_arc_m = way.ahead_m - way.start_past_arc_m;
  plan.eye_past_arc_begin_m = setting.eye_m - plan.start_before_arc_m;
  plan.eye_past_crossing_m =
      plan.eye_past_arc_begin_m - way_to_crossing_m(setting.crossing_radius_m, setting.angle_rad);
  plan.smallest_gear_radius_m = smallest_radius_m(setting, way);
  sample(setting, way, plan);
  const bool plain_gear = way.ahead_m == 0.0 && leg_easing_m(setting.arc) <= 0.0;
  way.with_motion(setting, [&](const auto& motion) {
    measure_plan(setting, motion, way.phases, plan);
    if (plain_gear) {
      plan.nose_overshoot_m = way.gear.nose_overshoot_m;
      plan.eye_overshoot_m = way.gear.eye_overshoot_m;
      return;
    }
    // A main gear on transition curves: within the turn, where the nose is out furthest.
    const MotionPhases within = phases_along_line(setting.line, 0.0, leg_length_m(setting.arc));
    const bool gear = way.kind == WayKind::GearOnLine;
    measure_overshoot(setting, motion, gear ? within : way.phases, plan);
  });
  see_start(setting, start_pose(setting, way), plan);
  return plan;
}

}  // namespace

double largest_lag_in_turn_rad(const TaxiRoute& route, int leg, double ahead_m) {
  const PaintedLine line = painted_line(route, leg);
  return carried_lag(line, ahead_m).largest_rad(line, route.legs[static_cast<std::size_t>(leg)]);
}

TrackAnswer track_answer(const Aircraft& aircraft, const TaxiRoute& route, double nose_clearance_m,
                         int leg, double speed_mps) {
  const TurnSetting setting = turn_setting(aircraft, route, leg);
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
  answer.eye_on_line =
      plan_of_point(setting, TurnTechnique::EyeOnLine, setting.eye_m, speed_mps, NoseRate::AsAsked);
  answer.gear_on_line =
      plan_of_point(setting, TurnTechnique::MainGearOnLine, 0.0, speed_mps, NoseRate::Limited);
  return answer;
}

TrackPlan plan_with_point(const Aircraft& aircraft, const TaxiRoute& route, int leg,
                          double speed_mps, double ahead_m) {
  return plan_of_point(turn_setting(aircraft, route, leg), TurnTechnique::PointOnLine, ahead_m,
                       speed_mps, NoseRate::Limited);
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
