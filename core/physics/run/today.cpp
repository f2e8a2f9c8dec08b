#include "physics/run/today.hpp"

#include "physics/world/engines.hpp"
#include "physics/world/tyre.hpp"

namespace tillerline {
namespace {

void start_engines(Today& today) {
  today.idle = idle_forces(today.aircraft, today.condition, today.air, 0.0, 0.0,
                           today.pavement.displacement_drag_nspm2, today.pavement.snow_drag_nspm);
  today.idle_fuel_kgps = fuel_flow_kgps(today.aircraft, today.condition, 0.0);
  today.thrust_limit_n = today.condition.engines_running * today.aircraft.taxi_thrust_limit_n;
}

// Resistances and pressure as today's tyres have them.
Aircraft on_todays_tyres(const Aircraft& aircraft, double pressure_share) {
  Aircraft with = aircraft;
  const double factor = pressure_factor(pressure_share);
  with.rolling_resistance *= factor;
  with.breakaway_resistance *= factor;
  with.tyre_pressure_pa *= pressure_share;
  return with;
}

}  // namespace

Today today_as_given(const Brief& brief, const Air& air) {
  Today today;
  today.aircraft = on_todays_tyres(brief.aircraft, brief.condition.tyre_pressure_share);
  today.condition = brief.condition;
  today.day = brief.day;
  today.technique = brief.technique;
  today.limits = brief.limits;
  today.air = air;
  today.pavement = pavement_state(today.aircraft, brief.day);
  start_engines(today);
  today.braked_weight_n = braked_load_share(brief.aircraft, brief.condition) *
                          brief.condition.mass_kg * units::kGravity_mps2;
  today.pack = heat_pack(brief.aircraft, air.temperature_k, brief.condition.fans_on);
  today.shares = brake_shares(brief.aircraft, brief.condition);
  today.probe = brake_probe(brief.aircraft, air.temperature_k, brief.condition.fans_on);
  today.worst_brake =
      brake_as_read(today.probe, brief.limits.brake_reading, brief.condition.brake_temperature_k);
  today.brakes_k = today.worst_brake.pack_k;
  today.departure_limit_k = departure_limit_k(brief.aircraft, brief.condition, brief.limits);
  return today;
}

Today with_engines(const Today& today, int running) {
  Today with = today;
  with.condition.engines_running = running;
  start_engines(with);
  return with;
}

}  // namespace tillerline
