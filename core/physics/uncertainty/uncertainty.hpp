// How uncertain the answers are: the uncertain inputs drawn together, many taxis computed at once.
//
// Draws. 1024 points of a fixed low-discrepancy sequence (low_discrepancy.hpp), so that the same
// brief has the same answer everywhere. Each unknown is triangular within its band (bands.hpp),
// most likely at its nominal value. Unknowns are independent of each other; each is the same all
// along the route: the headwind is off by the same speed on every leg, scrub by the same share in
// every turn, and surveyed slopes by the same angle (the worst case: errors of single legs would
// partly cancel). Slopes that follow from elevations or are guessed are off leg by leg
// (slope_errors.hpp), all together as the one unknown Slope. Starting to roll never takes less than
// rolling on: where a draw has it so, its rolling resistance counts for both.
//
// Roll, critical slopes, turns. Every draw is an exact roll (batch_roll.hpp).
//
// Brakes. A draw is not a new run of the route but a change of the nominal one: crew and technique
// fix the speeds, and the brakes take what the work along each stretch changes by
// (batch_route_heat.hpp). Bands of zero give the nominal answer exactly.
// Error: the route is not planned again with the draw's inputs. Measured in batch_route_heat.hpp.
// The hottest brake, which the limit is for, follows from the mean one (hottest_draws.hpp).
//
// Quantiles are those of quantile.hpp. With triangular inputs an analytic one is met to 0.3 % of
// the band.
//
// Ranking. First-order and total indices (sobol_index.hpp) from 512 pairs, held to [0, 1]. That of
// the roll is for the mean acceleration up to the target, target / time, which is 0 for a draw that
// never gets there; where fewer than nine draws of ten do, for the acceleration at rest. That of
// the heat is for the line-up temperature.
//
// Edge margins are not among what is drawn and ranked. The planned tracks follow from the route,
// the aircraft's dimensions and the planned entry of the nominal run, none of which has a band;
// what is uncertain about a margin is the wander (wander.hpp), and an index over one unknown tells
// nothing.
#pragma once

#include "physics/given/bands.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/numerics/quantile.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

struct TurnChance {
  int leg = 0;
  double runs_away = 0.0;  // chance that it passes the turn's limit from the planned entry
  double stalls = 0.0;     // chance that it falls to walking pace
};

// How much of an answer's variance one unknown explains: first-order and total Sobol index.
struct Importance {
  Unknown unknown = Unknown::IdleThrust;
  double first = 0.0;
  double total = 0.0;
};

struct UncertaintyAnswer {
  int draws = 0;
  double rolls_by_itself = 0.0;  // chance
  double target_mps = 0.0;       // of the two below
  Spread time_to_target_s;       // among the draws that get there
  Spread distance_to_target_m;
  double reaches_target = 0.0;  // chance
  Spread keeps_rolling_slope_rad;
  Spread restarts_slope_rad;
  Spread line_up_k;               // heat pack of the mean brake
  Spread hottest_k;               // what decides of the hottest brake, as read (heat.hpp)
  double over_brake_limit = 0.0;  // chance that this passes the limit
  Spread restart_extra_n;         // at the route's worst place
  double restart_over_limit = 0.0;
  FixedList<TurnChance, kMaxLegs> turns;
  bool ranked_at_rest = false;         // roll_ranking is for the acceleration at rest
  Importance roll_ranking[kUnknowns];  // time to the target, most important first
  Importance heat_ranking[kUnknowns];  // line-up temperature, most important first
};

// `run` the nominal run, `turns` with the entries of that run. Deterministic: a fixed
// low-discrepancy sequence.
UncertaintyAnswer uncertainty_answer(const Today& today, const Legs& legs, const Bands& bands,
                                     const Turns& turns, const RouteRun& run);

}  // namespace tillerline
