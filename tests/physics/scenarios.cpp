#include "scenarios.hpp"

#include <algorithm>
#include <cmath>

#include "documents/fields.hpp"
#include "physics/numerics/units.hpp"

namespace tillerline::tests {
namespace {

double draw_value(Draws& draws, const Field& field, const Brief& brief) {
  const FieldRange range = field_range(field, brief);
  // Ends of ranges are where things break: one draw in six is an end.
  const int kind = draws.below(12);
  double value = kind == 0   ? range.minimum
                 : kind == 1 ? range.maximum
                             : draws.between(range.minimum, range.maximum);
  if (field.spec.whole) value = std::clamp(std::round(value), range.minimum, range.maximum);
  return value;
}

Leg draw_leg(Draws& draws, LegKind kind) {
  Leg leg;
  leg.kind = kind;
  for (const LegField& field : leg_fields()) {
    if (!field.applies(leg)) continue;
    double value = draws.below(10) == 0
                       ? field.spec.range.maximum
                       : draws.between(field.spec.range.minimum, field.spec.range.maximum);
    if (field.spec.key == "turn_deg" && std::abs(value) < kSmallestTurn_deg)
      value = value < 0.0 ? -kSmallestTurn_deg : kSmallestTurn_deg;
    if (field.spec.key == "speed_limit_kt" && (draws.coin() || value < kSlowestSpeedLimit_kt))
      value = 0.0;
    const bool of_slope =
        field.spec.key == "elevation_le90_m" || field.spec.key == "slope_guess_percent";
    if (of_slope && draws.coin()) value = 0.0;
    field.set(leg, value);
  }
  return leg;
}

BriefDocument draw_brief(Draws& draws) {
  const auto& aircraft = preset_aircraft();
  const auto& routes = preset_routes();
  BriefDocument document =
      make_brief(aircraft[static_cast<std::size_t>(draws.below(static_cast<int>(aircraft.size())))],
                 routes[static_cast<std::size_t>(draws.below(static_cast<int>(routes.size())))]);
  Brief& brief = document.brief;
  for (const Field& field : brief_fields()) field.set(brief, draw_value(draws, field, brief));
  for (const Choice& choice : brief_choices())
    choice.set(brief, draws.below(static_cast<int>(choice.options.size())));
  // Ranges depend on fields drawn later: bring everything back into them.
  for (int pass = 0; pass < 3; ++pass) {
    for (const Field& field : brief_fields()) {
      const FieldRange range = field_range(field, brief);
      const double value = field.get(brief);
      if (value < range.minimum || value > range.maximum)
        field.set(brief, std::clamp(value, range.minimum, range.maximum));
    }
  }
  brief.route.legs.clear();
  const int count = 1 + draws.below(draws.below(10) == 0 ? kMaxLegs : 10);
  for (int i = 0; i < count; ++i) {
    const bool end = i == 0 || i == count - 1;  // routes begin and end straight
    const bool arc = !end && (i % 2 == 1 || draws.below(3) == 0);
    brief.route.legs.push(draw_leg(draws, arc ? LegKind::Arc : LegKind::Straight));
  }
  document.route.leg_names.assign(brief.route.legs.size(), "");
  return document;
}

}  // namespace

std::vector<BriefDocument> preset_briefs() {
  std::vector<BriefDocument> briefs;
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    for (const RouteDocument& route : preset_routes()) {
      for (const double load : {0.3, 1.0}) {
        BriefDocument document = make_brief(aircraft, route);
        Brief& brief = document.brief;
        brief.condition.mass_kg =
            aircraft.aircraft.lowest_mass_kg +
            load * (aircraft.aircraft.highest_mass_kg - aircraft.aircraft.lowest_mass_kg);
        if (load == 1.0) {
          brief.day.wind_speed_mps = units::mps_from_knots(22.0);
          brief.day.wind_from_rad = units::radians_from_degrees(70.0);
          brief.day.temperature_k = units::kelvin_from_celsius(31.0);
          brief.day.qnh_pa = 99700.0;
        }
        briefs.push_back(document);
      }
    }
  }
  return briefs;
}

BriefDocument random_brief(Draws& draws) {
  // What the documents refuse never reaches a card: draw again.
  for (;;) {
    Read<BriefDocument> read = read_brief(write_brief(draw_brief(draws)));
    if (!read.value) continue;
    // The search for a point in each turn takes longer than all the rest: with one turn at most.
    Brief& brief = read.value->brief;
    if (brief.route.legs.size() != 3 && Technique::is_between(brief.technique.turning))
      brief.technique.turning = brief.route.legs.size() % 2 == 0 ? TurnTechnique::EyeOnLine
                                                                 : TurnTechnique::MainGearOnLine;
    return *read.value;
  }
}

Brief mirrored(Brief brief) {
  for (Leg& leg : brief.route.legs) leg.turn_rad = -leg.turn_rad;
  brief.route.start_heading_rad = -brief.route.start_heading_rad;
  brief.day.wind_from_rad = -brief.day.wind_from_rad;
  return brief;
}

}  // namespace tillerline::tests
