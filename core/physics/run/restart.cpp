#include "physics/run/restart.hpp"

#include <algorithm>
#include <cstddef>

#include "physics/numerics/elementary.hpp"
#include "physics/world/engines.hpp"

namespace tillerline {
namespace {

using elementary::cosine;

RestartPoint restart_point(const Today& today, const LegToday& leg, const TurnLoads& loads) {
  RollForces forces = leg.at_rest;
  forces.scrub_drag_n = loads.scrub_drag_n;
  const double margin_n = breakaway_margin_n(forces);
  RestartPoint point;
  point.needed_n = std::max(0.0, forces.thrust_n - margin_n);
  point.extra_n = std::max(0.0, -margin_n);
  point.per_engine_n = point.needed_n / today.condition.engines_running;
  point.share_of_limit = point.needed_n / today.thrust_limit_n;
  const double thrust_n = std::max(point.needed_n, forces.thrust_n);
  point.within_limit = thrust_n <= std::max(today.thrust_limit_n, forces.thrust_n);
  // Rolling straight the nose wheels pull across; turned, only the part normal to them counts.
  const double uneven =
      thrust_yaw(today.aircraft, today.condition, thrust_n, leg.grip).nose_grip_needed;
  point.nose_grip_needed = loads.nose_grip_needed + uneven / cosine(loads.nose_angle_rad);
  point.nose_holds = point.nose_grip_needed <= today.limits.nose_grip_share * leg.grip;
  return point;
}

}  // namespace

RestartAnswer restart_answer(const Today& today, const Legs& legs, const Turns& turns) {
  constexpr TurnLoads kStraight;  // no scrub, nose wheels straight
  RestartAnswer answer;
  std::size_t next_turn = 0;
  for (std::size_t i = 0; i < legs.at.size(); ++i) {
    const LegToday& here = legs.at[i];
    const Leg& leg = legs.route.legs[i];
    const bool arc = leg.kind == LegKind::Arc;
    RestartPoint point = restart_point(today, here, arc ? turns[next_turn++].loads : kStraight);
    point.leg = static_cast<int>(i);
    point.at_m = here.start_m + leg.radius_m * here.worst.after_rad;
    answer.points.push(point);
    answer.idle_everywhere = answer.idle_everywhere && point.extra_n <= 0.0;
    if (answer.worst < 0 ||
        point.needed_n > answer.points[static_cast<std::size_t>(answer.worst)].needed_n)
      answer.worst = static_cast<int>(i);
  }
  return answer;
}

const RestartPoint* worst_point(const RestartAnswer& restart) {
  const auto at = static_cast<std::size_t>(restart.worst);  // -1 lies beyond any list
  return at < restart.points.size() ? &restart.points[at] : nullptr;
}

}  // namespace tillerline
