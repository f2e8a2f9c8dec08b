// Cautions in words: one sentence each for the list, a short phrase for "watch".
#include <algorithm>
#include <cmath>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

using words::against;

const TurnAnswer* find_turn(const Source& source, int leg) {
  for (const TurnAnswer& turn : source.card.turns) {
    if (turn.leg == leg) return &turn;
  }
  return nullptr;
}

words::Against speeds(const Say& say, const Caution& caution) {
  return say.speed_against(caution.value, caution.limit);
}

words::Against temperatures(const Say& say, const Caution& caution) {
  return say.temperature_against(caution.value, caution.limit);
}

std::string wait_words(const HeatAnswer& heat) {
  if (!heat.wait_reaches_limit) return "; they never cool to the limit in this air";
  if (heat.wait_s <= 0.0) return "";
  return ": wait " + words::duration_up(heat.wait_s);
}

std::string restart_words(const Source& source, const Caution& caution) {
  const TurnAnswer* turn = find_turn(source, caution.leg);
  std::string text = "Do not stop here: a restart in the turn takes " +
                     words::thrust(caution.value) + " above idle";
  if (turn != nullptr && !turn->restart_within_limit) {
    return text + ", more than the thrust limit for taxiing.";
  }
  return text + "; on a straight idle would do.";
}

std::string cannot_move_words(const Caution& caution) {
  const auto said = against(caution.value / 1000.0, caution.limit / 1000.0, 0, " kN");
  return "It cannot move: it takes " + said.value + ", the limit for taxiing is " + said.limit +
         ".";
}

std::string too_tight_words(const Caution& caution) {
  const auto said = against(units::degrees_from_radians(caution.value),
                            units::degrees_from_radians(caution.limit), 0, "°");
  return "Tighter than the steering: it takes " + said.value +
         " of nose-wheel angle, the limit is " + said.limit + ".";
}

std::string nose_slides_words(const Caution& caution) {
  const auto said = against(100.0 * caution.value, 100.0 * caution.limit, 0, " %");
  return "The nose wheels may slide: they need a side force of " + said.value + " of their load, " +
         said.limit + " is allowed on this surface.";
}

std::string edge_words(const Say& say, const Caution& caution) {
  // Rounded down like every margin, so that 3.97 m is not called 4.0 m.
  const bool nose = caution.kind == CautionKind::NoseMarginSmall;
  return "Only " + say.margin(caution.value) + " from the " + (nose ? "nose " : "") +
         "wheels to the pavement edge, " + say.length_tenth(caution.limit) + " wanted.";
}

std::string chance_words(double chance) { return "a chance of " + words::chance(chance); }

std::string surface_tightens_words(const Source& source) {
  const SurfaceLimits& limits = source.card.surface_limits;
  return "Condition code " + std::to_string(source.card.pavement.condition_code) +
         ": the limits are " + source.say.speed(limits.straight_speed_mps) + " straight, " +
         source.say.speed(limits.gentle_turn_speed_mps) + " in gentle turns and " +
         source.say.speed(limits.sharp_turn_speed_mps) + " in sharp ones.";
}

std::string braking_poor_words(const Source& source, const Caution& caution) {
  return "Braking is poor: the wheels can give " + format_number(caution.value, 2) +
         " m/s² on this surface; " + format_number(caution.limit, 2) + " m/s² was wanted, " +
         format_number(source.card.surface_limits.deceleration_mps2, 2) + " m/s² is planned.";
}

std::string restart_beyond_words(const Caution& caution) {
  const auto said = against(caution.value / 1000.0, caution.limit / 1000.0, 0, " kN");
  return "Do not stop here: a restart takes " + said.value + ", the limit for taxiing is " +
         said.limit + ".";
}

std::string uneven_words(const Caution& caution) {
  const auto said = against(100.0 * caution.value, 100.0 * caution.limit, 0, " %");
  return "Uneven thrust: the nose wheels need a side force of " + said.value +
         " of their load to hold it, " + said.limit + " is allowed on this surface.";
}

std::string worst_brake_words(const Source& source, const Caution& caution) {
  const auto said = temperatures(source.say, caution);
  return "The worst brake is at " + said.value + " at " + stop_place(source) + ", limit " +
         said.limit + " (pack, not indication).";
}

