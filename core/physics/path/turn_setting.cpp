#include "physics/path/turn_setting.hpp"

#include <algorithm>
#include <cmath>

#include "physics/path/turn_axis.hpp"

namespace tillerline {

TurnSetting turn_setting(const Aircraft& aircraft, const TaxiRoute& route, int leg) {
  const Leg& arc = route.legs[static_cast<std::size_t>(leg)];
  const double axis_m = turn_axis_at_radius_m(aircraft, arc.radius_m);
  return {.aircraft = aircraft,
          .route = route,
          .arc = arc,
          .leg = leg,
          .line = painted_line(route, leg),
          .side = arc.turn_rad < 0.0 ? -1.0 : 1.0,
          .angle_rad = std::abs(arc.turn_rad),
          .crossing_radius_m = crossing_radius_m(arc),
          .axis_m = axis_m,
          .wheelbase_m = aircraft.wheelbase_m - axis_m,
          .eye_m = aircraft.eye_ahead_m - axis_m};
}

Pose TurnSetting::pose_of_axis(Point axis, double heading_rad) const {
  return {ahead_of(axis, heading_rad, -axis_m), heading_rad};
}

double TurnSetting::ramp_room_m(int direction) const {
  constexpr double kNever_m = 1e9;
  const int beside_index = leg + direction;
  const int beyond_index = leg + 2 * direction;
  const int count = static_cast<int>(route.legs.size());
  if (beside_index < 0 || beside_index >= count) return kNever_m;
  const Leg& straight = route.legs[static_cast<std::size_t>(beside_index)];
  if (straight.kind != LegKind::Straight) return 0.0;
  const bool shared = beyond_index >= 0 && beyond_index < count;
  return shared ? 0.5 * straight.length_m : straight.length_m;
}

double TurnSetting::straight_beside_m(int direction, double taken_m) const {
  const double wanted_m = std::max(kRunUp_m, arc.lead_in_m + std::abs(axis_m) - taken_m);
  return std::clamp(ramp_room_m(direction) - taken_m, 0.0, wanted_m);
}

double TurnSetting::run_out_m(double wanted_m) const {
  const std::size_t next = static_cast<std::size_t>(leg) + 1;
  if (next + 1 >= route.legs.size()) return wanted_m;
  return std::min(wanted_m, leg_length_m(route.legs[next]));
}

}  // namespace tillerline
