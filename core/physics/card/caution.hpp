// A caution: one answer of the card that is at odds with one limit, and what holds for its kind.
//
// A kind is one row of kCautionFacts: its word in documents, how serious it is, the unit of its two
// numbers, whether it stops the taxi, and which way it gets worse.
#pragma once

#include <cstddef>

namespace tillerline {

// `Exceeded`: a limit is passed or the taxi cannot be made. `Care`: it can be made, with attention.
enum class CautionLevel { Exceeded, Care };

enum class CautionKind {
  CannotMove,            // value: thrust needed; limit: thrust limit
  TurnTooTight,          // value: nose-wheel angle needed; limit: steering limit
  WheelOffPavement,      // value: margin (negative)
  WingTipStrikes,        // value: gap to the nearest object (negative)
  EdgeMarginSmall,       // main wheels. value: margin; limit: clearance wanted
  NoseMarginSmall,       // nose wheels. value: margin; limit: clearance wanted
  WingTipNearObject,     // value: gap to the nearest object; limit: clearance wanted
  NoseWheelSlides,       // value: grip needed; limit: grip share allowed
  BrakesTooHot,          // value: what decides of the hottest brake; limit: departure limit
  PeakAboveLimit,        // value: the hottest brake's highest on the way; limit: departure limit
  NoEntrySpeed,          // the limit is below walking pace. value: limit; limit: walking pace
  RunsAwayInTurn,        // value: speed at roll-out from walking pace; limit
  StallsInTurn,          // value: extra thrust that carries it through
  NoRestartInTurn,       // idle restarts on a straight there but not in the turn. value: extra
  ThrustNeeded,          // route leg needs thrust above idle. value: extra
  NeedsPushToStart,      // value: extra thrust
  SlopeDecidesStart,     // value: how far the first slope may be off; limit: from where it decides
  TurnSpeedAboveLimit,   // value: fastest; limit
  TailwindGrows,         // value: tailwind
  SteepDownhill,         // value: slope: it accelerates beyond the band quickly
  HardBraking,           // no room for the smooth one. value: deceleration; limit: planned
  LineHiddenBeforeStop,  // value: way left when lost
  RampsDoNotFit,         // steering ramps overlap a neighbouring turn
  LongTaxiTyres,         // value: distance; limit: 10 668 m (TSO-C62 taxi test)
  SurfaceTightens,       // winter or water cuts the limits. value: condition code
  BrakingPoor,           // value: deceleration the surface allows; limit: planned
  RestartBeyondLimit,    // value: thrust needed at the worst place; limit: thrust limit
  UnevenThrust,          // value: nose-wheel grip needed; limit: grip share allowed
  EnginesNotWarm,        // value: wait at the stop
  TurnaroundTooShort,    // value: more time on the stand
  DraggingBrake,         // value: heat rise it adds
  WheelsHeatOn,          // after parking hot. value: time of the taxi until they no longer do
  ChanceOfHotBrakes,     // within the limit, but perhaps not. value: chance; limit: 0.1
  ChanceOfRunaway,       // value: chance; limit: 0.1
  ChanceOfStall,         // value: chance; limit: 0.1
  ChanceOffEdge,         // planned on the pavement. value: chance; limit: 0.1
  RuleNotMet,            // a published taxiway rule. value: wanted; limit: actual
  NoRoomForHalfTurn,     // value: width needed; limit: width available
  BrakesBeyondModel,     // hotter than is computed here. value, limit: the hottest that is
  NotComputed,           // some number could not be. value: how many
  StartNotKnown,         // in snow or slush. value: its depth
  DepthNotGiven          // of a surface that is named for it
};

inline constexpr std::size_t kCautionKinds =
    static_cast<std::size_t>(CautionKind::DepthNotGiven) + 1;

struct CautionFacts {
  CautionKind kind;
  const char* word;  // in documents; never changes
  CautionLevel level;
  const char* unit;  // of value and limit; "": a ratio, a code, or as the rule has it
  bool stops_taxi = false;
  bool worse_when_less = false;  // margins, slopes downhill, what the surface gives
};

// In the order of the kinds.
struct CautionTable {
  CautionFacts row[kCautionKinds];

