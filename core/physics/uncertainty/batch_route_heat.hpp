// Brake heat along a route for many draws at once, from the one nominal run.
//
// Crew and technique fix the speeds, so the nominal run's history of speed stands in every draw,
// and the brakes take what the work along each stretch changes by:
//   E = max(0, E_nominal + [W_draw - W_nominal]),
//   W = integral (idle thrust - resistances) ds + m (v0^2 - v1^2)/2
// A stretch ends with each application, each drag on the brakes, and each piece on thrust above
// idle (where E_nominal is the work of that thrust, negative). Within a piece the speed is the
// parabola in time that has the piece's ends and mean (air drag to 2 %, of which only what a draw
// changes counts). The air drag's sign is that of the mean air
// speed of the stretch. Where the wind overtakes the aircraft (roll.hpp) a draw of the wind changes
// the thrust as if the way on which it does stayed the same. A run of more than 24 stretches is
// taken in groups of neighbours, in which pieces on thrust count by their time only.
//
// Where slopes are not surveyed each leg is off by its own angle, to first order: that is what the
// way on each leg is kept for.
//
// Then one mean pack is cooled and heated (batch_heat.hpp), each stretch's energy spread over the
// piece that ends it (over all of it in a group). At each place what a draw changes of the
// temperature is added to the nominal run's there. Left out: a new plan of the route (turn entries,
// one application more or less). Measured against full reruns with the same draws
// (tests/physics/uncertainty_reruns.cpp), on slopes from -0.6 % to +0.4 %: 0.2 to 3.8 K draw by
// draw (rms), where P10 and P90 lie 31 to 46 K apart; P50 and P90 off by at most 0.9 and 2.5 K. It
// is worst where idle just holds the speed. With rolling resistance uncertain up to +60 %, where
// many draws need thrust that the nominal run does not: up to 6.5 K draw by draw where P10 and P90
// lie some 55 K apart, P50 and P90 off by at most 3.1 and 1.5 K.
// With the wind off by up to 4 m/s on one heading: 1.6 K where they lie 47 K apart.
#pragma once

#include "physics/run/route_run.hpp"
#include "physics/uncertainty/batch_draws.hpp"
#include "physics/uncertainty/batch_heat.hpp"

namespace tillerline {

inline constexpr std::size_t kMostStretches = 24;

// What the unknowns act on along one stretch of the nominal run: integrals over its way.
struct Stretch {
  double duration_s = 0.0;
  double heating_s = 0.0;       // of that, at its end, while the energy goes in
  double end_m = 0.0;           // along the route
  double end_k = 0.0;           // mean pack there, in the nominal run
  double heating_from_m = 0.0;  // where the energy begins to go in
  double heating_from_k = 0.0;
  double energy_j = 0.0;        // nominal: into the brakes less the work of thrust above idle
  double length_m = 0.0;        // integral ds
  double level_m = 0.0;         // cos(slope) ds
  double climb_m = 0.0;         // sin(slope) ds
  double rolling_m = 0.0;       // cos(slope) (1 + f v^2) ds
  double sine_rolling_m = 0.0;  // sin(slope) (1 + f v^2) ds
  double air_m3ps2 = 0.0;       // (v + w)^2 ds
  double air_m2ps = 0.0;        // (v + w) ds
  double overtaken_m2ps = 0.0;  // max(0, -(v + w)) ds
  double overtaken_m = 0.0;     // ds where v + w < 0
  double kinetic_m2ps2 = 0.0;   // sum of (v0^2 - v1^2)/2
  Scrub scrub_j;                // scrub ds
};

struct RouteHeat {
  FixedList<Stretch, kMostStretches> stretches;
  double level_m[kMostStretches][kMaxLegs] = {};  // cos(slope) ds of a stretch on each leg
  double nominal_work_j[kMostStretches] = {};
  int cooling_steps[kMostStretches] = {};
  int heating_steps[kMostStretches] = {};
  RollForces forces;  // of the first leg: for what is the same on all
  BatchPack pack;
  double start_k = 0.0;
  double pack_per_reading =
      1.0;                  // the unknown of the start is one of what is read (indication.hpp)
  double pack_share = 0.0;  // of the braking work, one pack
  double model_from_k[kMostStretches] = {};  // nominal by this model, where the heating begins
  double model_k[kMostStretches] = {};       // and at the end of the stretch
  double model_end_k = 0.0;                  // at the line
  double run_end_k = 0.0;
};

// `forces`: idle forces of any leg, for what is the same on all.
RouteHeat route_heat(const Today& today, const RouteRun& run, const Scrubs& scrubs,
                     const RollForces& forces);

// Temperature of the mean pack at the line in every lane, K.
Lanes line_up_k(const RouteHeat& heat, const DrawBlock& draws);

// The same on the way: a block of taxis that is taken along, one stretch after the other. The
// temperatures in it are the model's. They stand for the nominal run's and what the model makes of
// the difference, and never for less than `coldest_k`, the air or the draw's start.
struct BlockOnWay {
  BatchPack pack;
  Lanes model_k;
  Lanes coldest_k;
};
BlockOnWay block_at_start(const RouteHeat& heat, const DrawBlock& draws);
// From the begin of stretch `n` to where its heating begins, and from there to its end.
void roll_on(const RouteHeat& heat, std::size_t n, BlockOnWay& block);
void heat_on(const RouteHeat& heat, std::size_t n, const DrawBlock& draws, BlockOnWay& block);

}  // namespace tillerline
