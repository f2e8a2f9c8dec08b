#include "documents/options.hpp"

namespace tillerline {
namespace {

// clang-format off
constexpr ChoiceOption kSurfaces[] = {
  {"dry", "Dry"}, {"wet", "Wet"}, {"slippery", "Slippery when wet"},
  {"standing_water", "Standing water"}, {"slush", "Slush"}, {"wet_snow", "Wet snow"},
  {"dry_snow", "Dry snow"}, {"compacted_snow", "Compacted snow"}, {"ice", "Ice"},
  {"wet_ice", "Wet ice"}};
constexpr ChoiceOption kCodes[] = {
  {"from_surface", "From the surface"}, {"6", "6 – dry"}, {"5", "5 – good"},
  {"4", "4 – good to medium"}, {"3", "3 – medium"}, {"2", "2 – medium to poor"},
  {"1", "1 – poor"}, {"0", "0 – nil"}};
constexpr ChoiceOption kBrakings[] = {
  {"few_long", "Few long applications"},
  {"many_short", "Many short applications"},
  {"dragging", "Dragging the brakes"}};
constexpr ChoiceOption kTurnings[] = {
  {"eye_on_line", "Eye on the line"}, {"main_gear_on_line", "Main gear on the line"},
  {"point_on_line", "A given point on the line"},
  {"best_point_on_line", "Best point on the line"},
  {"least_outside", "Nose outside least"}};
constexpr ChoiceOption kMaterials[] = {{"carbon", "Carbon"}, {"steel", "Steel"}};
constexpr ChoiceOption kEnds[] = {
  {"holding_line", "Holding line"}, {"stand_mark", "Mark on the stand"}};
constexpr ChoiceOption kLegKinds[] = {{"straight", "Straight"}, {"arc", "Turn"}};
constexpr ChoiceOption kBrakeReadings[] = {
  {"indicated", "Indicated in the cockpit"}, {"heat_pack", "Of the heat pack"}};
constexpr ChoiceOption kStood[] = {
  {"up_to_an_hour", "Up to an hour"}, {"for_hours", "For hours"},
  {"for_hours_cold", "For hours in the cold"}};
constexpr ChoiceOption kNoYes[] = {{"false", "No"}, {"true", "Yes"}};
constexpr ChoiceOption kObservationKinds[] = {
  {"speed_after_time", "Speed at a time after release"},
  {"distance_to_speed", "Distance to a speed"},
  {"heated_by", "Brakes before and after a stop"},
  {"cooled_after", "Brakes before and after some time"},
  {"turn_axis", "The spot about which it turned"}};
constexpr ChoiceOption kConstantsNamed[] = {
  {"idle_thrust", "Idle thrust"},
  {"rolling", "Rolling resistance"},
  {"heat_capacity", "Heat taken by the packs"},
  {"cooling", "Brake cooling"},
  {"turn_axis", "Turn axis ahead of main gear"}};
// clang-format on
static_assert(std::size(kConstantsNamed) == kConstants);

}  // namespace

OptionList options_of(Surface) { return kSurfaces; }
OptionList options_of(BrakeTechnique) { return kBrakings; }
OptionList options_of(TurnTechnique) { return kTurnings; }
OptionList options_of(BrakeMaterial) { return kMaterials; }
OptionList options_of(RouteEnd) { return kEnds; }
OptionList options_of(LegKind) { return kLegKinds; }
OptionList options_of(BrakeReading) { return kBrakeReadings; }
OptionList options_of(Stood) { return kStood; }
OptionList options_of(ObservationKind) { return kObservationKinds; }
OptionList options_of(Constant) { return kConstantsNamed; }
OptionList reported_codes() { return kCodes; }
OptionList no_and_yes() { return kNoYes; }

int option_named(OptionList options, std::string_view word) {
  for (std::size_t i = 0; i < options.size(); ++i) {
    if (options[i].value == word) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace tillerline
