// The JSON Schemas say the same as the table of fields, in both directions.
#include <doctest/doctest.h>

#include <fstream>
#include <set>
#include <sstream>
#include <string>

#include "documents/checks.hpp"
#include "documents/fields.hpp"
#include "documents/json_text.hpp"

using namespace tillerline;

namespace {

Json schema(const std::string& kind) {
  std::ifstream file(std::string(TILLERLINE_PRESETS_DIR) + "/schema/" + kind + ".schema.json");
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return Json::parse(text.str());
}

bool is_required(const Json& object, std::string_view key) {
  if (!object.contains("required")) return false;
  for (const Json& name : object["required"]) {
    if (name == key) return true;
  }
  return false;
}

std::string type_of(const Field& field) { return field.whole ? "integer" : "number"; }

// Left out, these follow from other numbers of the document.
bool follows_from_others(std::string_view key) {
  return key == "inner_engine_arm_m" || key == "outer_engine_arm_m" || key == "main_wheel_count" ||
         key == "landing_mass_t";
}

// Compares the fields and choices of a group with an object of the schema. Fills `seen`.
void check_group(const Json& object, FieldGroup group, bool required, bool has_defaults,
                 std::set<std::string>& seen) {
  const Json& properties = object["properties"];
  const Brief defaults;
  for (const Field& field : brief_fields()) {
    if (field.group != group) continue;
    const std::string key(field.key);
    CAPTURE(key);
    REQUIRE(properties.contains(key));
    const Json& property = properties[key];
    CHECK(property["minimum"] == field.minimum);
    CHECK(property["maximum"] == field.maximum);
    CHECK(property["type"] == type_of(field));
    CHECK(property["title"] == field.label);
    CHECK(is_required(object, key) == (required && !field.optional));
    const bool defaulted = (has_defaults || field.optional) && !follows_from_others(key);
    CHECK(property.contains("default") == defaulted);
    if (defaulted) {
      CHECK(property["default"].get<double>() ==
            doctest::Approx(field.get(defaults)).epsilon(1e-9));
    }
    seen.insert(key);
  }
  for (const Choice& choice : brief_choices()) {
    if (choice.group != group) continue;
    const std::string key(choice.key);
    CAPTURE(key);
    REQUIRE(properties.contains(key));
    const Json& property = properties[key];
    CHECK(is_required(object, key) == (required && !choice.yes_no && !choice.optional));
    if (choice.yes_no) {
      CHECK(property["type"] == "boolean");
      CHECK(property["default"] == false);
    } else {
      Json words = Json::array();
      for (const ChoiceOption& option : choice.options) words.push_back(option.value);
      CHECK(property["enum"] == words);
      if (choice.optional) {
        CHECK(property["default"] == words[static_cast<std::size_t>(choice.get(defaults))]);
      }
    }
    seen.insert(key);
  }
}

// Nothing in the schema that the reader would refuse, and strictness itself.
void check_nothing_else(const Json& object, const std::set<std::string>& seen) {
  CHECK(object["additionalProperties"] == false);
  for (const auto& property : object["properties"].items()) {
    // A plain name, since clang 14 cannot capture a structured binding, which CAPTURE does.
    const std::string key = property.key();
    CAPTURE(key);
    CHECK(seen.count(key) == 1);
  }
}

void check_texts(const Json& properties) {
  CHECK(properties["name"]["maxLength"] == kLongestName);
  CHECK(properties["note"]["maxLength"] == kLongestNote);
  CHECK(properties["id"]["pattern"] == "^[a-z0-9-]{1," + std::to_string(kLongestId) + "}$");
}

}  // namespace

TEST_CASE("aircraft schema") {
  const Json object = schema("aircraft");
  std::set<std::string> seen{"format", "version", "id", "name", "note", "calibration"};
  check_group(object, FieldGroup::Aircraft, true, false, seen);
  check_nothing_else(object, seen);
  check_texts(object["properties"]);
  CHECK(object["properties"]["format"]["const"] == "tillerline/aircraft");
}

TEST_CASE("route schema") {
  const Json object = schema("route");
  std::set<std::string> seen{"format", "version", "id", "name", "aerodrome",
                             "note",   "from",    "to", "legs"};
  check_group(object, FieldGroup::Route, true, false, seen);
  check_nothing_else(object, seen);
  check_texts(object["properties"]);
  CHECK(object["properties"]["legs"]["maxItems"] == kMaxLegs);
}

