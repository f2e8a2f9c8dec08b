// The brake temperature along the route as the draws have it: P10, P50 and P90 from place to place.
//
// The same taxis as at the line (uncertainty.hpp), stopped on the way where their energy balance is
// closed (batch_route_heat.hpp): at the begin, where each piece on the brakes or on thrust above
// idle begins, and where it ends; in a run of more than 24 such pieces, where each group of them
// ends. The last place is the line, so its P10, P50 and P90 are the card's. Assumptions, error and
// quantiles are theirs, too. Between two places what a quantile is off the nominal run by is taken
// in proportion to the way.
#pragma once

#include "physics/given/bands.hpp"
#include "physics/given/taxi_route.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/numerics/quantile.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"
#include "physics/uncertainty/batch_route_heat.hpp"

namespace tillerline {

struct HeatBandPoint {
  double distance_m = 0.0;  // along the route
  double nominal_k = 0.0;   // mean pack in the nominal run
  Spread pack_k;            // of the draws, K
};

inline constexpr std::size_t kMostHeatPlaces = 1 + 2 * kMostStretches;
using HeatBand = FixedList<HeatBandPoint, kMostHeatPlaces>;

// `run`: today's nominal run of the route. In the order of
// the distance; empty where the run does not get to the end, or its temperatures are withheld.
HeatBand heat_band(const Today& today, const TaxiRoute& route, const Bands& bands,
                   const Turns& turns, const RouteRun& run);

// At any distance of a band that is not empty: between two places in proportion to the way, beyond
// the ends as there.
HeatBandPoint heat_band_at(const HeatBand& band, double distance_m);

}  // namespace tillerline
