// What the cockpit shows is not what the heat pack has: the probe lags, and fans cool it first.
//
// The probe sits beside the pack. Left alone it settles at a share k of the pack's excess over the
// air, T_air + k (T_pack - T_air), and gets there with a first-order lag tau:
//   tau d(theta)/dt = T_air + k (T_pack - T_air) - theta
// Fans blow on it, so with them k is smaller: the same indication then stands for a hotter pack,
// which is why operators' limits with fans running are lower (about 150 against 300 degC indicated;
// trade sources). An indication is taken as good 10 to 15 minutes after a stop (trade sources):
// three lags of 300 s leave 5 % of a jump, and after a stop that heats a cold brake by 100 to 500 K
// the indication is highest 12 to 15 minutes later; after a taxi, when the probe has followed most
// of the way, 2 to 9. k and tau are inputs; no published values were found.
//
// An indication that is entered is taken as settled, so that it tells the pack:
//   T_pack = T_air + (theta - T_air) / k
// An indication below the air's is taken for the pack's own temperature: the share is one of heat
// given off, and dividing by it would make cold brakes colder than anything about them.
//
// While the pack goes evenly from a to b in the time t the equation has a closed form, which
// `indication_after_k` gives to rounding. Temperatures in K, k > 0, tau > 0.
//
// Heat that soaks from the pack into wheel and tyre is not modelled. It comes later than what is
// indicated: crews are taught 20 to 30 min after a hard stop until rim and tyre are hot (a pilot's
// post), and a fuse plug melted up to 36 min after parking, while its brake's indication had
// already fallen from 400 to 320 degC (NASA Aviation Safety Reporting System, report 909113). So
// kWheelsHeatOn_s is how long after parking a falling indication does not yet speak for the wheel.
#pragma once

#include "physics/given/brief.hpp"

namespace tillerline {

inline constexpr double kWheelsHeatOn_s = 36.0 * 60.0;

struct Probe {
  double lag_s = 300.0;
  double share = 0.85;  // of the pack's excess over the air that it settles at
  double air_k = 288.15;
};
// Fans count only where they are fitted.
Probe brake_probe(const Aircraft& aircraft, double air_k, bool fans_on);

// One brake at one time.
struct BrakeState {
  double pack_k = 0.0;
  double indicated_k = 0.0;

  double read_k(BrakeReading reading) const {
    return reading == BrakeReading::Indicated ? indicated_k : pack_k;
  }
};

// What the probe settles at beside a pack of this temperature.
double settled_indication_k(const Probe& probe, double pack_k);

// The pack beside which a probe has settled at this.
double pack_behind_indication_k(const Probe& probe, double indicated_k);

// A brake of which this was read, its probe settled.
BrakeState brake_as_read(const Probe& probe, BrakeReading reading, double read_k);

// By how much the pack is hotter for every degree that is read more, above the air's temperature.
double pack_per_reading(const Probe& probe, BrakeReading reading);

// Indication after `time_s` while the pack goes evenly from `pack_from_k` to `pack_to_k`. Exact for
// a first-order lag.
double indication_after_k(const Probe& probe, double indicated_k, double pack_from_k,
                          double pack_to_k, double time_s);

}  // namespace tillerline
