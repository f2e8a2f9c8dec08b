// The hottest brake of many taxis: what decides of it, from each one's mean pack at the line.
//
// Each draw has the temperature of the mean pack at the line (batch_route_heat.hpp). What is read
// of the worst brake (hottest_brake.hpp: its highest indication to come, or its pack) is taken from
// that by straight lines about the nominal run, one for each way in which draws differ:
//   start   the brakes begin hotter: d(read)/d(start) and d(mean)/d(start)
//   work    the mean pack takes more: d(read)/d(mean), with the worst brake's share
//   read = nominal + d(read)/d(start) x start
//        + d(read)/d(mean) x (mean - nominal mean - d(mean)/d(start) x start)
// The slopes come from two more walks of both brakes through the nominal run, with 10 K more at the
// start, and with an even force more along the way that warms the mean pack by some 20 K, which the
// brakes take out. A draw's own cooling and heat capacity count as work. Left out: that a dragging
// brake's own heat changes with them, and how the lines bend (radiation). Against whole reruns, see
// tests/physics/uncertainty_reruns.cpp.
#pragma once

#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"
#include "physics/uncertainty/batch.hpp"

namespace tillerline {

struct HottestLaw {
  double highest_k = 0.0;  // nominal, as read
  double mean_k = 0.0;     // nominal mean pack at the line
  double start_k = 0.0;    // nominal mean pack at the begin
  double air_k = 0.0;
  double mean_per_start = 0.0;
  double read_per_start = 0.0;
  double read_per_mean = 0.0;
};

// `run`: today's nominal run.
HottestLaw hottest_law(const Today& today, const RouteRun& run);

// `line_up_k` the draws' mean packs at the line, `start_more_k` by how much their packs were hotter
// at the begin. Never colder than the colder of the air and the draw's start.
Lanes hottest_k(const HottestLaw& law, const Lanes& line_up_k, const Lanes& start_more_k);

}  // namespace tillerline
