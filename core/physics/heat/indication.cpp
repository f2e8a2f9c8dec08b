#include "physics/heat/indication.hpp"

#include "physics/numerics/elementary.hpp"

namespace tillerline {

Probe brake_probe(const Aircraft& aircraft, double air_k, bool fans_on) {
  const bool fans = fans_on && aircraft.fan_convection_wpm2k > 0.0;
  return {.lag_s = aircraft.probe_lag_s,
          .share = fans ? aircraft.probe_share_fans : aircraft.probe_share,
          .air_k = air_k};
}

double settled_indication_k(const Probe& probe, double pack_k) {
  return probe.air_k + probe.share * (pack_k - probe.air_k);
}

double pack_behind_indication_k(const Probe& probe, double indicated_k) {
  if (indicated_k <= probe.air_k) return indicated_k;
  return probe.air_k + (indicated_k - probe.air_k) / probe.share;
}

BrakeState brake_as_read(const Probe& probe, BrakeReading reading, double read_k) {
  if (reading == BrakeReading::HeatPack) return {read_k, settled_indication_k(probe, read_k)};
  return {pack_behind_indication_k(probe, read_k), read_k};
}

double pack_per_reading(const Probe& probe, BrakeReading reading) {
  return reading == BrakeReading::Indicated ? 1.0 / probe.share : 1.0;
}

double indication_after_k(const Probe& probe, double indicated_k, double pack_from_k,
                          double pack_to_k, double time_s) {
  if (time_s <= 0.0) return indicated_k;
  const double goal_from_k = settled_indication_k(probe, pack_from_k);
  const double goal_to_k = settled_indication_k(probe, pack_to_k);
  const double lags = time_s / probe.lag_s;
  const double caught_up = -elementary::exponential_minus_one(-lags);  // 1 - e^(-t/tau)
  return indicated_k + caught_up * (goal_from_k - indicated_k) +
         (1.0 - caught_up / lags) * (goal_to_k - goal_from_k);
}

}  // namespace tillerline
