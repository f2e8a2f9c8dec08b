// What of a brief is chosen from a few words.
#include <algorithm>
#include <iterator>

#include "documents/fields.hpp"

namespace tillerline {
namespace {

int code_option(int code) { return code == kNoReportedCode ? 0 : 7 - code; }
int code_of_option(int option) { return option == 0 ? kNoReportedCode : 7 - option; }
bool has_fans(const Brief& brief) { return brief.aircraft.fan_convection_wpm2k > 0.0; }
bool ends_at_a_line(const Brief& brief) { return brief.route.end == RouteEnd::HoldingLine; }

// clang-format off
// Whether fans run or a stop bar is lit may be left out: no is the safe and usual answer.
const Choice kChoices[] = {
  {"surface", "Pavement", FieldGroup::Day, false, options_of(Surface{}), LeftOut::Refused,
   "Sets grip, braking and the drag of loose water, slush and snow.",
   [](const Brief& b) { return static_cast<int>(b.day.surface); },
   [](Brief& b, int i) { b.day.surface = static_cast<Surface>(i); }},
  {"reported_code", "Reported condition code", FieldGroup::Day, false, reported_codes(),
   LeftOut::Usual,
   "As reported for the runway. It counts where it is worse than the surface's own.",
   [](const Brief& b) { return code_option(b.day.reported_code); },
   [](Brief& b, int i) { b.day.reported_code = code_of_option(i); }},
  {"engine_anti_ice", "Engine anti-ice on", FieldGroup::Condition, true, no_and_yes(),
   LeftOut::Usual,
   "Raises idle thrust and fuel flow.",
   [](const Brief& b) { return b.condition.engine_anti_ice ? 1 : 0; },
   [](Brief& b, int i) { b.condition.engine_anti_ice = i != 0; }},
  {"brake_reading", "Brake temperatures are", FieldGroup::Limits, false,
   options_of(BrakeReading{}), LeftOut::Usual,
   "What you enter, your limits and the answers. An indication lags and reads lower than the heat "
   "pack.",
   [](const Brief& b) { return static_cast<int>(b.limits.brake_reading); },
   [](Brief& b, int i) { b.limits.brake_reading = static_cast<BrakeReading>(i); }},
  {"fans_on", "Brake fans running", FieldGroup::Condition, true, no_and_yes(), LeftOut::Usual,
   "Cools the brakes faster, where fans are fitted.",
   [](const Brief& b) { return b.condition.fans_on ? 1 : 0; },
   [](Brief& b, int i) { b.condition.fans_on = i != 0; },
   has_fans},
  {"braking", "Braking", FieldGroup::Technique, false, options_of(BrakeTechnique{}),
   LeftOut::Usual,
   "How surplus thrust is taken out on the way.",
   [](const Brief& b) { return static_cast<int>(b.technique.braking); },
   [](Brief& b, int i) { b.technique.braking = static_cast<BrakeTechnique>(i); }},
  {"turning", "Turning", FieldGroup::Technique, false, options_of(TurnTechnique{}),
   LeftOut::Usual,
   "What is kept on the painted line in a turn. Between eye and main gear the best point, found turn "
   "by turn, keeps the smallest margin largest; another brings the nose outside least.",
   [](const Brief& b) { return static_cast<int>(b.technique.turning); },
   [](Brief& b, int i) { b.technique.turning = static_cast<TurnTechnique>(i); }},
  {"brake_material", "Brake material", FieldGroup::Aircraft, false, options_of(BrakeMaterial{}),
   LeftOut::Refused,
   "Carbon wears by the application, steel by the energy.",
   [](const Brief& b) { return static_cast<int>(b.aircraft.brake_material); },
   [](Brief& b, int i) { b.aircraft.brake_material = static_cast<BrakeMaterial>(i); }},
  {"end", "Ends at", FieldGroup::Route, false, options_of(RouteEnd{}), LeftOut::Refused,
   "Where the last leg ends.",
   [](const Brief& b) { return static_cast<int>(b.route.end); },
   [](Brief& b, int i) { b.route.end = static_cast<RouteEnd>(i); }},
  {"stop_bar_lit", "Stop bar lit", FieldGroup::Route, true, no_and_yes(), LeftOut::Usual,
   "A lit stop bar is kept in view when stopped.",
   [](const Brief& b) { return b.route.stop_bar_lit ? 1 : 0; },
   [](Brief& b, int i) { b.route.stop_bar_lit = i != 0; },
   ends_at_a_line},
  {"turnaround_included", "Begins with a landing", FieldGroup::Turnaround, true, no_and_yes(),
   LeftOut::Usual,
   "The brakes start this taxi with what landing, taxi-in and stand left in them.",
   [](const Brief& b) { return b.turnaround.included ? 1 : 0; },
   [](Brief& b, int i) { b.turnaround.included = i != 0; }},
  {"stood", "Stood before the start", FieldGroup::Turnaround, false, options_of(Stood{}),
   LeftOut::Usual,
   "A long stand, and more so a cold one, takes more to start rolling.",
   [](const Brief& b) { return static_cast<int>(b.condition.stood); },
   [](Brief& b, int i) { b.condition.stood = static_cast<Stood>(i); }},
  {"fans_at_stand", "Brake fans on the stand", FieldGroup::Turnaround, true, no_and_yes(),
   LeftOut::Usual,
   "Cools the brakes faster, where fans are fitted.",
   [](const Brief& b) { return b.turnaround.fans_at_stand ? 1 : 0; },
   [](Brief& b, int i) { b.turnaround.fans_at_stand = i != 0; }},
};
// clang-format on

}  // namespace

std::span<const Choice> brief_choices() { return kChoices; }

const Choice* find_choice(std::string_view key) {
  const auto* found = std::find_if(std::begin(kChoices), std::end(kChoices),
                                   [key](const Choice& choice) { return choice.key == key; });
  return found == std::end(kChoices) ? nullptr : found;
}

}  // namespace tillerline
