// Writing documents: keys in a fixed order, numbers in their shortest form that reads back to the
// same bits.
#include "documents/document_members.hpp"
#include "documents/documents.hpp"
#include "documents/fields.hpp"
#include "documents/json_number.hpp"
#include "documents/json_text.hpp"

namespace tillerline {
namespace {

Json choice_json(const Choice& choice, const Brief& brief) {
  const int index = choice.get(brief);
  if (choice.yes_no) return index != 0;
  return std::string(choice.options[static_cast<std::size_t>(index)].value);
}

void put_group(Json& object, FieldGroup group, const Brief& brief) {
  for (const Field& field : brief_fields()) {
    if (field.spec.group == group) object[std::string(field.spec.key)] = number_json(field, brief);
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
    const EstimateSpec& found = estimate_spec(item.constant);
    constants.push_back(
        {{"constant", document_word(item.constant)},
         {std::string(found.value.key), json_number(item.factor)},
         {std::string(found.standard_error.key), json_number(item.standard_error)}});
  }
  return {{"observations", record.observations},
          {"note", record.note},
          {"constants", std::move(constants)}};
}

// Those that a leg or an observation of this kind has.
template <class Holder>
void put_numbers(Json& object, std::span<const NumberOf<Holder>> fields, const Holder& holder) {
  for (const NumberOf<Holder>& field : fields) {
    const bool unsaid = field.spec.unsaid_at_zero && field.get(holder) == 0.0;
    if (field.applies(holder) && !unsaid)
      object[std::string(field.spec.key)] = number_json(field, holder);
  }
}

Json observation_json(const Observation& observation) {
  Json json = {{"kind", document_word(observation.kind)}};
  put_numbers(json, observation_fields(), observation);
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
  Json json = {{"kind", document_word(leg.kind)}};
  if (!name.empty()) json["name"] = name;
  put_numbers(json, leg_fields(), leg);
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
  for (const FieldGroup group : groups_of_briefs()) {
    Json object = Json::object();
    put_group(object, group, document.brief);
    json[std::string(group_spec(group).key)] = std::move(object);
  }
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
  for (const FieldGroup group : groups_of_briefs()) {
    const auto object = json.find(std::string(group_spec(group).key));
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
  for (const FieldGroup group : groups_of_briefs()) {
    if (!may_be_left_out(group)) continue;
    Json changes = Json::object();
    put_changes(changes, group, document.brief, filled_in);
    const std::string key(group_spec(group).key);
    json.erase(key);
    if (!changes.empty()) json[key] = std::move(changes);
  }
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
