#include "physics/run/make_today.hpp"

#include "physics/run/after_landing.hpp"

namespace tillerline {

Today make_today(const Brief& brief) {
  const Air air = day_air(brief.route.start_elevation_m, brief.day.qnh_pa, brief.day.temperature_k);
  Today today = today_as_given(brief, air);
  today.surface_limits = limits_on_surface(today.aircraft, today.condition, today.limits,
                                           today.technique, today.pavement);
  tighten_for_surface(today.surface_limits, today.limits, today.technique);
  today.brakes_k = brakes_at_taxi_out_k(today, brief.turnaround);
  return today;
}

}  // namespace tillerline
