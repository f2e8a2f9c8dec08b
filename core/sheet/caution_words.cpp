// Cautions in words: one sentence each for the list, a short phrase for "watch".
#include <algorithm>
#include <optional>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline::sheet_parts {
namespace {

using words::against;

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
  const TurnAnswer* turn = turn_on(source, caution.leg);
  std::string text = "Do not stop here: a restart in the turn takes " +
                     words::thrust(caution.value) + " above idle";
  if (turn != nullptr && !turn->restart_within_limit) {
    return text + ", more than the thrust limit for taxiing.";
  }
  return text + "; on a straight idle would do.";
}

std::string cannot_move_words(const Source&, const Caution& caution) {
  const auto said = against(caution.value / 1000.0, caution.limit / 1000.0, 0, " kN");
  return "It cannot move: it takes " + said.value + ", the limit for taxiing is " + said.limit +
         ".";
}

std::string too_tight_words(const Source&, const Caution& caution) {
  const auto said = against(units::degrees_from_radians(caution.value),
                            units::degrees_from_radians(caution.limit), 0, "°");
  return "Tighter than the steering: it takes " + said.value +
         " of effective steering, the limit is " + said.limit + ".";
}

std::string nose_slides_words(const Source&, const Caution& caution) {
  const auto said = against(100.0 * caution.value, 100.0 * caution.limit, 0, " %");
  return "The nose wheels may slide: they need a side force of " + said.value + " of their load, " +
         said.limit + " is allowed on this surface.";
}

std::string edge_words(const Source& source, const Caution& caution) {
  // Rounded down like every margin, so that 3.97 m is not called 4.0 m.
  const bool nose = caution.kind == CautionKind::NoseMarginSmall;
  return "Only " + source.say.margin(caution.value) + " from the " + (nose ? "nose " : "") +
         "wheels to the pavement edge, " + source.say.length_tenth(caution.limit) + " wanted.";
}

std::string chance_words(double chance) { return "a chance of " + words::chance(chance); }

