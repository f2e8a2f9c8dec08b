#include "physics/run/restart.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

#include "physics/numerics/elementary.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"

namespace tillerline {
namespace {

using elementary::cosine;

// What all points of one route share.
struct Setting {
  const Brief& brief;
  const Air& air;
  double limit_n;
};

RestartPoint restart_point(const Setting& setting, const Leg& leg, double headwind_mps,
                           const TurnAnswer& turn) {
  const Aircraft& aircraft = setting.brief.aircraft;
  const Condition& condition = setting.brief.condition;
  RollForces forces = idle_forces(aircraft, condition, setting.air, leg.slope_rad, headwind_mps);
  forces.scrub_drag_n = turn.loads.scrub_drag_n;
  const double margin_n = breakaway_margin_n(forces);
  RestartPoint point;
  point.needed_n = std::max(0.0, forces.thrust_n - margin_n);
  point.extra_n = std::max(0.0, -margin_n);
  point.per_engine_n = point.needed_n / condition.engines_running;
  point.share_of_limit = point.needed_n / setting.limit_n;
  const double thrust_n = std::max(point.needed_n, forces.thrust_n);
  point.within_limit = thrust_n <= std::max(setting.limit_n, forces.thrust_n);
  // Rolling straight the nose wheels pull across; turned, only the part normal to them counts.
  const double uneven = thrust_yaw(aircraft, condition, thrust_n, turn.grip).nose_grip_needed;
  point.nose_grip_needed = turn.loads.nose_grip_needed + uneven / cosine(turn.loads.nose_angle_rad);
  point.nose_holds = point.nose_grip_needed <= setting.brief.limits.nose_grip_share * turn.grip;
  return point;
}

}  // namespace

WorstHeadwind worst_headwind(const Leg& leg, double heading_rad, double wind_speed_mps,
                             double wind_from_rad) {
  const auto headwind_at = [&](double heading) {
    return wind_speed_mps * cosine(heading - wind_from_rad);
  };
  WorstHeadwind worst{headwind_at(heading_rad), 0.0};
  if (leg.kind == LegKind::Straight) return worst;
  const auto consider = [&worst](double headwind_mps, double after_rad) {
    if (headwind_mps > worst.headwind_mps) worst = {headwind_mps, after_rad};
  };
  const double turned_rad = std::abs(leg.turn_rad);
  consider(headwind_at(heading_rad + leg.turn_rad), turned_rad);
  // The turn until the nose points into the wind, 0 to a full circle.
  constexpr double kCircle_rad = 2.0 * units::kPi;
  const double off_rad = wind_from_rad - heading_rad;
  const double towards_rad = leg.turn_rad < 0.0 ? -off_rad : off_rad;
  const double until_rad = towards_rad - kCircle_rad * std::floor(towards_rad / kCircle_rad);
  if (until_rad < turned_rad) consider(wind_speed_mps, until_rad);
  return worst;
}

RestartAnswer restart_answer(const Brief& brief, const Air& air,
                             const FixedList<TurnAnswer, kMaxLegs>& turns) {
  const Setting setting{
      .brief = brief,
      .air = air,
      .limit_n = brief.condition.engines_running * brief.aircraft.taxi_thrust_limit_n};
  TurnAnswer straight;  // no scrub, nose wheels straight
  straight.grip = side_grip(pavement_state(brief.aircraft, brief.day), 0.0);
  RestartAnswer answer;
  double heading_rad = brief.route.start_heading_rad;
  double start_m = 0.0;
  std::size_t next_turn = 0;
  for (std::size_t i = 0; i < brief.route.legs.size(); ++i) {
    const Leg& leg = brief.route.legs[i];
    const bool arc = leg.kind == LegKind::Arc;
    const WorstHeadwind wind =
        worst_headwind(leg, heading_rad, brief.day.wind_speed_mps, brief.day.wind_from_rad);
    RestartPoint point =
        restart_point(setting, leg, wind.headwind_mps, arc ? turns[next_turn++] : straight);
    point.leg = static_cast<int>(i);
    point.at_m = start_m + leg.radius_m * wind.after_rad;
    answer.points.push(point);
    answer.idle_everywhere = answer.idle_everywhere && point.extra_n <= 0.0;
    if (answer.worst < 0 ||
        point.needed_n > answer.points[static_cast<std::size_t>(answer.worst)].needed_n)
      answer.worst = static_cast<int>(i);
    start_m += leg_length_m(leg);
    if (arc) heading_rad += leg.turn_rad;
  }
  return answer;
}

const RestartPoint* worst_point(const RestartAnswer& restart) {
  const auto at = static_cast<std::size_t>(restart.worst);  // -1 lies beyond any list
  return at < restart.points.size() ? &restart.points[at] : nullptr;
}

}  // namespace tillerline