std::string half_turn_words(const Say& say, const Caution& caution) {
  const auto said = say.length_against(caution.value, caution.limit);
  return "No room to turn about: it takes " + said.value + " from edge to edge, there are " +
         said.limit + ".";
}

std::string rule_words(const Source& source, const Caution& caution) {
  const RuleVerdict* verdict = rule_of(source.card, caution);
  if (verdict == nullptr) return "A published taxiway rule is not met.";
  return rule_name(source, *verdict) + " is not met: " + rule_values(source.say, *verdict) + ".";
}

std::string plain_sentence(const Source& source, const Caution& caution) {
  const std::string target = stop_target(source);
  switch (caution.kind) {
    case CautionKind::CannotMove:
      return cannot_move_words(caution);
    case CautionKind::TurnTooTight:
      return too_tight_words(caution);
    case CautionKind::WheelOffPavement:
      return "Wheels leave the pavement by " + source.say.length_tenth(-caution.value) + ".";
    case CautionKind::EdgeMarginSmall:
    case CautionKind::NoseMarginSmall:
      return edge_words(source.say, caution);
    case CautionKind::NoseWheelSlides:
      return nose_slides_words(caution);
    case CautionKind::BrakesTooHot: {
      const auto said = temperatures(source.say, caution);
      return "Brakes " + said.value + " at " + stop_place(source) + ", limit " + said.limit +
             wait_words(source.card.heat) + ".";
    }
    case CautionKind::PeakAboveLimit: {
      const auto said = temperatures(source.say, caution);
      return "Brakes peak at " + said.value + " on the way, departure limit " + said.limit + ".";
    }
    case CautionKind::NoEntrySpeed:
      return "The speed limit in this turn, " + source.say.speed_tenth(caution.value) +
             ", is below walking pace, " +
             source.say.speed_tenth(source.brief().limits.walking_pace_mps) + ".";
    case CautionKind::RunsAwayInTurn:
      return "Runs away at idle: even from walking pace it passes the limit of " +
             source.say.speed_tenth(caution.limit) + ", so one application inside is planned.";
    case CautionKind::StallsInTurn:
      return "Falls to walking pace inside at idle: " + words::thrust(caution.value) +
             " above idle carries it through.";
    case CautionKind::NoRestartInTurn:
      return restart_words(source, caution);
    case CautionKind::ThrustNeeded:
      return "Idle does not carry it: up to " + words::thrust(caution.value) + " above idle.";
    case CautionKind::NeedsPushToStart:
      return "Needs a push to start: " + words::thrust(caution.value) + " above idle.";
    case CautionKind::TurnSpeedAboveLimit: {
      const auto said = speeds(source.say, caution);
      return "Reaches " + said.value + " in the turn, limit " + said.limit + ".";
    }
    case CautionKind::TailwindGrows:
      return "Tailwind " + source.say.speed(caution.value) + ": it runs faster at the same idle.";
    case CautionKind::SteepDownhill:
      return words::upper_first(words::slope(caution.value)) +
             ": it gains speed quickly, expect to brake early.";
    case CautionKind::LineHiddenBeforeStop:
      return "The " + target + " is out of sight for the last " + source.say.length(caution.value) +
             ".";
    case CautionKind::RampsDoNotFit:
      return "The neighbouring turn is too close for the full steering ramp: take the start cue "
             "as approximate.";
    case CautionKind::HardBraking:
      return "No room for a smooth application here: it takes " + format_number(caution.value, 1) +
             " m/s², planned " + format_number(caution.limit, 1) + " m/s².";
    case CautionKind::LongTaxiTyres: {
      const auto said = source.say.distance_against(caution.value, caution.limit);
      return "Long taxi: " + said.value + ", tyres are tested for " + said.limit +
             " (TSO-C62 taxi test).";
    }
    case CautionKind::SurfaceTightens:
      return surface_tightens_words(source);
    case CautionKind::BrakingPoor:
      return braking_poor_words(source, caution);
    case CautionKind::RestartBeyondLimit:
      return restart_beyond_words(caution);
    case CautionKind::UnevenThrust:
      return uneven_words(caution);
    case CautionKind::EnginesNotWarm:
      return "Engines are not warm at the stop: wait " + words::duration_up(caution.value) +
             " there before take-off thrust.";
    case CautionKind::WorstBrakeTooHot:
      return worst_brake_words(source, caution);
    case CautionKind::TurnaroundTooShort:
      return "The brakes need " + words::duration_up(caution.value) +
             " more on the stand to stay within the limit.";
    case CautionKind::DraggingBrake:
      return "A dragging brake gets " + source.say.rise(caution.value) +
             " hotter for it by the stop.";
    case CautionKind::ChanceOfHotBrakes:
      return "Within the brake limit, but " + chance_words(caution.value) + " of passing it.";
    case CautionKind::ChanceOfRunaway:
      return "Planned within the limit, but " + chance_words(caution.value) +
             " of passing it in this turn.";
    case CautionKind::ChanceOfStall:
      return "Planned above walking pace, but " + chance_words(caution.value) +
             " of falling to it in this turn.";
    case CautionKind::RuleNotMet:
      return rule_words(source, caution);
    case CautionKind::NoRoomForHalfTurn:
      return half_turn_words(source.say, caution);
  }
  return "";
}