std::string surface_tightens_words(const Source& source, const Caution&) {
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

std::string restart_beyond_words(const Source&, const Caution& caution) {
  const auto said = against(caution.value / 1000.0, caution.limit / 1000.0, 0, " kN");
  return "Do not stop here: a restart takes " + said.value + ", the limit for taxiing is " +
         said.limit + ".";
}

std::string uneven_words(const Source&, const Caution& caution) {
  const auto said = against(100.0 * caution.value, 100.0 * caution.limit, 0, " %");
  return "Uneven thrust: the nose wheels need a side force of " + said.value +
         " of their load to hold it, " + said.limit + " is allowed on this surface.";
}

std::string half_turn_words(const Source& source, const Caution& caution) {
  const auto said = source.say.length_against(caution.value, caution.limit);
  return "No room to turn about: it takes " + said.value + " from edge to edge, there are " +
         said.limit + ".";
}

std::string beyond_model_words(const Source& source, const Caution& caution) {
  return "The brakes pass " + source.say.temperature(caution.limit) +
         ", more than their heat packs bear. How hot beyond that is not computed here.";
}

std::string not_computed_words(const Source& source, const Caution&) {
  std::vector<std::string> names;
  for (const Withheld& item : source.card.withheld) {
    if (item.reason == WithheldReason::TooHot || item.reason == WithheldReason::NoCrossing ||
        item.reason == WithheldReason::NotModelled)
      continue;
    if (std::find(names.begin(), names.end(), item.what) == names.end())
      names.emplace_back(item.what);
  }
  return "Not computed here, for these inputs: " + words::list(names) +
         ". Look for an input that is far from usual.";
}

std::string rule_words(const Source& source, const Caution& caution) {
  const RuleVerdict* verdict = rule_of(source.card, caution);
  if (verdict == nullptr) return "A published taxiway rule is not met.";
  return rule_name(source, *verdict) + " is not met: " + rule_values(source.say, *verdict) + ".";
}

// What is said of one kind, and where. The phrase is put together from its begin, details of the
// caution, its rest, and the places where it holds.
struct KindWords {
  using Words = std::string (*)(const Source&, const Caution&);

  CautionKind kind;
  // Where it is shown beside the list: in no section, one or two.
  std::optional<SectionId> section = std::nullopt;
  std::optional<SectionId> also = std::nullopt;
  Words sentence;           // for the list
  const char* phrase = "";  // to watch for
  Words details = nullptr;
  const char* rest = "";
  bool placed = true;
};

// In the order of the kinds.
constexpr KindWords kWords[kCautionKinds] = {
    {.kind = CautionKind::CannotMove,
     .section = SectionId::Roll,
     .also = SectionId::Entry,
     .sentence = cannot_move_words,
     .phrase = "Cannot move"},
    {.kind = CautionKind::TurnTooTight,
     .section = SectionId::Oversteer,
     .sentence = too_tight_words,
     .phrase = "Tighter than the steering"},
    {.kind = CautionKind::WheelOffPavement,
     .section = SectionId::Oversteer,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "Wheels leave the pavement by " + source.say.length_tenth(-caution.value) + ".";
         },
     .phrase = "Wheels off the pavement"},
    {.kind = CautionKind::WingTipStrikes,
     .section = SectionId::Oversteer,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "A wing tip reaches the nearest object and " +
                  source.say.length_tenth(-caution.value) + " beyond. Do not go this way.";
         },
     .phrase = "Wing tip strikes an object"},
    {.kind = CautionKind::EdgeMarginSmall,
     .section = SectionId::Oversteer,
     .sentence = edge_words,
     .phrase = "Only ",
     .details = [](const Source& source,
                   const Caution& caution) { return source.say.margin(caution.value); },
     .rest = " to the edge"},
    {.kind = CautionKind::NoseMarginSmall,
     .section = SectionId::Oversteer,
     .sentence = edge_words,
     .phrase = "Nose wheels ",
     .details = [](const Source& source,
                   const Caution& caution) { return source.say.margin(caution.value); },
     .rest = " from the edge"},
    {.kind = CautionKind::WingTipNearObject,
     .section = SectionId::Oversteer,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "A wing tip comes within " + source.say.margin(caution.value) +
                  " of the nearest object, " + source.say.length_tenth(caution.limit) +
                  " wanted. Have it watched.";
         },
     .phrase = "Wing tip ",
     .details = [](const Source& source,
                   const Caution& caution) { return source.say.margin(caution.value); },
     .rest = " from an object"},
    {.kind = CautionKind::NoseWheelSlides,
     .section = SectionId::Entry,
     .sentence = nose_slides_words,
     .phrase = "Nose wheels may slide"},
    {.kind = CautionKind::BrakesTooHot,
     .section = SectionId::Heat,
     .sentence =
         [](const Source& source, const Caution& caution) {
           const auto said = temperatures(source.say, caution);
           return "Hottest brake " + as_read(source, said.value) + " " + when_hottest(source) +
                  ", limit " + said.limit + wait_words(source.card.heat) + ".";
         },
     .phrase = "Brakes too hot at ",
     .details = [](const Source& source, const Caution&) { return stop_place(source); },
     .placed = false},
    {.kind = CautionKind::PeakAboveLimit,
     .section = SectionId::Heat,
     .sentence =
         [](const Source& source, const Caution& caution) {
           const auto said = temperatures(source.say, caution);
           return "Hottest brake " + as_read(source, said.value) + " on the way, departure limit " +
                  said.limit + ".";
         },
     .phrase = "Brakes above the limit on the way"},
    {.kind = CautionKind::NoEntrySpeed,
     .section = SectionId::Entry,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "The speed limit in this turn, " + source.say.speed_tenth(caution.value) +
                  ", is below walking pace, " +
                  source.say.speed_tenth(source.brief().limits.walking_pace_mps) + ".";
         },
     .phrase = "No safe speed"},
    {.kind = CautionKind::RunsAwayInTurn,
     .section = SectionId::Entry,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "Runs away at idle: even from walking pace it passes the limit of " +
                  source.say.speed_tenth(caution.limit) + ", so one application inside is planned.";
         },
     .phrase = "Runs away"},
    {.kind = CautionKind::StallsInTurn,
     .section = SectionId::Entry,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Falls to walking pace inside at idle: " + words::thrust(caution.value) +
                  " above idle carries it through.";
         },
     .phrase = "Falls to walking pace"},
    {.kind = CautionKind::NoRestartInTurn,
     .section = SectionId::Entry,
     .sentence = restart_words,
     .phrase = "No restart at idle"},
    {.kind = CautionKind::ThrustNeeded,
     .section = SectionId::Roll,
     .also = SectionId::Entry,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Idle does not carry it: up to " + words::thrust(caution.value) + " above idle.";
         },
     .phrase = "Thrust above idle"},
    {.kind = CautionKind::NeedsPushToStart,
     .section = SectionId::Roll,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Needs a push to start: " + words::thrust(caution.value) + " above idle.";
         },
     .phrase = "Needs a push to start"},
    {.kind = CautionKind::SlopeDecidesStart,
     .section = SectionId::Roll,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "The slope is known to \u00b1 " + words::slope_size(caution.value) +
                  " only: whether it rolls by itself is open.";
         },
     .phrase = "Slope too uncertain for the start"},
    {.kind = CautionKind::TurnSpeedAboveLimit,
     .section = SectionId::Entry,
     .sentence =
         [](const Source& source, const Caution& caution) {
           const auto said = speeds(source.say, caution);
           return "Reaches " + said.value + " in the turn, limit " + said.limit + ".";
         },
     .phrase = "Too fast"},
    {.kind = CautionKind::TailwindGrows,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "Tailwind " + source.say.speed(caution.value) +
                  ": it runs faster at the same idle.";
         },
     .phrase = "Tailwind ",
     .details = [](const Source& source,
                   const Caution& caution) { return source.say.speed(caution.value); }},
    {.kind = CautionKind::SteepDownhill,
     .section = SectionId::Roll,
     .sentence =
         [](const Source&, const Caution& caution) {
           return words::upper_first(words::slope(caution.value)) +
                  ": it gains speed quickly, expect to brake early.";
         },
     .details =
         [](const Source&, const Caution& caution) {
           return words::upper_first(words::slope(caution.value));
         }},
    {.kind = CautionKind::HardBraking,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "No room for a smooth application here: it takes " +
                  format_number(caution.value, 1) + " m/s², planned " +
                  format_number(caution.limit, 1) + " m/s².";
         },
     .phrase = "Hard braking"},
    {.kind = CautionKind::LineHiddenBeforeStop,
     .section = SectionId::Stop,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "The " + stop_target(source) + " is out of sight for the last " +
                  source.say.length(caution.value) + ".";
         },
     .details =
         [](const Source& source, const Caution& caution) {
           return words::upper_first(stop_target(source)) + " out of sight for the last " +
                  source.say.length(caution.value);
         },
     .placed = false},
    {.kind = CautionKind::RampsDoNotFit,
     .section = SectionId::Oversteer,
     .sentence =
         [](const Source&, const Caution&) {
           return std::string(
               "The neighbouring turn is too close for the full steering ramp: take the start cue "
               "as approximate.");
         },
     .phrase = "Approximate start cue"},
    {.kind = CautionKind::LongTaxiTyres,
     .sentence =
         [](const Source& source, const Caution& caution) {
           const auto said = source.say.distance_against(caution.value, caution.limit);
           return "Long taxi: " + said.value + ", tyres are tested for " + said.limit +
                  " (TSO-C62 taxi test).";
         },
     .phrase = "Long taxi for the tyres, ",
     .details = [](const Source& source,
                   const Caution& caution) { return source.say.distance(caution.value); },
     .placed = false},
    {.kind = CautionKind::SurfaceTightens,
     .section = SectionId::Surface,
     .sentence = surface_tightens_words,
     .phrase = "Condition code ",
     .details = [](const Source& source,
                   const Caution&) { return std::to_string(source.card.pavement.condition_code); },
     .rest = ": limits tightened",
     .placed = false},
    {.kind = CautionKind::BrakingPoor,
     .section = SectionId::Surface,
     .sentence = braking_poor_words,
     .phrase = "Poor braking"},
    {.kind = CautionKind::RestartBeyondLimit,
     .section = SectionId::Restart,
     .sentence = restart_beyond_words,
     .phrase = "No restart within the thrust limit"},
    {.kind = CautionKind::UnevenThrust,
     .section = SectionId::Engines,
     .sentence = uneven_words,
     .phrase = "Uneven thrust needs steering"},
    {.kind = CautionKind::EnginesNotWarm,
     .section = SectionId::Engines,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Engines are not warm at the stop: wait " + words::duration_up(caution.value) +
                  " there before take-off thrust.";
         },
     .phrase = "Wait ",
     .details = [](const Source&,
                   const Caution& caution) { return words::duration_up(caution.value); },
     .rest = " for warm engines",
     .placed = false},
    {.kind = CautionKind::TurnaroundTooShort,
     .section = SectionId::AfterLanding,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "The brakes need " + words::duration_up(caution.value) +
                  " more on the stand to stay within the limit.";
         },
     .phrase = "Stand time short by ",
     .details = [](const Source&,
                   const Caution& caution) { return words::duration_up(caution.value); },
     .placed = false},
    {.kind = CautionKind::DraggingBrake,
     .section = SectionId::AfterLanding,
     .sentence =
         [](const Source& source, const Caution& caution) {
           return "A dragging brake gets " + source.say.rise(caution.value) +
                  " hotter for it by the stop.";
         },
     .phrase = "Dragging brake",
     .placed = false},
    {.kind = CautionKind::WheelsHeatOn,
     .section = SectionId::AfterLanding,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Parked hot, the wheels heat on for up to " + words::duration(kWheelsHeatOn_s) +
                  " while the brakes already read less: until " +
                  words::duration_up(caution.value) + " into this taxi.";
         },
     .phrase = "Wheels heat on for ",
     .details = [](const Source&,
                   const Caution& caution) { return words::duration_up(caution.value); },
     .placed = false},
    {.kind = CautionKind::ChanceOfHotBrakes,
     .section = SectionId::Uncertainty,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Within the brake limit, but " + chance_words(caution.value) + " of passing it.";
         },
     .phrase = "Brakes perhaps too hot: ",
     .details = [](const Source&, const Caution& caution) { return words::chance(caution.value); },
     .placed = false},
    {.kind = CautionKind::ChanceOfRunaway,
     .section = SectionId::Uncertainty,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Planned within the limit, but " + chance_words(caution.value) +
                  " of passing it in this turn.";
         },
     .phrase = "May run away"},
    {.kind = CautionKind::ChanceOfStall,
     .section = SectionId::Uncertainty,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Planned above walking pace, but " + chance_words(caution.value) +
                  " of falling to it in this turn.";
         },
     .phrase = "May fall to walking pace"},
    {.kind = CautionKind::ChanceOffEdge,
     .section = SectionId::Edges,
     .sentence =
         [](const Source&, const Caution& caution) {
           return "Planned on the pavement, but " + words::one_in(caution.value) +
                  " that a wheel leaves it: nobody keeps the line to the centimetre.";
         },
     .phrase = "A wheel may leave the pavement"},
    {.kind = CautionKind::RuleNotMet,
     .section = SectionId::Room,
     .sentence = rule_words,
     .phrase = "A taxiway rule is not met"},
    {.kind = CautionKind::NoRoomForHalfTurn,
     .section = SectionId::Room,
     .sentence = half_turn_words,
     .phrase = "No room to turn about",
     .placed = false},
    {.kind = CautionKind::BrakesBeyondModel,
     .section = SectionId::Heat,
     .sentence = beyond_model_words,
     .phrase = "Brakes hotter than any pack bears",
     .placed = false},
    {.kind = CautionKind::NotComputed,
     .section = SectionId::Heat,
     .sentence = not_computed_words,
     .phrase = "Not all of this card could be computed",
     .placed = false},
    {.kind = CautionKind::StartNotKnown,
     .section = SectionId::Roll,
     .also = SectionId::Restart,
     .sentence =
         [](const Source& source, const Caution&) {
           return "What a start from rest takes in " + surface_words(source.brief().day) +
                  " is not computed here: " + kPackedUnderWheels +
                  ". Expect more than on a cleared surface.";
         },
     .phrase = "Thrust to start not known",
     .placed = false},
    {.kind = CautionKind::DepthNotGiven,
     .section = SectionId::Surface,
     .sentence =
         [](const Source& source, const Caution&) {
           return words::upper_first(surface_words(source.brief().day)) +
                  " is worked out as a wet pavement: enter the depth.";
         },
     .phrase = "Depth not entered",
     .placed = false},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < kCautionKinds; ++i)
    if (kWords[i].kind != static_cast<CautionKind>(i)) return false;
  return true;
}
static_assert(in_order(), "one row a kind");

