// Published taxiway rules by wheel span and wing span, and what they say about this route.
//
// The numbers are those of taxiway_rules.hpp and fillet.hpp. One verdict for the whole route, at
// its worst leg, on width and slope; on separations only where the route gives a distance; for each
// turn one on
//   EdgeClearance   ICAO/EASA: narrowest of both main-wheel margins, cockpit over the line
//   Fillet          ICAO/EASA: widening inside by the handbook's method with that clearance,
//   against
//                   the leg's widening (the length of its lead-in is not judged)
//   CurveRadius     both: painted radius against the one for the fastest speed inside
//   SteeringAngle   FAA: greatest nose-wheel angle, cockpit over the line, against 50 degrees
// Wheel spans of 15 m and more lie beyond the table: no verdict on width, clearance and fillet.
// These are rules for those who build taxiways; a rule that is not met says that the aircraft is
// larger, or quicker, than this taxiway was made for, not that it can't pass.
#pragma once

#include "physics/numerics/fixed_list.hpp"
#include "physics/path/track.hpp"
#include "physics/path/turn.hpp"

namespace tillerline {

enum class RuleFamily { Icao, Faa };
enum class RuleKind {
  TaxiwayWidth,        // m
  EdgeClearance,       // m, outer main wheel to edge
  ParallelSeparation,  // m, centreline to parallel taxiway's centreline
  ObjectSeparation,    // m, centreline to object
  CurveRadius,         // m, for the fastest speed inside
  Fillet,              // m, widening inside a turn, cockpit over the line
  Slope,               // longitudinal, as a ratio
  SteeringAngle        // rad, design limit of nose-wheel angle in a turn
};

inline constexpr int kRuleFamilies = 2;
inline constexpr int kRuleKinds = 8;

struct RuleVerdict {
  RuleFamily family = RuleFamily::Icao;
  RuleKind kind = RuleKind::TaxiwayWidth;
  int leg = -1;  // -1: the whole route
  double wanted = 0.0;
  double actual = 0.0;
  bool met = true;
  bool from_memory = false;  // the rule's number is from memory
};

inline constexpr int kMaxVerdicts = 240;

struct StandardsAnswer {
  char code_letter = 'E';  // by wing span (Annex 14, Table 1-1)
  int design_group = 5;    // FAA ADG, I to VI as 1 to 6
  FixedList<RuleVerdict, kMaxVerdicts> verdicts;
  int not_met = 0;
};
// `turns` and `tracks` in the same order, one for each arc of the route.
StandardsAnswer standards_answer(const Aircraft& aircraft, const TaxiRoute& route,
                                 const FixedList<TrackAnswer, kMaxLegs>& tracks,
                                 const Turns& turns);

}  // namespace tillerline