  constexpr const CautionFacts& operator[](CautionKind kind) const {
    return row[static_cast<std::size_t>(kind)];
  }
};

// clang-format off
inline constexpr CautionTable kCautionFacts = {{
    {.kind = CautionKind::CannotMove, .word = "cannot_move",
     .level = CautionLevel::Exceeded, .unit = "N", .stops_taxi = true},
    {.kind = CautionKind::TurnTooTight, .word = "turn_too_tight",
     .level = CautionLevel::Exceeded, .unit = "rad", .stops_taxi = true},
    {.kind = CautionKind::WheelOffPavement, .word = "wheel_off_pavement",
     .level = CautionLevel::Exceeded, .unit = "m", .stops_taxi = true, .worse_when_less = true},
    {.kind = CautionKind::WingTipStrikes, .word = "wing_tip_strikes",
     .level = CautionLevel::Exceeded, .unit = "m", .stops_taxi = true, .worse_when_less = true},
    {.kind = CautionKind::EdgeMarginSmall, .word = "edge_margin_small",
     .level = CautionLevel::Care, .unit = "m", .worse_when_less = true},
    {.kind = CautionKind::NoseMarginSmall, .word = "nose_margin_small",
     .level = CautionLevel::Care, .unit = "m", .worse_when_less = true},
    {.kind = CautionKind::WingTipNearObject, .word = "wing_tip_near_object",
     .level = CautionLevel::Care, .unit = "m", .worse_when_less = true},
    {.kind = CautionKind::NoseWheelSlides, .word = "nose_wheel_slides",
     .level = CautionLevel::Exceeded, .unit = "", .stops_taxi = true},
    {.kind = CautionKind::BrakesTooHot, .word = "brakes_too_hot",
     .level = CautionLevel::Exceeded, .unit = "K"},
    {.kind = CautionKind::PeakAboveLimit, .word = "peak_above_limit",
     .level = CautionLevel::Care, .unit = "K"},
    {.kind = CautionKind::NoEntrySpeed, .word = "no_entry_speed",
     .level = CautionLevel::Care, .unit = "m/s"},
    {.kind = CautionKind::RunsAwayInTurn, .word = "runs_away_in_turn",
     .level = CautionLevel::Care, .unit = "m/s"},
    {.kind = CautionKind::StallsInTurn, .word = "stalls_in_turn",
     .level = CautionLevel::Care, .unit = "N"},
    {.kind = CautionKind::NoRestartInTurn, .word = "no_restart_in_turn",
     .level = CautionLevel::Care, .unit = "N"},
    {.kind = CautionKind::ThrustNeeded, .word = "thrust_needed",
     .level = CautionLevel::Care, .unit = "N"},
    {.kind = CautionKind::NeedsPushToStart, .word = "needs_push_to_start",
     .level = CautionLevel::Care, .unit = "N"},
    {.kind = CautionKind::SlopeDecidesStart, .word = "slope_decides_start",
     .level = CautionLevel::Care, .unit = "rad"},
    {.kind = CautionKind::TurnSpeedAboveLimit, .word = "turn_speed_above_limit",
     .level = CautionLevel::Exceeded, .unit = "m/s"},
    {.kind = CautionKind::TailwindGrows, .word = "tailwind_grows",
     .level = CautionLevel::Care, .unit = "m/s"},
    {.kind = CautionKind::SteepDownhill, .word = "steep_downhill",
     .level = CautionLevel::Care, .unit = "rad", .worse_when_less = true},
    {.kind = CautionKind::HardBraking, .word = "hard_braking",
     .level = CautionLevel::Care, .unit = "m/s²"},
    {.kind = CautionKind::LineHiddenBeforeStop, .word = "line_hidden_before_stop",
     .level = CautionLevel::Care, .unit = "m"},
    {.kind = CautionKind::RampsDoNotFit, .word = "ramps_do_not_fit",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::LongTaxiTyres, .word = "long_taxi_tyres",
     .level = CautionLevel::Care, .unit = "m"},
    {.kind = CautionKind::SurfaceTightens, .word = "surface_tightens",
     .level = CautionLevel::Care, .unit = "", .worse_when_less = true},
    {.kind = CautionKind::BrakingPoor, .word = "braking_poor",
     .level = CautionLevel::Care, .unit = "m/s²", .worse_when_less = true},
    {.kind = CautionKind::RestartBeyondLimit, .word = "restart_beyond_limit",
     .level = CautionLevel::Care, .unit = "N"},
    {.kind = CautionKind::UnevenThrust, .word = "uneven_thrust",
     .level = CautionLevel::Exceeded, .unit = "", .stops_taxi = true},
    {.kind = CautionKind::EnginesNotWarm, .word = "engines_not_warm",
     .level = CautionLevel::Care, .unit = "s"},
    {.kind = CautionKind::TurnaroundTooShort, .word = "turnaround_too_short",
     .level = CautionLevel::Care, .unit = "s"},
    {.kind = CautionKind::DraggingBrake, .word = "dragging_brake",
     .level = CautionLevel::Care, .unit = "K"},
    {.kind = CautionKind::WheelsHeatOn, .word = "wheels_heat_on",
     .level = CautionLevel::Care, .unit = "s"},
    {.kind = CautionKind::ChanceOfHotBrakes, .word = "chance_of_hot_brakes",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::ChanceOfRunaway, .word = "chance_of_runaway",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::ChanceOfStall, .word = "chance_of_stall",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::ChanceOffEdge, .word = "chance_off_edge",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::RuleNotMet, .word = "rule_not_met",
     .level = CautionLevel::Care, .unit = ""},
    {.kind = CautionKind::NoRoomForHalfTurn, .word = "no_room_for_half_turn",
     .level = CautionLevel::Exceeded, .unit = "m"},
    {.kind = CautionKind::BrakesBeyondModel, .word = "brakes_beyond_model",
     .level = CautionLevel::Exceeded, .unit = "K", .stops_taxi = true},
    {.kind = CautionKind::NotComputed, .word = "not_computed",
     .level = CautionLevel::Exceeded, .unit = ""},
    {.kind = CautionKind::StartNotKnown, .word = "start_not_known",
     .level = CautionLevel::Care, .unit = "m"},
    {.kind = CautionKind::DepthNotGiven, .word = "depth_not_given",
     .level = CautionLevel::Care, .unit = ""},
}};
// clang-format on

struct Caution {
  CautionLevel level = CautionLevel::Care;
  CautionKind kind = CautionKind::ThrustNeeded;
  int leg = -1;  // index into the route, -1: the whole taxi
  double value = 0.0;
  double limit = 0.0;
  int verdict = -1;  // index of the rule's verdict that it came from, -1: of none
};

inline constexpr int kMaxCautions = 400;

}  // namespace tillerline