const KindWords& words_of(CautionKind kind) { return kWords[static_cast<std::size_t>(kind)]; }

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
  const KindWords& said = words_of(worst.kind);
  std::string text = said.phrase;
  if (said.details != nullptr) text += said.details(source, worst);
  text += said.rest;
  return said.placed ? text + where : text;
}

// Is `a` worse than `b`, both of one kind?
bool worse(const Caution& a, const Caution& b) {
  return kCautionFacts[a.kind].worse_when_less ? a.value < b.value : a.value > b.value;
}

// Cautions of one kind and level are said once, with the worst of them and all their places.
struct Group {
  Caution worst;
  std::vector<int> legs;
};

// Cautions come most serious first; a limit that is exceeded before everything else.
std::vector<Group> by_kind(const Source& source) {
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
  return groups;
}

}  // namespace

Tone tone_of(CautionLevel level) {
  return level == CautionLevel::Exceeded ? Tone::Exceeded : Tone::Care;
}

std::string caution_sentence(const Source& source, const Caution& caution) {
  const char* word = caution.level == CautionLevel::Exceeded ? "Limit: " : "Care: ";
  return word + words_of(caution.kind).sentence(source, caution);
}

SheetRow caution_row(const Source& source, const Caution& caution) {
  return {leg_label(source, caution.leg), caution_sentence(source, caution), "",
          tone_of(caution.level)};
}

