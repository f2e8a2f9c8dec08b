#include "documents/presets.hpp"

#include <algorithm>

#include "documents/documents.hpp"
#include "documents/fields.hpp"

namespace tillerline {
namespace {

// Presets were checked when they were made (tests/documents); one that still fails is left out
// rather than shown half read.
template <class Document>
std::vector<Document> read_presets(std::string_view folder,
                                   Read<Document> (*read)(std::string_view)) {
  std::vector<Document> documents;
  for (const PresetText& preset : preset_texts()) {
    if (preset.path.substr(0, folder.size()) != folder) continue;
    Read<Document> document = read(preset.text);
    if (document.value) documents.push_back(*std::move(document.value));
  }
  return documents;
}

std::vector<AircraftDocument> aircraft_by_mass() {
  auto aircraft = read_presets<AircraftDocument>("aircraft/", read_aircraft);
  std::sort(aircraft.begin(), aircraft.end(), [](const auto& a, const auto& b) {
    return a.aircraft.highest_mass_kg < b.aircraft.highest_mass_kg;
  });
  return aircraft;
}

AerodromeDocument first_aerodrome() {
  auto aerodromes = read_presets<AerodromeDocument>("aerodrome/", read_aerodrome);
  return aerodromes.empty() ? AerodromeDocument{} : std::move(aerodromes.front());
}

// In the order in which the aerodrome names them.
std::vector<RouteDocument> routes_in_order() {
  auto routes = read_presets<RouteDocument>("routes/", read_route);
  const std::vector<std::string>& order = preset_aerodrome().route_ids;
  const auto place = [&order](const RouteDocument& route) {
    return std::find(order.begin(), order.end(), route.facts.id) - order.begin();
  };
  std::stable_sort(routes.begin(), routes.end(),
                   [&place](const auto& a, const auto& b) { return place(a) < place(b); });
  return routes;
}

template <class Document>
const Document& preset_named(const std::vector<Document>& presets, std::string_view id) {
  for (const Document& preset : presets) {
    if (preset.facts.id == id) return preset;
  }
  return presets.front();
}

void set_by_key(Brief& brief, std::string_view key, double value) {
  find_field(key)->set(brief, value);
}

}  // namespace

const std::vector<AircraftDocument>& preset_aircraft() {
  static const std::vector<AircraftDocument> aircraft = aircraft_by_mass();
  return aircraft;
}

const AerodromeDocument& preset_aerodrome() {
  static const AerodromeDocument aerodrome = first_aerodrome();
  return aerodrome;
}

const std::vector<RouteDocument>& preset_routes() {
  static const std::vector<RouteDocument> routes = routes_in_order();
  return routes;
}

double usual_landing_mass_kg(const Aircraft& aircraft) {
  const double range_kg = aircraft.highest_mass_kg - aircraft.lowest_mass_kg;
  const double mass_kg = aircraft.lowest_mass_kg + 0.6 * range_kg;
  const double whole_kg =
      units::kTonne_kg * static_cast<double>(static_cast<int>(mass_kg / units::kTonne_kg));
  return std::max(whole_kg, aircraft.lowest_mass_kg);
}

BriefDocument make_brief(const AircraftDocument& aircraft, const RouteDocument& route) {
  BriefDocument document;
  document.aircraft = aircraft.facts;
  document.route = route.facts;
  document.brief.aircraft = aircraft.aircraft;
  document.brief.route = route.route;
  const Aircraft& type = aircraft.aircraft;
  const double mass_kg = type.lowest_mass_kg + 0.85 * (type.highest_mass_kg - type.lowest_mass_kg);
  // To whole tonnes, as crews speak of it, when that stays within the type's range.
  const double whole_t = static_cast<double>(static_cast<int>(mass_kg / units::kTonne_kg));
  const FieldRange range = field_range(*find_field("mass_t"), document.brief);
  set_by_key(document.brief, "mass_t", std::clamp(whole_t, range.minimum, range.maximum));
  document.brief.condition.engines_running = type.engine_count;
  document.brief.turnaround.landing_mass_kg = usual_landing_mass_kg(type);
  return document;
}

AircraftDocument aircraft_of(const BriefDocument& document) {
  return {document.aircraft, document.brief.aircraft};
}

RouteDocument route_of(const BriefDocument& document) {
  return {document.route, document.brief.route};
}

BriefDocument default_brief() {
  BriefDocument document = make_brief(preset_named(preset_aircraft(), "long-four"),
                                      preset_named(preset_routes(), "stand-12-to-b1"));
  set_by_key(document.brief, "mass_t", 298.0);
  set_by_key(document.brief, "brake_temperature_c", 85.0);
  set_by_key(document.brief, "temperature_c", 14.0);
  set_by_key(document.brief, "qnh_hpa", 1009.0);
  set_by_key(document.brief, "wind_from_deg", 250.0);
  set_by_key(document.brief, "wind_kt", 8.0);
  return document;
}

}  // namespace tillerline
