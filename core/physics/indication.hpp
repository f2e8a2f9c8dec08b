// What the cockpit shows is not what the heat pack has: the probe lags, and fans cool it first.
#pragma once

#include "physics/brief.hpp"

namespace tillerline {

struct Probe {
  double lag_s = 300.0;
  double share = 0.85;  // of the pack's excess over the air that it settles at
  double air_k = 288.15;
};
Probe brake_probe(const Aircraft& aircraft, double air_k, bool fans_on);

// What the probe settles at beside a pack of this temperature, and the pack that a settled probe
// stands for.
double settled_indication_k(const Probe& probe, double pack_k);
double pack_from_settled_indication_k(const Probe& probe, double indicated_k);

// Indication after `time_s` while the pack goes evenly from `pack_from_k` to `pack_to_k`. Exact for
// a first-order lag.
double indication_after_k(const Probe& probe, double indicated_k, double pack_from_k,
                          double pack_to_k, double time_s);

}  // namespace tillerline
