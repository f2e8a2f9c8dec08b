// The JSON Schemas: the files are what the program makes, and they and the reader take the same
// documents.
#include "documents/schema.hpp"

#include <doctest/doctest.h>

#include <cstdlib>
#include <fstream>
#include <string>
#include <vector>

#include "documents/documents.hpp"
#include "documents/example.hpp"
#include "documents/json_schema.hpp"

using namespace tillerline;
using namespace tillerline::testing;
using namespace tillerline::tests;

namespace {

std::vector<std::string> strings(const Json& list) {
  std::vector<std::string> all;
  for (const Json& item : list) all.push_back(item.get<std::string>());
  return all;
}

bool reader_accepts(const std::string& kind, const Json& document) {
  const std::string text = document.dump();
  if (kind == "aircraft") return read_aircraft(text).value.has_value();
  if (kind == "route") return read_route(text).value.has_value();
  return read_brief(text).value.has_value();
}

// Both refuse the document with `value` at that place; null takes it out.
void check_refused(const std::string& kind, Json document, const Json::json_pointer& at,
                   const Json& value) {
  if (value.is_null()) {
    document[at.parent_pointer()].erase(at.back());
  } else {
    document[at] = value;
  }
  CAPTURE(at.to_string());
  CAPTURE(value.dump());
  CHECK_FALSE(JsonSchema(kind).accepts(document));
  CHECK_FALSE(reader_accepts(kind, document));
}

// Left out, these are worked out from other numbers of the document.
bool follows_from_others(const std::string& key) {
  return key == "inner_engine_arm_m" || key == "outer_engine_arm_m" || key == "main_wheel_count" ||
         key == "landing_mass_t" || key == "effective_steering_deg";
}

// Every number of this object: just outside its range, as text, half a count, left out.
void check_numbers(const std::string& kind, const Json& document, const Json::json_pointer& object,
                   const Json& schema, int& numbers) {
  const auto required = strings(schema.value("required", Json::array()));
  for (const auto& item : schema["properties"].items()) {
    const std::string& key = item.key();
    const Json& property = item.value();
    if (!property.contains("minimum")) continue;
    ++numbers;
    const Json::json_pointer at = object / key;
    check_refused(kind, document, at, property["minimum"].get<double>() - 0.001);
    check_refused(kind, document, at, property["maximum"].get<double>() + 0.001);
    check_refused(kind, document, at, "1");
    if (property["type"] == "integer") {
      check_refused(kind, document, at, property["minimum"].get<double>() + 0.5);
    }
    const bool needed = std::count(required.begin(), required.end(), key) == 1;
    CAPTURE(key);
    if (needed) check_refused(kind, document, at, Json());
    Json without = document;
    without[object].erase(key);
    CHECK(JsonSchema(kind).accepts(without) == !needed);
    const bool has_default = property.contains("default");
    CHECK((follows_from_others(key) ? !needed && !has_default : needed != has_default));
  }
  Json more = document;
  more[object / "speed"] = 1;
  CHECK_FALSE(JsonSchema(kind).accepts(more));
  CHECK_FALSE(reader_accepts(kind, more));
}

}  // namespace

TEST_CASE("the schemas in presets/schema are those that the program makes") {
  const char* const record = std::getenv("TILLERLINE_RECORD");
  for (const std::string_view kind : schema_kinds()) {
    const std::string path = schema_path(std::string(kind));
    if (record != nullptr) std::ofstream(path) << schema_text(kind);
    CAPTURE(path);
    const bool same = file_text(path) == schema_text(kind);
    CHECK_MESSAGE(same, "TILLERLINE_RECORD=1 writes it anew");
  }
}

TEST_CASE("the schemas accept the presets and a whole brief") {
  for (const AircraftDocument& aircraft : preset_aircraft()) {
    CHECK(JsonSchema("aircraft").accepts(Json::parse(write_aircraft(aircraft))));
  }
  for (const RouteDocument& route : preset_routes()) {
    CHECK(JsonSchema("route").accepts(Json::parse(write_route(route))));
  }
  CHECK(JsonSchema("brief").accepts(good_brief()));
  CHECK(JsonSchema("brief").accepts(good_whole_brief()));
}

