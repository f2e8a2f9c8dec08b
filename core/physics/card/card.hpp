// The card: every answer for one brief, one plain value.
//
// Screen, accessible page, command line and tests all render this and nothing else. It is computed
// in compute_card.hpp.
#pragma once

#include "physics/card/caution.hpp"
#include "physics/card/standards.hpp"
#include "physics/given/brief.hpp"
#include "physics/heat/heat.hpp"
#include "physics/numerics/fixed_list.hpp"
#include "physics/path/half_turn.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn.hpp"
#include "physics/path/wander.hpp"
#include "physics/run/after_landing.hpp"
#include "physics/run/blast.hpp"
#include "physics/run/engine_choices.hpp"
#include "physics/run/restart.hpp"
#include "physics/run/roll_answer.hpp"
#include "physics/run/route_run.hpp"
#include "physics/run/stop.hpp"
#include "physics/uncertainty/uncertainty.hpp"
#include "physics/world/atmosphere.hpp"
#include "physics/world/engines.hpp"
#include "physics/world/surface.hpp"

namespace tillerline {

// A number that the gate took back (card_gate.hpp), and why.
enum class WithheldReason { NotFinite, NoCrossing, OutOfOrder, TooCold, TooHot, NotModelled };

inline constexpr int kWithheldReasons = static_cast<int>(WithheldReason::NotModelled) + 1;

struct Withheld {
  const char* what = "";
  WithheldReason reason = WithheldReason::NotFinite;
  int leg = -1;  // index into the route, -1: the whole taxi
};

inline constexpr std::size_t kMostWithheld = 100;

// What wandering off the planned line makes of the margins of a turn.
struct TurnWander {
  int leg = 0;
  WanderChance eye_on_line;
  WanderChance gear_on_line;
  WanderChance point_on_line;  // where the technique keeps a point between them there

  const WanderChance& chance(TurnTechnique technique) const {
    return ByPoint<WanderChance>{eye_on_line, gear_on_line, point_on_line}.of(technique);
  }
};

struct Card {
  Air air;
  bool possible = true;  // false: some caution of level Exceeded says the taxi cannot be made
  RollAnswer roll;
  FixedList<TurnAnswer, kMaxLegs> turns;
  FixedList<TrackAnswer, kMaxLegs> tracks;  // one per turn, same order
  FixedList<TurnWander, kMaxLegs> wander;   // likewise
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
  FixedList<Withheld, kMostWithheld> withheld;
  FixedList<Caution, kMaxCautions> cautions;
};

}  // namespace tillerline
