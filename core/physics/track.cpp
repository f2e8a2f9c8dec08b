#include "physics/track.hpp"

#include <algorithm>
#include <cmath>

#include "physics/elementary.hpp"
#include "physics/quadrature.hpp"
#include "physics/root_finding.hpp"
#include "physics/units.hpp"

namespace tillerline {
namespace {

using namespace elementary;

constexpr double kNever_m = 1e9;

Point ahead_of(Point from, double heading_rad, double distance_m) {
  return {from.x_m + distance_m * cosine(heading_rad), from.y_m + distance_m * sine(heading_rad)};
}

// A step to the right of the heading.
Point beside(Point from, double heading_rad, double right_m) {
  return {from.x_m - right_m * sine(heading_rad), from.y_m + right_m * cosine(heading_rad)};
}

double wrapped_rad(double angle_rad) {
  while (angle_rad > units::kPi) angle_rad -= 2.0 * units::kPi;
  while (angle_rad <= -units::kPi) angle_rad += 2.0 * units::kPi;
  return angle_rad;
}

// cosh(r), and sinh(r)/r, both without the common factor exp(r) for r^2 > 0.01; continued to
// cos and sin(r)/r for negative squares.
struct Hyperbolic {
  double cosine_part;
  double sine_over_r;
};

Hyperbolic hyperbolic_pair(double r_squared) {
  if (std::abs(r_squared) < 0.01) {
    const double x = r_squared;
    return {1.0 + x / 2.0 * (1.0 + x / 12.0 * (1.0 + x / 30.0 * (1.0 + x / 56.0))),
            1.0 + x / 6.0 * (1.0 + x / 20.0 * (1.0 + x / 42.0 * (1.0 + x / 72.0)))};
  }
  if (r_squared > 0.0) {
    const double r = square_root(r_squared);
    const double decay = exponential(-2.0 * r);
    return {0.5 * (1.0 + decay), 0.5 * (1.0 - decay) / r};
  }
  const double r = square_root(-r_squared);
  return {cosine(r), sine(r) / r};
}

// ----------------------------------------------------------- the painted line near one turn -----

struct LinePoint {
  Point point;
  double heading_rad;
};

LinePoint along_leg(LinePoint from, const Leg& leg, double distance_m) {
  const double curvature = leg_curvature_pm(leg);
  if (curvature == 0.0)
    return {ahead_of(from.point, from.heading_rad, distance_m), from.heading_rad};
  const double turned = curvature * distance_m;
  const double chord = 2.0 / curvature * sine(0.5 * turned);
  return {ahead_of(from.point, from.heading_rad + 0.5 * turned, chord),
          from.heading_rad + turned};
}

const Leg kEndlessStraight{.kind = LegKind::Straight, .length_m = kNever_m};

// Where the leg `index` begins, in the coordinates of the turn at `turn_leg`.
LinePoint begin_of_leg(const TaxiRoute& route, int turn_leg, int index) {
  LinePoint here{};
  for (int i = turn_leg; i < index; ++i)
    here = along_leg(here, route.legs[static_cast<std::size_t>(i)],
                     leg_length_m(route.legs[static_cast<std::size_t>(i)]));
  for (int i = turn_leg - 1; i >= index; --i) {
    const Leg& leg = route.legs[static_cast<std::size_t>(i)];
    here = along_leg(here, leg, -leg_length_m(leg));
  }
  return here;
}

// The painted line at `distance_m` from the begin of the turn; straight beyond the route's ends.
LinePoint painted_line(const TaxiRoute& route, int turn_leg, double distance_m) {
  LinePoint here{};
  double left_m = distance_m;
  if (left_m >= 0.0) {
    for (std::size_t i = static_cast<std::size_t>(turn_leg); i < route.legs.size(); ++i) {
      const double length_m = leg_length_m(route.legs[i]);
      if (left_m <= length_m) return along_leg(here, route.legs[i], left_m);
      here = along_leg(here, route.legs[i], length_m);
      left_m -= length_m;
    }
    return along_leg(here, kEndlessStraight, left_m);
  }
  for (int i = turn_leg - 1; i >= 0; --i) {
    const Leg& leg = route.legs[static_cast<std::size_t>(i)];
    const double length_m = leg_length_m(leg);
    if (-left_m <= length_m) return along_leg(here, leg, left_m);
    here = along_leg(here, leg, -length_m);
    left_m += length_m;
  }
  return along_leg(here, kEndlessStraight, left_m);
}

// Widening of a straight beside an arc, at `distance_m` from their common point.
double taper_m(const Leg& arc, double distance_m) {
  if (arc.kind != LegKind::Arc || arc.lead_in_m <= 0.0 || distance_m >= arc.lead_in_m) return 0.0;
  return arc.widening_m * (1.0 - distance_m / arc.lead_in_m);
}

void widen_inside(LineOffset& line, const Leg& arc, double widening_m) {
  (arc.turn_rad > 0.0 ? line.right_half_width_m : line.left_half_width_m) += widening_m;
}

// Foot of a point on one leg: distance to the right of it and along it.
struct Foot {
  double offset_m;
  double along_m;
};

Foot foot_on_leg(const Leg& leg, LinePoint begin, Point point) {
  const double dx = point.x_m - begin.point.x_m;
  const double dy = point.y_m - begin.point.y_m;
  const double c = cosine(begin.heading_rad);
  const double s = sine(begin.heading_rad);
  const double forward = dx * c + dy * s;
  const double right = dy * c - dx * s;
  const double curvature = leg_curvature_pm(leg);
  if (curvature == 0.0) return {right, forward};
  const double radius = 1.0 / curvature;  // signed, the centre lies `radius` to the right
  const double to_centre = hypotenuse(forward, right - radius);
  if (radius > 0.0) return {radius - to_centre, radius * arctangent2(forward, radius - right)};
  return {radius + to_centre, -radius * arctangent2(forward, right - radius)};
}

LineOffset widths_on_leg(const TaxiRoute& route, int index, Foot foot) {
  const Leg& leg = route.legs[static_cast<std::size_t>(index)];
  LineOffset line{foot.offset_m, 0.5 * leg.width_m, 0.5 * leg.width_m};
  if (leg.kind == LegKind::Arc) {
    widen_inside(line, leg, leg.widening_m);
    return line;
  }
  if (index + 1 < static_cast<int>(route.legs.size())) {
    const Leg& next = route.legs[static_cast<std::size_t>(index + 1)];
    widen_inside(line, next, taper_m(next, std::max(0.0, leg.length_m - foot.along_m)));
  }
  if (index > 0) {
    const Leg& previous = route.legs[static_cast<std::size_t>(index - 1)];
    widen_inside(line, previous, taper_m(previous, std::max(0.0, foot.along_m)));
  }
  return line;
}

// ------------------------------------------------------------------- the two techniques ---------

// Lag of the leading point `length_m` ahead at `distance_m` from the begin of the turn, carried from
// the begin of the route.
double carried_lag_rad(const TaxiRoute& route, int turn_leg, double length_m, double distance_m) {
  double begin_m = 0.0;  // of the turn, from the route's begin
  for (int i = 0; i < turn_leg; ++i)
    begin_m += leg_length_m(route.legs[static_cast<std::size_t>(i)]);
  double left_m = begin_m + distance_m;
  double lag = 0.0;
  for (const Leg& leg : route.legs) {
    if (left_m <= 0.0) return lag;
    const double step_m = std::min(left_m, leg_length_m(leg));
    lag = lag_after_m(lag, length_m, leg_curvature_pm(leg), step_m);
    left_m -= step_m;
  }
  return left_m > 0.0 ? lag_after_m(lag, length_m, 0.0, left_m) : lag;
}

struct Ramp {
  double heading_rad = 0.0;
  Point gear;
};

// Entry ramp: nose wheels from 0 to `angle_rad`, `per_metre` radians per metre of nose-gear path.
Ramp entry_ramp(double angle_rad, double per_metre, double wheelbase_m) {
  const auto heading_at = [&](double delta) {
    const double half_sine = sine(0.5 * delta);
    return 2.0 * half_sine * half_sine / (per_metre * wheelbase_m);
  };
  Ramp ramp;
  ramp.heading_rad = heading_at(angle_rad);
  // Twice 8 points: the integrand is entire and turns by less than a radian.
  for (const auto& [from, to] : {std::pair{0.0, 0.5 * angle_rad}, {0.5 * angle_rad, angle_rad}}) {
    ramp.gear.x_m += gauss_integral(kGauss8, from, to, [&](double delta) {
      return cosine(heading_at(delta)) * cosine(delta);
    });
    ramp.gear.y_m += gauss_integral(kGauss8, from, to, [&](double delta) {
      return sine(heading_at(delta)) * cosine(delta);
    });
  }
  ramp.gear.x_m /= per_metre;
  ramp.gear.y_m /= per_metre;
  return ramp;
}

// Distance of a point past the outbound centreline (positive: on its far side).
double past_outbound_m(double radius_m, double turn_rad, Point point) {
  const double crossing_x = radius_m * tangent(0.5 * turn_rad);
  // Right normal of the outbound direction is (-sin, cos); the far side is to its left.
  return (point.x_m - crossing_x) * sine(turn_rad) - point.y_m * cosine(turn_rad);
}

double furthest_past_m(const GearOnLineTurn& turn, double radius_m, double turn_rad,
                       double wheelbase_m, double ahead_m) {
  const auto past = [&](double nose_m) {
    const Pose pose = gear_on_line_pose(turn, radius_m, turn_rad, wheelbase_m, nose_m);
    return past_outbound_m(radius_m, turn_rad, point_on_body(pose, ahead_m, 0.0));
  };
  constexpr int kScan = 48;
  const double step = turn.nose_path_m / kScan;
  int best = 0;
  double best_value = past(0.0);
  for (int i = 1; i <= kScan; ++i) {
    const double value = past(i * step);
    if (value > best_value) {
      best_value = value;
      best = i;
    }
  }
  const double low = std::max(0, best - 1) * step;
  const double high = std::min(kScan, best + 1) * step;
  return std::max({0.0, best_value, past(find_peak(low, high, past))});
}

}  // namespace

Point point_on_body(const Pose& pose, double ahead_m, double right_m) {
  return beside(ahead_of(pose.gear, pose.heading_rad, ahead_m), pose.heading_rad, right_m);
}

double lag_after_m(double lag_rad, double length_m, double curvature_pm, double distance_m) {
  const double d = 1.0 / (length_m * length_m) - curvature_pm * curvature_pm;
  const double half = 0.5 * distance_m;
  const Hyperbolic pair = hyperbolic_pair(d * half * half);
  const double decay = pair.sine_over_r * half / length_m;
  const double drive = pair.sine_over_r * half * curvature_pm;
  const double y1 = sine(0.5 * lag_rad);
  const double y2 = cosine(0.5 * lag_rad);
  const double next1 = (pair.cosine_part - decay) * y1 + drive * y2;
  const double next2 = (pair.cosine_part + decay) * y2 - drive * y1;
  return wrapped_rad(2.0 * arctangent2(next1, next2));
}

double nose_wheel_angle_rad(double lag_rad, double ahead_m, double wheelbase_m) {
  // Lags beyond a right angle (a body that turns on the spot and more) keep growing past 90 degrees.
  return arctangent2(wheelbase_m * sine(lag_rad), ahead_m * cosine(lag_rad));
}

double largest_off_tracking_m(double radius_m, double turn_rad, double length_m) {
  const double end_lag = lag_after_m(0.0, length_m, 1.0 / radius_m, radius_m * turn_rad);
  const auto lag_at = [&](double x_m) { return lag_after_m(end_lag, length_m, 0.0, x_m); };
  // Main-gear axis abeam the arc's end when this vanishes (derivation in tests/physics/track.cpp).
  const auto abeam = [&](double x_m) {
    const double lag = lag_at(x_m);
    return x_m * cosine(lag) + radius_m * sine(lag) - length_m;
  };
  double far_m = length_m;
  while (abeam(far_m) < 0.0 && far_m < 64.0 * length_m) far_m *= 2.0;
  const double x = abeam(0.0) >= 0.0 ? 0.0 : find_zero(0.0, far_m, abeam);
  const double lag = lag_at(x);
  const double centre_m = hypotenuse(x - length_m * cosine(lag), radius_m - length_m * sine(lag));
  return (2.0 * radius_m * length_m * sine(lag) + 2.0 * x * length_m * cosine(lag) -
          length_m * length_m - x * x) /
         (radius_m + centre_m);
}

GearOnLineTurn gear_on_line_turn(double radius_m, double turn_rad, double wheelbase_m,
                                 double eye_ahead_m, double steering_limit_rad,
                                 double steering_rate_radps, double nose_speed_mps) {
  GearOnLineTurn turn;
  const double half_tangent = tangent(0.5 * turn_rad);
  turn.steering_rad = arctangent(wheelbase_m / radius_m);
  turn.full_deflection = true;
  const bool ramped = steering_rate_radps > 0.0 && nose_speed_mps > 0.0;
  double begin_to_crossing_m = radius_m * half_tangent;
  if (ramped) {
    const double per_metre = steering_rate_radps / nose_speed_mps;
    Ramp ramp = entry_ramp(turn.steering_rad, per_metre, wheelbase_m);
    if (2.0 * ramp.heading_rad > turn_rad) {
      // The turn is over before full deflection: two ramps make it.
      turn.full_deflection = false;
      turn.steering_rad = 2.0 * arcsine(square_root(0.25 * per_metre * wheelbase_m * turn_rad));
      ramp = entry_ramp(turn.steering_rad, per_metre, wheelbase_m);
      begin_to_crossing_m = ramp.gear.x_m + ramp.gear.y_m * half_tangent;
    } else {
      turn.shift_m = ramp.gear.y_m - radius_m * (1.0 - cosine(ramp.heading_rad));
      begin_to_crossing_m = ramp.gear.x_m - radius_m * sine(ramp.heading_rad) +
                            (radius_m + turn.shift_m) * half_tangent;
    }
    turn.ramp_heading_rad = ramp.heading_rad;
    turn.ramp_nose_m = turn.steering_rad / per_metre;
  }
  const double nose_radius_m = hypotenuse(radius_m, wheelbase_m);
  const double steady_rad = std::max(0.0, turn_rad - 2.0 * turn.ramp_heading_rad);
  turn.nose_path_m =
      2.0 * turn.ramp_nose_m + (turn.full_deflection ? nose_radius_m * steady_rad : 0.0);
  turn.possible = turn.steering_rad <= steering_limit_rad;
  turn.start_before_arc_m = begin_to_crossing_m - radius_m * half_tangent;
  turn.eye_past_crossing_m = eye_ahead_m - begin_to_crossing_m;
  turn.nose_past_crossing_m = wheelbase_m - begin_to_crossing_m;
  turn.eye_past_arc_begin_m = eye_ahead_m - turn.start_before_arc_m;
  turn.nose_overshoot_m = furthest_past_m(turn, radius_m, turn_rad, wheelbase_m, wheelbase_m);
  turn.eye_overshoot_m = furthest_past_m(turn, radius_m, turn_rad, wheelbase_m, eye_ahead_m);
  return turn;
}

Pose gear_on_line_pose(const GearOnLineTurn& turn, double radius_m, double turn_rad,
                       double wheelbase_m, double nose_m) {
  const double begin_x = -turn.start_before_arc_m;
  const auto ramp_pose = [&](double along_m) {  // relative to the manoeuvre's begin
    if (turn.ramp_nose_m <= 0.0) return Pose{{0.0, 0.0}, 0.0};
    const double per_metre = turn.steering_rad / turn.ramp_nose_m;
    const Ramp ramp = entry_ramp(per_metre * along_m, per_metre, wheelbase_m);
    return Pose{ramp.gear, ramp.heading_rad};
  };
  const double clamped = std::clamp(nose_m, 0.0, turn.nose_path_m);
  if (clamped < turn.ramp_nose_m) {
    Pose pose = ramp_pose(clamped);
    pose.gear.x_m += begin_x;
    return pose;
  }
  const double left_m = turn.nose_path_m - clamped;
  if (left_m < turn.ramp_nose_m || !turn.full_deflection) {
    // The exit is the entry mirrored about the bisector.
    const Pose mirror = ramp_pose(left_m);
    const double half_tangent = tangent(0.5 * turn_rad);
    const double crossing_to_end_m = radius_m * half_tangent + turn.start_before_arc_m;
    Point end = ahead_of({radius_m * half_tangent, 0.0}, turn_rad, crossing_to_end_m);
    end = ahead_of(end, turn_rad, -mirror.gear.x_m);
    return {beside(end, turn_rad, mirror.gear.y_m), turn_rad - mirror.heading_rad};
  }
  const double heading = turn.ramp_heading_rad +
                         (clamped - turn.ramp_nose_m) / hypotenuse(radius_m, wheelbase_m);
  // Centre of the steady part: where the ramp's end puts it.
  const Pose ramp_end = ramp_pose(turn.ramp_nose_m);
  const Point centre = beside({begin_x + ramp_end.gear.x_m, ramp_end.gear.y_m},
                              turn.ramp_heading_rad, radius_m);
  return {beside(centre, heading, -radius_m), heading};
}

TightestTurn tightest_turn(const Aircraft& aircraft, double steering_rad) {
  TightestTurn tightest;
  const double r = aircraft.wheelbase_m / tangent(steering_rad);
  const double half_span = 0.5 * aircraft.wheel_span_m;
  tightest.gear_axis_m = r;
  tightest.outer_main_wheel_m = r + half_span;
  tightest.inner_main_wheel_m = r - half_span;
  tightest.nose_gear_m = aircraft.wheelbase_m / sine(steering_rad);
  tightest.nose_tip_m = hypotenuse(r, aircraft.nose_tip_ahead_m);
  tightest.wing_tip_m =
      hypotenuse(r + 0.5 * aircraft.wing_span_m, aircraft.wing_tip_behind_m);
  tightest.tail_m = hypotenuse(r + 0.5 * aircraft.tailplane_span_m, aircraft.tail_behind_m);
  tightest.half_circle_width_m = tightest.nose_gear_m + tightest.outer_main_wheel_m;
  return tightest;
}

LineOffset offset_from_line(const TaxiRoute& route, int leg, Point point) {
  constexpr double kSlack_m = 1e-6;
  const int count = static_cast<int>(route.legs.size());
  const int first = std::max(0, leg - 2);
  const int last = std::min(count - 1, leg + 2);
  LineOffset nearest{.offset_m = kNever_m};
  LinePoint begin = begin_of_leg(route, leg, first);
  for (int i = first; i <= last; ++i) {
    const Leg& here = route.legs[static_cast<std::size_t>(i)];
    const double length_m = leg_length_m(here);
    const Foot foot = foot_on_leg(here, begin, point);
    // The outermost straights go on beyond the part of the route that is looked at.
    const bool straight = here.kind == LegKind::Straight;
    const bool after_begin = foot.along_m >= -kSlack_m || (straight && i == first);
    const bool before_end = foot.along_m <= length_m + kSlack_m || (straight && i == last);
    if (after_begin && before_end && std::abs(foot.offset_m) < std::abs(nearest.offset_m))
      nearest = widths_on_leg(route, i, foot);
    begin = along_leg(begin, here, length_m);
  }
  return nearest;
}

namespace {

double parabola_minimum(const double* value, int count, int at) {
  if (at == 0 || at == count - 1) return value[at];
  const double left = value[at - 1];
  const double right = value[at + 1];
  const double bend = left - 2.0 * value[at] + right;
  if (bend <= 0.0) return value[at];
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
    if (value[i] < value[at]) at = i;
  return {parabola_minimum(value, count, at), at};
}

double edge_margin_m(const LineOffset& line) {
  return std::min(line.left_half_width_m + line.offset_m,
                  line.right_half_width_m - line.offset_m);
}

// Distances that follow from the sampled poses: margins, overshoot, reach.
void measure_plan(const Brief& brief, int leg_index, TrackPlan& plan) {
  const Aircraft& aircraft = brief.aircraft;
  const TaxiRoute& route = brief.route;
  const Leg& arc = route.legs[static_cast<std::size_t>(leg_index)];
  const double side = arc.turn_rad < 0.0 ? -1.0 : 1.0;
  const auto offset = [&](const Pose& pose, double ahead_m, double right_m) {
    return offset_from_line(route, leg_index, point_on_body(pose, ahead_m, right_m));
  };
  const auto past = [&](const Pose& pose, double ahead_m) {
    const Point point = point_on_body(pose, ahead_m, 0.0);
    return past_outbound_m(arc.radius_m, std::abs(arc.turn_rad), {point.x_m, side * point.y_m});
  };
  double left[kPlanSamples];
  double right[kPlanSamples];
  double nose[kPlanSamples];
  for (int i = 0; i < plan.samples; ++i) {
    const Pose& pose = plan.pose[i];
    left[i] = edge_margin_m(offset(pose, 0.0, -0.5 * aircraft.wheel_span_m));
    right[i] = edge_margin_m(offset(pose, 0.0, 0.5 * aircraft.wheel_span_m));
    nose[i] = std::min(
        edge_margin_m(offset(pose, aircraft.wheelbase_m, -0.5 * aircraft.nose_wheel_span_m)),
        edge_margin_m(offset(pose, aircraft.wheelbase_m, 0.5 * aircraft.nose_wheel_span_m)));
    const double nose_outside = -side * offset(pose, aircraft.wheelbase_m, 0.0).offset_m;
    const double gear_inside = side * offset(pose, 0.0, 0.0).offset_m;
    plan.nose_off_line_m = std::max(plan.nose_off_line_m, nose_outside);
    plan.gear_off_line_m = std::max(plan.gear_off_line_m, gear_inside);
    plan.nose_overshoot_m = std::max(plan.nose_overshoot_m, past(pose, aircraft.wheelbase_m));
    plan.eye_overshoot_m = std::max(plan.eye_overshoot_m, past(pose, aircraft.eye_ahead_m));
    for (const double half : {-0.5, 0.5}) {
      const double wing =
          offset(pose, -aircraft.wing_tip_behind_m, half * aircraft.wing_span_m).offset_m;
      const double tail =
          offset(pose, -aircraft.tail_behind_m, half * aircraft.tailplane_span_m).offset_m;
      plan.wing_reach_m = std::max(plan.wing_reach_m, std::abs(wing));
      plan.tail_reach_m = std::max(plan.tail_reach_m, std::abs(tail));
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

// How much of the straight beside the arc its steering ramp may use: all of it, or half when another
// arc wants the other half.
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

Pose mirrored_to(double side, Pose pose) {
  return {{pose.gear.x_m, side * pose.gear.y_m}, side * pose.heading_rad};
}

constexpr double kRunUp_m = 10.0;  // shown straight before and after the manoeuvre

void sample_ramped_turn(const Leg& arc, const Aircraft& aircraft, const GearOnLineTurn& turn,
                        TrackPlan& plan) {
  const double side = arc.turn_rad < 0.0 ? -1.0 : 1.0;
  const double angle = std::abs(arc.turn_rad);
  const double span_m = turn.nose_path_m + 2.0 * kRunUp_m;
  for (int i = 0; i < kPlanSamples; ++i) {
    const double nose_m = span_m * i / (kPlanSamples - 1) - kRunUp_m;
    const double inside_m = std::clamp(nose_m, 0.0, turn.nose_path_m);
    Pose pose =
        gear_on_line_pose(turn, arc.radius_m, angle, aircraft.wheelbase_m, inside_m);
    pose.gear = ahead_of(pose.gear, pose.heading_rad, nose_m - inside_m);
    plan.pose[i] = mirrored_to(side, pose);
    const double to_end = std::min(inside_m, turn.nose_path_m - inside_m);
    const double share = turn.ramp_nose_m > 0.0 ? std::min(1.0, to_end / turn.ramp_nose_m) : 1.0;
    plan.nose_wheel_rad[i] = side * share * turn.steering_rad;
  }
}

void sample_gear_on_painted_line(const Brief& brief, int leg, TrackPlan& plan) {
  const double length_m = leg_length_m(brief.route.legs[static_cast<std::size_t>(leg)]);
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = (length_m + 2.0 * kRunUp_m) * i / (kPlanSamples - 1) - kRunUp_m;
    const LinePoint line = painted_line(brief.route, leg, at_m);
    plan.pose[i] = {line.point, line.heading_rad};
    const bool inside = at_m >= 0.0 && at_m <= length_m;
    const double curvature =
        inside ? leg_curvature_pm(brief.route.legs[static_cast<std::size_t>(leg)]) : 0.0;
    plan.nose_wheel_rad[i] = arctangent(brief.aircraft.wheelbase_m * curvature);
  }
}

TrackPlan gear_on_line_plan(const Brief& brief, int leg, double speed_mps) {
  const Aircraft& aircraft = brief.aircraft;
  const Leg& arc = brief.route.legs[static_cast<std::size_t>(leg)];
  const double angle = std::abs(arc.turn_rad);
  const double nose_speed =
      speed_mps * hypotenuse(arc.radius_m, aircraft.wheelbase_m) / arc.radius_m;
  TrackPlan plan;
  plan.technique = TurnTechnique::MainGearOnLine;
  GearOnLineTurn turn =
      gear_on_line_turn(arc.radius_m, angle, aircraft.wheelbase_m, aircraft.eye_ahead_m,
                        aircraft.steering_limit_rad, aircraft.steering_rate_radps, nose_speed);
  const double room_m =
      std::min(ramp_room_m(brief.route, leg, -1), ramp_room_m(brief.route, leg, 1));
  plan.ramps_fit = turn.start_before_arc_m <= room_m;
  if (!plan.ramps_fit)
    turn = gear_on_line_turn(arc.radius_m, angle, aircraft.wheelbase_m, aircraft.eye_ahead_m,
                             aircraft.steering_limit_rad, 0.0, 0.0);
  plan.possible = turn.possible;
  plan.steering_rad = turn.steering_rad;
  plan.steering_rate_radps = plan.ramps_fit ? aircraft.steering_rate_radps : 0.0;
  plan.shift_m = turn.shift_m;
  plan.start_before_arc_m = turn.start_before_arc_m;
  plan.eye_past_arc_begin_m = turn.eye_past_arc_begin_m;
  plan.eye_past_crossing_m = turn.eye_past_crossing_m;
  plan.smallest_gear_radius_m = aircraft.wheelbase_m / tangent(turn.steering_rad);
  plan.samples = kPlanSamples;
  if (plan.ramps_fit) sample_ramped_turn(arc, aircraft, turn, plan);
  else sample_gear_on_painted_line(brief, leg, plan);
  measure_plan(brief, leg, plan);
  plan.nose_overshoot_m = turn.nose_overshoot_m;
  plan.eye_overshoot_m = turn.eye_overshoot_m;
  return plan;
}

// How far behind the arc the lag is still shown: until it has died out, or the next arc begins.
double eye_run_out_m(const TaxiRoute& route, int leg, double eye_ahead_m) {
  const double died_out_m = 3.5 * eye_ahead_m;
  const std::size_t next = static_cast<std::size_t>(leg) + 1;
  if (next + 1 >= route.legs.size()) return died_out_m;
  return std::min(died_out_m, leg_length_m(route.legs[next]));
}

TrackPlan eye_on_line_plan(const Brief& brief, int leg, double speed_mps) {
  const Aircraft& aircraft = brief.aircraft;
  const Leg& arc = brief.route.legs[static_cast<std::size_t>(leg)];
  const double eye_m = aircraft.eye_ahead_m;
  const double begin_m = -kRunUp_m;
  const double end_m = leg_length_m(arc) + eye_run_out_m(brief.route, leg, eye_m);
  TrackPlan plan;
  plan.technique = TurnTechnique::EyeOnLine;
  plan.samples = kPlanSamples;
  double largest_lag = 0.0;
  for (int i = 0; i < kPlanSamples; ++i) {
    const double at_m = begin_m + (end_m - begin_m) * i / (kPlanSamples - 1);
    const LinePoint line = painted_line(brief.route, leg, at_m);
    const double lag = carried_lag_rad(brief.route, leg, eye_m, at_m);
    const double heading = line.heading_rad - lag;
    plan.pose[i] = {ahead_of(line.point, heading, -eye_m), heading};
    plan.nose_wheel_rad[i] = nose_wheel_angle_rad(lag, eye_m, aircraft.wheelbase_m);
    const bool inside = at_m >= 0.0 && at_m <= leg_length_m(arc);
    const double lag_growth = (inside ? leg_curvature_pm(arc) : 0.0) - sine(lag) / eye_m;
    const double cos_part = eye_m * cosine(lag);
    const double sin_part = aircraft.wheelbase_m * sine(lag);
    const double angle_per_lag =
        eye_m * aircraft.wheelbase_m / (cos_part * cos_part + sin_part * sin_part);
    // The main-gear axis moves at the cosine of the lag times the eye's speed.
    const double eye_speed = speed_mps / std::max(0.2, cosine(lag));
    plan.steering_rate_radps =
        std::max(plan.steering_rate_radps, std::abs(angle_per_lag * lag_growth * eye_speed));
    plan.steering_rad = std::max(plan.steering_rad, std::abs(plan.nose_wheel_rad[i]));
    largest_lag = std::max(largest_lag, std::abs(lag));
  }
  plan.possible = plan.steering_rad <= aircraft.steering_limit_rad;
  plan.ramps_fit = plan.steering_rate_radps <= aircraft.steering_rate_radps;
  plan.start_before_arc_m = eye_m;
  plan.eye_past_crossing_m = -arc.radius_m * tangent(0.5 * std::abs(arc.turn_rad));
  plan.smallest_gear_radius_m = smallest_gear_radius_m(largest_lag, eye_m);
  measure_plan(brief, leg, plan);
  return plan;
}

}  // namespace

double smallest_gear_radius_m(double largest_lag_rad, double ahead_m) {
  const double tangent_of_lag = tangent(std::min(largest_lag_rad, 1.56));
  return tangent_of_lag > 0.0 ? ahead_m / tangent_of_lag : kNever_m;
}

double largest_lag_in_turn_rad(const TaxiRoute& route, int leg, double ahead_m) {
  // Within an arc the lag grows steadily, so it is largest at its end.
  const double length_m = leg_length_m(route.legs[static_cast<std::size_t>(leg)]);
  return std::abs(carried_lag_rad(route, leg, ahead_m, length_m));
}

TrackAnswer track_answer(const Brief& brief, int leg, double speed_mps) {
  const Leg& arc = brief.route.legs[static_cast<std::size_t>(leg)];
  TrackAnswer answer;
  answer.leg = leg;
  answer.radius_m = arc.radius_m;
  answer.turn_rad = arc.turn_rad;
  answer.eye_side_m = brief.aircraft.eye_side_m;
  answer.steering_limit_rad = brief.aircraft.steering_limit_rad;
  answer.radius_reachable = arctangent(brief.aircraft.wheelbase_m / arc.radius_m) <=
                            brief.aircraft.steering_limit_rad;
  answer.eye_on_line = eye_on_line_plan(brief, leg, speed_mps);
  answer.gear_on_line = gear_on_line_plan(brief, leg, speed_mps);
  return answer;
}

TurnOutline turn_outline(const Brief& brief, int leg) {
  const double length_m = leg_length_m(brief.route.legs[static_cast<std::size_t>(leg)]);
  const double reach_m = brief.aircraft.eye_ahead_m + 30.0;
  TurnOutline outline;
  outline.samples = kEdgeSamples;
  for (int i = 0; i < kEdgeSamples; ++i) {
    const double at_m = (length_m + 2.0 * reach_m) * i / (kEdgeSamples - 1) - reach_m;
    const LinePoint line = painted_line(brief.route, leg, at_m);
    const LineOffset width = offset_from_line(brief.route, leg, line.point);
    outline.centre[i] = line.point;
    outline.left_edge[i] = beside(line.point, line.heading_rad, -width.left_half_width_m);
    outline.right_edge[i] = beside(line.point, line.heading_rad, width.right_half_width_m);
  }
  return outline;
}

}  // namespace tillerline
