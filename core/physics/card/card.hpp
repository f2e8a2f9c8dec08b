// The card: every answer for one brief, one plain value.
//
// Screen, accessible page, command line and tests all render this and nothing else. It is computed
// in compute_card.hpp.
#pragma once

#include "physics/card/standards.hpp"
#include "physics/given/brief.hpp"
#include "physics/heat/heat.hpp"
#include "physics/motion/roll.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/half_turn.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn.hpp"
#include "physics/run/after_landing.hpp"
#include "physics/run/blast.hpp"
#include "physics/run/engine_choices.hpp"
#include "physics/run/restart.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/stop.hpp"
#include "physics/uncertainty/uncertainty.hpp"
#include "physics/world/atmosphere.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"

namespace tillerline {

// What is likely to go wrong, most serious first. `Exceeded`: a limit is passed or the taxi cannot
// be made. `Care`: it can be made, with attention.
enum class CautionLevel { Exceeded, Care };

enum class CautionKind {
  CannotMove,            // value: thrust needed, N; limit: thrust limit, N
  TurnTooTight,          // value: nose-wheel angle needed, rad; limit: steering limit, rad
  WheelOffPavement,      // value: margin, m (negative)
  EdgeMarginSmall,       // main wheels. value: margin, m; limit: clearance wanted, m
  NoseMarginSmall,       // nose wheels. value: margin, m; limit: clearance wanted, m
  NoseWheelSlides,       // value: grip needed; limit: grip share allowed
  BrakesTooHot,          // value: temperature at the stop, K; limit: departure limit, K
  PeakAboveLimit,        // value: peak, K; limit: departure limit, K
  NoEntrySpeed,          // the limit is below walking pace. value: limit, m/s
  RunsAwayInTurn,        // value: speed at roll-out from walking pace, m/s; limit
  StallsInTurn,          // value: extra thrust that carries it through, N
  NoRestartInTurn,       // idle restarts on a straight there but not in the turn. value: extra, N
  ThrustNeeded,          // route leg needs thrust above idle. value: extra, N
  NeedsPushToStart,      // value: extra thrust, N
  TurnSpeedAboveLimit,   // value: fastest, m/s; limit
  TailwindGrows,         // value: tailwind, m/s
  SteepDownhill,         // value: slope, rad: it accelerates beyond the band quickly
  HardBraking,           // no room for the smooth one. value: deceleration, m/s^2; limit: planned
  LineHiddenBeforeStop,  // value: metres left when lost
  RampsDoNotFit,         // steering ramps overlap a neighbouring turn
  LongTaxiTyres,         // value: distance, m; limit: 10 668 m (TSO-C62 taxi test)
  SurfaceTightens,       // winter or water cuts the limits. value: condition code
  BrakingPoor,           // value: deceleration the surface allows, m/s^2; limit: planned
  RestartBeyondLimit,    // value: thrust needed at the worst place, N; limit: thrust limit, N
  UnevenThrust,          // value: nose-wheel grip needed; limit: grip share allowed
  EnginesNotWarm,        // value: wait at the stop, s
  WorstBrakeTooHot,      // value: worst pack at line-up, K; limit: departure limit, K
  TurnaroundTooShort,    // value: more time on the stand, s
  DraggingBrake,         // value: heat rise it adds, K
  ChanceOfHotBrakes,     // within the limit, but perhaps not. value: chance; limit: 0.1
  ChanceOfRunaway,       // value: chance; limit: 0.1
  ChanceOfStall,         // value: chance; limit: 0.1
  RuleNotMet,            // a published taxiway rule. value: wanted; limit: actual
  NoRoomForHalfTurn      // value: width needed, m; limit: width available, m
};

struct Caution {
  CautionLevel level = CautionLevel::Care;
  CautionKind kind = CautionKind::ThrustNeeded;
  int leg = -1;  // index into the route, -1: the whole taxi
  double value = 0.0;
  double limit = 0.0;
};

inline constexpr int kMaxCautions = 400;

struct Card {
  Air air;
  bool possible = true;  // false: some caution of level Exceeded says the taxi cannot be made
  RollAnswer roll;
  FixedList<TurnAnswer, kMaxLegs> turns;
  FixedList<TrackAnswer, kMaxLegs> tracks;  // one per turn, same order
  HeatAnswer heat;
  StopAnswer stop;
  RouteRun run;
  PavementState pavement;
  SurfaceLimits surface_limits;
  ThrustYaw yaw;  // at the thrust of the worst restart
  EngineChoices engines;
  AfterLanding after_landing;
  RestartAnswer restart;
  BlastAnswer blast;
  StandardsAnswer standards;
  HalfTurn half_turn;
  UncertaintyAnswer uncertainty;
  FixedList<Caution, kMaxCautions> cautions;
};

}  // namespace tillerline