TEST_CASE("schemas and reader refuse the same numbers") {
  int numbers = 0;
  const Json aircraft = Json::parse(write_aircraft(aircraft_of(default_brief())));
  check_numbers("aircraft", aircraft, Json::json_pointer(), schema_file("aircraft"), numbers);
  const Json route = Json::parse(write_route(route_of(default_brief())));
  check_numbers("route", route, Json::json_pointer(), schema_file("route"), numbers);
  const Json definitions = schema_file("route")["$defs"];
  for (const int leg : {0, 1}) {
    const Json::json_pointer at = Json::json_pointer("/legs") / static_cast<std::size_t>(leg);
    const std::string kind = route[at]["kind"];
    CHECK(kind == (leg == 0 ? "straight" : "arc"));
    check_numbers("route", route, at, definitions[kind], numbers);
  }
  const Json brief = good_whole_brief();
  for (const char* group : {"day", "condition", "technique", "limits", "turnaround", "bands"}) {
    check_numbers("brief", brief, Json::json_pointer("/" + std::string(group)),
                  schema_file("brief")["properties"][group], numbers);
  }
  CHECK(numbers > 120);
}

TEST_CASE("schemas and reader refuse the same of everything else") {
  const Json brief = good_brief();
  const auto refused = [&](const char* at, const Json& value) {
    check_refused("brief", brief, Json::json_pointer(at), value);
  };
  refused("/format", "tillerline/route");
  refused("/version", 2);
  refused("/day", Json());
  refused("/condition", Json());
  refused("/day/surface", Json());
  refused("/day/surface", "damp");
  refused("/day/reported_code", 5);
  refused("/condition/fans_on", "no");
  refused("/entered", "mass_t");
  refused("/observations", Json::array({Json{{"kind", "turn_axis"}, {"ahead_m", 0}}}));
  refused("/observations",
          Json::array({Json{{"kind", "turn_axis"}, {"ahead_m", 11}, {"error_m", 0.1}}}));
  refused("/observations",
          Json::array(
              {Json{{"kind", "turn_axis"}, {"ahead_m", 0}, {"error_m", 0.1}, {"mass_t", 300}}}));
  refused("/nothing", 1);
  const Json route = Json::parse(write_route(route_of(default_brief())));
  const auto route_refused = [&](const char* at, const Json& value) {
    check_refused("route", route, Json::json_pointer(at), value);
  };
  route_refused("/id", "Stand 12");
  route_refused("/name", "");
  route_refused("/name", std::string(61, 'a'));
  route_refused("/note", "two\nlines");
  route_refused("/from", Json());
  route_refused("/legs", Json::array());
  route_refused("/legs/1/turn_deg", 4.9);
  route_refused("/legs/1/turn_deg", -4.9);
  route_refused("/legs/1/speed_limit_kt", 2.9);
  route_refused("/legs/1/length_m", 100);  // a turn's follows from radius and angle
  route_refused("/legs/0/radius_m", 45);
  route_refused("/legs/0/kind", "curve");
}

TEST_CASE("what a brief and its parts must say, by hand") {
  const Json brief = schema_file("brief");
  CHECK(strings(brief["required"]) ==
        std::vector<std::string>{"format", "version", "aircraft", "route", "day", "condition"});
  const Json& parts = brief["properties"];
  CHECK(strings(parts["day"]["required"]) == std::vector<std::string>{"wind_from_deg", "wind_kt",
                                                                      "temperature_c", "qnh_hpa",
                                                                      "surface"});
  CHECK(strings(parts["condition"]["required"]) ==
        std::vector<std::string>{"mass_t", "engines_running", "brake_temperature_c"});
  for (const char* group : {"technique", "limits", "turnaround", "bands"}) {
    CHECK_FALSE(parts[group].contains("required"));
    CHECK_FALSE(parts[group]["description"].get<std::string>().empty());
  }
  CHECK(parts["technique"]["properties"]["band_top_kt"]["default"] == 20);
  CHECK(parts["technique"]["properties"]["braking"]["default"] == "few_long");
  CHECK(parts["limits"]["properties"]["departure_brake_c"]["default"] == 300);
  CHECK(parts["limits"]["properties"]["seat_side_load_g"]["default"] == 0.13);
  CHECK(parts["condition"]["properties"]["fans_on"]["default"] == false);
  CHECK(parts["day"]["properties"]["wind_from_deg"]["maximum"] == 360);
  CHECK(parts["day"]["properties"]["temperature_c"]["description"] ==
        "Outside air. Warm air lowers the air drag and slows the cooling of the brakes. "
        "Unit: °C.");
  CHECK(parts["observations"]["maxItems"] == 40);
  CHECK(parts["observations"]["items"]["oneOf"].size() == 5);
  const Json arc = schema_file("route")["$defs"]["arc"];
  CHECK(strings(arc["required"]) ==
        std::vector<std::string>{"kind", "radius_m", "turn_deg", "slope_percent", "width_m"});
  CHECK(schema_file(
            "aircraft")["properties"]["calibration"]["properties"]["constants"]["maxItems"] == 5);
  CHECK(schema_file("aerodrome")["properties"]["elevation_m"]["maximum"] ==
        schema_file("route")["properties"]["start_elevation_m"]["maximum"]);
}
