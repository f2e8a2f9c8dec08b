// Will it roll on idle, and how soon is it too fast?
//
// Both are asked of the route's first leg, from rest, with the forces and the exact motion of
// roll.hpp. A turn's scrub is not counted there.
#pragma once

#include "physics/motion/roll.hpp"
#include "physics/run/legs.hpp"
#include "physics/run/today.hpp"

namespace tillerline {

enum class RollVerdict {
  RollsByItself,  // released, it moves off at idle
  KeepsRolling,   // needs a push to start, then keeps rolling at idle
  NeedsThrust,    // needs thrust above idle all the way
  CannotMove,     // needs more than the thrust limit for taxiing
  StartNotKnown   // in snow or slush (surface.hpp); what is said of rolling holds once it rolls
};

inline constexpr int kRollTargets = 4;

struct RollTarget {
  double speed_mps = 0.0;
  Passage passage;  // from rest, at idle (after the push, where one is needed)
};

struct RollAnswer {
  RollVerdict verdict = RollVerdict::RollsByItself;
  double idle_thrust_n = 0.0;          // standing in calm air
  double thrust_lost_to_wind_n = 0.0;  // of that, standing in the wind of the first leg
  double idle_thrust_per_weight = 0.0;
  double breakaway_margin_n = 0.0;
  double acceleration_mps2 = 0.0;        // just after the start, on the first leg
  RollTarget targets[kRollTargets];      // 5, 10, 15, 20 kt
  TerminalSpeed terminal;                // on the first leg's slope
  double keeps_rolling_slope_rad = 0.0;  // steepest
  double restarts_slope_rad = 0.0;       // steepest
  double start_thrust_n = 0.0;           // total thrust that starts it (0 extra when idle does)
  double extra_thrust_n = 0.0;           // above idle
  double slope_rad = 0.0;                // of the first leg
  double headwind_mps = 0.0;             // on the first leg
  double level_acceleration_mps2 = 0.0;  // on level ground in calm air, for comparison
};

RollAnswer roll_answer(const Today& today, const Legs& legs);

// The weight x slope picture: time to a speed from rest at idle, on a grid. Cells that do not get
// there hold -1. `mass_kg` runs over columns, `slope_rad` over rows from downhill to uphill.
inline constexpr int kMapColumns = 49;
inline constexpr int kMapRows = 41;

struct RollMap {
  double target_mps = 0.0;
  double mass_kg[kMapColumns] = {};
  double slope_rad[kMapRows] = {};
  double time_s[kMapRows][kMapColumns] = {};
  double keeps_rolling_slope_rad[kMapColumns] = {};
  double restarts_slope_rad[kMapColumns] = {};
};
// Of the first leg in its wind, for every mass that the type may taxi at. Where the start is not
// modelled (surface.hpp) it counts as made wherever it then keeps rolling.
RollMap roll_map(const Today& today, const Legs& legs, double target_mps);

}  // namespace tillerline