// Where a kind of caution holds: "in turn 2 and on legs 3 and 4".
std::string where_words(const Source& source, const std::vector<int>& legs) {
  std::vector<std::string> turns;
  std::vector<std::string> straights;
  for (const int leg : legs) {
    if (leg < 0 || leg >= source.leg_count()) continue;
    auto& numbers = source.leg(leg).kind == LegKind::Arc ? turns : straights;
    if (std::find(numbers.begin(), numbers.end(), leg_number(leg)) == numbers.end()) {
      numbers.push_back(leg_number(leg));
    }
  }
  const auto say = [](const std::vector<std::string>& numbers, const std::string& preposition,
                      const std::string& one) {
    if (numbers.empty()) return std::string();
    if (numbers.size() > 4) {
      return preposition + std::to_string(numbers.size()) + " " + one + "s";
    }
    return preposition + one + (numbers.size() > 1 ? "s " : " ") + words::list(numbers);
  };
  const std::string in_turns = say(turns, " in ", "turn");
  const std::string on_legs = say(straights, " on ", "leg");
  return in_turns + (in_turns.empty() || on_legs.empty() ? "" : " and") + on_legs;
}

std::string phrase(const Source& source, const Caution& worst, const std::string& where) {
  switch (worst.kind) {
    case CautionKind::CannotMove:
      return "Cannot move" + where;
    case CautionKind::TurnTooTight:
      return "Tighter than the steering" + where;
    case CautionKind::WheelOffPavement:
      return "Wheels off the pavement" + where;
    case CautionKind::EdgeMarginSmall:
      return "Only " + source.say.margin(worst.value) + " to the edge" + where;
    case CautionKind::NoseMarginSmall:
      return "Nose wheels " + source.say.margin(worst.value) + " from the edge" + where;
    case CautionKind::NoseWheelSlides:
      return "Nose wheels may slide" + where;
    case CautionKind::BrakesTooHot:
      return "Brakes too hot at " + stop_place(source);
    case CautionKind::PeakAboveLimit:
      return "Brakes above the limit on the way" + where;
    case CautionKind::NoEntrySpeed:
      return "No safe speed" + where;
    case CautionKind::RunsAwayInTurn:
      return "Runs away" + where;
    case CautionKind::StallsInTurn:
      return "Falls to walking pace" + where;
    case CautionKind::NoRestartInTurn:
      return "No restart at idle" + where;
    case CautionKind::ThrustNeeded:
      return "Thrust above idle" + where;
    case CautionKind::NeedsPushToStart:
      return "Needs a push to start" + where;
    case CautionKind::TurnSpeedAboveLimit:
      return "Too fast" + where;
    case CautionKind::TailwindGrows:
      return "Tailwind " + source.say.speed(worst.value) + where;
    case CautionKind::SteepDownhill:
      return words::upper_first(words::slope(worst.value)) + where;
    case CautionKind::LineHiddenBeforeStop:
      return words::upper_first(stop_target(source)) + " out of sight for the last " +
             source.say.length(worst.value);
    case CautionKind::RampsDoNotFit:
      return "Approximate start cue" + where;
    case CautionKind::HardBraking:
      return "Hard braking" + where;
    case CautionKind::LongTaxiTyres:
      return "Long taxi for the tyres, " + source.say.distance(worst.value);
    case CautionKind::SurfaceTightens:
      return "Condition code " + std::to_string(source.card.pavement.condition_code) +
             ": limits tightened";
    case CautionKind::BrakingPoor:
      return "Poor braking" + where;
    case CautionKind::RestartBeyondLimit:
      return "No restart within the thrust limit" + where;
    case CautionKind::UnevenThrust:
      return "Uneven thrust needs steering" + where;
    case CautionKind::EnginesNotWarm:
      return "Wait " + words::duration_up(worst.value) + " for warm engines";
    case CautionKind::WorstBrakeTooHot:
      return "Worst brake too hot at " + stop_place(source);
    case CautionKind::TurnaroundTooShort:
      return "Stand time short by " + words::duration_up(worst.value);
    case CautionKind::DraggingBrake:
      return "Dragging brake";
    case CautionKind::ChanceOfHotBrakes:
      return "Brakes perhaps too hot: " + words::chance(worst.value);
    case CautionKind::ChanceOfRunaway:
      return "May run away" + where;
    case CautionKind::ChanceOfStall:
      return "May fall to walking pace" + where;
    case CautionKind::RuleNotMet:
      return "A taxiway rule is not met" + where;
    case CautionKind::NoRoomForHalfTurn:
      return "No room to turn about";
  }
  return "";
}

