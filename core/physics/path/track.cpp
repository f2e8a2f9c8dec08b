#include "physics/path/track.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"
#include "physics/numerics/wrapped_angle.hpp"
#include "physics/path/turn_axis.hpp"

namespace tillerline {
namespace {

using namespace elementary;

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
  for (const double half : {0.25 * angle_rad, 0.75 * angle_rad}) {
    for (const GaussNode& node : kGauss8) {
      for (const double side : {-1.0, 1.0}) {
        const double delta = half + side * 0.25 * angle_rad * node.x;
        const double heading = heading_at(delta);
        const double weight = 0.25 * angle_rad * node.weight * cosine(delta);
        ramp.gear.x_m += weight * cosine(heading);
        ramp.gear.y_m += weight * sine(heading);
      }
    }
  }
  ramp.gear.x_m /= per_metre;
  ramp.gear.y_m /= per_metre;
  return ramp;
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
  return angle_of_half_rad(next1, next2);
}

double nose_wheel_angle_rad(double lag_rad, double ahead_m, double wheelbase_m) {
  // Lags beyond a right angle (a body that turns on the spot and more) keep growing past 90
  // degrees.
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
  // One length past the arc's end it is behind that (tan(lag/2) < R/L there); at the end it is
  // abeam already after a turn so long that nothing changes any more.
  const double x = abeam(0.0) >= 0.0 ? 0.0 : find_zero(0.0, length_m, abeam);
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
    turn.ramp_end = ramp.gear;
  }
  const double nose_radius_m = hypotenuse(radius_m, wheelbase_m);
  const double steady_rad = std::max(0.0, turn_rad - 2.0 * turn.ramp_heading_rad);
  turn.nose_path_m =
      2.0 * turn.ramp_nose_m + (turn.full_deflection ? nose_radius_m * steady_rad : 0.0);
  turn.possible = turn.steering_rad <= steering_limit_rad;
  turn.start_before_arc_m = begin_to_crossing_m - radius_m * half_tangent;
  if (turn_rad > kLargestThatCrosses_rad)  // what was good for a difference is no place to name
    begin_to_crossing_m = way_to_crossing_m(radius_m, turn_rad);
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
  const double heading =
      turn.ramp_heading_rad + (clamped - turn.ramp_nose_m) / hypotenuse(radius_m, wheelbase_m);
  // Centre of the steady part: where the ramp's end puts it.
  const Point centre =
      beside({begin_x + turn.ramp_end.x_m, turn.ramp_end.y_m}, turn.ramp_heading_rad, radius_m);
  return {beside(centre, heading, -radius_m), heading};
}

double past_outbound_m(double radius_m, double turn_rad, Point point) {
  const double crossing_x = radius_m * tangent(0.5 * turn_rad);
  // Right normal of the outbound direction is (-sin, cos); the far side is to its left.
  return (point.x_m - crossing_x) * sine(turn_rad) - point.y_m * cosine(turn_rad);
}

TightestTurn tightest_turn(const Aircraft& aircraft, double steering_rad) {
  const double axis_m = turn_axis_at_steering_m(aircraft, steering_rad);
  const double r = turning_radius_m(aircraft, steering_rad);
  const auto radius_of = [&](double ahead_m, double outward_m) {
    return hypotenuse(r + outward_m, ahead_m - axis_m);
  };
  const double half_span = 0.5 * aircraft.wheel_span_m;
  const double inner_m = radius_of(0.0, -half_span);
  TightestTurn tightest;
  tightest.turn_axis_ahead_m = axis_m;
  tightest.turn_radius_m = r;
  tightest.gear_axis_m = radius_of(0.0, 0.0);
  tightest.outer_main_wheel_m = radius_of(0.0, half_span);
  tightest.inner_main_wheel_m = r < half_span ? -inner_m : inner_m;
  tightest.nose_gear_m = (aircraft.wheelbase_m - axis_m) / sine(steering_rad);
  tightest.nose_tip_m = radius_of(aircraft.nose_tip_ahead_m, 0.0);
  tightest.wing_tip_m = radius_of(-aircraft.wing_tip_behind_m, 0.5 * aircraft.wing_span_m);
  tightest.tail_m = radius_of(-aircraft.tail_behind_m, 0.5 * aircraft.tailplane_span_m);
  tightest.half_circle_width_m =
      tightest.nose_gear_m + 0.5 * aircraft.nose_wheel_span_m + tightest.outer_main_wheel_m;
  return tightest;
}

double smallest_gear_radius_m(double largest_lag_rad, double ahead_m) {
  const double tangent_of_lag = tangent(std::min(largest_lag_rad, 1.56));
  return tangent_of_lag > 0.0 ? ahead_m / tangent_of_lag : 1e9;
}

}  // namespace tillerline
