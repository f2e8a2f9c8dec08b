#include "documents/schema.hpp"

#include "documents/document_members.hpp"
#include "documents/fields.hpp"
#include "documents/json_number.hpp"

namespace tillerline {
namespace {

constexpr std::string_view kKinds[] = {"aircraft", "route", "aerodrome", "brief"};
constexpr const char* kNoControlCharacters = R"(^[^\u0000-\u001f\u007f]*$)";

// An object that may hold these properties and nothing else.
struct ObjectSchema {
  std::string description;
  Json required = Json::array();
  Json properties = Json::object();

  void add(std::string_view key, Json property, bool has_to_be_there) {
    properties[std::string(key)] = std::move(property);
    if (has_to_be_there) required.push_back(key);
  }
};

// Adds it to what an object has to say first.
Json finished(const ObjectSchema& object, Json json = Json::object()) {
  if (!object.description.empty()) json["description"] = object.description;
  json["type"] = "object";
  json["additionalProperties"] = false;
  if (!object.required.empty()) json["required"] = object.required;
  json["properties"] = object.properties;
  return json;
}

Json number_schema(const NumberSpec& spec) {
  Json json = {{"type", spec.whole ? "integer" : "number"},
               {"minimum", json_number(spec.range.minimum)},
               {"maximum", json_number(spec.range.maximum)}};
  if (spec.hole.minimum < spec.hole.maximum) {
    json["not"] = {{"exclusiveMinimum", json_number(spec.hole.minimum)},
                   {"exclusiveMaximum", json_number(spec.hole.maximum)}};
  }
  json["title"] = spec.label;
  std::string help(spec.help);
  if (!spec.unit.empty()) help.append(" Unit: ").append(spec.unit).append(".");
  if (!spec.follows.empty()) help.append(" Left out: ").append(spec.follows).append(".");
  json["description"] = help;
  return json;
}

void add_number(ObjectSchema& object, const NumberSpec& spec) {
  object.add(spec.key, number_schema(spec), spec.left_out == LeftOut::Refused);
}

// With the default that this holder is made with.
template <class Holder>
void add_field(ObjectSchema& object, const NumberOf<Holder>& field, const Holder& usual) {
  add_number(object, field.spec);
  if (field.spec.left_out != LeftOut::Usual) return;
  object.properties[std::string(field.spec.key)]["default"] = number_json(field, usual);
}

// All that a leg or an observation of this kind has.
template <class Holder>
void add_fields(ObjectSchema& object, std::span<const NumberOf<Holder>> fields,
                const Holder& holder) {
  for (const NumberOf<Holder>& field : fields) {
    if (field.applies(holder)) add_field(object, field, holder);
  }
}

Json choice_schema(const Choice& choice) {
  const auto usual = static_cast<std::size_t>(choice.get(Brief{}));
  Json json = Json::object();
  if (choice.yes_no) {
    json["type"] = "boolean";
  } else {
    json["enum"] = Json::array();
    for (const ChoiceOption& option : choice.options) json["enum"].push_back(option.value);
  }
  json["title"] = choice.label;
  json["description"] = choice.help;
  if (choice.left_out == LeftOut::Usual) {
    json["default"] = choice.yes_no ? Json(usual != 0) : Json(choice.options[usual].value);
  }
  return json;
}

void add_group(ObjectSchema& object, FieldGroup group) {
  const Brief usual;
  for (const Field& field : brief_fields()) {
    if (field.spec.group == group) add_field(object, field, usual);
  }
  for (const Choice& choice : brief_choices()) {
    if (choice.group != group) continue;
    object.add(choice.key, choice_schema(choice), choice.left_out == LeftOut::Refused);
  }
}

void add_text(ObjectSchema& object, const TextSpec& spec) {
  Json json = {{"type", "string"}};
  if (spec.required) json["minLength"] = 1;
  json["maxLength"] = spec.longest;
  json["pattern"] = kNoControlCharacters;
  json["description"] = spec.help;
  object.add(spec.key, std::move(json), spec.required);
}

void add_header(ObjectSchema& object, std::string_view kind) {
  object.add("format", {{"const", "tillerline/" + std::string(kind)}}, true);
  object.add("version", {{"const", 1}}, true);
}

void add_id(ObjectSchema& object) {
  object.add("id",
             {{"type", "string"},
              {"pattern", "^[a-z0-9-]{1," + std::to_string(kLongestId) + "}$"},
              {"description", "Short name, unique among documents of its kind."}},
             true);
}

Json list_schema(std::size_t least, std::size_t most, Json items) {
  Json json = {{"type", "array"}};
  if (least > 0) json["minItems"] = least;
  json["maxItems"] = most;
  json["items"] = std::move(items);
  return json;
}

Json described(Json json, std::string_view description) {
  json["description"] = description;
  return json;
}

Json estimate_schema(const EstimateSpec& spec) {
  Json names = Json::array();
  for (std::size_t i = 0; i < options_of(Constant{}).size(); ++i) {
    const auto constant = static_cast<Constant>(i);
    if (&estimate_spec(constant) == &spec) names.push_back(document_word(constant));
  }
  ObjectSchema object;
  object.add("constant", {{"enum", names}}, true);
  add_number(object, spec.value);
  add_number(object, spec.standard_error);
  return finished(object);
}

Json calibration_schema() {
  ObjectSchema object{"What a calibration found. The values are in the constants already."};
  add_number(object, kObservationsUsed);
  add_text(object, kCalibrationNote);
  const Json forms = {
      {"oneOf", Json::array({estimate_schema(kFactorFound), estimate_schema(kPlaceFound)})}};
  object.add("constants", list_schema(1, kConstants, forms), true);
  return finished(object);
}

Json file(std::string_view kind, std::string_view title, const ObjectSchema& object) {
  return finished(object, {{"$schema", "https://json-schema.org/draft/2020-12/schema"},
                           {"$id", std::string(kind) + ".schema.json"},
                           {"title", title}});
}

Json aircraft_schema() {
  ObjectSchema object{
      "One aircraft type, as far as taxiing needs it. Keys carry their unit. Distances are from "
      "the "
      "main-gear axis, the middle of the main gear. Some values must also fit together: the lowest "
      "mass below the highest, the eye behind the nose tip, the wheel span wider than the track."};
  add_header(object, "aircraft");
  add_id(object);
  add_text(object, kName);
  add_text(object, kAircraftNote);
  add_group(object, FieldGroup::Aircraft);
  object.add("calibration", calibration_schema(), false);
  return file("aircraft", "Aircraft", object);
}

Json leg_schema(LegKind kind) {
  Leg leg;
  leg.kind = kind;
  ObjectSchema object;
  object.add("kind", {{"const", document_word(kind)}}, true);
  add_text(object, kLegName);
  add_fields(object, leg_fields(), leg);
  return finished(object);
}

Json route_schema() {
  ObjectSchema object{
      "A taxi route along a painted centreline: straights and arcs, from the place of the main "
      "gear "
      "at the start to the line to stop at. The first and the last leg are straights. An easing "
      "curve is at most as long as the radius times the angle."};
  add_header(object, "route");
  add_id(object);
  add_text(object, kName);
  add_text(object, kAerodromeName);
  add_text(object, kPlaceNote);
  add_text(object, kFrom);
  add_text(object, kTo);
  add_group(object, FieldGroup::Route);
  Json forms = Json::array();
  Json definitions = Json::object();
  for (const LegKind kind : {LegKind::Straight, LegKind::Arc}) {
    const std::string word(document_word(kind));
    forms.push_back({{"$ref", "#/$defs/" + word}});
    definitions[word] = leg_schema(kind);
  }
  object.add("legs", list_schema(1, kMaxLegs, {{"oneOf", forms}}), true);
  Json json = file("route", "Route", object);
  json["$defs"] = definitions;
  return json;
}

Json aerodrome_schema() {
  ObjectSchema object{"An aerodrome with named points and the routes that belong to it."};
  add_header(object, "aerodrome");
  add_id(object);
  add_text(object, kName);
  add_text(object, kPlaceNote);
  add_number(object, kElevation);
  ObjectSchema point;
  add_text(point, kPointName);
  add_number(point, kElevation);
  object.add("points", list_schema(0, kMostMembers, finished(point)), true);
  object.add("route_ids",
             described(list_schema(0, kMostMembers, {{"type", "string"}}),
                       "In the order in which they are offered."),
             true);
  return file("aerodrome", "Aerodrome", object);
}

Json observation_schema(ObservationKind kind) {
  Observation observation;
  observation.kind = kind;
  ObjectSchema object;
  object.add("kind", {{"const", document_word(kind)}}, true);
  add_fields(object, observation_fields(), observation);
  return finished(object);
}

Json observations_schema() {
  Json forms = Json::array();
  for (std::size_t i = 0; i < options_of(ObservationKind{}).size(); ++i) {
    forms.push_back(observation_schema(static_cast<ObservationKind>(i)));
  }
  return described(
      list_schema(0, Observations::capacity(), {{"oneOf", forms}}),
      "For the calibration of the aircraft's constants. Brake temperatures are of the heat pack.");
}

// A whole document, or a preset's id.
Json part_schema(std::string_view kind) {
  return {{"oneOf", Json::array({Json{{"type", "string"}, {"description", "The id of a preset."}},
                                 Json{{"$ref", std::string(kind) + ".schema.json"}}})}};
}

Json brief_schema() {
  ObjectSchema object{
      "Everything one card is computed from. Aircraft and route are whole documents or the id of a "
      "preset. Technique, limits, turnaround and bands may be left out, whole or in part: then the "
      "defaults hold."};
  add_header(object, "brief");
  object.add("aircraft", part_schema("aircraft"), true);
  object.add("route", part_schema("route"), true);
  for (const FieldGroup group : groups_of_briefs()) {
    ObjectSchema part{std::string(group_spec(group).help)};
    add_group(part, group);
    object.add(group_spec(group).key, finished(part), !may_be_left_out(group));
  }
  object.add("observations", observations_schema(), false);
  object.add("entered",
             described(list_schema(0, kMostMembers, {{"type", "string"}}),
                       "Keys that a person entered; the others are defaults. Left out: all that "
                       "day, condition, technique, limits, turnaround and bands give."),
             false);
  return file("brief", "Brief", object);
}

Json schema(std::string_view kind) {
  if (kind == "aircraft") return aircraft_schema();
  if (kind == "route") return route_schema();
  return kind == "aerodrome" ? aerodrome_schema() : brief_schema();
}

}  // namespace

std::span<const std::string_view> schema_kinds() { return kKinds; }

std::string schema_text(std::string_view kind) { return schema(kind).dump(2) + "\n"; }

}  // namespace tillerline