std::vector<std::string> watch_phrases(const Source& source, std::size_t most, Watched watched) {
  std::vector<std::string> phrases;
  for (const Group& group : by_kind(source)) {
    if (phrases.size() == most) break;
    if (watched == Watched::WithinLimits && group.worst.level == CautionLevel::Exceeded) continue;
    phrases.push_back(phrase(source, group.worst, where_words(source, group.legs)));
  }
  return phrases;
}

std::vector<std::string> exceeded_sentences(const Source& source) {
  std::vector<std::string> sentences;
  for (Group& group : by_kind(source)) {
    if (group.worst.level != CautionLevel::Exceeded) continue;
    const KindWords& said = words_of(group.worst.kind);
    std::string text = said.sentence(source, group.worst);
    if (text.ends_with('.')) text.pop_back();
    if (said.placed) {
      std::erase(group.legs, group.worst.leg);
      const std::string others = where_words(source, group.legs);
      text += where_words(source, {group.worst.leg}) + (others.empty() ? "" : ", also" + others);
    }
    sentences.push_back(text);
  }
  return sentences;
}

std::string kinds_words(std::uint64_t kinds) {
  std::vector<std::string> said;
  for (const KindWords& words : kWords) {
    if ((kinds & bit_of(words.kind)) == 0) continue;
    std::string text = words.phrase;
    if (words.kind == CautionKind::BrakesTooHot) text = "brakes too hot";
    if (words.kind == CautionKind::EdgeMarginSmall || words.kind == CautionKind::NoseMarginSmall)
      text = "small edge margin";
    said.push_back(words::lower_first(text));
  }
  return words::list(said);
}

void attach_caution(SheetSection& section, const Source& source, SectionId id, int leg) {
  const Caution* first = nullptr;
  for (const Caution& caution : source.card.cautions) {
    if (leg >= 0 && caution.leg >= 0 && caution.leg != leg) continue;
    const KindWords& said = words_of(caution.kind);
    if (said.section != id && said.also != id) continue;
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
