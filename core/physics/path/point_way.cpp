#include "physics/path/point_way.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"

namespace tillerline {
namespace {

using namespace elementary;

// ------------------------------------------------------------------ main gear on the line -------

MotionPhases phases_on_line(const TurnSetting& setting) {
  // Where another arc follows at once the main gear goes on along the line, into it.
  const auto beside_m = [&](int direction) {
    return std::max(kRunUp_m, setting.straight_beside_m(direction, 0.0));
  };
  return phases_along_line(setting.line, -beside_m(-1), leg_length_m(setting.arc) + beside_m(1));
}

PointWay gear_on_eased_line(const TurnSetting& setting, double speed_mps) {
  PointWay way;
  way.kind = WayKind::GearOnLine;
  way.steering_rad = arctangent(setting.wheelbase_m / setting.arc.radius_m);
  way.rate_radps =
      setting.wheelbase_m * speed_mps / (setting.arc.radius_m * leg_easing_m(setting.arc));
  way.ramps_fit = way.rate_radps <= setting.aircraft.steering_rate_radps;
  way.phases = phases_on_line(setting);
  return way;
}

PointWay gear_way(const TurnSetting& setting, double speed_mps) {
  if (leg_easing_m(setting.arc) > 0.0) return gear_on_eased_line(setting, speed_mps);
  const Aircraft& aircraft = setting.aircraft;
  const double radius_m = setting.arc.radius_m;
  const double nose_speed_mps = speed_mps * hypotenuse(radius_m, setting.wheelbase_m) / radius_m;
  const auto turn_at_rate = [&](double rate_radps) {
    return gear_on_line_turn(radius_m, setting.angle_rad, setting.wheelbase_m, setting.eye_m,
                             aircraft.steering_limit_rad, rate_radps, nose_speed_mps);
  };
  PointWay way;
  way.gear = turn_at_rate(aircraft.steering_rate_radps);
  const double room_m = std::min(setting.ramp_room_m(-1), setting.ramp_room_m(1));
  way.ramps_fit = way.gear.start_before_arc_m <= room_m;
  if (!way.ramps_fit) way.gear = turn_at_rate(0.0);
  way.kind = way.ramps_fit ? WayKind::GearByRamps : WayKind::GearOnLine;
  way.steering_rad = way.gear.steering_rad;
  way.rate_radps = way.ramps_fit ? aircraft.steering_rate_radps : 0.0;
  way.start_past_arc_m = -way.gear.start_before_arc_m;
  way.shift_m = way.gear.shift_m;
  const auto beside_m = [&](int direction) {
    return setting.straight_beside_m(direction, way.gear.start_before_arc_m);
  };
  way.phases = way.ramps_fit ? phases_of_ramps(way.gear, beside_m(-1), beside_m(1))
                             : phases_on_line(setting);
  return way;
}

// ------------------------------------------------------------------------ a point ahead ---------

// How far behind the arc the point's lag has died out, to 3 %, and the main gear has left the
// turn's extra pavement.
double runs_out_m(const TurnSetting& setting, double ahead_m) {
  const double gear_left_m = setting.arc.lead_in_m + ahead_m + setting.axis_m;
  return setting.run_out_m(std::max({3.5 * ahead_m, gear_left_m, kRunUp_m + ahead_m}));
}

// From the main gear's coming on to the turn's extra pavement until its leaving that.
MotionPhases phases_of_followed(const TurnSetting& setting, double ahead_m) {
  const double on_m =
      std::min(setting.arc.lead_in_m, setting.ramp_room_m(-1)) - (ahead_m + setting.axis_m);
  return phases_along_line(setting.line, -std::max(kRunUp_m, on_m),
                           leg_length_m(setting.arc) + runs_out_m(setting, ahead_m));
}

// Rate at which the nose wheels turn while the lag grows by `lag_growth_pm` per metre.
double nose_wheel_rate_radps(const TurnSetting& setting, double ahead_m, double lag_rad,
                             double lag_growth_pm, double gear_speed_mps) {
  const double along = ahead_m * cosine(lag_rad);
  const double across = setting.wheelbase_m * sine(lag_rad);
  const double angle_per_lag = ahead_m * setting.wheelbase_m / (along * along + across * across);
  // The turn axis moves at the cosine of the lag times the point's speed.
  const double point_speed_mps = gear_speed_mps / std::max(0.2, cosine(lag_rad));
  return std::abs(angle_per_lag * lag_growth_pm * point_speed_mps);
}

// The greatest, looked for along the way.
double greatest_rate_radps(const TurnSetting& setting, const CarriedLag& carried,
                           double speed_mps) {
  constexpr int kLooks = 121;
  const double ahead_m = carried.ahead_m;
  const double end_m = leg_length_m(setting.arc) + setting.run_out_m(3.5 * ahead_m);
  double greatest = 0.0;
  for (int i = 0; i < kLooks; ++i) {
    const double at_m = (end_m + kRunUp_m) * i / (kLooks - 1) - kRunUp_m;
    const double lag_rad = carried.at_rad(setting.line, at_m);
    const double growth_pm = leg_curvature_pm(setting.arc, at_m) - sine(lag_rad) / ahead_m;
    greatest =
        std::max(greatest, nose_wheel_rate_radps(setting, ahead_m, lag_rad, growth_pm, speed_mps));
  }
  return greatest;
}

// Takes the ramps where the line asks for more than the rate and there is room for them.
bool take_ramps(const TurnSetting& setting, double speed_mps, PointWay& way) {
  const Aircraft& aircraft = setting.aircraft;
  if (leg_easing_m(setting.arc) > 0.0 || !(aircraft.steering_rate_radps > 0.0)) return false;
  if (!(speed_mps > 0.0)) return false;
  // The nose gear is faster than the main-gear axis by 1 / cos(nose-wheel angle).
  const double per_metre = aircraft.steering_rate_radps * cosine(way.steering_rad) / speed_mps;
  const PointOnLineTurn turn = point_on_line_turn(setting.arc.radius_m, setting.angle_rad,
                                                  way.ahead_m, setting.wheelbase_m, per_metre);
  if (!turn.found) return false;
  if (!turn.ramps()) return false;
  const bool fits = way.carried.none_at_turn(setting.line) &&
                    -turn.start_past_arc_m <= setting.ramp_room_m(-1) &&
                    turn.end_past_arc_m <= setting.ramp_room_m(1);
  if (!fits) return false;
  way.kind = WayKind::PointByRamps;
  way.steered = turn;
  way.ramps_fit = true;
  way.steering_rad = turn.steering_rad;
  way.rate_radps = aircraft.steering_rate_radps;
  way.start_past_arc_m = turn.start_past_arc_m;
  way.shift_m = turn.shift_in_m;
  const double on_m = setting.arc.lead_in_m - (way.ahead_m + setting.axis_m);
  const double before_m = std::min(std::max(kRunUp_m, on_m + turn.start_past_arc_m),
                                   setting.ramp_room_m(-1) + turn.start_past_arc_m);
  const double after_m = runs_out_m(setting, way.ahead_m) - turn.end_past_arc_m;
  way.phases = phases_of_point(turn, std::max(0.0, before_m), std::max(0.0, after_m));
  return true;
}

}  // namespace

PointWay point_way(const TurnSetting& setting, double ahead_m, double speed_mps, NoseRate rate) {
  if (ahead_m <= std::max(0.0, kNoPoint * setting.wheelbase_m)) return gear_way(setting, speed_mps);
  PointWay way;
  way.ahead_m = ahead_m;
  way.carried = carried_lag(setting.line, ahead_m);
  // Of the turn itself, not of its neighbours in the picture; and exact, since the lag peaks with a
  // corner where an arc ends, between two samples.
  way.largest_lag_rad = way.carried.largest_rad(setting.line, setting.arc);
  way.steering_rad = nose_wheel_angle_rad(way.largest_lag_rad, ahead_m, setting.wheelbase_m);
  if (rate == NoseRate::Limited && take_ramps(setting, speed_mps, way)) return way;
  way.phases = phases_of_followed(setting, ahead_m);
  return way;
}

void PointWay::judge_rate(const TurnSetting& setting, double speed_mps) {
  if (kind != WayKind::PointOnLine) return;
  rate_radps = greatest_rate_radps(setting, carried, speed_mps);
  ramps_fit = rate_radps <= setting.aircraft.steering_rate_radps;
}

}  // namespace tillerline
