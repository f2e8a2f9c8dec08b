#include "physics/run/stop.hpp"

#include <algorithm>

#include "physics/given/taxi_route.hpp"
#include "physics/motion/application.hpp"
#include "physics/path/obscured_ground.hpp"

namespace tillerline {
namespace {

// Where the eye stops, counted back from the line (negative: beyond it).
double eye_before_line_at_stop_m(const Aircraft& aircraft, const Limits& limits,
                                 const TaxiRoute& route) {
  if (route.end == RouteEnd::StandMark) return aircraft.wheelbase_m - aircraft.eye_ahead_m;
  const double nose_ahead_of_eye_m = aircraft.nose_tip_ahead_m - aircraft.eye_ahead_m;
  const double by_rule_m = nose_ahead_of_eye_m + limits.stop_short_m;
  if (!route.stop_bar_lit) return by_rule_m;
  const double obscured_m = obscured_ahead_m(aircraft.eye_height_m, aircraft.view_cutoff_rad, 0.0);
  return std::max(by_rule_m, obscured_m + limits.stop_bar_view_m);
}

}  // namespace

double stop_position_m(const Aircraft& aircraft, const Limits& limits, const TaxiRoute& route) {
  return route_length_m(route) - eye_before_line_at_stop_m(aircraft, limits, route) -
         aircraft.eye_ahead_m;
}

StopAnswer stop_answer(const Aircraft& aircraft, const Limits& limits, const TaxiRoute& route,
                       const Application& application) {
  StopAnswer answer;
  answer.end = route.end;
  answer.stop_bar_lit = route.stop_bar_lit;
  answer.obscured_m = obscured_ahead_m(aircraft.eye_height_m, aircraft.view_cutoff_rad, 0.0);
  answer.nose_ahead_of_eye_m = aircraft.nose_tip_ahead_m - aircraft.eye_ahead_m;
  answer.eye_before_line_m = eye_before_line_at_stop_m(aircraft, limits, route);
  answer.nose_before_line_m = answer.eye_before_line_m - answer.nose_ahead_of_eye_m;
  answer.gear_before_line_m = answer.eye_before_line_m + aircraft.eye_ahead_m;
  answer.nose_gear_before_line_m = answer.gear_before_line_m - aircraft.wheelbase_m;
  answer.tail_before_line_m = answer.gear_before_line_m + aircraft.tail_behind_m;
  answer.line_visible_at_stop = answer.eye_before_line_m > answer.obscured_m;
  answer.nose_before_line_when_lost_m = answer.obscured_m - answer.nose_ahead_of_eye_m;
  answer.left_when_lost_m = answer.obscured_m - answer.eye_before_line_m;
  answer.approach_mps = application.v0_mps;
  answer.brake_distance_m = application.length_m;
  answer.brake_time_s = application.duration_s;
  answer.eye_before_line_at_brake_m = answer.eye_before_line_m + application.length_m;
  answer.line_visible_at_brake = answer.eye_before_line_at_brake_m > answer.obscured_m;
  if (answer.left_when_lost_m > 0.0) {
    answer.speed_when_lost_mps = answer.left_when_lost_m >= application.length_m
                                     ? application.v0_mps
                                     : application_speed_mps(application, answer.left_when_lost_m);
    if (answer.speed_when_lost_mps > 0.0)
      answer.left_when_lost_s = answer.left_when_lost_m / answer.speed_when_lost_mps;
  }
  return answer;
}

}  // namespace tillerline
