// How long the brakes are on during a taxi, and how much of their work they do where carbon wears
// most.
//
// Wear of carbon goes with the count of applications first and with temperature second: low below
// 80 degC and again above 250 degC as indicated (two makes; a third: 150 and 315), high between
// (fleet experience of a maker, 2014, read; transitions of friction and wear at 140 to 200 degC
// from water vapour: Tanner and Travis, SAE 2005-01-3436). How much higher was not found in
// numbers, nor what a light, long application wears: so this says how much work falls between, and
// makes no wear of it.
//
// The indication is taken as settled beside the mean pack (indication.hpp), the pack as going
// evenly within a piece of the run. SI units.
#pragma once

#include "physics/heat/indication.hpp"
#include "physics/run/route_run.hpp"

namespace tillerline {

inline constexpr double kMostWearFrom_k = units::kelvin_from_celsius(80.0);
inline constexpr double kMostWearTo_k = units::kelvin_from_celsius(250.0);

struct BrakeUse {
  double on_s = 0.0;         // applied or dragging
  double most_wear_j = 0.0;  // of the energy, taken between those two indications
};
BrakeUse brake_use(const RouteRun& run, const Probe& probe);

}  // namespace tillerline
