// How sure are the answers: the uncertain inputs drawn together, many taxis computed at once.
#pragma once

#include "physics/atmosphere.hpp"
#include "physics/brief.hpp"
#include "physics/fixed_list.hpp"
#include "physics/route_run.hpp"
#include "physics/surface.hpp"
#include "physics/turn.hpp"

namespace tillerline {

// The uncertain inputs, in the order of the ranking.
enum class Unknown {
  IdleThrust,
  Rolling,
  Breakaway,
  Slope,
  Wind,
  Mass,
  BrakesNow,
  HeatCapacity,
  Cooling,
  BrakeHeat,
  Scrub
};
inline constexpr int kUnknowns = 11;

struct Spread {
  double p10 = 0.0;
  double p50 = 0.0;
  double p90 = 0.0;
};

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
  Spread line_up_k;               // pack, mean brake
  double over_brake_limit = 0.0;  // chance
  Spread restart_extra_n;         // at the route's worst place
  double restart_over_limit = 0.0;
  FixedList<TurnChance, kMaxLegs> turns;
  Importance roll_ranking[kUnknowns];  // time to the target, most important first
  Importance heat_ranking[kUnknowns];  // line-up temperature, most important first
};

// `brief` as tightened for its surface, `run` the nominal run of it, `limit_k` the departure limit
// that counts. Deterministic: a fixed low-discrepancy sequence.
UncertaintyAnswer uncertainty_answer(const Brief& brief, const Air& air,
                                     const PavementState& pavement,
                                     const FixedList<TurnAnswer, kMaxLegs>& turns,
                                     const RouteRun& run, double limit_k);

}  // namespace tillerline
