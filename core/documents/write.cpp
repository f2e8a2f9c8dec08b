// Writing documents: keys in a fixed order, numbers in their shortest form that reads back to the
// same bits.
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <type_traits>

#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "documents/json_text.hpp"

namespace tillerline {
namespace {

Json json_number(double value) {
  if (value == std::floor(value) && std::fabs(value) < 1e15) {
    return static_cast<std::int64_t>(value);
  }
  return value;
}

// A field's value went through SI, so that 20 kt may have become 19.999999999999996 kt. Of all
// numbers that give the same bits in SI, the one with the fewest digits is written.
template <class Holder, class FieldOf>
Json number_json(const FieldOf& field, const Holder& holder) {
  static_assert(std::is_trivially_copyable_v<Holder>);
  Holder trial;
  // A copy of all bytes, so that padding between members does not disturb the comparison.
  std::memcpy(static_cast<void*>(&trial), &holder, sizeof holder);
  const auto same = [&](double candidate) {
    field.set(trial, candidate);
    // The same bits are what is asked for, not equal values.
    // NOLINTNEXTLINE(bugprone-suspicious-memory-comparison)
    return std::memcmp(&trial, &holder, sizeof holder) == 0;
  };
  const double value = field.get(holder);
  char text[40];
  for (int digits = 1; digits <= 17; ++digits) {
    std::snprintf(text, sizeof text, "%.*g", digits, value);
    const double candidate = std::strtod(text, nullptr);
    if (same(candidate)) return json_number(candidate);
  }
  double above = value;
  double below = value;
  for (int step = 0; step < 4; ++step) {
    above = std::nextafter(above, HUGE_VAL);
    below = std::nextafter(below, -HUGE_VAL);
    if (same(above)) return above;
    if (same(below)) return below;
  }
  return value;
}

Json choice_json(const Choice& choice, const Brief& brief) {
  const int index = choice.get(brief);
  if (choice.yes_no) return index != 0;
  return std::string(choice.options[static_cast<std::size_t>(index)].value);
}

void put_group(Json& object, FieldGroup group, const Brief& brief) {
  for (const Field& field : brief_fields()) {
    if (field.group == group) object[std::string(field.key)] = number_json(field, brief);
  }
  for (const Choice& choice : brief_choices()) {
    if (choice.group == group) object[std::string(choice.key)] = choice_json(choice, brief);
  }
}

// The members of the group whose value the reader would not fill in by itself.
void put_changes(Json& object, FieldGroup group, const Brief& brief, const Brief& filled_in) {
  Json all = Json::object();
  Json usual = Json::object();
  put_group(all, group, brief);
  put_group(usual, group, filled_in);
  for (const auto& [key, value] : all.items()) {
    if (value != usual[key]) object[key] = value;
  }
}

Json header(std::string_view kind) {
  return Json{{"format", "tillerline/" + std::string(kind)}, {"version", 1}};
}

Json calibration_json(const CalibrationRecord& record) {
  Json constants = Json::array();
  for (const CalibrationRecord::Item& item : record.items) {
    const bool axis = item.constant == Constant::TurnAxis;
    const auto named = static_cast<std::size_t>(item.constant);
    constants.push_back(
        {{"constant", std::string(calibrated_constants()[named].value)},
         {axis ? "value_m" : "factor", json_number(item.factor)},
         {axis ? "standard_error_m" : "standard_error", json_number(item.standard_error)}});
  }
  return {{"observations", record.observations},
          {"note", record.note},
          {"constants", std::move(constants)}};
}

Json observation_json(const Observation& observation) {
  const auto kind = static_cast<std::size_t>(observation.kind);
  Json json = {{"kind", std::string(observation_kinds()[kind].value)}};
  for (const ObservationField& field : observation_fields()) {
    if (!carries(field, observation.kind)) continue;
    json[std::string(field.key)] = number_json(field, observation);
  }
  return json;
}

Json aircraft_json(const AircraftFacts& facts, const Brief& brief) {
  Json json = header("aircraft");
  json["id"] = facts.id;
  json["name"] = facts.name;
  json["note"] = facts.note;
  put_group(json, FieldGroup::Aircraft, brief);
  if (!facts.calibration.items.empty()) {
    json["calibration"] = calibration_json(facts.calibration);
  }
  return json;
}

Json leg_json(const Leg& leg, const std::string& name) {
  const bool arc = leg.kind == LegKind::Arc;
  Json json = {{"kind", arc ? "arc" : "straight"}};
  if (!name.empty()) json["name"] = name;
  for (const LegField& field : leg_fields()) {
    if (arc ? field.arcs : field.straights) {
      json[std::string(field.key)] = number_json(field, leg);
    }
  }
  return json;
}

Json route_json(const RouteFacts& facts, const Brief& brief) {
  Json json = header("route");
  json["id"] = facts.id;
  json["name"] = facts.name;
  json["aerodrome"] = facts.aerodrome;
  json["note"] = facts.note;
  json["from"] = facts.from;
  json["to"] = facts.to;
  put_group(json, FieldGroup::Route, brief);
  Json legs = Json::array();
  for (std::size_t i = 0; i < brief.route.legs.size(); ++i) {
    const std::string name = i < facts.leg_names.size() ? facts.leg_names[i] : "";
    legs.push_back(leg_json(brief.route.legs[i], name));
  }
  json["legs"] = std::move(legs);
  return json;
}

Json brief_json(const BriefDocument& document) {
  Json json = header("brief");
  json["aircraft"] = aircraft_json(document.aircraft, document.brief);
  json["route"] = route_json(document.route, document.brief);
  const auto group = [&](const char* key, FieldGroup which) {
    Json object = Json::object();
    put_group(object, which, document.brief);
    json[key] = std::move(object);
  };
  group("day", FieldGroup::Day);
  group("condition", FieldGroup::Condition);
  group("technique", FieldGroup::Technique);
  group("limits", FieldGroup::Limits);
  group("turnaround", FieldGroup::Turnaround);
  group("bands", FieldGroup::Bands);
  if (!document.observations.empty()) {
    Json observations = Json::array();
    for (const Observation& observation : document.observations) {
      observations.push_back(observation_json(observation));
    }
    json["observations"] = std::move(observations);
  }
  json["entered"] = document.entered;
  return json;
}

template <class Document>
bool is_preset(const Document& document, const std::vector<Document>& presets,
               std::string (*write)(const Document&)) {
  for (const Document& preset : presets) {
    if (preset.facts.id == document.facts.id) return write(preset) == write(document);
  }
  return false;
}

// What the groups of a document hold counts as entered where the document does not say so itself.
std::vector<std::string> taken_as_entered(const Json& json) {
  std::vector<std::string> keys;
  for (const char* group : {"day", "condition", "technique", "limits", "turnaround", "bands"}) {
    const auto object = json.find(group);
    if (object == json.end()) continue;
    for (const auto& [key, value] : object->items()) keys.push_back(key);
  }
  return keys;
}

// Presets by their id, and nothing that the reader fills in by itself.
Json shortest_brief_json(const BriefDocument& document) {
  Json json = brief_json(document);
  if (is_preset(aircraft_of(document), preset_aircraft(), write_aircraft)) {
    json["aircraft"] = document.aircraft.id;
  }
  if (is_preset(route_of(document), preset_routes(), write_route))
    json["route"] = document.route.id;
  Brief filled_in;
  filled_in.aircraft = document.brief.aircraft;
  filled_in.route = document.brief.route;
  filled_in.turnaround.landing_mass_kg = usual_landing_mass_kg(filled_in.aircraft);
  const auto shorten = [&](const char* key, FieldGroup group) {
    Json changes = Json::object();
    put_changes(changes, group, document.brief, filled_in);
    json.erase(key);
    if (!changes.empty()) json[key] = std::move(changes);
  };
  shorten("technique", FieldGroup::Technique);
  shorten("limits", FieldGroup::Limits);
  shorten("turnaround", FieldGroup::Turnaround);
  shorten("bands", FieldGroup::Bands);
  if (taken_as_entered(json) == document.entered) json.erase("entered");
  return json;
}

Json error_json(const DocumentError& error) {
  return Json{{"field", error.field},
              {"value", error.value},
              {"allowed", error.allowed},
              {"message", error.message}};
}

std::string text_of(const Json& json, int indent) {
  return json.dump(indent, ' ', false, Json::error_handler_t::replace);
}

}  // namespace

std::string write_aircraft(const AircraftDocument& document) {
  Brief brief;
  brief.aircraft = document.aircraft;
  return text_of(aircraft_json(document.facts, brief), 2) + "\n";
}

std::string write_route(const RouteDocument& document) {
  Brief brief;
  brief.route = document.route;
  return text_of(route_json(document.facts, brief), 2) + "\n";
}

std::string write_brief(const BriefDocument& document) {
  return text_of(brief_json(document), 2) + "\n";
}

std::string write_brief_line(const BriefDocument& document) {
  return text_of(brief_json(document), -1);
}

std::string write_shortest_brief(const BriefDocument& document) {
  const std::string whole = write_brief_line(document);
  std::string text = text_of(shortest_brief_json(document), -1);
  const Read<BriefDocument> read = read_brief(text);
  // What is left out has to come back as it was; else all of it is written.
  const bool same = read.value && write_brief_line(*read.value) == whole;
  return same ? text : whole;
}

std::string write_error_line(const std::vector<DocumentError>& errors) {
  Json json = Json::object();
  if (!errors.empty()) json["error"] = error_json(errors.front());
  Json others = Json::array();
  for (std::size_t i = 1; i < errors.size(); ++i) others.push_back(error_json(errors[i]));
  if (!others.empty()) json["others"] = std::move(others);
  return text_of(json, -1);
}

}  // namespace tillerline