// Is `a` worse than `b`, both of one kind?
bool worse(const Caution& a, const Caution& b) {
  return kCautionFacts[a.kind].worse_when_less ? a.value < b.value : a.value > b.value;
}

}  // namespace

Tone tone_of(CautionLevel level) {
  return level == CautionLevel::Exceeded ? Tone::Exceeded : Tone::Care;
}

std::string caution_sentence(const Source& source, const Caution& caution) {
  const char* word = caution.level == CautionLevel::Exceeded ? "Limit: " : "Care: ";
  return word + plain_sentence(source, caution);
}

SheetRow caution_row(const Source& source, const Caution& caution) {
  return {leg_label(source, caution.leg), caution_sentence(source, caution), "",
          tone_of(caution.level)};
}

std::vector<std::string> watch_phrases(const Source& source, std::size_t most) {
  // Cautions come most serious first; those of one kind and level are said once.
  struct Group {
    Caution worst;
    std::vector<int> legs;
  };
  std::vector<Group> groups;
  for (const Caution& caution : source.card.cautions) {
    const auto same = std::find_if(groups.begin(), groups.end(), [&](const Group& group) {
      return group.worst.kind == caution.kind && group.worst.level == caution.level;
    });
    if (same == groups.end()) {
      groups.push_back({caution, {caution.leg}});
      continue;
    }
    same->legs.push_back(caution.leg);
    if (worse(caution, same->worst)) same->worst = caution;
  }
  std::stable_sort(groups.begin(), groups.end(), [](const Group& a, const Group& b) {
    return a.worst.level == CautionLevel::Exceeded && b.worst.level == CautionLevel::Care;
  });
  std::vector<std::string> phrases;
  for (const Group& group : groups) {
    if (phrases.size() == most) break;
    phrases.push_back(phrase(source, group.worst, where_words(source, group.legs)));
  }
  return phrases;
}

void attach_caution(SheetSection& section, const Source& source, int leg,
                    std::initializer_list<CautionKind> kinds) {
  const Caution* first = nullptr;
  for (const Caution& caution : source.card.cautions) {
    if (leg >= 0 && caution.leg >= 0 && caution.leg != leg) continue;
    if (std::find(kinds.begin(), kinds.end(), caution.kind) == kinds.end()) continue;
    if (first == nullptr ||
        (caution.level == CautionLevel::Exceeded && first->level == CautionLevel::Care)) {
      first = &caution;
    }
  }
  if (first == nullptr) return;
  section.caution = caution_sentence(source, *first);
  section.tone = tone_of(first->level);
}

}  // namespace tillerline::sheet_parts
