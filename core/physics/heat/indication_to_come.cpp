#include "physics/heat/indication_to_come.hpp"

#include <algorithm>
#include <cmath>

#include "physics/numerics/elementary.hpp"
#include "physics/numerics/quadrature.hpp"
#include "physics/numerics/root_finding.hpp"

namespace tillerline {
namespace {

// After so many lags e^-40 is left of where the indication came from, less than rounding: what was
// before is forgotten.
constexpr double kForgotten_lags = 40.0;

struct LeftAlone {
  const HeatPack& pack;
  const Probe& probe;

  double pack_after_k(double from_k, double time_s) const {
    return temperature_after_time_k(pack, from_k, time_s, 0.0);
  }

  // By how much the indication is still below what the pack stands for.
  double behind_k(const BrakeState& brake) const {
    return settled_indication_k(probe, brake.pack_k) - brake.indicated_k;
  }

  BrakeState after_stretch(const BrakeState& from, double time_s) const {
    const double pack_k = pack_after_k(from.pack_k, time_s);
    const double goal_k = settled_indication_k(probe, pack_k);
    const auto passing_k = [&](double at_s) {
      const double there_k = settled_indication_k(probe, pack_after_k(from.pack_k, at_s));
      return elementary::exponential((at_s - time_s) / probe.lag_s) * (there_k - goal_k);
    };
    return {pack_k,
            goal_k + elementary::exponential(-time_s / probe.lag_s) * (from.indicated_k - goal_k) +
                gauss_integral(kGauss4, 0.0, time_s, passing_k) / probe.lag_s};
  }

  double stretch_s(double pack_k, double passed_s) const {
    constexpr double kOfPassed = 1.0 / 8.0;
    const double content_jpk = pack.mass_kg * specific_heat_jpkgk(pack.material, pack_k);
    const double excess_k = pack_k - pack.air_k;
    const double own_s = content_jpk * excess_k / cooling_power_w(pack, pack_k);
    // As cold as the air it has no time constant to be asked for, nor any change to follow.
    if (!std::isfinite(own_s)) return probe.lag_s;
    return std::min(probe.lag_s, std::max(own_s, kOfPassed * passed_s));
  }

  // Goes on from `from` until `beyond(state)` is no longer positive: when, and what it is there.
  struct Event {
    bool found = false;
    double time_s = 0.0;
    BrakeState brake;
  };
  template <class Beyond>
  Event until(BrakeState from, double longest_s, Beyond&& beyond) const {
    double passed_s = 0.0;
    if (beyond(from) <= 0.0) return {true, passed_s, from};
    while (passed_s < longest_s) {
      const double step_s = stretch_s(from.pack_k, passed_s);
      const BrakeState next = after_stretch(from, step_s);
      const double end = beyond(next);
      if (end <= 0.0) {
        constexpr double kWithin = 1e-8;  // of the stretch
        const double at_s = find_zero_between(
            0.0, beyond(from), step_s, end,
            [&](double time_s) { return beyond(after_stretch(from, time_s)); }, kWithin * step_s);
        return {true, passed_s + at_s, after_stretch(from, at_s)};
      }
      from = next;
      passed_s += step_s;
    }
    return {false, passed_s, from};
  }
};

}  // namespace

BrakeState brake_left_alone(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                            double time_s) {
  const LeftAlone alone{pack, probe};
  BrakeState brake = now;
  const double forgotten_s = time_s - kForgotten_lags * probe.lag_s;
  if (forgotten_s > 0.0) {
    brake.pack_k = alone.pack_after_k(now.pack_k, forgotten_s);
    brake.indicated_k = settled_indication_k(probe, brake.pack_k);
  }
  double passed_s = std::max(0.0, forgotten_s);
  while (passed_s < time_s) {
    const double step_s = std::min(time_s - passed_s, alone.stretch_s(brake.pack_k, passed_s));
    brake = alone.after_stretch(brake, step_s);
    passed_s += step_s;
  }
  return brake;
}

HighestReading highest_indication(const HeatPack& pack, const Probe& probe, const BrakeState& now) {
  if (now.pack_k <= probe.air_k) return {std::max(now.indicated_k, probe.air_k), 0.0};
  const LeftAlone alone{pack, probe};
  const auto behind = [&](const BrakeState& brake) { return alone.behind_k(brake); };
  const LeftAlone::Event peak = alone.until(now, kForgotten_lags * probe.lag_s, behind);
  return {peak.brake.indicated_k, peak.time_s};
}

CoolingTime time_to_indication(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                               double limit_k) {
  if (highest_indication(pack, probe, now).read_k <= limit_k) return {true, 0.0};
  if (limit_k <= probe.air_k) return {};
  // It lags, so the pack stands for the limit before the probe shows it.
  const double limit_pack_k = pack_behind_indication_k(probe, limit_k);
  const CoolingTime of_pack = time_between_temperatures(pack, now.pack_k, limit_pack_k, 0.0);
  const double pack_s = of_pack.reached ? of_pack.time_s : 0.0;  // else it is colder already
  const BrakeState brake = brake_left_alone(pack, probe, now, pack_s);
  const LeftAlone alone{pack, probe};
  const LeftAlone::Event down =
      alone.until(brake, kForgotten_lags * probe.lag_s,
                  [limit_k](const BrakeState& b) { return b.indicated_k - limit_k; });
  return {down.found, pack_s + down.time_s};
}

CoolingTime time_to_reading(const HeatPack& pack, const Probe& probe, const BrakeState& now,
                            BrakeReading reading, double limit_k) {
  if (reading == BrakeReading::Indicated) return time_to_indication(pack, probe, now, limit_k);
  return time_between_temperatures(pack, now.pack_k, limit_k, 0.0);
}

}  // namespace tillerline