TEST_CASE("legs in the route schema") {
  const Json defs = schema("route")["$defs"];
  for (const bool arc : {false, true}) {
    const Json& object = defs[arc ? "arc" : "straight"];
    std::set<std::string> seen{"kind", "name"};
    for (const LegField& field : leg_fields()) {
      if (!(arc ? field.arcs : field.straights)) continue;
      const std::string key(field.key);
      CAPTURE(key);
      REQUIRE(object["properties"].contains(key));
      const Json& property = object["properties"][key];
      CHECK(property["minimum"] == field.minimum);
      CHECK(property["maximum"] == field.maximum);
      CHECK(is_required(object, key) == !property.contains("default"));
      seen.insert(key);
    }
    check_nothing_else(object, seen);
  }
  CHECK(defs["arc"]["properties"]["turn_deg"]["not"]["exclusiveMaximum"] == kSmallestTurn_deg);
  CHECK(defs["arc"]["properties"]["turn_deg"]["not"]["exclusiveMinimum"] == -kSmallestTurn_deg);
  CHECK(defs["arc"]["properties"]["speed_limit_kt"]["anyOf"][1]["minimum"] ==
        kSlowestSpeedLimit_kt);
}

TEST_CASE("brief schema") {
  const Json object = schema("brief");
  const struct {
    const char* key;
    FieldGroup group;
    bool required;
  } parts[] = {{"day", FieldGroup::Day, true},
               {"condition", FieldGroup::Condition, true},
               {"technique", FieldGroup::Technique, false},
               {"limits", FieldGroup::Limits, false},
               {"turnaround", FieldGroup::Turnaround, false},
               {"bands", FieldGroup::Bands, false}};
  std::set<std::string> seen{"format", "version", "aircraft", "route", "observations", "entered"};
  for (const auto& part : parts) {
    const Json& inner = object["properties"][part.key];
    std::set<std::string> seen_inside;
    check_group(inner, part.group, part.required, !part.required, seen_inside);
    check_nothing_else(inner, seen_inside);
    CHECK(is_required(object, part.key) == part.required);
    seen.insert(part.key);
  }
  check_nothing_else(object, seen);
}

TEST_CASE("observations in the brief schema") {
  const Json list = schema("brief")["properties"]["observations"];
  CHECK(list["maxItems"] == kMaxObservations);
  const Json& forms = list["items"]["oneOf"];
  REQUIRE(forms.size() == observation_kinds().size());
  for (std::size_t i = 0; i < forms.size(); ++i) {
    const Json& object = forms[i];
    CHECK(object["properties"]["kind"]["const"] == observation_kinds()[i].value);
    std::set<std::string> seen{"kind"};
    for (const ObservationField& field : observation_fields()) {
      if (!carries(field, static_cast<ObservationKind>(i))) continue;
      const std::string key(field.key);
      CAPTURE(key);
      REQUIRE(object["properties"].contains(key));
      const Json& property = object["properties"][key];
      CHECK(property["minimum"] == field.minimum);
      CHECK(property["maximum"] == field.maximum);
      CHECK(property["type"] == (field.whole ? "integer" : "number"));
      CHECK(is_required(object, key));
      CHECK(seen.insert(key).second);
    }
    check_nothing_else(object, seen);
  }
}

TEST_CASE("the calibration in the aircraft schema") {
  const Json calibration = schema("aircraft")["properties"]["calibration"];
  CHECK(calibration["properties"]["observations"]["maximum"] == kMaxObservations);
  const Json& list = calibration["properties"]["constants"];
  CHECK(list["maxItems"] == kConstants);
  std::set<std::string> named;
  for (const Json& form : list["items"]["oneOf"]) {
    for (const Json& name : form["properties"]["constant"]["enum"]) named.insert(name);
  }
  CHECK(named.size() == calibrated_constants().size());
  for (const ChoiceOption& constant : calibrated_constants()) {
    CHECK(named.count(std::string(constant.value)) == 1);
  }
}

TEST_CASE("aerodrome schema") {
  const Json object = schema("aerodrome");
  const Field& elevation = *find_field("start_elevation_m");
  CHECK(object["additionalProperties"] == false);
  const Json& point = object["properties"]["points"]["items"]["properties"]["elevation_m"];
  for (const Json& property : {object["properties"]["elevation_m"], point}) {
    CHECK(property["minimum"] == elevation.minimum);
    CHECK(property["maximum"] == elevation.maximum);
  }
  check_texts(object["properties"]);
}
