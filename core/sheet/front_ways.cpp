// The ways out in words: what to do as a verb or a name, then what it leads to.
#include <cmath>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"
#include "sheet/parts.hpp"
#include "words/words.hpp"

namespace tillerline {
namespace {

using sheet_parts::Source;

std::string option_label(std::string_view choice, int option) {
  return std::string(find_choice(choice)->options[static_cast<std::size_t>(option)].label);
}

std::string head_words(const Source& source, const WayOut& way) {
  switch (way.change) {
    case WayOutChange::OtherPoint:
      return option_label("turning", way.option);
    case WayOutChange::OtherBraking:
      return option_label("braking", way.option);
    case WayOutChange::OtherEngines:
      return "Taxi on " + words::count(way.option, "engine");
    case WayOutChange::LowerBand:
      return "Brake at " + source.say.speed(way.amount) + " already";
    case WayOutChange::Fans:
      return "Brake fans on";
    case WayOutChange::WaitOnStand:
      return "Wait " + words::duration_up(way.wait_s) + " on the stand";
  }
  return "";
}

constexpr std::uint64_t kHot =
    bit_of(CautionKind::BrakesTooHot) | bit_of(CautionKind::BrakesBeyondModel);
constexpr std::uint64_t kOffLine =
    bit_of(CautionKind::WheelOffPavement) | bit_of(CautionKind::TurnTooTight) |
    bit_of(CautionKind::EdgeMarginSmall) | bit_of(CautionKind::NoseMarginSmall);

std::string result_words(const Source& source, const WayOut& way) {
  std::string text;
  const auto add = [&](const std::string& part) { text += (text.empty() ? "" : ", ") + part; };
  if ((way.clears & kOffLine) != 0 && std::isfinite(way.least_margin_m)) {
    const bool on_line = way.nose_outside_m < 0.05;
    add(on_line ? "nose gear on the centreline"
                : "nose gear " + source.say.length_tenth(way.nose_outside_m) + " outside");
    add("edge " + source.say.margin(way.least_margin_m));
  }
  if ((way.clears & kHot) != 0) {
    const auto said = source.say.temperature_against(way.hottest_k, source.card.heat.limit_k);
    add("hottest brake " + said.value + ", limit " + said.limit);
  }
  if (text.empty()) add("no longer: " + sheet_parts::kinds_words(way.clears));
  if (way.change == WayOutChange::WaitOnStand)
    add("brakes " + source.say.temperature(way.amount) + " at the start");
  if (way.leaves != 0) add("still: " + sheet_parts::kinds_words(way.leaves));
  if (way.adds != 0) add("Limit exceeded instead: " + sheet_parts::kinds_words(way.adds));
  return text;
}

Tone tone_of(const WayOut& way) {
  if (way.adds != 0) return Tone::Exceeded;
  return way.leaves != 0 ? Tone::Care : Tone::Plain;
}

}  // namespace

std::vector<FrontWay> front_ways(const BriefDocument& document, const Card& card,
                                 const WaysOut& ways, std::size_t most, const ShownUnits& units) {
  const Source source{document, card, {.units = units}};
  std::vector<FrontWay> rows;
  for (const WayOut& way : ways) {
    if (rows.size() == most) break;
    rows.push_back({head_words(source, way), result_words(source, way), tone_of(way), way});
  }
  return rows;
}

}  // namespace tillerline
