#include "physics/run/make_today.hpp"

#include "physics/run/landing_to_stand.hpp"

namespace tillerline {

Today make_today(const Brief& brief) {
  const Air air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  Today today = today_as_given(brief, air);
  today.surface_limits = limits_on_surface(today.aircraft, today.condition, today.limits,
                                           today.technique, today.pavement);
  tighten_for_surface(today.surface_limits, today.limits, today.technique);
  const BrakeWalk brakes = landing_to_stand(today, brief.turnaround).walk;
  today.brakes_k = brakes.mean.now.pack_k;
  today.worst_brake = brakes.worst.now;
  return today;
}

}  // namespace tillerline
